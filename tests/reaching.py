"""Which public functions of the kernels no question, command or rule reaches.

A look at names alone: what the lines of a function, a class, a constant or a module name, through
imports, beginning with all that stands above the kernels.  A method is reached where its class is
named and something that is reached asks any object for its name.  An annotation reaches nothing.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from pathlib import Path

import attrs

import barwright

PACKAGE = "barwright"
SOURCE = Path(barwright.__file__).parent
KERNELS = "barwright.mechanics."


@attrs.frozen
class Definition:
    """Something with a name: the lines that its use runs, and where their names are looked up."""

    module: str
    lines: tuple[ast.AST, ...]
    of_class: str | None = None
    is_constant: bool = False


@attrs.define
class Code:
    """A package's definitions by their full names, and what each module's names stand for."""

    definitions: dict[str, Definition] = attrs.field(factory=dict)
    names: dict[str, dict[str, str]] = attrs.field(factory=dict)
    trees: dict[str, ast.Module] = attrs.field(factory=dict)


@attrs.define
class Mentions(ast.NodeVisitor):
    """Full names that some lines mention, and names that they ask an object for."""

    names: dict[str, str]
    full: set[str] = attrs.field(factory=set)
    asked: set[str] = attrs.field(factory=set)

    def visit_Name(self, node: ast.Name) -> None:
        """Note what the name stands for in its module."""
        if node.id in self.names:
            self.full.add(self.names[node.id])

    def visit_Attribute(self, node: ast.Attribute) -> None:
        """Note the name that is asked for, and the full one if a module is asked."""
        self.asked.add(node.attr)
        if isinstance(node.value, ast.Name) and node.value.id in self.names:
            self.full.add(f"{self.names[node.value.id]}.{node.attr}")
        self.generic_visit(node)

    def visit_arg(self, node: ast.arg) -> None:
        """Pass over an argument's annotation."""

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        """Look at the value, not at its annotation."""
        if node.value:
            self.visit(node.value)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        """Look at all but the annotation of what comes back."""
        for part in (*node.decorator_list, node.args, *node.body):
            self.visit(part)


def read_code(source: Path = SOURCE, package: str = PACKAGE) -> Code:
    """Read every module of a package."""
    code = Code()
    for path in sorted(source.rglob("*.py")):
        parts = path.relative_to(source).with_suffix("").parts
        module = ".".join((package, *parts)).removesuffix(".__init__")
        code.trees[module] = ast.parse(path.read_text(encoding="utf-8"))
    for module, tree in code.trees.items():
        defined = dict(_definitions(module, tree))
        code.definitions |= defined
        own = {name.rpartition(".")[2]: name for name, one in defined.items() if not one.of_class}
        code.names[module] = dict(_imported(tree, package)) | own
    return code


def _imported(tree: ast.Module, package: str) -> Iterator[tuple[str, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(package):
            yield from ((n.asname or n.name, f"{node.module}.{n.name}") for n in node.names)


def _definitions(module: str, tree: ast.Module) -> Iterator[tuple[str, Definition]]:
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield f"{module}.{node.name}", Definition(module, (node,))
        elif isinstance(node, ast.ClassDef):
            yield from _of_class(module, node)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            for target in (n for t in targets for n in ast.walk(t) if isinstance(n, ast.Name)):
                yield f"{module}.{target.id}", Definition(module, (node,), is_constant=True)


def _of_class(module: str, node: ast.ClassDef) -> Iterator[tuple[str, Definition]]:
    """Give a class, whose special methods run with it, and each of its other methods."""
    name = f"{module}.{node.name}"
    methods = [
        part
        for part in node.body
        if isinstance(part, ast.FunctionDef) and not part.name.startswith("__")
    ]
    rest = (part for part in node.body if part not in methods)
    yield name, Definition(module, (*node.bases, *node.decorator_list, *rest))
    for method in methods:
        yield f"{name}.{method.name}", Definition(module, (method,), of_class=name)


def reached(code: Code, *, below: str) -> set[str]:
    """Full names that the modules outside a folder reach, in it and elsewhere."""
    found: set[str] = set()
    asked: set[str] = set()
    waiting: set[str] = set()
    for module, tree in code.trees.items():
        if not module.startswith(below):
            waiting |= _mentioned(code, module, [tree], asked)
    while waiting:
        found |= waiting
        waiting = {
            name
            for one in waiting & code.definitions.keys()
            for name in _mentioned(
                code, code.definitions[one].module, code.definitions[one].lines, asked
            )
        } | set(_methods(code, found, asked))
        waiting -= found
    return found


def _mentioned(code: Code, module: str, lines: Iterable[ast.AST], asked: set[str]) -> set[str]:
    mentions = Mentions(code.names[module])
    for line in lines:
        mentions.visit(line)
    asked |= mentions.asked
    return mentions.full


def _methods(code: Code, found: set[str], asked: set[str]) -> Iterator[str]:
    for name, one in code.definitions.items():
        if one.of_class in found and name.rpartition(".")[2] in asked:
            yield name


def unreached(code: Code, *, below: str = KERNELS) -> set[str]:
    """Public functions, classes and methods in a folder that nothing outside it reaches.

    Their names begin at the folder.  The methods of a class that is not reached are not listed
    beside it.
    """
    found = reached(code, below=below)
    return {
        name.removeprefix(below)
        for name, one in code.definitions.items()
        if name.startswith(below) and name not in found and not one.is_constant
        if one.of_class is None or one.of_class in found
        if "._" not in name
    }

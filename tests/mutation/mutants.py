"""Small slips in the library's source, each made of a seed and its number alone.

A mutant changes one place of a module: an operator, a comparison, a condition, a constant
or a returned value. What cannot change an answer is left out: docstrings, annotations, types
that are cast to, lists of names, and whether ``zip`` is strict. The texts of errors' remedies are
kept, since readers rely on them.
"""

from __future__ import annotations

import ast
import copy
import random
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import attrs

__all__ = ["Mutant", "drawn", "slips_of"]


@attrs.frozen
class Mutant:
    """One slip.

    Parameters
    ----------
    file : Path
        The module.
    line : int
        Line of the slip.
    slip : str
        What was changed into what.
    source : str
        The whole module with it.
    """

    file: Path
    line: int
    slip: str
    source: str


def drawn(folder: Path, *, count: int, seed: int) -> list[Mutant]:
    """Draw mutants of a package, each place as likely as any other."""
    files = sorted(folder.rglob("*.py"))
    places = [
        (file, number)
        for file in files
        for number in range(sum(1 for _ in slips_of(ast.parse(file.read_text(encoding="utf-8")))))
    ]
    chance = random.Random(seed)  # noqa: S311 - a draw that can be made again
    chosen = chance.sample(places, min(count, len(places)))
    return [_mutant(file, number, chance) for file, number in sorted(chosen)]


def _mutant(file: Path, number: int, chance: random.Random) -> Mutant:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    node, slips = list(slips_of(tree))[number]
    before, line = ast.unparse(node), getattr(node, "lineno", 0)
    slip = chance.choice(slips)
    after = ast.unparse(slip)
    _apply(tree, node, slip)
    source = ast.unparse(ast.fix_missing_locations(tree))
    return Mutant(file, line, f"{before} → {after}", source)


def _apply(tree: ast.Module, node: ast.AST, slip: ast.AST) -> None:
    """Put a slip where a node stands."""

    class Putting(ast.NodeTransformer):
        def visit(self, visited: ast.AST) -> ast.AST:
            return slip if visited is node else super().generic_visit(visited)

    Putting().visit(tree)


# -- Where a slip can be made ------------------------------------------------------------


def slips_of(tree: ast.Module) -> Iterator[tuple[ast.AST, Sequence[ast.AST]]]:
    """Nodes that can be changed, each with what it can become."""
    for node in _code(tree):
        before = ast.unparse(node)
        slips = [slip for slip in _slips(node) if ast.unparse(slip) != before]
        if slips:
            yield node, slips


def _code(node: ast.AST) -> Iterator[ast.AST]:
    """Walk what is run: neither docstrings, annotations, imports nor the list of names."""
    for field, value in ast.iter_fields(node):
        if field in {"annotation", "returns", "decorator_list", "type_params"}:
            continue
        if _calls(node, "zip") and field == "keywords":
            continue
        children = value if isinstance(value, list) else [value]
        if _calls(node, "cast") and field == "args":
            children = children[1:]
        for child in children:
            if not isinstance(child, ast.AST) or _is_left_alone(child):
                continue
            yield child
            yield from _code(child)


def _calls(node: ast.AST, name: str) -> bool:
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == name


def _is_left_alone(child: ast.AST) -> bool:
    if isinstance(child, ast.Import | ast.ImportFrom):
        return True
    if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
        return True
    names = [child.target] if isinstance(child, ast.AnnAssign) else getattr(child, "targets", [])
    aliases = {"__all__", "TYPE_CHECKING"}
    return any(isinstance(name, ast.Name) and name.id in aliases for name in names) or (
        isinstance(child, ast.AnnAssign)
        and isinstance(child.annotation, ast.Name)
        and child.annotation.id == "TypeAlias"
    )


_OTHER: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Mod: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Pow: ast.Mult,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.And: ast.Or,
    ast.Or: ast.And,
}


def _slips(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what a node can become by one slip."""
    changed: Any = copy.deepcopy(node)
    if isinstance(node, ast.BinOp | ast.AugAssign | ast.BoolOp) and type(node.op) in _OTHER:
        changed.op = _OTHER[type(node.op)]()
        yield changed
    elif isinstance(node, ast.Compare):
        changed.ops[0] = _OTHER[type(node.ops[0])]()
        yield changed
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield changed.operand
    elif isinstance(node, ast.Constant):
        yield from (ast.Constant(value) for value in _other_constants(node.value))
    elif isinstance(node, ast.IfExp):
        yield from (changed.body, changed.orelse)
    elif isinstance(node, ast.If | ast.While):
        changed.test = ast.UnaryOp(ast.Not(), changed.test)
        yield changed
    elif isinstance(node, ast.Return) and node.value is not None:
        yield ast.Return(ast.Constant(None))
    elif isinstance(node, ast.Break | ast.Continue):
        yield ast.Pass()


def _other_constants(value: Any) -> Iterator[Any]:
    if isinstance(value, bool):
        yield not value
    elif isinstance(value, int | float):
        yield value + 1
    elif isinstance(value, str) and value.strip():
        yield f"{value}XX"

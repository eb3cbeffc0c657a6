"""Every regular expression of the library with the methods it is used by, and text that hurts it.

A pattern that gives back what it took, or is tried anew at every place, takes time with the
square of the length of some text.  Each piece below, over and over, has done so to some
pattern once, or would to one that is written carelessly.
"""

from __future__ import annotations

import ast
import functools
import importlib
import pkgutil
import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping

import attrs

from source_trees import MODULES, SOURCE, nodes

__all__ = ["SHAPES", "Use", "uses"]

_METHODS: Mapping[str, Callable[[re.Pattern[str], str], object]] = {
    "match": lambda pattern, text: pattern.match(text),
    "fullmatch": lambda pattern, text: pattern.fullmatch(text),
    "search": lambda pattern, text: pattern.search(text),
    "findall": lambda pattern, text: pattern.findall(text),
    "finditer": lambda pattern, text: sum(1 for _ in pattern.finditer(text)),
    "split": lambda pattern, text: pattern.split(text),
    "sub": lambda pattern, text: pattern.sub("", text),
}

_PIECES = (
    *('"\\', "'\"", '\\"', '"', "'", '""\\"', '"" . ', "'' . ", '"""\\', "'''\"", '"a" ', "'\\"),
    *("a", "a.", "a . ", "a/", "a:", "a, ", "a -", "a\n", "_", "-", ".", "é", "Aa1"),
    *(" ", " \n", "\n", "\t", "    a\n", "    \n", "\r\n", "\0"),
    *("1", "1,", "1.", "1 ", "1/", "1e", "+", "-1", "± 1", "+/-", "1 mm ", "1 ± 1 ", "2031-", "18"),
    *("[", "[[", "]", "{", "[a", "[a]\n", "#", '#"\n', "=", "a=1\n", 'a="x"\n', "a = '"),
    *("line 1", "line 1, column ", "chassis/", "a:a/", "con.", ":", ": :", "Parameters\n---\n"),
)
_BEFORE = ("", "1", "1 a", 'a = """', "a = '''", "a = '", 'a = "', "[", "chassis/", "line ", "\n")
_AFTER = ("", "!", '"')

SHAPES: tuple[tuple[str, str, str], ...] = tuple(
    (before, piece, after) for piece in _PIECES for before in _BEFORE for after in _AFTER
)
"""Beginning, the piece that is repeated, and the end."""


@attrs.frozen
class Use:
    """A pattern of the library and a method by which it is applied to text.

    Parameters
    ----------
    place : str
        Module, and name or text of the pattern.
    method : str
        Name of the method.
    pattern : re.Pattern
        The pattern.
    """

    place: str
    method: str
    pattern: re.Pattern[str] = attrs.field(repr=False)

    def apply(self, text: str) -> None:
        """Apply it to a text."""
        _METHODS[self.method](self.pattern, text)


@functools.cache
def uses() -> tuple[Use, ...]:
    """Return every pattern with each of its methods.

    Raises
    ------
    AssertionError
        If a pattern is used in a way that is not understood here.
    """
    found: list[Use] = []
    called = _methods_of_names()
    for name in _modules():
        module = importlib.import_module(name)
        for variable, pattern in vars(module).items():
            if isinstance(pattern, re.Pattern):
                methods = called[variable]
                assert methods, f"{name}.{variable} is used by no method that is known"
                found += [Use(f"{name}.{variable}", method, pattern) for method in methods]
        found += _in_place(name)
    return tuple(sorted(set(found), key=lambda use: (use.place, use.method)))


def _modules() -> list[str]:
    found = pkgutil.walk_packages([str(SOURCE)], "barwright.")
    return ["barwright", *(one.name for one in found if not one.name.endswith("__main__"))]


def _methods_of_names() -> Mapping[str, set[str]]:
    """Methods of patterns by the names of the variables that they are called on."""
    called: dict[str, set[str]] = defaultdict(set)
    for module in MODULES:
        for call, _ in _calls(module):
            if isinstance(call.value, ast.Name) and call.attr in _METHODS:
                called[call.value.id].add(call.attr)
    return called


def _calls(module: str) -> Iterator[tuple[ast.Attribute, ast.Call]]:
    for node in nodes(module):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            yield node.func, node


def _in_place(name: str) -> list[Use]:
    """Patterns that are written where they are used."""
    found = []
    for function, call in _calls(name.removeprefix("barwright").removeprefix(".") or "__init__"):
        if isinstance(function.value, ast.Name) and function.value.id == "re":
            method = function.attr
            if method in _METHODS:
                text = _text_of(call.args[0], name)
                found.append(Use(f"{name} {text!r}", method, re.compile(text)))
            else:
                assert method in {"compile", "escape"}, method
    return found


def _text_of(node: ast.expr, name: str) -> str:
    """Text of a pattern: written there, a name of the module, or the attribute of a class."""
    if isinstance(node, ast.Constant):
        return str(node.value)
    value: object = importlib.import_module(name)
    for step in ast.unparse(node).split("."):
        value = getattr(value, step)
    return str(value)

"""Syntax of the library's modules, read once for all tests of a run that look at it."""

from __future__ import annotations

import ast
import functools
from collections.abc import Mapping
from pathlib import Path

import barwright

__all__ = ["MODULES", "SOURCE", "nodes"]

SOURCE = Path(barwright.__file__).parent

MODULES: Mapping[str, Path] = {
    ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__"): path
    for path in SOURCE.rglob("*.py")
}
"""Files of all modules, by their names within the package."""


@functools.cache
def nodes(module: str) -> tuple[ast.AST, ...]:
    """Everything in the syntax of a module, what holds the rest first."""
    return tuple(ast.walk(ast.parse(MODULES[module].read_text(encoding="utf-8"))))

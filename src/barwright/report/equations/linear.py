"""An equation in a line of text, as one types it into a calculator."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import attrs

from barwright.analysis.working.expression import (
    Call,
    Expression,
    Number,
    PerMetre,
    Power,
    Product,
    Quotient,
    Sum,
    Symbol,
)
from barwright.report.equations.writing import Writing

__all__ = ["in_line"]

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


def in_line(tree: Expression, writing: Writing, *, in_degrees: bool) -> str:
    """Write an equation's side in a line.

    Parameters
    ----------
    tree : Expression
        The side.
    writing : Writing
        What stands for its symbols.
    in_degrees : bool
        Whether angles outside of functions are in degrees.

    Returns
    -------
    str

    Examples
    --------
    >>> from barwright.report.equations.writing import Names
    >>> d = Symbol("d")
    >>> in_line((d**4 - 1) / (2 * d), Names("metric"), in_degrees=False)
    '(d⁴ - 1) / (2 · d)'
    """
    return _Line(writing, in_degrees).of(tree)


@attrs.frozen
class _Line:
    """Writes trees in one way.

    Parameters
    ----------
    writing : Writing
        What stands for symbols.
    in_degrees : bool
        Whether angles are in degrees.
    """

    writing: Writing
    in_degrees: bool

    def of(self, tree: Expression) -> str:
        """Write a tree."""
        return _BY_TYPE[type(tree)](self, tree)

    def symbol(self, tree: Symbol) -> str:
        """Write a symbol, or its figure."""
        return self.writing.of(tree.name, in_degrees=self.in_degrees)

    def per_metre(self, tree: PerMetre) -> str:
        """Write a rate in the unit that goes with masses."""
        return f"{self.writing.lengths} · {self.of(tree.rate)}"

    def number(self, tree: Number) -> str:
        """Write a number of the equation."""
        return tree.text

    def sum(self, tree: Sum) -> str:
        """Write terms."""
        (sign, term), *further = tree.terms
        first = self._held(term, bare=True) if sign > 0 else f"-{self._held(term, Sum)}"
        others = (f" {'+' if s > 0 else '-'} {self._held(one, Sum)}" for s, one in further)
        return "".join((first, *others))

    def product(self, tree: Product) -> str:
        """Write factors."""
        first, *others = tree.factors
        texts = (self._held(one, Sum, Quotient) for one in others)
        return " · ".join((self._held(first, Sum, bare=True), *texts))

    def quotient(self, tree: Quotient) -> str:
        """Write what is divided, and by what."""
        top = self._held(tree.top, Sum, bare=True)
        return f"{top} / {self._held(tree.bottom, Sum, Product, Quotient, PerMetre)}"

    def power(self, tree: Power) -> str:
        """Write what is raised, and to which power."""
        base = self._held(tree.base, Sum, Product, Quotient, Power, PerMetre)
        return f"{base}{str(tree.power).translate(_RAISED)}"

    def call(self, tree: Call) -> str:
        """Write a function and what it is of."""
        inside = attrs.evolve(self, in_degrees=self.in_degrees or tree.takes_angle)
        return f"{tree.name}({', '.join(map(inside.of, tree.arguments))})"

    def _held(self, tree: Expression, *kinds: type[Expression], bare: bool = False) -> str:
        """Write a tree, in parentheses if it is of some kinds or begins with a sign."""
        text = self.of(tree)
        is_signed = text.startswith("-") and not bare
        return f"({text})" if isinstance(tree, kinds) or is_signed else text


_BY_TYPE: dict[type[Expression], Callable[[_Line, Any], str]] = {
    Symbol: _Line.symbol,
    PerMetre: _Line.per_metre,
    Number: _Line.number,
    Sum: _Line.sum,
    Product: _Line.product,
    Quotient: _Line.quotient,
    Power: _Line.power,
    Call: _Line.call,
}

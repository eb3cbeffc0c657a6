"""An equation as boxes within boxes, which MathML and the typesetter set alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

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

__all__ = ["Box", "boxes", "name_box", "pieces"]

Box: TypeAlias = dict[str, Any]
"""What it *is*, and what it is made of: a name, a number, a sign, a word, a row, a fraction, a
power, a root, a fence or bars."""


def boxes(tree: Expression, writing: Writing, *, in_degrees: bool) -> Box:
    """Put an equation's side into boxes.

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
    Box

    Examples
    --------
    >>> from barwright.report.equations.writing import Names
    >>> boxes(Symbol("k_b"), Names("metric"), in_degrees=False)
    {'is': 'name', 'base': 'k', 'index': 'b', 'primes': 0}
    """
    return _Boxes(writing, in_degrees).of(tree)


def pieces(box: Box) -> Iterator[Box]:
    """Part a side where a line may end: before a sign between its outermost terms.

    Parameters
    ----------
    box : Box
        The side.

    Yields
    ------
    Box
    """
    if box["is"] != "row":
        yield box
        return
    piece: list[Box] = []
    for part in box["parts"]:
        if part["is"] == "sign" and part["text"] != "," and piece:
            yield _row(*piece)
            piece = []
        piece.append(part)
    yield _row(*piece)


def name_box(name: str) -> Box:
    """Put a symbol's name into a box: its letter, its index, its primes."""
    base, _, index = name.replace("'", "").partition("_")
    return {"is": "name", "base": base, "index": index.replace("_", " "), "primes": name.count("'")}


def _row(*parts: Box) -> Box:
    return {"is": "row", "parts": list(parts)}


def _sign(text: str) -> Box:
    return {"is": "sign", "text": text}


def _number(text: str) -> Box:
    return {"is": "number", "text": text.replace("-", "−")}


@attrs.frozen
class _Boxes:
    """Puts trees into boxes in one way."""

    writing: Writing
    in_degrees: bool

    def of(self, tree: Expression) -> Box:
        """Put a tree into a box."""
        return _BY_TYPE[type(tree)](self, tree)

    def symbol(self, tree: Symbol) -> Box:
        """Set a symbol, or its figure."""
        text = self.writing.of(tree.name, in_degrees=self.in_degrees)
        return name_box(text) if self.writing.is_of_names else _number(text)

    def per_metre(self, tree: PerMetre) -> Box:
        """Set a rate in the unit that goes with masses."""
        return _row(_number(self.writing.lengths), _sign("·"), self.of(tree.rate))

    def number(self, tree: Number) -> Box:
        """Set a number of the equation."""
        return _number(tree.text)

    def sum(self, tree: Sum) -> Box:
        """Set terms."""
        parts: list[Box] = []
        for sign, term in tree.terms:
            if parts or sign < 0:
                parts += [_sign("+" if sign > 0 else "−"), self._held(term, Sum)]
            else:
                parts.append(self.of(term))
        return _row(*parts)

    def product(self, tree: Product) -> Box:
        """Set factors."""
        first, *others = tree.factors
        parts = [self._held(first, Sum, bare=True)]
        for factor in others:
            parts += [_sign("·"), self._held(factor, Sum)]
        return _row(*parts)

    def quotient(self, tree: Quotient) -> Box:
        """Set a fraction."""
        return {"is": "fraction", "top": self.of(tree.top), "bottom": self.of(tree.bottom)}

    def power(self, tree: Power) -> Box:
        """Set what is raised, and to which power."""
        base = self._held(tree.base, Sum, Product, Quotient, Power, PerMetre)
        return {"is": "power", "base": base, "power": str(tree.power)}

    def call(self, tree: Call) -> Box:
        """Set a function and what it is of."""
        within = attrs.evolve(self, in_degrees=self.in_degrees or tree.takes_angle)
        first, *others = (within.of(one) for one in tree.arguments)
        inside = _row(first, *(part for one in others for part in (_sign(","), one)))
        if tree.name == "√":
            return {"is": "root", "inside": inside}
        if tree.name == "abs":
            return {"is": "bars", "inside": inside}
        return _row({"is": "word", "text": tree.name}, {"is": "fence", "inside": inside})

    def _held(self, tree: Expression, *kinds: type[Expression], bare: bool = False) -> Box:
        """Set a tree, in parentheses if it is of some kinds or begins with a sign."""
        box = self.of(tree)
        is_signed = _begins_with_sign(box) and not bare
        return {"is": "fence", "inside": box} if isinstance(tree, kinds) or is_signed else box


def _begins_with_sign(box: Box) -> bool:
    if box["is"] == "row":
        return _begins_with_sign(box["parts"][0])
    return bool(box.get("text", "").startswith("−"))


_BY_TYPE: dict[type[Expression], Callable[[_Boxes, Any], Box]] = {
    Symbol: _Boxes.symbol,
    PerMetre: _Boxes.per_metre,
    Number: _Boxes.number,
    Sum: _Boxes.sum,
    Product: _Boxes.product,
    Quotient: _Boxes.quotient,
    Power: _Boxes.power,
    Call: _Boxes.call,
}

"""Equations as MathML, which browsers set themselves."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from barwright.report.equations.boxes import Box, pieces

__all__ = ["mathml"]


def mathml(box: Box) -> str:
    """Set an equation's side in MathML, in pieces between which a line may end.

    Parameters
    ----------
    box : Box
        The side.

    Returns
    -------
    str

    Examples
    --------
    >>> mathml({"is": "number", "text": "12.5"})
    '<math><mn>12.5</mn></math>'
    """
    return " ".join(f"<math>{_set(piece)}</math>" for piece in pieces(box))


def _set(box: Box) -> str:
    return _BY_KIND[box["is"]](box)


def _name(box: Box) -> str:
    base, index = f"<mi>{escape(box['base'])}</mi>", f"<mtext>{escape(box['index'])}</mtext>"
    primes = f"<mo>{'′' * box['primes']}</mo>"
    if box["index"] and box["primes"]:
        return f"<msubsup>{base}{index}{primes}</msubsup>"
    if box["index"]:
        return f"<msub>{base}{index}</msub>"
    return f"<msup>{base}{primes}</msup>" if box["primes"] else base


def _row(box: Box) -> str:
    return f"<mrow>{''.join(map(_set, box['parts']))}</mrow>"


def _fraction(box: Box) -> str:
    return f"<mfrac>{_set(box['top'])}{_set(box['bottom'])}</mfrac>"


def _power(box: Box) -> str:
    return f"<msup><mrow>{_set(box['base'])}</mrow><mn>{box['power']}</mn></msup>"


def _fenced(left: str, right: str) -> Callable[[Box], str]:
    return lambda box: f"<mrow><mo>{left}</mo>{_set(box['inside'])}<mo>{right}</mo></mrow>"


_BY_KIND: dict[str, Callable[[Box], str]] = {
    "name": _name,
    "number": lambda box: f"<mn>{escape(box['text'])}</mn>",
    "sign": lambda box: f"<mo>{escape(box['text'])}</mo>",
    "word": lambda box: f"<mi>{escape(box['text'])}</mi>",
    "row": _row,
    "fraction": _fraction,
    "power": _power,
    "root": lambda box: f"<msqrt>{_set(box['inside'])}</msqrt>",
    "fence": _fenced("(", ")"),
    "bars": _fenced("|", "|"),
}

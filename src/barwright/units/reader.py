"""Reading figures: a strict grammar with a closed list of spellings.

Text is never handed to pint's expression parser, which hangs on ``9**9**9 mm``
and reads ``25,4 mm`` as 254 mm.  What shops write and the grammar refuses is
answered with what to write instead.
"""

from __future__ import annotations

import re
from fractions import Fraction

import attrs

from barwright.errors import QuantityError
from barwright.units.accept import accepted
from barwright.units.kept import is_noted, note_range
from barwright.units.kinds import UNITS, Kind, Range, a_kind, listed
from barwright.units.quantity import (
    LARGEST,
    Quantity,
    check_range,
    is_quantity,
    quantity_of_unit,
    si,
)
from barwright.units.unknown import is_unknown

__all__ = ["MEANT", "NUMBER", "Reading", "read_figure", "to_kind"]

# What shops write, and what is meant.
MEANT = {
    "nm": "N*m",
    "n-m": "N*m",
    "n.m": "N*m",
    "nm/deg": "N*m/deg",
    "nm/rad": "N*m/rad",
    "lb/in": "lbf/in",
    "lbs/in": "lbf/in",
    "lb-in": "lbf*in",
    "in-lb": "lbf*in",
    "in-lbs": "lbf*in",
    "lb-ft": "lbf*ft",
    "ft-lb": "lbf*ft",
    "ft-lbs": "lbf*ft",
    "lb*in": "lbf*in",
    "lb*ft": "lbf*ft",
    "ft*lb": "lbf*ft",
    "lbf-ft": "lbf*ft",
    "lbf-in": "lbf*in",
    "ft-lb/deg": "lbf*ft/deg",
    "lb-ft/deg": "lbf*ft/deg",
    "lb/inch": "lbf/in",
    "lbs/inch": "lbf/in",
    "lbs": "lb",
    "kgs": "kg",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "foot": "ft",
    "feet": "ft",
    "°": "deg",
    "degree": "deg",
    "degrees": "deg",
    "n*m/°": "N*m/deg",
    "nm/°": "N*m/deg",
    "turns": "turn",
    "rev": "turn",
    "mm/rev": "mm/turn",
    "in/rev": "in/turn",
    "n/mm2": "MPa",
    "n/mm²": "MPa",
}

# Atomic, so that the end of a bare number is never taken for its unit.
NUMBER = r"(?>[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?)"
_UNIT = r"[^\s\d±+,'\"″”′’/][^\s±+]*"

_FIGURE = re.compile(
    rf"\s*(?P<number>{NUMBER})\s*(?P<unit>{_UNIT})"
    rf"(?:\s*(?:±|\+/-)\s*(?P<spread>{NUMBER})\s*(?P<spread_unit>{_UNIT}))?\s*"
)
_BARE = re.compile(rf"\s*{NUMBER}\s*")
_COMMA = re.compile(r"\s*([+-]?[0-9]+),([0-9]+)(?![0-9,])\s*(.*)")
_FRACTION = re.compile(r"\s*(-?)(?:([0-9]{1,4})[ -]+)?([0-9]{1,4})/([0-9]{1,4})\s*(.*)")
_SHARED = re.compile(rf"\s*({NUMBER})\s*(?:±|\+/-)\s*({NUMBER})\s*({_UNIT})\s*")
_LOOSE_SPREAD = re.compile(rf"\s*({NUMBER})\s*({_UNIT})\s*(?:±|\+/?-)\s*({NUMBER})\s*({_UNIT})?\s*")
_QUOTED = re.compile(rf"\s*({NUMBER})\s*(''|[\"″”'′’])\s*")
_THOUSANDS = 3
_FEET = "'′’"
_LONGEST_TEXT = 64


@attrs.frozen
class Reading:
    """A figure as it was written: its value and, if given, its tolerance."""

    value: Quantity
    tolerance: Quantity | None = None


def to_kind(value: object, kind: Kind, *, key: str, allowed: Range = "any") -> Quantity:
    """Accept what a user may write for a figure, or say why not.

    Parameters
    ----------
    value : str or Quantity
        ``"25.4 mm"``, or a pint quantity of any registry.
    kind : Kind
        What it must be.
    key : str
        Name of the field or argument, for the message.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.

    Returns
    -------
    Quantity
        Of the application's registry, in one of the kind's units.

    Raises
    ------
    QuantityError
        If it is no figure (Q1xx), of another kind (Q2xx) or impossible (Q3xx).

    Examples
    --------
    >>> from barwright.units import LENGTH, to_kind
    >>> print(to_kind("0.984 in", LENGTH, key="diameter"))
    0.984 inch
    """
    if isinstance(value, str):
        reading = read_figure(value, kind, key=key, allowed=allowed)
        if reading.tolerance is not None:
            raise QuantityError(
                "Q303",
                value=value,
                expected=f"{a_kind(kind)} without a tolerance, because it would be lost here",
                remedy="leave it out, or give a Figure in about",
                key=key,
            )
        return reading.value
    if not is_quantity(value):
        raise _bare(value, kind, key)
    if is_unknown(value):
        return value
    return _in_range(accepted(value, kind, key), key=key, allowed=allowed)


def _in_range(figure: Quantity, *, key: str, allowed: Range) -> Quantity:
    """Check the range of a figure that was not found to lie in it before."""
    if not is_noted(figure, allowed):
        check_range(figure, key=key, allowed=allowed)
        note_range(figure, allowed)
    return figure


def read_figure(text: object, kind: Kind, *, key: str, allowed: Range = "any") -> Reading:
    """Read a figure from text: number, unit and, where known, a tolerance.

    Parameters
    ----------
    text : str
        ``"742.0 mm"`` or ``"742.0 mm ± 0.4 mm"``; ``+/-`` is read as ``±``.
    kind : Kind
        What it must be.
    key : str
        Name of the field or argument, for the message.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.

    Returns
    -------
    Reading

    Raises
    ------
    QuantityError
        With what to write instead.

    Examples
    --------
    >>> from barwright.units import LENGTH, read_figure
    >>> reading = read_figure("742.0 mm ± 0.4 mm", LENGTH, key="length")
    >>> print(reading.value, reading.tolerance)
    742.0 millimeter 0.4 millimeter
    """
    if not isinstance(text, str):
        raise _bare(text, kind, key)
    found = _FIGURE.fullmatch(text) if len(text) <= _LONGEST_TEXT else None
    if found is None:
        raise _misread(text, kind, key)
    value = _in_range(
        _read_one(found["number"], found["unit"], text, kind, key), key=key, allowed=allowed
    )
    if found["spread"] is None:
        return Reading(value)
    spread = _read_one(found["spread"], found["spread_unit"], text, kind, key)
    if not 0.0 < si(spread, kind) <= LARGEST:
        raise QuantityError(
            "Q303",
            value=text,
            expected="a tolerance above zero",
            remedy="leave the tolerance out if it is not known",
            key=key,
        )
    if allowed == "positive" and si(spread, kind) >= si(value, kind):
        raise QuantityError(
            "Q303",
            value=text,
            expected="a tolerance less than its figure, because the figure is above zero",
            remedy="check the tolerance and its unit",
            key=key,
        )
    return Reading(value, spread)


def _read_one(number: str, unit: str, text: str, kind: Kind, key: str) -> Quantity:
    """Read one number and its unit."""
    spelling = unit.replace("·", "*")
    if spelling not in kind.units:
        raise _wrong_unit(text, number, spelling, kind, key)
    return quantity_of_unit(float(number), spelling)


def _bare(value: object, kind: Kind, key: str) -> QuantityError:
    code, remedy = "Q104", "write it as text"
    if isinstance(value, int | float) and not isinstance(value, bool):
        code, remedy = "Q301", "measure it, and write it as text"
        if abs(value) <= LARGEST:
            code, remedy = "Q105", f"write '{value:.15g} {kind.units[0]}'"
    return QuantityError(
        code,
        value=value,
        expected=f"{a_kind(kind)} with its unit, as text",
        remedy=f"{remedy}, in {listed(kind)}",
        key=key,
    )


def _misread(text: str, kind: Kind, key: str) -> QuantityError:
    """Explain why a text is no figure, and what to write instead."""
    code, remedy = _advice(text, kind)
    return QuantityError(
        code,
        value=text,
        expected=f"{a_kind(kind)} as one decimal number and one unit",
        remedy=remedy,
        key=key,
    )


def _advice(text: str, kind: Kind) -> tuple[str, str]:
    """Code and remedy for a text that is no figure."""
    found = _slip(text, kind) if len(text) <= _LONGEST_TEXT else None
    return found or ("Q104", f"write it like '12.5 {kind.units[0]}', in {listed(kind)}")


def _slip(text: str, kind: Kind) -> tuple[str, str] | None:
    """Code and remedy for what is often written in place of a figure."""
    return next(filter(None, (look(text, kind) for look in _SLIPS)), None)


def _comma(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _COMMA.fullmatch(text)
    if not found:
        return None
    whole, behind, rest = found.groups()
    if rest.startswith("."):
        # A comma between thousands, and a point after them.
        part, _, unit = rest.partition(" ")
        return "Q101", f"write {_rewritten(f'{whole}{behind}{part}', unit, kind)}"
    pointed = text.replace(",", ".").strip()
    if _reads(pointed, kind):
        thousands = f" or '{whole}{behind} …'" if len(behind) == _THOUSANDS else ""
        return "Q101", f"write '{pointed}'{thousands}"
    return "Q101", f"write {_rewritten(f'{whole}.{behind}', rest, kind)}"


def _fraction(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _FRACTION.fullmatch(text)
    if not found or not int(found[4]):
        return None
    number = int(found[2] or 0) + Fraction(int(found[3]), int(found[4]))
    return "Q102", f"write {_rewritten(f'{found[1]}{float(number):.15g}', found[5], kind)}"


def _shared(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _SHARED.fullmatch(text)
    unit = _meant(found[3], kind) if found else ""
    return ("Q105", f"write '{found[1]} {unit} ± {found[2]} {unit}'") if found and unit else None


def _loose_spread(text: str, kind: Kind) -> tuple[str, str] | None:
    """Find a tolerance without its unit, or behind a sign of another spelling."""
    found = _LOOSE_SPREAD.fullmatch(text)
    unit = _meant(found[2], kind) if found else ""
    spread = _meant(found[4], kind) if found and found[4] else unit
    if not found or not unit or not spread:
        return None
    code = "Q104" if found[4] else "Q105"
    return code, f"write '{found[1]} {unit} ± {found[3]} {spread}'"


def _quoted(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _QUOTED.fullmatch(text)
    if not found or "in" not in kind.units:
        return None
    return "Q103", f"write '{found[1]} {'ft' if found[2] in _FEET else 'in'}'"


def _unfinished(text: str, kind: Kind) -> tuple[str, str] | None:
    if text.strip().lower().startswith(("nan", "inf", "-inf", "+inf")):
        return "Q301", "measure it"
    if _BARE.fullmatch(text):
        return "Q105", f"write '{text.strip()} {kind.units[0]}', in {listed(kind)}"
    return None


_SLIPS = (_comma, _fraction, _shared, _loose_spread, _quoted, _unfinished)


def _reads(text: str, kind: Kind) -> bool:
    """Whether the grammar takes a text for a figure of a kind."""
    found = _FIGURE.fullmatch(text)
    units = [found["unit"], found["spread_unit"]] if found else [""]
    return all(unit is None or unit.replace("·", "*") in kind.units for unit in units)


def _rewritten(number: str, rest: str, kind: Kind) -> str:
    """Return what to write for a number and what stood behind it, as the grammar reads it."""
    unit, _, spread = rest.replace("+/-", "±").partition("±")
    meant = _meant(unit.strip(" ."), kind) if unit.strip() else kind.units[0]
    if not meant:
        return f"{number} and one of {listed(kind)}"
    return f"'{number} {meant}'{', and its tolerance likewise' if spread else ''}"


def _wrong_unit(text: str, number: str, unit: str, kind: Kind, key: str) -> QuantityError:
    """Explain a unit that is unknown, or known for something else."""
    if unit in UNITS and unit.lower() not in MEANT:
        return QuantityError(
            "Q202",
            value=text,
            expected=a_kind(kind),
            remedy=f"give it in {listed(kind)}",
            key=key,
        )
    return QuantityError(
        "Q201",
        value=text,
        expected=f"{a_kind(kind)} in {listed(kind)}",
        remedy=_unit_advice(text, number, unit, kind),
        key=key,
    )


def _unit_advice(text: str, number: str, unit: str, kind: Kind) -> str:
    """Say how a unit is spelled; one that only looks alike would be another figure."""
    meant = _meant(unit, kind)
    if not meant:
        return f"give it in {listed(kind)}"
    has_tolerance = "±" in text or "+/-" in text
    return f"write '{meant}' for '{unit}'" if has_tolerance else f"write '{number} {meant}'"


def _meant(unit: str, kind: Kind) -> str:
    """Return what the kind lists for a unit that is spelled otherwise; empty if nothing."""
    unit = unit.strip().replace("·", "*")
    meant = MEANT.get(unit.lower(), unit)
    by_lower = {spelling.lower(): spelling for spelling in kind.units}
    return by_lower.get(meant.lower(), "")

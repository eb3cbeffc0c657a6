"""Reading figures: a strict grammar with a closed list of spellings.

Text is never handed to pint's expression parser, which hangs on ``9**9**9 mm``
and reads ``25,4 mm`` as 254 mm.  What shops write and the grammar refuses is
answered with what to write instead.
"""

from __future__ import annotations

import re
from typing import NamedTuple

import attrs

from barwright.errors import QuantityError
from barwright.units.accept import accepted
from barwright.units.grammar import FIGURE, LIMITS, LONGEST_TEXT, PER_CENT, UNEQUAL
from barwright.units.kept import is_noted, kept_in_range, note_range
from barwright.units.kinds import PLACES, UNITS, Kind, Range, a_kind, listed
from barwright.units.quantity import (
    LARGEST,
    SMALLEST,
    Quantity,
    check_range,
    is_quantity,
    quantity_of_unit,
    si,
    unit_spelling,
)
from barwright.units.slips import bare, misread, wrong_unit
from barwright.units.unknown import is_unknown

__all__ = ["WrittenFigure", "ordinary_figure", "read_figure", "to_kind"]

# Digits that are left of the middle of two limits.
_DIGITS = 12

_new = tuple.__new__


# Whatever else stands in a number is left to the grammar.
_OF_A_NUMBER = "0123456789.+-"

# SI units of a figure that is possible for sure.
_POSSIBLE: dict[Range, tuple[float, float]] = {
    "any": (-LARGEST, LARGEST),
    "positive": (SMALLEST, LARGEST),
    "zero or more": (0.0, LARGEST),
    "zero or less": (-LARGEST, 0.0),
}

# Share of a figure above zero that its tolerance can be for sure.
_SURELY_LESS = 0.999


class WrittenFigure(NamedTuple):
    """A figure as it was written: its value and, if given, its tolerance.

    Parameters
    ----------
    value : Quantity
        The figure, or the middle of the limits that are given.
    tolerance : Quantity, optional
        Half width of the interval that it lies in.
    written : str
        The text, where value and tolerance do not say what it says: limits, shares, and a
        single limit, which leaves the tolerance unknown.
    """

    value: Quantity
    tolerance: Quantity | None = None
    written: str = ""


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
    # To ask a quantity whether it is text is slow.
    if is_quantity(value):
        return value if is_unknown(value) else _in_range(accepted(value, kind, key), key, allowed)
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
    raise bare(value, kind, key)


def _in_range(figure: Quantity, key: str, allowed: Range) -> Quantity:
    """Check the range of a figure that was not found to lie in it before."""
    if not is_noted(figure, allowed):
        check_range(figure, key=key, allowed=allowed)
        note_range(figure, allowed)
    return figure


def read_figure(
    text: object, kind: Kind, *, key: str, allowed: Range = "any", one_limit: bool = False
) -> WrittenFigure:
    """Read a figure from text: number, unit and, where known, a tolerance.

    Parameters
    ----------
    text : str
        ``"742.0 mm"``, ``"742.0 mm ± 0.4 mm"``, ``"77.2 GPa ± 5 %"``, ``"742 mm +0.4 mm -0.1
        mm"`` or ``"741 mm to 743 mm"``; ``+/-`` is read as ``±``.
    kind : Kind
        What it must be.
    key : str
        Name of the field or argument, for the message.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.
    one_limit : bool
        Whether a figure may be read of which only one limit is given, like ``"742 mm +0.4
        mm"``; its tolerance is then unknown.

    Returns
    -------
    WrittenFigure

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
    >>> reading = read_figure("742.0 mm +0.4 mm -0.1 mm", LENGTH, key="length")
    >>> print(reading.value, reading.tolerance)
    742.15 millimeter 0.25 millimeter
    """
    if not isinstance(text, str):
        raise bare(text, kind, key)
    if ordinary := ordinary_figure(text, kind, allowed):
        return ordinary
    asked = _Asked(text, kind, key, allowed)
    if len(text) <= LONGEST_TEXT:
        if found := FIGURE.fullmatch(text):
            return asked.plain(found)
        if found := LIMITS.fullmatch(text):
            return asked.between_limits(found)
        if found := UNEQUAL.fullmatch(text):
            return asked.unequal(found, one_limit=one_limit)
    raise misread(text, kind, key)


def ordinary_figure(text: str, kind: Kind, allowed: Range) -> WrittenFigure | None:
    """Read a figure as nearly all are written, in a third of the time that the grammar takes.

    Parameters
    ----------
    text : str
        Such as ``"742.0 mm"`` or ``"742.0 mm ± 0.4 mm"``.
    kind : Kind
        What it must be.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.

    Returns
    -------
    WrittenFigure or None
        None for what is written in another way, and wherever there may be something wrong.
    """
    number, _, unit = text.partition(" ")
    if unit in kind.written and not number.strip(_OF_A_NUMBER) and len(text) <= LONGEST_TEXT:
        spelling, factor = kind.written[unit]
        low, high = _POSSIBLE[allowed]
        try:
            value = float(number)
        except ValueError:
            return None
        if low <= value * factor <= high:
            # A third of the time would go into the defaults of the class.
            return _new(WrittenFigure, (kept_in_range(value, spelling, allowed), None, ""))
        return None
    return _ordinary_with_spread(text, kind, allowed)


def _ordinary_with_spread(text: str, kind: Kind, allowed: Range) -> WrittenFigure | None:
    """Read a figure with a tolerance that is the same both ways."""
    figure, _, spread = text.partition(" ± ")
    number, _, unit = spread.partition(" ")
    if unit not in kind.written or number.strip(_OF_A_NUMBER) or len(text) > LONGEST_TEXT:
        return None
    read = ordinary_figure(figure, kind, allowed)
    if read is None or read.tolerance is not None:
        return None
    spelling, factor = kind.written[unit]
    try:
        half = float(number)
    except ValueError:
        return None
    most = si(read.value, kind) if allowed == "positive" else LARGEST
    if not 0.0 < half * factor < most * _SURELY_LESS:
        return None
    return WrittenFigure(read.value, quantity_of_unit(half, spelling))


@attrs.frozen
class _Asked:
    """A text that is read as a figure, and what the figure must be."""

    text: str
    kind: Kind
    key: str
    allowed: Range

    def plain(self, found: re.Match[str]) -> WrittenFigure:
        """Read a figure alone, or with a tolerance that is the same both ways."""
        value = self._possible(self._one(found["number"], found["unit"]))
        if found["spread"] is None:
            return WrittenFigure(value)
        if found["spread_unit"] == PER_CENT:
            spread = self._share(float(found["spread"]), found)
            return self._within(value, spread, written=self._as_written())
        return self._within(value, self._one(found["spread"], found["spread_unit"]))

    def between_limits(self, found: re.Match[str]) -> WrittenFigure:
        """Read the middle of two limits."""
        low, high = (
            self._possible(self._one(found[side], found[f"{side}_unit"]))
            for side in ("low", "high")
        )
        unit = unit_spelling(low)
        numbers = float(low.magnitude), self._number(high, unit)
        if numbers[0] >= numbers[1]:
            same = numbers[0] == numbers[1]
            one, other = (_with_unit(found, side) for side in ("low", "high"))
            raise self._refused(
                "two limits, the smaller one first",
                f"write '{one}'" if same else f"write '{other} to {one}'",
            )
        return self._middle(*numbers, unit)

    def unequal(self, found: re.Match[str], *, one_limit: bool) -> WrittenFigure:
        """Read a figure with what it may be above and below."""
        value = self._possible(self._one(found["number"], found["unit"]))
        if found["second"] is None and found["first"][0] not in "+-":
            raise misread(self.text, self.kind, self.key)
        unit = unit_spelling(value)
        upper = self._deviation(found, "first", unit)
        if found["second"] is None:
            return self._with_one_limit(value, upper, found, accepted=one_limit)
        lower = self._deviation(found, "second", unit)
        if upper < lower:
            first, second = (_with_unit(found, side) for side in ("first", "second"))
            raise self._refused(
                "first how much more it may be, then how much less",
                f"write '{found['number']} {unit} {second} {first}'",
            )
        number = float(value.magnitude)
        return self._middle(number + lower, number + upper, unit)

    def _with_one_limit(
        self, value: Quantity, deviation: float, found: re.Match[str], *, accepted: bool
    ) -> WrittenFigure:
        """Read a figure of which one limit is given, where that will do."""
        unit = unit_spelling(value)
        self._possible(quantity_of_unit(float(value.magnitude) + deviation, unit))
        if accepted:
            return WrittenFigure(value, written=self._as_written())
        figure, own = f"{found['number']} {unit}", _with_unit(found, "first")
        both, bound = (f"{own} 0", "less") if deviation > 0.0 else (f"0 {own}", "more")
        raise self._refused(
            "a tolerance with both of its limits",
            f"write '{figure} {both}' if it is never {bound}, or '{figure} ± {own[1:]}'",
        )

    def _deviation(self, found: re.Match[str], side: str, unit: str) -> float:
        """Return the number of units by which a limit lies above the figure."""
        number, own = found[side], found[f"{side}_unit"]
        if own == PER_CENT:
            return float(self._share(float(number), found).magnitude)
        if own is None:
            if float(number):
                raise misread(self.text, self.kind, self.key)
            return 0.0
        return self._number(self._one(number, own), unit)

    def _share(self, percent: float, found: re.Match[str]) -> Quantity:
        """Return a share of the figure, where that says anything."""
        value, unit = self._one(found["number"], found["unit"]), found["unit"].replace("·", "*")
        if self.allowed == "any" and self.kind in PLACES:
            raise self._refused(
                f"a tolerance of {a_kind(self.kind)} in its own unit, because its zero is "
                "where somebody has put it",
                f"write it in {listed(self.kind)}",
            )
        if not value.magnitude:
            raise self._refused(
                "a tolerance in units, because a share of 0 is 0",
                f"write it in {listed(self.kind)}",
            )
        number = abs(float(value.magnitude)) * percent / 100.0
        return quantity_of_unit(_rounded(number), unit)

    def _middle(self, low: float, high: float, unit: str) -> WrittenFigure:
        """Return the middle of two limits, both of which must be possible."""
        for limit in (low, high):
            self._possible(quantity_of_unit(_rounded(limit), unit))
        middle = quantity_of_unit(_rounded((low + high) / 2.0), unit)
        half = quantity_of_unit(_rounded((high - low) / 2.0), unit)
        return self._within(self._possible(middle), half, written=self._as_written())

    def _within(self, value: Quantity, spread: Quantity, *, written: str = "") -> WrittenFigure:
        """Return a figure with its tolerance, if there can be such a tolerance."""
        half = si(spread, self.kind)
        if not 0.0 < half <= LARGEST:
            raise self._refused(
                "a tolerance above zero", "leave the tolerance out if it is not known"
            )
        if self.allowed == "positive" and half >= si(value, self.kind):
            raise self._refused(
                "a tolerance less than its figure, because the figure is above zero",
                "check the tolerance and its unit",
            )
        return WrittenFigure(value, spread, written)

    def _one(self, number: str, unit: str) -> Quantity:
        """Read one number and its unit."""
        spelling = unit.replace("·", "*")
        if spelling not in self.kind.units:
            raise wrong_unit(self.text, number, spelling, self.kind, self.key)
        return quantity_of_unit(float(number), spelling)

    def _number(self, value: Quantity, unit: str) -> float:
        """Return the number of a quantity in a unit of its kind, unchanged in its own."""
        own = unit_spelling(value)
        number = float(value.magnitude)
        return number if own == unit else number * UNITS[own].factor / UNITS[unit].factor

    def _possible(self, value: Quantity) -> Quantity:
        return _in_range(value, key=self.key, allowed=self.allowed)

    def _as_written(self) -> str:
        return " ".join(self.text.split())

    def _refused(self, expected: str, remedy: str) -> QuantityError:
        return QuantityError(
            "Q303", value=self.text, expected=expected, remedy=remedy, key=self.key
        )


def _with_unit(found: re.Match[str], side: str) -> str:
    """Write a deviation as it was written, with a space before its unit."""
    return f"{found[side]} {found[f'{side}_unit'] or ''}".rstrip()


def _rounded(number: float) -> float:
    """Drop the last digits, which only the arithmetic of binary numbers has made."""
    return float(f"{number:.{_DIGITS}g}")

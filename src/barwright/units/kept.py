"""The application's registry of units, and quantities that nothing can change.

All who use a registry of parts share its records: a figure that one of them converted in
place would be another figure for all.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, NoReturn, cast

import attrs
import numpy as np
import pint
from numpy.typing import NDArray
from pint.registry import LazyRegistry

from barwright.errors import QuantityError
from barwright.first_use import FIRST_USE
from barwright.units.kinds import KINDS, UNITS, Kind, Range

if TYPE_CHECKING:
    from pint.facets.plain import PlainQuantity

__all__ = [
    "Kept",
    "is_noted",
    "kept",
    "kept_in_range",
    "note_range",
    "registry",
    "spelling_of",
    "taken_over",
    "unit_of",
    "use_short_definitions",
]

_new = object.__new__

# Pint's own factors are off by a few of the last digits.
_NEARLY = 1e-9


@attrs.frozen(eq=False)
class _Present:
    """An application registry, with our spellings of its units and its units by these."""

    registry: pint.UnitRegistry[Any]
    units: Mapping[str, Any]
    spellings: Mapping[Any, str]


_present: _Present | None = None


def _now() -> _Present:
    """Return what belongs to the application registry of this moment."""
    global _present  # noqa: PLW0603 - the application has one registry at a time
    found = pint.get_application_registry().get()  # type: ignore[no-untyped-call]
    present = _present
    if present is None or present.registry is not found:
        # Pint's lazy registry fails when several threads touch it first.
        with FIRST_USE:
            present = _present = _looked_through(found)
    return present


def use_short_definitions() -> None:
    """Give pint the units of this library alone, in a fortieth of the time that all of them take.

    For a program that has no other use for pint: a registry that was set or used before stays.
    """
    global _present  # noqa: PLW0603 - as above
    with FIRST_USE:
        if type(pint.get_application_registry().get()) is LazyRegistry:  # type: ignore[no-untyped-call]
            short: pint.UnitRegistry[Any] = pint.UnitRegistry(_DEFINITIONS)
            pint.set_application_registry(short)  # type: ignore[no-untyped-call]
            _present = _looked_through(short, is_known=True)


# By pint's own names and steps, so that no digit of what it converts is another one.
_DEFINITIONS = (
    "milli- = 1e-3 = m-",
    "centi- = 1e-2 = c-",
    "kilo- = 1e3 = k-",
    "mega- = 1e6 = M-",
    "giga- = 1e9 = G-",
    "meter = [length] = m",
    "second = [time] = s",
    "gram = [mass] = g",
    "radian = [] = rad",
    f"pi = {math.pi!r}",
    "turn = 2 * pi * radian = _ = revolution",
    "degree = pi / 180 * radian = deg",
    "yard = 0.9144 * meter",
    "foot = yard / 3 = ft",
    "inch = yard / 36 = in",
    "mile = 1760 * yard = mi",
    "hour = 3600 * second = h",
    "year = 8766 * hour = a",
    "grain = 64.79891 * milligram",
    "pound = 7000 * grain = lb",
    "standard_gravity = 9.80665 * meter / second ** 2",
    "newton = kilogram * meter / second ** 2 = N",
    "force_pound = standard_gravity * pound = lbf = pound_force",
    "joule = newton * meter = J",
    "foot_pound = foot * force_pound = ft_lb",
    "hertz = 1 / second = Hz",
    "pascal = newton / meter ** 2 = Pa",
    "pound_force_per_square_inch = force_pound / inch ** 2 = psi",
)


def _looked_through(found: Any, *, is_known: bool = False) -> _Present:  # noqa: ANN401 - lazy or not, pint gives no type
    """Find all our units in a registry, or refuse it."""
    is_pints_own = is_known or isinstance(found, LazyRegistry)
    units = {spelling: _parsed(found, spelling) for spelling in UNITS}
    if found.non_int_type is not float:
        raise _unfit("mm", f"numbers of type {found.non_int_type.__name__}")
    for kind in () if is_pints_own else KINDS:
        for spelling in kind.units:
            _refuse_another_meaning(found, units[spelling], spelling, kind)
    spellings = {unit._units: spelling for spelling, unit in units.items()}  # noqa: SLF001
    return _Present(found, units, spellings)


def _parsed(found: Any, spelling: str) -> Any:  # noqa: ANN401 - as above
    try:
        return found.parse_units(UNITS[spelling].pint_name)
    except pint.PintError as error:
        raise _unfit(spelling, str(error)) from None


def _refuse_another_meaning(found: Any, unit: Any, spelling: str, kind: Kind) -> None:  # noqa: ANN401
    """Refuse a registry in which a unit has another size or kind than here."""
    try:
        size = float(found.Quantity(1, unit).m_as(kind.si_unit))
    except pint.PintError as error:
        raise _unfit(spelling, str(error)) from None
    if not math.isclose(size, UNITS[spelling].factor, rel_tol=_NEARLY):
        raise _unfit(spelling, f"1 {spelling} = {size:.9g} {kind.si_unit}")


def _unfit(spelling: str, value: str) -> QuantityError:
    return QuantityError(
        "Q402",
        value=value,
        expected=f"an application registry of pint that knows {spelling!r} as barwright does",
        remedy="pass pint.set_application_registry a registry made by pint.UnitRegistry(), with "
        "your own units added",
        key=spelling,
    )


def registry() -> pint.UnitRegistry[Any]:
    """Return the application's unit registry of this moment.

    Raises
    ------
    QuantityError
        Q402 if it does not know our units.
    """
    return _now().registry


def unit_of(spelling: str) -> Any:  # noqa: ANN401 - pint's unit class is private
    """Return the unit of the application's registry for one of our spellings."""
    return _now().units[spelling]


def spelling_of(value: PlainQuantity[Any]) -> str | None:
    """Return our spelling of the unit of a quantity of any registry; none if it has none."""
    # To ask one of ours for the class that it says it has is slow.
    if type(value) is Kept or isinstance(value, Kept):
        return value.spelling
    return _now().spellings.get(value._units)  # noqa: SLF001 - units are compared with their registry


class Kept(pint.Quantity):  # type: ignore[type-arg] # made of many classes; one has parameters
    """What records and answers hold: a quantity that nothing can change.

    It is a number and our spelling of its unit, and so of whatever registry the application
    has at the moment.  What is computed from it or converted is a new quantity of that
    registry's own class, and can be changed.
    """

    spelling: str

    def __new__(cls, *arguments: Any, **named: Any) -> Any:  # noqa: ANN401, D102 - as pint's own
        return registry().Quantity(*arguments, **named)

    # Pint makes its results with the class that a quantity says it has.
    @property  # type: ignore[misc]
    def __class__(self) -> type:
        """The registry's own class."""
        return cast("type", registry().Quantity)

    @property
    def _REGISTRY(  # type: ignore[override] # noqa: N802 - pint sets it once for a class
        self,
    ) -> pint.UnitRegistry[Any]:
        return registry()

    @property
    def _units(self) -> Any:  # type: ignore[override] # noqa: ANN401 - as above
        return unit_of(self.spelling)._units  # noqa: SLF001 - pint makes quantities so

    @property
    def dimensionality(self) -> Any:  # noqa: ANN401 - as above
        """Powers of the base dimensions."""
        return unit_of(self.spelling).dimensionality

    # Of one unit the numbers alone are compared: pint's own way takes fifty times as long.
    def __eq__(self, other: object) -> Any:  # noqa: ANN401 - of an array, element by element
        """Tell whether another quantity is the same."""
        if type(other) is Kept and type(self) is Kept and other.spelling == self.spelling:
            return self._magnitude == other.magnitude
        return pint.Quantity.__eq__(self, other)

    __hash__ = pint.Quantity.__hash__

    def compare(self, other: Any, op: Callable[[Any, Any], Any]) -> Any:  # noqa: ANN401 - as pint's own
        """Compare with another quantity."""
        if type(other) is Kept and type(self) is Kept and other.spelling == self.spelling:
            return op(self._magnitude, other.magnitude)
        return pint.Quantity.compare(self, other, op)

    def __deepcopy__(self, memo: dict[int, Any]) -> Kept:
        """Return itself, since nobody can change it: what holds it is copied with it."""
        return self

    def __reduce__(self) -> tuple[Any, ...]:
        """Survive pickling without a registry."""
        return kept, (self._magnitude, self.spelling)

    def __setattr__(self, name: str, value: object) -> NoReturn:
        """Refuse."""
        self._refuse_change()

    def _refuse_change(self, *_: object, **__: object) -> NoReturn:
        raise QuantityError(
            "Q401",
            value=str(self),
            expected="a quantity of your own to change",
            remedy="make a new one with .to('mm') or arithmetic",
        )

    # ``a += b`` then binds a new quantity to the name, as for numbers.
    for _name in ("add", "sub", "mul", "truediv", "floordiv", "mod", "pow"):
        vars()[f"__i{_name}__"] = getattr(pint.Quantity, f"__{_name}__")
    for _name in dir(pint.Quantity):
        if _name.startswith("ito"):
            vars()[_name] = _refuse_change
    del _name


def kept(magnitude: float | NDArray[np.float64], spelling: str) -> Kept:
    """Make a quantity that nothing can change.

    Parameters
    ----------
    magnitude : float or array
        The number, or numbers, which are copied.
    spelling : str
        The unit, as listed.

    Returns
    -------
    Kept
    """
    if isinstance(magnitude, np.ndarray):
        # An array on bytes, unlike one that is only marked, cannot be made writeable again.
        fixed = np.frombuffer(magnitude.tobytes(), dtype=np.float64)
        magnitude = fixed.reshape(magnitude.shape)
    if spelling not in UNITS:
        raise KeyError(spelling)
    made = _new(Kept)
    noted = made.__dict__
    noted["_magnitude"] = magnitude
    noted["spelling"] = spelling
    return made


def taken_over(numbers: NDArray[np.float64], spelling: str) -> Kept:
    """Make a quantity of an array that nobody else changes any more, without a copy.

    Parameters
    ----------
    numbers : array
        The numbers, in one piece.
    spelling : str
        The unit, as listed.

    Returns
    -------
    Kept
    """
    made = kept(0.0, spelling)
    # Nor can an array on a memory that is only read be made writeable.
    memory = memoryview(cast("bytes", numbers)).toreadonly()
    vars(made).update(_magnitude=np.asarray(memory))
    return made


def kept_in_range(magnitude: float, spelling: str, allowed: Range) -> Kept:
    """Make a quantity that nothing can change, of a number that is known to lie in a range.

    Parameters
    ----------
    magnitude : float
        The number.
    spelling : str
        The unit, one that is listed.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        The range.

    Returns
    -------
    Kept
    """
    made = _new(Kept)
    noted = made.__dict__
    noted["_magnitude"] = magnitude
    noted["spelling"] = spelling
    noted["_lies_in"] = allowed
    return made


def note_range(value: PlainQuantity[Any], allowed: Range) -> None:
    """Note at a quantity that nothing can change that its number lies in a range.

    Parameters
    ----------
    value : Quantity
        One that nothing can change.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        The range.
    """
    vars(value)["_lies_in"] = allowed


def is_noted(value: PlainQuantity[Any], allowed: Range) -> bool:
    """Tell whether it is noted at a quantity that its number lies in a range.

    Parameters
    ----------
    value : Quantity
        One that nothing can change.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        The range.

    Returns
    -------
    bool
    """
    return vars(value).get("_lies_in") == allowed

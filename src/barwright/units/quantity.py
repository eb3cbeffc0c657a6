"""The boundary to pint: numbers with units, and SI floats.

Inside the package a physical value is a :class:`Quantity` in records and
answers, and a plain float in SI units in kernels.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeAlias, TypeGuard, cast, get_origin, overload

import numpy as np
import pint
from numpy.typing import NDArray

from barwright.errors import QuantityError
from barwright.units.kept import Kept, kept, spelling_of
from barwright.units.kinds import FINER, SYSTEMS, UNITS, Kind, Range, System
from barwright.units.unknown import UNKNOWN, is_unknown

__all__ = [
    "LARGEST",
    "SMALLEST",
    "ArrayWithUnit",
    "Quantity",
    "QuantityArray",
    "check_range",
    "in_system",
    "is_quantity",
    "is_quantity_type",
    "quantity",
    "quantity_of_unit",
    "quantity_of_units",
    "same",
    "shown",
    "si",
    "unit_spelling",
]

if TYPE_CHECKING:
    from pint.facets.numpy.quantity import NumpyQuantity
    from pint.facets.plain import PlainQuantity

    # The base class whose number a type checker can tell; what pint makes is one of these.
    Quantity: TypeAlias = PlainQuantity[float]
    QuantityArray: TypeAlias = NumpyQuantity[NDArray[np.float64]]
    ArrayWithUnit: TypeAlias = PlainQuantity[NDArray[np.float64]]
else:
    # The class itself, so that isinstance() works with the public names.
    Quantity = QuantityArray = ArrayWithUnit = pint.Quantity
"""A number with its unit, an array of numbers with theirs, and such an array as callers give it.

All are pint's own class.
"""

_POSSIBLE: dict[Range, Callable[[float], bool]] = {
    "any": lambda _: True,
    "positive": lambda number: number > 0.0,
    "zero or more": lambda number: number >= 0.0,
    "zero or less": lambda number: number <= 0.0,
}

# SI units that no part of a car comes near, so that no power of a figure overflows.
SMALLEST, LARGEST = 1e-12, 1e15


@overload
def quantity(magnitude: float, kind: Kind, unit: str | None = None) -> Quantity: ...
@overload
def quantity(
    magnitude: NDArray[np.float64], kind: Kind, unit: str | None = None
) -> QuantityArray: ...
def quantity(
    magnitude: float | NDArray[np.float64], kind: Kind, unit: str | None = None
) -> Quantity | QuantityArray:
    """Attach a unit to an SI number: the answer's side of the boundary.

    Parameters
    ----------
    magnitude : float or array
        Number in the SI unit of ``kind``.
    kind : Kind
        What it is.
    unit : str, optional
        Spelling of the unit to give it in; the trade's unit if left out.

    Returns
    -------
    Quantity or QuantityArray
        Of the application's registry; nothing can change it, an array neither.

    Examples
    --------
    >>> from barwright.units import LENGTH, quantity
    >>> print(quantity(0.0252, LENGTH))
    25.2 millimeter
    """
    spelling = unit or kind.units[0]
    factor = UNITS[spelling].factor
    if isinstance(magnitude, np.ndarray) and magnitude.ndim:
        return quantity_of_units(magnitude / factor, spelling)
    return kept(_round_off(float(magnitude) / factor), spelling)


def quantity_of_unit(number: float, spelling: str) -> Quantity:
    """Make a quantity from a number and one of the listed spellings of a unit.

    Parameters
    ----------
    number : float
        The number, as written.
    spelling : str
        The unit, as listed.

    Returns
    -------
    Quantity

    Examples
    --------
    >>> from barwright.units import quantity_of_unit
    >>> print(quantity_of_unit(12.0, "N*m"))
    12.0 meter * newton
    """
    # Text would go to pint's parser of expressions.
    if not isinstance(number, int | float):
        raise QuantityError(
            "Q104", value=number, expected="a number", remedy="write it without quotes"
        )
    return kept(number, spelling)


def quantity_of_units(
    numbers: Sequence[float] | NDArray[np.float64], spelling: str
) -> QuantityArray:
    """Make a read-only array from numbers and one of the listed spellings of a unit.

    Parameters
    ----------
    numbers : sequence of float, or array
        The numbers, as written.
    spelling : str
        The unit, as listed.

    Returns
    -------
    Quantity

    Examples
    --------
    >>> from barwright.units import quantity_of_units
    >>> print(quantity_of_units([1.0, 2.0], "mm"))
    [1.0 2.0] millimeter
    """
    try:
        array = np.asarray(numbers)
    except ValueError:  # lists of different lengths
        array = np.asarray(None)
    if array.dtype.kind not in "iuf":
        raise QuantityError(
            "Q104", value=numbers, expected="real numbers", remedy="write them without quotes"
        )
    return kept(array.astype(np.float64), spelling)


def is_quantity(value: object) -> TypeGuard[Quantity]:
    """Tell whether a value is a quantity of any registry."""
    # To ask a quantity of ours for the class that it says it has is slow.
    return type(value) is Kept or isinstance(value, pint.Quantity)


def is_quantity_type(cls: object) -> bool:
    """Tell whether a type or annotation is that of quantities."""
    origin = get_origin(cls) or cls
    return isinstance(origin, type) and issubclass(origin, pint.Quantity)


@overload
def in_system(value: Quantity, system: System) -> Quantity: ...
@overload
def in_system(value: QuantityArray, system: System) -> QuantityArray: ...
def in_system(value: Quantity | QuantityArray, system: System) -> Quantity | QuantityArray:
    """Give a quantity in the units that a reader wants.

    Parameters
    ----------
    value : Quantity or QuantityArray
        A number or an array with its unit.
    system : {"metric", "inch"}
        What the reader wants.

    Returns
    -------
    Quantity or QuantityArray
        The same, in a unit of that system; angles, turns and frequencies stay.

    Examples
    --------
    >>> from barwright.units import LENGTH, in_system, quantity
    >>> print(in_system(quantity(0.0254, LENGTH), "inch"))
    1.0 inch
    """
    if is_unknown(value):
        return value
    spelling = unit_spelling(value)
    target = SYSTEMS[system].get(spelling)
    if target is None:
        return value
    ratio = UNITS[spelling].factor / UNITS[target].factor
    if np.ndim(value.magnitude):
        return quantity_of_units(np.asarray(value.magnitude) * ratio, target)
    return quantity_of_unit(_round_off(float(value.magnitude) * ratio), target)


def unit_spelling(value: Quantity | QuantityArray) -> str:
    """Spell the unit of a quantity as this library lists it.

    Parameters
    ----------
    value : Quantity
        A quantity that this library made or accepted.

    Returns
    -------
    str

    Raises
    ------
    QuantityError
        Q201 if the unit is not on the list.

    Examples
    --------
    >>> from barwright.units import LENGTH, quantity, unit_spelling
    >>> unit_spelling(quantity(0.0252, LENGTH))
    'mm'
    """
    spelling = spelling_of(value)
    if spelling is None:
        raise QuantityError(
            "Q201",
            value=str(value.units),
            expected="a unit on the list",
            remedy="convert it first, for example with .to('mm')",
        )
    return spelling


def si(value: Quantity, kind: Kind) -> float:
    """Return the number of SI units in a quantity: the kernel's side of the boundary.

    Parameters
    ----------
    value : Quantity
        A quantity that :func:`to_kind` has accepted as ``kind``.
    kind : Kind
        What it is.

    Returns
    -------
    float
        Or an array, of the figures of many corners.

    Examples
    --------
    >>> from barwright.units import LENGTH, si, to_kind
    >>> si(to_kind("25.4 mm", LENGTH, key="diameter"), LENGTH)
    0.0254
    """
    if type(value) is not Kept:
        return _computed_si(value, kind)
    noted = vars(value)
    if "_si" not in noted:
        noted["_si"] = _computed_si(value, kind)
    found: float = noted["_si"]
    return found


def _computed_si(value: Quantity, kind: Kind) -> float:
    spelling = spelling_of(value)
    if spelling is not None and isinstance(numbers := value.magnitude, np.ndarray):
        found = np.asarray(numbers * UNITS[spelling].factor)
        found.setflags(write=False)  # since it is kept
        return cast("float", found)
    if spelling is not None:
        return _round_off(float(value.magnitude) * UNITS[spelling].factor)
    return float(value.m_as(kind.si_unit))


def check_range(value: Quantity, *, key: str, allowed: Range = "any") -> None:
    """Refuse a number that is not finite or that no real part can have.

    Parameters
    ----------
    value : Quantity
        The figure.
    key : str
        Name of the field or argument, for the message.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.

    Raises
    ------
    QuantityError
        Q301 or Q302.

    Examples
    --------
    >>> from barwright.units import LENGTH, check_range, quantity
    >>> check_range(quantity(0.01, LENGTH), key="diameter", allowed="positive")
    """
    number = float(value.magnitude)
    if not math.isfinite(number):
        raise QuantityError(
            "Q301", value=shown(value), expected="a finite number", remedy="measure it", key=key
        )
    spelling = spelling_of(value)
    size = abs(number) * (UNITS[spelling].factor if spelling else 1.0)
    if size > LARGEST or (allowed == "positive" and 0.0 < size < SMALLEST):
        raise QuantityError(
            "Q302",
            value=shown(value),
            expected=f"between {SMALLEST:g} and {LARGEST:g} of its SI unit",
            remedy="check the unit and the exponent",
            key=key,
        )
    if not _POSSIBLE[allowed](number):
        raise QuantityError(
            "Q302",
            value=shown(value),
            expected="more than zero" if allowed == "positive" else allowed,
            remedy="check the sign and the figure",
            key=key,
        )


def shown(value: Quantity, digits: int | None = None) -> str:
    """Text of a quantity for a reader, its unit beside it.

    Parameters
    ----------
    value : Quantity
        The quantity.
    digits : int, optional
        Digits behind the point where the unit is metric; all there are if left out.

    Returns
    -------
    str

    Examples
    --------
    >>> from barwright.units import TORQUE, shown, to_kind
    >>> shown(to_kind("12 N*m", TORQUE, key="torque"), 1)
    '12.0 N·m'
    """
    if is_unknown(value):
        return UNKNOWN
    if np.ndim(value.magnitude):  # of many corners, none of which is to blame alone
        return f"{np.size(value.magnitude)} figures"
    number = float(value.magnitude)
    unit = spelling_of(value) or f"{value.units:~C}"
    text = f"{number:.6g}"
    if digits is not None:
        places = digits + FINER.get(unit, 0)
        # Adding zero turns a rounded -0.0 into 0.0.
        text = f"{round(number, places) + 0.0:.{places}f}"
    powers = unit.replace("**3", "³").replace("**2", "²")
    return f"{text} {powers}".replace("*", "·").replace(" deg", "°")


def _round_off(number: float) -> float:
    """Drop the last digit that changing units has smeared (15 of 17 digits stay)."""
    return float("%.15g" % number)  # noqa: UP031 - in two thirds of the time of the others


def same(value: Quantity | QuantityArray) -> tuple[str, bytes]:
    """Key by which two arrays with units are equal, element by element.

    Parameters
    ----------
    value : Quantity
        An array with its unit.

    Returns
    -------
    (str, bytes)

    Examples
    --------
    >>> from barwright.units import LENGTH, quantity, same
    >>> one, other = (quantity(np.array([0.001, 0.002]), LENGTH) for _ in range(2))
    >>> same(one) == same(other)
    True
    """
    return unit_spelling(value), np.asarray(value.magnitude, dtype=np.float64).tobytes()

"""The one place where barwright meets pint: kinds of quantity and the figure reader.

Inside the package a physical value is a :class:`Quantity` in records and
answers, and a plain float in SI units in kernels.  A *kind* is finer than a
dimension: to pint, N·m, N·m/rad and J are one.

Text is read by a strict grammar with a closed list of spellings, never by
pint's expression parser, which hangs on ``9**9**9 mm`` and reads ``25,4 mm`` as
254 mm.
"""

from __future__ import annotations

import functools
import math
import re
import threading
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any, Literal, TypeAlias, cast, get_origin

import attrs
import numpy as np
import pint
from numpy.typing import NDArray

from barwright.errors import QuantityError

__all__ = [
    "ANGLE",
    "DENSITY",
    "ENERGY",
    "FORCE",
    "FREQUENCY",
    "GAS_SLOPE",
    "HEIGHT_PER_TURN",
    "KINDS",
    "LENGTH",
    "MASS",
    "SHEAR_MODULUS",
    "STRESS",
    "TORQUE",
    "TORSIONAL_RATE",
    "TURNS",
    "WHEEL_RATE",
    "Kind",
    "Quantity",
    "Range",
    "Reading",
    "System",
    "check_range",
    "in_system",
    "is_quantity",
    "is_quantity_type",
    "quantity",
    "quantity_of_unit",
    "quantity_of_units",
    "read_figure",
    "same",
    "shown",
    "si",
    "to_kind",
    "unit_spelling",
]

if TYPE_CHECKING:
    Quantity: TypeAlias = pint.Quantity[Any]
else:
    # The class itself, so that isinstance() works with the public name.
    Quantity = pint.Quantity
"""A number, or an array of them, with its unit: pint's own class."""

System: TypeAlias = Literal["metric", "inch"]
"""Units that a reader wants: metric, or inch, pound and foot-pound."""

Range: TypeAlias = Literal["any", "positive", "zero or more", "zero or less"]
"""Which numbers are physically possible for a figure."""

_INCH = 0.0254
_POUND = 0.45359237
_POUND_FORCE = _POUND * 9.80665
_DEGREE = math.pi / 180.0


@attrs.frozen
class _Unit:
    """A unit: how pint calls it, and how many SI units it is."""

    pint_name: str
    factor: float


# Every spelling that is read.  Factors are exact by definition (inch, pound,
# standard gravity) or powers of ten; pint's own are up to one digit off.
_UNITS: dict[str, _Unit] = {
    "mm": _Unit("millimeter", 1e-3),
    "cm": _Unit("centimeter", 1e-2),
    "m": _Unit("meter", 1.0),
    "in": _Unit("inch", _INCH),
    "ft": _Unit("foot", 12.0 * _INCH),
    "deg": _Unit("degree", _DEGREE),
    "rad": _Unit("radian", 1.0),
    "turn": _Unit("turn", 1.0),
    "kg": _Unit("kilogram", 1.0),
    "lb": _Unit("pound", _POUND),
    "N": _Unit("newton", 1.0),
    "kN": _Unit("kilonewton", 1e3),
    "lbf": _Unit("force_pound", _POUND_FORCE),
    "N*m": _Unit("newton * meter", 1.0),
    "lbf*ft": _Unit("force_pound * foot", _POUND_FORCE * 12.0 * _INCH),
    "lbf*in": _Unit("force_pound * inch", _POUND_FORCE * _INCH),
    "N/mm": _Unit("newton / millimeter", 1e3),
    "N/m": _Unit("newton / meter", 1.0),
    "lbf/in": _Unit("force_pound / inch", _POUND_FORCE / _INCH),
    "N*m/deg": _Unit("newton * meter / degree", 1.0 / _DEGREE),
    "N*m/rad": _Unit("newton * meter / radian", 1.0),
    "lbf*ft/deg": _Unit("force_pound * foot / degree", _POUND_FORCE * 12.0 * _INCH / _DEGREE),
    "lbf*in/deg": _Unit("force_pound * inch / degree", _POUND_FORCE * _INCH / _DEGREE),
    "MPa": _Unit("megapascal", 1e6),
    "GPa": _Unit("gigapascal", 1e9),
    "psi": _Unit("psi", _POUND_FORCE / _INCH**2),
    "ksi": _Unit("kpsi", 1e3 * _POUND_FORCE / _INCH**2),
    "J": _Unit("joule", 1.0),
    # A unit of its own to pint, so that an energy is not taken for a torque.
    "ft*lbf": _Unit("foot_pound", _POUND_FORCE * 12.0 * _INCH),
    "Hz": _Unit("hertz", 1.0),
    "kg/m**3": _Unit("kilogram / meter ** 3", 1.0),
    "mm/turn": _Unit("millimeter / turn", 1e-3),
    "in/turn": _Unit("inch / turn", _INCH),
}


@attrs.frozen
class Kind:
    """A kind of quantity: finer than a dimension.

    Parameters
    ----------
    name : str
        What it is called in messages.
    units : tuple of str
        Spellings that are read for it, the one that answers use first.
    si_unit : str
        Unit of the kernels, as pint reads it.
    angle_power : int
        Power of an angle in its unit, which pint takes for no dimension.
    """

    name: str
    units: tuple[str, ...]
    si_unit: str
    angle_power: int = 0


LENGTH = Kind("length", ("mm", "cm", "m", "in", "ft"), "meter")
ANGLE = Kind("angle", ("deg", "rad"), "radian", angle_power=1)
TURNS = Kind("number of nut turns", ("turn",), "turn", angle_power=1)
MASS = Kind("mass", ("kg", "lb"), "kilogram")
FORCE = Kind("force", ("N", "kN", "lbf"), "newton")
TORQUE = Kind("torque", ("N*m", "lbf*ft", "lbf*in"), "newton * meter")
ENERGY = Kind("energy", ("J", "ft*lbf"), "joule")
WHEEL_RATE = Kind("rate at the wheel", ("N/mm", "N/m", "lbf/in"), "newton / meter")
GAS_SLOPE = Kind("change of gas force with length", ("N/mm", "N/m", "lbf/in"), "newton / meter")
TORSIONAL_RATE = Kind(
    "torsional rate",
    ("N*m/deg", "N*m/rad", "lbf*ft/deg", "lbf*in/deg"),
    "newton * meter / radian",
    angle_power=-1,
)
STRESS = Kind("stress", ("MPa", "GPa", "psi", "ksi"), "pascal")
SHEAR_MODULUS = Kind("shear modulus", ("GPa", "MPa", "psi", "ksi"), "pascal")
DENSITY = Kind("density", ("kg/m**3",), "kilogram / meter ** 3")
FREQUENCY = Kind("frequency", ("Hz",), "hertz")
HEIGHT_PER_TURN = Kind("height per nut turn", ("mm/turn", "in/turn"), "meter / turn", -1)

KINDS = (
    LENGTH,
    ANGLE,
    TURNS,
    MASS,
    FORCE,
    TORQUE,
    ENERGY,
    WHEEL_RATE,
    GAS_SLOPE,
    TORSIONAL_RATE,
    STRESS,
    SHEAR_MODULUS,
    DENSITY,
    FREQUENCY,
    HEIGHT_PER_TURN,
)
"""Every kind of quantity."""

# What a reader of either system is given for each unit that an answer may hold.
_SYSTEMS: dict[System, dict[str, str]] = {
    "metric": {
        "cm": "mm",
        "m": "mm",
        "in": "mm",
        "ft": "mm",
        "lb": "kg",
        "lbf": "N",
        "lbf*ft": "N*m",
        "lbf*in": "N*m",
        "lbf/in": "N/mm",
        "lbf*ft/deg": "N*m/deg",
        "lbf*in/deg": "N*m/deg",
        "psi": "MPa",
        "ksi": "MPa",
        "in/turn": "mm/turn",
        "ft*lbf": "J",
    },
    "inch": {
        "mm": "in",
        "cm": "in",
        "m": "in",
        "kg": "lb",
        "N": "lbf",
        "kN": "lbf",
        "N*m": "lbf*ft",
        "N/mm": "lbf/in",
        "N/m": "lbf/in",
        "N*m/deg": "lbf*ft/deg",
        "N*m/rad": "lbf*ft/deg",
        "MPa": "ksi",
        "GPa": "ksi",
        "J": "ft*lbf",
        "mm/turn": "in/turn",
    },
}

# Digits more than the same figure has in its metric unit.
_FINER = {"in": 2, "in/turn": 2, "ksi": 1}

# What shops write, and what is meant.
_MEANT = {
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
    "n/mm2": "MPa",
    "n/mm²": "MPa",
}

# Atomic, so that the end of a bare number is never taken for its unit.
_NUMBER = r"(?>[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?)"
_UNIT = r"[^\s\d±+,'\"″”′’/][^\s±+]*"
_FIGURE = re.compile(
    rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>{_UNIT})"
    rf"(?:\s*(?:±|\+/-)\s*(?P<spread>{_NUMBER})\s*(?P<spread_unit>{_UNIT}))?\s*"
)
_BARE = re.compile(rf"\s*{_NUMBER}\s*")
_COMMA = re.compile(r"\s*([+-]?[0-9]+),([0-9]+)(?![0-9,])\s*(.*)")
_FRACTION = re.compile(r"\s*(?:([0-9]{1,4})[ -]+)?([0-9]{1,4})/([0-9]{1,4})\s*(.*)")
_QUOTED = re.compile(rf"\s*({_NUMBER})\s*(''|[\"″”'′’])\s*")
_THOUSANDS = 3
_LONGEST_TEXT = 64

_POSSIBLE: dict[Range, Callable[[float], bool]] = {
    "any": lambda _: True,
    "positive": lambda number: number > 0.0,
    "zero or more": lambda number: number >= 0.0,
    "zero or less": lambda number: number <= 0.0,
}

# SI units that no part of a car comes near, so that no power of a figure overflows.
_SMALLEST, _LARGEST = 1e-12, 1e15

_lock = threading.Lock()


@attrs.frozen
class Reading:
    """A figure as it was written: its value and, if given, its tolerance."""

    value: Quantity
    tolerance: Quantity | None = None


@functools.cache
def _registry() -> pint.UnitRegistry[Any]:
    """Return the application's unit registry, built once.

    Its lazy form fails when several threads touch it first.
    """
    with _lock:
        registry = pint.get_application_registry()  # type: ignore[no-untyped-call]
        registry.parse_units("meter")
        return cast("pint.UnitRegistry[Any]", registry.get())


@functools.cache
def _pint_unit(spelling: str) -> Any:  # noqa: ANN401 - pint's unit class is private
    """Return pint's unit for one of our spellings."""
    return _registry().parse_units(_UNITS[spelling].pint_name)


@functools.cache
def _spellings() -> Mapping[Any, str]:
    """Our spelling of each of pint's units."""
    return {_pint_unit(spelling): spelling for spelling in _UNITS}


def quantity(
    magnitude: float | NDArray[np.float64], kind: Kind, unit: str | None = None
) -> Quantity:
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
    Quantity
        Of the application's registry; an array is copied and made read-only.

    Examples
    --------
    >>> print(quantity(0.0252, LENGTH))
    25.2 millimeter
    """
    spelling = unit or kind.units[0]
    factor = _UNITS[spelling].factor
    if isinstance(magnitude, np.ndarray) and magnitude.ndim:
        return quantity_of_units(magnitude / factor, spelling)
    return quantity_of_unit(_round_off(float(magnitude) / factor), spelling)


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
    >>> print(quantity_of_unit(12.0, "N*m"))
    12.0 meter * newton
    """
    # Text would go to pint's parser of expressions.
    if not isinstance(number, int | float):
        raise QuantityError(
            "Q104", value=number, expected="a number", remedy="write it without quotes"
        )
    return _registry().Quantity(number, _pint_unit(spelling))


def quantity_of_units(numbers: Sequence[float] | NDArray[np.float64], spelling: str) -> Quantity:
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
    >>> print(quantity_of_units([1.0, 2.0], "mm"))
    [1.0 2.0] millimeter
    """
    array = np.array(numbers, dtype=np.float64)
    array.flags.writeable = False
    return _registry().Quantity(array, _pint_unit(spelling))


def is_quantity(value: object) -> bool:
    """Tell whether a value is a quantity of any registry."""
    return isinstance(value, pint.Quantity)


def is_quantity_type(cls: object) -> bool:
    """Tell whether a type or annotation is that of quantities."""
    origin = get_origin(cls) or cls
    return isinstance(origin, type) and issubclass(origin, pint.Quantity)


def in_system(value: Quantity, system: System) -> Quantity:
    """Give a quantity in the units that a reader wants.

    Parameters
    ----------
    value : Quantity
        A number or an array with its unit.
    system : {"metric", "inch"}
        What the reader wants.

    Returns
    -------
    Quantity
        The same, in a unit of that system; angles, turns and frequencies stay.

    Examples
    --------
    >>> print(in_system(quantity(0.0254, LENGTH), "inch"))
    1.0 inch
    """
    spelling = unit_spelling(value)
    target = _SYSTEMS[system].get(spelling)
    if target is None:
        return value
    ratio = _UNITS[spelling].factor / _UNITS[target].factor
    if np.ndim(value.magnitude):
        return quantity_of_units(np.asarray(value.magnitude) * ratio, target)
    return quantity_of_unit(_round_off(float(value.magnitude) * ratio), target)


def unit_spelling(value: Quantity) -> str:
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
    >>> unit_spelling(quantity(0.0252, LENGTH))
    'mm'
    """
    spelling = _spellings().get(value.units)
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

    Examples
    --------
    >>> si(to_kind("25.4 mm", LENGTH, key="diameter"), LENGTH)
    0.0254
    """
    spelling = _spellings().get(value.units)
    if spelling is not None:
        return _round_off(float(value.magnitude) * _UNITS[spelling].factor)
    return float(value.m_as(kind.si_unit))


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
    >>> print(to_kind("0.984 in", LENGTH, key="diameter"))
    0.984 inch
    """
    if isinstance(value, str):
        return read_figure(value, kind, key=key, allowed=allowed).value
    if not isinstance(value, pint.Quantity):
        raise _bare(value, kind, key)
    accepted = _accepted(value, kind, key)
    check_range(accepted, key=key, allowed=allowed)
    return accepted


def read_figure(text: str, kind: Kind, *, key: str, allowed: Range = "any") -> Reading:
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
    >>> reading = read_figure("742.0 mm ± 0.4 mm", LENGTH, key="length")
    >>> print(reading.value, reading.tolerance)
    742.0 millimeter 0.4 millimeter
    """
    found = _FIGURE.fullmatch(text) if len(text) <= _LONGEST_TEXT else None
    if found is None:
        raise _misread(text, kind, key)
    value = _read_one(found["number"], found["unit"], text, kind, key)
    check_range(value, key=key, allowed=allowed)
    if found["spread"] is None:
        return Reading(value)
    spread = _read_one(found["spread"], found["spread_unit"], text, kind, key)
    if not 0.0 < si(spread, kind) <= _LARGEST:
        raise QuantityError(
            "Q303",
            value=text,
            expected="a tolerance above zero",
            remedy="leave the tolerance out if it is not known",
            key=key,
        )
    return Reading(value, spread)


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
    >>> check_range(quantity(0.01, LENGTH), key="diameter", allowed="positive")
    """
    number = float(value.magnitude)
    if not math.isfinite(number):
        raise QuantityError(
            "Q301", value=shown(value), expected="a finite number", remedy="measure it", key=key
        )
    spelling = _spellings().get(value.units)
    size = abs(number) * (_UNITS[spelling].factor if spelling else 1.0)
    if size > _LARGEST or (allowed == "positive" and 0.0 < size < _SMALLEST):
        raise QuantityError(
            "Q302",
            value=shown(value),
            expected=f"between {_SMALLEST:g} and {_LARGEST:g} of its SI unit",
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
    >>> shown(to_kind("12 N*m", TORQUE, key="torque"), 1)
    '12.0 N·m'
    """
    number = float(value.magnitude)
    unit = _spellings().get(value.units, f"{value.units:~C}")
    text = f"{number:.6g}"
    if digits is not None:
        places = digits + _FINER.get(unit, 0)
        # Adding zero turns a rounded -0.0 into 0.0.
        text = f"{round(number, places) + 0.0:.{places}f}"
    return f"{text} {unit}".replace("*", "·").replace(" deg", "°")


def _round_off(number: float) -> float:
    """Drop the last digit that changing units has smeared (15 of 17 digits stay)."""
    return float(f"{number:.15g}")


def same(value: Quantity) -> tuple[str, bytes]:
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
    >>> one, other = (quantity(np.array([0.001, 0.002]), LENGTH) for _ in range(2))
    >>> same(one) == same(other)
    True
    """
    return unit_spelling(value), np.asarray(value.magnitude, dtype=np.float64).tobytes()


def _read_one(number: str, unit: str, text: str, kind: Kind, key: str) -> Quantity:
    """Read one number and its unit."""
    spelling = unit.replace("·", "*")
    if spelling not in kind.units:
        raise _wrong_unit(text, number, spelling, kind, key)
    return quantity_of_unit(float(number), spelling)


def _accepted(value: Quantity, kind: Kind, key: str) -> Quantity:
    """Bring a pint quantity of any registry into one of the kind's units."""
    ours = _ours(value)
    if ours is None or not _is_of_kind(ours, kind):
        raise QuantityError(
            "Q202",
            value=str(value),
            expected=_a(kind),
            remedy=f"give it in {_listed(kind)}",
            key=key,
        )
    try:
        number = float(ours.magnitude)
    except (TypeError, ValueError, OverflowError):
        raise QuantityError(
            "Q104",
            value=str(value),
            expected=f"{_a(kind)} as one real number with its unit",
            remedy="give one figure, not several",
            key=key,
        ) from None
    if _spellings().get(ours.units) in kind.units:
        return _registry().Quantity(number, ours.units)
    return quantity(float(_registry().Quantity(number, ours.units).m_as(kind.si_unit)), kind)


def _ours(value: Quantity) -> Quantity | None:
    """Return a quantity of any registry as one of our own; none if units are unknown to it."""
    for rewritten in (lambda: value, value.to_root_units):
        given = rewritten()
        powers: dict[str, Any] = dict(given.unit_items())
        units = pint.util.UnitsContainer({name: float(power) for name, power in powers.items()})
        try:
            _registry().get_dimensionality(units)
        except pint.UndefinedUnitError:
            continue
        return _registry().Quantity(given.magnitude, units)
    return None


def _is_of_kind(value: Quantity, kind: Kind) -> bool:
    """Tell whether a quantity of our registry has the dimension and the angle of a kind."""
    one = _registry().Quantity(1.0, value.units)
    names = dict(one.unit_items())
    energy = _pint_unit("J").dimensionality
    # A torque in joules or an angle in turns is the right dimension and the wrong kind.
    is_energy = any(_registry().Unit(name).dimensionality == energy for name in names)
    is_turn = any(name.endswith("turn") for name in names)
    return (
        one.dimensionality == _registry().parse_units(kind.si_unit).dimensionality
        and dict(one.to_root_units().unit_items()).get("radian", 0) == kind.angle_power
        and (kind not in (TORQUE, ENERGY) or is_energy == (kind == ENERGY))
        and (kind not in (ANGLE, TURNS) or is_turn == (kind == TURNS))
    )


def _bare(value: object, kind: Kind, key: str) -> QuantityError:
    code, remedy = "Q104", "write it as text"
    if isinstance(value, int | float) and not isinstance(value, bool):
        code, remedy = "Q301", "measure it, and write it as text"
        if abs(value) <= _LARGEST:
            code, remedy = "Q105", f"write '{value:.15g} {kind.units[0]}'"
    return QuantityError(
        code,
        value=value,
        expected=f"{_a(kind)} with its unit, as text",
        remedy=f"{remedy}, in {_listed(kind)}",
        key=key,
    )


def _misread(text: str, kind: Kind, key: str) -> QuantityError:
    """Explain why a text is no figure, and what to write instead."""
    code, remedy = _advice(text, kind)
    return QuantityError(
        code,
        value=text,
        expected=f"{_a(kind)} as one decimal number and one unit",
        remedy=remedy,
        key=key,
    )


def _advice(text: str, kind: Kind) -> tuple[str, str]:
    """Code and remedy for a text that is no figure."""
    found = _slip(text, kind) if len(text) <= _LONGEST_TEXT else None
    return found or ("Q104", f"write it like '12.5 {kind.units[0]}', in {_listed(kind)}")


def _slip(text: str, kind: Kind) -> tuple[str, str] | None:
    """Code and remedy for what is often written in place of a figure."""
    if found := _COMMA.fullmatch(text):
        thousands = f" or '{found[1]}{found[2]} …'" if len(found[2]) == _THOUSANDS else ""
        rest = found[3].replace(",", ".")
        return "Q101", f"write {_rewritten(f'{found[1]}.{found[2]}', rest, kind)}{thousands}"
    if (found := _FRACTION.fullmatch(text)) and int(found[3]):
        number = int(found[1] or 0) + Fraction(int(found[2]), int(found[3]))
        return "Q102", f"write {_rewritten(f'{float(number):.15g}', found[4], kind)}"
    if (found := _QUOTED.fullmatch(text)) and "in" in kind.units:
        mark = "ft" if found[2] in "'′’" else "in"
        return "Q103", f"write '{found[1]} {mark}'"
    if text.strip().lower().startswith(("nan", "inf", "-inf", "+inf")):
        return "Q301", "measure it"
    if _BARE.fullmatch(text):
        return "Q105", f"write '{text.strip()} {kind.units[0]}', in {_listed(kind)}"
    return None


def _rewritten(number: str, rest: str, kind: Kind) -> str:
    """Return a number and what stood behind it, in quotes, the unit spelled as listed."""
    return f"'{number} {_meant(rest, kind) or rest.strip() or kind.units[0]}'"


def _wrong_unit(text: str, number: str, unit: str, kind: Kind, key: str) -> QuantityError:
    """Explain a unit that is unknown, or known for something else."""
    if unit in _UNITS and unit.lower() not in _MEANT:
        return QuantityError(
            "Q202",
            value=text,
            expected=_a(kind),
            remedy=f"give it in {_listed(kind)}",
            key=key,
        )
    return QuantityError(
        "Q201",
        value=text,
        expected=f"{_a(kind)} in {_listed(kind)}",
        remedy=_unit_advice(text, number, unit, kind),
        key=key,
    )


def _unit_advice(text: str, number: str, unit: str, kind: Kind) -> str:
    """Say how a unit is spelled; one that only looks alike would be another figure."""
    meant = _meant(unit, kind)
    if not meant:
        return f"give it in {_listed(kind)}"
    has_tolerance = "±" in text or "+/-" in text
    return f"write '{meant}' for '{unit}'" if has_tolerance else f"write '{number} {meant}'"


def _meant(unit: str, kind: Kind) -> str:
    """Return what the kind lists for a unit that is spelled otherwise; empty if nothing."""
    unit = unit.strip().replace("·", "*")
    meant = _MEANT.get(unit.lower(), unit)
    by_lower = {spelling.lower(): spelling for spelling in kind.units}
    return by_lower.get(meant.lower(), "")


def _a(kind: Kind) -> str:
    return f"an {kind.name}" if kind.name[0] in "aeiou" else f"a {kind.name}"


def _listed(kind: Kind) -> str:
    return ", ".join(kind.units[:-1]) + f" or {kind.units[-1]}" if kind.units[1:] else kind.units[0]

"""Fields of records: figures with kind and range, counts and other types."""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from collections.abc import Set as AbstractSet
from typing import Any, TypeAlias, TypeVar, cast

import attrs

from barwright import units
from barwright.errors import BarwrightError, GeometryError, NeedsError, SchemaError
from barwright.parts.common.arguments import fits
from barwright.parts.common.facts import field_types
from barwright.units import UNKNOWN, Kind, Quantity, Range

__all__ = [
    "MOST_CUTS",
    "FigureLike",
    "as_far_as_known",
    "count",
    "figure_fields",
    "known_or_not",
    "named",
    "refuse_unless_under",
    "tooth_count",
]

M = TypeVar("M", bound=Callable[..., None])

FigureLike: TypeAlias = str | Quantity
"""What a user may pass for a figure: ``"25.2 mm"``, a pint quantity, or ``"unknown"``."""

# A record's field names its converter; `named` adds the field's name to its errors.


def size(value: FigureLike) -> Quantity:
    """Accept a length above zero."""
    return _read(value, size)


def size_or_zero(value: FigureLike) -> Quantity:
    """Accept a length of zero or more."""
    return _read(value, size_or_zero)


def length(value: FigureLike) -> Quantity:
    """Accept a length of either sign: a position or an offset."""
    return _read(value, length)


def angle(value: FigureLike) -> Quantity:
    """Accept an angle."""
    return _read(value, angle)


def twist(value: FigureLike) -> Quantity:
    """Accept an angle above zero."""
    return _read(value, twist)


def turns(value: FigureLike) -> Quantity:
    """Accept a number of nut turns."""
    return _read(value, turns)


def turns_left(value: FigureLike) -> Quantity:
    """Accept a number of nut turns of zero or more."""
    return _read(value, turns_left)


def mass(value: FigureLike) -> Quantity:
    """Accept a mass above zero."""
    return _read(value, mass)


def force(value: FigureLike) -> Quantity:
    """Accept a force of zero or more."""
    return _read(value, force)


def rate(value: FigureLike) -> Quantity:
    """Accept a linear rate above zero."""
    return _read(value, rate)


def torsional_rate(value: FigureLike) -> Quantity:
    """Accept a torsional rate above zero."""
    return _read(value, torsional_rate)


def damping_rate(value: FigureLike) -> Quantity:
    """Accept a damper's rate of zero or more."""
    return _read(value, damping_rate)


def gas_slope(value: FigureLike) -> Quantity:
    """Accept a change of gas force with length of zero or less: it falls as the damper opens."""
    return _read(value, gas_slope)


def shear_modulus(value: FigureLike) -> Quantity:
    """Accept a shear modulus."""
    return _read(value, shear_modulus)


def stress(value: FigureLike) -> Quantity:
    """Accept a stress above zero."""
    return _read(value, stress)


def density(value: FigureLike) -> Quantity:
    """Accept a density."""
    return _read(value, density)


# The same where a record may leave the figure out.


def size_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`size` does, or none."""
    return None if value is None else size(value)


def size_or_zero_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`size_or_zero` does, or none."""
    return None if value is None else size_or_zero(value)


def length_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`length` does, or none."""
    return None if value is None else length(value)


def angle_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`angle` does, or none."""
    return None if value is None else angle(value)


def twist_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`twist` does, or none."""
    return None if value is None else twist(value)


def turns_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`turns` does, or none."""
    return None if value is None else turns(value)


def turns_left_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`turns_left` does, or none."""
    return None if value is None else turns_left(value)


def mass_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`mass` does, or none."""
    return None if value is None else mass(value)


def rate_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`rate` does, or none."""
    return None if value is None else rate(value)


def shear_modulus_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`shear_modulus` does, or none."""
    return None if value is None else shear_modulus(value)


def torsional_rate_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`torsional_rate` does, or none."""
    return None if value is None else torsional_rate(value)


def damping_rate_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`damping_rate` does, or none."""
    return None if value is None else damping_rate(value)


def stress_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`stress` does, or none."""
    return None if value is None else stress(value)


def density_or_none(value: FigureLike | None) -> Quantity | None:
    """Accept what :func:`density` does, or none."""
    return None if value is None else density(value)


MOST_CUTS = 2
"""One tooth at either end."""


def most_cuts(value: int) -> int:
    """Accept the most teeth to remove: none, or one at either end."""
    if type(value) is int and 0 <= value <= MOST_CUTS:
        return value
    expected = "the greatest number of teeth to remove: 0, 1 or 2"
    remedy = "write 0 to leave the bar uncut"
    raise SchemaError("S203", value=value, expected=expected, remedy=remedy)


_MOST = 9999


def count(value: int) -> int:
    """Accept a count: a whole number above zero, and nothing that merely looks like one."""
    if type(value) is int and 0 < value <= _MOST:
        return value
    expected = f"a whole number above zero, at most {_MOST}"
    remedy = "write the count without quotes, point or unit, like 36"
    raise SchemaError("S203", value=value, expected=expected, remedy=remedy)


def tooth_count(value: int | str) -> int:
    """Accept the count of a spline's teeth, which may be unknown."""
    if value == UNKNOWN or units.is_unknown(value):
        return units.unknown_count() if isinstance(value, str) else value
    return count(cast("int", value))


_FIELDS: dict[Callable[..., Any], tuple[Kind, Range]] = {
    size: (units.LENGTH, "positive"),
    size_or_zero: (units.LENGTH, "zero or more"),
    length: (units.LENGTH, "any"),
    angle: (units.ANGLE, "any"),
    twist: (units.ANGLE, "positive"),
    turns: (units.TURNS, "any"),
    turns_left: (units.TURNS, "zero or more"),
    mass: (units.MASS, "positive"),
    force: (units.FORCE, "zero or more"),
    rate: (units.WHEEL_RATE, "positive"),
    torsional_rate: (units.TORSIONAL_RATE, "positive"),
    damping_rate: (units.DAMPING_RATE, "zero or more"),
    gas_slope: (units.GAS_SLOPE, "zero or less"),
    shear_modulus: (units.SHEAR_MODULUS, "positive"),
    stress: (units.STRESS, "positive"),
    density: (units.DENSITY, "positive"),
}

_OR_NONE: dict[Callable[..., Any], Callable[..., Any]] = {
    size_or_none: size,
    size_or_zero_or_none: size_or_zero,
    length_or_none: length,
    angle_or_none: angle,
    twist_or_none: twist,
    turns_or_none: turns,
    turns_left_or_none: turns_left,
    mass_or_none: mass,
    rate_or_none: rate,
    shear_modulus_or_none: shear_modulus,
    torsional_rate_or_none: torsional_rate,
    damping_rate_or_none: damping_rate,
    stress_or_none: stress,
    density_or_none: density,
}

_KINDS = _FIELDS | {either: _FIELDS[plain] for either, plain in _OR_NONE.items()}


def _read(value: FigureLike, field: Callable[..., Any]) -> Quantity:
    if units.is_unknown(value):
        return cast("Quantity", value)
    if not units.is_quantity(value) and isinstance(value, str) and value == UNKNOWN:
        return units.unknown()
    kind, allowed = _FIELDS[field]
    return units.to_kind(value, kind, key="", allowed=allowed)


def named(cls: type, fields: list[attrs.Attribute[Any]]) -> list[attrs.Attribute[Any]]:
    """Make each field's errors name the field, and fields without a converter check their type."""
    return [
        _named(field) if field.converter else field if field.name == "about" else _typed(cls, field)
        for field in fields
    ]


def _named(field: attrs.Attribute[Any]) -> attrs.Attribute[Any]:
    convert: Any = field.converter

    def naming(value: Any) -> Any:  # noqa: ANN401 - whatever the field holds
        try:
            return convert(value)
        except BarwrightError as error:
            raise error.within(key=field.name) from None

    metadata = dict(field.metadata)
    if convert in _KINDS:
        metadata["kind"], metadata["allowed"] = _KINDS[convert]
    if convert in (count, tooth_count):
        metadata["counts"] = (1, _MOST)
        metadata["may_be_unknown"] = convert is tooth_count
    return field.evolve(converter=naming, metadata=metadata)


def _typed(cls: type, field: attrs.Attribute[Any]) -> attrs.Attribute[Any]:
    def checking(value: Any) -> Any:  # noqa: ANN401 - whatever the field holds
        expected = field_types(cls)[field.name]
        if type(value) is not expected and not fits(value, expected):
            raise SchemaError(
                "S203",
                value=value,
                expected=f"a value of type {getattr(expected, '__name__', expected)}",
                remedy="pass a record, a member of the enumeration, or a value of that type",
                key=field.name,
            )
        return value

    return field.evolve(converter=checking, metadata={**field.metadata, "is_only_checked": True})


def figure_fields(cls: type) -> Mapping[str, tuple[Kind, Range]]:
    """Kind and range of every figure that a record class holds, by field name."""
    return _figure_fields(cls)


def known_or_not(cls: type) -> AbstractSet[str]:
    """Fields of a record class whose figure or count may be unknown."""
    return _known_or_not(cls)


@functools.cache
def _known_or_not(cls: type[Any]) -> AbstractSet[str]:
    counts = {f.name for f in attrs.fields(cls) if f.metadata.get("may_be_unknown")}
    return counts | figure_fields(cls).keys()


@functools.cache
def _figure_fields(cls: type[Any]) -> Mapping[str, tuple[Kind, Range]]:
    return {
        field.name: (field.metadata["kind"], field.metadata["allowed"])
        for field in attrs.fields(cls)
        if "kind" in field.metadata
    }


def as_far_as_known(check: M) -> M:
    """Make a check of a record pass over what rests on a figure that is not known.

    Parameters
    ----------
    check : callable
        Method of a record that refuses what cannot be.

    Returns
    -------
    callable
        The same, which refuses nothing where a figure is unknown.
    """

    @functools.wraps(check)
    def checking(*given: Any, **named: Any) -> None:  # noqa: ANN401 - whatever the check takes
        try:  # noqa: SIM105 - in a third of the time that suppress() takes
            check(*given, **named)
        except NeedsError:
            pass

    return cast("M", checking)


def refuse_unless_under(
    code: str,
    *,
    small: Quantity,
    large: Quantity,
    key: str,
    large_is: str,
    remedy: str = "check which of the two was measured",
) -> None:
    """Refuse one size of a part that is not under another one.

    Parameters
    ----------
    code : str
        Stable code of the refusal.
    small, large : Quantity
        The two sizes.
    key : str
        Field of the smaller one.
    large_is : str
        What the larger one is called.
    remedy : str
        What to do about it.

    Raises
    ------
    GeometryError
        With that code.
    """
    if units.is_unknown(small) or units.is_unknown(large) or small < large:
        return
    expected = f"less than the {large_is} of {units.shown(large)}"
    raise GeometryError(code, value=units.shown(small), expected=expected, remedy=remedy, key=key)

"""Toleranced figures of a setup.

A record used twice in a setup, like one steel in bar and tube, counts once: its
figures shift together.  Records are known by the id of the part that they belong to
and their place in it, and by their value, so that a part that was changed is another one.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, TypeAlias

import attrs

from barwright.computed_once import cached_property
from barwright.errors import QuantityError, SchemaError
from barwright.parts.chassis import AxlePlace
from barwright.parts.common.facts import fact_fields
from barwright.parts.common.fields import FigureLike, figure_fields
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.parts.common.source import Figure
from barwright.parts.setup import Setup
from barwright.units import (
    Quantity,
    is_quantity,
    is_unknown,
    quantity_of_unit,
    shown,
    si,
    to_kind,
    unit_spelling,
)

__all__ = [
    "HeldFigure",
    "Key",
    "TolerancedFigure",
    "branches",
    "figure_places",
    "held_figures",
    "read_places",
    "toleranced_figures",
    "toleranced_figures_among",
]

Key: TypeAlias = tuple[Any, ...]
"""What a figure is: the id of its part, the fields that lead to it, and its value."""


@attrs.frozen(kw_only=True)
class TolerancedFigure:
    """A figure of a setup, with the half width of its tolerance.

    Parameters
    ----------
    figure : str
        Its name, by the fields of the setup that lead to it first, like
        ``bar.material.shear_modulus``.
    value : Quantity
        Its nominal value.
    half_width : Quantity
        Of the interval that it lies in, in the unit of the value.
    key : tuple
        What tells it from all others.
    """

    figure: str
    # The key tells them apart, and to hash a quantity takes long.
    value: Quantity = attrs.field(hash=False)
    half_width: Quantity = attrs.field(hash=False)
    key: Key

    def at(self, share: float) -> Quantity:
        """Value at a share of the half width, from -1 to 1."""
        number = float(self.value.magnitude) + share * float(self.half_width.magnitude)
        return quantity_of_unit(number, unit_spelling(self.value))


# Of classes with slots the frozen ones take three times as long to make.
@attrs.frozen(slots=False)
class HeldFigure:
    """A figure of a setup, at its place.

    Parameters
    ----------
    path : str
        Fields of the setup that lead to it.
    holder : record or Setup
        What holds it.
    field : str
        Under which field.
    key : tuple
        What tells it from all others.
    """

    path: str
    holder: Any
    field: str
    key: Key

    @property
    def value(self) -> Quantity:
        """Its value."""
        value: Quantity = getattr(self.holder, self.field)
        return value

    @cached_property
    def known(self) -> Figure | None:
        """What is known of it beside its value."""
        return self.holder.about.get(self.field) if isinstance(self.holder, Record) else None

    @property
    def tolerance(self) -> Quantity | None:
        """Half width of the interval that it lies in."""
        return self.known.tolerance if self.known else None


def figure_places(
    setup: attrs.AttrsInstance, *, where: Callable[[str], bool] | None = None
) -> tuple[HeldFigure, ...]:
    """List every place of a setup at which a figure stands.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    where : callable, optional
        From the fields that lead to a figure or a record to whether it is to be looked at.

    Returns
    -------
    tuple of HeldFigure
    """
    found: list[HeldFigure] = []
    _add_places(found, setup, (), "", where or (lambda _: True))
    return tuple(found)


# Fields of records that no corner is computed from, in a setup or in that of a reading.
_NOT_READ = re.compile(
    r"(?:(?:reading|further_readings\.[0-9]+)\.setup\.)?"
    r"(?:chassis$|axle\.(?:left|right)\.(?!arm$|arm\.radius$))"
)


def read_places(setup: attrs.AttrsInstance) -> tuple[HeldFigure, ...]:
    """List the places of a setup whose figures a corner is computed from.

    Of the parts that the vehicle left the works with, only the arm's radius is one: it belongs
    to the geometry of the chassis.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.

    Returns
    -------
    tuple of HeldFigure
    """
    return figure_places(setup, where=lambda path: not _NOT_READ.match(path))


def held_figures(
    setup: attrs.AttrsInstance, *, where: Callable[[str], bool] | None = None
) -> tuple[HeldFigure, ...]:
    """List the figures that a setup holds, each once, at the first place where it stands.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    where : callable, optional
        As of :func:`figure_places`.

    Returns
    -------
    tuple of HeldFigure
    """
    found: dict[Key, HeldFigure] = {}
    for held in figure_places(setup, where=where):
        found.setdefault(held.key, held)
    return tuple(found.values())


def toleranced_figures(
    setup: attrs.AttrsInstance, half_widths: Mapping[str, FigureLike]
) -> tuple[TolerancedFigure, ...]:
    """List the figures that have a tolerance, each once.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    half_widths : mapping of str to str or Quantity
        Half widths that are not in the records, or replace theirs, by figure; with
        zero a figure is exact.

    Returns
    -------
    tuple of TolerancedFigure

    Raises
    ------
    SchemaError
        S201 for a name that no figure of the setup has.
    QuantityError
        If a half width is of another kind than its figure, or negative; Q303 for one
        as wide as a figure that must be above zero.
    """
    return toleranced_figures_among(figure_places(setup), half_widths)


def toleranced_figures_among(
    places: Sequence[HeldFigure], half_widths: Mapping[str, FigureLike]
) -> tuple[TolerancedFigure, ...]:
    """List the toleranced figures of a setup, in all places.

    Parameters
    ----------
    places : sequence of HeldFigure
        As :func:`figure_places` lists them.
    half_widths : mapping of str to str or Quantity
        As in :func:`toleranced_figures`.

    Returns
    -------
    tuple of TolerancedFigure

    Raises
    ------
    BarwrightError
        As :func:`toleranced_figures`.
    """
    _refuse_unknown(half_widths, [place.path for place in places])
    given = {
        place.key: _half_width(place, half_widths[place.path])
        for place in places
        if place.path in half_widths
    }
    found: dict[Key, TolerancedFigure] = {}
    for place in places:
        half = given[place.key] if given and place.key in given else place.tolerance
        if half is not None and half.magnitude > 0.0 and place.key not in found:
            _refuse_wider(place, half)
            unit = unit_spelling(place.value)
            found[place.key] = TolerancedFigure(
                figure=place.path,
                value=place.value,
                half_width=quantity_of_unit(_number_in(half, place.value), unit),
                key=place.key,
            )
    return tuple(found.values())


def _number_in(half_width: Quantity, value: Quantity) -> float:
    """Return the number of a half width in the unit of its figure."""
    if unit_spelling(half_width) == unit_spelling(value):
        return float(half_width.magnitude)
    return float(half_width.m_as(value.units))


def branches(value: Any, owner: Key) -> Iterator[tuple[str, Any, Key]]:  # noqa: ANN401
    """Fields of a record or items of a tuple: the name, what is there, and what owns that."""
    if isinstance(value, tuple):
        for index, item in enumerate(value):
            place = getattr(item, "place", None)
            label = place.value if isinstance(place, AxlePlace) else str(index)
            yield label, item, (*owner, label)
    elif attrs.has(cls := type(value)):
        for name in _fields(cls):
            yield name, getattr(value, name), (*owner, name)


@functools.cache
def _fields(cls: type[Any]) -> tuple[str, ...]:
    """Fields of a class, those of a setup first that say in the fewest words what a figure is."""
    facts = NOT_IN_FILES | (fact_fields(cls) if issubclass(cls, Record) else frozenset())
    names = [field.name for field in attrs.fields(cls) if field.name not in facts]
    last = ("axle", "chassis", "reading", "further_readings") if cls is Setup else ()
    return (*(name for name in names if name not in last), *last)


def _children(value: Any, owner: Key) -> Iterator[tuple[str, Any, Key]]:  # noqa: ANN401
    """Branches of a value; a setup's axle is the one of its chassis."""
    if not isinstance(value, Setup):
        yield from branches(value, owner)
        return
    for name, child, key in branches(value, owner):
        # Without an adjuster there is no nut to turn.
        if name != "nut_turns" or value.adjuster is not None:
            is_axle = name == "axle"
            yield name, child, (value.chassis.id, "axles", child.place.value) if is_axle else key


def _add_places(
    found: list[HeldFigure],
    value: Any,  # noqa: ANN401 - a setup, a record, or what stands in one
    owner: Key,
    path: str,
    where: Callable[[str], bool],
) -> None:
    """Add the places in a value to those that were found."""
    if isinstance(value, Part):
        owner = (value.id,)
    elif isinstance(value, Setup):  # what a reading holds too is the same thing
        owner = ()
    for name, child, key in _children(value, owner):
        if child is None or is_unknown(child):
            continue
        below = f"{path}.{name}" if path else name
        # To ask a quantity whether it is text, or anything else that it is not, is slow.
        if is_quantity(child):
            if where(below):
                found.append(HeldFigure(below, value, name, _key(value, name, key)))
        elif not isinstance(child, str) and where(below):
            _add_places(found, child, key, below, where)


def _key(holder: Any, field: str, owner: Key) -> Key:  # noqa: ANN401 - a record or a setup
    kind, _ = figure_fields(type(holder))[field]
    return (*owner, si(getattr(holder, field), kind))


def _half_width(place: HeldFigure, given: FigureLike) -> Quantity:
    kind, _ = figure_fields(type(place.holder))[place.field]
    return to_kind(given, kind, key=f"half_widths.{place.path}", allowed="zero or more")


def _refuse_wider(place: HeldFigure, half_width: Quantity) -> None:
    """Refuse a tolerance that reaches down to zero, of a figure that must lie above it."""
    _, allowed = figure_fields(type(place.holder))[place.field]
    if allowed == "positive" and half_width >= place.value:
        raise QuantityError(
            "Q303",
            value=f"{shown(place.value)} ± {shown(half_width)}",
            expected="a tolerance less than the figure, because the figure is above zero",
            remedy="check the unit; if the figure is so uncertain, measure it",
            key=place.path,
        )


def _refuse_unknown(half_widths: Mapping[str, FigureLike], known: list[str]) -> None:
    for name in half_widths:
        if name not in known:
            last = name.rpartition(".")[2]
            near = [path for path in known if path.rpartition(".")[2] == last] or known
            raise SchemaError(
                "S201",
                value=name,
                expected="a figure of the setup",
                remedy=f"one of: {', '.join(near[:8])}",
                key="half_widths",
            )

"""A loose bar as somebody measured it: which of its ends is which, nobody knows yet."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, TypeAlias

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.fields import FigureLike, count, named
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import Figure
from barwright.units import ANGLE, LENGTH, Kind, Range, read_figure, to_kind

__all__ = ["MeasuredBar", "MeasuredEnd", "MeasuredFigure", "measured_figure"]

MeasuredFigure: TypeAlias = FigureLike | Figure

_MOST_ENDS = 2


def measured_figure(value: MeasuredFigure | None, kind: Kind, *, allowed: Range) -> Figure | None:
    """Accept a figure as it was measured.

    Parameters
    ----------
    value : str, Quantity or Figure, optional
        A text may state its ±.
    kind : Kind
        What it is.
    allowed : Range
        Which values it may have.

    Returns
    -------
    Figure or None
        None if it was not measured.

    Raises
    ------
    QuantityError
        If it is none of its kind.
    """
    if value is None or isinstance(value, Figure):
        return value
    if isinstance(value, str):
        read = read_figure(value, kind, key="", allowed=allowed)
        return Figure(value=read.value, tolerance=read.tolerance, written=read.written)
    return Figure(value=to_kind(value, kind, key="", allowed=allowed))


def _size(value: MeasuredFigure | None) -> Figure | None:
    return measured_figure(value, LENGTH, allowed="positive")


def _size_or_zero(value: MeasuredFigure | None) -> Figure | None:
    return measured_figure(value, LENGTH, allowed="zero or more")


def _angle(value: MeasuredFigure | None) -> Figure | None:
    return measured_figure(value, ANGLE, allowed="any")


def _count_or_none(value: int | None) -> int | None:
    return None if value is None else count(value)


def _blanks(value: Iterable[object] | None) -> tuple[int, ...] | None:
    """Accept the places of blanks; an end may have none, which is something seen too."""
    if value is None:
        return None
    places = () if isinstance(value, str) else tuple(value)
    whole = [one for one in places if type(one) is int]
    if isinstance(value, str) or len(whole) < len(places) or len(set(whole)) < len(whole):
        raise SchemaError(
            "S203",
            value=places or value,
            expected="different whole numbers: teeth counted on from one of the blanks",
            remedy="write (0,) for one blank, (0, 3) for a second one three teeth on, () for none",
        )
    return tuple(sorted(whole))


def _at_most_two(value: Iterable[Any]) -> tuple[Any, ...]:
    ends = tuple(value)
    if len(ends) > _MOST_ENDS or not all(isinstance(end, MeasuredEnd) for end in ends):
        raise SchemaError(
            "S203",
            value=f"{len(ends)} ends",
            expected="one measured end or two",
            remedy="give each figure of an end at most twice, once for each end",
        )
    return ends


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class MeasuredEnd(Summarised):
    """One splined end of a loose bar; what was not measured is left out.

    Parameters
    ----------
    teeth : int, optional
        Teeth of the whole circle, each blank counted too.
    blanks : tuple of int, optional
        Where teeth are missing, counted on from one of the blanks, either way round: ``(0,)`` for
        one blank, ``(0, 3)`` for a second one three teeth on, ``()`` for none.
    major_diameter, root_diameter : Figure, optional
        Over the teeth, and at the bottom of two opposite spaces.
    length : Figure, optional
        Of the spline, its run-out left out.
    taper, nose : Figure, optional
        Length of the cone between spline and body, and of the plain piece beyond the spline;
        ``"0 mm"`` where there is none.
    """

    teeth: int | None = attrs.field(default=None, converter=_count_or_none)
    blanks: tuple[int, ...] | None = attrs.field(default=None, converter=_blanks)
    major_diameter: Figure | None = attrs.field(default=None, converter=_size)
    root_diameter: Figure | None = attrs.field(default=None, converter=_size)
    length: Figure | None = attrs.field(default=None, converter=_size)
    taper: Figure | None = attrs.field(default=None, converter=_size_or_zero)
    nose: Figure | None = attrs.field(default=None, converter=_size_or_zero)

    def __attrs_post_init__(self) -> None:
        """Refuse a missing tooth that the end does not have."""
        if self.teeth is None or self.blanks is None:
            return
        if any(abs(place) >= self.teeth for place in self.blanks):
            raise SchemaError(
                "S207",
                value=self.blanks,
                expected=f"places of the {self.teeth} teeth that the end has",
                remedy="count on from one of the gaps, which is 0",
                key="blanks",
            )


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class MeasuredBar(Summarised):
    """A loose bar as it was measured; what was not measured is left out.

    Each figure is a text, such as ``"24.2 mm ± 0.1 mm"``, or a quantity.

    Parameters
    ----------
    diameter : Figure, optional
        Of the body.
    bore : Figure, optional
        Bore of a hollow bar; ``"0 mm"`` of a solid one.
    length : Figure, optional
        Over both splines, from outer edge to outer edge, noses left out.
    ends : tuple of MeasuredEnd
        Its ends, at most two, in any order.
    blank_angle : Figure, optional
        From the nearer end's blank to the farther end's, clockwise as seen along the bar; it is
        the same from whichever end one looks.

    Raises
    ------
    SchemaError
        S203 for a count or a list that is none.
    QuantityError
        For a figure that is none of its kind.

    Examples
    --------
    >>> bar = MeasuredBar(diameter="24.2 mm ± 0.1 mm", ends=[MeasuredEnd(teeth=39)])
    >>> f"{bar.diameter.tolerance:~P}"
    '0.1 mm'
    """

    diameter: Figure | None = attrs.field(default=None, converter=_size)
    bore: Figure | None = attrs.field(default=None, converter=_size_or_zero)
    length: Figure | None = attrs.field(default=None, converter=_size)
    ends: tuple[MeasuredEnd, ...] = attrs.field(default=(), converter=_at_most_two)
    blank_angle: Figure | None = attrs.field(default=None, converter=_angle)

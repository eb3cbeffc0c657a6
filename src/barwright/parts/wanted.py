"""What is wanted: a height at a corner with limits on the work, or what a bar is chosen for."""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from typing import cast

import attrs

from barwright.errors import JobError, QuantityError
from barwright.parts.common.fields import (
    FigureLike,
    angle_or_none,
    most_cuts,
    named,
    size_or_none,
    turns_left_or_none,
)
from barwright.parts.common.in_short import Summarised
from barwright.units import FREQUENCY, WHEEL_RATE, Quantity, to_kind

__all__ = ["Extreme", "Goal", "Wanted", "refuse_uneven_wishes"]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Wanted(Summarised):
    """Height wanted at a corner: a height, an arm angle, the present or the standard height.

    Parameters
    ----------
    height : Quantity, optional
        Hub to arch.
    arm_angle : Quantity, optional
        Arm above the horizontal.
    same_height : bool
        Whether it is to stand as it stands now, with another clocking: as its reading says,
        or without one as its figures do.  The commonest re-index of all brings the nut back
        to the middle of its thread.
    cuts : int, optional
        The most teeth to remove, cleared keys counted too; 0 for none.
    thread_reserve : Quantity, optional
        Thread to be left on either side of the nut, so that the height can be corrected;
        if left out, the turns that the figures require.
    """

    height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    arm_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)
    same_height: bool = attrs.field(default=False, repr=False)
    cuts: int | None = attrs.field(default=None, converter=attrs.converters.optional(most_cuts))
    thread_reserve: Quantity | None = attrs.field(default=None, converter=turns_left_or_none)

    def __attrs_post_init__(self) -> None:
        """Refuse two wishes at once."""
        wishes = [
            name
            for name in ("height", "arm_angle", "same_height")
            if getattr(self, name) not in (None, False)
        ]
        if len(wishes) > 1:
            raise JobError(
                "S207",
                value=" and ".join(wishes),
                expected="one of them",
                remedy="leave one out",
                key="wanted",
            )

    def _in_short(self) -> str:
        """Show the wish."""
        return ", ".join(filter(None, ("same height" * self.same_height, super()._in_short())))


def refuse_uneven_wishes(wanted: Sequence[Wanted], corners: Sequence[object]) -> None:
    """Refuse wishes that are not as many as the corners, if there are any."""
    if len(wanted) not in (0, len(corners)):
        raise JobError(
            "S207",
            value=f"{len(wanted)} wishes for {len(corners)} corners",
            expected="a wish for each corner, or none",
            remedy="give them in the order of the corners",
            key="wanted",
        )


class Extreme(enum.Enum):
    """A wish for the most of something, instead of a figure."""

    LOWEST_STRESS = "lowest stress"
    LARGEST_BAR = "largest bar"


def _rate(value: FigureLike | None) -> Quantity | None:
    return None if value is None else to_kind(value, WHEEL_RATE, key="", allowed="positive")


def _frequency(value: FigureLike | None) -> Quantity | None:
    return None if value is None else to_kind(value, FREQUENCY, key="", allowed="positive")


def _percent(value: float | None) -> float | None:
    return None if value is None else _above(-100.0, value)


def _ratio(value: float | None) -> float | None:
    return None if value is None else _above(0.0, value)


def _above(least: float, value: object) -> float:
    """Accept a number above a limit."""
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    if is_number and math.isfinite(number := cast("float", value)) and number > least:
        return float(number)
    raise QuantityError(
        "Q302",
        value=value,
        expected=f"a number above {least:g}",
        remedy="write per cent as a number, like 30 for 30 % more; a ratio like 0.9",
    )


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Goal(Summarised):
    """What a bar is chosen for: one of these.

    Parameters
    ----------
    wheel_rate : Quantity, optional
        Rate at the wheel at rest.
    rate_change : float, optional
        The same in per cent more than now; softer if negative.
    ride_frequency : Quantity, optional
        Of the sprung mass at rest.
    front_to_rear : float, optional
        Ride frequency of the front axle over that of the rear axle; the other axle stays as it
        left the works.
    extreme : Extreme, optional
        The lowest stress that holds the height, or the thickest bar that goes in and survives.

    Raises
    ------
    JobError
        S207 unless one of these is given.
    QuantityError
        For a figure that is none of its kind, or impossible.

    Examples
    --------
    >>> Goal(rate_change=30.0)
    <Goal: rate change 30>
    """

    wheel_rate: Quantity | None = attrs.field(default=None, converter=_rate)
    rate_change: float | None = attrs.field(default=None, converter=_percent)
    ride_frequency: Quantity | None = attrs.field(default=None, converter=_frequency)
    front_to_rear: float | None = attrs.field(default=None, converter=_ratio)
    extreme: Extreme | None = None

    def __attrs_post_init__(self) -> None:
        """Refuse no wish, and two at once."""
        wishes = [f.name for f in attrs.fields(Goal) if getattr(self, f.name) is not None]
        if len(wishes) != 1:
            raise JobError(
                "S207",
                value=" and ".join(wishes) or "no goal",
                expected="one goal",
                remedy="give a rate, a change, a frequency, a ratio or an extreme, and no second",
                key="goal",
            )

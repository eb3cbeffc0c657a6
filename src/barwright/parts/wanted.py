"""A wish: the height wanted at a corner, and limits on the work."""

from __future__ import annotations

import attrs

from barwright.errors import JobError
from barwright.parts.common.fields import (
    angle_or_none,
    most_cuts,
    named,
    size_or_none,
    turns_left_or_none,
)
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity

__all__ = ["Wanted"]


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

    def _told(self) -> str:
        """Show the wish."""
        return ", ".join(filter(None, ("same height" * self.same_height, super()._told())))

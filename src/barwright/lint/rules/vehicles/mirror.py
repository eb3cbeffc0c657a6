"""Left mirrors right."""

from __future__ import annotations

import math
from collections.abc import Iterator

from barwright.analysis.rates.ride import ride
from barwright.errors import BarwrightError
from barwright.lint.content import as_written
from barwright.lint.corners.corners import StandardAxle, StandardCorner, each_axle
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.subject import Subject
from barwright.units import Quantity, shown

__all__ = ["RULE"]

# What differs by less stands level.
_CLOSE = 1e-6


def _remarks(subject: Subject) -> Iterator[Remark]:
    return said_where_known(each_axle(subject), _reported)


def _reported(axle: StandardAxle) -> Iterator[Remark]:
    if difference := _difference(axle):
        yield Remark(axle.place, difference, _remedy(axle))


def _difference(axle: StandardAxle) -> str:
    """Say in what the corners differ; empty if in nothing, or if one of them does not work.

    Of an axle whose figures are given for each side, they may.
    """
    if not all(corner.fits for corner in axle.corners):
        return ""
    if _differs_on_purpose(axle):
        return ""
    left, right = (corner.once(_figures) for corner in axle.corners)
    for name, one in left.items():
        other = right.get(name, one)
        if not math.isclose(one.magnitude, other.magnitude, rel_tol=_CLOSE, abs_tol=_CLOSE):
            return f"on the keys, left and right differ: {name} {shown(one)} and {shown(other)}"
    return ""


def _differs_on_purpose(axle: StandardAxle) -> bool:
    left, right = axle.corners
    is_sided = left.chassis.right_side is not None
    return is_sided and as_written(left.setup.axle) != as_written(right.setup.axle)


def _figures(corner: StandardCorner) -> dict[str, Quantity]:
    """Return what is compared of a corner at rest; nothing of one that does not work."""
    try:
        rest = ride(corner.setup)
    except BarwrightError:
        # Told by the rule that asks whether the corners stand.
        return {}
    found = {} if rest.free_angle is None else {"free angle": rest.free_angle}
    if rest.state is not None:
        found |= {"height": rest.state.height, "rate at the wheel": rest.state.wheel_rate}
    return found


def _remedy(axle: StandardAxle) -> str:
    """Say what to do where one bar with its blanks set apart is on both sides."""
    left, right = (corner.setup.bar for corner in axle.corners)
    if left.id == right.id and left.blank_angle.magnitude:
        return "a bar with blank_angle is made for one side: give the other side its own bar"
    return ""


RULE = Rule(
    name="mirror",
    code="R303",
    wants="both corners of an axle behave alike with standard parts and blanks on keys",
    tip="compare the figures of the left and right parts",
    remarks=_remarks,
)

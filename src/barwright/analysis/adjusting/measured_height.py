"""A height that was measured: whether a corner can have it, and what it tells of the bar."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.finding import Finding, Topic
from barwright.errors import QuantityError
from barwright.units import LENGTH, Quantity, quantity, shown

__all__ = ["far_off", "may_be_on_stop", "says_nothing", "stood"]


def stood(corner: Corner, measured: Quantity) -> float:
    """Return a measured height [m]; refuse one that no corner can have."""
    low, high = corner.height_span
    if not low - _BEYOND <= metres(measured) <= high + _BEYOND:
        raise QuantityError(
            "Q302",
            value=shown(measured),
            expected=f"a height near the travel: {low * 1e3:.0f} mm to {high * 1e3:.0f} mm",
            remedy="measure from the hub centre straight up to the edge of the arch",
            key="measured",
        )
    return metres(measured)


def may_be_on_stop(corner: Corner, measured: float) -> bool:
    """Answer whether a corner at a measured height [m] may rest on a stop of its travel."""
    low, high = corner.height_span
    return not low + _READ_TO < measured < high - _READ_TO


def far_off(offset: float, *, left_open: float) -> Iterator[Finding]:
    """Report a measured height that the figures' tolerances [m] do not explain."""
    if left_open and abs(offset) > left_open:
        yield Finding(
            topic=Topic.MEASURED,
            text="the measured height differs from the computed one by more than the tolerances "
            "explain. Check load, parts and the teeth on the keys",
            figure=quantity(abs(offset), LENGTH),
            limit=quantity(left_open, LENGTH),
        )


def says_nothing(rests: str, height: float) -> Finding:
    """Say that a height [m] does not tell what the bar does."""
    text = f"at this nut position the corner rests {rests}"
    return Finding(topic=Topic.TRAVEL, text=text, figure=quantity(height, LENGTH))


# How far beyond its computed travel a vehicle may stand [m]: common practice, no source.  Heights
# rest on one measured pair, and a trim or a tyre moves them all.
_BEYOND = 50e-3

# A tape is read to this [m], so a corner so near a stop may rest on it: common practice, no
# source.
_READ_TO = 1e-3

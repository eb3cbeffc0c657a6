"""The bar that is on the vehicle now: whether it can be there, and how it comes out."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.assembly.unloading import Unloading, unloading
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.changes import without_blank
from barwright.analysis.rates.ride_height import on_a_stop, rest_angle
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup

__all__ = ["impossible", "on_its_stop", "unloading_now"]


def unloading_now(now: Corner) -> Unloading | None:
    """Answer how the fitted bar is unloaded.

    Parameters
    ----------
    now : Corner
        The corner as it is now.

    Returns
    -------
    Unloading, optional
        None where the bar cannot be in.

    Raises
    ------
    QuantityError
        Q302 for a setting of the nut that its thread does not hold.
    """
    spring = now.torsional_rates
    if spring is None or not now.lever_closes or any(without_blank(now.setup)):
        return None
    try:
        now.check_nut()
    except BarwrightError as error:
        raise error.within(key="present") from None
    return unloading(now, spring)


def on_its_stop(now: Corner) -> Iterator[Finding]:
    """Report teeth with which a corner would not stand on its spring, if nobody measured it.

    Parameters
    ----------
    now : Corner
        The corner as it is said to be now.

    Yields
    ------
    Finding
    """
    setup, spring = now.setup, now.torsional_rates
    if spring is None or setup.readings or not (setup.arm_tooth or setup.anchor_tooth):
        return
    angle = rest_angle(now, spring, now.free_angle)
    why = [found.text for found in on_a_stop(now, angle)]
    if angle < now.free_angle and not now.anchorage.holds_both_ways:
        why = ["the bar carries nothing"]
    for text in why:
        yield Finding(
            topic=Topic.PRESENT,
            text=f"with the teeth stated as present {text}: check the teeth on both keys, or "
            "measure the height ([measured])",
        )


def impossible(present: Setup) -> Finding:
    """Say why the bar cannot be in.

    Parameters
    ----------
    present : Setup
        The corner as it is said to be now.

    Returns
    -------
    Finding
    """
    end = next(without_blank(present), None)
    text = "the parts stated as present do not fit together: first find out what is fitted"
    if end is not None:
        text = (
            "the bar stated as present has no blank for the socket's key: look at both, then "
            "write keyed = false or the blanks; if that bar is not in yet, state the old one"
        )
    return Finding(
        topic=Topic.PRESENT,
        text=text,
        figure=f"{present.bar.title}, {present.anchor.title}",
        end=end,
    )

"""The bar that is on the vehicle now: whether it can be there, and how it comes out."""

from __future__ import annotations

from barwright.analysis.assembly.unloading import Unloading, unloading
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.changes import without_blank
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup

__all__ = ["impossible", "unloading_now"]


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

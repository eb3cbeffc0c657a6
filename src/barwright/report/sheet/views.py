"""What is drawn of a corner, with its plan carried out."""

from __future__ import annotations

import attrs

from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.reindex.plan.plan import Plan
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.report.drawing.adjuster import AdjusterView, adjuster_view
from barwright.report.drawing.bar_axis_view import BarAxisView, bar_axis_view
from barwright.report.drawing.bar_end_view import BarEndView, bar_end_views

__all__ = ["CornerViews", "corner_views"]


@attrs.frozen(kw_only=True, repr=False)
class CornerViews(Summarised):
    """What is drawn of a corner; its load curve is drawn from its rates.

    Parameters
    ----------
    bar_ends : tuple of BarEndView
        Both ends of the bar.
    adjuster : AdjusterView, optional
        The adjuster; none where nothing can be adjusted.
    bar_axis : BarAxisView
        The bar in its sockets.
    """

    bar_ends: tuple[BarEndView, ...]
    adjuster: AdjusterView | None
    bar_axis: BarAxisView


def corner_views(setup: Setup, plan: Plan, fit: LengthFit, *, present: Setup) -> CornerViews:
    """Describe what is drawn of a corner.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    plan : Plan
        The plan that is followed.
    fit : LengthFit
        How the bar lies.
    present : Setup
        The corner as it is now.

    Returns
    -------
    CornerViews
    """
    return CornerViews(
        bar_ends=bar_end_views(setup, plan, present=present),
        adjuster=adjuster_view(setup, plan),
        bar_axis=bar_axis_view(setup, fit),
    )

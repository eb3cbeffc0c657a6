"""Length of the part of a bar that twists."""

from __future__ import annotations

from barwright.analysis.corner.bar.fillets import fillets_of
from barwright.analysis.corner.suspension import metres
from barwright.mechanics.bar import transitions
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.parts.bar import Bar

__all__ = ["active_length"]


def active_length(bar: Bar, *, bare_arm_head: Real = 0.0, bare_anchor_head: Real = 0.0) -> float:
    """Length of bar body [m] that twists as much as the bar between its engaged edges.

    Parameters
    ----------
    bar : Bar
        The bar.
    bare_arm_head, bare_anchor_head : float
        Lengths of head inside that are free to twist [m].

    Returns
    -------
    float
        Of fillets that no model covers, it leaves out what plane sections do;
        :func:`~barwright.analysis.corner.bar.fillets.twist_left_out` says so.
    """
    body, fillets = metres(bar.length), fillets_of(bar)
    total = sum(fillet.equivalent_length - fillet.length for fillet in fillets)
    for end, bare in ((bar.arm_end, bare_arm_head), (bar.anchor_end, bare_anchor_head)):
        section = {
            "diameter": metres(bar.diameter),
            "head_diameter": metres(end.root_diameter),
            "bore": metres(bar.bore),
        }
        taper = metres(end.taper)
        body = body - (metres(end.length) + taper)  # a new array, not the kept one
        total += plain(transitions.equivalent_length(bare, **section))
        total += plain(transitions.taper_equivalent_length(taper, **section))
    return body + total

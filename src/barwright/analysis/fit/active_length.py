"""How long the part of a bar is that twists."""

from __future__ import annotations

from barwright.analysis.corner.corner import metres
from barwright.errors import QuantityError
from barwright.mechanics.bar import fillets, transitions
from barwright.mechanics.common.types import Real
from barwright.parts.bar import Bar
from barwright.parts.spline import BarEnd

__all__ = ["active_length"]


def active_length(bar: Bar, *, bare_arm_head: Real = 0.0, bare_anchor_head: Real = 0.0) -> float:
    """Length of bar body [m] that twists as much as what lies between the engaged edges.

    Parameters
    ----------
    bar : Bar
        The bar.
    bare_arm_head, bare_anchor_head : float
        Lengths of head inside that are free to twist [m].

    Returns
    -------
    float

    Raises
    ------
    QuantityError
        Q302 for a fillet that is beyond what is known of fillets.
    """
    body = metres(bar.length)
    total = 0.0
    for name, bare in (("arm_end", bare_arm_head), ("anchor_end", bare_anchor_head)):
        end: BarEnd = getattr(bar, name)
        section = {
            "diameter": metres(bar.diameter),
            "head_diameter": metres(end.root_diameter),
            "bore": metres(bar.bore),
        }
        try:
            joint, twists_as = _joint(end, **section)
        except QuantityError as error:
            raise error.within(key=f"{bar.id}.{name}") from None
        body -= metres(end.length) + joint
        total += float(transitions.equivalent_length(bare, **section)) + twists_as
    return body + total


def _joint(
    end: BarEnd, *, diameter: float, head_diameter: float, bore: float
) -> tuple[float, float]:
    """Length of cone or fillet between head and body, and of body that twists as much [m]."""
    section = {"diameter": diameter, "head_diameter": head_diameter}
    if end.fillet_radius is None:
        taper = metres(end.taper)
        return taper, float(transitions.taper_equivalent_length(taper, **section, bore=bore))
    section["fillet_radius"] = metres(end.fillet_radius)
    twists_as = float(fillets.fillet_equivalent_length(**section, bore=bore))
    return float(fillets.fillet_length(**section)), twists_as

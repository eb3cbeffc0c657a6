"""A corner as a plan leaves it."""

from __future__ import annotations

from typing import Any

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.reindex.plan.plan import EndAction, Plan, PlannedCorner
from barwright.errors import SchemaError
from barwright.mechanics.spline import clocking
from barwright.parts.anchor import Anchor
from barwright.parts.arm import Arm
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd

__all__ = ["carried_out", "carry_out"]


@checks_arguments
def carry_out(setup: Setup, plan: Plan, *, clear_keys: bool = False) -> Setup:
    """Carry out a plan: return the setup with its clocking, its cut teeth and its nut.

    Parameters
    ----------
    setup : Setup
        The corner that the plan was made for.
    plan : Plan
        One of its plans.
    clear_keys : bool
        Whether the keys are cleared where the plan would have a tooth removed.

    Returns
    -------
    Setup

    Raises
    ------
    SchemaError
        S207 if the plan was made for another corner, or for other parts.

    Examples
    --------
    >>> import barwright as bw
    >>> van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> plan = bw.reindex(van, wanted=bw.Wanted(height="380 mm")).plans[0]
    >>> f"{abs(bw.ride(carry_out(van, plan)).state.height - plan.height).m_as('mm'):.2f}"
    '0.00'
    """
    return _carried_out(corner_of(setup), plan, clear_keys=clear_keys)


def carried_out(corner: Corner, plan: Plan) -> Corner:
    """Return a corner with a plan carried out, as :func:`carry_out` returns its setup.

    Parameters
    ----------
    corner : Corner
        The corner that the plan was made for.
    plan : Plan
        One of its plans.

    Returns
    -------
    Corner
    """
    return corner.beside(_carried_out(corner, plan, clear_keys=False))


def _carried_out(corner: Corner, plan: Plan, *, clear_keys: bool) -> Setup:
    setup = corner.setup
    _refuse_other_corner(setup, plan)
    cuts = [work.action is EndAction.REMOVE_TOOTH for work in plan.ends]
    changed: dict[str, Any] = {}
    if clear_keys:
        parts = zip(("arm", "anchor"), cuts, strict=True)
        changed |= {kind: _cleared(getattr(setup, kind)) for kind, is_cut in parts if is_cut}
    else:
        ends = {"arm_end": plan.arm_tooth, "anchor_end": plan.anchor_tooth}
        cut: dict[str, Any] = {
            name: _cut(getattr(setup.bar, name), corner.sense * tooth)
            for (name, tooth), is_cut in zip(ends.items(), cuts, strict=True)
            if is_cut
        }
        changed["bar"] = attrs.evolve(setup.bar, **cut)
    return attrs.evolve(
        setup,
        arm_tooth=plan.arm_tooth,
        anchor_tooth=plan.anchor_tooth,
        nut_turns="0 turn" if plan.nut_turns is None else plan.nut_turns,
        pin_distance=None,
        **changed,
    )


def _refuse_other_corner(setup: Setup, plan: Plan) -> None:
    there = PlannedCorner.of(setup)
    if there != plan.made_for:
        raise SchemaError(
            "S207",
            value=f"a plan for {plan.made_for}",
            expected=f"one made for {there}",
            remedy="ask reindex for a plan of this corner with these parts",
            key="plan",
        )


def _cleared(part: Arm | Anchor) -> Arm | Anchor:
    return attrs.evolve(part, socket=attrs.evolve(part.socket, keyed=False))


def _cut(end: BarEnd, tooth: int) -> BarEnd:
    """Remove a tooth; where nothing else shows the count, paint does."""
    cut = clocking.centred(tooth, teeth=end.teeth)
    mark = None if end.has_makers_blank or not cut else end.mark or "paint"
    return attrs.evolve(end, blanks=(*end.blanks, cut), mark=mark)

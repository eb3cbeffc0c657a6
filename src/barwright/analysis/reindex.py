"""How is the bar re-indexed so that the adjuster sits mid-thread? (mechanics, section 3)."""

from __future__ import annotations

import attrs

from barwright.analysis.assembly import Assembly, both_ways
from barwright.analysis.finding import Finding, Outcome, Topic, Verdict
from barwright.analysis.fit import LengthFit, length_fit
from barwright.analysis.fixed import FixedPlanner
from barwright.analysis.model import CornerModel
from barwright.analysis.out_of_range import unusual_load
from barwright.analysis.plan import Plan
from barwright.analysis.planner import Planner
from barwright.analysis.ride import (
    free_angle_for,
    no_torque,
    out_of_travel,
    reachable,
    springing,
    wanted_angle,
    wanted_height,
)
from barwright.errors import BarwrightError, SchemaError
from barwright.parts.setup import Setup, Wanted
from barwright.units import LENGTH, Quantity, quantity

__all__ = ["Reindex", "reindex"]


@attrs.frozen(kw_only=True)
class Reindex:
    """Answer to :func:`reindex`.

    Parameters
    ----------
    outcome : Outcome
        Reached, out of reach, cannot be assembled, or does not fit.
    fit : LengthFit
        How the bar lies.
    wanted_height : Quantity
        Hub to arch.
    reachable_from, reachable_to : Quantity
        Heights that the travel allows.
    free_angle : Quantity, optional
        Arm angle without torque that the wanted height needs.
    free_angle_tolerance : Quantity, optional
        What the tolerances of the parts' figures leave open of it.
    equal_within : Quantity, optional
        Nut turns within which two plans sit equally well: one, or that tolerance.  With
        a fixed socket, the free angle within which the wanted height is reached.
    plans : tuple of Plan
        Those that no other beats, the one to prefer first.
    rejected : tuple of Plan
        Those that none of them beats but that cannot be assembled.
    removal : tuple of Assembly
        How the bar comes out as it is now, with the damper on and with it off;
        empty where what is said to be on the car cannot be.
    pin_now : Quantity, optional
        Distance of the lever's pin along the bolt as the nut is now set, or of a
        pushing bolt's end from the cross-member; none with a fixed socket.
    findings : tuple of Finding
        What else must be known.
    """

    outcome: Outcome
    fit: LengthFit
    wanted_height: Quantity
    reachable_from: Quantity
    reachable_to: Quantity
    free_angle: Quantity | None
    free_angle_tolerance: Quantity | None
    equal_within: Quantity | None
    plans: tuple[Plan, ...]
    rejected: tuple[Plan, ...]
    removal: tuple[Assembly, ...]
    pin_now: Quantity | None
    findings: tuple[Finding, ...]


def reindex(setup: Setup, *, wanted: Wanted | None = None, present: Setup | None = None) -> Reindex:
    """Answer how to clock the bar so that a wanted height sits at mid adjuster.

    Plans are compared on the teeth to cut, on the nut's distance from its
    middle, and on the ends that are disturbed, as sets; one beats another if it
    is no worse in any of the three and better in one.  Distances closer than
    one nut turn, or than the tolerances of the figures, count as equal.

    A fixed socket has nothing to turn: there the clocking alone must bring the
    height, to within those tolerances or half a millimetre.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    wanted : Wanted, optional
        Where it is to stand; the standard height if left out.
    present : Setup, optional
        The corner as it is now, which the old bar is drawn from; ``setup`` if
        left out.

    Returns
    -------
    Reindex

    Raises
    ------
    SchemaError
        S207 if ``present`` is another corner or another vehicle.
    QuantityError
        Q302 for a load that no bar on this corner could carry at that height.

    References
    ----------
    See :mod:`barwright.mechanics.clocking`; the choice of plans is checked
    against an independent enumeration, each plan by solving it forward.

    Examples
    --------
    >>> from barwright.registry.index import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> answer = reindex(setup)
    >>> answer.outcome.value, answer.plans[0].cuts
    ('can be reached', 0)
    """
    _refuse_other_corner(setup, present or setup)
    answer = _reindexed(setup, wanted or Wanted(), present)
    # Where the bar does not lie in its sockets, no load is asked about yet.
    unusual = unusual_load(CornerModel(setup)) if answer.outcome is not Outcome.DOES_NOT_FIT else ()
    return attrs.evolve(answer, findings=(*answer.findings, *unusual))


def _reindexed(setup: Setup, wanted: Wanted, present: Setup | None) -> Reindex:
    """Answer without a word of the load."""
    model = CornerModel(setup)
    fit = length_fit(setup)
    spring = springing(setup, fit)
    low, high = reachable(model)
    answer = Reindex(
        outcome=Outcome.DOES_NOT_FIT,
        fit=fit,
        wanted_height=wanted_height(model, wanted),
        reachable_from=low,
        reachable_to=high,
        free_angle=None,
        free_angle_tolerance=None,
        equal_within=None,
        plans=(),
        rejected=(),
        removal=(),
        pin_now=None,
        findings=fit.reasons,
    )
    if spring is None or fit.verdict is Verdict.DOES_NOT_FIT:
        return answer
    now = CornerModel(present or setup)
    removal = _removal(now)
    if not removal:
        return attrs.evolve(
            answer, outcome=Outcome.CANNOT_BE_ASSEMBLED, findings=(_impossible(now.setup),)
        )
    pin = None if now.setup.adjuster is None else quantity(now.setting_now, LENGTH)
    answer = attrs.evolve(answer, removal=removal, pin_now=pin)
    angle = wanted_angle(model, wanted)
    if angle is None:
        finding = out_of_travel(model, wanted)
        return attrs.evolve(answer, outcome=Outcome.OUT_OF_REACH, findings=(finding,))
    free = free_angle_for(model, spring, angle)
    if free >= angle and not model.anchorage.holds_both_ways:
        finding = no_torque(angle, free)
        return attrs.evolve(answer, outcome=Outcome.OUT_OF_REACH, findings=(finding,))
    planner = FixedPlanner if setup.adjuster is None else Planner
    planned = planner(model, spring, fit, angle=angle, present=now.setup).planned()
    return attrs.evolve(answer, **attrs.asdict(planned, recurse=False))


def _refuse_other_corner(setup: Setup, present: Setup) -> None:
    corners = [f"{one.chassis.id} {one.corner}" for one in (setup, present)]
    if corners[0] != corners[1]:
        raise SchemaError(
            "S207",
            value=corners[1],
            expected=f"{corners[0]}, the corner that is asked about",
            remedy="give what is on this corner now, or leave it out",
            key="present",
        )


def _removal(now: CornerModel) -> tuple[Assembly, ...]:
    """How the bar that is in now comes out; nothing where it cannot be in."""
    spring = springing(now.setup, length_fit(now.setup))
    if spring is None or not now.lever_closes:
        return ()
    try:
        now.check_nut()
    except BarwrightError as error:
        raise error.within(key="present") from None
    return both_ways(now, spring, clocked_angle=now.clocked_angle)


def _impossible(present: Setup) -> Finding:
    return Finding(
        topic=Topic.PRESENT,
        text="what is said to be on the car now cannot be on it: find out what is, first",
        figure=f"{present.bar.title}, {present.tube.title}",
    )

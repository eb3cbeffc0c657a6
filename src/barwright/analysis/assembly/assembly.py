"""Whether the bar can be pulled out or put in by hand."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.anchorage import TurnedPart, turned
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, Span
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.analysis.corner.unloading_reserve import unloading_reserve
from barwright.analysis.tolerance.unloading_tolerance import unloading_reserve_uncertainty
from barwright.mechanics.bar import torsion
from barwright.parts.common.in_short import Summarised
from barwright.units import ANGLE, ENERGY, LENGTH, TORQUE, TURNS, Quantity, quantity

__all__ = ["Assembly", "assembly", "both_ways", "lever_span_for_assembly"]


@attrs.frozen(kw_only=True, repr=False)
class Assembly(Summarised):
    """Whether the bar slides in and out by hand with the arm hanging; if not, why.

    Parameters
    ----------
    damper_fitted : bool
        Whether the damper holds the arm, or only the chassis' own stop.
    turned : TurnedPart, optional
        What is turned at the adjuster; none with a fixed socket.
    slides : bool
        Whether the nut can be slackened until the bar carries no torque. With a fixed socket:
        whether the arm can be lifted until it carries none.
    nut_turns : Quantity, optional
        Tightest position of the nut, or of a bolt that is itself turned, at which the bar
        carries no torque, from mid-thread, clockwise positive. If there is none, the end of the
        thread that comes nearest. At slacker positions the lever comes free of the nut.
    pin_distance : Quantity, optional
        The same, measured along the bolt: to the lever's pin, or to the bolt's end.
    arm_angle : Quantity
        Of the arm hanging at its stop.
    anywhere : bool
        Whether the bar is loose at every position of the nut.
    unloading_reserve : Quantity
        Arm angle by which the slackest nut unloads the bar beyond what is needed; negative if
        it falls short. With a fixed socket: how far the free angle lies within the travel.
    unloading_reserve_uncertainty : Quantity
        Of the unloading reserve, by the tolerances of the parts' figures.
    lift : Quantity
        How far the hub can be lifted from where the arm hangs at its stop before the bar takes
        torque, with the nut at its slackest. With a fixed socket: how far it must be lifted,
        because the bar is loose only there.
    residual_torque, residual_energy : Quantity
        Torque and energy left in a bar that does not slide.
    """

    damper_fitted: bool
    turned: TurnedPart | None
    slides: bool
    nut_turns: Quantity | None
    pin_distance: Quantity | None
    arm_angle: Quantity
    anywhere: bool
    unloading_reserve: Quantity
    unloading_reserve_uncertainty: Quantity
    lift: Quantity
    residual_torque: Quantity
    residual_energy: Quantity

    @property
    def is_sure(self) -> bool:
        """Whether the bar is loose at every value within the tolerances."""
        return self.slides and bool(self.unloading_reserve >= self.unloading_reserve_uncertainty)


@once_a_corner(of_either_side)
def assembly(
    corner: Corner, spring: TorsionalRates, *, clocked_angle: float, damper_on: bool
) -> Assembly:
    """Answer how a bar comes out or goes in at one clocking.

    The adjuster holds the bar one way only, and the arm can be lifted but not
    lowered past its stop: the bar is loose where the free angle is at the arm's
    stop or above it, and the nut must be able to bring it there.  A fixed socket
    holds it both ways: the arm must be lifted to the free angle itself.

    Parameters
    ----------
    corner : Corner
        The corner.
    spring : TorsionalRates
        Its rates.
    clocked_angle : float
        Free angle beyond the lever's [rad].
    damper_on : bool
        Whether the damper is on.

    Returns
    -------
    Assembly

    References
    ----------
    Derived in this project; common practice for the rest, no source.
    """
    hang, highest = corner.travel if damper_on else corner.stops
    tightest, slackest = corner.lever_span
    lever = min(max(hang - clocked_angle, tightest), slackest)
    spare = unloading_reserve(corner, clocked_angle=clocked_angle, damper_on=damper_on)
    slides = spare >= -_ROUNDING
    residue = 0.0 if slides else -spare
    what = turned(corner.setup.adjuster)
    lifted = min(max(slackest + clocked_angle, hang), highest)
    return Assembly(
        damper_fitted=damper_on,
        turned=what,
        slides=slides,
        nut_turns=quantity(corner.turns_at_lever(lever), TURNS) if what else None,
        pin_distance=quantity(float(corner.anchorage.setting(lever)), LENGTH) if what else None,
        arm_angle=quantity(hang, ANGLE),
        anywhere=tightest + clocked_angle >= hang if what else slides,
        unloading_reserve=quantity(spare, ANGLE),
        unloading_reserve_uncertainty=quantity(
            unloading_reserve_uncertainty(corner, clocked_angle=clocked_angle, damper_on=damper_on),
            ANGLE,
        ),
        lift=quantity(float(corner.height(hang) - corner.height(lifted)), LENGTH),
        residual_torque=quantity(spring.system * residue, TORQUE),
        residual_energy=quantity(
            float(torsion.strain_energy(rate=spring.system, twist=residue)), ENERGY
        ),
    )


def both_ways(
    corner: Corner, spring: TorsionalRates, *, clocked_angle: float
) -> tuple[Assembly, Assembly]:
    """Answer :func:`assembly` with the damper on, and with it off."""
    on, off = (
        assembly(corner, spring, clocked_angle=clocked_angle, damper_on=is_on)
        for is_on in (True, False)
    )
    return on, off


def lever_span_for_assembly(corner: Corner, free_angle: float) -> Span:
    """Lever angles [rad] of plans that can be assembled with the damper off.

    A plan that sets a free angle at the lever angle ``α`` is clocked to
    ``free_angle - α``; the slackest lever must bring that up to the arm's stop.

    Parameters
    ----------
    corner : Corner
        The corner.
    free_angle : float
        Free angle that every plan sets [rad].

    Returns
    -------
    (float, float)
        Lower limit first; empty if it is above the upper one.
    """
    low, high = corner.lever_span
    return low, min(high, high + free_angle - corner.stops[0])


# Rounding of an angle that is made of several others [rad].
_ROUNDING = 1e-9

"""Where a corner rests with its present clocking and nut."""

from __future__ import annotations

from functools import partial

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.assumed import names_assumed
from barwright.analysis.corner.bar.fillets import twist_left_out
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.corner.out_of_range import unusual_load
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.corner_state import CornerState, described, solved_state
from barwright.analysis.rates.ride_height import on_a_stop, rest_angle
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Setup
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import ANGLE, Quantity, quantity, shown

__all__ = ["Ride", "ride", "ride_of"]


@attrs.frozen(kw_only=True, repr=False)
class Ride(Answer):
    """Position of a corner at rest with its present clocking and nut.

    Parameters
    ----------
    verdict : Verdict
        At rest on its spring, on a stop, does not fit, or needs more figures.
    findings : tuple of Finding
        Why there is no state, or on which stop it rests.
    cautions : tuple of Caution
        None: to rest is no work.
    fit : LengthFit
        How the bar lies; without overlap there is no state.
    free_angle : Quantity, optional
        Arm angle without torque; none where the lever does not reach its bolt.
    state : CornerState, optional
        The corner at rest.
    within_travel : bool
        Whether it rests between droop and bump, rather than on one of them.
    """

    fit: LengthFit
    free_angle: Quantity | None
    state: CornerState | None
    within_travel: bool

    @property
    def height(self) -> Quantity:
        """Hub to arch at rest; raises N201 if there is none."""
        return self._figure(self.state, "a height").height

    @property
    def headline(self) -> str:
        """Height at which the corner stands, and what supports it."""
        if self.state is None:
            return self.refused()
        where = shown(self.state.height, 0)
        return f"Stands at {where} hub to arch, {self.verdict.value.removeprefix('at rest ')}."


@checks_arguments
@names_assumed()
def ride(setup: Setup) -> Ride:
    """Answer where a corner rests with its present clocking and nut.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    Ride

    References
    ----------
    Equilibrium of :func:`barwright.mechanics.corner.statics.settle`.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> ride(setup).within_travel
    True
    """
    return ride_of(corner_of(setup))


def ride_of(corner: Corner) -> Ride:
    """Answer :func:`ride` of a corner.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    Ride
    """
    missing = MissingFigures(corner.setup)
    found = missing.tried(lambda: _resting(corner, missing))
    if found is not None:
        return found
    return Ride(
        verdict=Verdict.NEEDS_FIGURES,
        findings=missing.findings("needed to say where the corner stands", AskedFor.HEIGHT),
        fit=fit_of(corner),
        free_angle=None,
        state=None,
        within_travel=False,
    )


def _resting(corner: Corner, missing: MissingFigures) -> Ride:
    """Answer :func:`ride` of a corner, without what is left out because figures are missing."""
    fit, spring = fit_of(corner), corner.torsional_rates
    if spring is None or not corner.lever_closes:
        return Ride(
            verdict=Verdict.DOES_NOT_FIT,
            findings=fit.reasons,
            fit=fit,
            free_angle=None,
            state=None,
            within_travel=False,
        )
    angle = rest_angle(corner, spring, corner.free_angle)
    low, high = corner.travel
    at_stop = on_a_stop(corner, angle)
    return Ride(
        verdict=Verdict.ON_A_STOP if at_stop else Verdict.AT_REST,
        findings=(
            *fit.open_findings,
            *at_stop,
            *missing.each(
                (partial(unusual_load, corner), partial(twist_left_out, corner.setup.bar))
            ),
        ),
        fit=fit,
        free_angle=quantity(corner.free_angle, ANGLE),
        state=described(
            corner, solved_state(corner, spring, angle=angle, free_angle=corner.free_angle)
        ),
        within_travel=low < angle < high,
    )

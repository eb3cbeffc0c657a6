"""Load of the adjuster's bolt, and its share of the proof load."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.corner_state import SolvedState
from barwright.errors import QuantityError
from barwright.mechanics.anchorage import threads
from barwright.mechanics.anchorage.levers_without_pin import KeyLeverBolt
from barwright.parts.adjuster import Adjuster
from barwright.parts.common.in_short import Summarised
from barwright.units import FORCE, STRESS, Quantity, quantity, shown

__all__ = ["BoltLoad", "bolt_findings", "bolt_load", "overloaded_bolt", "proof_load"]


@attrs.frozen(kw_only=True, repr=False)
class BoltLoad(Summarised):
    """Load of the adjuster's bolt.

    Parameters
    ----------
    at_ride, at_bump : Quantity
        Force, tension positive.
    stress_at_bump : Quantity
        On the thread's stress area.
    side_thrust_at_bump : Quantity, optional
        Of a key lever on the end of its bolt, square to the bolt, positive away from
        the bar axis.
    proof_load : Quantity, optional
        That the bolt bears without taking a set; none unless its property class is known,
        and the proof stress of that class at its size.
    proof_share : float, optional
        Share of it that full bump takes.
    """

    at_ride: Quantity
    at_bump: Quantity
    stress_at_bump: Quantity
    side_thrust_at_bump: Quantity | None = None
    proof_load: Quantity | None = None
    proof_share: float | None = None


def bolt_load(
    corner: Corner, at_ride: SolvedState, bump: SolvedState, *, free_angle: float
) -> BoltLoad | None:
    """Find the load of the bolt where it sets a free angle [rad], within its thread.

    Parameters
    ----------
    corner : Corner
        The corner.
    at_ride, bump : SolvedState
        At rest and at full bump.
    free_angle : float
        Arm angle without torque.

    Returns
    -------
    BoltLoad, optional
        None with a fixed socket.
    """
    adjuster, anchorage = corner.setup.adjuster, corner.anchorage
    if adjuster is None:
        return None
    low, high = corner.lever_span
    lever = min(max(free_angle - corner.clocked_angle, low), high)
    at_bump = float(anchorage.effort(bump.torque, lever_angle=lever))
    thrust = None
    if isinstance(anchorage, KeyLeverBolt):
        thrust = quantity(float(anchorage.side_thrust(bump.torque, lever_angle=lever)), FORCE)
    proof = proof_load(adjuster)
    share = None if proof is None else float(threads.utilisation(at_bump, capacity=proof))
    return BoltLoad(
        at_ride=quantity(float(anchorage.effort(at_ride.torque, lever_angle=lever)), FORCE),
        at_bump=quantity(at_bump, FORCE),
        stress_at_bump=quantity(at_bump / float(threads.stress_area(**_size(adjuster))), STRESS),
        side_thrust_at_bump=thrust,
        proof_load=None if proof is None else quantity(proof, FORCE),
        proof_share=share,
    )


def _size(adjuster: Adjuster) -> dict[str, float]:
    return {
        "diameter": metres(adjuster.thread_diameter),
        "pitch": metres(adjuster.thread_pitch),
    }


def proof_load(adjuster: Adjuster) -> float | None:
    """Return the proof load [N] of an adjuster's bolt.

    Parameters
    ----------
    adjuster : Adjuster
        The adjuster.

    Returns
    -------
    float, optional
        None where no class is given, or none is known of it at this size.
    """
    if adjuster.property_class is None:
        return None
    marked = threads.PropertyClass(adjuster.property_class.value)
    try:
        return float(threads.proof_load(marked, **_size(adjuster)))
    except QuantityError:
        return None


def bolt_findings(corner: Corner, load: BoltLoad | None) -> Iterator[Finding]:
    """Report a bolt that full bump overloads, or whose proof load is not known.

    Parameters
    ----------
    corner : Corner
        The corner.
    load : BoltLoad, optional
        Of its bolt.

    Yields
    ------
    Finding
    """
    adjuster = corner.setup.adjuster
    if load is None or adjuster is None or adjuster.property_class is None:
        return
    marked = adjuster.property_class.value
    if load.proof_load is None:
        text = f"the proof load of a bolt of class {marked} is not known at this size"
        yield Finding(topic=Topic.THREAD, text=text, figure=shown(adjuster.thread_diameter))
    yield from overloaded_bolt(corner, load)


def overloaded_bolt(corner: Corner, load: BoltLoad | None) -> Iterator[Finding]:
    """Report a bolt that full bump loads beyond its proof load, if that is known.

    Parameters
    ----------
    corner : Corner
        The corner.
    load : BoltLoad, optional
        Of its bolt.

    Yields
    ------
    Finding
    """
    adjuster = corner.setup.adjuster
    if load is None or load.proof_share is None or adjuster is None or not adjuster.property_class:
        return
    if load.proof_share > 1.0:
        marked = adjuster.property_class.value
        text = f"full bump stretches the bolt permanently, beyond the proof load of class {marked}"
        yield Finding(
            topic=Topic.THREAD, text=text, figure=abs(load.at_bump), limit=load.proof_load
        )

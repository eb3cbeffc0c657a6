"""How the nut grips the adjuster's bolt: stress in both threads, and the height that is needed."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.corner.corner import metres
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.bolt_load import BoltLoad
from barwright.mechanics.anchorage import threads
from barwright.mechanics.strength.shear_limits import yield_shear
from barwright.parts.adjuster import Adjuster
from barwright.parts.common.in_short import Summarised
from barwright.units import FORCE, LENGTH, STRESS, Quantity, is_unknown, quantity, si

__all__ = ["ThreadGrip", "slipping_thread", "thread_grip"]


@attrs.frozen(kw_only=True, repr=False)
class ThreadGrip(Summarised):
    """Shear in the threads of bolt and nut at full bump, at the basic sizes of ISO 724.

    All engaged turns are taken to carry alike.  Clearances of a real thread make the stresses
    somewhat greater.  The nut's steel is known to no record, so that its stress has no limit.

    Parameters
    ----------
    nut_height : Quantity
        Height of the nut, all of which is engaged.
    bolt_thread_shear, nut_thread_shear : Quantity
        Shear stress in the thread of the bolt, and of the nut.
    needed_height : Quantity, optional
        Height at which the bolt's thread bears the proof load of the bolt; none unless that is
        known.
    thread_share : float, optional
        Load at full bump over what the bolt's thread bears before it yields, by distortion
        energy from the stress under proof load; under the same condition.
    """

    nut_height: Quantity
    bolt_thread_shear: Quantity
    nut_thread_shear: Quantity
    needed_height: Quantity | None
    thread_share: float | None


def thread_grip(adjuster: Adjuster | None, load: BoltLoad | None) -> ThreadGrip | None:
    """Find how the nut of an adjuster grips its bolt.

    Parameters
    ----------
    adjuster : Adjuster, optional
        The adjuster.
    load : BoltLoad, optional
        Of its bolt.

    Returns
    -------
    ThreadGrip, optional
        None without a load, and without a nut whose height is known: the thread of a
        cross-member has no height in any record.
    """
    height = None if adjuster is None else adjuster.nut_height
    if adjuster is None or load is None or height is None or is_unknown(height):
        return None
    size = {
        "diameter": metres(adjuster.thread_diameter),
        "pitch": metres(adjuster.thread_pitch),
    }
    engagement, force = metres(height), abs(si(load.at_bump, FORCE))
    bolt = _bolt_area(engagement, **size)
    nut = threads.internal_stripping_area(
        engagement=engagement,
        pitch=size["pitch"],
        external_major_diameter=size["diameter"],
        internal_pitch_diameter=threads.basic_pitch_diameter(**size),
    )
    needed, share = _held(load, adjuster, bolt, size) or (None, None)
    return ThreadGrip(
        nut_height=height,
        bolt_thread_shear=quantity(force / bolt, STRESS),
        nut_thread_shear=quantity(force / float(nut), STRESS),
        needed_height=None if needed is None else quantity(needed, LENGTH),
        thread_share=share,
    )


def _bolt_area(engagement: float, *, diameter: float, pitch: float) -> float:
    """Area on which the bolt's thread shears [m²]."""
    size = {"diameter": diameter, "pitch": pitch}
    return float(
        threads.external_stripping_area(
            engagement=engagement,
            pitch=pitch,
            internal_minor_diameter=threads.basic_minor_diameter(**size),
            external_pitch_diameter=threads.basic_pitch_diameter(**size),
        )
    )


def _held(
    load: BoltLoad, adjuster: Adjuster, area: float, size: dict[str, float]
) -> tuple[float, float] | None:
    """Height that the proof load needs [m], and the share that the bolt's thread bears."""
    if load.proof_load is None or adjuster.property_class is None:
        return None
    marked = threads.PropertyClass(adjuster.property_class.value)
    strength = float(yield_shear(marked.proof_stress))
    needed = threads.required_engagement(
        si(load.proof_load, FORCE),
        area_per_length=_bolt_area(1.0, **size),
        shear_strength=strength,
    )
    bears = threads.stripping_load(area, shear_strength=strength)
    share = threads.utilisation(si(load.at_bump, FORCE), capacity=bears)
    return float(needed), float(share)


def slipping_thread(grip: ThreadGrip | None) -> Iterator[Finding]:
    """Report a nut that is too low for its bolt.

    Parameters
    ----------
    grip : ThreadGrip, optional
        The grip.

    Yields
    ------
    Finding
    """
    if grip is None or grip.needed_height is None or grip.nut_height >= grip.needed_height:
        return
    yield Finding(
        topic=Topic.THREAD,
        text="the nut is too low: the bolt's thread yields before the bolt bears its proof load",
        figure=grip.nut_height,
        limit=grip.needed_height,
    )

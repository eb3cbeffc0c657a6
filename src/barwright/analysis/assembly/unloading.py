"""How the fitted bar is unloaded safely, and which work needs it unloaded.

What is asked for beside the bar's own figures is common practice, no source.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Collection, Iterable

import attrs

from barwright.analysis.assembly.assembly import Assembly, both_ways
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.finding import Finding, Topic
from barwright.parts.chassis import BarEndName
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import PLACES, Setup
from barwright.parts.suspension import SwingArmMounting
from barwright.units import ANGLE, FORCE, LENGTH, TORQUE, Quantity, quantity, si

__all__ = [
    "FURTHEST_BELOW_STOP",
    "GREATEST_JOINT_FORCE",
    "JointParting",
    "Unloading",
    "UnloadingMethod",
    "bar_is_drawn",
    "can_be_put_in",
    "choose_fitting",
    "choose_unloading",
    "must_be_unloaded",
    "swapped",
    "unloading",
]

FURTHEST_BELOW_STOP = math.radians(10.0)
"""Angle [rad] by which a parted joint lets an arm down below its stop at most.

Common practice, no source: further down, the arm's own bearings, the bar's sockets or a
member of the chassis stand in its way, and no figure of a pack would tell.
"""

GREATEST_JOINT_FORCE = 1000.0
"""Greatest force [N], straight down on an arm's outer end, at which its joint is parted.

Common practice, no source: a taper breaks suddenly, and a load that comes suddenly
counts double.  A light lashing strap, which then holds 2500 N, bears twice this force
and the arm's own weight.
"""


class UnloadingMethod(enum.Enum):
    """How the fitted bar is unloaded."""

    DAMPER_ON = "damper on"
    DAMPER_OFF = "damper off"
    JOINT_PARTED = "ball joint parted"
    NONE = "no safe way known"


@attrs.frozen(kw_only=True, repr=False)
class JointParting(Summarised):
    """What is released when the ball joint is parted, with the damper off.

    Parameters
    ----------
    torque, energy : Quantity
        Left in the bar while the arm hangs at its stop.
    downward_force : Quantity
        Of the bar, straight down on the arm's outer end; the arm's own weight adds to it.
    drop : Quantity
        Of the arm's outer end, straight down, from where it hangs at its stop to where the
        bar carries no torque.
    """

    torque: Quantity
    energy: Quantity
    downward_force: Quantity
    drop: Quantity


@attrs.frozen(kw_only=True, repr=False)
class Unloading(Summarised):
    """How the fitted bar is unloaded.

    Parameters
    ----------
    way : UnloadingMethod
        The first way that is safe: damper on, damper off, ball joint parted, or none.
    damper_on, damper_off : Assembly
        What is left in the bar with the damper on and with it off.
    parting : JointParting, optional
        What a joint that is parted lets go; none where none is.
    findings : tuple of Finding
        Why there is no safe way; empty where there is one.
    """

    way: UnloadingMethod
    damper_on: Assembly
    damper_off: Assembly
    parting: JointParting | None
    findings: tuple[Finding, ...]

    @property
    def damper_helps(self) -> bool:
        """Whether the bar is looser with the damper off."""
        return bool(self.damper_off.unloading_reserve > self.damper_on.unloading_reserve)


def unloading(now: Corner, spring: TorsionalRates) -> Unloading:
    """Answer how the fitted bar is unloaded.

    Parameters
    ----------
    now : Corner
        The corner as it is now.
    spring : TorsionalRates
        Its rates.

    Returns
    -------
    Unloading

    References
    ----------
    Derived in this project; common practice for the rest, no source.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> van = Corner(Registry.discover().setup("fells:chassis/short", corner="front left"))
    >>> unloading(van, van.torsional_rates).way.value
    'damper on'
    """
    on, off = both_ways(now, spring, clocked_angle=now.clocked_angle)
    return choose_unloading(now, damper_on=on, damper_off=off)


def choose_unloading(now: Corner, *, damper_on: Assembly, damper_off: Assembly) -> Unloading:
    """Choose the first safe way to unload the fitted bar.

    The damper comes off if the margin with it on is smaller than its uncertainty, and
    larger with it off.

    Parameters
    ----------
    now : Corner
        The corner as it is now.
    damper_on, damper_off : Assembly
        What is left in its bar either way.

    Returns
    -------
    Unloading
    """
    is_on = choose_fitting((damper_on, damper_off)) is damper_on
    found = Unloading(
        way=UnloadingMethod.DAMPER_ON if is_on else UnloadingMethod.DAMPER_OFF,
        damper_on=damper_on,
        damper_off=damper_off,
        parting=None,
        findings=(),
    )
    if damper_on.slides or damper_off.slides:
        return found
    findings = tuple(_against_parting(now, damper_off))
    if findings:
        return attrs.evolve(found, way=UnloadingMethod.NONE, findings=findings)
    return attrs.evolve(found, way=UnloadingMethod.JOINT_PARTED, parting=_parting(now, damper_off))


def _against_parting(now: Corner, held: Assembly) -> Iterable[Finding]:
    """Say why no joint is parted to unload a bar that is held with the damper off."""
    torque, below = held.residual_torque, -si(held.unloading_reserve, ANGLE)
    most = GREATEST_JOINT_FORCE * _reach(now)
    if isinstance(now.setup.axle.suspension, SwingArmMounting):
        yield _no_way(held, "and its arm has no ball joint to part")
    elif held.lift.magnitude > 0.0:
        yield _no_way(held, "and the arm would have to go above its bump stop")
    elif si(torque, TORQUE) > most:
        text = "more than jack and strap may hold when a joint parts"
        yield _no_way(held, text, figure=torque, limit=quantity(most, TORQUE))
    elif below > FURTHEST_BELOW_STOP:
        yield _no_way(
            held,
            "and the arm would have to go too far below its stop",
            figure=quantity(below, ANGLE),
            limit=quantity(FURTHEST_BELOW_STOP, ANGLE),
        )


def _no_way(
    held: Assembly, why: str, *, figure: Quantity | None = None, limit: Quantity | None = None
) -> Finding:
    slack = f"with the {held.turned.value} slack and " if held.turned else "with "
    return Finding(
        topic=Topic.ASSEMBLY,
        text="no safe way known to unload the fitted bar: "
        f"{slack}the damper off it still carries torque, {why}",
        figure=held.residual_torque if figure is None else figure,
        limit=limit,
    )


def _parting(now: Corner, held: Assembly) -> JointParting:
    return JointParting(
        torque=held.residual_torque,
        energy=held.residual_energy,
        downward_force=quantity(si(held.residual_torque, TORQUE) / _reach(now), FORCE),
        drop=quantity(_drop(now, held), LENGTH),
    )


def _reach(now: Corner) -> float:
    """Lever [m] of a vertical force on the arm's outer end, where the arm hangs at its stop."""
    radius, stop = metres(now.setup.arm.radius), now.stops[0]
    return radius * math.cos(stop) * float(now.plane.vertical_share)


def _drop(now: Corner, held: Assembly) -> float:
    """Drop [m] of the arm's outer end from its stop to where the bar carries no torque."""
    stop = now.stops[0]
    in_plane = math.sin(stop) - math.sin(stop + si(held.unloading_reserve, ANGLE))
    return metres(now.setup.arm.radius) * in_plane * float(now.plane.vertical_share)


# -- Which work asks for it -----------------------------------------------------------


def swapped(setup: Setup, *, present: Setup) -> tuple[str, ...]:
    """Name the parts that differ from those on the corner now.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.

    Returns
    -------
    tuple of str
        Of ``arm``, ``bar``, ``anchor``, ``adjuster`` and ``damper``.
    """
    return tuple(kind for kind in PLACES if getattr(setup, kind) != getattr(present, kind))


def bar_is_drawn(others: Collection[str], *, disturbed: Collection[BarEndName]) -> bool:
    """Answer whether a piece of work takes the bar out.

    Parameters
    ----------
    others : collection of str
        Parts that are swapped, as :func:`swapped` names them.
    disturbed : collection of BarEndName
        Ends that change their tooth.

    Returns
    -------
    bool
    """
    return bool(disturbed) or not {"arm", "bar", "anchor"}.isdisjoint(others)


def must_be_unloaded(others: Collection[str], *, disturbed: Collection[BarEndName]) -> bool:
    """Answer whether a piece of work needs a bar that carries no torque.

    It does where the bar is drawn or its adjuster swapped; to turn the nut, or to swap the
    damper, the bar stays wound.

    Parameters
    ----------
    others : collection of str
        Parts that are swapped, as :func:`swapped` names them.
    disturbed : collection of BarEndName
        Ends that change their tooth.

    Returns
    -------
    bool
    """
    return bar_is_drawn(others, disturbed=disturbed) or "adjuster" in others


def can_be_put_in(fitting: Collection[Assembly]) -> bool:
    """Answer whether a bar goes in by hand at its new clocking.

    A parted joint takes out a bar that nothing else lets out; it puts none in.  Whoever
    chooses a clocking can choose another one, and the next mechanic must get the bar out.

    Parameters
    ----------
    fitting : collection of Assembly
        How it goes in, with the damper on and with it off.

    Returns
    -------
    bool
    """
    return any(way.slides for way in fitting)


def choose_fitting(fitting: tuple[Assembly, ...]) -> Assembly:
    """Choose how a bar is put in: with the damper on, unless the margin is larger with it off.

    Parameters
    ----------
    fitting : tuple of Assembly
        How it goes in, with the damper on and with it off.

    Returns
    -------
    Assembly
        One of the two.
    """
    on, off = fitting
    return (
        on if on.is_sure or (on.slides and off.unloading_reserve <= on.unloading_reserve) else off
    )

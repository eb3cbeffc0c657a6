"""The plan's words, carried out on teeth in three dimensions, give the height.

Bar, keys and sockets are built as directions in the vehicle axes of ISO 8855
(x forward, y left, z up).  The words of the bench sheet's JSON (end, viewer,
clockwise or counter-clockwise, tooth, turns) are then followed as a mechanic
would, and the ride height is recovered from the energy alone with scipy.
Nothing here uses the library's formulas for clocking, linkage or statics.
"""

from __future__ import annotations

import json
import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import brentq, minimize_scalar
from scipy.spatial.transform import Rotation

import barwright as bw
from draws import draws
from sample_records import adjuster_of, known, make_bar, tube_of
from setup_strategies import corners

Vector = NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])


def turned(vector: Vector, about: Vector, angle: float) -> Vector:
    """A vector after a right-handed turn about an axis."""
    result: Vector = Rotation.from_rotvec(angle * about).apply(vector)
    return result


def angle_about(axis: Vector, start: Vector, end: Vector) -> float:
    """Right-handed angle from one direction to another, both square to an axis."""
    return math.atan2(float(np.dot(np.cross(start, end), axis)), float(np.dot(start, end)))


@attrs.define
class ToothedEnd:
    """One end of a real bar: its teeth as directions, some of them missing."""

    axis: Vector
    blank: Vector  # where the maker's blank points, or the tooth that the maker marked
    teeth: int
    missing: set[int]  # counted right-handed from there
    painted: int  # the tooth that is painted before the bar comes out, counted likewise

    def start(self, datum: str) -> int:
        """Find the tooth or the blank that the sheet counts from."""
        if datum == "the maker's blank":
            assert self.is_missing(0), "there is no blank to count from"
            return 0
        if datum == "the marked tooth":
            assert not self.is_missing(0), "there is a blank in the place of the mark"
            return 0
        assert datum == "the tooth that is on the key now"
        return self.painted

    def tooth(self, number: int, word: str | None, seen_from: str) -> int:
        """Count as a viewer does who looks along the bar."""
        # The axis points from the anchor end to the arm end.
        sight = -self.axis if seen_from == "arm end" else self.axis
        if number == 0:
            return 0
        # A right-handed turn about the line of sight is clockwise to the viewer.
        about_sight = {"clockwise": 1, "counter-clockwise": -1}[str(word)]
        return number * about_sight * (1 if float(np.dot(sight, self.axis)) > 0 else -1)

    def direction(self, tooth: int) -> Vector:
        """Where a tooth points."""
        return turned(self.blank, self.axis, 2.0 * math.pi * tooth / self.teeth)

    def is_missing(self, tooth: int) -> bool:
        return tooth % self.teeth in {m % self.teeth for m in self.missing}


class Bench:
    """A corner on stands, built from its records."""

    def __init__(self, setup: bw.Setup) -> None:
        self.setup = setup
        mirror = np.array([1.0, -1.0 if setup.side is bw.parts.Side.RIGHT else 1.0, 1.0])
        axis = mirror * np.array(setup.axle.bar_axis)
        arm = mirror * np.array(setup.axle.arm_direction)
        self.axis: Vector = axis / np.linalg.norm(axis)
        self.level: Vector = arm / np.linalg.norm(arm)
        # The axis about which the wheel rises right-handed.
        self.bump: Vector = np.cross(self.level, UP)

    def arm_at(self, angle: float) -> Vector:
        """Direction of an arm or lever at an angle above the level, in the bump sense."""
        return turned(self.level, self.bump, angle)

    def free_angle(self, corner: dict[str, Any]) -> float:
        """Cut the bar, put it on the keys, and see where the arm comes to point."""
        bar = self.setup.bar
        arm_work, anchor_work = corner["plan"]["ends"]
        start = np.cross(self.axis, UP)
        arm_start = turned(start, self.axis, rad(bar.blank_angle))
        anchor = self.end(bar.anchor_end, start, self.setup.anchor_tooth)
        arm = self.end(bar.arm_end, arm_start, self.setup.arm_tooth)
        on_anchor_key = self.work(anchor, anchor_work, self.setup.anchor.socket)
        on_arm_key = self.work(arm, arm_work, self.setup.arm.socket)

        lever = self.lever_angle(corner["plan"])
        anchor_key = self.arm_at(lever + rad(self.setup.anchor.socket.key_angle))
        swing = angle_about(self.axis, anchor.direction(on_anchor_key), anchor_key)
        arm_blank = turned(arm.direction(on_arm_key), self.axis, swing)
        # The arm turns until its key meets the blank.
        arm_key_at_level = self.arm_at(rad(self.setup.arm.socket.key_angle))
        return angle_about(self.bump, arm_key_at_level, arm_blank)

    def end(self, end: bw.parts.BarEnd, blank: Vector, bumpward: int) -> ToothedEnd:
        """An end, and on it the tooth that faces the key's place now."""
        handed = 1 if float(np.dot(self.bump, self.axis)) > 0.0 else -1
        return ToothedEnd(self.axis, blank, end.teeth, set(end.blanks), handed * bumpward)

    def work(self, end: ToothedEnd, words: dict[str, Any], socket: bw.parts.Socket) -> int:
        """Do what the sheet says at one end; return the tooth that is on the key."""
        tooth = end.start(words["tooth_datum"])
        tooth += end.tooth(words["tooth"], words["direction"], words["seen_from"])
        if words["action"] == "remove a tooth of the bar":
            assert not end.is_missing(tooth), "the sheet has a tooth removed that is not there"
            assert words["on_key"] == "the new blank"
            end.missing.add(tooth)
        elif words["on_key"] == "the maker's blank":
            assert tooth == 0
            assert end.is_missing(0)
        if socket.keyed and words["action"] != "leave this end on the tooth it is on":
            assert end.is_missing(tooth), "a tooth would stand on the key"
        return tooth

    def lever_angle(self, plan: dict[str, Any]) -> float:
        """Turn the nut from the middle, and find the lever by the length of the bolt."""
        adjuster, tube = adjuster_of(self.setup), tube_of(self.setup)
        turns = abs(plan["nut_turns"]["value"])
        # Clockwise, seen from its free end, a right-handed nut runs toward the pivot.
        toward_pivot = {"clockwise": 1.0, "counter-clockwise": -1.0, None: 0.0}[plan["nut_sense"]]
        pull = adjuster.lever_lies is bw.parts.LeverSide.BUMPWARD
        start, end = metre(adjuster.thread_start), metre(adjuster.thread_end)
        nut, spacer = metre(known(adjuster.nut_height)), metre(adjuster.spacer)
        # Pulling, the nut bears with its near face and stands on [start, end - nut];
        # pushing, with its far face on [start + nut, end].
        pin_limits = (
            (start - spacer, end - nut - spacer) if pull else (start + nut + spacer, end + spacer)
        )
        middle = (pin_limits[0] + pin_limits[1]) / 2.0
        pin = middle - toward_pivot * turns * metre(adjuster.thread_pitch)
        held = adjuster.mounting
        if isinstance(held, bw.parts.FixedLineMounting):
            return self.lever_through(held, pin, pull=pull)
        assert isinstance(held, bw.parts.SwivellingMounting)
        pivot = metre(held.pivot_distance) * self.arm_at(rad(held.pivot_angle))

        def miss(lever: float) -> float:
            at = metre(tube.lever_radius) * self.arm_at(lever)
            return float(np.linalg.norm(at - pivot) - pin)

        at_pivot = rad(held.pivot_angle)
        beyond = at_pivot + (math.pi if pull else -math.pi)
        return float(brentq(miss, *sorted((at_pivot, beyond)), xtol=1e-14))

    def lever_through(self, held: bw.parts.FixedLineMounting, pin: float, *, pull: bool) -> float:
        """Point the lever at a pin on a line that passes the bar axis."""
        foot = self.arm_at(rad(held.foot_angle))
        bumpward = np.cross(self.bump, foot)
        along = bumpward if pull else -bumpward
        at = metre(held.line_distance) * foot + (pin - metre(held.foot_position)) * along
        return angle_about(self.bump, self.level, at / np.linalg.norm(at))

    def rest(self, free: float, rate: float) -> float:
        """Hub-to-arch height of least energy."""
        axle, damper = self.setup.axle, self.setup.damper
        load = float(self.setup.load.mass.m_as("kilogram")) * 9.80665
        gas = damper.gas
        # The free angle is known but for whole turns.
        free += 2.0 * math.pi * round(-free / (2.0 * math.pi))

        def energy(angle: float) -> float:
            contact, _, length = self.linkage(angle)
            stored = 0.5 * rate * (angle - free) ** 2 - load * contact
            if gas is not None:
                force = float(gas.force.m_as("newton"))
                slope = float(gas.slope.m_as("newton/meter"))
                past = length - metre(gas.at_length)
                stored -= force * past + 0.5 * slope * past**2
            return stored

        found = minimize_scalar(
            energy,
            bounds=(rad(axle.droop_stop), rad(axle.bump_stop)),
            method="bounded",
            options={"xatol": 1e-12},
        )
        hub = self.linkage(found.x)[1]
        reference = self.linkage(rad(axle.measured_angle))[1]
        return metre(axle.measured_height) - (hub - reference)

    def linkage(self, angle: float) -> tuple[float, float, float]:
        """Heights of contact and hub, and the damper's length, from rigid parts alone."""
        axle = self.setup.axle
        radius = metre(self.setup.arm.radius)
        joint = radius * np.array([math.cos(angle), math.sin(angle)])
        hub = np.array([metre(axle.hub_outboard), metre(axle.hub_up)])
        contact = hub - np.array([0.0, metre(axle.tyre_radius)])
        if isinstance(axle.suspension, bw.parts.SwingArmMounting):
            tilt = angle - rad(axle.reference_angle)
            foot = np.array([metre(axle.suspension.foot_along), metre(axle.suspension.foot_above)])
            mount = [metre(axle.suspension.mount_outboard), metre(axle.suspension.mount_up)]
            length = float(np.linalg.norm(np.array(mount) - plane_turned(foot, angle)))
        else:
            assert isinstance(axle.suspension, bw.parts.StrutMounting)
            lean = self.strut_lean(joint, axle.suspension)
            at = radius * np.array([math.cos(x := rad(axle.reference_angle)), math.sin(x)])
            tilt = lean - self.strut_lean(at, axle.suspension)
            mount = [metre(axle.suspension.top_outboard), metre(axle.suspension.top_up)]
            along = np.array([math.cos(lean), math.sin(lean)])
            length = float(np.dot(np.array(mount) - joint, along))
            length += metre(axle.suspension.length_below)
        acts_at = contact if axle.load_at is bw.parts.LoadPoint.CONTACT else hub
        return (
            float((joint + plane_turned(acts_at, tilt))[1]),
            float((joint + plane_turned(hub, tilt))[1]),
            length,
        )

    @staticmethod
    def strut_lean(joint: Vector, strut: bw.parts.StrutMounting) -> float:
        """Angle of a line through the top mount that passes the joint at the offset, outboard."""
        mount = np.array([metre(strut.top_outboard), metre(strut.top_up)])

        def miss(lean: float) -> float:
            outward = np.array([math.sin(lean), -math.cos(lean)])
            # The line lies outboard of the joint where the mount does.
            return float(np.dot(mount - joint, outward)) - metre(strut.offset)

        return float(brentq(miss, 0.2, math.pi - 0.2, xtol=1e-14))


def plane_turned(point: Vector, angle: float) -> Vector:
    cosine, sine = math.cos(angle), math.sin(angle)
    return np.array([point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine])


def rad(value: bw.Quantity) -> float:
    return float(value.m_as("radian"))


def metre(value: bw.Quantity) -> float:
    return float(value.m_as("meter"))


@settings(max_examples=draws(150), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_the_words_of_the_sheet_carried_out_in_space_give_the_height(
    drawn: tuple[bw.Setup, str],
) -> None:
    setup, height = drawn
    follow(sheet_of(setup, height=height), on=setup, height=height)


@settings(max_examples=draws(60), suppress_health_check=[HealthCheck.too_slow])
@given(corners(), st.fixed_dictionaries({"arm": st.booleans(), "anchor": st.booleans()}))
def test_a_tooth_is_cut_where_a_bar_without_blanks_goes_over_a_key(
    drawn: tuple[bw.Setup, str], keys: dict[str, bool]
) -> None:
    free, height = drawn
    setup = with_keys(without_blanks(free, mark="a punched dot"), **keys)
    old = make_bar(free.bar.arm_end.teeth, free.bar.anchor_end.teeth)
    present = with_keys(attrs.evolve(free, bar=old), **keys)
    sheet = sheet_of(setup, height=height, present=present)
    asked = {change["end"] for change in sheet["reindex"]["fit"]["changes"]}
    assert asked == {f"{end} end" for end, keyed in keys.items() if keyed}
    for plan in follow(sheet, on=setup, height=height):
        assert plan["cuts"] == sum(keys.values())
        assert {work["tooth_datum"] for work in plan["ends"]} == {"the marked tooth"}


@pytest.mark.rare
@settings(max_examples=draws(60), suppress_health_check=[HealthCheck.too_slow])
@given(corners(), st.integers(350, 430), st.sampled_from(["arm", "anchor", ""]))
def test_a_bar_that_shows_nothing_is_counted_from_paint_after_a_reading(
    drawn: tuple[bw.Setup, str], stood: int, shown: str
) -> None:
    """What is true of the bar is known here, and to nobody who plans: only the height is."""
    setup, height = drawn
    truth = standing(without_blanks(setup, mark="known to the test", but=shown), f"{stood} mm")
    stands = bw.ride(truth)
    assume(stands.state is not None)
    bare = without_blanks(setup, mark=None, but=shown)
    # Where nothing shows a count, the tooth that is there now is as good as any.
    present = attrs.evolve(
        bare,
        arm_tooth=truth.arm_tooth if bare.bar.arm_end.blanks else 0,
        anchor_tooth=truth.anchor_tooth if bare.bar.anchor_end.blanks else 0,
        nut_turns=truth.nut_turns,
    )
    read = present.with_reading(height=f"{stands.height.m_as('mm'):.9f} mm")
    sheet = sheet_of(read, height=height)
    # A corner on a stop says nothing of its bar.
    low, high = (sheet["reindex"][f"reachable_{at}"]["value"] for at in ("from", "to"))
    assume(low + 0.1 < stands.height.m_as("mm") < high - 0.1)
    for plan in follow(sheet, on=truth, height=height):
        for end, work in zip((bare.bar.arm_end, bare.bar.anchor_end), plan["ends"], strict=True):
            is_painted = work["tooth_datum"] == "the tooth that is on the key now"
            assert is_painted is not bool(end.blanks)


def standing(setup: bw.Setup, height: str) -> bw.Setup:
    """The same corner, clocked and set so that it stands near a height."""
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height))
    plans = (*answer.plans, *answer.rejected)
    assume(plans)
    return bw.carry_out(setup, plans[0])


def without_blanks(setup: bw.Setup, *, mark: str | None, but: str = "") -> bw.Setup:
    """The same corner with a bar that has no blank, but for one end; its sockets have no keys."""
    bar = setup.bar
    ends = {"arm": bar.arm_end, "anchor": bar.anchor_end}
    changed: dict[str, Any] = {
        f"{name}_end": attrs.evolve(end, blanks=(0,), mark=None)
        if name == but
        else attrs.evolve(end, blanks=(), mark=mark)
        for name, end in ends.items()
    }
    angle = bar.blank_angle if mark else "unknown"
    bare = attrs.evolve(setup, bar=attrs.evolve(bar, **changed, blank_angle=angle))
    return with_keys(bare, arm=False, anchor=False)


def with_keys(setup: bw.Setup, *, arm: bool, anchor: bool) -> bw.Setup:
    """The same corner with or without keys in its sockets."""
    sockets = (
        attrs.evolve(part.socket, keyed=keyed)
        for part, keyed in ((setup.arm, arm), (setup.anchor, anchor))
    )
    return attrs.evolve(
        setup,
        arm=attrs.evolve(setup.arm, socket=next(sockets)),
        anchor=attrs.evolve(setup.anchor, socket=next(sockets)),
    )


def sheet_of(setup: bw.Setup, *, height: str, present: bw.Setup | None = None) -> dict[str, Any]:
    """The bench sheet of a corner, as a program reads it."""
    task = bw.JobCorner(setup=setup, present=present or setup, wanted=bw.Wanted(height=height))
    sheet = json.loads(bw.to_json(bw.bench_sheet(bw.Job(title="t", corners=(task,)))))
    corner: dict[str, Any] = sheet["corners"][0]
    return corner


def follow(corner: dict[str, Any], *, on: bw.Setup, height: str) -> list[dict[str, Any]]:
    """Carry every plan out on a corner; each one gives the height that it states."""
    assume(corner["reindex"]["outcome"] != "does not fit")
    plans: list[dict[str, Any]] = corner["reindex"]["plans"] + corner["reindex"]["rejected"]
    assume(plans)
    rate = corner["rates"]["figures"]["system_rate"]
    assert rate["unit"] == "N*m/deg"
    for plan in plans:
        bench = Bench(on)
        free = bench.free_angle({"plan": plan})
        found = bench.rest(free, math.degrees(rate["value"]))
        assert math.isclose(found * 1000, plan["height"]["value"], abs_tol=2e-4)
        allowed = plan["height_rounding"]["value"] + 2e-4
        assert abs(found * 1000 - float(height.removesuffix(" mm"))) <= allowed
    return plans

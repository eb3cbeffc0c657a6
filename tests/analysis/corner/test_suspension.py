"""Suspensions from records to answers: wishbones, inclined bars, and what stands beside the bar."""

from __future__ import annotations

import math
from typing import Any

import attrs
import numpy as np
import pytest
from scipy.spatial.transform import Rotation

import barwright as bw
from barwright.analysis.corner.corner import Corner
from sample_records import double_wishbone_mounting, make_setup, swing_arm_mounting

INCLINED = (1.0, 0.0, 0.75)
"""A bar that rises to its arm end; one metre in its plane is 0.8 m of height."""

RUBBER = (
    bw.parts.BumpRubberForce(compression="10 mm", force="300 N"),
    bw.parts.BumpRubberForce(compression="25 mm", force="1500 N"),
)


def figures_of(setup: bw.Setup, **wanted: Any) -> bw.answers.RateFigures:
    answer = bw.rates(setup, wanted=bw.Wanted(**wanted) if wanted else None)
    assert answer.figures is not None
    return answer.figures


def with_axle(**axle: Any) -> bw.Setup:
    return make_setup(axle=axle)


def wishbone(side: bw.parts.JointSide, **change: Any) -> Any:
    mounting = double_wishbone_mounting(upper_joint=side, **change)
    setup = make_setup(
        axle={"suspension": mounting},
        damper={"open_length": "500 mm", "closed_length": "340 mm"},
    )
    return Corner(setup).linkage


# -- Double wishbone -------------------------------------------------------------------


def test_a_linkage_that_locks_within_two_degrees_of_an_angle_of_its_travel_is_refused() -> None:
    """Its upper links meet at both stops, and in the middle of the travel."""
    angle, pivot, joint, upright = math.radians(10.0), 278.0, 338.0, 180.0
    # The pivot lies within the circle of the ball joint: here the two are nearest.
    locks = math.sqrt(pivot**2 + joint**2 - 2 * pivot * joint * math.cos(math.radians(2.0)))
    axle = {
        "droop_stop": "-24 deg",
        "bump_stop": "17 deg",
        "suspension": double_wishbone_mounting(
            upper_outboard=f"{pivot * math.cos(angle)} mm",
            upper_up=f"{pivot * math.sin(angle)} mm",
            upright=f"{upright} mm",
            upper_radius=f"{upright - locks} mm",
            upper_joint=bw.parts.JointSide.OUTBOARD,
        ),
    }
    for place in (-24.0, -3.5, 17.0):
        apart = math.dist(
            (pivot * math.cos(angle), pivot * math.sin(angle)),
            (joint * math.cos(math.radians(place)), joint * math.sin(math.radians(place))),
        )
        assert locks < apart < 2 * upright - locks

    with pytest.raises(bw.GeometryError) as caught:
        bw.rates(make_setup(axle=axle))

    assert caught.value.code == "G101"


@pytest.mark.parametrize(("side", "number"), [("OUTBOARD", 1), ("INBOARD", -1)])
def test_a_wishbone_is_built_as_its_record_says(side: str, number: int) -> None:
    pivot = {} if number > 0 else {"upper_outboard": "430 mm", "upper_up": "300 mm"}
    linkage = wishbone(bw.parts.JointSide[side], **pivot)

    assert linkage.branch == number
    given = double_wishbone_mounting(**pivot)
    places = (linkage.upper_pivot, linkage.damper_foot, linkage.damper_mount)
    assert places == tuple(
        (
            pytest.approx(one.m_as("m"), rel=1e-12),
            pytest.approx(other.m_as("m"), rel=1e-12),
        )
        for one, other in (
            (given.upper_outboard, given.upper_up),
            (given.foot_along, given.foot_above),
            (given.mount_outboard, given.mount_up),
        )
    )
    assert (linkage.upper_radius, linkage.upright) == pytest.approx((0.225, 0.25))
    assert linkage.reference_angle == pytest.approx(math.radians(-5.0))
    assert float(linkage.motion(math.radians(-5.0)).tilt) == pytest.approx(0.0, abs=1e-15)


def test_a_wishbone_that_cannot_close_is_refused_at_its_corner() -> None:
    with pytest.raises(bw.GeometryError) as caught:
        wishbone(bw.parts.JointSide.OUTBOARD, upper_radius="60 mm")

    assert (caught.value.code, caught.value.key) == ("G101", "t:chassis/one.front left.upper_pivot")


def test_an_upright_that_lies_down_is_refused_at_its_corner() -> None:
    """The other place of the upper ball joint, at the same distances."""
    with pytest.raises(bw.GeometryError) as caught:
        wishbone(bw.parts.JointSide.INBOARD)

    key = "t:chassis/one.front left.suspension.upper_joint"
    assert (caught.value.code, caught.value.key) == ("G111", key)
    assert "'outboard'" in caught.value.remedy


def test_a_longer_arm_leans_the_wheel_of_a_wishbone() -> None:
    setup = make_setup(
        axle={"suspension": double_wishbone_mounting()},
        damper={"open_length": "500 mm", "closed_length": "340 mm"},
    )
    longer = attrs.evolve(setup.arm, id="t:arm/long", radius="348 mm")
    tilt = Corner(setup.with_parts(arm=longer)).linkage.motion(math.radians(-5.0)).tilt
    # The lower ball joint goes out by 10 mm under an upright of 250 mm whose top hardly moves.
    assert math.degrees(float(tilt)) == pytest.approx(math.degrees(0.010 / 0.25), rel=0.15)


# -- Over the travel -------------------------------------------------------------------


def test_camber_and_track_count_from_the_corner_at_rest() -> None:
    figures = figures_of(make_setup(), height="390 mm")
    curve, rest = figures.curve, figures.ride.height.m_as("mm")
    height = curve.height.magnitude[::-1]
    for change in (curve.camber_change, curve.track_change):
        there = np.interp(rest, height, change.magnitude[::-1])
        assert there == pytest.approx(0.0, abs=0.05)
        assert np.ptp(change.magnitude) > 0.5


def test_left_and_right_lean_and_spread_alike() -> None:
    left, right = (
        figures_of(make_setup(side=side, axle={"bar_axis": INCLINED}), height="390 mm").curve
        for side in bw.parts.Side
    )
    assert left.camber_change.magnitude == pytest.approx(right.camber_change.magnitude, abs=1e-12)
    assert left.track_change.magnitude == pytest.approx(right.track_change.magnitude, abs=1e-12)


def test_on_an_inclined_bar_the_hub_turns_about_it_in_space() -> None:
    bar, arm = np.array([0.8, 0.6, 0.75]), np.array([-0.6, 0.8, 0.0])
    setup = with_axle(
        bar_axis=tuple(bar.tolist()),
        arm_direction=tuple(arm.tolist()),
        suspension=swing_arm_mounting(),
        load_at=bw.parts.LoadPoint.HUB,
        reference_angle="0 deg",
        hub_up="0 mm",
    )
    figures = figures_of(setup, height="400 mm")
    angles = figures.curve.arm_angle.m_as("radian") - figures.ride.arm_angle.m_as("radian")
    # 338 mm of arm and 92 mm to the hub; bump is right-handed about the bar on the left.
    about = bar / np.linalg.norm(bar)
    rest = Rotation.from_rotvec(about * figures.ride.arm_angle.m_as("radian")).apply(430.0 * arm)
    shift = Rotation.from_rotvec(np.outer(angles, about)).apply(rest) - rest
    assert figures.curve.track_change.m_as("mm") == pytest.approx(shift[:, 1], abs=1e-9)
    assert figures.curve.wheelbase_change is not None
    assert figures.curve.wheelbase_change.m_as("mm") == pytest.approx(shift[:, 0], abs=1e-9)


def test_a_swing_axle_leans_by_the_angle_of_its_arm() -> None:
    setup = make_setup(axle={"suspension": swing_arm_mounting()})
    figures = figures_of(setup, height="390 mm")
    turned = (figures.curve.arm_angle - figures.ride.arm_angle).m_as("degree")
    assert figures.curve.camber_change.m_as("degree") == pytest.approx(-turned, abs=1e-12)
    # The contact hangs below the axle: in bump it goes outward.
    shift = figures.curve.track_change.m_as("mm")
    assert np.all(np.sign(shift) == np.sign(turned))


def test_a_trailing_arm_keeps_camber_and_track() -> None:
    axle = {
        "bar_axis": (0.0, 1.0, 0.0),
        "arm_direction": (-1.0, 0.0, 0.0),
        "suspension": swing_arm_mounting(),
        "load_at": bw.parts.LoadPoint.HUB,
    }
    curve = figures_of(with_axle(**axle), height="390 mm").curve
    assert curve.camber_change.magnitude == pytest.approx(0.0, abs=1e-12)
    assert curve.track_change.magnitude == pytest.approx(0.0, abs=1e-12)
    # On a circle about the bar the hub goes forward by its own height for each radian.
    assert curve.wheelbase_change is not None
    turned = curve.arm_angle.m_as("radian")
    above = np.gradient(curve.wheelbase_change.m_as("mm"), turned) + curve.height.m_as("mm")
    assert above[1:-1] == pytest.approx(above[20], abs=0.5)


def test_the_motion_ratio_is_the_dampers_travel_over_the_wheels() -> None:
    axle = {
        "suspension": swing_arm_mounting(),
        "load_at": bw.parts.LoadPoint.HUB,
        "bar_axis": INCLINED,
    }
    setup = make_setup(axle=axle)
    curve, linkage = figures_of(setup, height="390 mm").curve, Corner(setup).linkage
    length = 1000 * np.asarray(linkage.motion(curve.arm_angle.m_as("radian")).damper_length)
    ratio = np.gradient(length, curve.height.magnitude)
    assert len(curve.motion_ratio) == len(length)
    assert ratio[2:-2] == pytest.approx(curve.motion_ratio[2:-2], rel=2e-3)


def test_a_damping_ratio_is_known_where_the_dampers_rate_is() -> None:
    bare = figures_of(make_setup(), height="390 mm")
    known = figures_of(make_setup(damper={"damping_rate": "1.8 N*s/mm"}), height="390 mm")
    ratios = np.interp(-390.0, -known.curve.height.magnitude, np.asarray(known.curve.motion_ratio))
    rate, mass = known.ride.wheel_rate.m_as("N/m"), 291.0
    # The decay of a mass on spring and damper, from the roots of its equation of motion.
    root = np.roots([mass, 1800.0 * ratios**2, rate])[0]
    assert bare.damping_ratio is None
    assert known.damping_ratio == pytest.approx(-root.real / abs(root), rel=1e-4)
    undamped = attrs.evolve(known, damping_ratio=None, wheel_hop_damping=None)
    assert attrs.evolve(undamped, wheel_hop_frequency=bare.wheel_hop_frequency) == bare


@pytest.mark.parametrize("damper_rate", [None, "1.8 N*s/mm"])
def test_wheel_hop_is_a_root_of_both_masses_equation_of_motion(damper_rate: str | None) -> None:
    setup = make_setup(damper={"damping_rate": damper_rate})
    figures = figures_of(setup, height="390 mm")
    sprung, unsprung = Corner(setup).sprung_mass, float(setup.axle.unsprung_mass.m_as("kg"))
    rate, tyre = (q.m_as("N/m") for q in (figures.ride.wheel_rate, setup.axle.tyre_rate))
    heights = -figures.curve.height.magnitude
    ratio = np.interp(-390.0, heights, np.asarray(figures.curve.motion_ratio))
    damping = (1800.0 if damper_rate else 0.0) * ratio**2
    roots = np.roots(
        [
            sprung * unsprung,
            damping * (sprung + unsprung),
            rate * (sprung + unsprung) + tyre * sprung,
            damping * tyre,
            rate * tyre,
        ]
    )
    fast = max(roots, key=abs)

    assert figures.wheel_hop_frequency is not None
    assert figures.wheel_hop_frequency.m_as("Hz") == pytest.approx(abs(fast) / math.tau, rel=1e-3)
    if damper_rate:
        assert figures.wheel_hop_damping == pytest.approx(-fast.real / abs(fast), rel=1e-3)
    else:
        assert figures.wheel_hop_damping is None


def test_a_slack_corner_has_no_damping_ratio_and_no_wheel_hop() -> None:
    slack = make_setup(anchor_key="-130 deg", mass="1 kg", damper={"damping_rate": "1.8 N*s/mm"})
    figures = figures_of(slack)
    assert (figures.damping_ratio, figures.wheel_hop_damping) == (None, None)
    assert figures.wheel_hop_frequency is None


# -- Inclined bars ---------------------------------------------------------------------


def test_on_an_inclined_bar_heights_loads_and_rates_are_vertical() -> None:
    axle = {"suspension": swing_arm_mounting(), "load_at": bw.parts.LoadPoint.HUB}
    level = figures_of(with_axle(**axle), arm_angle="-2 deg")
    steep = figures_of(with_axle(**axle, bar_axis=INCLINED), arm_angle="-2 deg")

    # From the measured pair, at -5 degrees.
    rise, less = (404.0 - figures.ride.height.m_as("mm") for figures in (level, steep))
    assert less == pytest.approx(0.8 * rise, rel=1e-12)
    assert steep.ride.wheel_load.m_as("N") == pytest.approx(level.ride.wheel_load.m_as("N"))
    assert steep.ride.torque.m_as("N*m") == pytest.approx(0.8 * level.ride.torque.m_as("N*m"))
    assert steep.ride.damper_length == level.ride.damper_length


def test_a_bar_just_off_level_is_not_taken_as_level() -> None:
    level, off = (
        figures_of(with_axle(bar_axis=(1.0, 0.0, rise)), arm_angle="-2 deg").ride.torque.m_as("N*m")
        for rise in (0.0, 0.04)
    )
    assert off == pytest.approx(level * math.cos(math.atan(0.04)), rel=1e-4)
    assert off < level


def test_a_bar_that_is_too_steep_is_refused() -> None:
    with pytest.raises(bw.GeometryError) as caught:
        bw.ride(with_axle(bar_axis=(0.4, 0.0, 0.8)))
    assert (caught.value.code, caught.value.key) == ("G105", "t:chassis/one.front left.bar_axis")


@pytest.mark.parametrize("side", bw.parts.Side)
@pytest.mark.parametrize("axis", [(0.8, 0.6, 0.3), (-0.8, -0.6, -0.3)])
def test_an_arm_axis_may_be_given_either_way_round(
    side: bw.parts.Side, axis: tuple[float, float, float]
) -> None:
    setup = make_setup(
        side=side,
        axle={"bar_axis": (0.8, 0.6, 0.3), "arm_direction": (-0.6, 0.8, 0.0), "arm_axis": axis},
    )
    unsaid = attrs.evolve(setup, axle=attrs.evolve(setup.axle, arm_axis=None))
    assert bw.ride(setup).state == bw.ride(unsaid).state


@pytest.mark.parametrize("side", bw.parts.Side)
def test_an_arm_whose_axis_is_another_is_refused(side: bw.parts.Side) -> None:
    with pytest.raises(bw.GeometryError) as caught:
        bw.ride(make_setup(side=side, axle={"arm_axis": (1.0, 0.1, 0.0)}))
    assert (caught.value.code, caught.value.key) == (
        "G110",
        f"t:chassis/one.front {side.value}.arm_axis",
    )


# -- Beside the bar --------------------------------------------------------------------


def at_contact(angle: str) -> dict[str, str]:
    """Damper length and height at an arm angle."""
    state = figures_of(make_setup(), arm_angle=angle).ride
    return {
        "contact_length": f"{state.damper_length.m_as('mm'):.9f} mm",
        "contact_height": f"{state.height.m_as('mm'):.9f} mm",
    }


@pytest.mark.parametrize("how", ["contact_length", "contact_height", "contact_angle"])
def test_a_bump_rubber_begins_where_it_says(how: str) -> None:
    places = at_contact("6 deg") | {"contact_angle": "6 deg"}
    radius = {"contact_radius": "250 mm"} if how == "contact_angle" else {}
    rubber = bw.parts.BumpRubber(curve=RUBBER, **{how: places[how]}, **radius)  # type: ignore[arg-type]
    bare, pressed = (
        figures_of(with_axle(bump_rubber=one), height="404 mm").curve for one in (None, rubber)
    )
    more = (pressed.wheel_load - bare.wheel_load).m_as("N")
    after = pressed.arm_angle.m_as("degree") > 6.0
    assert np.all(more[~after] == pytest.approx(0.0, abs=1e-6))
    assert np.all(more[after] > 0.0)
    assert np.all(np.diff(more[after]) > 0.0)
    assert pressed.wheel_rate.magnitude[-1] > bare.wheel_rate.magnitude[-1] + 20.0


def test_a_rubber_under_the_hub_adds_its_force_where_the_load_is_at_the_hub() -> None:
    rubber = bw.parts.BumpRubber(curve=RUBBER, contact_height="400 mm")
    axle = {
        "suspension": swing_arm_mounting(),
        "load_at": bw.parts.LoadPoint.HUB,
        "bar_axis": INCLINED,
    }
    bare, pressed = (
        figures_of(with_axle(**axle, bump_rubber=one), height="404 mm").curve
        for one in (None, rubber)
    )
    more = (pressed.wheel_load - bare.wheel_load).m_as("N")
    points = ([0.0, 10.0, 25.0, 1025.0], [0.0, 300.0, 1500.0, 81500.0])
    force = np.interp(400.0 - pressed.height.m_as("mm"), *points)
    assert np.max(force) > 1500.0
    assert more == pytest.approx(force, rel=1e-9, abs=1e-6)


def test_bushings_hold_a_torque_beside_the_bar() -> None:
    bushing = bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="-9 deg")
    bare, wound = (
        figures_of(with_axle(bushing=one), arm_angle="-4 deg").ride.torque.m_as("N*m")
        for one in (None, bushing)
    )
    assert wound == pytest.approx(bare - 2.0 * 5.0, rel=1e-9)


@pytest.mark.parametrize("height", ["404 mm", "395 mm"])
def test_bushings_are_tightened_at_the_standard_height_unless_said_otherwise(height: str) -> None:
    bushing = bw.parts.ArmBushing(rate="2 N*m/deg")
    axle = {"bushing": bushing, "standard_height": height}
    there, bare = (
        figures_of(with_axle(**one), height=height) for one in (axle, {"standard_height": height})
    )
    assert there.ride.torque.m_as("N*m") == pytest.approx(bare.ride.torque.m_as("N*m"), rel=1e-9)
    assert bw.rates(with_axle(**axle), wanted=bw.Wanted(height=height)).findings == ()


@pytest.mark.parametrize("height", ["250 mm", "600 mm"])
def test_bushings_need_a_height_that_the_stops_let_be(height: str) -> None:
    axle = {"bushing": bw.parts.ArmBushing(rate="2 N*m/deg"), "standard_height": height}
    with pytest.raises(bw.SchemaError) as caught:
        bw.rates(with_axle(**axle), wanted=bw.Wanted(height="390 mm"))
    key = "t:chassis/one.front left.bushing.set_angle"
    assert (caught.value.code, caught.value.key) == ("S207", key)


def test_bushings_that_are_wound_up_at_rest_are_a_finding_of_rates_and_plans() -> None:
    setup = with_axle(bushing=bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="-9 deg"))
    wanted = bw.Wanted(arm_angle="-4 deg")
    rated, planned = bw.rates(setup, wanted=wanted), bw.reindex(setup, wanted=wanted)
    for findings in (rated.findings, planned.plans[0].findings):
        (found,) = [f for f in findings if f.topic is bw.answers.Topic.BUSHING]
        assert isinstance(found.figure, bw.Quantity)
        assert found.figure.m_as("N*m") == pytest.approx(10.0, rel=1e-9)


def test_what_stands_beside_the_bar_has_its_tolerances() -> None:
    rubber = bw.parts.BumpRubber(curve=RUBBER, contact_height="410 mm")
    setup = with_axle(bushing=bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="-9 deg"))
    setup = attrs.evolve(setup, axle=attrs.evolve(setup.axle, bump_rubber=rubber))
    names = ("axle.bushing.rate", "axle.bump_rubber.contact_height")
    halves = dict(zip(names, ("0.5 N*m/deg", "3 mm"), strict=True))
    answer = bw.tolerance(bw.ride, setup, half_widths=halves)
    (height,) = [row for row in answer.rows if row.figure == "state.height"]
    assert {share.figure for share in height.shares} == set(names)
    assert all(share.change.magnitude != 0.0 for share in height.shares)


@pytest.mark.parametrize(("wound", "said"), [("-4.4 deg", 0), ("-3.6 deg", 0), ("-4.6 deg", 1)])
def test_half_a_degree_is_tightened_there(wound: str, said: int) -> None:
    setup = with_axle(bushing=bw.parts.ArmBushing(rate="2 N*m/deg", set_angle=wound))
    answer = bw.rates(setup, wanted=bw.Wanted(arm_angle="-4 deg"))
    assert [f.topic for f in answer.findings] == [bw.answers.Topic.BUSHING] * said


def test_a_helper_coil_pushes_along_the_damper_until_it_is_loose() -> None:
    coil = bw.parts.HelperCoil(rate="8 N/mm", free_length="300 mm", seat_offset="280 mm")
    bare, helped = (
        figures_of(with_axle(helper_coil=one), height="404 mm").curve for one in (None, coil)
    )
    more = (helped.wheel_load - bare.wheel_load).m_as("N")
    setup = make_setup()
    length = Corner(setup).linkage.motion(helped.arm_angle.m_as("radian")).damper_length
    pressed = np.maximum(580.0 - length * 1000, 0.0)
    assert 0 < np.count_nonzero(pressed) < pressed.size
    # For the same height at rest the bar carries less: its own change is taken out.
    torque = (helped.torque - bare.torque).m_as("N*m")
    slope = Corner(setup).linkage.motion(helped.arm_angle.m_as("radian")).load.slope
    force = 8.0 * pressed * np.asarray(helped.motion_ratio)
    assert more == pytest.approx(force + torque / slope, rel=1e-9, abs=1e-6)


# -- The bar in the upper wishbone -----------------------------------------------------


@pytest.mark.parametrize(
    ("across", "upper_radius", "upright"), [(85.0, 225.0, 250.0), (40, 280, 262), (120, 240, 230)]
)
def test_a_corner_is_the_same_whichever_of_its_arms_the_bar_is_in(
    across: float, upper_radius: float, upright: float
) -> None:
    """The two arms change places: the pivots, the radii, and the joint from which the hub is given.

    Where the wheel goes with the turn of the lower arm is the same; the ball joints are found by
    drawing both circles.
    """
    lower_radius, height = 338.0, 215.0
    pivot = np.array([across, height])

    def joints(angle: float) -> tuple[Any, Any]:
        below = lower_radius * np.array([math.cos(angle), math.sin(angle)])
        return below, _outboard_crossing(below, upright, pivot, upper_radius)

    below, above = joints(math.radians(-5.0))
    hub = below + np.array([92.0, 48.0])
    by_lower = _linkage(
        radius=lower_radius, other=(pivot, upper_radius, upright), hub=hub - below, angle=-5.0
    )
    by_upper = _linkage(
        radius=upper_radius,
        other=(-pivot, lower_radius, upright),
        hub=hub - above,
        angle=math.degrees(math.atan2(*(above - pivot)[::-1])),
    )

    for angle in np.radians([-15.0, -5.0, 6.0]):
        _, above = joints(angle)
        one = by_lower.motion(angle)
        other = by_upper.motion(math.atan2(*(above - pivot)[::-1]))
        assert float(other.hub.height) * 1e3 + height == pytest.approx(float(one.hub.height) * 1e3)
        assert float(other.hub.outboard) * 1e3 + across == pytest.approx(
            float(one.hub.outboard) * 1e3
        )
        assert float(other.tilt) == pytest.approx(float(one.tilt), abs=1e-9)


def _linkage(*, radius: float, other: tuple[Any, float, float], hub: Any, angle: float) -> Any:
    """A corner's linkage, of the arm on the bar, the other arm and the hub, in millimetres."""
    pivot, other_radius, upright = other
    suspension = double_wishbone_mounting(
        upper_outboard=f"{pivot[0]} mm",
        upper_up=f"{pivot[1]} mm",
        upper_radius=f"{other_radius} mm",
        upright=f"{upright} mm",
    )
    axle = {
        "suspension": suspension,
        "load_at": bw.parts.LoadPoint.HUB,
        "hub_outboard": f"{hub[0]} mm",
        "hub_up": f"{hub[1]} mm",
        "reference_angle": f"{angle} deg",
    }
    return Corner(make_setup(axle=axle, arm={"radius": f"{radius} mm"})).linkage


def _outboard_crossing(one: Any, radius: float, other: Any, other_radius: float) -> Any:
    """Where two circles meet, outboard of the line between their middles."""
    line = other - one
    distance = float(np.hypot(*line))
    along = (distance**2 + radius**2 - other_radius**2) / (2.0 * distance)
    aside = math.sqrt(radius**2 - along**2)
    return one + (along * line + aside * np.array([line[1], -line[0]])) / distance


def test_an_upper_bar_s_joint_on_the_wrong_side_is_refused() -> None:
    """The lower ball joint of a wishbone lies outboard of the line from the upper one."""
    mounting = {
        "upper_outboard": "-78 mm",
        "upper_up": "-236 mm",
        "upper_radius": "330 mm",
        "upright": "262 mm",
    }
    axle = {"reference_angle": "0 deg", "hub_up": "-150 mm"}

    def linkage(side: bw.parts.JointSide) -> Any:
        suspension = double_wishbone_mounting(upper_joint=side, **mounting)
        return Corner(
            make_setup(axle=axle | {"suspension": suspension}, arm={"radius": "232 mm"})
        ).linkage

    assert math.degrees(linkage(bw.parts.JointSide.OUTBOARD).upright_angle(0.0)) == pytest.approx(
        -90.0, abs=15.0
    )
    with pytest.raises(bw.GeometryError) as caught:
        linkage(bw.parts.JointSide.INBOARD)
    assert (caught.value.code, "'outboard'" in caught.value.remedy) == ("G111", True)

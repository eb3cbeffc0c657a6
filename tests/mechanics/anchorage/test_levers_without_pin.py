"""Laws and refusals of `levers_without_pin`, and what all anchorages have in common."""

from __future__ import annotations

import itertools
import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from barwright.mechanics.anchorage.interface import Anchorage
from barwright.mechanics.anchorage.levers_without_pin import FaceContact, FixedAnchor, KeyLeverBolt
from each_case import each_case

# With a standoff of 30 mm from a line at 50 mm the bolt touches squarely 40 mm out.
BOLT = KeyLeverBolt(
    line_distance=0.05,
    foot_angle=0.2,
    foot_position=0.06,
    end_radius=0.01,
    face_offset=0.02,
    face_start=0.03,
    face_end=0.05,
    lever_side=-1,
)
BUMPWARD = attrs.evolve(BOLT, lever_side=1)
ANCHOR = FixedAnchor(anchor_angle=0.25)

# Every kind with something to set, and settings of it.
MOVABLE: list[Any] = [
    (
        SwivellingBolt(pivot_distance=0.15, pivot_angle=-0.4, lever_radius=0.1, lever_side=1),
        (0.08, 0.22),
    ),
    (
        FixedLineBolt(
            line_distance=0.1, foot_angle=0.3, foot_position=0.2, lever_radius=0.2, lever_side=-1
        ),
        (0.1, 0.3),
    ),
    (BOLT, (0.02, 0.12)),
    (BUMPWARD, (0.02, 0.12)),
]
KINDS = [
    "swivelling",
    "fixed line",
    "key lever, droopward",
    "key lever, bumpward",
]
each_kind = pytest.mark.parametrize(("anchorage", "span"), MOVABLE, ids=KINDS)


# -- What all have in common --------------------------------------------------------------


@each_kind
def test_a_setting_leads_to_an_angle_and_back(
    anchorage: Anchorage, span: tuple[float, float]
) -> None:
    settings = np.linspace(*span, 21)

    assert anchorage.setting(anchorage.lever_angle(settings)) == pytest.approx(settings, rel=1e-9)


@each_kind
def test_slope_is_that_of_differences(anchorage: Anchorage, span: tuple[float, float]) -> None:
    settings = np.linspace(*span, 7)
    step = 1e-5 * (span[1] - span[0])
    turned = anchorage.lever_angle(settings + step) - anchorage.lever_angle(settings - step)

    assert anchorage.slope(anchorage.lever_angle(settings)) == pytest.approx(
        2.0 * step / turned, rel=1e-7
    )


@each_kind
def test_work_at_the_setting_is_work_at_the_lever(
    anchorage: Anchorage, span: tuple[float, float]
) -> None:
    angles = np.asarray(anchorage.lever_angle(np.linspace(*span, 7)))
    step = 1e-7
    moved = np.asarray(anchorage.setting(angles + step)) - anchorage.setting(angles - step)

    assert anchorage.effort(850.0, lever_angle=angles) * moved == pytest.approx(
        850.0 * 2.0 * step, rel=1e-6
    )


@each_kind
def test_arrays_give_what_their_elements_give(
    anchorage: Anchorage, span: tuple[float, float]
) -> None:
    settings = np.linspace(*span, 6).reshape(2, 3)
    angles = np.asarray(anchorage.lever_angle(settings))
    torques = np.array([[[100.0]], [[-900.0]]])
    efforts = np.asarray(anchorage.effort(torques, lever_angle=angles))

    assert efforts.shape == (2, 2, 3)
    for (row, column), setting in np.ndenumerate(settings):
        angle = float(anchorage.lever_angle(float(setting)))
        assert angle == pytest.approx(angles[row, column], abs=1e-14)
        assert anchorage.effort(-900.0, lever_angle=angle) == pytest.approx(
            efforts[1, row, column], rel=1e-12
        )


@each_kind
def test_only_a_fixed_anchor_holds_both_ways(
    anchorage: Anchorage, span: tuple[float, float]
) -> None:
    assert span[0] < span[1]
    assert anchorage.holds_both_ways is False
    assert ANCHOR.holds_both_ways is True


@each_kind
def test_a_setting_that_is_not_a_number_gives_no_angle(
    anchorage: Anchorage, span: tuple[float, float]
) -> None:
    settings = np.array([span[0], math.nan])
    if isinstance(anchorage, SwivellingBolt):
        with pytest.raises(GeometryError):
            anchorage.lever_angle(settings)
    else:
        assert np.isnan(anchorage.lever_angle(settings)).tolist() == [False, True]


def test_what_only_says_what_is_common_cannot_be_made() -> None:
    with pytest.raises(TypeError, match="abstract"):
        FaceContact(face_offset=0.0, lever_side=1)  # type: ignore[abstract]


# -- A key lever on a bolt's end ----------------------------------------------------------

ENDS = st.floats(0.0, 0.14)


def test_a_bolt_that_stands_square_touches_as_far_out_as_its_triangle_says() -> None:
    # The end's centre at the foot: sides of 3, 4 and 5.
    leaning = math.asin(3.0 / 5.0)
    for bolt, angle in ((BOLT, 0.2 - leaning), (BUMPWARD, 0.2 + leaning)):
        assert bolt.lever_angle(0.07) == pytest.approx(angle, rel=1e-14)
        assert bolt.setting(angle) == pytest.approx(0.07, rel=1e-14)
        assert bolt.contact_distance(angle) == pytest.approx(0.04, rel=1e-14)
        assert bolt.slope(angle) == pytest.approx(bolt.lever_side * 0.04 / 0.8, rel=1e-14)


@pytest.mark.parametrize(("bolt", "sign"), [(BOLT, 1.0), (BUMPWARD, -1.0)])
def test_a_lever_is_pressed_on_the_side_that_the_torque_turns_it_to(
    bolt: KeyLeverBolt, sign: float
) -> None:
    angle = bolt.lever_angle(0.07)

    # Compression is negative, and holds; tension would be a contact that is lost.
    assert bolt.effort(800.0, lever_angle=angle) == pytest.approx(-sign * 16e3, rel=1e-13)
    assert bolt.effort(-800.0, lever_angle=angle) == pytest.approx(sign * 16e3, rel=1e-13)


def test_a_leaning_lever_thrusts_the_bolt_away_from_the_bar() -> None:
    droopward, bumpward = (float(bolt.lever_angle(0.07)) for bolt in (BOLT, BUMPWARD))

    assert BOLT.side_thrust(800.0, lever_angle=droopward) == pytest.approx(12e3, rel=1e-13)
    assert BOLT.side_thrust(-800.0, lever_angle=droopward) == pytest.approx(-12e3, rel=1e-13)
    assert BUMPWARD.side_thrust(-800.0, lever_angle=bumpward) == pytest.approx(12e3, rel=1e-13)


@given(end=ENDS, torque=st.floats(1.0, 3000.0))
def test_force_along_the_bolt_and_side_thrust_make_up_the_contact(
    end: float, torque: float
) -> None:
    angle = BOLT.lever_angle(end)
    along = BOLT.effort(torque, lever_angle=angle)
    across = BOLT.side_thrust(torque, lever_angle=angle)

    arm = BOLT.contact_distance(angle)
    assert np.hypot(along, across) == pytest.approx(torque / arm, rel=1e-12)


@given(end=ENDS)
def test_a_sharp_end_on_the_centreline_is_a_pin_on_a_fixed_line(end: float) -> None:
    sharp = attrs.evolve(BOLT, end_radius=0.0, face_offset=0.0)
    pin = FixedLineBolt(
        line_distance=0.05, foot_angle=0.2, foot_position=0.06, lever_radius=0.07, lever_side=-1
    )
    angle = sharp.lever_angle(end)

    assert angle == pytest.approx(pin.lever_angle(end), abs=1e-15)
    assert sharp.setting(angle) == pytest.approx(pin.pin_distance(angle), rel=1e-12, abs=1e-15)
    assert sharp.slope(angle) == pytest.approx(pin.slope(angle), rel=1e-12)
    assert sharp.effort(700.0, lever_angle=angle) == pytest.approx(
        pin.effort(700.0, lever_angle=angle), rel=1e-12
    )
    assert attrs.evolve(sharp, face_start=0.0, face_end=0.07).reach == pytest.approx(
        pin.reach, rel=1e-15
    )


@given(end=ENDS)
def test_a_thicker_lever_is_a_larger_end(end: float) -> None:
    # The tip of a larger end lies as much farther out, its centre where it was.
    thicker = attrs.evolve(BOLT, face_offset=0.025)
    larger = attrs.evolve(BOLT, end_radius=0.015)

    assert larger.lever_angle(end + 0.005) == pytest.approx(thicker.lever_angle(end), abs=1e-14)


@given(end=ENDS, turn=st.floats(-3.0, 3.0))
def test_turning_the_cross_member_turns_the_lever_with_it(end: float, turn: float) -> None:
    turned = attrs.evolve(BOLT, foot_angle=BOLT.foot_angle + turn)
    angle = float(turned.lever_angle(end))

    assert angle == pytest.approx(BOLT.lever_angle(end) + turn, abs=1e-13)
    assert turned.setting(angle) == pytest.approx(end, abs=1e-13)


@given(end=ENDS)
def test_two_sides_are_mirror_images_about_the_foot(end: float) -> None:
    mirrored = attrs.evolve(BOLT, lever_side=1, foot_angle=-0.2)

    assert mirrored.lever_angle(end) == pytest.approx(-BOLT.lever_angle(end), abs=1e-14)


def test_a_cut_away_face_may_lie_beyond_the_centreline() -> None:
    # The end's centre on the other side of the centreline: the same triangle, turned over.
    cut = attrs.evolve(BOLT, face_offset=-0.04)

    assert cut.lever_angle(0.07) == pytest.approx(0.2 + math.asin(3.0 / 5.0), rel=1e-14)
    assert cut.contact_distance(cut.lever_angle(0.07)) == pytest.approx(0.04, rel=1e-14)


# -- Where the contact stays on the face --------------------------------------------------


@pytest.mark.parametrize("bolt", [BOLT, BUMPWARD])
def test_reach_ends_where_the_face_ends(bolt: KeyLeverBolt) -> None:
    # 50 mm out, with 40 mm at the foot: 30 mm to either side of it.
    assert bolt.reach == pytest.approx((0.04, 0.10), rel=1e-14)
    assert bolt.contact_distance(bolt.lever_angle(np.array(bolt.reach))) == pytest.approx(
        0.05, rel=1e-13
    )


def test_reach_is_one_stretch_if_the_face_begins_at_the_foot() -> None:
    assert attrs.evolve(BOLT, face_start=0.04 - 1e-12).reach == pytest.approx(
        (0.04, 0.10), rel=1e-14
    )


@pytest.mark.parametrize(
    ("side", "stretch", "expected"),
    [
        (-1, 1, (0.04, 0.061)),
        (-1, -1, (0.079, 0.10)),
        (1, 1, (0.079, 0.10)),
        (1, -1, (0.04, 0.061)),
    ],
)
def test_a_face_that_begins_beyond_the_foot_leaves_one_of_two_stretches(
    side: int, stretch: int, expected: tuple[float, float]
) -> None:
    # 41 mm out is 9 mm to either side of the foot.
    bolt = attrs.evolve(BOLT, lever_side=side, stretch=stretch, face_start=0.041)

    assert bolt.reach == pytest.approx(expected, rel=1e-13)
    assert np.sort(bolt.contact_distance(bolt.lever_angle(np.array(bolt.reach)))) == pytest.approx(
        [0.041, 0.05], rel=1e-13
    )


def test_the_stretch_is_bumpward_unless_said_otherwise() -> None:
    bolt = attrs.evolve(BOLT, face_start=0.041)
    angles = bolt.lever_angle(np.array(bolt.reach))

    assert bolt == attrs.evolve(bolt, stretch=1)
    assert np.all(angles > bolt.lever_angle(0.07))


def test_a_face_that_ends_short_of_the_bolt_has_no_reach() -> None:
    low, high = attrs.evolve(BOLT, face_end=0.039).reach

    assert low == high == pytest.approx(0.07, rel=1e-14)


# -- Refusals -----------------------------------------------------------------------------


@pytest.mark.parametrize("distance", [0.02, 0.03, -0.05, math.nan])
def test_refuses_a_bolt_that_passes_too_near_to_the_bar_axis(distance: float) -> None:
    with pytest.raises(GeometryError) as caught:
        attrs.evolve(BOLT, line_distance=distance)

    assert caught.value.fields == {
        "code": "G102",
        "value": f"a bolt that passes {distance * 1000:.1f} mm from the bar axis",
        "expected": "more than 30.0 mm, from the lever's centreline to the centre of the "
        "bolt's end",
        "remedy": "check the bolt's line, the lever's face and the bolt's end",
        "key": "line_distance",
        "file": "",
        "line": 0,
    }


def test_refuses_a_bolt_too_near_for_a_face_that_is_cut_away() -> None:
    with pytest.raises(GeometryError, match=r"more than 50\.1 mm"):
        attrs.evolve(BOLT, face_offset=-0.0601)


@pytest.mark.parametrize(
    ("start", "end"),
    [(0.05, 0.05), (0.06, 0.05), (-0.001, 0.05), (math.nan, 0.05), (0.0, math.nan)],
)
def test_refuses_a_face_without_length(start: float, end: float) -> None:
    with pytest.raises(GeometryError) as caught:
        attrs.evolve(BOLT, face_start=start, face_end=end)

    assert caught.value.fields == {
        "code": "G102",
        "value": f"a face from {start * 1000:.1f} mm to {end * 1000:.1f} mm",
        "expected": "an end beyond its start, both from the bar axis outward",
        "remedy": "check where the lever's face begins and ends",
        "key": "face_end",
        "file": "",
        "line": 0,
    }


def test_a_face_may_begin_at_the_bar_axis() -> None:
    assert attrs.evolve(BOLT, face_start=0.0).reach == BOLT.reach


@each_case(
    "away, question",
    itertools.product([-1.6, 1.6, math.pi, math.nan], ["setting", "slope", "contact_distance"]),
)
def test_refuses_a_lever_that_lies_along_its_bolt(away: float, question: str) -> None:
    with pytest.raises(GeometryError) as caught:
        getattr(BOLT, question)(np.array([0.2, 0.2 + away, 4.0]))

    assert caught.value.fields == {
        "code": "G102",
        "value": f"a lever {math.degrees(away):.1f}° from the perpendicular to its bolt",
        "expected": "less than 90°",
        "remedy": "check the lever's angle and that of the bolt's line",
        "key": "adjuster",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("question", ["effort", "side_thrust"])
def test_angle_of_a_force_is_keyword_only(question: str) -> None:
    with pytest.raises(TypeError):
        getattr(BOLT, question)(800.0, 0.2)


# -- A fixed anchor -----------------------------------------------------------------------


def test_a_fixed_anchor_has_one_angle_and_nothing_to_set() -> None:
    assert ANCHOR.reach == (0.0, 0.0)
    assert ANCHOR.lever_angle(0.0) == 0.25
    assert ANCHOR.lever_angle(7.0) == 0.25
    assert np.array_equal(ANCHOR.lever_angle(np.zeros((2, 3))), np.full((2, 3), 0.25))
    assert np.array_equal(ANCHOR.setting(np.full(3, 0.25)), np.zeros(3))
    assert ANCHOR.setting(0.25) == 0.0


def test_no_bolt_feels_the_torque_of_a_fixed_anchor() -> None:
    torques = np.array([[-500.0], [2000.0]])

    assert ANCHOR.slope(0.25) == math.inf
    assert np.array_equal(
        np.abs(ANCHOR.effort(torques, lever_angle=np.full(3, 0.25))), np.zeros((2, 3))
    )


def test_what_is_not_a_number_stays_so_at_a_fixed_anchor() -> None:
    assert np.isnan(ANCHOR.lever_angle(math.nan))
    assert np.isnan(ANCHOR.effort(math.nan, lever_angle=0.25))


@pytest.mark.parametrize(
    ("angle", "shown"), [(0.2501, "14.33°"), (0.24, "13.75°"), (math.nan, "nan°")]
)
@pytest.mark.parametrize("question", ["setting", "slope"])
def test_a_fixed_anchor_refuses_another_angle(angle: float, shown: str, question: str) -> None:
    with pytest.raises(GeometryError) as caught:
        getattr(ANCHOR, question)(np.array([0.25, angle, 3.0]))

    assert caught.value.fields == {
        "code": "G102",
        "value": f"a lever at {shown}",
        "expected": "14.32°, where the anchor is fixed",
        "remedy": "choose another clocking: there is nothing to adjust",
        "key": "adjuster",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("away", [-1e-9, 1e-9])
def test_a_fixed_anchor_takes_its_angle_with_its_rounding(away: float) -> None:
    assert ANCHOR.setting(0.25 + 0.99 * away) == 0.0
    with pytest.raises(GeometryError):
        ANCHOR.setting(0.25 + 1.01 * away)
    assert FixedAnchor(anchor_angle=0.0).setting(away) == 0.0

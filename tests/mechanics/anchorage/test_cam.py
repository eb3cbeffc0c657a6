"""Laws and refusals of `barwright.mechanics.anchorage.cam`."""

from __future__ import annotations

import math

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.anchorage.cam import EccentricCam

# A standoff of 30 mm from a pivot at 50 mm: sides of 3, 4 and 5 where the cam lies along
# the lever.
CAM = EccentricCam(
    pivot_distance=0.05,
    pivot_angle=0.4,
    eccentricity=0.01,
    cam_radius=0.02,
    face_offset=0.01,
    lever_side=-1,
    follows=1,
)
BUMPWARD = attrs.evolve(CAM, lever_side=1)
LEANING = math.asin(3.0 / 5.0)

CAMS = st.builds(
    EccentricCam,
    pivot_distance=st.floats(0.05, 0.09),
    pivot_angle=st.floats(-3.0, 3.0),
    eccentricity=st.floats(0.002, 0.012),
    cam_radius=st.floats(0.013, 0.020),
    face_offset=st.floats(0.0, 0.010),
    lever_side=st.sampled_from([-1, 1]),
    follows=st.sampled_from([-1, 1]),
)
SHARES = st.floats(0.02, 0.98)


def within(cam: EccentricCam, share: float) -> float:
    """Cam angle at a share of the reach."""
    low, high = cam.reach
    return low + share * (high - low)


@pytest.mark.parametrize(("cam", "angle"), [(CAM, 0.4 - LEANING), (BUMPWARD, 0.4 + LEANING)])
def test_a_cam_along_the_lever_stands_as_its_triangle_says(cam: EccentricCam, angle: float) -> None:
    # Along the lever and outward, so that the contact lies 40 mm + 10 mm out.
    assert cam.lever_angle(angle) == pytest.approx(angle, rel=1e-13)
    assert cam.setting(angle) == pytest.approx(angle, rel=1e-13)
    assert cam.contact_distance(angle) == pytest.approx(0.05, rel=1e-13)
    assert cam.slope(angle) == pytest.approx(5.0, rel=1e-13)
    assert cam.effort(1000.0, lever_angle=angle) == pytest.approx(200.0, rel=1e-13)
    assert cam.contact_force(-cam.lever_side * 1000.0, lever_angle=angle) == pytest.approx(
        20e3, rel=1e-13
    )
    assert cam.contact_force(cam.lever_side * 1000.0, lever_angle=angle) == pytest.approx(
        -20e3, rel=1e-13
    )
    assert cam.least_friction(angle) == pytest.approx(0.5, rel=1e-13)


@pytest.mark.parametrize(("cam", "angle"), [(CAM, 0.4 - LEANING), (BUMPWARD, 0.4 + LEANING)])
def test_a_cam_that_turns_against_the_lever_points_inward(cam: EccentricCam, angle: float) -> None:
    against = attrs.evolve(cam, follows=-1)

    assert against.setting(angle) == pytest.approx(angle + math.pi, rel=1e-13)
    assert against.lever_angle(angle + math.pi) == pytest.approx(angle, rel=1e-13)
    assert against.contact_distance(angle) == pytest.approx(0.03, rel=1e-13)
    assert against.slope(angle) == pytest.approx(-3.0, rel=1e-13)
    assert against.least_friction(angle) == pytest.approx(0.5, rel=1e-13)


@pytest.mark.parametrize(
    ("side", "follows", "expected"),
    [
        (-1, 1, (0.4 - math.asin(0.8) - math.pi / 2, 0.4 - math.asin(0.4) + math.pi / 2)),
        (-1, -1, (0.4 - math.asin(0.4) + math.pi / 2, 0.4 - math.asin(0.8) + 1.5 * math.pi)),
        (1, 1, (0.4 + math.asin(0.4) - math.pi / 2, 0.4 + math.asin(0.8) + math.pi / 2)),
        (1, -1, (0.4 + math.asin(0.8) + math.pi / 2, 0.4 + math.asin(0.4) + 1.5 * math.pi)),
    ],
)
def test_reach_runs_from_dead_centre_to_dead_centre(
    side: int, follows: int, expected: tuple[float, float]
) -> None:
    # There 30 mm ± 10 mm of 50 mm stand square to the lever.
    cam = attrs.evolve(CAM, lever_side=side, follows=follows)

    assert cam.reach == pytest.approx(expected, rel=1e-14)


@given(cam=CAMS)
def test_both_halves_make_up_one_turn(cam: EccentricCam) -> None:
    with_lever, against = (attrs.evolve(cam, follows=way).reach for way in (1, -1))

    assert with_lever[1] == against[0]
    assert against[1] - with_lever[0] == pytest.approx(2.0 * math.pi, rel=1e-14)


@given(cam=CAMS)
def test_the_lever_turns_one_way_all_over_the_reach(cam: EccentricCam) -> None:
    low, high = cam.reach
    turns = low + (high - low) * np.linspace(0.0, 1.0, 41)[1:-1]
    angles = cam.lever_angle(turns)

    assert np.all(cam.follows * np.diff(angles) > 0.0)
    assert np.all(np.sign(cam.slope(angles)) == cam.follows)
    # Just beyond either end it has turned back.
    beyond = cam.lever_angle(np.array([low - 0.02, low + 0.02, high - 0.02, high + 0.02]))
    ends = cam.lever_angle(np.array([low, low, high, high]))
    assert np.all(cam.follows * (beyond - ends) * np.array([1.0, 1.0, -1.0, -1.0]) > 0.0)


@given(cam=CAMS, share=SHARES)
def test_a_cam_angle_leads_to_a_lever_angle_and_back(cam: EccentricCam, share: float) -> None:
    turn = within(cam, share)

    assert cam.setting(cam.lever_angle(turn)) == pytest.approx(turn, abs=1e-9)


@given(cam=CAMS, share=SHARES, turn=st.floats(-3.0, 3.0))
def test_turning_the_cross_member_turns_lever_and_cam_with_it(
    cam: EccentricCam, share: float, turn: float
) -> None:
    turned = attrs.evolve(cam, pivot_angle=cam.pivot_angle + turn)
    at = within(cam, share)

    assert turned.lever_angle(at + turn) == pytest.approx(cam.lever_angle(at) + turn, abs=1e-12)
    assert turned.reach == pytest.approx([end + turn for end in cam.reach], abs=1e-12)


@given(cam=CAMS, share=SHARES)
def test_effort_is_greatest_between_the_dead_centres(cam: EccentricCam, share: float) -> None:
    angle = cam.lever_angle(within(cam, share))
    largest = cam.eccentricity / cam.contact_distance(angle)

    assert 0.0 < cam.follows * cam.effort(1.0, lever_angle=angle) <= largest * (1.0 + 1e-12)


def test_near_a_dead_centre_the_cam_holds_itself_with_little_friction() -> None:
    low, high = CAM.reach
    angles = CAM.lever_angle(np.array([low + 1e-3, (low + high) / 2.0, high - 1e-3]))
    needed = np.asarray(CAM.least_friction(angles))

    assert needed[0] < 1e-3
    assert needed[2] < 1e-3
    assert np.asarray(CAM.holds_itself(angles, friction=0.1)).tolist() == [True, False, True]
    assert np.asarray(CAM.holds_itself(angles, friction=needed)).all()
    assert not np.asarray(CAM.holds_itself(angles, friction=0.999 * needed)).any()
    assert not np.any(CAM.holds_itself(angles, friction=math.nan))


@pytest.mark.parametrize("cam", [CAM, BUMPWARD])
@pytest.mark.parametrize("square", [-0.6, 0.6])
def test_friction_works_on_the_distance_of_the_face_from_the_pivot(
    cam: EccentricCam, square: float
) -> None:
    # 8 mm along the lever, and 6 mm square to it, toward the face or away from it.
    angle = 0.4 + math.asin(cam.lever_side * 0.6 + 0.2 * square)
    distance = 0.02 + cam.lever_side * 0.01 * square

    assert cam.setting(angle) == pytest.approx(angle + math.asin(square), rel=1e-12)
    assert cam.least_friction(angle) == pytest.approx(0.008 / distance, rel=1e-12)


@pytest.mark.parametrize("eccentricity", [0.0, -0.001, 0.0201, 0.03, math.nan])
def test_refuses_a_cam_that_does_nothing_or_reaches_the_bar_axis(eccentricity: float) -> None:
    with pytest.raises(GeometryError) as caught:
        attrs.evolve(CAM, eccentricity=eccentricity)

    assert caught.value.fields == {
        "code": "G102",
        "value": f"an eccentricity of {eccentricity * 1000:.1f} mm",
        "expected": "more than 0 and less than 20.0 mm",
        "remedy": "check the cam's place, its circle and the lever's face",
        "key": "eccentricity",
        "file": "",
        "line": 0,
    }


# Figures that a float holds exactly.
EXACT = EccentricCam(
    pivot_distance=0.5,
    pivot_angle=0.4,
    eccentricity=0.125,
    cam_radius=0.0625,
    face_offset=0.0625,
    lever_side=-1,
    follows=1,
)


def test_refuses_a_cam_that_just_reaches_the_bar_axis() -> None:
    with pytest.raises(GeometryError) as caught:
        attrs.evolve(EXACT, eccentricity=0.375)

    assert caught.value.value == "an eccentricity of 375.0 mm"
    assert caught.value.expected == "more than 0 and less than 375.0 mm"


@pytest.mark.parametrize("side", [-1, 1])
def test_refuses_the_dead_centre_itself(side: int) -> None:
    # The lever's centreline through the pivot: all of the eccentricity stands square to it.
    with pytest.raises(GeometryError, match=r"got 'a lever at 22\.9°'"):
        attrs.evolve(EXACT, lever_side=side).setting(np.array([0.4 + side * 0.01, 0.4]))


def test_refuses_as_much_of_a_face_that_is_cut_away() -> None:
    with pytest.raises(GeometryError, match=r"less than 10\.0 mm"):
        attrs.evolve(CAM, face_offset=-0.06, eccentricity=0.0101)


@pytest.mark.parametrize("angle", [-0.6, -0.54, 0.0, 0.1, math.nan])
@pytest.mark.parametrize("follows", [-1, 1])
@pytest.mark.parametrize("question", ["setting", "slope", "contact_distance"])
def test_refuses_a_lever_angle_that_the_cam_does_not_give(
    question: str, angle: float, follows: int
) -> None:
    cam = attrs.evolve(CAM, follows=follows)
    with pytest.raises(GeometryError) as caught:
        getattr(cam, question)(np.array([-0.2, angle, 2.0]))

    assert caught.value.fields == {
        "code": "G102",
        "value": f"a lever at {math.degrees(angle):.1f}°",
        # 0.4 less the arc sines of 0.8 and of 0.4.
        "expected": "-30.2° to -0.7°",
        "remedy": "check the cam's place, its eccentricity and the lever's angle",
        "key": "adjuster",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("question", ["effort", "contact_force"])
def test_angle_of_a_force_is_keyword_only(question: str) -> None:
    with pytest.raises(TypeError):
        getattr(CAM, question)(800.0, -0.2)


def test_friction_is_keyword_only() -> None:
    with pytest.raises(TypeError):
        CAM.holds_itself(-0.2, 0.1)  # type: ignore[call-arg]

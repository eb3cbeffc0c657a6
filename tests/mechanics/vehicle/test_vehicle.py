"""What `barwright.mechanics.vehicle.vehicle` takes for a vehicle, and what it refuses."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from barwright.errors import QuantityError
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.roll import AntiRollBar
from barwright.mechanics.vehicle.vehicle import CORNERS, Vehicle, equations, tilt_levers
from each_case import each_case

FIGURES: dict[str, Any] = {
    "mass": 1300.0,
    "centre_of_gravity": (0.1, 0.02, 0.6),
    "wheels": ((1.2, 0.75), (1.2, -0.75), (-1.4, 0.7), (-1.4, -0.7)),
    "wheel_rates": (21_000.0, 22_000.0, 25_000.0, 26_000.0),
    "tyre_rates": 200_000.0,
}


def _vehicle(**other: Any) -> Vehicle:
    return Vehicle(**FIGURES | other)


def test_corners_have_an_order() -> None:
    assert CORNERS == ("front left", "front right", "rear left", "rear right")


def test_one_figure_stands_for_all_corners_and_both_axles() -> None:
    built = _vehicle(unsprung_masses=30, roll_centres=0.1, pitch_centre=1)

    assert built.tyre_rates.tolist() == [200_000.0] * 4
    assert built.unsprung_masses.tolist() == [30.0] * 4
    assert built.roll_centres.tolist() == [0.1, 0.1]
    assert built.pitch_centre.dtype == np.float64
    assert built.wheels.shape == (4, 2)


def test_what_is_left_out_is_not_there() -> None:
    built = _vehicle()

    for name in ("unsprung_masses", "arches", "tyre_radii"):
        assert getattr(built, name).tolist() == [0.0] * 4
    assert built.roll_centres.tolist() == [0.0, 0.0]
    assert float(built.pitch_centre) == 0.0
    assert built.front_bar.one_wheel_rate == 0.0
    assert built.rear_bar.one_wheel_rate == 0.0


def test_levers_reach_from_the_inclined_roll_axis_and_the_pitch_axis() -> None:
    # 1.5 m of 2.6 m ahead of the rear axle, the roll axis lies at 0.2 - 0.13·1.5/2.6.
    roll, pitch = tilt_levers(_vehicle(roll_centres=(0.07, 0.2), pitch_centre=0.15))

    assert roll == pytest.approx(0.6 - 0.125, rel=1e-14)
    assert pitch == pytest.approx(0.45, rel=1e-14)


CROOKED = ((1.3, 0.78), (1.1, -0.71), (-1.5, 0.69), (-1.3, -0.74))


def test_the_roll_axis_lies_between_the_middles_of_the_axles() -> None:
    wheels = np.array([FIGURES["wheels"], CROOKED])
    many = _vehicle(wheels=wheels, roll_centres=(0.07, 0.2))

    assert tilt_levers(many).shape == (2, 2)
    for levers, places in zip(tilt_levers(many), wheels, strict=True):
        front, rear = places[:2, 0].mean(), places[2:, 0].mean()
        axis = np.interp(0.1, [rear, front], [0.2, 0.07])
        assert levers == pytest.approx([0.6 - axis, 0.6], rel=1e-14)


def test_many_vehicles_have_the_equations_of_each() -> None:
    wheels = np.array([FIGURES["wheels"], CROOKED, FIGURES["wheels"]])
    many = equations(_vehicle(wheels=wheels))
    one = equations(_vehicle(wheels=CROOKED))

    assert many.rises.shape == (3, 4, 3)
    assert many.body[1] == pytest.approx(one.body, rel=1e-12, abs=1e-9)
    assert one.rises.tolist() == [[1.0, y, -x] for x, y in CROOKED]


def test_bars_tie_the_corners_of_their_own_axle() -> None:
    front, rear = AntiRollBar(one_wheel_rate=9.0), AntiRollBar(one_wheel_rate=4.0)
    found = equations(_vehicle(front_bar=front, rear_bar=rear))

    assert (found.hubs - found.springs).tolist() == [
        [9.0, -9.0, 0.0, 0.0],
        [-9.0, 9.0, 0.0, 0.0],
        [0.0, 0.0, 4.0, -4.0],
        [0.0, 0.0, -4.0, 4.0],
    ]
    assert np.diag(found.springs).tolist() == [21_000.0, 22_000.0, 25_000.0, 26_000.0]


def test_stiffness_of_the_pose_has_springs_tyres_and_weight() -> None:
    built = _vehicle(front_bar=AntiRollBar(one_wheel_rate=9000.0), roll_centres=0.1)
    found = equations(built)

    # By inverses of whole matrices, springs and tyres one behind the other.
    ride = np.linalg.inv(np.linalg.inv(found.hubs) + np.eye(4) / 200_000.0)
    assert found.ride == pytest.approx(ride, rel=1e-9, abs=1e-8)
    weight = 1300.0 * STANDARD_GRAVITY
    gravity = np.diag([0.0, weight * 0.5, weight * 0.6])
    body = found.rises.T @ ride @ found.rises - gravity
    assert found.body == pytest.approx(body, rel=1e-9, abs=1e-8)
    assert found.weight == pytest.approx([weight, weight * 0.02, -weight * 0.1], rel=1e-14)


SHAPES = [
    ("wheel_rates", (1.0, 2.0, 3.0), "(4,)"),
    ("tyre_rates", (1.0,), "(4,)"),
    ("unsprung_masses", (1.0,) * 5, "(4,)"),
    ("arches", np.ones((4, 3)), "(4,)"),
    ("tyre_radii", np.ones((4, 2)), "(4,)"),
    ("roll_centres", (0.1, 0.1, 0.1), "(2,)"),
    ("centre_of_gravity", (0.1, 0.6), "(3,)"),
    ("centre_of_gravity", 0.6, "(3,)"),
    ("wheels", np.ones((2, 4)), "(4, 2)"),
    ("wheels", np.ones(2), "(4, 2)"),
]


@each_case("name, given, shape", SHAPES)
def test_figures_that_are_not_those_of_the_corners_are_refused(
    name: str, given: Any, shape: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        _vehicle(**{name: given})

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"an array of shape {np.shape(given)}",
        "expected": f"an array whose shape ends in {shape}",
        "remedy": "give the corners front left, front right, rear left, rear right",
        "key": name,
        "file": "",
        "line": 0,
    }


FINITE = [
    ("mass", math.nan),
    ("mass", math.inf),
    ("wheel_rates", math.inf),
    ("unsprung_masses", (0.0, math.nan, 0.0, 0.0)),
    ("wheels", ((1.2, math.nan), (1.2, -0.75), (-1.4, 0.7), (-1.4, -0.7))),
    ("centre_of_gravity", (0.1, math.inf, 0.6)),
    ("roll_centres", (0.1, math.nan)),
    ("pitch_centre", math.nan),
    ("arches", math.nan),
    ("tyre_radii", math.inf),
]


@each_case("name, given", FINITE)
def test_figures_that_are_no_numbers_are_refused(name: str, given: Any) -> None:
    with pytest.raises(QuantityError) as caught:
        _vehicle(**{name: given})

    assert (caught.value.code, caught.value.key) == ("Q301", name)


SIGNS = [
    ("mass", 0.0, "0"),
    ("mass", np.array([1300.0, -2.0]), "-2"),
    ("wheel_rates", (1e4, 1e4, 0.0, 1e4), "0"),
    ("tyre_rates", (1e5, 1e5, 0.0, 1e5), "0"),
    ("tyre_rates", math.nan, "nan"),
    ("unsprung_masses", -1.0, "-1"),
]


@pytest.mark.parametrize(("name", "given", "value"), SIGNS)
def test_masses_and_rates_that_cannot_be_are_refused(name: str, given: Any, value: str) -> None:
    with pytest.raises(QuantityError) as caught:
        _vehicle(**{name: given})

    assert (caught.value.code, caught.value.key, caught.value.value) == ("Q302", name, value)


def test_rigid_tyres_and_hubs_without_mass_are_taken() -> None:
    assert np.all(_vehicle(tyre_rates=math.inf, unsprung_masses=0.0).tyre_rates == math.inf)


PLACES = [
    # Left and right changed over, at the front and at the rear.
    ((1.2, -0.75), (1.2, 0.75), (-1.4, 0.7), (-1.4, -0.7)),
    ((1.2, 0.75), (1.2, -0.75), (-1.4, -0.7), (-1.4, 0.7)),
    # Front and rear changed over, on the left and on the right.
    ((-1.2, 0.75), (1.2, -0.75), (1.4, 0.7), (-1.4, -0.7)),
    ((1.2, 0.75), (-1.2, -0.75), (-1.4, 0.7), (1.4, -0.7)),
    # Two wheels in one place along an axle or a side.
    ((1.2, 0.75), (1.2, 0.75), (-1.4, 0.7), (-1.4, -0.7)),
    ((1.2, 0.75), (1.2, -0.75), (1.2, 0.7), (-1.4, -0.7)),
    # In one line across the plan, about the middle and far from it.
    ((1.5, 3.75), (0.5, 3.25), (-0.5, 2.75), (-1.5, 2.25)),
    ((1.5, 1.5), (0.5, 0.5), (-0.5, -0.5), (-1.5, -1.5)),
]


@pytest.mark.parametrize("wheels", PLACES)
def test_wheels_out_of_place_are_refused(wheels: Any) -> None:
    with pytest.raises(QuantityError) as caught:
        _vehicle(wheels=wheels, centre_of_gravity=(0.0, 0.0, 0.1))

    assert caught.value.code == "Q302"
    assert caught.value.key == "wheels"
    assert caught.value.value.startswith("[[")
    assert caught.value.expected == "four wheels, not in one line, each at the place of its name"
    assert caught.value.remedy == "give x forward and y left, in the order of the corners"


def test_one_wrong_vehicle_among_many_is_refused() -> None:
    for wrong in (PLACES[0], PLACES[-1]):
        wheels = np.array([FIGURES["wheels"], wrong])
        with pytest.raises(QuantityError) as caught:
            _vehicle(wheels=wheels)
        assert caught.value.key == "wheels"


def test_a_narrow_vehicle_is_not_a_line() -> None:
    narrow = ((1.0, 1e-6), (1.0, -1e-6), (-1.0, 1e-6), (-1.0, -1e-6))

    small = 1e-6 * np.array(FIGURES["wheels"])

    for wheels in (narrow, small):
        assert _vehicle(wheels=wheels, centre_of_gravity=(0.0, 0.0, -0.1)).mass == 1300.0


def _limit(inertia: float) -> float:
    """Height at which weight takes all of a stiffness of springs of 20 N/mm on rigid tyres."""
    return 20_000.0 * inertia / (1300.0 * STANDARD_GRAVITY)


SQUARE = ((1.0, 0.5), (1.0, -0.5), (-1.0, 0.5), (-1.0, -0.5))


@pytest.mark.parametrize(
    ("axes", "inertia"),
    [({"pitch_centre": 9.0}, 4 * 0.5**2), ({"roll_centres": 9.0}, 4 * 1.0**2)],
    ids=["roll", "pitch"],
)
def test_a_body_that_topples_is_refused(axes: dict[str, float], inertia: float) -> None:
    square = {"wheels": SQUARE, "wheel_rates": 20_000.0, "tyre_rates": math.inf} | axes
    height = _limit(inertia)

    assert _vehicle(**square, centre_of_gravity=(0.0, 0.0, 0.999 * height)).mass == 1300.0
    with pytest.raises(QuantityError) as caught:
        _vehicle(**square, centre_of_gravity=(0.0, 0.0, 1.001 * height))
    assert float(caught.value.value) == pytest.approx(-0.001 * 20_000.0 * inertia, rel=1e-4)
    assert caught.value.fields | {"value": ""} == {
        "code": "Q302",
        "value": "",
        "expected": ("a stiffness of which mass times gravity times lever leaves more than 0"),
        "remedy": "check the rates, the wheels and the height of the centre of gravity",
        "key": "centre_of_gravity",
        "file": "",
        "line": 0,
    }


def test_a_body_that_just_stands_is_taken() -> None:
    square = {"wheels": SQUARE, "wheel_rates": 20_000.0, "tyre_rates": math.inf}
    below = _limit(4 * 0.5**2) * (1.0 - 0.5 / 20_000.0)

    built = _vehicle(**square, pitch_centre=9.0, centre_of_gravity=(0.0, 0.0, below))
    assert np.linalg.eigvalsh(equations(built).body)[0] == pytest.approx(0.5, rel=1e-6)


@pytest.mark.parametrize(
    "uneven",
    [
        {"wheel_rates": (40_000.0, 1.0, 40_000.0, 1.0), "pitch_centre": 0.3},
        {"wheel_rates": (40_000.0, 40_000.0, 1.0, 1.0), "roll_centres": 0.3},
    ],
    ids=["roll", "pitch"],
)
def test_heave_may_follow_a_tilt(uneven: dict[str, Any]) -> None:
    """Springs on one side or end alone hold less than their moments about the middle."""
    uneven = uneven | {"wheels": SQUARE, "tyre_rates": math.inf}
    with pytest.raises(QuantityError) as caught:
        _vehicle(**uneven, centre_of_gravity=(0.0, 0.0, 0.3))
    assert caught.value.key == "centre_of_gravity"


def test_one_body_that_topples_among_many_is_refused() -> None:
    heights = np.array([[0.0, 0.0, 0.5], [0.0, 0.0, 50.0]])
    with pytest.raises(QuantityError):
        _vehicle(centre_of_gravity=heights)

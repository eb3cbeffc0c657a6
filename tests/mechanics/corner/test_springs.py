"""Laws and refusals of `barwright.mechanics.corner.springs`."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.corner import springs
from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.linkage.arm_and_strut import SwingArm

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
GAS = GasForce(force=260.0, at_length=0.50, slope=-700.0)
BUSHING = Bushing(rate=150.0, tightened_at=-0.1)
COIL = HelperSpring(rate=15_000.0, free_length=0.40, seat_offset=0.15)
OWN = HelperSpring(
    rate=15_000.0, free_length=0.30, arm_point=(0.20, 0.02), chassis_point=(0.10, 0.25)
)
TABLE: dict[str, Any] = {
    "compressions": (0.0, 0.01, 0.02, 0.03),
    "forces": (0.0, 200.0, 600.0, 1400.0),
}
ON_ROD = BumpStop(at_length=0.52, **TABLE)
AT_HUB = BumpStop(at_height=0.01, **TABLE)
AT_ARM = BumpStop(at_angle=-0.05, radius=0.30, **TABLE)
SPRINGS = {
    "gas": GAS,
    "bushing": BUSHING,
    "coil over the damper": COIL,
    "coil of its own": OWN,
    "stop on the rod": ON_ROD,
    "stop at the hub": AT_HUB,
    "stop at the arm": AT_ARM,
}
EVERY = pytest.mark.parametrize("spring", SPRINGS.values(), ids=list(SPRINGS))


@EVERY
@given(angle=st.floats(0.15, 0.35))
def test_every_spring_carries_the_car_when_it_is_pressed(spring: Spring, angle: float) -> None:
    torque, stiffness = spring.hold(ARM.motion(angle))

    assert float(torque) > 0.0
    assert float(stiffness) > 0.0


@EVERY
@pytest.mark.parametrize("angle", [-0.21, 0.04, 0.23])
def test_stiffness_is_the_slope_of_the_torque(spring: Spring, angle: float) -> None:
    step = 1e-6
    low, high = (float(spring.hold(ARM.motion(angle + n * step))[0]) for n in (-1, 1))

    stiffness = float(spring.hold(ARM.motion(angle))[1])
    assert stiffness == pytest.approx((high - low) / (2.0 * step), rel=1e-6, abs=1e-4)


@pytest.mark.parametrize("spring", [GAS, COIL, ON_ROD])
@pytest.mark.parametrize("angle", [0.15, 0.25])
def test_what_is_over_the_damper_turns_the_arm_by_the_damper_s_lever(
    spring: GasForce | HelperSpring | BumpStop, angle: float
) -> None:
    motion = ARM.motion(angle)
    at = 0.52 - motion.damper_length if spring is ON_ROD else motion.damper_length

    assert float(spring.hold(motion)[0]) == pytest.approx(
        -float(spring.at(at)) * float(motion.damper_slope), rel=1e-13
    )


def test_coil_that_hardly_touches_has_its_rate() -> None:
    # Pressed by 10 µm: a force of 0.15 N.
    length = float(ARM.motion(0.1).damper_length)
    coil = HelperSpring(rate=15_000.0, free_length=length + 1e-5)
    motion = ARM.motion(0.1)

    assert float(coil.hold(motion)[1]) == pytest.approx(
        15_000.0 * float(motion.damper_slope) ** 2, rel=1e-2
    )


@EVERY
def test_every_spring_broadcasts(spring: Spring) -> None:
    angles = np.linspace(-0.3, 0.3, 13).reshape(13, 1) * np.ones(3)
    column = [np.broadcast_to(figure, angles.shape) for figure in spring.hold(ARM.motion(angles))]

    assert [figure.shape for figure in column] == [(13, 3), (13, 3)]
    for index, angle in np.ndenumerate(angles):
        alone = spring.hold(ARM.motion(float(angle)))
        assert [float(figure[index]) for figure in column] == pytest.approx(
            [float(figure) for figure in alone], rel=1e-13, abs=1e-13
        )


def test_figures_of_springs_broadcast_too() -> None:
    rates = np.array([100.0, 150.0])
    motion = ARM.motion(0.1)

    assert np.asarray(Bushing(rate=rates, tightened_at=0.0).hold(motion)[0]) == pytest.approx(
        0.1 * rates
    )
    gas = GasForce(force=np.array([100.0, 260.0]), at_length=0.5, slope=-700.0)
    assert np.asarray(gas.hold(motion)[0])[1] == GAS.hold(motion)[0]
    coil = HelperSpring(rate=np.array([1.0, 15_000.0]), free_length=0.40, seat_offset=0.15)
    assert np.asarray(coil.hold(motion)[0])[1] == COIL.hold(motion)[0]
    stop = BumpStop(at_length=np.array([0.1, 0.52]), **TABLE)
    assert np.asarray(stop.hold(motion)[0]).tolist() == [0.0, float(ON_ROD.hold(motion)[0])]


def test_base_of_all_springs_is_none_itself() -> None:
    assert all(isinstance(spring, Spring) for spring in SPRINGS.values())
    with pytest.raises(TypeError):
        Spring()  # type: ignore[abstract]


# -- Gas ----------------------------------------------------------------------------------


@given(length=st.floats(0.3, 0.7))
def test_gas_force_follows_its_line(length: float) -> None:
    assert GAS.at(GAS.at_length) == GAS.force
    assert GAS.at(length) - GAS.force == pytest.approx(-700.0 * (length - 0.5), abs=1e-10)


def test_gas_without_a_slope_pushes_alike_everywhere() -> None:
    even = GasForce(force=200.0, at_length=0.5)

    assert even.slope == 0.0
    assert even.at(0.3) == even.at(0.7) == 200.0


# -- Stop ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("compression", "force"),
    [
        (-0.01, 0.0),
        (0.0, 0.0),
        (0.005, 100.0),
        (0.01, 200.0),
        (0.018, 520.0),
        (0.03, 1400.0),
        (0.04, 2200.0),
        (0.13, 9400.0),
    ],
)
def test_stop_follows_its_table_and_the_last_slope_beyond(compression: float, force: float) -> None:
    assert float(ON_ROD.at(compression)) == pytest.approx(force, rel=1e-12)


def test_stop_of_one_rate_is_a_table_of_two_points() -> None:
    stop = BumpStop(compressions=[0, 0.01], forces=[0, 500], at_length=0.5)

    assert np.asarray(stop.at(np.array([-0.1, 0.002, 0.05]))) == pytest.approx([0.0, 100.0, 2500.0])


@pytest.mark.parametrize(
    ("depth", "rate"), [(-0.1, 0.0), (0.0, 0.0), (0.005, 2e4), (0.01, 4e4), (0.025, 8e4)]
)
def test_rate_of_a_stop_is_that_of_its_part(depth: float, rate: float) -> None:
    # At the arm the torque is the force times the radius, and the rate times its square.
    stop = BumpStop(at_angle=0.0, radius=0.25, **TABLE)
    torque, stiffness = stop.hold(ARM.motion(depth / 0.25))

    assert float(torque) == pytest.approx(0.25 * float(stop.at(depth)), abs=1e-9)
    assert float(stiffness) == pytest.approx(0.25**2 * rate, rel=1e-12)


@pytest.mark.parametrize("stop", [ON_ROD, AT_HUB, AT_ARM])
def test_stop_that_does_not_touch_holds_nothing(stop: BumpStop) -> None:
    assert [float(figure) for figure in stop.hold(ARM.motion(-0.3))] == [0.0, 0.0]


def test_places_of_contact_are_where_they_are_said_to_be() -> None:
    there = float(ARM.motion(0.1).damper_length), float(ARM.motion(0.1).hub.height), 0.1
    stops = [
        BumpStop(at_length=there[0], **TABLE),
        BumpStop(at_height=there[1], **TABLE),
        BumpStop(at_angle=there[2], radius=0.3, **TABLE),
    ]
    for stop in stops:
        before, after = (float(stop.hold(ARM.motion(angle))[0]) for angle in (0.0999, 0.1001))
        assert before == 0.0
        assert after > 0.0


# -- Rubber and coils ---------------------------------------------------------------------


def test_bushing_winds_up_from_where_it_was_tightened() -> None:
    for angle, torque in ((-0.1, 0.0), (0.1, 30.0), (-0.3, -30.0)):
        found = BUSHING.hold(ARM.motion(angle))
        assert float(found[0]) == pytest.approx(torque, abs=1e-12)
        assert found[1] == 150.0


def test_coil_presses_by_what_it_is_shorter() -> None:
    assert float(COIL.at(0.53)) == pytest.approx(300.0)
    assert float(HelperSpring(rate=15_000.0, free_length=0.40).at(0.39)) == pytest.approx(150.0)


def test_loose_coil_holds_nothing() -> None:
    for length in (0.55, 0.60):
        assert float(COIL.at(length)) == 0.0
    assert [float(figure) for figure in COIL.hold(ARM.motion(-0.3))] == [0.0, 0.0]


def test_coil_on_the_mounts_of_the_damper_is_one_over_it() -> None:
    same = HelperSpring(
        rate=15_000.0,
        free_length=0.40,
        seat_offset=0.15,
        arm_point=ARM.damper_foot,
        chassis_point=ARM.damper_mount,
    )
    for angle in (-0.1, 0.0, 0.2):
        assert same.hold(ARM.motion(angle)) == pytest.approx(COIL.hold(ARM.motion(angle)))


# -- Refusals -----------------------------------------------------------------------------

FINITE = "a finite number"


def _stop(**changed: Any) -> BumpStop:
    return BumpStop(**({"at_length": 0.5} | TABLE | changed))


def _coil(**changed: Any) -> HelperSpring:
    return HelperSpring(**({"rate": 15e3, "free_length": 0.4} | changed))


def _at_arm(**changed: Any) -> BumpStop:
    return _stop(**({"at_length": None, "at_angle": 0.1, "radius": 0.3} | changed))


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize(
    ("make", "key"),
    [
        *((lambda **figure: GasForce(**({"force": 1.0, "at_length": 1.0} | figure)), key)
          for key in ("force", "at_length", "slope")),
        *((lambda **figure: Bushing(**({"rate": 1.0, "tightened_at": 1.0} | figure)), key)
          for key in ("rate", "tightened_at")),
        *((_coil, key) for key in ("rate", "free_length", "seat_offset")),
        (_stop, "at_length"),
        (lambda **figure: _stop(at_length=None, **figure), "at_height"),
        (_at_arm, "at_angle"),
        (_at_arm, "radius"),
    ],
)  # fmt: skip
def test_figure_that_is_no_number_is_refused(make: Any, key: str, wrong: float) -> None:
    with pytest.raises(QuantityError) as caught:
        make(**{key: wrong})

    assert (caught.value.code, caught.value.key) == ("Q301", key)
    assert caught.value.expected == FINITE


@pytest.mark.parametrize(
    ("make", "key", "wrong", "expected"),
    [
        (lambda **f: GasForce(at_length=0.5, **f), "force", -1.0, "0 or more"),
        (lambda **f: GasForce(force=1.0, at_length=0.5, **f), "slope", 0.5, "0 or less"),
        (lambda **f: Bushing(tightened_at=0.0, **f), "rate", -1.0, "0 or more"),
        (_coil, "rate", 0.0, "more than 0"),
        (_coil, "rate", -1.0, "more than 0"),
        (_coil, "free_length", 0.0, "more than 0"),
        (_at_arm, "radius", 0.0, "more than 0"),
    ],
)
def test_figure_of_the_wrong_sign_is_refused(
    make: Any, key: str, wrong: float, expected: str
) -> None:
    for value in (wrong, np.array([-wrong, wrong]) if key == "slope" else np.array([1.0, wrong])):
        with pytest.raises(QuantityError) as caught:
            make(**{key: value})
        assert (caught.value.code, caught.value.key) == ("Q302", key)
        assert (caught.value.value, caught.value.expected) == (f"{wrong:g}", expected)
        assert key == "slope" or caught.value.remedy == "check its sign"


def test_gas_that_pushes_harder_when_it_is_long_is_told_why() -> None:
    with pytest.raises(QuantityError) as caught:
        GasForce(force=1.0, at_length=0.5, slope=0.5)

    assert caught.value.remedy == "check the sign: a shorter damper pushes harder"


def test_figures_at_their_limits_are_accepted() -> None:
    assert GasForce(force=0.0, at_length=0.0, slope=0.0).at(1.0) == 0.0
    assert Bushing(rate=0.0, tightened_at=0.0).hold(ARM.motion(0.2)) == (0.0, 0.0)


@pytest.mark.parametrize("key", ["compressions", "forces"])
@pytest.mark.parametrize(
    ("column", "shown"),
    [
        ((), "nothing"),
        ((0.0,), "0"),
        ((0.1, 0.2, 0.3, 0.4), "0.1, 0.2, 0.3, 0.4"),
        ((0.0, 0.2, 0.2, 0.4), "0, 0.2, 0.2, 0.4"),
        ((0.0, 0.3, 0.2, 0.4), "0, 0.3, 0.2, 0.4"),
        ((0.0, -0.1, 0.2, 0.4), "0, -0.1, 0.2, 0.4"),
    ],
)
def test_table_that_does_not_rise_from_contact_is_refused(
    key: str, column: tuple[float, ...], shown: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        _stop(**{key: column})

    assert (caught.value.code, caught.value.key, caught.value.value) == ("Q302", key, shown)
    assert caught.value.expected == "0 and then rising figures, at least two in all"
    assert caught.value.remedy == ("begin the table at contact and remove what repeats or falls")


@pytest.mark.parametrize("key", ["compressions", "forces"])
def test_table_with_a_gap_is_refused(key: str) -> None:
    with pytest.raises(QuantityError) as caught:
        _stop(**{key: (0.0, math.nan, 0.2, 0.3)})

    assert (caught.value.code, caught.value.key) == ("Q301", key)


def test_columns_of_a_table_are_as_long_as_each_other() -> None:
    with pytest.raises(QuantityError) as caught:
        _stop(forces=(0.0, 200.0, 600.0))

    assert caught.value.fields == {
        "code": "Q302",
        "value": "3 forces",
        "expected": "one for each of the 4 compressions",
        "remedy": "complete both columns of the table",
        "key": "forces",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize(
    ("places", "shown"),
    [
        ({}, "no place of contact"),
        ({"at_length": 0.5, "at_height": 0.1}, "at_length and at_height"),
        ({"at_length": 0.5, "at_angle": 0.1, "radius": 0.3}, "at_length and at_angle and radius"),
        ({"at_length": 0.5, "radius": 0.3}, "at_length and radius"),
        ({"at_height": 0.5, "radius": 0.3}, "at_height and radius"),
        ({"at_angle": 0.1}, "at_angle"),
        ({"radius": 0.3}, "radius"),
    ],
)
def test_stop_is_at_one_place(places: dict[str, float], shown: str) -> None:
    with pytest.raises(QuantityError) as caught:
        _stop(**({"at_length": None} | places))

    assert caught.value.fields == {
        "code": "Q302",
        "value": shown,
        "expected": "at_length, at_height, or at_angle and radius",
        "remedy": "state the contact in one way",
        "key": "at_length",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize(
    ("given", "key"),
    [({"arm_point": (0.2, 0.0)}, "arm_point"), ({"chassis_point": (0.1, 0.3)}, "chassis_point")],
)
def test_coil_with_one_end_in_the_air_is_refused(given: dict[str, Any], key: str) -> None:
    with pytest.raises(QuantityError) as caught:
        _coil(**given)

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{key} alone",
        "expected": "both points, or none for a spring over the damper",
        "remedy": "give arm_point and chassis_point",
        "key": key,
        "file": "",
        "line": 0,
    }


def test_figures_of_stops_and_coils_go_by_name_only() -> None:
    with pytest.raises(TypeError):
        BumpStop((0.0, 0.1), (0.0, 100.0), 0.5)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        HelperSpring(15_000.0, 0.4)  # type: ignore[call-arg]
    assert springs.__all__ == sorted(springs.__all__)

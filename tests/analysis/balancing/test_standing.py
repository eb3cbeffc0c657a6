"""A vehicle on its springs: its anti-roll bars, roll centres, and what is refused."""

from __future__ import annotations

import functools
from typing import Any

import attrs
import numpy as np
import pytest

import barwright as bw
from barwright.analysis.balancing.ride_and_roll import ride_and_roll, wanting_for_roll
from barwright.analysis.balancing.standing import StandingVehicle, anti_roll_bar_of
from barwright.analysis.balancing.weighed_vehicle import weighed_vehicle
from barwright.errors import NotConvergedError
from barwright.parts import AxleAntiRollBar, WeighedAxle, WholeVehicle
from outside.whole_vehicle import Engine
from sample_packs import discovered_once
from weighed_vans import fours, fronts, van, van_on_four, wheel

G = 9.80665


def standing(vehicle: WholeVehicle, setups: Any = None) -> StandingVehicle:
    return StandingVehicle(weighed_vehicle(setups or fronts(), vehicle))


KNOWN: dict[str, Any] = {"centre_of_gravity_height": "640 mm"}
CENTRE = {"roll_centre": "250 mm"}


# -- Anti-roll bars ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("given", "rate"),
    [
        ({"one_wheel_rate": "8 N/mm"}, 8000.0),
        ({"both_wheels_rate": "16 N/mm"}, 8000.0),
        ({"roll_rate": "15456.8 N*m/rad"}, 8000.0),
        # By hand: G π d⁴ / 32 / L = 1397.0 N·m/rad, over (0.25 m)², times (250/400)².
        (
            {
                "diameter": "20 mm",
                "length": "889.7 mm",
                "lever_length": "250 mm",
                "link_distance": "250 mm",
                "wheel_distance": "400 mm",
                "shear_modulus": "79.13 GPa",
            },
            8731.0,
        ),
    ],
)
def test_an_anti_roll_bar_is_the_same_however_it_is_given(given: Any, rate: float) -> None:
    found = anti_roll_bar_of(AxleAntiRollBar(**given), track=1.39)

    assert found.one_wheel_rate == pytest.approx(rate, rel=1e-3)


def test_an_anti_roll_bar_known_by_its_sizes_is_of_usual_steel() -> None:
    sizes = AxleAntiRollBar(diameter="20 mm", length="890 mm", lever_length="250 mm")
    weighed = weighed_vehicle(fronts(), van(rear={"anti_roll_bar": sizes}))
    filled = weighed.vehicle.rear.anti_roll_bar

    assert filled is not None
    # By hand, its link as far from the pivot as the wheel: G π d⁴ / 32 / L / (0.25 m)².
    rate = anti_roll_bar_of(filled, track=1.39).one_wheel_rate
    assert rate == pytest.approx(76.2e9 * np.pi * 0.02**4 / 32.0 / 0.89 / 0.0625, rel=1e-9)
    assert filled.shear_modulus == bw.Quantity("76.2 GPa")
    assert filled.about["shear_modulus"].tolerance == bw.Quantity("3.8 GPa")
    kept = attrs.evolve(sizes, shear_modulus="80 GPa")
    weighed = weighed_vehicle(fronts(), van(rear={"anti_roll_bar": kept}))
    assert weighed.vehicle.rear.anti_roll_bar == kept


def test_an_anti_roll_bar_wound_up_takes_load_over() -> None:
    """Free where both heights are alike: 9 N/mm over 18 mm carry 162 N."""
    tied = {"anti_roll_bar": AxleAntiRollBar(one_wheel_rate="9 N/mm")}
    free, wound = (standing(van(heights=(385.0, 403.0), front=front)).own for front in ({}, tied))

    assert wound - free == pytest.approx([-162.0, 162.0, 0.0, 0.0], abs=1e-6)


# -- Ride and roll -------------------------------------------------------------------------


def test_frequencies_of_a_symmetric_van_by_hand() -> None:
    found = ride_and_roll(standing(van((320.0, 320.0, 250.0, 250.0), (395.0, 395.0))))
    rate = 24e3 * 190e3 / (24e3 + 190e3)

    assert found.rear_frequency.m_as("Hz") == pytest.approx(
        np.sqrt(rate / (250.0 - 31.0)) / 2.0 / np.pi, rel=1e-9
    )
    assert found.rear_roll_rate.m_as("N*m/rad") == pytest.approx(rate * 1.39**2 / 2.0, rel=1e-9)
    assert (found.bounce_frequency, found.pitch_frequency, found.roll_frequency) == (None,) * 3
    assert (found.body_roll, found.first_lift) == (None, None)


def test_bodies_swing_as_their_radii_say() -> None:
    level = functools.partial(van, (320.0, 320.0, 250.0, 250.0), (395.0, 395.0))
    pitch = ride_and_roll(standing(level(pitch_radius="1150 mm")))
    roll = ride_and_roll(standing(level(roll_radius="600 mm")))
    both = ride_and_roll(standing(level(roll_radius="600 mm", pitch_radius="1150 mm")))

    for name, alone in (("bounce", pitch), ("pitch", pitch), ("roll", roll)):
        one, other = (getattr(found, f"{name}_frequency") for found in (alone, both))
        assert one.m_as("Hz") == pytest.approx(other.m_as("Hz"), rel=2e-3)
    assert pitch.roll_frequency is None
    assert roll.bounce_frequency is None


def test_a_bend_moves_the_moment_of_the_whole_vehicle() -> None:
    """Both transfers over their tracks hold what all masses do about the road, leaning too."""
    vehicle = standing(van((320.0, 320.0, 250.0, 250.0), (395.0, 395.0), rear=CENTRE, **KNOWN))
    found = ride_and_roll(vehicle)

    assert found.front_transfer is not None
    assert found.rear_transfer is not None
    assert found.body_roll is not None
    assert found.first_lift is not None
    held = (found.front_transfer + found.rear_transfer).m_as("kg") * 1.39
    front, rear = vehicle.roll_centres()
    share = vehicle.vehicle.centre_of_gravity[0] / 2.31
    lever = 0.64 - share * front - (1.0 - share) * rear
    sprung = float(vehicle.vehicle.mass)
    leaned = sprung * lever * np.sin(found.body_roll.m_as("rad"))
    unsprung = 2.0 * (34.5 + 31.0) * 0.283
    assert held == pytest.approx(0.5 * (sprung * 0.64 + unsprung) + leaned, rel=1e-3)
    lightest = min(320.0 / found.front_transfer.m_as("kg"), 250.0 / found.rear_transfer.m_as("kg"))
    assert found.first_lift == pytest.approx(0.5 * lightest, rel=1e-9)


def test_roll_asks_for_what_it_lacks() -> None:
    assert wanting_for_roll(standing(van())) == ["centre_of_gravity_height", "rear.roll_centre"]
    assert wanting_for_roll(standing(van(rear=CENTRE, **KNOWN))) == []


@pytest.mark.parametrize(
    ("vehicle", "place", "low", "high"),
    [
        ("hodmule:chassis/short", "front", -0.1, 0.3),
        ("trundlet:chassis/open", "rear", 0.0, 0.0),
        ("fells:chassis/short", "front", 0.05, 0.15),
    ],
)
def test_the_roll_centre_follows_from_the_suspension(
    vehicle: str, place: str, low: float, high: float
) -> None:
    registry = discovered_once()
    setups = [registry.setup(vehicle, corner=f"{place} {side}") for side in ("left", "right")]
    height = f"{setups[0].axle.standard_height.m_as('mm')} mm"
    scale = f"{(setups[0].axle.standard_mass + setups[0].axle.unsprung_mass).m_as('kg')} kg"
    read = {"left": wheel(scale, height), "right": wheel(scale, height)}
    other: Any = {"wheel_rate": "30 N/mm", "left": wheel("200 kg"), "right": wheel("200 kg")}
    ends = (read, other) if place == "front" else (other, read)
    front, rear = (WeighedAxle(track="1400 mm", **one) for one in ends)
    found = standing(WholeVehicle(front=front, rear=rear), setups).roll_centres()
    centre = found[0 if place == "front" else 1]

    assert centre is not None
    assert low <= centre <= high


def test_the_roll_centre_of_a_swing_axle_lies_on_the_line_to_its_bar() -> None:
    """From the contact over the bar axis to the middle plane: by similar triangles."""
    registry = discovered_once()
    setups = [
        registry.setup("trundlet:chassis/open", corner=f"rear {s}") for s in ("left", "right")
    ]
    axle = attrs.evolve(setups[0].axle, bar_axis=(1.0, 0.0, 0.0), arm_direction=(0.0, 1.0, 0.0))
    chassis = attrs.evolve(setups[0].chassis, axles=(axle,))
    swing = [attrs.evolve(one, chassis=chassis, axle=axle) for one in setups]
    height = f"{axle.standard_height.m_as('mm')} mm"
    rear = WeighedAxle(left=wheel("250 kg", height), right=wheel("250 kg", height))
    other: Any = {"wheel_rate": "30 N/mm", "left": wheel("200 kg"), "right": wheel("200 kg")}
    ours = standing(WholeVehicle(front=WeighedAxle(track="1400 mm", **other), rear=rear), swing)
    law = ours.laws[2]
    hub = law.corner.linkage.motion(law.at(law.height, turns=law.turns).angle).hub
    outboard, up = float(hub.outboard), float(hub.height) - axle.tyre_radius.m_as("m")
    centre = ours.roll_centres()[1]

    assert centre is not None
    # The contact is fixed in the arm, and so lies straight below the hub only nearly.
    assert centre == pytest.approx(-up / outboard * 0.7, rel=0.1)


def test_the_roll_centre_of_an_inclined_bar_is_not_known() -> None:
    axle = attrs.evolve(fronts()[0].axle, bar_axis=(0.99, 0.0, 0.1))
    chassis = attrs.evolve(fronts()[0].chassis, axles=(axle,))
    setups = [attrs.evolve(one, chassis=chassis, axle=axle) for one in fronts()]

    assert standing(van(), setups).roll_centres() == [None, None]


# -- Against a multibody engine ------------------------------------------------------------


def test_turns_move_the_engines_vehicle_as_the_answer_says() -> None:
    """The same vehicle of bodies, springs and tyres; the nuts move its springs' free heights."""
    ours = standing(van_on_four(), fours())
    vehicle, sprung = ours.vehicle, ours.loads / G - ours.unsprung
    middle = vehicle.centre_of_gravity
    engine = Engine(
        mass=float(np.sum(sprung)),
        centre_of_gravity=(float(middle[0]), float(middle[1]), 0.0),
        wheels=[(float(one[0]), float(one[1])) for one in vehicle.wheels],
        wheel_rates=[float(one) for one in ours.rates],
        tyre_rates=[float(one) for one in vehicle.tyre_rates],
        unsprung_masses=[float(one) for one in ours.unsprung],
        arches=[0.68] * 4,
        hubs=[0.283] * 4,
    )
    level = engine.at_rest(engine.free_heights)
    turned = np.array([-1.0, 1.0, 0.5, -0.5]) / 6.0
    free = [
        law.free_height_per_turn(law.height, turns=law.turns) * turn
        for law, turn in zip(ours.laws.values(), turned, strict=True)
    ]
    moved = engine.at_rest(engine.free_heights + np.array(free))
    stance = ours.rest(ours.turns + turned).stance

    change = moved.loads - level.loads
    assert stance.loads - ours.loads == pytest.approx(change, abs=0.02 * np.max(np.abs(change)))
    lifted = moved.heights - level.heights
    assert stance.heights - ours.heights == pytest.approx(lifted, abs=5e-5)


def test_a_vehicle_that_never_rests_is_a_fault_of_the_program(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("barwright.analysis.balancing.standing._SETTLED", -1.0)
    with pytest.raises(NotConvergedError):
        standing(van()).rest(np.zeros(2))


def test_no_place_of_the_nuts_keeps_a_vehicle_from_rest() -> None:
    """Not with slack bars, on stops, or with wheels that would lift either."""
    drawn = np.random.default_rng(3)
    for vehicle in (van(), van((324.0, 322.0, 60.0, 62.0)), van((150.0, 500.0, 400.0, 90.0))):
        ours = standing(vehicle)
        low, high = np.array([law.corner.turns_span for law in ours.laws.values()]).T
        for turns in drawn.uniform(low, high, size=(8, 2)):
            stance = ours.rest(turns).stance
            assert np.sum(stance.loads) == pytest.approx(np.sum(ours.loads), rel=1e-9)

"""Tables that are asked a question: what they may hold, and what is said of a wrong one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.columns import rows
from barwright.units import quantity_of_units
from draws import draws
from each_case import each_case
from sample_packs import discovered_once

VAN = discovered_once().setup("fells:chassis/short", corner="front left")
TRUCK = discovered_once().setup("hodmule:chassis/long", corner="front left")

MASSES = [240.0, 270.0, 291.0, 320.0]


def numbers(answer: bw.answers.Batch, name: str, unit: str) -> list[float]:
    column: Any = answer[name]
    return [float(number) for number in column.m_as(unit)]


@pytest.mark.parametrize(
    "table",
    [
        {"load.mass [kg]": MASSES},
        {"load.mass [kg]": tuple(MASSES)},
        {"load.mass[kg]": np.array(MASSES)},
        {"load.mass": quantity_of_units(MASSES, "kg")},
        {"load.mass [lb]": np.array(MASSES) / 0.45359237},
    ],
)
def test_figures_come_with_their_unit_in_one_way_or_the_other(table: dict[str, Any]) -> None:
    answer = bw.batch(VAN, table)

    heights = [
        bw.ride(attrs.evolve(VAN, load=attrs.evolve(VAN.load, mass=f"{mass} kg"))).height
        for mass in MASSES
    ]
    assert numbers(answer, "ride.height", "mm") == pytest.approx([h.m_as("mm") for h in heights])
    assert len(answer) == len(MASSES)
    assert repr(answer) == "<Batch: rates, 4 rows, 0 of them errors>"


@each_case(
    "table, code, says",
    [
        ({"bar.diametre [mm]": [23.0]}, "S201", "did you mean 'bar.diameter'"),
        ({"bar.diameter": [23.0]}, "Q105", "name the column like 'bar.diameter [mm]'"),
        ({"bar.diameter [kg]": [23.0]}, "Q202", "mm, cm, m, in or ft"),
        ({"bar.diameter": quantity_of_units([23.0], "kg")}, "Q202", "mm, cm, m, in or ft"),
        ({"bar.diameter [mm]": ["23"]}, "Q104", "a column of numbers"),
        ({"bar.diameter [mm]": [[23.0], [24.0]]}, "Q104", "a column of numbers"),
        ({"bar.diameter [mm]": [[23.0], [24.0, 25.0]]}, "Q104", "a column of numbers"),
        ({"bar.diameter [mm]": "23"}, "Q104", "a column of numbers"),
        ({"bar.diameter [mm]": [True]}, "Q104", "a column of numbers"),
        ({}, "S203", "as many rows as each other"),
        (
            {"bar.diameter [mm]": [23.0], "load.mass [kg]": MASSES},
            "S203",
            "1 row(s) of bar.diam",
        ),
        ({"load.mass [kg]": ["many"]}, "Q104", "load.mass: got 'texts'"),
        ({"load.mass [kg]": 291.0}, "Q104", "load.mass: got 'one number'"),
        ({"bar.diameter [mm]": [23.0], "bar.diameter [in]": [0.9]}, "S203", "each figure once"),
        ({"bar.diameter]": [23.0]}, "S201", "the name of a figure"),
    ],
)
def test_a_wrong_table_is_refused(table: dict[str, Any], code: str, says: str) -> None:
    with pytest.raises(bw.BarwrightError, match=re.escape(says)) as caught:
        bw.batch(VAN, table)

    assert caught.value.code == code


def test_a_height_is_asked_of_rates_alone() -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.batch(VAN, {"wanted.height [mm]": [400.0]}, asked="fit")

    assert (caught.value.code, caught.value.key) == ("S201", "wanted.height")


def test_wrong_rows_are_errors_and_all_others_are_answered() -> None:
    masses = np.full(3 * rows._CHUNK, 291.0)  # noqa: SLF001 - more than one chunk
    wrong = {17: (-1.0, "Q302"), 5000: (np.nan, "Q301"), 9000: (1e30, "Q302")}
    for row, (mass, _) in wrong.items():
        masses[row] = mass

    answer = bw.batch(VAN, {"load.mass [kg]": masses})

    assert {row: str(answer.error_codes[row]) for row in answer.error_texts} == {
        row: code for row, (_, code) in wrong.items()
    }
    height: Any = answer["ride.height"]
    right = np.isfinite(height.m_as("mm"))
    assert set(np.flatnonzero(~right)) == set(wrong)
    assert np.unique(height.m_as("mm")[right]).size == 1
    assert {str(verdict) for verdict in answer.verdicts[right]} == {"rated"}


def test_none_is_a_figure_that_is_missing() -> None:
    answer = bw.batch(VAN, {"load.mass [kg]": [291.0, None]})

    assert answer.error_codes.tolist() == ["", "Q301"]


@settings(max_examples=draws(40))
@given(
    setup=st.sampled_from([VAN, TRUCK]),
    heights=st.lists(st.integers(150, 700), min_size=3, max_size=12),
)
def test_rates_at_wanted_heights_are_those_of_each_alone(
    setup: bw.Setup, heights: Sequence[int]
) -> None:
    answer = bw.batch(setup, {"wanted.height [mm]": list(map(float, heights))})

    for row, height in enumerate(heights):
        alone = bw.rates(setup, wanted=bw.Wanted(height=f"{height} mm"))
        assert answer.verdicts[row] == alone.verdict.value
        rate = numbers(answer, "ride.wheel_rate", "N/mm")[row]
        if alone.figures is None:
            assert np.isnan(rate)
        else:
            assert rate == pytest.approx(alone.figures.ride.wheel_rate.m_as("N/mm"), rel=1e-9)


def test_a_load_that_no_steel_bears_is_told_as_of_its_corner_alone() -> None:
    table = {"wanted.height [mm]": [400.0] * 4, "load.mass [kg]": [291.0, 291.0, 20000.0, 291.0]}

    answer = bw.batch(VAN, table)

    heavy = attrs.evolve(VAN, load=attrs.evolve(VAN.load, mass="20000 kg"))
    with pytest.raises(bw.QuantityError) as caught:
        bw.rates(heavy, wanted=bw.Wanted(height="400 mm"))
    assert answer.error_texts == {2: str(caught.value)}


def test_a_corner_that_was_measured_is_answered_row_by_row() -> None:
    measured = VAN.with_reading(height="385 mm", tolerance="2 mm")

    answer = bw.batch(measured, {"load.mass [kg]": MASSES}, asked="height")

    alone = [
        bw.ride(attrs.evolve(measured, load=attrs.evolve(VAN.load, mass=f"{mass} kg"))).height
        for mass in MASSES
    ]
    assert numbers(answer, "height", "mm") == pytest.approx([h.m_as("mm") for h in alone])


def test_a_nut_off_its_thread_is_told_as_of_its_corner_alone() -> None:
    answer = bw.batch(VAN, {"nut_turns [turn]": [0.0, 1.0, 100.0, 2.0, 3.0]})

    off = attrs.evolve(VAN, nut_turns="100 turn")
    with pytest.raises(bw.QuantityError) as caught:
        bw.rates(off)
    assert answer.error_texts == {2: str(caught.value)}


def test_a_height_out_of_travel_has_no_rate() -> None:
    answer = bw.batch(VAN, {"wanted.height [mm]": [400.0, 900.0]})

    assert answer.verdicts.tolist() == ["rated", "cannot be reached"]
    assert np.isnan(numbers(answer, "ride.wheel_rate", "N/mm")).tolist() == [False, True]


def test_several_questions_are_answered_from_the_same_corners() -> None:
    table = {"load.mass [kg]": [240.0, 291.0, -1.0], "wanted.height [mm]": [390.0, 400.0, 400.0]}

    fit, rates, ride = bw.batch(VAN, table, asked=("fit", "rates", "ride"))

    assert [answer.asked for answer in (fit, rates, ride)] == ["fit", "rates", "ride"]
    assert fit.verdicts.tolist() == ["fits", "fits", ""]
    alone = bw.batch(VAN, table, asked="rates")
    assert numbers(rates, "ride.torque", "N*m")[:2] == numbers(alone, "ride.torque", "N*m")[:2]
    assert rates.error_texts == ride.error_texts == fit.error_texts
    assert bw.batch(VAN, {"load.mass [kg]": MASSES}, asked=()) == ()


def test_a_wrong_height_is_an_error_only_where_heights_are_asked_for() -> None:
    table = {"wanted.height [mm]": [400.0, -1.0, 390.0, 380.0]}

    fit, rates = bw.batch(VAN, table, asked=("fit", "rates"))

    assert fit.verdicts.tolist() == ["fits"] * 4
    assert rates.error_codes.tolist() == ["", "Q302", "", ""]


def test_a_question_that_is_none_is_refused() -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.batch(VAN, {"load.mass [kg]": MASSES}, asked="weight")  # type: ignore[call-overload]

    assert caught.value.code == "S204"


def test_the_ride_follows_load_and_height_over_the_travel() -> None:
    answer = bw.batch(VAN, {"load.mass [kg]": MASSES}, asked="ride")

    for row, mass in enumerate(MASSES):
        alone = bw.rates(attrs.evolve(VAN, load=attrs.evolve(VAN.load, mass=f"{mass} kg")))
        for name in ("height", "wheel_load", "wheel_rate"):
            own: Any = getattr(alone.curve, name)
            column: Any = answer[f"curve.{name}"]
            assert column.m_as(own.units)[row] == pytest.approx(own.magnitude, rel=1e-9)
        ratios: Any = answer["curve.motion_ratio"]
        assert ratios[row] == pytest.approx(alone.curve.motion_ratio, rel=1e-9)
        assert numbers(answer, "ride_frequency", "Hz")[row] == pytest.approx(
            alone.ride_frequency.m_as("Hz"), rel=1e-9
        )


def test_a_height_out_of_travel_has_no_curve() -> None:
    answer = bw.batch(VAN, {"wanted.height [mm]": [900.0]}, asked="ride")

    assert answer.verdicts.tolist() == ["cannot be reached"]
    curve: Any = answer["curve.height"]
    assert np.isnan(curve.m_as("mm")).all()
    assert curve.shape == (1, 41)


def test_what_holds_of_strength_is_refused_where_that_is_not_asked_for() -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.batch(VAN, {"load.mass [kg]": MASSES}, asked="rates", travel="40 mm")

    assert (caught.value.code, caught.value.key) == ("S201", "travel")


def test_strength_is_asked_with_limits_travel_and_history() -> None:
    line = bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5.0)
    limits = bw.StrengthLimits(permissible_shear="700 MPa", shear_ratio=0.7, woehler_line=line)
    history = ["0 mm", "30 mm", "-20 mm", "10 mm"]
    table = {"load.mass [kg]": MASSES}

    fit, strength = bw.batch(
        VAN, table, asked=("fit", "strength"), limits=limits, travel="40 mm", history=history
    )

    for row, mass in enumerate(MASSES):
        loaded = attrs.evolve(VAN, load=attrs.evolve(VAN.load, mass=f"{mass} kg"))
        alone = bw.strength(loaded, limits=limits, travel="40 mm", history=history)
        assert strength.verdicts[row] == alone.verdict.value
        assert strength["bump.factor"][row] == pytest.approx(alone.bump.factor, rel=1e-9)
        assert numbers(strength, "swing.mean", "MPa")[row] == pytest.approx(
            alone.swing.mean.m_as("MPa"), rel=1e-9
        )
    assert fit.verdicts.tolist() == ["fits"] * len(MASSES)


def test_an_endurance_limit_above_the_ultimate_stress_is_an_error_as_of_its_corner_alone() -> None:
    limits = bw.StrengthLimits(endurance="700 MPa", shear_ratio=0.7)
    table = {"bar.material.tensile_strength [MPa]": [900.0, 1500.0, 1600.0, 1700.0]}
    steel = attrs.evolve(VAN.bar.material, tensile_strength="1500 MPa")
    van = VAN.with_parts(bar=attrs.evolve(VAN.bar, material=steel))

    answer = bw.batch(van, table, asked="strength", limits=limits, travel="40 mm")

    assert answer.error_codes.tolist() == ["Q302", "", "", ""]


def test_a_bar_of_which_nothing_is_known_is_not_judged() -> None:
    unknown = attrs.evolve(VAN.bar.material, proof_strength=None, permissible_shear=None)
    van = VAN.with_parts(bar=attrs.evolve(VAN.bar, material=unknown, preset=False))

    answer = bw.batch(van, {"load.mass [kg]": MASSES}, asked="strength")

    assert answer.verdicts.tolist() == ["strength not known"] * len(MASSES)


def test_a_damper_that_lengthens_is_told_as_of_its_corner_alone() -> None:
    low = 60.0
    answer = bw.batch(VAN, {"axle.suspension.top_up [mm]": [611.0, 600.0, low, 590.0, 605.0]})

    strut: Any = VAN.axle.suspension
    lowered = attrs.evolve(strut, top_up=f"{low} mm")
    with pytest.raises(bw.GeometryError) as caught:
        bw.rates(attrs.evolve(VAN, axle=attrs.evolve(VAN.axle, suspension=lowered)))
    assert (caught.value.code, answer.error_texts) == ("G108", {2: str(caught.value)})


def test_figures_that_corners_do_not_rest_on_leave_them_all_alike() -> None:
    answer = bw.batch(VAN, {"axle.tyre_rate [N/mm]": [150.0, 180.0, 200.0, 220.0]})

    assert len(set(numbers(answer, "ride.height", "mm"))) == 1
    assert len(set(numbers(answer, "ride_frequency", "Hz"))) == 4


def test_stops_between_which_a_damper_lengthens_are_told_as_of_their_corner_alone() -> None:
    heights = {"axle.measured_height [mm]": [404.0, 404.0, 404.0, 404.0]}
    stops = {"axle.bump_stop [deg]": [16.0, 17.0, 85.0, 18.0]}

    answer = bw.batch(VAN, heights | stops, asked="height")

    wrong = attrs.evolve(VAN, axle=attrs.evolve(VAN.axle, bump_stop="85 deg"))
    with pytest.raises(bw.BarwrightError) as caught:
        bw.ride(wrong)
    assert answer.error_texts == {2: str(caught.value)}


def test_rows_of_one_table_end_in_every_way() -> None:
    masses = [291.0, 20000.0, -1.0, 250.0, np.nan, 300.0]
    heights = [400.0, 400.0, 400.0, 900.0, 400.0, 380.0]
    answer = bw.batch(VAN, {"load.mass [kg]": masses, "wanted.height [mm]": heights})

    assert answer.verdicts.tolist() == ["rated", "", "", "cannot be reached", "", "rated"]
    assert answer.verdicts.dtype == np.dtype(f"<U{len('cannot be reached')}")
    assert np.flatnonzero(answer.error_codes != "").tolist() == [1, 2, 4]


def test_a_table_without_rows_has_no_answers() -> None:
    answer = bw.batch(VAN, {"load.mass [kg]": []})
    assert (len(answer), answer.verdicts.size, answer["ride.height"].size) == (0, 0, 0)


def asked_singly(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Rows that are from now on asked about by themselves."""
    asked: list[int] = []
    own = rows.Rows.single

    def single(self: rows.Rows, row: int) -> None:
        asked.append(row)
        own(self, row)

    monkeypatch.setattr(rows.Rows, "single", single)
    return asked


def test_nuts_off_their_threads_cost_the_other_rows_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked = asked_singly(monkeypatch)

    answer = bw.batch(VAN, {"nut_turns [turn]": [0.0, 1.0, 99.0, 2.0, 3.0, -99.0]}, asked="height")

    assert answer.error_codes.tolist() == ["", "", "Q302", "", "", "Q302"]
    assert asked == [2, 5]


def test_rows_whose_geometry_fails_are_found_before_the_others_are_asked_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked = asked_singly(monkeypatch)
    stops = np.full(40, 16.0)
    stops[[7, 30]] = 85.0

    answer = bw.batch(VAN, {"axle.bump_stop [deg]": stops}, asked="reindex")

    assert asked == [7, 30]
    assert set(answer.error_texts) == {7, 30}


def test_figures_of_a_row_are_put_in_together() -> None:
    table = {
        "bar.arm_end.major_diameter [mm]": [24.0, 28.0],
        "bar.arm_end.root_diameter [mm]": [23.0, 26.0],
    }

    assert not bw.batch(VAN, table, asked="fit").error_texts

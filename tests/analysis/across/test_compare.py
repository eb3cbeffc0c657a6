"""Two setups side by side."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from sample_packs import discovered_once
from sample_records import make_bar, make_setup


def rows_of(setup: bw.Setup, other: bw.Setup) -> dict[str, bw.answers.ComparisonRow]:
    return {row.figure: row for row in bw.compare(setup, other).rows}


def test_a_setup_differs_from_itself_in_nothing() -> None:
    for row in rows_of(make_setup(), make_setup()).values():
        assert row.one == row.other
        assert row.change is not None
        assert float(getattr(row.change, "magnitude", row.change)) == 0.0
        assert row.percent in (0.0, None)


def test_every_figure_has_its_change() -> None:
    rows = rows_of(make_setup(), make_setup(bar=make_bar(diameter="25.1 mm")))
    rate = rows["bar_rate"]
    assert isinstance(rate.one, bw.Quantity)
    assert isinstance(rate.other, bw.Quantity)
    assert rate.change == rate.other - rate.one
    assert rate.percent == pytest.approx(100.0 * float((rate.other / rate.one).m_as("") - 1.0))
    assert {"fit.active_length", "ride.wheel_rate", "bump.shear_stress", "bolt.at_ride"} <= set(
        rows
    )


def test_the_headline_says_how_the_rates_change() -> None:
    steel = make_bar().material
    stiffer = attrs.evolve(steel, shear_modulus=1.1 * steel.shear_modulus)
    answer = bw.compare(make_setup(), make_setup(bar=make_bar(material=stiffer)))
    at_wheel = {row.figure: row.percent for row in answer.rows}["ride.wheel_rate"]
    assert at_wheel is not None
    assert answer.headline == (
        f"The second job compared with the first: rate at the wheel {at_wheel:+.1f} %, "
        "rate of the bar +10.0 %."
    )
    off = bw.compare(make_setup(), make_setup(bar=make_bar(length="1200 mm")))
    assert off.headline == "No rate to compare."


def test_what_is_compared_is_told_by_vehicle_corner_and_bar() -> None:
    answer = bw.compare(make_setup(), make_setup(bar=make_bar(title="Firmer bar")))
    assert answer.one == "Chassis, front left, Bar"
    assert answer.other == "Chassis, front left, Firmer bar"


def test_a_figure_below_zero_that_rises_has_a_change_above_zero() -> None:
    # The bar lies 1 mm inside the arm's socket, and then 3 mm out of it.
    inside, outside = (make_setup(axle={"arm_stop": stop}) for stop in ("-3 mm", "-1 mm"))
    row = rows_of(inside, outside)["fit.position"]
    assert isinstance(row.one, bw.Quantity)
    assert row.one.m_as("mm") == pytest.approx(-3.0)
    assert row.percent == pytest.approx(100.0 * 2.0 / 3.0)


def test_a_comparison_rests_on_what_either_setup_rests_on() -> None:
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    truck = discovered_once().setup("hodmule:chassis/short", corner="front left")

    assert bw.compare(van, van).rests_on == bw.rests_on(van)
    answer = bw.compare(van, truck)
    assert set(answer.rests_on) == {*bw.rests_on(van), *bw.rests_on(truck)}
    assert len(answer.rests_on) == len(set(answer.rests_on))


def test_what_one_of_them_has_not_is_left_open() -> None:
    rows = rows_of(make_setup(), make_setup(bar=make_bar(length="1200 mm")))
    assert rows["bar_rate"].other is None
    assert rows["bar_rate"].change is None
    assert rows["fit.active_length"].percent is None


def test_each_is_rated_at_its_own_wish() -> None:
    answer = bw.compare(
        make_setup(),
        make_setup(),
        wanted=bw.Wanted(height="404 mm"),
        other_wanted=bw.Wanted(height="380 mm"),
    )
    (height,) = [row for row in answer.rows if row.figure == "ride.height"]
    assert isinstance(height.change, bw.Quantity)
    assert height.change.m_as("mm") == pytest.approx(-24.0)

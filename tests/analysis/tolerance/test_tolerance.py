"""An answer is as unsure as the figures that it is computed from."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest

import barwright as bw
from sample_packs import discovered_once
from sample_records import known, make_bar, make_setup

SETUP = make_setup()
WISH = bw.Wanted(height="380 mm")
DIAMETER, MODULUS = "bar.diameter", "bar.material.shear_modulus"


def demo() -> bw.Setup:
    """A corner of the demo pack, whose figures have tolerances."""
    return discovered_once().setup("fells:chassis/short", corner="front left")


def bar_rate(setup: bw.Setup) -> bw.Quantity:
    """A question with a single figure for its answer."""
    figures = bw.rates(setup).figures
    assert figures is not None
    return figures.bar_rate


def diameter(setup: bw.Setup) -> bw.Quantity:
    """A question that is its own answer."""
    return setup.bar.diameter


def asked(question: Any = bw.rates, setup: bw.Setup = SETUP, **change: Any) -> bw.answers.Tolerance:
    return bw.tolerance(question, setup, **change)


def rows(answer: bw.answers.Tolerance) -> dict[str, bw.answers.ToleranceRow]:
    return {row.figure: row for row in answer.rows}


def number(quantity: bw.Quantity | None) -> float:
    assert quantity is not None
    return float(quantity.magnitude)


def with_tube(**change: Any) -> bw.answers.RateFigures:
    """Rates with another tube."""
    assert isinstance(SETUP.anchor, bw.parts.Tube)
    figures = bw.rates(SETUP.with_parts(anchor=attrs.evolve(SETUP.anchor, **change))).figures
    assert figures is not None
    return figures


def rate_with(**change: Any) -> float:
    return number(bar_rate(SETUP.with_parts(bar=make_bar(**change))))


# -- First order ---------------------------------------------------------------


def test_an_answer_is_as_unsure_as_moving_the_figure_itself_makes_it() -> None:
    (row,) = asked(bar_rate, half_widths={DIAMETER: "0.1 mm"}).rows
    change = (rate_with(diameter="23.4 mm") - rate_with(diameter="23.2 mm")) / 2.0

    assert row.figure == "answer"
    assert row.nominal == bar_rate(SETUP)
    # A rectangle: its half width over root three, twice.
    assert number(row.uncertainty) == pytest.approx(2.0 * change / math.sqrt(3.0), rel=1e-12)
    assert (row.low, row.high) == (None, None)
    (share,) = row.shares
    assert share.figure == DIAMETER
    assert number(share.change) == pytest.approx(change, rel=1e-12)
    assert share.percent == pytest.approx(100.0)


def test_figures_add_in_squares_and_share_the_variance() -> None:
    ways = {DIAMETER: "0.1 mm", "bar.length": "2 mm"}
    (row,) = asked(bar_rate, half_widths=ways).rows
    alone = [
        number(asked(bar_rate, half_widths={name: way}).rows[0].uncertainty)
        for name, way in ways.items()
    ]

    assert number(row.uncertainty) == pytest.approx(math.hypot(*alone), rel=1e-12)
    assert [share.figure for share in row.shares] == [DIAMETER, "bar.length"]
    percents = [100.0 * u**2 / sum(x**2 for x in alone) for u in alone]
    assert [share.percent for share in row.shares] == pytest.approx(percents)
    assert number(row.shares[1].change) < 0.0 < number(row.shares[0].change)


def test_the_largest_share_stands_first() -> None:
    for row in asked(setup=demo()).rows:
        percents = [share.percent for share in row.shares]
        assert percents == sorted(percents, reverse=True)
        assert not percents or sum(percents) == pytest.approx(100.0)
        assert all(share.change.magnitude != 0.0 for share in row.shares)


def test_bar_and_tube_of_one_steel_err_together() -> None:
    together = rows(asked(half_widths={MODULUS: "3.85 GPa"}))["system_rate"]

    # Both rates go with it, and so does that of both in series: by 5 %.
    assert number(together.shares[0].change) == pytest.approx(0.05 * number(together.nominal))


def test_the_coverage_factor_scales_what_stands_behind_the_sign() -> None:
    half_widths = {DIAMETER: "0.1 mm"}
    two = asked(bar_rate, half_widths=half_widths)
    three = asked(bar_rate, half_widths=half_widths, coverage_factor=3)

    assert (two.coverage_factor, three.coverage_factor) == (2.0, 3.0)
    assert type(three.coverage_factor) is float
    assert number(three.rows[0].uncertainty) == pytest.approx(1.5 * number(two.rows[0].uncertainty))


def test_what_was_varied_is_listed() -> None:
    answer = asked(half_widths={DIAMETER: "0.1 mm"}, setup=demo())
    inputs = {one.figure: one for one in answer.inputs}

    assert str(inputs[DIAMETER].value) == "23.1 millimeter"
    assert str(inputs[DIAMETER].half_width) == "0.1 millimeter"
    assert str(inputs[MODULUS].half_width) == "3.9 gigapascal"
    assert answer.draws == 0


def test_every_figure_of_the_answer_is_there_by_its_path() -> None:
    found = rows(asked(setup=demo()))

    assert {
        *("bar_rate", "system_rate", "ride.wheel_rate", "bump.shear_stress", "ride_frequency"),
        *("heads.arm end.root_shear", "bolt.at_ride", "fit.active_length"),
        *("fit.ends.anchor end.engagement", "droop.height"),
    } <= set(found)
    assert not [name for name in found if name.startswith(("curve", "figures", "findings"))]
    figures = bw.rates(demo()).figures
    assert figures is not None
    assert found["ride.wheel_rate"].nominal == figures.ride.wheel_rate


def test_what_no_tolerance_moves_is_sure() -> None:
    found = rows(asked(setup=demo()))

    for name in ("fit.engaged_span", "ride.wheel_load", "shear_modulus_tolerance"):
        assert number(found[name].uncertainty) == 0.0
        assert found[name].shares == ()


def test_without_tolerances_all_is_sure() -> None:
    for draws in (0, 100):
        answer = asked(draws=draws)
        assert (answer.inputs, answer.gaps) == ((), ())
        assert {number(row.uncertainty) for row in answer.rows} == {0.0}


def test_an_outcome_is_told_and_not_varied() -> None:
    assert asked().outcome.is_good
    assert asked(bw.ride).verdict is bw.Verdict.AT_REST
    assert asked(bw.length_fit).verdict is bw.Verdict.FITS
    assert asked(lambda setup: bw.ride(setup).state).verdict is bw.Verdict.LISTED
    far = asked(lambda setup: bw.rates(setup, wanted=bw.Wanted(height="900 mm")))
    assert far.verdict is bw.Verdict.OUT_OF_REACH
    assert all(row.figure.startswith("fit.") for row in far.rows)


def test_any_question_can_be_asked() -> None:
    def height_after(setup: bw.Setup) -> bw.answers.Ride:
        return bw.ride(bw.carry_out(setup, bw.reindex(demo(), wanted=WISH).plans[0]))

    height = rows(asked(height_after, demo()))["state.height"]

    assert number(height.nominal) == pytest.approx(380.0, abs=1.0)
    assert {share.figure for share in height.shares[:3]} >= {MODULUS, "axle.measured_height"}


def test_an_answer_without_figures_has_no_rows() -> None:
    answer = asked(lambda setup: setup.corner, demo(), draws=100)

    assert (answer.rows, answer.gaps) == ((), ())


def test_a_figure_in_another_unit_elsewhere_is_the_same_figure() -> None:
    def moody(setup: bw.Setup) -> bw.Quantity:
        return setup.bar.diameter.to("inch" if number(setup.bar.diameter) > 23.3 else "mm")

    (row,) = asked(moody, half_widths={DIAMETER: "0.1 mm"}).rows

    assert number(row.shares[0].change) == pytest.approx(0.1)


def test_a_question_about_a_setup_that_cannot_be_asked_is_an_error() -> None:
    with pytest.raises(bw.QuantityError, match="Q302: nut_turns"):
        asked(bw.ride, make_setup(nut_turns="90 turn"))


# -- Gaps ------------------------------------------------------------------------


def test_an_end_at_which_a_setup_cannot_be_is_told_and_the_other_end_counts() -> None:
    answer = asked(half_widths={"anchor.bore": "12 mm"})
    row = rows(answer)["tube_rate"]
    (gap,) = answer.gaps

    assert (gap.figure, gap.draws, gap.missing) == ("anchor.bore", 0, ())
    assert str(gap.value) == "92.0 millimeter"
    assert gap.text.startswith("G104: bore: got '92 mm'")
    change = number(row.nominal) - number(with_tube(bore="68 mm").tube_rate)
    assert number(row.shares[0].change) == pytest.approx(change, rel=1e-12)


def test_the_lower_end_may_be_the_one_that_cannot_be() -> None:
    answer = asked(half_widths={"anchor.outside_diameter": "12 mm"})
    wide = with_tube(outside_diameter="102 mm")
    row = rows(answer)["tube_rate"]

    assert [str(gap.value) for gap in answer.gaps] == ["78.0 millimeter"]
    assert number(row.shares[0].change) == pytest.approx(
        number(wide.tube_rate) - number(row.nominal), rel=1e-12
    )


def test_where_neither_end_can_be_nothing_is_said() -> None:
    answer = asked(half_widths={"nut_turns": "90 turn"})

    assert [str(gap.value) for gap in answer.gaps] == ["-90.0 turn", "90.0 turn"]
    assert all(gap.text.startswith("Q302: nut_turns: got") for gap in answer.gaps)
    assert {row.uncertainty for row in answer.rows} == {None}
    assert {row.shares for row in answer.rows} == {()}


def test_a_figure_without_either_end_leaves_the_others_to_speak() -> None:
    ways = {"nut_turns": "90 turn", DIAMETER: "0.1 mm"}
    answer = asked(bar_rate, half_widths=ways)
    alone = asked(bar_rate, half_widths={DIAMETER: "0.1 mm"})

    assert answer.rows[0].uncertainty == alone.rows[0].uncertainty
    assert {gap.figure for gap in answer.gaps} == {"nut_turns"}


def test_figures_that_an_end_lacks_are_named() -> None:
    # 9 mm above full bump; a chassis that measures 12 mm higher cannot stand there.
    low = bw.Wanted(height="300 mm")
    answer = asked(
        lambda setup: bw.rates(setup, wanted=low), half_widths={"axle.measured_height": "12 mm"}
    )
    (gap,) = answer.gaps

    assert str(gap.value) == "416.0 millimeter"
    assert gap.text == ""
    assert {"system_rate", "ride.wheel_rate"} <= set(gap.missing)
    assert not [name for name in gap.missing if name.startswith("fit.")]
    assert number(rows(answer)["ride.wheel_rate"].uncertainty) > 0.0


def test_a_figure_that_is_not_finite_is_missing() -> None:
    def endless(setup: bw.Setup) -> bw.Quantity:
        inside = number(setup.bar.diameter) <= 23.3
        return setup.bar.diameter if inside else setup.bar.diameter * math.inf

    answer = asked(endless, half_widths={DIAMETER: "0.1 mm"})

    assert [gap.missing for gap in answer.gaps] == [("answer",)]
    assert number(answer.rows[0].shares[0].change) == pytest.approx(0.1)


# -- Draws -----------------------------------------------------------------------


def test_draws_and_first_order_agree_where_the_answer_is_nearly_straight() -> None:
    ways = {DIAMETER: "0.1 mm", "bar.length": "2 mm", MODULUS: "1 GPa"}
    first = asked(bar_rate, half_widths=ways).rows[0]
    answer = asked(bar_rate, half_widths=ways, draws=300)
    drawn = answer.rows[0]

    assert answer.draws == 300
    assert number(drawn.uncertainty) == pytest.approx(number(first.uncertainty), rel=0.1)
    assert drawn.nominal == first.nominal
    assert drawn.shares == first.shares
    assert number(drawn.low) < number(drawn.nominal) < number(drawn.high)


def test_one_rectangle_reaches_less_far_than_two_standard_uncertainties() -> None:
    (row,) = asked(diameter, half_widths={DIAMETER: "1 mm"}, draws=300).rows

    # 95 % of it is 0.95 of its half width; twice its standard uncertainty is 1.15 of it.
    assert number(row.low) == pytest.approx(23.3 - 0.95, abs=0.04)
    assert number(row.high) == pytest.approx(23.3 + 0.95, abs=0.04)
    assert number(row.uncertainty) == pytest.approx(2.0 / math.sqrt(3.0), rel=0.05)


def test_a_seed_settles_the_draws() -> None:
    def of(**change: Any) -> bw.answers.Tolerance:
        return asked(diameter, half_widths={DIAMETER: "0.1 mm"}, draws=100, **change)

    assert of() == of() == of(seed=0)
    assert of(seed=1).rows != of().rows


def test_figures_that_do_not_move_have_no_spread_in_draws() -> None:
    found = rows(asked(half_widths={DIAMETER: "0.1 mm"}, draws=100))

    for name in ("fit.largest_body", "ride.wheel_load", "bump.arm_angle"):
        assert number(found[name].uncertainty) == 0.0
        assert found[name].low == found[name].high == found[name].nominal


def test_draws_that_cannot_be_are_counted_and_left_out() -> None:
    answer = asked(half_widths={"anchor.bore": "12 mm"}, draws=100)
    at_end, drawn = answer.gaps[0], answer.gaps[1:]
    row = rows(answer)["tube_rate"]

    assert at_end.draws == 0
    # Only what is beyond 90 mm cannot be: a twelfth of the interval from 68 to 92 mm.
    assert 2 <= sum(gap.draws for gap in drawn) <= 17
    assert {(gap.figure, gap.value, gap.missing) for gap in drawn} == {("", None, ())}
    assert all(gap.text.startswith("G104") for gap in drawn)
    assert number(row.low) > 0.0


def test_draws_that_lack_figures_are_counted_together() -> None:
    low = bw.Wanted(height="300 mm")
    answer = asked(
        lambda setup: bw.rates(setup, wanted=low),
        half_widths={"axle.measured_height": "12 mm"},
        draws=100,
    )
    (gap,) = [gap for gap in answer.gaps if gap.draws]

    assert "ride.wheel_rate" in gap.missing
    assert gap.text == ""
    assert 2 <= gap.draws <= 30


def test_too_few_draws_that_can_be_say_nothing() -> None:
    answer = asked(bar_rate, half_widths={"nut_turns": "90 turn"}, draws=100)

    (row,) = answer.rows
    assert sum(gap.draws for gap in answer.gaps) > 50
    assert (row.uncertainty, row.low, row.high) == (None, None, None)


def test_an_answer_that_is_no_says_why() -> None:
    far = bw.Wanted(height="600 mm")

    answer = asked(lambda setup: bw.rates(setup, wanted=far))

    assert answer.verdict is bw.Verdict.OUT_OF_REACH
    assert [finding.topic for finding in answer.findings] == [bw.answers.Topic.TRAVEL]
    assert asked(bar_rate).findings == ()


@pytest.mark.parametrize("draws", [-1, 1, 99, 100_001, 10**9])
def test_a_handful_of_draws_or_far_too_many_are_refused(draws: int) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        asked(draws=draws)

    assert str(caught.value) == (
        f"Q302: draws: got '{draws}', expected 0, or 100 to 100000 draws; "
        "leave it out, or take 10000 for an interval of 95 %"
    )


def test_a_negative_seed_is_refused() -> None:
    with pytest.raises(bw.QuantityError, match="Q302: seed: got '-1', expected 0 or more"):
        asked(draws=100, seed=-1)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"draws": 1000.0}, "S203: draws: got '1000.0', expected a whole number"),
        ({"draws": True}, "S203: draws: got 'True', expected a whole number"),
        ({"seed": "one"}, "S203: seed: got 'one', expected a whole number"),
        ({"half_widths": 5}, "S203: half_widths: got '5', expected a mapping"),
        ({"coverage_factor": "2"}, "S203: coverage_factor: got '2', expected a number"),
    ],
)
def test_what_is_of_another_type_is_refused(change: dict[str, Any], message: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        asked(**change)

    assert str(caught.value).startswith(message)


def test_a_tolerance_as_wide_as_its_figure_is_refused() -> None:
    with pytest.raises(bw.QuantityError) as caught:
        asked(half_widths={DIAMETER: "23.3 mm"})

    assert str(caught.value).startswith(
        "Q303: bar.diameter: got '23.3 mm ± 23.3 mm', expected a tolerance less than the figure"
    )
    # A place may lie on either side of zero.
    assert asked(half_widths={"axle.hub_up": "60 mm"}, question=diameter).gaps == ()


def test_draws_are_counted_as_they_are_asked() -> None:
    seen: list[tuple[int, int]] = []

    def note(done: int, of: int) -> None:
        seen.append((done, of))

    asked(diameter, half_widths={DIAMETER: "0.1 mm"}, draws=120, progress=note)

    assert seen == [(count, 120) for count in range(1, 121)]


@pytest.mark.parametrize("factor", [0.0, -2.0, math.nan, math.inf])
def test_a_factor_that_covers_nothing_is_refused(factor: float) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        asked(coverage_factor=factor)

    assert str(caught.value) == (
        f"Q302: coverage_factor: got '{factor}', expected a coverage factor above zero; "
        "leave it out for the usual 2"
    )


def test_the_headline_says_what_the_uncertainty_covers() -> None:
    (row,) = (r for r in bw.tolerance(bw.rates, demo()).rows if r.figure == "ride.wheel_rate")
    usual = bw.tolerance(bw.rates, demo()).headline
    assert usual == (
        f"The rate at the wheel is {row.nominal.magnitude:.1f} N/mm, "
        f"± {known(row.uncertainty).magnitude:.1f} N/mm from tolerances (about 95 %). Most of "
        f"that comes from the shear modulus of the bar material ({row.shares[0].percent:.0f} %)."
    )
    wider = bw.tolerance(bw.rates, demo(), coverage_factor=3.0).headline
    assert " from tolerances (3 standard uncertainties). " in wider
    length = bw.tolerance(bw.length_fit, demo()).headline
    assert length.startswith("The ")
    assert " comes from the length of the bar (" in length

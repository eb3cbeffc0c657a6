"""The family chart holds what each single answer says, sorted, filtered, grouped and told apart."""

from __future__ import annotations

from collections import Counter
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.family import chart as chart_module
from barwright.family.row import PlainRow, blank_row
from barwright.parts import AxlePlace
from demo_charts import DEMO, VANS


def titles(chart: bw.answers.FamilyChart) -> list[str]:
    return [line.pair.bar_title for line in chart.lines]


def charted(monkeypatch: pytest.MonkeyPatch, *rows: PlainRow) -> bw.answers.FamilyChart:
    """The chart of rows that the vans of the demo do not have."""
    monkeypatch.setattr(chart_module, "rows_of_family", lambda *_, **__: ([*rows], Counter()))
    return bw.family_chart(DEMO, "fells")


def row(bar: str = "firm", *, corner: str = "left", **known: Any) -> PlainRow:
    usual: dict[str, Any] = {
        "vehicle_id": "fells:chassis/short",
        "vehicle_title": "Fells carrier, short wheelbase",
        "corner": f"front {corner}",
        "bar_id": f"fells:bar/{bar}",
        "bar_title": bar,
        "fit": bw.Verdict.FITS,
        "strength": bw.Verdict.HOLDS,
        "rates": bw.Verdict.RATED,
    }
    return blank_row(**usual | known)


@pytest.mark.parametrize("words", ["fells", "hodmule", "trundlet"])
def test_every_cell_is_that_of_the_single_answers(words: str) -> None:
    chart = bw.family_chart(DEMO, words, height=None, processes=1)
    assert chart.lines
    for line in chart.lines:
        pair = line.pair
        for corner in line.corners:
            standard = DEMO.setup(pair.vehicle_id, corner=corner)
            wanted = bw.Wanted(height=standard.axle.standard_height)
            setup = standard.with_parts(bar=DEMO.bar(pair.bar_id))
            fit, rates = bw.length_fit(setup), bw.rates(setup, wanted=wanted)
            strength = bw.strength(setup, wanted=wanted)
            assert fit.outcome.is_good
            assert line.is_without_changes == (fit.verdict is bw.Verdict.FITS)
            assert pair.strength is strength.verdict
            assert rates.figures is not None
            single = (
                *(rates.bar_rate, rates.system_rate, rates.wheel_rate),
                *(rates.figures.ride_frequency, strength.bump.stress, rates.ride.height),
            )
            figures = (
                *(pair.bar_rate, pair.system_rate, pair.wheel_rate),
                *(pair.ride_frequency, pair.bump_stress, pair.height),
            )
            for one, other in zip(figures, single, strict=True):
                assert one is not None
                assert other is not None
                assert one.units == other.units
                assert one.magnitude == pytest.approx(other.magnitude, rel=1e-12)
            now = bw.rates(standard, wanted=wanted).wheel_rate
            change = 100.0 * (rates.wheel_rate.magnitude / now.magnitude - 1.0)
            assert pair.wheel_rate_change == pytest.approx(change, abs=1e-9)


def test_wheelbases_stand_in_the_order_of_their_length_with_their_standard_bars() -> None:
    assert VANS.family == "Fells carrier"
    assert [(one.called, one.standard_bars) for one in VANS.wheelbases] == [
        ("short wheelbase", ("Standard bar, short van",)),
        ("middle wheelbase", ("Standard bar, middle van",)),
        ("long wheelbase", ("Standard bar, long van",)),
    ]
    for wheelbase in VANS.wheelbases:
        (standard,) = (line.pair for line in VANS.on(wheelbase) if line.pair.is_standard)
        assert wheelbase.standard_rate == standard.wheel_rate
        assert wheelbase.height == standard.height
    assert "invented" not in bw.family_chart(DEMO, "hodmule", processes=1).wheelbases[0].called


def test_every_pair_of_matching_splines_is_offered_or_told_apart() -> None:
    told = {(one.bars[0], one.places) for one in VANS.not_offered}
    assert ("Pre-set bar, short van, left", ("short wheelbase right",)) in told
    reasons = {one.reason for one in VANS.not_offered}
    assert reasons == {
        "wrong length",
        "too little of the teeth engages",
        "the pre-setting of the bar is made for the other side",
    }
    pairs = sum(len(line.corners) for line in VANS.lines)
    pairs += sum(
        len(one.bars) * (1 if place.endswith(("left", "right")) else 2)
        for one in VANS.not_offered
        for place in one.places
    )
    bars = {id_ for id_ in DEMO.ids("bar") if id_.startswith("fells:")}
    assert pairs == 2 * len(bars) * len(VANS.wheelbases)
    assert VANS.other_splines == len(DEMO.ids("bar")) - len(bars)


def test_the_headline_says_how_many_go_and_which_are_stiffer() -> None:
    assert VANS.headline == (
        "14 bars go on 3 wheelbases of Fells carrier, with a stress below every known limit. "
        "Stiffest without changes: +31 % (short wheelbase), +29 % (middle wheelbase), "
        "+26 % (long wheelbase)."
    )
    assert repr(VANS).startswith("<FamilyChart: 14 bars go on")
    one = bw.family_chart(DEMO, "fells middle", processes=1)
    assert one.headline == (
        "2 bars go on Fells carrier, middle wheelbase, with a stress below every known limit. "
        "Standard: Standard bar, middle van, 20.9 N/mm at the wheel. "
        "Stiffest without changes: +29 % (Firm bar, middle van)."
    )
    alone = bw.family_chart(DEMO, "fells middle", bars="middle-standard", processes=1)
    assert alone.headline.startswith("1 bar goes on ")
    assert alone.headline.endswith(" None that needs no change is stiffer than the standard bar.")
    every = bw.family_chart(DEMO, processes=1).headline
    assert every.startswith("20 bars go on 6 wheelbases of the packs, ")
    assert every.endswith(
        " Stiffest without changes: +31 % (Fells carrier, short wheelbase, front)."
    )


def test_words_that_describe_no_bar_are_told_instead_of_a_chart() -> None:
    chart = bw.family_chart(DEMO, "fells", bars="firm frim", processes=1)
    assert chart.headline == (
        "Nothing suits: no bar is described by 'firm frim' (did you mean 'firm'?)."
    )
    assert (chart.outcome, chart.lines) == (bw.Outcome.NO, ())


def test_the_standard_bars_stay_on_a_chart_of_some_bars() -> None:
    chart = bw.family_chart(DEMO, "fells", bars="firm", processes=1)
    assert titles(chart) == [
        *("Standard bar, short van", "Firm bar, short van"),
        *("Standard bar, middle van", "Firm bar, middle van"),
        *("Standard bar, long van", "Firm bar, long van"),
    ]


@pytest.mark.parametrize(
    ("asked", "left"),
    [
        ({"least_change": 29.0}, {"Firm bar, short van", "Bar with long splines"}),
        ({"most_change": -10.0}, {"Soft bar, short van"}),
        ({"least_change": 17.0, "most_change": 18.0}, {"Pre-set bar, short van, left"}),
    ],
)
def test_only_what_is_asked_for_stays_beside_the_standard_bar(
    asked: dict[str, Any], left: set[str]
) -> None:
    chart = bw.family_chart(DEMO, "fells short", processes=1, **asked)
    others = {line.pair.bar_title for line in chart.lines if not line.pair.is_standard}
    assert left <= others
    assert "Standard bar, short van" in titles(chart)
    for line in chart.lines:
        change = line.pair.wheel_rate_change
        assert change is not None
        assert line.pair.is_standard or asked.get("least_change", -99.0) <= change
        assert line.pair.is_standard or change <= asked.get("most_change", 99.0)
    assert chart.filtered == 12 - len(chart.lines)


def test_bars_that_need_changes_may_be_left_out() -> None:
    chart = bw.family_chart(DEMO, "fells", unchanged=True, processes=1)
    assert all(line.is_without_changes for line in chart.lines)
    assert (chart.filtered, len(chart.lines)) == (2, len(VANS.lines) - 2)
    assert not all(line.is_without_changes for line in VANS.lines)


@pytest.mark.parametrize(
    ("order", "figure"),
    [
        ("rate", "wheel_rate"),
        ("change", "wheel_rate_change"),
        ("frequency", "ride_frequency"),
        ("stress", "bump_stress"),
        ("bar", "bar_title"),
    ],
)
@pytest.mark.parametrize("descending", [False, True])
def test_lines_are_sorted(order: Any, figure: str, *, descending: bool) -> None:
    chart = bw.family_chart(
        DEMO, "hodmule", sort=order, descending=descending, group="none", processes=1
    )
    (group,) = chart.groups
    found = [getattr(line.pair, figure) for line in group.lines]
    assert group.title == ""
    assert found == sorted(found, reverse=descending)
    assert len(set(found)) > 1


def test_lines_are_grouped_by_bar() -> None:
    chart = bw.family_chart(DEMO, "hodmule", group="bar", processes=1)
    assert chart.grouped_by == "bar"
    assert [(group.title, len(group.lines)) for group in chart.groups] == [
        ("Standard bar, invented", 2),
        ("Bar of the long wheelbase, invented", 2),
        ("Firm bar, invented", 2),
    ]


def test_one_axle_alone_may_be_looked_at() -> None:
    rear = bw.family_chart(DEMO, axle=AxlePlace.REAR, processes=1)
    assert [one.vehicle_id for one in rear.wheelbases] == ["trundlet:chassis/open"]
    assert {line.corners for line in rear.lines} == {("rear left", "rear right")}
    none = bw.family_chart(DEMO, "fells", axle=AxlePlace.REAR, processes=1)
    assert none.headline.startswith("No vehicle is described by these words. Give fewer")
    assert (none.verdict, none.outcome) == (bw.Verdict.NOTHING_SUITS, bw.Outcome.NO)
    assert none.other_splines == 0


def test_a_stated_height_is_that_of_all() -> None:
    chart = bw.family_chart(DEMO, "fells", height="390 mm", processes=1)
    assert {f"{line.pair.height:.0f~P}" for line in chart.lines} == {"390 mm"}
    assert {f"{one.height:.0f~P}" for one in chart.wheelbases} == {"390 mm"}


def test_what_does_not_live_is_not_offered(monkeypatch: pytest.MonkeyPatch) -> None:
    chart = charted(
        monkeypatch,
        row("thin", strength=bw.Verdict.OVERSTRESSED),
        row("thin", corner="right", strength=bw.Verdict.OVERSTRESSED),
        row("odd", strength=None, error_code="Q302", error_text="Q302: too heavy"),
        row("blunt", fit=bw.Verdict.DOES_NOT_FIT, reason="way in blocked; found 3, limit 4"),
        row("bare", fit=bw.Verdict.DOES_NOT_FIT),
        row("odder", strength=None),
    )
    assert [(*one.bars, *one.places, one.reason) for one in chart.not_offered] == [
        ("thin", "Fells carrier, short wheelbase", "overstressed"),
        ("odd", "Fells carrier, short wheelbase left", "Q302: too heavy"),
        ("blunt", "Fells carrier, short wheelbase left", "way in blocked"),
        ("bare", "Fells carrier, short wheelbase left", "does not fit"),
        ("odder", "Fells carrier, short wheelbase left", "fits"),
    ]
    assert repr(chart.not_offered[0]) == (
        "<NotOffered: thin on Fells carrier, short wheelbase: overstressed>"
    )
    assert chart.headline == "No bar is offered for Fells carrier, short wheelbase."
    assert chart.verdict is bw.Verdict.NOTHING_SUITS


def test_bars_that_are_offered_have_no_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    chart = charted(monkeypatch, row("plain"), row("plain", corner="right"))
    (line,) = chart.lines
    assert (line.why_not, line.side) == ("", "")
    assert repr(line).startswith("<ChartLine: FamilyRow: plain on Fells carrier")


def test_what_is_not_known_makes_no_of_it_a_question(monkeypatch: pytest.MonkeyPatch) -> None:
    chart = charted(monkeypatch, row(fit=bw.Verdict.NEEDS_FIGURES, reason="needs a length"))
    assert chart.outcome is bw.Outcome.NEEDS_FIGURES


def test_lines_without_a_figure_come_last_and_pass_no_limit(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    rows = [row("a"), row("b", wheel_rate=20.0), row("c", wheel_rate=10.0)]
    assert titles(charted(monkeypatch, *rows)) == ["c", "b", "a"]
    # Without a change there is nothing to be the stiffest by, nor to be taken by its change.
    chart = bw.family_chart(DEMO, "fells", least_change=-99.0)
    assert (chart.lines, chart.filtered) == ((), 3)
    assert chart.headline == "No bar is offered for Fells carrier, short wheelbase."


def test_vehicles_whose_titles_tell_nothing_apart_keep_them() -> None:
    told = chart_module._told_apart  # noqa: SLF001 - titles that no demo has
    assert told({"a": "Van", "b": "Van, long"}) == {"a": "Van", "b": "long"}
    assert told({"a": "Van, long, old", "b": "Van, short, new"}) == {
        "a": "long, old",
        "b": "short, new",
    }
    assert told({"a": "Van, long, old", "b": "Van, short, old"}) == {"a": "long", "b": "short"}
    assert told({"a": "Van"}) == {"a": "Van"}


@pytest.mark.parametrize(
    ("right", "are_one"),
    [
        ({"wheel_rate": 20.0 * (1.0 + 1e-13)}, True),
        ({"wheel_rate": 20.001}, False),
        ({"wheel_rate": None}, False),
        ({"wheel_rate": 20.0, "fit": bw.Verdict.FITS_WITH_CHANGES}, False),
    ],
)
def test_both_sides_are_one_line_but_for_rounding(
    right: dict[str, Any], monkeypatch: pytest.MonkeyPatch, *, are_one: bool
) -> None:
    lines = charted(monkeypatch, row(wheel_rate=20.0), row(corner="right", **right)).lines
    assert (len(lines) == 1) == are_one


@pytest.mark.parametrize(
    "limits",
    [{"least_change": 20.0, "most_change": 10.0}, {"least_change": float("nan")}],
)
def test_limits_that_nothing_lies_between_are_refused(limits: dict[str, Any]) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.family_chart(DEMO, "fells", **limits)
    assert (caught.value.code, caught.value.key) == ("S207", "least_change")


@pytest.mark.parametrize("height", ["x", "0 mm", "5 kg"])
def test_a_height_is_a_length(height: str) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.family_chart(DEMO, height=height)
    assert caught.value.key == "height"


def test_it_is_read_again_from_json_in_either_system() -> None:
    chart = bw.in_units(VANS, "inch")
    assert bw.from_json(bw.to_json(chart)) == chart
    rate = chart.wheelbases[0].standard_rate
    assert rate is not None
    assert f"{rate:.0f~P}" == "120 lbf/in"
    assert attrs.evolve(chart, groups=()).lines == ()

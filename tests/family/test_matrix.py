"""The family matrix holds what each single answer says, for all pairs."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any, TypeAlias

import attrs
import pytest

import barwright as bw
from barwright.family import corner
from barwright.family.count import FamilyCount
from gaps import without
from sample_packs import discovered_once

DEMO = bw.Registry.demo()
Change: TypeAlias = Callable[[bw.Setup], bw.Setup]

VAN = "fells:chassis/short"


def one(bar: str, *, vehicles: str = "fells short", **asked: Any) -> bw.answers.FamilyRow:
    """The row of a bar on the first corner of a vehicle."""
    return bw.family_matrix(DEMO, bars=bar, vehicles=vehicles, **asked).rows[0]


@pytest.fixture(scope="module")
def matrix() -> bw.answers.FamilyMatrix:
    return bw.family_matrix(DEMO, height="395 mm", vehicles="fells")


def test_every_figure_is_that_of_the_single_answer(matrix: bw.answers.FamilyMatrix) -> None:
    wanted = bw.Wanted(height="395 mm")
    for row in matrix.rows:
        standard = DEMO.setup(row.vehicle_id, corner=row.corner)
        setup = standard.with_parts(bar=DEMO.bar(row.bar_id))
        fit, rates = bw.length_fit(setup), bw.rates(setup, wanted=wanted)
        strength = bw.strength(setup, wanted=wanted)
        assert row.fit is fit.verdict
        assert row.changes == tuple(dict.fromkeys(one.topic.value for one in fit.changes))
        assert (row.rates, row.strength) == (rates.verdict, strength.verdict)
        assert rates.figures is not None
        single = (
            *(rates.bar_rate, rates.system_rate, rates.wheel_rate, rates.ride.height),
            *(rates.figures.ride_frequency, strength.bump.stress),
        )
        figures = (
            *(row.bar_rate, row.system_rate, row.wheel_rate, row.height),
            *(row.ride_frequency, row.bump_stress),
        )
        for figure, other in zip(figures, single, strict=True):
            assert figure is not None
            assert other is not None
            assert figure.units == other.units
            assert figure.magnitude == pytest.approx(other.magnitude, rel=1e-12)
        compared = bw.compare(standard, setup, wanted=wanted, other_wanted=wanted)
        change = {one.figure: one.percent for one in compared.rows}["ride.wheel_rate"]
        assert row.wheel_rate_change == pytest.approx(change, abs=1e-9)
        assert row.is_standard == (row.bar_id == standard.bar.id)


def test_the_clocking_is_that_of_the_plan_to_prefer() -> None:
    row = one("short-firm", height="395 mm", clocking=True)

    setup = DEMO.setup(VAN, corner="front left").with_parts(bar=DEMO.bar(row.bar_id))
    answer = bw.reindex(setup, wanted=bw.Wanted(height="395 mm"))
    plan = answer.preferred
    assert (row.clocking, row.cuts) == (answer.verdict, plan.cuts)
    assert (row.arm_tooth, row.anchor_tooth) == (plan.arm_tooth, plan.anchor_tooth)


def test_a_bar_that_does_not_fit_is_not_clocked() -> None:
    row = one("short-preset-right", height="395 mm", clocking=True)
    assert (row.fits, row.clocking, row.arm_tooth) == (False, None, None)


def test_every_pair_is_counted_once(matrix: bw.answers.FamilyMatrix) -> None:
    count = matrix.count
    bars, vehicles = len(DEMO.ids("bar")), len(DEMO.vehicles("fells"))
    assert (count.bars, count.vehicles, count.pairs) == (bars, vehicles, bars * vehicles * 2)
    assert count.excluded + len(matrix.rows) == count.pairs
    fitting = sum(row.fits for row in matrix.rows)
    assert (count.fitting, count.errors) == (fitting, 0)
    assert sum(tally.pairs for tally in count.strengths) == fitting
    assert count.offered == sum(row.is_offered for row in matrix.rows)


def test_rows_are_in_the_order_of_vehicles_sides_and_bars(
    matrix: bw.answers.FamilyMatrix,
) -> None:
    order = [(row.vehicle_id, row.corner, row.bar_id) for row in matrix.rows]
    assert order == sorted(order)


def test_without_a_height_each_axle_is_rated_at_its_own() -> None:
    heights = {row.vehicle_id: row.height for row in bw.family_matrix(DEMO, bars="standard").rows}
    for van in DEMO.vehicles():
        (axle,) = van.axles
        assert heights[van.id] == axle.standard_height


def test_excluded_pairs_are_rows_on_request() -> None:
    asked = bw.family_matrix(DEMO, vehicles="fells short", pruned=True)
    assert len(asked.rows) == asked.count.pairs
    excluded = [row for row in asked.rows if row.rates is None]
    assert len(excluded) == asked.count.excluded
    assert {row.reason for row in excluded} == {one.what for one in asked.count.pruned}
    assert {row.fit for row in excluded} == {bw.Verdict.DOES_NOT_FIT}


def test_several_processes_find_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    monkeypatch.setattr("barwright.family.matrix._FEWEST", 1)
    monkeypatch.setattr("barwright.family.family._LEAST", 1)
    seen: list[tuple[int, int]] = []

    both = bw.family_matrix(
        DEMO, bars="standard", processes=2, progress=lambda *counts: seen.append(counts)
    )

    assert both == bw.family_matrix(DEMO, bars="standard", processes=1)
    assert seen == [(done, 6) for done in range(1, 7)]


def test_what_is_out_of_reach_has_no_figures() -> None:
    row = one("short-firm", height="900 mm")
    assert (row.fit, row.rates) == (bw.Verdict.FITS, bw.Verdict.OUT_OF_REACH)
    assert (row.wheel_rate, row.bump_stress, row.wheel_rate_change) == (None, None, None)
    assert not row.is_offered
    assert repr(row).endswith("front left: fits>")


def test_a_clocking_that_is_not_found_says_so() -> None:
    row = one("short-firm", height="900 mm", clocking=True)
    assert (row.clocking, row.arm_tooth) == (bw.Verdict.OUT_OF_REACH, None)


@pytest.fixture
def changed(monkeypatch: pytest.MonkeyPatch) -> Callable[[Change], None]:
    """A function that changes the standard setup of each corner before bars are put on."""
    standard = bw.Setup.standard

    def by(change: Change) -> None:
        monkeypatch.setattr(
            bw.Setup, "standard", lambda *given, **named: change(standard(*given, **named))
        )

    return by


def test_a_standard_bar_without_a_rate_leaves_no_change(changed: Callable[[Change], None]) -> None:
    changed(lambda setup: without(setup, "bar.diameter"))

    row = one("short-firm")

    assert row.wheel_rate is not None
    assert row.wheel_rate_change is None


def test_a_standard_bar_that_ends_with_an_error_leaves_no_change(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def failing(*_: object) -> object:
        raise bw.NotConvergedError("N101", value="x", expected="y", remedy="z")

    monkeypatch.setattr(corner, "rates_of", failing)

    row = one("short-firm")

    assert row.wheel_rate is not None
    assert (row.wheel_rate_change, row.error_code) == (None, "")


def test_unknown_figures_are_told_and_not_counted_as_fitting(
    changed: Callable[[Change], None],
) -> None:
    changed(lambda setup: without(setup, "arm.socket.length"))

    answer = bw.family_matrix(DEMO, bars="short-firm", vehicles="fells short")

    assert {row.fit for row in answer.rows} == {bw.Verdict.NEEDS_FIGURES}
    assert "arm socket length" in answer.rows[0].reason
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert answer.headline.endswith("2 pairs: none is known to fit.")


def test_an_error_is_one_row_s_and_the_others_are_answered(
    changed: Callable[[Change], None],
) -> None:
    def on_the_left(setup: bw.Setup) -> bw.Setup:
        heavy = "4000 kg" if setup.side is bw.parts.Side.LEFT else setup.load.mass
        return setup.with_load(kind=setup.load.kind, mass=heavy)

    changed(on_the_left)

    answer = bw.family_matrix(DEMO, bars="short-firm", vehicles="fells short")

    left, right = answer.rows
    assert (left.error_code, left.fit, left.wheel_rate) == ("Q302", bw.Verdict.FITS, None)
    assert "load" in left.error_text
    assert right.error_code == ""
    assert right.wheel_rate_change == pytest.approx(30.6, abs=0.1)
    assert (answer.count.errors, answer.count.fitting) == (1, 2)


def test_a_pair_without_any_answer_is_an_error_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(_: object) -> object:
        raise bw.GeometryError("G101", value="x", expected="y", remedy="z")

    monkeypatch.setattr(corner, "fit_of", failing)

    answer = bw.family_matrix(DEMO, bars="short-firm", vehicles="fells short")

    assert (answer.count.errors, answer.count.fits) == (2, ())
    assert answer.count.pairs == 2
    assert "G101" in repr(answer.rows[0])


@pytest.mark.parametrize("nothing", ["bars", "vehicles"])
def test_where_nothing_is_described_nothing_fits(nothing: str) -> None:
    words: dict[str, Any] = {nothing: "zzz"}
    answer = bw.family_matrix(DEMO, **words)
    assert (answer.rows, answer.count.pairs) == ((), 0)
    assert answer.verdict is bw.Verdict.DOES_NOT_FIT


@pytest.mark.parametrize("height", ["x", "0 mm", "5 kg"])
def test_a_height_is_a_length(height: str) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.family_matrix(DEMO, height=height)
    assert caught.value.key == "height"


def test_a_count_tells_itself() -> None:
    count = bw.family_matrix(discovered_once(), bars="short-firm", vehicles="fells short").count
    assert isinstance(count, FamilyCount)
    assert count.headline == (
        "1 bar on 1 vehicle, 2 pairs: 2 fit; 2 of these stay below every known limit of their "
        "stress."
    )
    assert repr(count).startswith("<FamilyCount: 1 bar on 1 vehicle")
    assert attrs.evolve(count, fits=()).verdict is bw.Verdict.DOES_NOT_FIT

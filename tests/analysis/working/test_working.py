"""Tests that a working shows the answer's own figures, and that its equations say so."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import pytest
from hypothesis import given, settings

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.tolerance.answer_figures import answer_figures
from barwright.analysis.working.subjects import SUBJECTS, Asked
from barwright.units import is_quantity, quantity
from column_corners import everything
from draws import draws
from gaps import without
from measured_setups import with_estimated
from sample_packs import SPECIMENS, discovered_once
from sample_records import (
    double_wishbone_mounting,
    make_bar,
    make_end,
    make_setup,
    swing_arm_mounting,
)
from setup_strategies import corners

JOBS = [
    *sorted((SPECIMENS.parents[1] / "docs" / "examples").glob("*.toml")),
    *sorted((SPECIMENS / "twenty").glob("[01]*.toml"))[:15],
]


def asked(job: Path) -> Iterator[tuple[bw.Setup, bw.Wanted]]:
    """The first corner of every variant of a job."""
    for variant in bw.load_jobs(job, discovered_once()):
        corner = variant.corners[0]
        yield corner.setup, corner.wanted


def figures_of(answer: Any, asked: str) -> dict[str, Any]:
    """Figures of an answer by the names that the working gives them; factors too."""
    if asked == "reindex":
        answer = answer.plans[0] if answer.plans else None
    elif asked == "nut":
        answer = answer.set_row if answer.table_rows else None
    found = {
        name.removeprefix("figures."): value
        for name, value in answer_figures(answer, "")
        if is_quantity(value)
    }
    if asked == "rates" and answer.figures is not None and answer.figures.damping_ratio:
        found["damping_ratio"] = answer.figures.damping_ratio
    if asked == "strength" and answer.figures is not None:
        checks = ("droop", "ride", "bump", "droop_at_yield", "at_yield")
        factors = {f"{name}.factor": getattr(answer.figures, name).factor for name in checks}
        found |= {name: factor for name, factor in factors.items() if factor is not None}
    return found


def assert_shows_the_answer(setup: bw.Setup, of: str, wanted: bw.Wanted | None) -> int:
    """Hold every line of a working to the answer, and every equation to its line."""
    question = Asked(corner=corner_of(setup), wanted=wanted)
    answer = SUBJECTS[of].answer(question)
    figures = figures_of(answer, of)
    sheet = SUBJECTS[of].sheet(SUBJECTS[of].computed(question, answer))
    values: dict[str, float] = {}
    shown = 0
    for line in sheet.lines:
        if isinstance(line, bw.answers.WorkingBalance):
            assert line.sides == pytest.approx(
                (line.left_side.value(values), line.right_side.value(values)), rel=1e-9
            )
            assert line.sides[0] == pytest.approx(line.sides[1], rel=1e-9, abs=1e-9)
            continue
        values[line.symbol] = line.si_value
        if isinstance(line, bw.answers.WorkingStep):
            again = line.equation.value(values)
            assert math.isclose(again, line.si_value, rel_tol=1e-9, abs_tol=1e-9), line
            assert line.source
        figure = getattr(line, "figure", "")
        if figure in figures:
            assert isinstance(line, bw.answers.WorkingStep | bw.answers.SolvedFigure)
            found, wished = line.si_value, figures[figure]
            if line.kind is not None:
                shown_as = quantity(line.si_value, line.kind)
                found, wished = float(shown_as.magnitude), wished.m_as(shown_as.units)
            assert found == pytest.approx(wished, rel=1e-9, abs=1e-7 if of == "reindex" else 1e-9)
            shown += 1
        else:
            assert not figure or answer.verdict.is_refusal, line
    return shown


WISHED = ("rates", "strength", "reindex")


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_a_working_shows_the_answer_s_own_figures(job: Path) -> None:
    for setup, wanted in asked(job):
        for of in SUBJECTS:
            assert_shows_the_answer(setup, of, wanted if of in WISHED else None)


@given(corners())
@settings(max_examples=draws(25))
def test_of_any_corner_too(drawn: tuple[bw.Setup, str]) -> None:
    setup, height = drawn
    for of in SUBJECTS:
        assert_shows_the_answer(setup, of, None)
    assert_shows_the_answer(setup, "rates", bw.Wanted(height=height))


def rubber(**contact: Any) -> bw.parts.BumpRubber:
    points = (("10 mm", "400 N"), ("25 mm", "1800 N"), ("40 mm", "5000 N"))
    curve = tuple(
        bw.parts.BumpRubberForce(compression=compression, force=force)
        for compression, force in points
    )
    return bw.parts.BumpRubber(curve=curve, **contact)


BESIDE = {
    "a rubber on the damper": {"bump_rubber": rubber(contact_length="590 mm")},
    "a rubber that the hub presses": {"bump_rubber": rubber(contact_height="395 mm")},
    "a rubber on the arm": {"bump_rubber": rubber(contact_angle="-3 deg", contact_radius="200 mm")},
    "bushings": {"bushing": bw.parts.ArmBushing(rate="2.5 N*m/deg")},
    "bushings set at an angle": {
        "bushing": bw.parts.ArmBushing(rate="2.5 N*m/deg", set_angle="2 deg")
    },
    "a coil": {
        "helper_coil": bw.parts.HelperCoil(
            rate="9 N/mm", free_length="300 mm", seat_offset="285 mm"
        )
    },
    "a bar that is inclined": {"bar_axis": (1.0, 0.0, 0.1)},
}


@pytest.mark.parametrize("axle", BESIDE.values(), ids=BESIDE)
def test_of_what_acts_beside_the_bar(axle: dict[str, Any]) -> None:
    setup = make_setup(axle=axle)
    for wanted in (None, bw.Wanted(height="385 mm")):
        assert_shows_the_answer(setup, "rates", wanted)


USUAL = make_setup()
SWINGING = make_setup(axle={"suspension": swing_arm_mounting()})
ANCHORED = {
    "everything": everything(),
    "a key lever": on_key_lever(),
    "a fixed socket": on_fixed(),
    "a socket and a helper": on_fixed(arm_tooth=3, anchor_tooth=-2),
    "a measured rate": make_setup(bar=make_bar(measured_rate="46 N*m/deg")),
    "another arm": USUAL.with_parts(
        arm=attrs.evolve(USUAL.arm, id="t:arm/longer", radius="345 mm")
    ),
    "an arm of another swing arm": SWINGING.with_parts(
        arm=attrs.evolve(SWINGING.arm, id="t:arm/longer", radius="345 mm")
    ),
    "a damper of known rate": make_setup(damper={"damping_rate": "1.8 N*s/mm"}),
    "gas that does not change": make_setup(
        damper={"gas": bw.parts.GasCharge(force="190 N", at_length="590 mm", slope="0 N/mm")}
    ),
    "a height that was measured": attrs.evolve(
        USUAL, reading=bw.parts.measured(USUAL, height="391 mm")
    ),
    "double wishbones": make_setup(axle={"suspension": double_wishbone_mounting()}),
    "a bar in the upper arm": make_setup(
        axle={
            "suspension": double_wishbone_mounting(
                upper_up="-230 mm", upper_joint=bw.parts.JointSide.OUTBOARD
            )
        }
    ),
}


@pytest.mark.parametrize("setup", ANCHORED.values(), ids=ANCHORED)
def test_of_every_anchor_and_linkage(setup: bw.Setup) -> None:
    for of in SUBJECTS:
        assert_shows_the_answer(setup, of, None)
    assert_shows_the_answer(setup, "rates", bw.Wanted(height="385 mm"))


KEYED, FIXED = on_key_lever(), on_fixed()
LOADED = USUAL.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass="330 kg")


def after(setup: bw.Setup, reading: bw.parts.Reading, **change: Any) -> bw.Setup:
    """A corner that was measured, and then changed."""
    return attrs.evolve(setup, reading=reading, **change)


VAN = discovered_once().setup("fells:chassis/short", corner="front left")
MEASURED = {
    "with gas": after(VAN, bw.parts.measured(VAN, height="391 mm"), nut_turns="1 turn"),
    "nothing changed": after(USUAL, bw.parts.measured(USUAL, height="391 mm")),
    "the nut was turned": after(
        USUAL, bw.parts.measured(USUAL, height="391 mm"), nut_turns="2 turn"
    ),
    "another tooth": after(
        USUAL, bw.parts.measured(USUAL, height="391 mm"), arm_tooth=2, anchor_tooth=1
    ),
    "the arm's angle was measured": after(USUAL, bw.parts.measured(USUAL, arm_angle="-3 deg")),
    "with its nut": after(
        USUAL, bw.parts.measured(USUAL, height="391 mm", nut_turns="1 turn"), nut_turns="3 turn"
    ),
    "with its pin": after(USUAL, bw.parts.measured(USUAL, height="391 mm", pin_distance="160 mm")),
    "under another load": after(USUAL, bw.parts.measured(LOADED, height="385 mm"), load=USUAL.load),
    "on a key lever": after(KEYED, bw.parts.measured(KEYED, height="391 mm"), nut_turns="1 turn"),
    "in a fixed socket": after(FIXED, bw.parts.measured(FIXED, height="391 mm"), arm_tooth=1),
}


@pytest.mark.parametrize("setup", MEASURED.values(), ids=MEASURED)
def test_of_a_corner_that_was_measured(setup: bw.Setup) -> None:
    for of in SUBJECTS:
        assert_shows_the_answer(setup, of, None)
    found = bw.working(setup, asked="ride", figure="free_angle").lines
    assert isinstance(found[-1], bw.answers.WorkingStep)
    assert {"θ_r", "φ_free_r"} <= {getattr(line, "symbol", "") for line in found}
    assert not any(getattr(line, "symbol", "") == "κ_a" for line in found)


def test_of_readings_with_other_parts_the_free_angle_is_as_it_was_found() -> None:
    other = USUAL.with_parts(bar=attrs.evolve(USUAL.bar, diameter="24 mm"))
    one, two = (bw.parts.measured(USUAL, height=height) for height in ("391 mm", "390 mm"))
    for setup in (
        attrs.evolve(other, reading=one),
        attrs.evolve(USUAL, reading=one, further_readings=(two,)),
    ):
        assert_shows_the_answer(setup, "ride", None)
        found = bw.working(setup, asked="ride", figure="free_angle").lines[-1]
        assert isinstance(found, bw.answers.SolvedFigure)


def test_what_tolerances_make_impossible_is_left_out_of_the_uncertainty() -> None:
    end = with_estimated(USUAL, {"adjuster.thread_end": "4 mm"})
    turns = corner_of(end).turns_span[1]
    setup = attrs.evolve(end, nut_turns=f"{turns - 0.1:.4f} turn")
    lines = bw.working(setup, asked="ride").lines
    height = next(line for line in lines if getattr(line, "symbol", "") == "H")
    assert isinstance(height, bw.answers.WorkingStep)
    assert height.uncertainty is not None
    assert height.uncertainty > 0.0


def test_a_figure_without_tolerances_has_no_uncertainty() -> None:
    answer = bw.working(USUAL, figure="bar_rate")
    assert "±" not in answer.headline
    assert "±" not in bw.text(answer).partition("Where the bar lies")[2]


def test_missing_figures_are_named_and_the_rest_is_shown() -> None:
    setup = without(make_setup(), "axle.unsprung_mass").with_load(
        kind=bw.parts.LoadKind.SCALE_READING, mass="326 kg"
    )
    answer = bw.working(setup)
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert any("unsprung mass" in finding.line for finding in answer.findings)
    assert [section.title for section in answer.sections][-1] == "Bar and tube in series"
    assert bw.working(setup, figure="ride.wheel_rate").lines == answer.lines


def test_an_unknown_figure_is_refused() -> None:
    with pytest.raises(bw.SchemaError, match="did you mean 'bar_rate'"):
        bw.working(USUAL, figure="bar_rat")


def test_the_frequency_rests_on_a_rate_in_the_unit_of_masses() -> None:
    text = bw.text(bw.working(USUAL, figure="ride_frequency"))
    assert "√(1000 · K_r / m) / (2 · π)" in text


def test_a_fillet_that_no_model_covers_has_no_stress() -> None:
    wide = make_end(42, taper="0 mm", fillet_radius="400 mm")
    setup = make_setup(bar=make_bar(anchor_end=wide))
    assert_shows_the_answer(setup, "strength", None)
    symbols = {getattr(line, "symbol", "") for line in bw.working(setup, asked="strength").lines}
    assert "L_tc" in symbols
    assert "τ_fc" not in symbols


def test_a_figure_without_a_unit_is_told_too() -> None:
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    answer = bw.working(setup, asked="strength", figure="at_yield.factor")
    assert re.fullmatch(r"Factor to .* at full bump: \d\.\d\d ± 0\.\d\d\.", answer.headline)
    exact = bw.working(ANCHORED["a damper of known rate"], figure="damping_ratio")
    assert re.fullmatch(r"Damping ratio .* alone: 0\.\d\d\.", exact.headline)


@pytest.mark.parametrize("job", JOBS[:3], ids=lambda path: path.stem)
def test_every_uncertainty_is_that_of_tolerance_and_of_the_plan(job: Path) -> None:
    corner = bw.load_job(job, discovered_once()).corners[0]
    setup, wanted, present = corner.setup, corner.wanted, corner.present
    rows = {
        row.figure: row.uncertainty
        for row in bw.tolerance(lambda one: bw.rates(one, wanted=wanted), setup).rows
    }
    compared = 0
    for line in bw.working(setup, wanted=wanted).lines:
        if isinstance(line, bw.answers.WorkingStep) and line.figure in rows and line.kind:
            wished = rows[line.figure]
            found = quantity(line.uncertainty or 0.0, line.kind)
            assert wished is not None
            assert found.magnitude == pytest.approx(wished.m_as(found.units), rel=1e-9, abs=1e-9)
            compared += 1
    assert compared > 20
    plan = bw.reindex(setup, wanted=wanted, present=present).plans[0]
    lines = bw.working(
        setup, asked="reindex", wanted=wanted, present=present, figure="height"
    ).lines
    height = next(line for line in lines if getattr(line, "figure", "") == "height")
    assert isinstance(height, bw.answers.WorkingStep)
    assert height.uncertainty == pytest.approx(plan.height_uncertainty.m_as("m"), rel=1e-9)


def test_a_working_is_written_in_its_units_from_the_start() -> None:
    inches = bw.working(VAN, system="inch")
    assert " lbf/in at the wheel at " in inches.headline
    assert inches.headline == bw.in_units(bw.rates(VAN), "inch").headline
    assert bw.in_units(inches, "inch").headline == inches.headline

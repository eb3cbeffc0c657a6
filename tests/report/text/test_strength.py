"""Strength in the terminal: what is known, what is not, and where limits come from."""

from __future__ import annotations

from typing import Any

import attrs

import barwright as bw
from barwright.report.text.strength import runs_between, strength_row, strength_text
from sample_records import make_bar, make_end, make_setup
from terminal_text import folded

ROAD = ["0 mm", "45 mm", "-30 mm", "20 mm", "-10 mm", "60 mm"]
LINE = bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5, source="own tests")
LIMITS = bw.StrengthLimits(
    permissible_shear=bw.answers.StressLimit(stress="900 MPa", source="own tests"),
    shear_yield="800 MPa",
    ultimate_shear="1005 MPa",
    endurance="300 MPa",
    woehler_line=LINE,
)


def test_stresses_factors_and_sources_are_shown() -> None:
    answer = bw.strength(make_setup(), limits=LIMITS, travel="40 mm", history=ROAD)
    assert answer.figures is not None
    figures = answer.figures
    shown = folded(strength_text(answer))
    assert shown.startswith(
        "The bar is strong enough: 770 MPa at full bump against 900 MPa allowed. "
        f"! {bw.answers.Caution.SCRAP_ON_NICKS.text} At droop, ride and bump full droop ride full "
        "bump shear stress of"
    )
    assert f"{figures.bump.stress:.0f~P} factor to the" in shown
    at_yield = f"{figures.droop_at_yield.factor:.2f} {figures.at_yield.factor:.2f}"
    assert (
        f"{figures.bump.factor:.2f} factor against yield {at_yield} Limits the bar is not pre-set p"
        in shown
    )
    assert "permissible shear stress 900 MPa; source: own tests" in shown
    assert "yield stress in shear 800 MPa; source: caller" in shown
    assert figures.swing is not None
    assert "Wheel ± 40 mm about ride height mean ± amplitude" in shown
    mean, amplitude = f"{figures.swing.mean:.0f~P}", f"{figures.swing.amplitude:.0f~P}"
    assert f"{mean} ± {amplitude} endurance limit, as an amplitude 300 MPa" in shown
    goodman = f"factor by Goodman's line {figures.swing.goodman_factor:.2f}"
    ultimate = "ultimate stress in shear 1005 MPa; source: caller"
    assert f" as an amplitude 300 MPa; source: caller {ultimate} {goodman}" in shown
    assert f"by Gerber's parabola {figures.swing.gerber_factor:.2f}" in shown
    assert f"by the elliptic curve {figures.swing.elliptic_factor:.2f}" in shown
    assert f"by Soderberg's line {figures.swing.soderberg_factor:.2f}" in shown
    assert f"greatest stress, against yield {figures.swing.yield_factor:.2f}" in shown


def test_a_history_shows_its_largest_cycle_its_line_and_its_band() -> None:
    answer = bw.strength(make_setup(), limits=LIMITS, history=ROAD)
    life, band = answer.life, answer.life.band
    assert band is not None
    shown = folded(strength_text(answer))
    greatest = life.ranges.magnitude.max()
    assert "Wheel ±" not in shown
    source = "cycles from travels in the order of time, counted by rainflow"
    cycles = f"cycles, halves included {sum(life.counts):g} largest cycle"
    assert f"Life under a history of wheel travel, as a band {source} {cycles}" in shown
    assert f"± {greatest / 2.0:.0f} MPa line of lives 400 MPa at 1e+06 cycles" in shown
    assert "exponent 5; source: own tests ultimate stress in shear 1005 MPa" in shown
    assert f"runs until failure {runs_between(band)} What the ends of that band count 1" in shown
    assert "that is" not in shown
    for number, basis in enumerate(band.basis, 1):
        assert f"{number} {basis.value}" in shown


def test_a_history_that_covers_a_distance_shows_one() -> None:
    asked: dict[str, Any] = {"limits": LIMITS, "history": ROAD, "history_covers": "0.05 km"}
    answer = bw.strength(make_setup(), **asked)
    assert answer.life.band is not None
    fewest, most = answer.life.band.fewest_runs, answer.life.band.most_runs
    assert fewest is not None
    assert most is not None
    shown = folded(strength_text(answer))
    low, high = (f"{float(f'{runs * 0.05:.2g}'):g}" for runs in (fewest, most))
    million = f"{float(high) / 1e6:g} million"
    assert f"that is {low} to {million if float(high) >= 1e6 else high} km What" in shown


def test_two_lines_of_lives_are_both_shown() -> None:
    strong = attrs.evolve(LINE, at_stress="500 MPa")
    known = attrs.evolve(
        LIMITS, woehler_line=None, woehler_band=bw.WoehlerBand(lowest=LINE, highest=strong)
    )
    shown = folded(strength_text(bw.strength(make_setup(), limits=known, history=ROAD)))
    assert "lower line of lives 400 MPa at 1e+06 cycles" in shown
    assert "upper line of lives 500 MPa at 1e+06 cycles" in shown


def band(fewest: float | None, most: float | None) -> bw.answers.LifeBand:
    return bw.answers.LifeBand(
        fewest_runs=fewest,
        most_runs=most,
        shortest=None if fewest is None else bw.Quantity(3.0 * fewest, "km"),
        longest=None if most is None else bw.Quantity(3.0 * most, "km"),
        stress_uncertainty=0.0,
        concentration=1.0,
        basis=(),
    )


def test_a_band_is_read_aloud_with_two_digits_at_each_end() -> None:
    assert runs_between(None) == "not known"
    assert runs_between(band(None, None)) == "without an end"
    assert runs_between(band(1234.0, None)) == "1200 at least, without an upper end"
    assert runs_between(band(0.046, 5.63e6)) == "0.046 to 5.6 million"


def test_a_distance_without_an_upper_end_is_said_to_be_one() -> None:
    lines = bw.WoehlerBand(lowest=LINE, highest=attrs.evolve(LINE, endurance="400 MPa"))
    known = attrs.evolve(LIMITS, woehler_line=None, woehler_band=lines)
    gentle = ["0 mm", "5 mm", "0 mm"]
    asked: dict[str, Any] = {"limits": known, "history": gentle, "history_covers": "1 year"}
    shown = folded(strength_text(bw.strength(make_setup(), **asked)))
    assert "year at least, without an upper end What the ends" in shown


def test_a_line_that_ends_says_where() -> None:
    ends = bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5, endurance="250 MPa")
    limits = bw.StrengthLimits(woehler_line=ends)
    shown = folded(strength_text(bw.strength(make_setup(), limits=limits, history=ROAD)))
    assert "exponent 5, unlimited life up to 250 MPa; source: caller" in shown


def test_a_bar_without_stress_has_no_factor() -> None:
    answer = bw.strength(make_setup(), limits=LIMITS)
    assert answer.figures is not None
    figures = answer.figures
    unstressed = attrs.evolve(figures.droop, stress=bw.Quantity(0.0, "MPa"), factor=None)
    changed = attrs.evolve(answer, figures=attrs.evolve(figures, droop=unstressed))
    shown = folded(strength_text(changed))
    assert "permissible stress none " in shown


def test_what_is_not_known_is_said_not_to_be() -> None:
    bar = make_bar(preset=True, made_for=bw.parts.Side.LEFT)
    answer = bw.strength(make_setup(bar=bar), travel="40 mm", history=["0 mm"])
    shown = folded(strength_text(answer))
    assert "note: the strength of the bar is not known" in shown
    assert "note: the swing leaves out the residual stress of pre-setting" in shown
    none = f"permissible stress {'not known ' * 3}factor against yield {'not known ' * 2}"
    assert f"{none}Limits the bar is pre-set permissible shear" in shown
    assert "permissible shear stress not known yield stress in shear not known" in shown
    assert "factor by Goodman's line none" in shown
    assert (
        "largest cycle, mean ± amplitude none line of lives not known: state the surface" in shown
    )
    assert "ultimate stress in shear not known runs until failure not known" in shown


def test_fillets_and_pre_setting_are_shown_where_they_are_known() -> None:
    end = make_end(39, taper="0 mm", fillet_radius="3 mm")
    left: dict[str, Any] = {
        "preset": True,
        "made_for": bw.parts.Side.LEFT,
        "preset_twist": "150 deg",
    }
    setup = make_setup(bar=make_bar(arm_end=end, **left))
    answer = bw.strength(setup, limits=LIMITS, travel="40 mm")
    assert answer.figures is not None
    (fillet,) = answer.figures.fillets
    shown = folded(strength_text(answer))
    assert answer.figures.residual_stress is not None
    assert f"by pre-setting {answer.figures.residual_stress:.0f~P} in the fillet at" in shown
    times = f"{fillet.concentration:.2f} times that of the body; amplitude {fillet.amplitude:.0f~P}"
    assert f"fillet at the arm end at most {fillet.greatest:.0f~P}, {times}" in shown
    assert "amplitude" not in folded(strength_text(bw.strength(setup, limits=LIMITS)))


def test_a_bar_without_stresses_shows_why() -> None:
    shown = folded(strength_text(bw.strength(make_setup(bar=make_bar(length="1200 mm")))))
    assert shown.startswith("Does not fit: the bar is too long: its splines")


def test_a_row_sums_it_up() -> None:
    full = bw.strength(make_setup(), limits=LIMITS, travel="40 mm", history=ROAD)
    assert full.figures is not None
    row = strength_row(full)
    assert list(row) == [
        "answer",
        "stress at droop",
        "stress at bump",
        "least factor",
        "Goodman's factor",
        "runs until failure",
    ]
    assert row["answer"] == "strong enough"
    assert row["stress at droop"] == f"{full.figures.droop.stress:.0f~P}"
    assert row["stress at bump"] == f"{full.figures.bump.stress:.0f~P}"
    assert row["least factor"] == f"{full.figures.bump.factor:.2f}"
    assert float(row["Goodman's factor"]) > 1.0
    assert row["runs until failure"] == runs_between(full.life.band)
    plain = strength_row(bw.strength(make_setup()))
    assert list(plain.values())[3:] == ["none", "", ""]
    nothing = strength_row(bw.strength(make_setup(bar=make_bar(length="1200 mm"))))
    assert list(nothing.values()) == ["does not fit", "", "", "", "", ""]


def test_yield_alone_makes_no_bar_strong_enough() -> None:
    below = bw.strength(make_setup(), limits=bw.StrengthLimits(shear_yield="900 MPa"))
    assert below.verdict is bw.Verdict.BELOW_YIELD
    assert below.outcome is bw.Outcome.FINE_WITH_CHANGES
    assert below.headline == (
        "The bar stays below yield: 770 MPa at full bump against 900 MPa at yield. Its permissible "
        "stress is not known."
    )
    assert "strong enough" not in folded(strength_text(below))


def test_the_bolt_is_shown_beside_its_proof_load_and_its_nut() -> None:
    adjuster: dict[str, Any] = {"property_class": bw.parts.PropertyClass.CLASS_8_8}
    answer = bw.strength(make_setup(adjuster=adjuster))
    figures = answer.figures
    assert figures is not None
    bolt, grip = figures.bolt, figures.grip
    assert bolt is not None
    assert grip is not None
    shown = folded(strength_text(answer))
    load = f"Bolt of the adjuster at full bump load, + pulled, - pushed {bolt.at_bump:.0f~P}"
    assert f"{load} share of its proof load {bolt.proof_share:.2f} of " in shown
    assert "source: ISO 898-1 shear in the thread of the bolt" in shown
    assert f"thread of the nut {grip.nut_thread_shear:.0f~P} height of the nut" in shown
    needed = f"the bolt's thread needs {grip.needed_height:.1f~P} for its proof load"
    assert needed in shown


def test_a_bolt_without_a_class_is_shown_without_a_share() -> None:
    shown = folded(strength_text(bw.strength(make_setup())))
    assert "share of its proof load not known: the property class of the bolt is missing" in shown
    assert "height of the nut" not in shown


def test_a_bar_that_yields_shows_the_set_that_it_takes() -> None:
    weak = bw.StrengthLimits(shear_yield="400 MPa")
    answer = bw.strength(make_setup(), limits=weak)
    assert answer.figures is not None
    assert answer.figures.kept_twist is not None
    kept = f"stroke leaves for ever at least {answer.figures.kept_twist.m_as('deg'):.1f}°"
    assert kept in folded(strength_text(answer))

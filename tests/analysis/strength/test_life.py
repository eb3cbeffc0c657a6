"""Bands of life: what they count, what widens them, and what each end is by hand."""

from __future__ import annotations

import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.answers import LifeBand, LifeBasis
from barwright.mechanics.strength import histories
from draws import draws
from sample_records import make_bar, make_end, make_setup

LINE = bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5, source="tests")
BAND = bw.WoehlerBand(
    lowest=attrs.evolve(LINE, at_stress="350 MPa"), highest=attrs.evolve(LINE, at_stress="450 MPa")
)
KNOWN = bw.StrengthLimits(ultimate_shear="1005 MPa", woehler_line=LINE)
ROAD = ("0 mm", "45 mm", "-30 mm", "20 mm", "-10 mm", "60 mm", "-60 mm", "0 mm")
STEEL = bw.parts.Material(
    id="t:material/known",
    title="Steel whose strengths are known",
    shear_modulus="77 GPa",
    tensile_strength="1500 MPa",
    proof_strength="1200 MPa",
)
GROUND = bw.StrengthLimits(surface=bw.BarSurface.GROUND)


def life_of(setup: bw.Setup, **asked: Any) -> bw.answers.FatigueLife:
    return bw.strength(setup, **asked).life


def band_of(setup: bw.Setup, **asked: Any) -> LifeBand:
    band = life_of(setup, **asked).band
    assert band is not None
    return band


def ends_of(band: LifeBand) -> tuple[float, float]:
    assert band.fewest_runs is not None
    assert band.most_runs is not None
    return band.fewest_runs, band.most_runs


def of_steel(**change: Any) -> bw.Setup:
    """A corner whose bar is of a steel with known strengths."""
    return make_setup(bar=make_bar(**({"material": STEEL} | change)))


def runs_by_hand(
    life: bw.answers.FatigueLife,
    line: bw.WoehlerLine,
    *,
    times: float = 1.0,
    residual: float = 0.0,
    ultimate: float = 1005.0,
) -> float:
    """Runs until Miner's sum is 1, cycle by cycle, in megapascals."""
    damage = 0.0
    for size, mean, count in zip(
        life.ranges.m_as("MPa"), life.means.m_as("MPa"), life.counts, strict=True
    ):
        left = 1.0 - abs(mean * times + residual) / ultimate
        amplitude = size * times / 2.0 / left
        if line.endurance is None or amplitude > line.endurance.m_as("MPa"):
            cycles = line.at_life * (line.at_stress.m_as("MPa") / amplitude) ** line.exponent
            damage += count / cycles
    return 1.0 / damage


# -- What is counted ----------------------------------------------------------------------


def test_cycles_are_counted_in_the_stress_of_the_travels() -> None:
    setup = make_setup()
    rated = bw.rates(setup).figures
    assert rated is not None
    curve, ride = rated.curve, rated.ride.height.m_as("mm")
    per_torque = rated.bump.shear_stress.m_as("MPa") / rated.bump.torque.m_as("N*m")
    travels = np.array([float(bw.Quantity(point).m_as("mm")) for point in ROAD])
    torque = np.interp(ride - travels, curve.height.magnitude[::-1], curve.torque.magnitude[::-1])
    cycles = histories.count_cycles(torque * per_torque)
    life = life_of(setup, history=ROAD)
    assert life.ranges.m_as("MPa") == pytest.approx(cycles.ranges, rel=2e-3)
    assert life.means.m_as("MPa") == pytest.approx(cycles.means, rel=2e-3)
    assert list(life.counts) == cycles.counts.tolist()
    assert {type(count) for count in life.counts} == {float}
    assert life.history_source == "travels in the order of time, counted by rainflow"


@pytest.mark.parametrize(
    "history", [["0 mm", bw.Quantity(1.0, "inch")], bw.Quantity([0.0, 1.0], "inch")]
)
def test_a_history_is_a_list_of_figures_or_an_array(history: Any) -> None:
    wanted = life_of(make_setup(), history=["0 mm", "25.4 mm"])
    assert life_of(make_setup(), history=history) == wanted


@pytest.mark.parametrize("history", [[], bw.Quantity([], "mm")])
def test_an_empty_history_has_no_cycles(history: Any) -> None:
    assert life_of(make_setup(), history=history).counts == ()


def test_a_slack_bar_carries_nothing_over_its_history() -> None:
    slack = make_setup(bar=make_bar(diameter="28.2 mm"))
    wanted = bw.Wanted(height="404 mm")
    life = life_of(slack, history=["0 mm", "-70 mm"], wanted=wanted)
    ride = bw.strength(slack, wanted=wanted).figures
    assert ride is not None
    # Down to no stress and no further.
    assert life.ranges[0].m_as("MPa") == pytest.approx(ride.ride.stress.m_as("MPa"), rel=1e-9)


def test_a_stroke_of_a_spectrum_is_a_share_of_the_travel_to_either_stop() -> None:
    setup = make_setup()
    whole = bw.TravelSpectrum(
        stroke_shares=(1.0,), stroke_counts=(7,), covers="30 km", source="tests"
    )
    life, figures = life_of(setup, history=whole), bw.strength(setup).figures
    assert figures is not None
    low, high = figures.droop.stress.m_as("MPa"), figures.bump.stress.m_as("MPa")
    assert life.ranges.m_as("MPa") == pytest.approx([high - low], rel=1e-9)
    assert life.means.m_as("MPa") == pytest.approx([(high + low) / 2.0], rel=1e-9)
    assert (life.counts, life.history_source) == ((7.0,), "tests")
    assert life.covers == bw.Quantity(30.0, "km")


# -- The ends of a band -------------------------------------------------------------------


@pytest.mark.parametrize("endurance", [None, "120 MPa"])
def test_one_line_leaves_the_scatter_of_miners_sum(endurance: str | None) -> None:
    line = attrs.evolve(LINE, endurance=endurance)
    known = bw.StrengthLimits(ultimate_shear="1005 MPa", woehler_line=line)
    life = life_of(make_setup(), history=ROAD, limits=known)
    assert life.band is not None
    runs = runs_by_hand(life, line)
    assert ends_of(life.band) == pytest.approx((runs / 3.0, runs * 3.0), rel=1e-9)
    assert life.woehler_band == bw.WoehlerBand(lowest=line, highest=line)
    assert (life.band.stress_uncertainty, life.band.concentration) == (0.0, 1.0)
    assert life.band.basis == (
        LifeBasis.MINER,
        LifeBasis.ONE_LINE,
        LifeBasis.EXACT_FIGURES,
        LifeBasis.NO_DAMAGE,
    )


def test_two_lines_are_the_two_ends() -> None:
    known = bw.StrengthLimits(ultimate_shear="1005 MPa", woehler_band=BAND)
    life = life_of(make_setup(), history=ROAD, limits=known)
    assert life.band is not None
    low, high = runs_by_hand(life, BAND.lowest), runs_by_hand(life, BAND.highest)
    assert ends_of(life.band) == pytest.approx((low / 3.0, high * 3.0), rel=1e-9)
    assert LifeBasis.TWO_LINES in life.band.basis
    assert LifeBasis.ONE_LINE not in life.band.basis


def test_the_tolerances_of_the_figures_widen_a_band_both_ways() -> None:
    setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    rows = {row.figure: row for row in bw.tolerance(bw.rates, setup).rows}
    bump = rows["bump.shear_stress"]
    assert bump.uncertainty is not None
    share = float(bump.uncertainty.m_as("MPa") / bump.nominal.m_as("MPa"))
    life = life_of(setup, history=ROAD, limits=KNOWN)
    assert life.band is not None
    assert life.band.stress_uncertainty == pytest.approx(share, rel=1e-9)
    assert 0.01 < share < 0.2
    low = runs_by_hand(life, LINE, times=1.0 + share) / 3.0
    high = runs_by_hand(life, LINE, times=1.0 - share) * 3.0
    assert ends_of(life.band) == pytest.approx((low, high), rel=1e-9)
    assert LifeBasis.FIGURES in life.band.basis


def test_a_history_says_what_a_run_covers_or_its_life_is_in_runs_alone() -> None:
    asked: dict[str, Any] = {"history": ROAD, "limits": KNOWN}
    bare = band_of(make_setup(), **asked)
    assert (bare.shortest, bare.longest) == (None, None)
    for covers, unit in (("12 km", "km"), ("0.5 year", "year"), ("8 mi", "mi"), ("3 h", "h")):
        life = life_of(make_setup(), **asked, history_covers=covers)
        band = life.band
        assert band is not None
        assert life.covers == bw.Quantity(covers)
        each = float(covers.split()[0])
        assert band.shortest is not None
        assert band.longest is not None
        fewest, most = ends_of(band)
        assert band.shortest.m_as(unit) == pytest.approx(each * fewest)
        assert band.longest.m_as(unit) == pytest.approx(each * most)


def test_a_history_without_harm_has_no_end() -> None:
    still = life_of(make_setup(), history=["0 mm", "0 mm"], limits=KNOWN, history_covers="1 km")
    assert still.band is not None
    assert (still.counts, still.band.fewest_runs, still.band.most_runs) == ((), None, None)
    assert (still.band.shortest, still.band.longest) == (None, None)
    assert still.lasts_one_run


def test_a_band_that_reaches_below_one_run_is_told_and_no_verdict() -> None:
    setup = of_steel()
    known = attrs.evolve(KNOWN, permissible_shear="1400 MPa", shear_yield="1000 MPa")
    fewest, _ = ends_of(band_of(setup, history=ROAD, limits=known))
    # Lives that let the lower end fall to half a run, and the line itself to one and a half.
    short = attrs.evolve(LINE, at_life=LINE.at_life / fewest / 2.0)
    answer = bw.strength(setup, history=ROAD, limits=attrs.evolve(known, woehler_line=short))
    assert answer.verdict is bw.Verdict.HOLDS
    assert answer.life.lasts_one_run
    (finding,) = answer.findings
    assert finding.text.startswith("at the lower end of its band of life the bar breaks")


# -- Estimated lives ----------------------------------------------------------------------


def test_lives_are_estimated_only_if_a_surface_is_stated() -> None:
    assert life_of(of_steel(), history=ROAD).band is None
    life = life_of(of_steel(), history=ROAD, limits=GROUND)
    assert life.band is not None
    assert life.woehler_band is not None
    assert life.ultimate is not None
    assert life.ultimate.stress.m_as("MPa") == pytest.approx(1005.0)
    low = runs_by_hand(life, life.woehler_band.lowest)
    assert life.band.fewest_runs == pytest.approx(low / 3.0, rel=1e-9)
    assert life.band.basis == (
        LifeBasis.MINER,
        LifeBasis.ESTIMATED,
        LifeBasis.STATED_SURFACE,
        LifeBasis.NO_FILLETS,
        LifeBasis.EXACT_FIGURES,
        LifeBasis.NO_PEENING,
        LifeBasis.NO_DAMAGE,
    )


def test_a_worse_surface_shortens_a_life_and_an_unstated_one_spans_them_all() -> None:
    surfaces = ("ground", "machined", "hot-rolled", "as-forged", "any")
    bands = {
        name: band_of(
            of_steel(),
            history=bw.usual_travel(),
            limits=bw.StrengthLimits(surface=bw.BarSurface(name)),
        )
        for name in surfaces
    }
    fewest = [bands[name].fewest_runs or math.inf for name in surfaces]
    assert fewest[:4] == sorted(fewest[:4], reverse=True)
    assert bands["any"].fewest_runs == bands["as-forged"].fewest_runs
    assert bands["any"].most_runs == bands["ground"].most_runs
    assert LifeBasis.ANY_SURFACE in bands["any"].basis


def test_a_fillet_counts_in_full_at_the_lower_end_of_an_estimate_alone() -> None:
    end = make_end(39, taper="0 mm", fillet_radius="3 mm")
    setup = of_steel(arm_end=end)
    life = life_of(setup, history=ROAD, limits=GROUND)
    assert life.band is not None
    assert life.woehler_band is not None
    (fillet,) = bw.strength(setup).figures.fillets  # type: ignore[union-attr]
    assert life.band.concentration == fillet.concentration > 1.1
    low = runs_by_hand(life, life.woehler_band.lowest, times=fillet.concentration)
    assert life.band.fewest_runs == pytest.approx(low / 3.0, rel=1e-9)
    assert LifeBasis.FILLETS in life.band.basis
    assert band_of(setup, history=ROAD, limits=KNOWN).concentration == 1.0


def test_a_fillet_that_no_model_covers_is_said_to_be_left_out() -> None:
    end = make_end(39, taper="0 mm", fillet_radius="0.1 mm")
    band = band_of(of_steel(arm_end=end), history=ROAD, limits=GROUND)
    assert band.concentration == 1.0
    assert LifeBasis.UNKNOWN_FILLETS in band.basis
    assert LifeBasis.FILLETS not in band.basis


# -- Pre-setting --------------------------------------------------------------------------


def test_what_pre_setting_leaves_lengthens_the_upper_end_alone() -> None:
    pre_set = of_steel(preset=True, made_for=bw.parts.Side.LEFT, preset_twist="150 deg")
    life, plain = (life_of(s, history=ROAD, limits=KNOWN) for s in (pre_set, of_steel()))
    assert life.band is not None
    assert plain.band is not None
    figures = bw.strength(pre_set).figures
    assert figures is not None
    assert figures.residual_stress is not None
    left = figures.residual_stress.m_as("MPa")
    assert left < 0.0
    assert life.band.fewest_runs == plain.band.fewest_runs
    high = runs_by_hand(life, LINE, residual=left) * 3.0
    assert life.band.most_runs == pytest.approx(high, rel=1e-9)
    assert ends_of(life.band)[1] > ends_of(plain.band)[1]
    assert LifeBasis.PRESETTING in life.band.basis


def test_pre_setting_of_an_unknown_twist_is_said_to_be_left_out() -> None:
    pre_set = of_steel(preset=True, made_for=bw.parts.Side.LEFT)
    band = band_of(pre_set, history=ROAD, limits=KNOWN)
    assert band == attrs.evolve(band_of(of_steel(), history=ROAD, limits=KNOWN), basis=band.basis)
    assert LifeBasis.UNKNOWN_PRESETTING in band.basis


# -- Laws ---------------------------------------------------------------------------------


@settings(max_examples=draws(25))
@given(
    travels=st.lists(st.floats(-70.0, 70.0), min_size=2, max_size=8),
    exponent=st.floats(3.0, 12.0),
    scatter=st.floats(1.0, 2.0),
)
def test_a_band_holds_the_life_of_its_own_line(
    travels: list[float], exponent: float, scatter: float
) -> None:
    line = attrs.evolve(LINE, exponent=exponent)
    band = bw.WoehlerBand(
        lowest=attrs.evolve(line, at_stress=line.at_stress / scatter),
        highest=attrs.evolve(line, at_stress=line.at_stress * scatter),
    )
    known = bw.StrengthLimits(ultimate_shear="1005 MPa", woehler_band=band)
    life = life_of(make_setup(), history=bw.QuantityArray(travels, "mm"), limits=known)
    assert life.band is not None
    if life.counts and max(life.ranges.m_as("MPa")) > 1.0:
        between = runs_by_hand(life, line)
        fewest, most = ends_of(life.band)
        assert fewest <= between * (1.0 + 1e-9)
        assert most >= between * (1.0 - 1e-9)
        assert most / fewest == pytest.approx(9.0 * scatter ** (2.0 * exponent), rel=1e-6)

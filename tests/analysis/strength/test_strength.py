"""Strength and life: figures that follow from others, limits with their sources, and verdicts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import attrs
import numpy as np
import pytest

import barwright as bw
from barwright.mechanics.strength import fatigue
from barwright.mechanics.strength import shear_limits as limits
from sample_records import make_bar, make_setup

STEEL = bw.parts.Material(
    id="t:material/known",
    title="Steel whose strengths are known",
    shear_modulus="77 GPa",
    tensile_strength="1500 MPa",
    proof_strength="1200 MPa",
    permissible_shear="700 MPa",
    preset_permissible_shear="1020 MPa",
)
LINE = bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5, source="tests")
ROAD = ("0 mm", "45 mm", "-30 mm", "20 mm", "-10 mm", "60 mm", "-60 mm", "0 mm")


def figures_of(setup: bw.Setup, **asked: Any) -> bw.answers.StrengthFigures:
    answer = bw.strength(setup, **asked)
    assert answer.figures is not None
    return answer.figures


def swing_of(setup: bw.Setup, **asked: Any) -> bw.answers.StressSwing:
    swing = figures_of(setup, **asked).swing
    assert swing is not None
    return swing


def life_of(setup: bw.Setup, **asked: Any) -> bw.answers.FatigueLife:
    life = figures_of(setup, **asked).life
    assert life is not None
    return life


def of_steel(**change: Any) -> bw.Setup:
    """A corner whose bar is of a steel with known strengths."""
    return make_setup(bar=make_bar(material=attrs.evolve(STEEL, **change)))


def of_strong_steel() -> bw.Setup:
    """A corner whose bar is nowhere overstressed."""
    strong = {"permissible_shear": "1400 MPa", "preset_permissible_shear": "1400 MPa"}
    return of_steel(**strong, proof_strength=None)


def megapascals(value: bw.Quantity) -> float:
    return float(value.m_as("MPa"))


def stress_over_travel(setup: bw.Setup, travels: Sequence[float], **wanted: Any) -> list[float]:
    """Shear stress [MPa] at hub travels [mm], read off the curve of the rates."""
    rated = bw.rates(setup, wanted=bw.Wanted(**wanted) if wanted else None).figures
    assert rated is not None
    height = rated.ride.height.m_as("mm") - np.array(travels)
    curve = rated.curve
    per_torque = megapascals(rated.bump.shear_stress) / rated.bump.torque.m_as("N*m")
    torque = np.interp(height, curve.height.magnitude[::-1], curve.torque.magnitude[::-1])
    return [float(x) for x in torque * per_torque]


# -- Stresses and limits ------------------------------------------------------------------


def test_stresses_are_those_of_the_rates() -> None:
    setup = make_setup()
    figures, rated = figures_of(setup), bw.rates(setup).figures
    assert rated is not None
    for name in ("droop", "ride", "bump"):
        assert getattr(figures, name).stress == getattr(rated, name).shear_stress
    assert figures.at_yield.stress == rated.bump.shear_stress


def test_without_a_limit_there_is_a_stress_and_no_verdict() -> None:
    answer = bw.strength(make_setup(), travel="40 mm", history=ROAD)
    figures = answer.figures
    assert figures is not None
    assert answer.outcome.is_good
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.STRESS
    assert finding.text.startswith("the strength of the bar is not known")
    for check in (figures.droop, figures.ride, figures.bump, figures.at_yield):
        assert (check.limit, check.factor) == (None, None)
    assert figures.swing is not None
    assert figures.life is not None
    assert (figures.swing.goodman_factor, figures.swing.haigh_line) == (None, None)
    assert (figures.swing.gerber_factor, figures.swing.yield_factor) == (None, None)
    assert (figures.swing.soderberg_factor, figures.swing.elliptic_factor) == (None, None)
    assert figures.life.band is None
    assert figures.life.lasts_one_run
    assert megapascals(figures.swing.amplitude) > 0.0
    assert figures.life.counts


def test_what_was_not_asked_is_not_answered() -> None:
    figures = figures_of(make_setup())
    assert (figures.swing, figures.life) == (None, None)


@pytest.mark.parametrize(("preset", "limit"), [(False, 700.0), (True, 1020.0)])
def test_the_permissible_stress_of_the_steel_depends_on_pre_setting(
    preset: bool,  # noqa: FBT001 - a parameter of the test
    limit: float,
) -> None:
    bar = make_bar(material=STEEL, preset=preset, made_for=bw.parts.Side.LEFT)
    figures = figures_of(make_setup(bar=bar))
    assert figures.preset is preset
    for check in (figures.droop, figures.ride, figures.bump):
        assert check.limit is not None
        assert check.factor is not None
        assert megapascals(check.limit.stress) == limit
        assert check.factor == pytest.approx(limit / megapascals(check.stress), rel=1e-12)
        assert check.limit.source == "caller"


def test_a_limit_of_the_caller_comes_before_that_of_the_steel() -> None:
    mine = bw.answers.StressLimit(stress="130 ksi", source="own tests")
    given = bw.StrengthLimits(permissible_shear=mine, shear_yield="750 MPa")
    figures = figures_of(of_steel(), limits=given)
    assert figures.bump.limit == mine
    assert figures.at_yield.limit == bw.answers.StressLimit(stress="750 MPa")
    assert figures.at_yield.limit.source == "caller"


def test_yield_in_shear_follows_from_the_proof_strength_of_the_steel() -> None:
    limit = figures_of(of_steel()).at_yield.limit
    assert limit is not None
    assert megapascals(limit.stress) == pytest.approx(limits.yield_shear(1200.0))
    assert limit.source == "caller, by distortion energy"
    assert figures_of(of_steel(proof_strength=None)).at_yield.limit is None


def test_ultimate_shear_is_a_share_of_the_tensile_strength_only_if_the_share_is_given() -> None:
    with_ratio = swing_of(of_steel(), travel="40 mm", limits=bw.StrengthLimits(shear_ratio=0.67))
    assert with_ratio.ultimate is not None
    assert megapascals(with_ratio.ultimate.stress) == pytest.approx(1005.0)
    assert with_ratio.ultimate.source == "caller, times 0.67"
    assert swing_of(of_steel(), travel="40 mm").ultimate is None
    own = bw.StrengthLimits(shear_ratio=0.67, ultimate_shear="990 MPa")
    assert swing_of(of_steel(), travel="40 mm", limits=own).ultimate == bw.answers.StressLimit(
        stress="990 MPa"
    )
    unknown = of_steel(tensile_strength=None)
    assert swing_of(
        unknown, travel="40 mm", limits=bw.StrengthLimits(shear_ratio=0.67)
    ).ultimate is (None)


@pytest.mark.parametrize(
    ("name", "megapascal", "source"),
    [
        ("51crv4-40-mm", 461.88, "standards:merchant-sheet (maker)"),
        ("52crmov4", 692.82, "standards:steel-sheet (maker)"),
        ("sae-4340", 894.89, "standards:teaching-table (published)"),
    ],
)
def test_a_steel_of_the_standards_is_judged_by_its_own_proof_strength(
    name: str, megapascal: float, source: str
) -> None:
    figures = figures_of(make_setup(bar=make_bar(material=standard_steel(name))))
    assert figures.bump.limit is None
    assert figures.at_yield.limit is not None
    assert megapascals(figures.at_yield.limit.stress) == pytest.approx(megapascal, abs=0.01)
    assert figures.at_yield.limit.source == f"{source}, by distortion energy"


def test_a_steel_of_no_known_strength_gives_no_limit() -> None:
    figures = figures_of(make_setup(bar=make_bar(material=standard_steel("51crv4"))))
    assert (figures.bump.limit, figures.at_yield.limit) == (None, None)


def standard_steel(name: str) -> bw.parts.Material:
    """A steel that ships with the library."""
    steel = bw.Registry.discover().part(f"standards:material/{name}")
    assert isinstance(steel, bw.parts.Material)
    return steel


@pytest.mark.parametrize(("preset", "field"), [(False, "not_preset"), (True, "preset")])
def test_din_2091_is_given_only_where_it_is_asked_for(
    preset: bool,  # noqa: FBT001 - a parameter of the test
    field: str,
) -> None:
    limit = bw.din_2091(make_bar(preset=preset, made_for=bw.parts.Side.LEFT))
    assert limit.stress.m_as("Pa") == getattr(limits.DIN_2091, field)
    assert limit.source == limits.DIN_2091.source
    assert "unconfirmed" in limit.source


def test_factors_correct_the_endurance_limit_of_a_specimen() -> None:
    factors = bw.EnduranceFactors(
        surface_factor=0.8,
        size_factor=0.9,
        loading_factor=1,
        temperature_factor=1,
        reliability_factor=0.9,
        notch_factor=1,
    )
    given = bw.StrengthLimits(
        endurance=bw.answers.StressLimit(stress="400 MPa", source="a specimen"),
        endurance_factors=factors,
    )
    swing = swing_of(make_setup(), travel="40 mm", limits=given)
    assert swing.endurance is not None
    assert megapascals(swing.endurance.stress) == pytest.approx(259.2)
    assert swing.endurance.source == "a specimen, with its factors"
    alone = bw.StrengthLimits(endurance_factors=factors)
    assert swing_of(make_setup(), travel="40 mm", limits=alone).endurance is None


# -- Verdicts -----------------------------------------------------------------------------


def test_a_stress_above_the_permissible_one_is_a_no_with_figure_limit_and_source() -> None:
    setup = make_setup()
    bump = figures_of(setup).bump.stress
    limit = bw.answers.StressLimit(stress=bump * 0.999, source="tests")
    answer = bw.strength(setup, limits=bw.StrengthLimits(permissible_shear=limit))
    assert answer.verdict is bw.Verdict.OVERSTRESSED
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.STRESS
    assert finding.text == "the shear stress at full bump is above the permissible one (tests)"
    assert (finding.figure, finding.limit) == (bump, limit.stress)
    holds = bw.strength(setup, limits=bw.StrengthLimits(permissible_shear=bump))
    assert holds.outcome.is_good


def test_a_body_that_yields_at_full_bump_is_a_no() -> None:
    answer = bw.strength(make_setup(), limits=bw.StrengthLimits(shear_yield="300 MPa"))
    assert answer.verdict is bw.Verdict.OVERSTRESSED
    (finding,) = answer.findings
    assert finding.text == "the bar's body yields at full bump (caller)"


def test_a_swing_above_goodmans_line_is_a_no() -> None:
    weak = bw.StrengthLimits(ultimate_shear="1005 MPa", endurance="50 MPa")
    answer = bw.strength(make_setup(), travel="40 mm", limits=weak)
    assert answer.verdict is bw.Verdict.OVERSTRESSED
    finding, _ = answer.findings
    factor = swing_of(make_setup(), travel="40 mm", limits=weak).goodman_factor
    assert factor is not None
    assert (finding.figure, finding.limit) == (f"a factor of {factor:.2f}", "1")
    assert "the bar's life is limited" in finding.text


def test_a_history_that_a_bar_does_not_bear_once_is_a_no() -> None:
    line = bw.WoehlerLine(at_stress="20 MPa", at_life=1.0, exponent=5.0)
    weak = bw.StrengthLimits(ultimate_shear="1005 MPa", woehler_line=line)
    answer = bw.strength(make_setup(), history=ROAD, limits=weak)
    assert answer.verdict is bw.Verdict.OVERSTRESSED
    finding, _ = answer.findings
    assert "the whole life" in finding.text
    assert (finding.figure, finding.limit) == ("less than one run", "1 run")


def test_a_mean_that_breaks_the_bar_leaves_no_run() -> None:
    weak = bw.StrengthLimits(ultimate_shear="100 MPa", woehler_line=LINE)
    life = life_of(make_setup(), history=ROAD, limits=weak)
    assert life.band is not None
    assert (life.band.fewest_runs, life.band.most_runs) == (0.0, 0.0)
    assert not life.lasts_one_run
    answer = bw.strength(make_setup(), history=ROAD, limits=weak)
    assert answer.verdict is bw.Verdict.OVERSTRESSED


def test_a_bar_that_does_not_fit_is_said_not_to_fit_whatever_its_stress() -> None:
    setup = make_setup(bar=make_bar(length="946 mm"))
    answer = bw.strength(setup, limits=bw.StrengthLimits(permissible_shear="100 MPa"))
    assert answer.verdict is bw.Verdict.DOES_NOT_FIT
    assert answer.figures is not None
    assert answer.findings[0] in answer.fit.reasons
    assert bw.answers.Topic.STRESS in {finding.topic for finding in answer.findings}


@pytest.mark.parametrize(
    ("setup", "wanted", "verdict"),
    [
        (make_setup(bar=make_bar(length="1200 mm")), None, bw.Verdict.DOES_NOT_FIT),
        (make_setup(), bw.Wanted(height="600 mm"), bw.Verdict.OUT_OF_REACH),
    ],
)
def test_without_rates_there_are_no_stresses(
    setup: bw.Setup, wanted: bw.Wanted | None, verdict: bw.Verdict
) -> None:
    answer = bw.strength(setup, wanted=wanted, travel="40 mm", history=ROAD)
    rated = bw.rates(setup, wanted=wanted)
    assert (answer.verdict, answer.figures) == (verdict, None)
    assert (answer.fit, answer.findings) == (rated.fit, rated.findings)
    assert answer.cautions == ()


def test_the_caution_is_that_of_the_surface() -> None:
    assert bw.strength(make_setup()).cautions == (bw.answers.Caution.SCRAP_ON_NICKS,)


# -- Swing --------------------------------------------------------------------------------


@pytest.mark.parametrize("wanted", [{}, {"height": "377 mm"}])
@pytest.mark.parametrize("bore", [None, "12 mm"])
def test_mean_and_amplitude_are_those_of_the_curve(
    wanted: dict[str, Any], bore: str | None
) -> None:
    setup = make_setup(bar=make_bar(bore=bore))
    swing = swing_of(setup, travel="40 mm", wanted=bw.Wanted(**wanted) if wanted else None)
    low, high = stress_over_travel(setup, [-40.0, 40.0], **wanted)
    assert low < high
    assert megapascals(swing.mean) == pytest.approx((low + high) / 2.0, rel=1e-3)
    assert megapascals(swing.amplitude) == pytest.approx((high - low) / 2.0, rel=1e-3)
    assert swing.travel == bw.Quantity(40.0, "mm")


def test_the_factor_is_that_of_goodmans_line_and_the_line_is_given_to_draw() -> None:
    given = bw.StrengthLimits(ultimate_shear="1005 MPa", endurance="300 MPa", shear_yield="800 MPa")
    swing = swing_of(make_setup(), travel="40 mm", limits=given)
    mean, amplitude = megapascals(swing.mean), megapascals(swing.amplitude)
    assert swing.goodman_factor == pytest.approx(
        fatigue.goodman_factor(amplitude=amplitude, mean=mean, endurance=300.0, ultimate=1005.0)
    )
    line = fatigue.haigh_line(endurance=300.0, ultimate=1005.0, shear_yield=800.0)
    assert swing.haigh_line is not None
    drawn = (swing.haigh_line.means, swing.haigh_line.amplitudes)
    for corners, wanted in zip(drawn, line, strict=True):
        assert corners.m_as("MPa") == pytest.approx(np.asarray(wanted), abs=1e-9)
        assert not corners.magnitude.flags.writeable


def test_without_a_yield_stress_goodmans_line_is_not_cut_off() -> None:
    given = bw.StrengthLimits(ultimate_shear="1005 MPa", endurance="300 MPa")
    line = swing_of(make_setup(), travel="40 mm", limits=given).haigh_line
    assert line is not None
    assert line.means.m_as("MPa").tolist() == pytest.approx([0.0, 1005.0, 1005.0])


@pytest.mark.parametrize(
    ("asked", "known"),
    [
        ({"travel": "40 mm"}, {"endurance": "300 MPa"}),
        ({"history": ROAD}, {"woehler_line": LINE}),
    ],
)
def test_without_an_ultimate_stress_nothing_is_judged_and_it_says_so(
    asked: dict[str, Any], known: dict[str, Any]
) -> None:
    given = bw.StrengthLimits(**known)
    answer = bw.strength(of_strong_steel(), limits=given, **asked)
    assert answer.outcome.is_good
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.STRESS
    assert finding.text.startswith(
        "without an ultimate shear stress the mean stress cannot be judged"
    )


def test_a_travel_beyond_the_stops_is_cut_there_and_said_to_be() -> None:
    setup = make_setup()
    figures = figures_of(setup, travel="400 mm")
    assert figures.swing is not None
    low, high = megapascals(figures.droop.stress), megapascals(figures.bump.stress)
    assert megapascals(figures.swing.mean) == pytest.approx((low + high) / 2.0, rel=1e-9)
    assert megapascals(figures.swing.amplitude) == pytest.approx((high - low) / 2.0, rel=1e-9)
    droop, bump, _ = bw.strength(setup, travel="400 mm").findings
    rated = bw.rates(setup).figures
    assert rated is not None
    assert (droop.topic, bump.topic) == (bw.answers.Topic.TRAVEL, bw.answers.Topic.TRAVEL)
    assert droop.text == "the droop stop cuts off part of the travel given"
    assert bump.text == "the bump stop cuts off part of the travel given"
    assert (droop.figure, bump.figure) == (bw.Quantity(-400.0, "mm"), bw.Quantity(400.0, "mm"))
    for finding, state in ((droop, rated.droop), (bump, rated.bump)):
        assert isinstance(finding.limit, bw.Quantity)
        left = (rated.ride.height - state.height).m_as("mm")
        assert finding.limit.m_as("mm") == pytest.approx(left, abs=1e-9)


def test_a_travel_that_ends_at_a_stop_is_not_cut() -> None:
    setup = of_strong_steel()
    rated = bw.rates(setup).figures
    assert rated is not None
    to_bump = rated.ride.height - rated.bump.height
    to_droop = rated.ride.height - rated.droop.height
    assert bw.strength(setup, history=[to_droop, to_bump]).findings == ()
    further = bw.strength(setup, history=[to_droop, to_bump + bw.Quantity(0.01, "mm")])
    assert [finding.topic for finding in further.findings] == [bw.answers.Topic.TRAVEL]


@pytest.mark.parametrize("asked", [{"travel": "40 mm"}, {"history": ROAD}, {}])
def test_a_pre_set_bar_is_said_to_keep_a_stress_that_its_swing_leaves_out(
    asked: dict[str, Any],
) -> None:
    usual = of_strong_steel()
    setup = usual.with_parts(bar=attrs.evolve(usual.bar, preset=True, made_for=bw.parts.Side.LEFT))
    findings = bw.strength(setup, **asked).findings
    assert [f.text for f in findings if "residual stress of pre-setting" in f.text] == [
        f.text for f in findings
    ]
    assert len(findings) == ("travel" in asked)


# -- Other lines ---------------------------------------------------------------------------


def test_the_load_that_is_grown_by_a_factor_meets_its_line() -> None:
    limits = bw.StrengthLimits(
        endurance="300 MPa", ultimate_shear="1005 MPa", shear_yield="800 MPa"
    )
    swing = swing_of(make_setup(), travel="40 mm", limits=limits)
    mean, amplitude = megapascals(swing.mean), megapascals(swing.amplitude)
    assert swing.gerber_factor is not None
    assert swing.elliptic_factor is not None
    assert swing.soderberg_factor is not None
    assert swing.yield_factor is not None

    n = swing.gerber_factor
    assert n * amplitude / 300.0 + (n * mean / 1005.0) ** 2 == pytest.approx(1.0)
    n = swing.elliptic_factor
    assert (n * amplitude / 300.0) ** 2 + (n * mean / 800.0) ** 2 == pytest.approx(1.0)
    n = swing.soderberg_factor
    assert n * (amplitude / 300.0 + mean / 800.0) == pytest.approx(1.0)
    assert swing.yield_factor * (amplitude + mean) == pytest.approx(800.0)


def test_a_line_of_which_a_limit_is_unknown_gives_no_factor() -> None:
    swing = swing_of(make_setup(), travel="40 mm", limits=bw.StrengthLimits(endurance="300 MPa"))
    others = (swing.gerber_factor, swing.elliptic_factor, swing.soderberg_factor)

    assert (*others, swing.yield_factor) == (None, None, None, None)


# -- Twisted the other way ----------------------------------------------------------------


def light_trailer() -> bw.Setup:
    """The demo trailer with a light box, re-indexed: at droop its bar pulls the arm up."""
    setup = bw.Registry.discover().setup("trundlet:chassis/open", corner="rear left")
    load = attrs.evolve(setup.load, mass="60 kg")
    return attrs.evolve(setup, load=load, arm_tooth=18, anchor_tooth=15)


def test_a_fixed_socket_swings_its_bar_below_the_free_angle() -> None:
    trailer = light_trailer()
    assert isinstance(trailer.anchor, bw.parts.FixedSocket)
    swing = swing_of(trailer, travel="60 mm")
    # The droop stop cuts the swing, as the end of the curve.
    low, high = stress_over_travel(trailer, [-60.0, 60.0])
    assert low < 0.0
    assert megapascals(swing.mean) == pytest.approx((low + high) / 2.0, rel=1e-4)
    assert megapascals(swing.amplitude) == pytest.approx((high - low) / 2.0, rel=1e-4)
    assert (round(megapascals(swing.mean)), round(megapascals(swing.amplitude))) == (65, 272)


def test_a_history_in_a_fixed_socket_counts_the_stress_of_either_sense() -> None:
    trailer = light_trailer()
    life = life_of(trailer, history=["0 mm", "-45 mm", "45 mm", "-45 mm", "0 mm"])
    low, high = stress_over_travel(trailer, [-45.0, 45.0])
    assert low < 0.0
    assert max(life.ranges.m_as("MPa")) == pytest.approx(high - low, rel=1e-3)


def test_a_swing_reaches_the_stresses_of_the_corner_at_its_stops() -> None:
    for setup in (light_trailer(), make_setup()):
        figures = figures_of(setup, travel="400 mm")
        assert figures.swing is not None
        low, high = megapascals(figures.droop.stress), megapascals(figures.bump.stress)
        assert megapascals(figures.swing.mean) == pytest.approx((low + high) / 2.0, rel=1e-9)
        amplitude = megapascals(figures.swing.amplitude)
        assert amplitude == pytest.approx((high - low) / 2.0, rel=1e-9)


def test_the_least_factor_is_that_of_the_greatest_stress_of_either_sense() -> None:
    figures = figures_of(of_steel())
    low = attrs.evolve(figures.droop, factor=0.5)
    assert figures.least_factor == figures.bump.factor
    assert attrs.evolve(figures, droop=low).least_factor == 0.5


# -- Refusals -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("asked", "code", "key"),
    [
        ({"travel": "40"}, "Q105", "travel"),
        ({"travel": "0 mm"}, "Q302", "travel"),
        ({"travel": "40 N"}, "Q202", "travel"),
        ({"history": ["0 mm", "12"]}, "Q105", "history[1]"),
        ({"history": "12 mm"}, "S203", "history"),
        ({"history": bw.Quantity(12.0, "mm")}, "S203", "history"),
        ({"history": bw.Quantity([1.0, 2.0], "kg")}, "Q202", "history"),
        ({"history": bw.Quantity([1.0, float("nan")], "mm")}, "Q301", "history[1]"),
        ({"history": ["0 mm", "nan mm"]}, "Q301", "history[1]"),
    ],
)
def test_figures_that_are_none_are_refused_by_name(
    asked: dict[str, Any], code: str, key: str
) -> None:
    with pytest.raises((bw.QuantityError, bw.SchemaError)) as caught:
        bw.strength(make_setup(), **asked)
    assert (caught.value.code, caught.value.key) == (code, key)


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf"), True])
def test_a_number_that_no_line_of_lives_has_is_refused(value: float) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=value)
    assert (caught.value.code, caught.value.key) == ("Q302", "exponent")
    assert caught.value.expected == "a finite number above zero"
    assert caught.value.remedy == "check the sign and the figure"


def test_a_limit_that_is_none_is_refused_by_name() -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.StrengthLimits(endurance="-3 MPa")
    assert (caught.value.code, caught.value.key) == ("Q302", "endurance.stress")


def test_a_travel_that_is_no_number_is_to_be_mended_where_it_stands() -> None:
    history: Any = bw.Quantity([1.0, float("nan")], "mm")
    with pytest.raises(bw.QuantityError) as caught:
        bw.strength(make_setup(), history=history)
    assert caught.value.expected == "a finite number"
    assert caught.value.remedy == "correct or remove the value there"


def test_only_one_row_is_a_history_and_the_remedy_says_how_to_give_it() -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.strength(make_setup(), history="12 mm")
    assert caught.value.value == "12 mm"
    assert caught.value.expected == "wheel travels in the order of time"
    assert caught.value.remedy == "give a list like ['0 mm', '12 mm'], or an array with its unit"


# -- What does not count, and what cannot be ---------------------------------------------

FACTORS = bw.EnduranceFactors(
    surface_factor=0.9,
    size_factor=0.9,
    loading_factor=0.6,
    temperature_factor=1,
    reliability_factor=0.9,
    notch_factor=0.8,
)


@pytest.mark.parametrize(
    ("known", "asked", "unused"),
    [
        ({"endurance": "300 MPa"}, {}, ["the endurance limit"]),
        ({"endurance": "300 MPa"}, {"history": ROAD}, ["the endurance limit"]),
        ({"endurance_factors": FACTORS}, {"travel": "40 mm"}, ["the endurance factors"]),
        ({"woehler_line": LINE}, {"travel": "40 mm"}, ["the Woehler line"]),
        (
            {"shear_ratio": 0.6, "ultimate_shear": "1005 MPa"},
            {"travel": "40 mm"},
            ["the shear ratio"],
        ),
        ({"ultimate_shear": "1005 MPa"}, {}, ["the ultimate shear stress"]),
        ({"ultimate_shear": "1005 MPa"}, {"history": ROAD}, []),
        ({"permissible_shear": "900 MPa", "shear_yield": "900 MPa"}, {}, []),
    ],
)
def test_limits_that_do_not_count_are_told(
    known: dict[str, Any], asked: dict[str, Any], unused: list[str]
) -> None:
    answer = bw.strength(of_strong_steel(), limits=bw.StrengthLimits(**known), **asked)

    reported = [f.text for f in answer.findings if "not used: " in f.text]
    assert len(reported) == len(unused)
    assert all(text.startswith(limit) for text, limit in zip(reported, unused, strict=True))


def test_a_shear_ratio_counts_only_where_the_tensile_strength_is_known() -> None:
    limits = bw.StrengthLimits(shear_ratio=0.6)
    of_unknown = bw.strength(make_setup(), limits=limits, travel="40 mm").findings
    of_known = bw.strength(of_steel(tensile_strength="1700 MPa"), limits=limits, travel="40 mm")

    assert any("tensile strength of the steel is not known" in f.text for f in of_unknown)
    assert not any("not used" in f.text for f in of_known.findings)


@pytest.mark.parametrize("ratio", [0, -0.6, 1.01, 10, float("nan"), float("inf"), "0.6", True, 1j])
def test_a_share_is_above_zero_and_at_most_one(ratio: Any) -> None:
    for make in (
        lambda: bw.StrengthLimits(shear_ratio=ratio),
        lambda: attrs.evolve(FACTORS, notch_factor=ratio),
    ):
        with pytest.raises(bw.QuantityError, match="Q302"):
            make()
    assert bw.StrengthLimits(shear_ratio=1).shear_ratio == 1.0


@pytest.mark.parametrize(
    ("cls", "given", "key"),
    [
        (bw.StrengthLimits, {"ultimate_shear": "900 MPa", "shear_yield": "901 MPa"}, "shear_yield"),
        (bw.StrengthLimits, {"ultimate_shear": "900 MPa", "endurance": "901 MPa"}, "endurance"),
        (
            bw.WoehlerLine,
            {"at_stress": "400 MPa", "at_life": 1e6, "exponent": 5, "endurance": "401 MPa"},
            "endurance",
        ),
    ],
)
def test_limits_that_contradict_each_other_are_refused(
    cls: Any, given: dict[str, Any], key: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        cls(**given)

    assert (caught.value.code, caught.value.key) == ("S207", key)
    cls(**(given | {key: "300 MPa"}))


@pytest.mark.parametrize(
    ("history", "code"),
    [
        (5, "S203"),
        (b"0 mm", "S203"),
        ({"0 mm": "5 mm"}, "S203"),
        ({"0 mm"}, "S203"),
        (np.array([0.0, 5.0]), "S203"),
        (bw.QuantityArray(np.array([0.0, 1j]), "mm"), "Q104"),
        (bw.QuantityArray(np.array(["a", "b"], dtype=object), "mm"), "Q104"),
    ],
    ids=str,
)
def test_a_history_is_a_list_of_real_travels(history: Any, code: str) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        bw.strength(make_setup(), history=history)

    assert (caught.value.code, caught.value.key) == (code, "history")

"""Whether a bar is overstressed: at droop as at bump, whichever way it is twisted."""

from __future__ import annotations

from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_fixed
from barwright.analysis.strength.overstress import overstress
from sample_records import make_bar, make_setup

STEEL = bw.parts.Material(
    id="t:material/known",
    title="Steel whose strengths are known",
    shear_modulus="77 GPa",
    proof_strength="1200 MPa",
    permissible_shear="700 MPa",
    preset_permissible_shear="1020 MPa",
)


def states_of(
    setup: bw.Setup,
) -> tuple[bw.answers.CornerState, bw.answers.CornerState, bw.answers.CornerState]:
    figures = bw.rates(setup).figures
    assert figures is not None
    return figures.droop, figures.ride, figures.bump


DROOP, RIDE, BUMP = states_of(make_setup())


def stressed(state: bw.answers.CornerState, megapascals: float) -> bw.answers.CornerState:
    return attrs.evolve(state, shear_stress=bw.Quantity(megapascals, "MPa"))


def judged(
    bar: bw.parts.Bar, *, droop: float, ride: float, bump: float, **limits: Any
) -> bw.answers.Overstress:
    """Judge a bar at three shear stresses [MPa]."""
    return overstress(
        bar,
        droop=stressed(DROOP, droop),
        ride=stressed(RIDE, ride),
        bump=stressed(BUMP, bump),
        limits=bw.StrengthLimits(**limits) if limits else None,
    )


def of_steel(**change: Any) -> bw.parts.Bar:
    return make_bar(material=attrs.evolve(STEEL, **change))


def texts(answer: bw.answers.Overstress) -> list[str]:
    return [finding.text for finding in answer.findings]


def test_a_bar_within_its_limits_has_no_findings() -> None:
    answer = judged(of_steel(), droop=-690.0, ride=0.0, bump=690.0)
    assert answer.is_judged
    assert not answer.is_overstressed
    assert answer.findings == ()


@pytest.mark.parametrize("sign", [-1.0, 1.0])
@pytest.mark.parametrize(
    ("place", "state"), [("full droop", "droop"), ("ride height", "ride"), ("full bump", "bump")]
)
def test_every_state_is_held_against_the_permissible_stress(
    place: str, state: str, sign: float
) -> None:
    stresses = {"droop": 1.0, "ride": 1.0, "bump": 1.0} | {state: sign * 720.0}
    answer = judged(of_steel(proof_strength=None), **stresses)
    assert answer.is_overstressed
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.STRESS
    assert finding.text == f"the shear stress at {place} is above the permissible one (caller)"
    assert finding.figure == bw.Quantity(720.0, "MPa")
    assert finding.limit == bw.Quantity(700.0, "MPa")


@pytest.mark.parametrize("sign", [-1.0, 1.0])
@pytest.mark.parametrize(("place", "state"), [("full droop", "droop"), ("full bump", "bump")])
def test_both_ends_of_the_travel_are_held_against_yield(
    place: str, state: str, sign: float
) -> None:
    stresses = {"droop": 1.0, "ride": 1.0, "bump": 1.0} | {state: sign * 720.0}
    answer = judged(of_steel(permissible_shear=None), **stresses)
    assert texts(answer) == [f"the bar's body yields at {place} (caller, by distortion energy)"]


def test_a_limit_of_the_caller_comes_first() -> None:
    stresses = {"droop": -500.0, "ride": 100.0, "bump": 300.0}
    assert not judged(of_steel(), **stresses).is_overstressed
    assert judged(of_steel(), **stresses, permissible_shear="400 MPa").is_overstressed
    assert judged(make_bar(), **stresses, shear_yield="400 MPa").is_overstressed


def test_where_no_limit_is_known_it_says_what_is_missing_and_what_to_do() -> None:
    answer = judged(make_bar(), droop=-5000.0, ride=0.0, bump=5000.0)
    assert not answer.is_judged
    assert not answer.is_overstressed
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.STRESS
    assert finding.figure == "Steel"
    assert finding.text == (
        "the strength of the bar is not known: its steel has neither a permissible shear stress "
        "nor a proof strength; add one with its source to the steel's record, or give a limit"
    )


def test_one_limit_is_enough_to_judge_by() -> None:
    for known in ({"permissible_shear": None}, {"proof_strength": None}):
        assert judged(of_steel(**known), droop=0.0, ride=0.0, bump=0.0).is_judged
    assert judged(make_bar(), droop=0.0, ride=0.0, bump=0.0, shear_yield="1 MPa").is_judged


@given(st.lists(st.floats(-2000.0, 2000.0), min_size=3, max_size=3).map(sorted))
def test_ride_between_droop_and_bump_never_changes_the_verdict(drawn: list[float]) -> None:
    droop, ride, bump = map(stressed, (DROOP, RIDE, BUMP), drawn)
    without = overstress(of_steel(), droop=droop, bump=bump)
    with_ride = overstress(of_steel(), droop=droop, ride=ride, bump=bump)
    assert with_ride.is_overstressed == without.is_overstressed


def test_the_stresses_of_a_state_say_the_same_as_strength() -> None:
    limits = bw.StrengthLimits(permissible_shear="600 MPa", shear_yield="650 MPa")
    setup = on_fixed()
    droop, ride, bump = states_of(setup)
    answer = overstress(setup.bar, droop=droop, ride=ride, bump=bump, limits=limits)
    strength = bw.strength(setup, limits=limits)
    assert set(answer.findings) <= set(strength.findings)
    assert answer.is_overstressed == (strength.verdict is bw.Verdict.OVERSTRESSED)


# -- Pre-set bars -------------------------------------------------------------------------


def preset(**change: Any) -> bw.parts.Bar:
    steel = attrs.evolve(STEEL, **change)
    return make_bar(material=steel, preset=True, made_for=bw.parts.Side.LEFT)


def test_the_limit_of_a_pre_set_bar_does_not_hold_against_its_pre_setting() -> None:
    bar = preset(proof_strength=None)
    assert judged(bar, droop=100.0, ride=300.0, bump=900.0).findings == ()
    answer = judged(bar, droop=-100.0, ride=300.0, bump=900.0)
    assert not answer.is_overstressed
    (finding,) = answer.findings
    assert finding.text.startswith("at full droop the bar is twisted against the direction of")
    assert finding.figure == bw.Quantity(-100.0, "MPa")


def test_yield_and_the_callers_limit_hold_for_a_pre_set_bar_both_ways() -> None:
    assert judged(preset(), droop=-720.0, ride=0.0, bump=100.0).is_overstressed
    mine = {"permissible_shear": "400 MPa"}
    answer = judged(preset(), droop=-500.0, ride=0.0, bump=100.0, **mine)
    assert texts(answer) == ["the shear stress at full droop is above the permissible one (caller)"]


def test_a_pre_set_bar_without_limits_asks_for_those_of_a_pre_set_bar() -> None:
    bar = preset(preset_permissible_shear=None, proof_strength=None)
    (text,) = texts(judged(bar, droop=0.0, ride=0.0, bump=100.0))
    assert "a permissible shear stress for pre-set bars" in text

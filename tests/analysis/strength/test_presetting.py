"""Pre-set bars: the stress that is left in them, and at which stress they yield again."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.corner.bar.active_length import active_length
from barwright.analysis.strength.presetting import residual_stress, yield_limit
from sample_records import make_bar, make_setup

YIELD = 800.0  # in shear [MPa]
LIMITS = bw.StrengthLimits(shear_yield=f"{YIELD} MPa")


def twisted(times: float, **change: Any) -> bw.parts.Bar:
    """A bar that was pre-set to so many times the twist of first yield."""
    bar = make_bar(preset=True, made_for=bw.parts.Side.LEFT, **change)
    radius = float(bar.diameter.m_as("m")) / 2.0
    modulus = float(bar.material.shear_modulus.m_as("Pa"))
    first = YIELD * 1e6 * active_length(bar) / (modulus * radius)
    return attrs.evolve(bar, preset_twist=bw.Quantity(math.degrees(times * first), "deg"))


def nominal_at(times: float) -> float:
    """Torque at such a twist over that of first yield, by summing 100 000 rings of the section."""
    count = 100_000
    rings = ((place + 0.5) / count for place in range(count))
    return 4.0 * sum(min(1.0, times * r) * r**2 for r in rings) / count


@pytest.mark.parametrize("times", [1.2, 2.0, 5.0])
def test_a_bar_yields_again_at_the_torque_of_its_pre_setting(times: float) -> None:
    limit = yield_limit(twisted(times), LIMITS, against=False)
    assert limit is not None

    assert float(limit.stress.m_as("MPa")) == pytest.approx(YIELD * nominal_at(times), rel=1e-6)
    assert limit.source == "caller, raised by pre-setting"


def test_the_other_way_a_bar_yields_as_much_earlier() -> None:
    bar = twisted(2.0)
    raised, lowered = (yield_limit(bar, LIMITS, against=sense) for sense in (False, True))
    assert raised is not None
    assert lowered is not None

    assert float((raised.stress + lowered.stress).m_as("MPa")) == pytest.approx(2.0 * YIELD)
    assert lowered.stress < raised.stress
    assert lowered.source == "caller, lowered by pre-setting"


def test_what_is_left_at_the_surface_is_what_the_limit_gains() -> None:
    left = residual_stress(twisted(2.0), LIMITS)
    assert left is not None

    assert float(left.m_as("MPa")) == pytest.approx(YIELD * (1.0 - nominal_at(2.0)), rel=1e-5)


@pytest.mark.parametrize("times", [0.5, 1.0])
def test_a_twist_that_yields_nowhere_leaves_nothing(times: float) -> None:
    left = residual_stress(twisted(times), LIMITS)
    assert left is not None
    assert float(left.m_as("MPa")) == pytest.approx(0.0, abs=1e-6)


def test_without_twist_or_yield_nothing_is_known_of_it() -> None:
    plain = make_bar(preset=True, made_for=bw.parts.Side.LEFT)
    none = bw.StrengthLimits()

    assert residual_stress(plain, LIMITS) is None
    assert residual_stress(twisted(2.0), none) is None
    assert yield_limit(plain, LIMITS, against=False) == LIMITS.shear_yield
    assert yield_limit(twisted(2.0), none, against=False) is None


def test_a_bar_that_would_have_yielded_holds_once_it_is_pre_set() -> None:
    """Full bump stresses it by some 770 MPa."""
    known = bw.StrengthLimits(shear_yield="720 MPa")
    verdicts = {
        name: bw.strength(make_setup(bar=bar), limits=known).verdict
        for name, bar in (
            ("not known how", make_bar(preset=True, made_for=bw.parts.Side.LEFT)),
            ("known how", twisted(2.0)),
        )
    }

    assert verdicts == {
        "not known how": bw.Verdict.OVERSTRESSED,
        "known how": bw.Verdict.BELOW_YIELD,
    }


def test_the_answer_shows_what_is_left() -> None:
    figures = bw.strength(make_setup(bar=twisted(2.0)), limits=LIMITS).figures
    assert figures is not None

    assert figures.residual_stress == residual_stress(twisted(2.0), LIMITS)
    assert figures.at_yield.limit == yield_limit(twisted(2.0), LIMITS, against=False)


# -- The set of a bar that yields ----------------------------------------------------------


@pytest.mark.parametrize("yields_at", ["400 MPa", "1200 MPa"])
def test_a_body_that_yields_keeps_what_an_elastic_perfectly_plastic_bar_does(
    yields_at: str,
) -> None:
    setup = make_setup()
    figures = bw.strength(setup, limits=bw.StrengthLimits(shear_yield=yields_at)).figures
    assert figures is not None
    ratio = float(figures.bump.stress.m_as("MPa")) / float(yields_at.split(maxsplit=1)[0])
    if ratio <= 1.0:
        assert figures.kept_twist is None
        return
    # Of the twist at first yield: a core stays elastic, the rest of the moment does not grow.
    assert figures.kept_twist is not None
    first = elastic_twist(setup, figures.bump.stress) / ratio
    torque = (4.0 - ratio**-3) / 3.0
    kept = first * (ratio - torque)
    assert figures.kept_twist.m_as("rad") == pytest.approx(kept, rel=1e-6)


def elastic_twist(setup: bw.Setup, stress: bw.Quantity) -> float:
    """Twist of the whole bar at a shear stress of its surface [rad]."""
    modulus, diameter = setup.bar.material.shear_modulus.m_as("MPa"), setup.bar.diameter.m_as("mm")
    return float(2.0 * stress.m_as("MPa") * 1e3 * active_length(setup.bar) / (modulus * diameter))


@pytest.mark.parametrize(
    "change", [{"bore": "12 mm"}, {"preset": True, "made_for": bw.parts.Side.LEFT}]
)
def test_no_set_is_told_of_a_hollow_or_pre_set_bar(change: dict[str, Any]) -> None:
    setup = make_setup(bar=make_bar(**change))
    figures = bw.strength(setup, limits=bw.StrengthLimits(shear_yield="300 MPa")).figures
    assert figures is not None
    assert figures.kept_twist is None

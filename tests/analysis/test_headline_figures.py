"""Tests of the figures that an answer gives without a detour, or says why it has none."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

import barwright as bw
from sample_records import known, make_bar, make_setup

SETUP = make_setup()
SHORT = make_setup(bar=make_bar(length="700 mm"))


def test_rates_give_their_own_figures() -> None:
    answer = bw.rates(SETUP)
    figures = known(answer.figures)

    assert (answer.bar_rate, answer.system_rate) == (figures.bar_rate, figures.system_rate)
    assert (answer.droop, answer.ride, answer.bump) == (figures.droop, figures.ride, figures.bump)
    assert answer.wheel_rate == figures.ride.wheel_rate
    assert answer.ride_frequency == figures.ride_frequency
    assert answer.curve == figures.curve


def test_a_ride_a_strength_and_plans_give_their_own_figures() -> None:
    ridden = bw.ride(SETUP)
    strength = bw.strength(SETUP, travel="40 mm", history=["0 mm", "40 mm", "-20 mm"])
    figures = known(strength.figures)
    planned = bw.reindex(SETUP)

    assert ridden.height == known(ridden.state).height
    assert (strength.bump, strength.at_yield) == (figures.bump, figures.at_yield)
    assert (strength.swing, strength.life) == (figures.swing, figures.life)
    assert planned.preferred == planned.plans[0]


@pytest.mark.parametrize(
    "asked",
    [
        lambda: bw.rates(SHORT).wheel_rate,
        lambda: bw.ride(SHORT).height,
        lambda: bw.strength(SHORT).bump,
        lambda: bw.reindex(SHORT).preferred,
    ],
)
def test_an_answer_that_is_no_says_why_it_has_no_figure(asked: Callable[[], Any]) -> None:
    with pytest.raises(bw.NoFigureError, match=r"N201: got 'does not fit'.* splines") as caught:
        asked()
    assert isinstance(caught.value, LookupError)


@pytest.mark.parametrize(
    ("asked", "remedy"),
    [
        (lambda: bw.strength(SETUP).swing, "ask with travel="),
        (lambda: bw.strength(SETUP).life, "ask with a history"),
    ],
)
def test_a_figure_that_was_not_asked_for_says_how_to_ask(
    asked: Callable[[], Any], remedy: str
) -> None:
    with pytest.raises(bw.NoFigureError) as caught:
        asked()
    assert caught.value.remedy.startswith(remedy)

"""Tests of `answer_figures`: what counts as a figure, and how it is called."""

from __future__ import annotations

import barwright as bw
from barwright.analysis.tolerance.answer_figures import answer_figures
from sample_records import make_setup


def test_figures_are_called_by_the_fields_that_lead_to_them() -> None:
    figures = bw.rates(make_setup()).figures
    assert figures is not None

    found = dict(answer_figures(figures, ""))

    assert found["ride.wheel_rate"] == figures.ride.wheel_rate
    assert found["heads.arm end.teeth_left"] == figures.heads[0].teeth_left
    assert not [name for name in found if name.startswith("curve.")]


def test_a_quantity_has_the_name_that_it_is_given_and_a_word_has_none() -> None:
    length = bw.length_fit(make_setup()).position

    assert list(answer_figures(length, "here")) == [("here", length)]
    assert list(answer_figures(3, "count")) == [("count", 3)]
    assert not list(answer_figures("a word", "text"))
    assert not list(answer_figures((1, 2), "pair"))
    assert not list(answer_figures(bw.rates(make_setup()).outcome, "outcome"))

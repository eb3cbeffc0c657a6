"""Tests of `barwright.report.drawing.frame`: round figures at its edges, in their places."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from barwright.report.drawing.frame import Frame, round_ticks, tick
from barwright.report.drawing.svg import Drawing
from drawn import Drawn


@given(st.floats(-1e4, 1e4), st.floats(0.01, 1e5))
@example(1.125, 1.25)
def test_ticks_are_round_and_three_to_eight(low: float, span: float) -> None:
    ticks = round_ticks(low=low, high=low + span)
    steps = {f"{b - a:.6g}" for a, b in itertools.pairwise(ticks)}

    assert 3 <= len(ticks) <= 8
    assert all(low - 1e-6 * span <= each <= low + span + 1e-6 * span for each in ticks)
    assert {float(step) / 10.0 ** math.floor(math.log10(float(step))) for step in steps} <= {
        1.0,
        2.0,
        5.0,
    }


@pytest.mark.parametrize("across", [(0.0, 10.0), (10.0, 0.0)])
def test_figures_stand_at_their_places_either_way(across: tuple[float, float]) -> None:
    frame = Frame(across=across, up=(-2.0, 2.0), low=(10.0, 50.0), high=(60.0, 10.0))
    assert frame.at((across[0], -2.0)) == (10.0, 50.0)
    assert frame.at((across[1], 2.0)) == (60.0, 10.0)
    out = Drawing((80.0, 60.0), title="t", description="d")
    frame.draw(out)
    texts = Drawn(str(out)).texts
    below = {float(words): x for words, (x, y), _ in texts if y > 50.0 + 2.0}
    assert below == {figure: pytest.approx(frame.x(figure)) for figure in below}
    assert len(below) >= 3
    beside = {words: y for words, (x, y), _ in texts if x < 10.0}
    assert beside[tick(-1.0)] == pytest.approx(frame.y(-1.0) + 1.0)
    assert tick(-1.0) == "−1"


def test_where_numbers_would_touch_every_second_one_is_left_out() -> None:
    texts = {}
    for wide in (60.0, 20.0):
        frame = Frame(
            across=(1000.0, 1007.0), up=(0.0, 7.0), low=(10.0, 50.0), high=(10.0 + wide, 30.0)
        )
        out = Drawing((90.0, 60.0), title="t", description="d")
        frame.draw(out)
        texts[wide] = [words for words, (_, y), _ in Drawn(str(out)).texts if y > 52.0]
    assert texts[60.0] == [f"{1000 + n}" for n in range(8)]
    assert texts[20.0] == [f"{1000 + n}" for n in range(0, 8, 2)]

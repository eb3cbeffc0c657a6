"""Tests of `barwright.analysis.corner.assumed`: an answer names the usual figures of its corner."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.corner.assumed import assumed_paths
from barwright.answers import Topic
from sample_packs import discovered_once

SETUP = discovered_once().setup("fells:chassis/short", corner="front left")
QUESTIONS: list[Callable[[bw.Setup], Any]] = [
    *(bw.rates, bw.ride, bw.strength, bw.reindex, bw.nut_table)
]


def assumed(axle: tuple[str, ...] = (), damper: tuple[str, ...] = ()) -> bw.Setup:
    """The corner with usual figures in some fields of its axle and of its damper."""
    gaps: dict[str, Any] = dict.fromkeys(axle, "unknown")
    there = attrs.evolve(SETUP, axle=attrs.evolve(SETUP.axle, **gaps))
    gaps = dict.fromkeys(damper, "unknown")
    return bw.with_usual(there.with_parts(damper=attrs.evolve(SETUP.damper, **gaps)))


def named(answer: Any) -> list[str]:
    """What an answer says that it assumed."""
    return [one.line for one in answer.findings if one.topic is Topic.ASSUMED]


@pytest.mark.parametrize("question", QUESTIONS)
def test_an_answer_names_what_stands_in(question: Callable[[bw.Setup], Any]) -> None:
    setup = assumed(("tyre_rate",), ("closed_length",))

    assert named(question(setup)) == [
        "usual ranges are assumed for tyre rate, damper closed length"
    ]
    assert named(question(SETUP)) == []


def test_a_fit_names_what_it_needs() -> None:
    assert named(bw.length_fit(assumed(("tyre_rate",)))) == []
    both = assumed(("tyre_rate", "lever_allowance"))
    assert named(bw.length_fit(both)) == ["usual ranges are assumed for lever allowance"]


def test_all_that_was_put_in_is_listed_and_nothing_else() -> None:
    assert assumed_paths(SETUP) == ()
    assert assumed_paths(assumed(("tyre_rate", "unsprung_mass"))) == (
        "axle.tyre_rate",
        "axle.unsprung_mass",
    )
    known = bw.parts.Figure(
        value=SETUP.axle.tyre_rate,
        tolerance=SETUP.axle.tyre_rate * 0.1,
        source="own:guess",
        source_kind=bw.parts.SourceKind.ESTIMATED,
    )
    axle = SETUP.axle.described({"tyre_rate": known})
    assert assumed_paths(attrs.evolve(SETUP, axle=axle)) == ()


def test_to_name_a_figure_is_not_to_rest_on_it() -> None:
    setup = assumed(("tyre_rate",), ("closed_length",))

    found = bw.rests_on(setup, questions=[lambda corner: bw.rates(corner).findings])
    assert [one.kind for one in found if one.kind == "estimated"] == []

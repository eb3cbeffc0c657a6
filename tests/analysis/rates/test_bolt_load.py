"""The load of the adjuster's bolt, beside its proof load."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from barwright.parts import PropertyClass
from sample_records import make_setup


def rated(**adjuster: Any) -> bw.answers.Rates:
    """Rates of a corner whose bolt is an M12 unless it is said otherwise."""
    return bw.rates(make_setup(adjuster=adjuster))


def bolt_of(answer: bw.answers.Rates) -> bw.answers.BoltLoad:
    assert answer.figures is not None
    assert answer.figures.bolt is not None
    return answer.figures.bolt


@pytest.mark.parametrize(
    ("marked", "printed"), [(PropertyClass.CLASS_8_8, 48.9), (PropertyClass.CLASS_10_9, 70.0)]
)
def test_the_proof_load_is_the_one_that_the_standard_prints(
    marked: PropertyClass, printed: float
) -> None:
    """Of M12 coarse: ISO 898-1, as in secondary tables [kN]."""
    bolt = bolt_of(rated(property_class=marked))
    assert bolt.proof_load is not None

    assert float(bolt.proof_load.m_as("kN")) == pytest.approx(printed, rel=0.005)
    assert bolt.proof_share == pytest.approx(float(abs(bolt.at_bump) / bolt.proof_load))


def test_without_a_class_nothing_is_said_of_it() -> None:
    answer = rated()
    bolt = bolt_of(answer)

    assert (bolt.proof_load, bolt.proof_share) == (None, None)
    assert not about_the_bolt(answer)


def about_the_bolt(answer: bw.answers.Rates) -> list[str]:
    """What is found of the bolt."""
    return [f.text for f in answer.findings if f.topic is bw.answers.Topic.THREAD]


@pytest.mark.parametrize(
    ("diameter", "pitch", "told"),
    [("6 mm", "1 mm", True), ("12 mm", "1.75 mm", False)],
)
def test_a_bolt_that_takes_a_set_at_full_bump_is_told(
    diameter: str,
    pitch: str,
    told: bool,  # noqa: FBT001 - a parameter of the test
) -> None:
    """The bolt carries some 15 kN; an M6 of 8.8 bears 11.6 kN."""
    marked = {"thread_diameter": diameter, "thread_pitch": pitch}
    answer = rated(property_class=PropertyClass.CLASS_8_8, **marked)

    text = "full bump stretches the bolt permanently, beyond the proof load of class 8.8"
    assert about_the_bolt(answer) == [text] * told
    assert (bolt_of(answer).proof_share or 0.0) > 1.0 or not told


def test_a_size_of_which_no_proof_load_is_known_is_told() -> None:
    marked = {"thread_diameter": "20 mm", "thread_pitch": "2.5 mm"}
    answer = rated(property_class=PropertyClass.CLASS_8_8, **marked)

    assert bolt_of(answer).proof_load is None
    assert about_the_bolt(answer) == [
        "the proof load of a bolt of class 8.8 is not known at this size"
    ]

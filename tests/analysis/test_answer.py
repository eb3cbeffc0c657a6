"""What every answer has: its outcome, and what is said beside its headline."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright import Outcome
from sample_records import make_bar, make_end, make_setup


def test_a_refusal_gives_its_first_reason_in_the_headline_and_the_others_apart() -> None:
    other = make_bar(arm_end=make_end(38), anchor_end=make_end(42, form="serration"))
    fit = bw.length_fit(make_setup().with_parts(bar=other))
    assert fit.headline == f"The bar does not fit: {fit.findings[0].line}."
    assert fit.further_findings == fit.findings[1:] != ()


def test_an_answer_that_is_yes_gives_all_its_findings_apart() -> None:
    setup = make_setup()
    fit = bw.length_fit(setup.with_parts(arm=make_setup(arm={"id": "t:arm/other"}).arm))
    assert len(fit.findings) == 1
    assert fit.further_findings == fit.findings


@pytest.mark.parametrize(
    ("setup", "outcome"),
    [
        (make_setup(), Outcome.FINE),
        (make_setup(anchor={"cap_position": "700 mm"}), Outcome.FINE_WITH_CHANGES),
        (make_setup(bar=make_bar(length="1200 mm")), Outcome.NO),
    ],
)
def test_an_answer_comes_to_yes_or_yes_with_changes_or_no(
    setup: bw.Setup, outcome: Outcome
) -> None:
    assert bw.length_fit(setup).outcome is outcome


def test_a_reason_that_begins_with_the_verdict_does_not_say_it_twice() -> None:
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="900 mm"))
    first, verdict = answer.findings[0], answer.verdict.value
    told = attrs.evolve(answer, findings=(attrs.evolve(first, text=f"{verdict} by far"),))
    assert told.refused().lower().count(verdict) == 1
    assert told.refused().startswith(f"{verdict[0].upper()}{verdict[1:]} by far")
    other = attrs.evolve(answer, findings=(attrs.evolve(first, text="the nut is at its end"),))
    assert other.refused().startswith("Cannot be reached: the nut is at its end")
    assert attrs.evolve(answer, findings=()).refused() == "Cannot be reached."

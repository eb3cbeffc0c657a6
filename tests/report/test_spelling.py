"""All that is printed of an answer is spelled as the pages spell it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

import barwright as bw
from printed_pages import DEMO_JOBS, demo_sheet, read_html
from rare_cases import rarely_after
from sample_packs import SPECIMENS, discovered_once
from sample_records import make_setup
from spelling import unknown_words

JOBS = {
    path.stem: path
    for path in (
        *(SPECIMENS.parents[1] / "docs" / "examples").glob("*.toml"),
        *(SPECIMENS / "twenty").glob("*.toml"),
        *(SPECIMENS / "jobs").glob("*.toml"),
    )
}
# Misspelled on purpose, more than one vehicle, or readings and no work.
UNREAD = {
    *("08-two-vans", "09-three-bars", "16-bad-units", "17-bad-names", "18-bad-keys"),
    *("19-bad-kind", "20-bad-toml"),
}
QUESTIONS: dict[str, Callable[[bw.Setup], Any]] = {
    "fit": bw.length_fit,
    "donors": lambda setup: bw.donors(setup, parts=discovered_once().parts()),
    "rates": bw.rates,
    "reindex": bw.reindex,
    "nut": bw.nut_table,
    "strength": bw.strength,
    "tolerance": lambda setup: bw.tolerance(bw.rates, setup),
    "draws": lambda setup: bw.tolerance(bw.rates, setup, draws=100),
    "needs": bw.needs,
    "trail": bw.trail,
    "comparison": lambda setup: bw.compare(setup, make_setup()),
    "bar rate": lambda setup: bw.bar_rate(setup.bar),
}


@pytest.mark.parametrize("name", sorted(JOBS.keys() - UNREAD))
def test_the_sheet_of_a_job(name: str) -> None:
    sheet = bw.bench_sheet(bw.load_job(JOBS[name], discovered_once()))
    assert unknown_words(bw.text(sheet, width=200)) == set()


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_the_page_of_a_job_and_its_drawings(name: str) -> None:
    page = bw.sheet_html(demo_sheet(name), template=True)
    read = read_html(page)
    assert unknown_words(" ".join(str(one) for one in read.attributes("img", "alt"))) == set()


@pytest.mark.parametrize(
    "question", rarely_after(len(QUESTIONS) - 1, sorted(QUESTIONS, key="draws".__eq__))
)
def test_an_answer_about_a_corner_in_each_form(question: str) -> None:
    for name in DEMO_JOBS:
        corner = bw.load_job(JOBS[name], discovered_once()).corners[0]
        answer = QUESTIONS[question](corner.setup)
        read = read_html(bw.html(answer))
        said = [*read.texts, *map(str, read.attributes("img", "alt"))]
        for form in (bw.text(answer, width=200), bw.markdown(answer), " ".join(said)):
            assert unknown_words(form) == set()


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_the_measuring_sheet_of_a_job(name: str) -> None:
    job = bw.load_job(JOBS[name], discovered_once())
    answers = [bw.needs(corner.setup) for corner in job.corners]
    assert unknown_words(bw.needs_markdown(answers, every=True)) == set()


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_the_sheet_in_markdown(name: str) -> None:
    assert unknown_words(bw.sheet_markdown(demo_sheet(name))) == set()


@pytest.mark.parametrize("name", sorted(JOBS.keys() - UNREAD))
def test_answers_about_what_is_wanted_refusals_too(name: str) -> None:
    for corner in bw.load_job(JOBS[name], discovered_once()).corners[:1]:
        setup, wanted = corner.setup, corner.wanted
        planned = bw.reindex(setup, wanted=wanted, present=corner.present)
        rated = bw.rates(setup, wanted=wanted)
        for answer in (bw.length_fit(setup), planned, rated, bw.strength(setup)):
            assert unknown_words(bw.text(answer, width=200)) == set()


def test_readings_of_a_corner() -> None:
    job = bw.load_job(JOBS["weighed-four-times"], discovered_once())
    for corner in job.corners:
        assert unknown_words(bw.text(bw.calibrate(corner.present), width=200)) == set()

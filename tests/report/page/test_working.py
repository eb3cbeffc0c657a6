"""Workings on paper: equations that browsers and the typesetter set, and that say the same."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree as ET

import attrs
import pytest

import barwright as bw
from barwright.report.equations.boxes import boxes
from barwright.report.equations.content import Side, working_page
from barwright.report.equations.linear import in_line
from barwright.report.equations.mathml import mathml
from barwright.report.page.paper import Paper
from barwright.report.page.working import working_html
from barwright.report.text.grounds.working import working_text
from barwright.report.text.layout.html import html_of
from hostile_texts import TEXTS
from printed_pages import DEMO_JOBS, pdf_texts
from rare_cases import rarely_after
from sample_packs import discovered_once
from workings import value_of

ROOT = Path(__file__).parents[3]


@functools.cache
def demo_working(name: str) -> bw.answers.Working:
    corner = bw.load_job(ROOT / "docs" / "examples" / f"{name}.toml", discovered_once()).corners[0]
    return bw.working(corner.setup, wanted=corner.wanted)


def sides(answer: bw.answers.Working) -> Iterator[Side]:
    """Every side of an equation with its figures put in, in the order in which it is printed."""
    for section in working_page(answer).sections:
        for line in section.lines:
            for row in line.rows:
                yield from (piece for piece in row if isinstance(piece, Side))


def typed(element: ET.Element) -> str:
    """Type an equation in MathML as one types it into a calculator."""
    parts = [typed(child) for child in element]
    match element.tag:
        case "mn" | "mi" | "mo" | "mtext":
            return (element.text or "").replace("−", "-").replace("|", "")
        case "mfrac":
            return f"(({parts[0]}) / ({parts[1]}))"
        case "msqrt":
            return f"√({''.join(parts)})"
        case "msup":
            return f"({parts[0]}){parts[1].translate(RAISED)}"
        case "mrow" if element.find("mo[.='|']") is not None:
            return f"abs({''.join(parts)})"
        case _:
            return "".join(parts)


RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@pytest.mark.parametrize("name", rarely_after(1, DEMO_JOBS))
def test_what_is_set_comes_to_what_is_typed(name: str) -> None:
    page = working_html([demo_working(name)])
    compared = 0
    for side in sides(demo_working(name)):
        written = mathml(boxes(side.tree, side.writing, in_degrees=side.in_degrees))
        assert written in page
        if not side.writing.is_of_names:
            wanted = value_of(in_line(side.tree, side.writing, in_degrees=side.in_degrees))
            joined = f"<row>{written.replace('</math> <math>', '')}</row>"
            found = value_of(typed(ET.fromstring(joined)))  # noqa: S314 - of our own making
            assert math.isclose(found, wanted, rel_tol=1e-12, abs_tol=1e-15)
            compared += 1
    assert compared > 50


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_a_page_of_html_says_what_the_text_says(name: str) -> None:
    answer = demo_working(name)
    page, text = working_html([answer]), bw.text(answer, width=500)
    for section in answer.sections:
        assert f"<h3>{section.title}</h3>" in page
        assert section.title in text
        for line in section.lines:
            assert line.meaning[1:].replace("'", "&#39;") in page
            assert line.meaning[1:] in text
    assert "<li>Signature</li>" in page
    assert "<math>" in html_of(working_text(answer))


@pytest.mark.parametrize("paper", rarely_after(1, ["a4", "letter"]))
def test_a_pdf_is_the_same_each_time_and_has_all_sections(paper: Paper) -> None:
    answers = [demo_working("loaded-trailer")]
    pdf = bw.working_pdf(answers, paper=paper)
    assert pdf == bw.working_pdf(answers, paper=paper)
    text = "".join(pdf_texts(pdf))
    for section in answers[0].sections:
        assert section.title.replace(" ", "") in text
    assert "Gillespie" in text


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_texts_of_packs_are_shown_and_never_obeyed(text: str) -> None:
    answer = demo_working("loaded-trailer")
    spoiled = attrs.evolve(answer, vehicle=text, answered=text)
    page = bw.working_html([spoiled])
    assert "<script" not in page
    assert "\x1b" not in page
    assert bw.working_pdf([spoiled]).startswith(b"%PDF")
    assert "\x1b" not in bw.markdown(spoiled) + bw.text(spoiled)


def test_no_answer_is_refused() -> None:
    with pytest.raises(bw.SchemaError, match="S207"):
        bw.working_html([])


def test_a_reason_that_the_headline_gives_is_not_given_again() -> None:
    corner = bw.load_job(ROOT / "docs" / "examples" / "shorter-dampers.toml", discovered_once())
    setup = corner.corners[0].setup
    answer = bw.working(setup, wanted=bw.Wanted(height="600 mm"))

    assert "is outside the travel" in answer.headline
    assert " ".join(bw.text(answer).split()).count("is outside the travel") == 1
    assert "<li>the wanted height" not in working_html([answer])

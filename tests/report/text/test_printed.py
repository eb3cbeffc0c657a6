"""What a program prints of an answer: text, HTML and Markdown say the same, and escape all."""

from __future__ import annotations

import itertools
import re
import sys
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree as ET

import attrs
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

import barwright as bw
from barwright.report.text.layout.html import html_of
from barwright.report.text.layout.markdown import markdown_of
from barwright.report.text.layout.page import Page, Section
from barwright.report.text.layout.tables import Block, Grid, Note, marked, pairs, stacked
from draws import draws
from each_case import each_case
from sample_packs import discovered_once
from sample_records import make_bar, make_setup

SETUP = discovered_once().setup("fells:chassis/short", corner="front left")
JOB = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
ANSWERS: dict[str, Callable[[], Any]] = {
    "fit": lambda: bw.length_fit(SETUP),
    "donors": lambda: bw.donors(SETUP, parts=()),
    "rates": lambda: bw.rates(SETUP),
    "ride": lambda: bw.ride(SETUP),
    "reindex": lambda: bw.reindex(SETUP, wanted=bw.Wanted(height="349 mm")),
    "strength": lambda: bw.strength(SETUP),
    "tolerance": lambda: bw.tolerance(bw.length_fit, SETUP),
    "trail": lambda: bw.trail(SETUP, source=discovered_once().source),
    "comparison": lambda: bw.compare(SETUP, make_setup()),
    "sheet": lambda: bw.bench_sheet(JOB),
    "a no": lambda: bw.rates(SETUP, wanted=bw.Wanted(height="900 mm")),
}


def cells(text: str) -> list[str]:
    """Words of a text, whatever its layout."""
    return re.findall(r"[\w.·/°±%-]+", text)


def of_html(text: str) -> ET.Element:
    return ET.fromstring(text)  # noqa: S314 - our own


def of_markdown(text: str) -> ET.Element:
    made = MarkdownIt("js-default").render(text)
    return ET.fromstring(f"<div>{made}</div>")  # noqa: S314 - our own


@pytest.mark.parametrize("name", ANSWERS)
def test_all_forms_say_the_same(name: str) -> None:
    answer = ANSWERS[name]()
    text = bw.text(answer, width=200)
    assert text.startswith(answer.headline.partition(".")[0][:30]) or name == "sheet"
    marks = re.compile(r"^ *[*!] |^ *\d+\. ", re.MULTILINE)
    words = {word for word in cells(marks.sub("", text)) if len(word) > 1}
    for written in (of_html(bw.html(answer)), of_markdown(bw.markdown(answer))):
        assert words <= set(cells(" ".join(written.itertext())))


@each_case("width, name", itertools.product([40, 60, 80], ANSWERS))
def test_text_is_as_wide_as_one_says(name: str, width: int) -> None:
    answer = ANSWERS[name]()
    lines = bw.text(answer, width=width).splitlines()
    assert [line for line in lines if len(line) > width] == []
    whole = {word for word in cells(bw.text(answer, width=400)) if "-" not in word}
    # Of a column without room that is empty, there is not even the name.
    assert whole - set(cells("\n".join(lines))) <= {"replaces"}


def test_a_width_that_nothing_fits_in_is_refused() -> None:
    for width in (39, 0, -1):
        with pytest.raises(bw.SchemaError, match=r"S203: width: .* 40 characters or more"):
            bw.text(bw.length_fit(SETUP), width=width)


@pytest.mark.parametrize("write", [bw.text, bw.html, bw.markdown])
def test_what_is_no_answer_is_refused(write: Callable[..., str]) -> None:
    for value in ("a text", None, 3, SETUP.side):
        with pytest.raises(bw.SchemaError, match="S203: answer: "):
            write(value)


@pytest.mark.parametrize("write", [bw.text, bw.html, bw.markdown])
def test_records_and_parts_of_answers_show_their_fields(write: Callable[..., str]) -> None:
    rates = bw.rates(SETUP)
    assert "Standard bar, short van" in write(SETUP.bar)
    words = " ".join(cells(write(rates.figures)))
    assert "bar rate" in words
    assert "48.02" in words
    assert "Stands at 404" in " ".join(cells(write(bw.ride(SETUP))))


def test_no_extra_is_needed_to_print(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = bw.bench_sheet(JOB)
    for name in ("rich", "rich.console", "rich.segment", "plotille"):
        monkeypatch.setitem(sys.modules, name, None)
    for write in (bw.text, bw.html, bw.markdown):
        assert write(sheet)
        assert write(bw.rates(SETUP))


def test_a_notebook_shows_the_same_html() -> None:
    answer = bw.length_fit(SETUP)
    for value in (answer, SETUP, SETUP.bar, JOB, JOB.corners[0], bw.bench_sheet(JOB)):
        assert value._repr_html_() == bw.html(value)


# -- Markup --------------------------------------------------------------------------------

SIGNS = st.text("ab 1|*_`~<>&\"'#+-=.)(![]\\\n:$", max_size=24)


def document(text: str) -> Block:
    """A piece of every kind that holds a text."""
    told = Grid(("name", text, "b"), [(text, text, text), ("shared", text)], title=text)
    notes = (Note(text, style="bold"), marked("*", text), Note(text), Section(text, (told,)))
    return Page(headlines=(Note(text),), parts=(*notes, pairs((text, text)), stacked(text)))


def plain(text: str) -> str:
    return " ".join(text.split())


@settings(max_examples=draws(100))
@given(text=SIGNS)
@example(text="1 #")  # a heading ends before signs of its own
def test_no_text_is_taken_for_markup(text: str) -> None:
    expected = plain(text)
    tags = {
        "div",
        "p",
        "strong",
        "ul",
        "li",
        "h3",
        "h4",
        "table",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
    }
    for written in (of_html(html_of(document(text))), of_markdown(markdown_of(document(text)))):
        assert {element.tag for element in written.iter()} <= tags
        for element in written.iter():
            inside = plain("".join(element.itertext()))
            if element.tag in ("p", "li", "h3", "h4", "td", "th"):
                assert inside in (expected, "", "name", "b", "shared")
    paragraphs = [
        plain("".join(e.itertext())) for e in of_markdown(markdown_of(document(text))).iter("td")
    ]
    assert paragraphs.count(expected) >= 6


def test_a_table_in_markdown_is_one() -> None:
    written = of_markdown(bw.markdown(bw.length_fit(SETUP)))
    ends, along = written.iter("table")
    assert [cell.text for cell in ends.iter("th")] == [None, "arm end", "anchor end"]
    assert [cell.text for cell in ends.iter("td")][:3] == ["engagement", "37.0 mm", "36.0 mm"]
    assert len(list(along.iter("tr"))) == 7


def test_html_spreads_what_holds_for_all_columns_and_keeps_figures_whole() -> None:
    grid = Grid(("", "left", "right"), [("droop left", "74 mm"), ("nut", "1 turn", "2 turn")])
    written = of_html(html_of(grid))
    assert [cell.get("colspan") for cell in written.iter("td")] == ["2", None, None]
    assert [cell.text for cell in written.iter("td")] == ["74\xa0mm", "1\xa0turn", "2\xa0turn"]


def test_a_hostile_title_is_escaped() -> None:
    bar = make_bar(title="<script>alert(1)</script> | `x` \x1b[31m")
    answer = bw.compare(make_setup(), make_setup(bar=bar))
    for value in (answer, attrs.evolve(SETUP, bar=bar), bar):
        assert "<script" not in bw.html(value)
        assert "<script" not in bw.markdown(value).replace("\\<", "")
        assert "\x1b" not in bw.html(value) + bw.markdown(value) + bw.text(value) + repr(value)

"""The Markdown of a bench sheet, as a reader of Markdown understands it."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

import barwright as bw
from barwright.report.page.content import page_of
from barwright.report.page.markdown import escaped
from barwright.report.safe_text import one_line
from draws import draws
from each_case import each_case
from hostile_texts import ANY_TEXT, TEXTS
from printed_pages import DEMO_JOBS, demo_sheet, said, spoiled

READER = MarkdownIt("gfm-like", {"linkify": False})
MARKED = {
    *("heading_open", "heading_close", "paragraph_open", "paragraph_close", "inline"),
    *("bullet_list_open", "bullet_list_close", "list_item_open", "list_item_close"),
    *("table_open", "table_close", "thead_open", "thead_close", "tbody_open", "tbody_close"),
    *("tr_open", "tr_close", "th_open", "th_close", "td_open", "td_close"),
}
WITHIN = {"text", "text_special", "strong_open", "strong_close"}


def read(markdown: str) -> list[Token]:
    """What a reader of Markdown makes of a text."""
    return READER.parse(markdown)


def text_of(token: Token) -> str:
    """What a line says without its marks."""
    text = "".join(child.content for child in token.children or ())
    return text.replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_all_lines_of_the_sheet_are_in_it(name: str) -> None:
    sheet = demo_sheet(name)
    lines = [text_of(token) for token in read(bw.sheet_markdown(sheet)) if token.type == "inline"]
    assert lines[0] == sheet.headlines[0]
    expected = [
        *(f"[ ] {number}. {step.line}" for number, step in enumerate(sheet.steps, start=1)),
        *(
            f"[ ] {'abc'[at]}) {step.branch[at]}"
            for step in sheet.steps
            for at in range(len(step.branch[:3]))
        ),
        *(value for row in sheet.figures for value in row.values),
        *(f"{row.what}: {row.where}" for row in sheet.measurements),
        *(*sheet.notes, *sheet.cautions),
    ]
    assert [line for line in expected if line not in lines] == []


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_the_headings_are_the_sheet_s_own(name: str) -> None:
    page = page_of(demo_sheet(name))
    tokens = read(bw.sheet_markdown(demo_sheet(name)))
    headings = [
        (heading.tag, text_of(text))
        for heading, text in itertools.pairwise(tokens)
        if heading.type == "heading_open"
    ]
    assert headings == [
        ("h1", f"{page.title}: {page.vehicle}"),
        ("h2", "Parts"),
        ("h2", "Figures"),
        *(("h2", stage.title) for stage in page.stages),
        ("h2", "Measure and note"),
        *([("h2", page.turns.title)] if page.turns else []),
        *([("h2", page.alternatives_heading)] if page.alternatives else []),
    ]


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_its_tables_are_read_as_tables_and_its_sources_stand_last(name: str) -> None:
    page = page_of(demo_sheet(name))
    tokens = read(bw.sheet_markdown(demo_sheet(name)))
    tables = [page.figures, page.measurements, page.turns]
    assert sum(token.type == "table_open" for token in tokens) == sum(map(bool, tables))
    *_, last = (text_of(token) for token in tokens if token.type == "inline")
    assert last == f"Sources: {page.sources}"


@each_case("text", [*TEXTS.values(), "# a", "- a", "+ a", "1. a", "12) a", "==", "1.5 m", "7"])
def test_a_text_at_the_beginning_of_a_line_is_read_as_it_is(text: str) -> None:
    wanted = one_line(text).strip()
    (_, inline, _) = read(escaped(wanted)) or (None, None, None)
    if wanted:
        assert inline is not None
        assert said(text_of(inline)) == said(wanted)


def is_plain(markdown: str, text: str) -> bool:
    """Whether a reader finds nothing but the sheet's own marks, and the text as it is."""
    tokens = read(markdown)
    within = {child.type for token in tokens for child in token.children or ()}
    lines = [said(text_of(token)) for token in tokens]
    return (
        {token.type for token in tokens} <= MARKED
        and within <= WITHIN
        and sum(said(one_line(text)) in line for line in lines) > 10
    )


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_no_text_is_read_as_markdown(text: str) -> None:
    assert is_plain(bw.sheet_markdown(spoiled(demo_sheet("firmer-bars"), text)), text)


@settings(max_examples=draws(60))
@given(ANY_TEXT | st.text("-+*_#=>`~|\\[]()<>!:&.1 a", max_size=12))
def test_no_text_at_all_is_read_as_markdown(text: str) -> None:
    assert is_plain(bw.sheet_markdown(spoiled(demo_sheet("firmer-bars"), text)), text)


def test_a_sheet_that_refuses_has_no_tables(refused: bw.answers.BenchSheet) -> None:
    written = bw.sheet_markdown(refused)
    assert "Figures" not in written
    assert "[ ] 1. STOP" in written

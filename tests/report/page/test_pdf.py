"""The PDF of a bench sheet: two pages, the answer first, the same bytes, and no text obeyed."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator

import attrs
import pypdf
import pytest
from pypdf.generic import ArrayObject, DictionaryObject, PdfObject

import barwright as bw
from barwright.report.page.content import page_of
from barwright.report.page.paper import Paper
from barwright.report.page.pdf import page_pdf
from barwright.report.safe_text import one_line
from hostile_texts import TEXTS
from pdf_paths import letter_sizes
from printed_pages import DEMO_JOBS, demo_sheet, drawing, pdf_texts, said, spoiled
from rare_cases import rarely_after
from sample_packs import discovered_once

TYPST = (
    '#read("/etc/passwd")',
    "*a* _b_ `c` $x$ <d> @e = f",
    "#panic()",
    "\\u{41} \\",
    "// x /* y",
)

EACH_PAPER = pytest.mark.parametrize(
    "paper", ["a4", pytest.param("letter", marks=pytest.mark.slow)]
)


@EACH_PAPER
@pytest.mark.parametrize("name", DEMO_JOBS)
def test_a_demo_job_has_two_pages_the_answer_on_the_first(name: str, paper: Paper) -> None:
    sheet = demo_sheet(name)
    first, second = pdf_texts(bw.sheet_pdf(sheet, paper=paper))
    assert first.startswith(said(sheet.headline))
    for row in sheet.figures:
        assert said(row.what) in first
    for step in sheet.steps:
        assert said(step.line) in second
    for measured in sheet.measurements:
        assert said(measured.what) in second


def tried_first() -> bw.answers.BenchSheet:
    """A sheet that puts another damper on twice: for the trial, and for the plan with a cut."""
    registry = discovered_once()
    corners = []
    for side in ("left", "right"):
        now = registry.setup("fells:chassis/short", corner=f"front {side}")
        lower = now.with_parts(damper=registry.damper("fells:damper/short"))
        wanted = bw.Wanted(height="358 mm")
        corners.append(bw.JobCorner(setup=lower, present=now, wanted=wanted))
    return bw.bench_sheet(bw.Job(title="Lower", corners=tuple(corners)))


@EACH_PAPER
def test_more_steps_are_set_in_smaller_letters_on_two_pages(paper: Paper) -> None:
    sheet = tried_first()
    assert len(sheet.steps) > 60
    pdf = bw.sheet_pdf(sheet, paper=paper)
    _, second = pdf_texts(pdf)
    for step in sheet.steps:
        assert said(step.line) in second
    letters = [min(letter_sizes(page)) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]
    assert min(letters) >= 7.0


@pytest.mark.parametrize(("paper", "size"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_a_page_has_the_size_of_its_paper(paper: Paper, size: tuple[float, float]) -> None:
    page = pypdf.PdfReader(io.BytesIO(bw.sheet_pdf(demo_sheet("firmer-bars"), paper=paper))).pages[
        0
    ]
    millimetres = (float(page.mediabox.width) * 25.4 / 72, float(page.mediabox.height) * 25.4 / 72)
    assert millimetres == pytest.approx(size, abs=0.1)


@EACH_PAPER
@pytest.mark.parametrize("name", rarely_after(1, DEMO_JOBS))
def test_no_letter_is_too_small_to_read_over_a_bench(name: str, paper: Paper) -> None:
    """Drawings are printed smaller than they are drawn; their letters still have 7 points."""
    pdf = bw.sheet_pdf(demo_sheet(name), paper=paper, template=True, whole_thread=True)
    for page in pypdf.PdfReader(io.BytesIO(pdf)).pages:
        assert min(letter_sizes(page)) >= 7.0


@pytest.mark.parametrize("text", rarely_after(4, [*TEXTS.values(), *TYPST]))
def test_no_text_is_read_as_typesetting(text: str) -> None:
    pdf = page_pdf(page_of(spoiled(demo_sheet("firmer-bars"), text), [drawing(text)]))
    # What the font has no sign for is on the page, and not in its text.
    shown = "".join(pdf_texts(pdf))
    for word in one_line(text).split():
        if word.isascii():
            assert shown.count(said(word[:40])) > 10
    found = pypdf.PdfReader(io.BytesIO(pdf)).metadata
    assert found is not None
    assert found.keys() == {"/Title", "/Creator"}
    assert found.title == one_line(f"{text}: {text}")


def test_what_is_written_twice_is_the_same() -> None:
    page = page_of(demo_sheet("loaded-trailer"), [drawing(), drawing(beside=True)])
    assert page_pdf(page) == page_pdf(page)


def test_a_drawing_is_on_the_page_with_its_alternative_text() -> None:
    plain = page_of(demo_sheet("firmer-bars"))
    drawn = page_of(demo_sheet("firmer-bars"), [drawing("A round thing."), drawing(beside=True)])
    assert alternatives(page_pdf(drawn)) == ["A circle.", "A round thing."]
    assert alternatives(page_pdf(plain)) == []


def alternatives(pdf: bytes) -> list[str]:
    """Alternative texts of the pictures in a PDF, in order."""
    root = pypdf.PdfReader(io.BytesIO(pdf)).trailer["/Root"]
    assert isinstance(root, DictionaryObject)
    return list(texts_within(root["/StructTreeRoot"]))


def texts_within(found: PdfObject) -> Iterator[str]:
    """Alternative texts in a tree of structure elements."""
    if isinstance(found, ArrayObject):
        for each in found:
            yield from texts_within(each.get_object())
    elif isinstance(found, DictionaryObject):
        if "/Alt" in found:
            yield str(found["/Alt"])
        if "/K" in found:
            yield from texts_within(found["/K"])


def test_a_sheet_that_refuses_is_set(refused: bw.answers.BenchSheet) -> None:
    texts = pdf_texts(bw.sheet_pdf(refused))
    assert said(refused.headline) in texts[0]
    assert said("STOP") in texts[1]


@pytest.mark.rare
def test_a_long_sheet_goes_on_over_pages() -> None:
    sheet = demo_sheet("shorter-dampers")
    long = attrs.evolve(sheet, stages=sheet.stages * 4)
    texts = pdf_texts(bw.sheet_pdf(long))
    assert len(texts) > 3
    assert all(said(step.line) in "".join(texts) for step in long.steps)


def test_a_missing_package_is_named_with_what_installs_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(bw.MissingExtraError) as caught:
        bw.sheet_pdf(demo_sheet("firmer-bars"))
    assert str(caught.value) == (
        "X101: got 'typst', expected the package that sets a page; pip install 'barwright[report]'"
    )

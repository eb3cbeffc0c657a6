"""The HTML of a bench sheet stands alone, runs nothing and shows every text as it is."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

import barwright as bw
from barwright.report.page import html
from barwright.report.page.content import page_of
from barwright.report.page.html import page_html
from barwright.report.safe_text import one_line
from hostile_texts import TEXTS
from printed_pages import DEMO_JOBS, demo_sheet, drawing, read_html, spoiled

CSS = "".join(
    Path(html.__file__).with_name(name).read_text(encoding="utf-8")
    for name in ("page.css", "sheet.css")
)
TAGS = {
    *("html", "head", "meta", "title", "style", "body", "main", "section", "header", "footer"),
    *("div", "h1", "h2", "p", "ul", "ol", "li", "label", "input", "b", "span", "strong", "small"),
    *("table", "thead", "tbody", "tr", "th", "td", "img", "code"),
}


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_the_page_says_all_that_the_sheet_says(name: str) -> None:
    sheet = demo_sheet(name)
    found = read_html(bw.sheet_html(sheet))
    expected = [
        *(sheet.title, sheet.vehicle, *sheet.headlines, *sheet.notes, *sheet.cautions),
        *(value for row in (*sheet.parts, *sheet.figures) for value in row.values),
        *(row.what for row in sheet.figures),
        *(step.line for step in sheet.steps),
        *(action for step in sheet.steps for action in step.branch),
        *(f"{row.what}: {row.where}" for row in sheet.measurements),
        *("Date", "Vehicle, plate", "Odometer", "Done by"),
    ]
    assert [text for text in expected if text not in found.texts] == []
    assert found.texts.index(sheet.headlines[0]) < found.texts.index(sheet.cautions[0])


def test_each_step_and_each_action_of_a_branch_has_a_box_to_tick() -> None:
    sheet = demo_sheet("shorter-dampers")
    boxes = read_html(bw.sheet_html(sheet)).attributes("input", "type")
    actions = sum(len(step.branch) for step in sheet.steps)
    assert boxes == ["checkbox"] * (len(sheet.steps) + actions)


def test_the_page_refers_to_nothing_and_runs_nothing() -> None:
    page = page_html(page_of(demo_sheet("shorter-dampers"), [drawing(), drawing(beside=True)]))
    found = read_html(page)
    assert {tag for tag, _ in found.tags} <= TAGS
    assert not re.search(r"https?:|//|url\(|@import|<script|javascript:", page)
    assert [source and source[:26] for source in found.attributes("img", "src")] == [
        "data:image/svg+xml;base64,"
    ] * 2
    names = {name for _, attributes in found.tags for name in attributes}
    assert not [name for name in names if name.startswith("on") or "href" in name]


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_no_text_is_read_as_html(text: str) -> None:
    page = page_html(page_of(spoiled(demo_sheet("firmer-bars"), text), [drawing(text)]))
    found = read_html(page)
    assert {tag for tag, _ in found.tags} <= TAGS
    assert found.attributes("img", "alt") == [text]
    shown = [seen for seen in found.texts if one_line(text).strip() in seen]
    assert len(shown) > 10
    assert all(len(attributes) <= 4 for _, attributes in found.tags)


def test_a_drawing_has_its_place_and_its_alternative_text() -> None:
    drawings = [
        drawing("wide", width=4),
        drawing("beside", beside=True),
        drawing("narrow", width=1),
        drawing("half", width=3),
    ]
    found = read_html(page_html(page_of(demo_sheet("firmer-bars"), drawings)))
    assert found.attributes("img", "alt") == ["beside", "wide", "narrow", "half"]
    assert found.attributes("img", "class") == ["width-2", "width-4", "width-1", "width-3"]
    assert len(set(re.findall(r"\.width-\d", CSS))) == 4


def test_what_is_written_twice_is_the_same() -> None:
    sheet = demo_sheet("loaded-trailer")
    assert bw.sheet_html(sheet) == bw.sheet_html(sheet)


def test_a_sheet_that_refuses_has_a_page(refused: bw.answers.BenchSheet) -> None:
    found = read_html(bw.sheet_html(refused))
    assert refused.headline in found.texts
    assert "Figures" not in found.texts
    assert ("li", {"class": "refused", "value": "1"}) in found.tags


# -- For the eye ---------------------------------------------------------------------------


def luminance(colour: str) -> float:
    """Relative luminance of a colour, as WCAG 2.2 defines it (from memory)."""
    parts = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_text_is_dark_enough_on_its_paper() -> None:
    """WCAG 2.2, 1.4.3 asks for 4.5 to 1 and 1.4.11 for 3 to 1 for lines (from memory)."""
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6});", CSS))
    assert {"ink", "paper", "quiet", "rule"} == colours.keys()
    # No other colour is in it.
    assert len(re.findall("#[0-9a-f]{3,8}", CSS)) == len(colours)
    contrasts = {
        name: (luminance(colours["paper"]) + 0.05) / (luminance(colour) + 0.05)
        for name, colour in colours.items()
    }
    used_for_text = set(re.findall(r"(?<!-)color: var\(--(\w+)\)", CSS)) - {"paper"}
    assert used_for_text == {"ink", "quiet"}
    assert all(contrasts[name] >= 4.5 for name in used_for_text)
    assert contrasts["rule"] >= 3.0


def test_a_missing_package_is_named_with_what_installs_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "jinja2", None)
    with pytest.raises(bw.MissingExtraError) as caught:
        bw.sheet_html(demo_sheet("firmer-bars"))
    assert str(caught.value) == (
        "X101: got 'jinja2', expected the package that fills in a page; "
        "pip install 'barwright[report]'"
    )

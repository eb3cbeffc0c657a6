"""The family chart as a page: one sheet of paper, and HTML that stands alone."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.report.page.paper import Paper
from demo_charts import DEMO, TRUCKS
from hostile_texts import TEXTS
from printed_pages import pdf_texts, read_html, said


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("words", ["fells", "hodmule", "trundlet"])
def test_the_chart_of_a_demo_family_is_one_sheet_of_paper(words: str, paper: Paper) -> None:
    chart = bw.family_chart(DEMO, words, processes=1)
    pdf = bw.family_pdf(chart, paper=paper, rests_on="Figures are invented.")
    (text,) = pdf_texts(pdf)
    assert said("goes in as it is") in text
    assert said("Figures are invented.") in text
    for line in chart.lines:
        assert line.pair.bump_stress is not None
        assert f"{line.pair.bump_stress.magnitude:.0f}" in text
    assert (said("Not offered – ") in text) == bool(chart.not_offered)
    assert bw.family_pdf(chart, paper=paper, rests_on="Figures are invented.") == pdf


def test_html_holds_the_picture_and_the_figures() -> None:
    found = read_html(bw.family_html(TRUCKS, rests_on="Figures are invented."))
    (picture,) = found.attributes("img", "src")
    assert picture is not None
    assert picture.startswith("data:image/svg+xml;base64,")
    assert found.attributes("img", "alt") == [TRUCKS.headline.replace("+4 %", "+4 %")]
    texts = found.texts
    assert {"Figures are invented.", "+12.6", "Firm bar, invented", "fits", "N/mm"} <= {*texts}
    assert "Not offered" not in texts
    assert "script" not in [tag for tag, _ in found.tags]


def test_what_is_not_offered_and_ungrouped_lines_stand_on_it_too() -> None:
    chart = bw.family_chart(DEMO, "fells", group="none", processes=1)
    texts = read_html(bw.family_html(chart)).texts
    assert "Not offered" in texts
    assert "wrong length (long wheelbase): Bar with short splines" in texts


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_no_text_of_a_pack_is_read_as_a_page(text: str) -> None:
    group = TRUCKS.groups[0]
    lines = tuple(
        attrs.evolve(line, pair=attrs.evolve(line.pair, bar_title=f"Of {text}"))
        for line in group.lines
    )
    groups = (attrs.evolve(group, title=f"Of {text}", lines=lines), *TRUCKS.groups[1:])
    refused = bw.answers.NotOffered(reason=text, places=(text,), bars=(text,))
    spoiled = attrs.evolve(TRUCKS, family=text, groups=groups, not_offered=(refused,))
    plain = attrs.evolve(TRUCKS, not_offered=(attrs.evolve(refused, reason="no"),))
    tags = [tag for tag, _ in read_html(bw.family_html(spoiled)).tags]
    assert tags == [tag for tag, _ in read_html(bw.family_html(plain)).tags]
    assert "<script" not in bw.family_svg(spoiled)
    assert bw.family_pdf(spoiled)

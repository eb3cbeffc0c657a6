"""What stands in the tables of a family chart: the same in text, on a page, in a notebook."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.family.chart_wish import ChartGrouping
from barwright.report.family.tables import chart_tables, not_offered_lines, overview
from barwright.report.family.words import notes_of, offered_of
from barwright.report.text.across.family_chart import chart_text
from barwright.report.text.layout.tables import plain_lines
from demo_charts import DEMO, TRUCKS, VANS


def with_strength(chart: bw.answers.FamilyChart, verdict: bw.Verdict) -> bw.answers.FamilyChart:
    """The chart with another verdict of the strength of its first line."""
    group = chart.groups[0]
    first, *others = group.lines
    pair = attrs.evolve(first.pair, strength=verdict)
    lines = (attrs.evolve(first, pair=pair), *others)
    return attrs.evolve(chart, groups=(attrs.evolve(group, lines=lines), *chart.groups[1:]))


def test_all_bars_stand_by_all_wheelbases() -> None:
    found = overview(VANS)
    assert found is not None
    assert found.columns == ("bar", "short wheelbase", "middle wheelbase", "long wheelbase")
    cells = {name: rest for name, *rest in found.rows}
    assert cells["Standard bar, middle van"] == ["–", "standard", "–"]
    assert cells["Firm bar, long van"] == ["–", "–", "+26 %"]
    assert cells["Bar with blanks set apart, short van, left"] == [
        "+0 % left, +0 %* right",
        *("–", "–"),
    ]
    assert [name for name, *_ in found.rows][-2:] == [
        "Standard bar, long van",
        "Firm bar, long van",
    ]


def test_a_blank_cell_is_one_that_was_not_asked_for_where_lines_are_filtered() -> None:
    for filtered, means in ((0, "not offered"), (2, "not offered, or not asked for")):
        found = overview(attrs.evolve(TRUCKS, filtered=filtered))
        assert found is not None
        assert found.title == f"Rate at the wheel against standard (– {means}; * with changes)"


def test_one_wheelbase_or_no_bar_needs_no_overview() -> None:
    assert overview(bw.family_chart(DEMO, "fells middle", processes=1)) is None
    assert overview(attrs.evolve(TRUCKS, groups=())) is None


def test_a_group_has_its_height_in_its_title_and_its_units_below_the_columns() -> None:
    short, middle, _ = chart_tables(VANS)
    assert middle.title == "Fells carrier, middle wheelbase, front, at 409 mm hub to arch"
    assert middle.columns == (
        *("bar", "alone", "system", "wheel", "change", "ride", "bump", "verdict"),
    )
    assert middle.units == ("", "N·m/deg", "N·m/deg", "N/mm", "%", "Hz", "MPa", "")
    assert middle.rows[1] == (
        *("Firm bar, middle van", "65.0", "55.5", "27.0", "+29.3", "1.40", "617", "fits"),
    )
    assert short.columns[1] == "side"
    assert {row[1] for row in short.rows} == {"both", "left", "right"}
    assert [row[-1] for row in short.rows].count("change 1") == 2
    assert "Change 1: made for the other side." in notes_of(VANS)


@pytest.mark.parametrize(("group", "columns"), [("bar", ("on", "alone")), ("none", ("bar", "on"))])
def test_lines_are_named_by_what_their_group_does_not_say(
    group: ChartGrouping, columns: tuple[str, str]
) -> None:
    chart = bw.family_chart(DEMO, "hodmule", group=group, processes=1)
    first, *_ = chart_tables(chart)
    assert first.columns[:2] == columns
    assert first.columns[-1] == "at"
    assert first.rows[0][-1] == "492 mm"
    assert any("(standard)" in name for name, *_ in first.rows)


def test_strengths_that_differ_are_said_of_each_line() -> None:
    assert any(note.startswith("All stay below yield. ") for note in notes_of(TRUCKS))
    mixed = with_strength(TRUCKS, bw.Verdict.HOLDS)
    first, *_ = chart_tables(mixed)
    assert [row[-1] for row in first.rows] == [
        "fits, strong enough",
        "fits, below yield",
        "fits, below yield",
    ]
    assert any(note.startswith("Below yield: ") for note in notes_of(mixed))


def test_one_line_of_known_strength_needs_no_word_of_yield() -> None:
    one = bw.family_chart(DEMO, "fells middle", bars="middle-standard", processes=1)
    strong = with_strength(one, bw.Verdict.HOLDS)
    assert not any("yield" in note for note in notes_of(strong))


def test_a_figure_that_is_not_there_is_blank() -> None:
    line = TRUCKS.lines[1]
    blanks: dict[str, Any] = dict.fromkeys(
        ("height", "wheel_rate_change", "wheel_rate", "bump_stress")
    )
    bare = attrs.evolve(line.pair, **blanks)
    group = bw.answers.ChartGroup(title="t", lines=(attrs.evolve(line, pair=bare),))
    chart = attrs.evolve(TRUCKS, groups=(group,))
    (table,) = chart_tables(chart)
    assert table.title == "t"
    assert table.units == ("", "N·m/deg", "N·m/deg", "", "%", "Hz", "", "")
    assert table.rows[0][3:] == ("", "", line_of_ride(line), "", "fits")
    assert offered_of(group.lines[0]) == ""
    rated = attrs.evolve(bare, wheel_rate=line.pair.wheel_rate)
    assert offered_of(attrs.evolve(line, pair=rated)) == "45.6 N/mm"


def line_of_ride(line: bw.answers.ChartLine) -> str:
    frequency = line.pair.ride_frequency
    assert frequency is not None
    return f"{frequency.magnitude:.2f}"


def test_what_is_left_out_is_counted() -> None:
    chart = attrs.evolve(TRUCKS, filtered=3, other_splines=1, groups=())
    assert list(notes_of(chart)) == [
        "Not asked for: 3 more that could be offered.",
        "1 more bar has other splines.",
    ]
    assert "17 more bars have other splines." in notes_of(TRUCKS)


def test_what_is_not_offered_stands_apart_with_its_reason() -> None:
    assert (
        "wrong length (short wheelbase, middle wheelbase): Firm bar, long van; "
        "Standard bar, long van" in not_offered_lines(VANS)
    )
    text = "\n".join(plain_lines(chart_text(VANS), 80))
    assert "Not offered\n   - wrong length (short wheelbase, middle" in text
    assert "Not offered" not in "\n".join(plain_lines(chart_text(TRUCKS), 80))
    assert max(map(len, text.splitlines())) <= 80


def test_no_row_of_the_chart_is_broken_at_80_columns() -> None:
    lines = list(plain_lines(chart_text(TRUCKS), 80))
    assert "Bar of the long wheelbase, invented  +9 %             standard" in lines
    assert sum(line.startswith("Firm bar, invented") for line in lines) == 3


def test_it_is_printed_as_every_answer_is() -> None:
    assert bw.text(TRUCKS).startswith("3 bars go on 2 wheelbases of Gorsewain Hodmule")
    assert "| Firm bar, invented | +13 % | +4 % |" in bw.markdown(TRUCKS)
    assert '<th scope="row">Firm bar, invented</th><td>+13\N{NO-BREAK SPACE}%</td>' in bw.html(
        TRUCKS
    )

"""Tests of `barwright.report.text.grounds.trail`: where figures come from, in words."""

from __future__ import annotations

import io
from typing import Any

import attrs
import pytest
from rich.console import Console

import barwright as bw
from barwright.registry.overlays.preference import Preference
from barwright.report.text.grounds.trail import rests_on_text, trail_row, trail_text
from sample_packs import discovered_once

REGISTRY = discovered_once()
SETUP = REGISTRY.setup("fells:chassis/short", corner="front left")


def printed(renderable: Any) -> list[str]:
    console = Console(file=io.StringIO(), width=180)
    console.print(renderable)
    assert isinstance(console.file, io.StringIO)
    return [line.rstrip() for line in console.file.getvalue().splitlines()]


def test_all_figures_stand_with_source_and_key() -> None:
    lines = printed(trail_text(bw.trail(SETUP, source=REGISTRY.source)))

    answer = bw.trail(SETUP)
    counted = f"{len(answer.lines)} figures and {len(answer.facts)} facts"
    assert lines[0] == f"{counted} from 3 sources."
    assert lines[2].split() == ["figure", "value", "source", "key"]
    (modulus,) = (line for line in lines if line.startswith("bar: material: shear"))
    for piece in (
        "80 GPa ± 3.9 GPa",
        "standards:teaching-table, 4340, oil quenched",
        "materials.toml: material/sae-4340: shear_modulus",
    ):
        assert piece in modulus
    at = lines.index("Sources")
    assert [line.split(";")[0].strip() for line in lines[at + 1 :]][:2] == [
        "fells:drawing-board: invented",
        "standards:teaching-table: published",
    ]


def test_the_effect_stands_where_a_figure_was_asked_for() -> None:
    answer = bw.trail(SETUP, figure="bar_rate")

    lines = printed(trail_text(answer))

    assert lines[0].startswith("Bar rate is 48.0 N·m/deg; bar diameter affects it most.")
    assert lines[1] == "bar rate 48.022 N·m/deg is affected by 11 figures, to first order:"
    assert lines[3].split() == ["figure", "value", "moves", "it", "by", "source", "file"]
    assert "+1.89 N·m/deg for 0.231 mm" in lines[4]
    unknown = attrs.evolve(answer, lines=(attrs.evolve(answer.lines[0], effect=None),))
    reported = printed(trail_text(unknown))
    assert "is affected by 1 figure, to" in reported[1]
    assert "not known" in reported[4]


def test_a_correction_stands_above_the_table() -> None:
    bar = SETUP.bar
    figure = bw.parts.Figure(
        value=bar.diameter, source="shop:gauge", why="Measured.", replaces=bar.about["diameter"]
    )
    added = bw.parts.Figure(value=bar.about["length"].value, source="shop:gauge", why="Left out.")
    setup = SETUP.with_parts(bar=bar.described({"diameter": figure, "length": added}))

    lines = [line.strip() for line in printed(trail_text(bw.trail(setup)))]

    assert "* bar: diameter was 23.1 mm by fells:drawing-board; corrected: Measured." in lines
    assert "* bar: length was not given; corrected: Left out." in lines


def test_a_row_sums_up() -> None:
    assert trail_row(bw.trail(SETUP, figure="bar_rate")) == {
        "bar rate": "48.022 N·m/deg",
        "moved most by": "bar: diameter, bar: material: shear modulus, bar: length",
    }
    whole = bw.trail(SETUP)
    counts = {"figures": str(len(whole.lines)), "facts": str(len(whole.facts))}
    assert trail_row(whole) == counts


def test_an_answer_that_is_no_stands_with_its_reason() -> None:
    short = SETUP.with_parts(bar=attrs.evolve(SETUP.bar, length="700 mm"))
    answer = bw.trail(short, figure="bar_rate")

    first, *_ = printed(trail_text(answer))
    assert first.startswith("Does not fit: the bar is too short: its splines")
    assert trail_row(answer) == {"bar rate": "does not fit", "moved most by": ""}


def test_a_preference_stands_above_the_table() -> None:
    one = Preference("fells", "barwright-pack-fells", "shop")

    _, line, *_ = printed(trail_text(bw.trail(SETUP, preferences=[one])))

    assert line.strip() == "* fells: the pack of barwright-pack-fells, as shop says"


@pytest.mark.parametrize(
    ("unmeasured", "line"),
    [
        ([], ""),
        ([("invented", "a:b")], "Rests on invented figures: a:b"),
        (
            [("invented", "a:b_c"), ("invented", "d:e"), ("recalled", "f:g")],
            "Rests on invented figures: a:b_c, d:e; on recalled figures: f:g",
        ),
        (
            [("unsourced", f"bar.end_{n}") for n in range(5)],
            "Rests on figures without a source: bar: end 0, bar: end 1, bar: end 2 and 2 more",
        ),
        (
            [("unsourced", f"bar.end_{n}") for n in range(3)],
            "Rests on figures without a source: bar: end 0, bar: end 1, bar: end 2",
        ),
        ([("invented", "a:b"), ("invented", "a:b")], "Rests on invented figures: a:b"),
    ],
)
def test_what_an_answer_rests_on_is_one_line(unmeasured: list[tuple[str, str]], line: str) -> None:
    assert (
        rests_on_text([bw.answers.UnmeasuredSource(kind=k, source=s) for k, s in unmeasured])
        == line
    )


def estimated(source: str, count: int) -> bw.answers.UnmeasuredSource:
    """An estimated source with some figures."""
    figures = tuple(
        bw.answers.EstimatedFigure(
            figure=f"bar.end_{n}", value=bw.Quantity(20.0, "mm"), tolerance=bw.Quantity(1.5, "mm")
        )
        for n in range(count)
    )
    return bw.answers.UnmeasuredSource(kind="estimated", source=source, figures=figures)


def test_estimates_are_named_with_their_ranges_each_once() -> None:
    named = ", ".join(f"bar end {n} 20 mm ± 1.5 mm" for n in range(5))
    source = estimated("a:b_c", 5)

    line = f"Rests on estimated figures: {named} (a:b_c)"
    assert rests_on_text([source, source]) == line
    assert rests_on_text([source, estimated("a:d", 1)]).startswith(f"{line}, bar end 0 ")


def test_of_a_source_with_many_estimates_some_are_named() -> None:
    assert rests_on_text([estimated("a:b", 9)]).endswith(" ± 1.5 mm and 3 more (a:b)")
    every = rests_on_text([estimated(f"a:{n}", 1) for n in range(30)])
    assert all(f"(a:{n})" in every for n in range(30))


def test_further_reasons_stand_below_an_answer_that_is_no() -> None:
    long = SETUP.with_parts(bar=attrs.evolve(SETUP.bar, length="1200 mm"))
    answer = bw.trail(long, figure="bar_rate")

    shown = " ".join(" ".join(printed(trail_text(answer))).split())
    assert answer.further_findings
    for finding in answer.further_findings:
        assert f" * because: {finding.text}" in shown


def test_a_source_stands_with_what_it_says_of_itself() -> None:
    source = REGISTRY.source("fells:drawing-board")
    assert source is not None
    shown = " ".join(" ".join(printed(trail_text(bw.trail(SETUP, source=REGISTRY.source)))).split())
    assert f"fells:drawing-board: invented; {source.note}" in shown


def test_what_was_written_stands_beside_value_and_tolerance() -> None:
    text = "742.0 mm +0.4 mm -0.1 mm"
    figure = bw.parts.Figure(
        value=SETUP.bar.diameter, tolerance=bw.Quantity(0.25, "mm"), written=text, source="a:b"
    )
    setup = SETUP.with_parts(bar=SETUP.bar.described({"diameter": figure}))

    lines = printed(trail_text(bw.trail(setup)))

    (diameter,) = (line for line in lines if line.startswith("bar: diameter"))
    assert f"23.1 mm ± 0.25 mm ({text})" in diameter


def test_a_record_that_is_like_another_names_it_beside_the_place_of_the_figure_or_fact() -> None:
    answer = bw.trail(SETUP)
    figure, fact = answer.lines[0], answer.facts[0]
    changed = attrs.evolve(
        answer,
        lines=(attrs.evolve(figure, taken_by="shop:bar/one"), *answer.lines[1:]),
        facts=(attrs.evolve(fact, taken_by="shop:bar/two"), *answer.facts[1:]),
    )
    plain, shown = printed(trail_text(answer)), printed(trail_text(changed))
    new = [line for line in shown if line not in plain]

    assert [line.rpartition("  ")[2] for line in new] == [
        f"{figure.file}: {figure.key} (shop:bar/one is like it)",
        f"{fact.file}: {fact.key} (shop:bar/two is like it)",
    ]
    assert "is like it" not in " ".join(plain)


def test_a_corrected_fact_is_named_above_the_table() -> None:
    answer = bw.trail(SETUP)
    fact = attrs.evolve(answer.facts[0], fact="bar.preset", why="Looked at.")
    lines = printed(trail_text(attrs.evolve(answer, facts=(fact,))))

    assert "* bar: preset was not given; corrected: Looked at." in [one.strip() for one in lines]

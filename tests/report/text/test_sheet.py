"""The terminal's text of a bench sheet: the answer, what must be known, then the work."""

from __future__ import annotations

import re

import attrs

import barwright as bw
from barwright.report.text.reindex import reindex_text
from barwright.report.text.sheet import sheet_text
from sample_packs import discovered_once
from sample_records import known, make_bar, make_setup
from sheet_corners import LOWER, sheet_of, stuck_corner
from terminal_text import folded, printed


def demo(name: str = "shorter-dampers") -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.load_job(f"docs/examples/{name}.toml", discovered_once()))


def test_a_sheet_without_rates_and_a_re_index_without_fit_still_show() -> None:
    setup = make_setup(bar=make_bar(length="1200 mm"))
    shown = folded(sheet_text(sheet_of(setup)))
    assert shown.startswith("Front left: does not fit: the bar is too long")
    assert "free angle of the arm not known" in folded(reindex_text(bw.reindex(setup)))


def test_a_plan_that_cannot_be_assembled_is_called_so() -> None:
    held = make_setup(
        axle={"droop_stop": "-5.5 deg"},
        bar=make_bar(diameter="20.2 mm"),
        adjuster={"thread_start": "164 mm", "thread_end": "180 mm"},
    )
    wanted = bw.Wanted(height="404 mm")
    assert "cannot be assembled" in folded(reindex_text(bw.reindex(held, wanted=wanted)))
    assert "wherever the nut stands" in folded(sheet_text(sheet_of(held, wanted=wanted)))


def test_what_a_reader_needs_first_stands_first() -> None:
    sheet = demo()
    shown = printed(sheet_text(sheet))
    assert shown.startswith(sheet.headline[:70])
    order = [
        sheet.title,
        *(f"   * {note[0].upper()}{note[1:40]}" for note in sheet.notes[:1]),
        "   ! Figures invented",
        "Parts: ",
        "Figures  ",
        "Before you begin",
        "Back on its wheels",
        "Measure and note",
        "Alternatives",
        "Sources: ",
    ]
    places = [shown.index(words) for words in order]
    assert places == sorted(places)
    for note in sheet.notes:
        assert note in folded(sheet_text(sheet))
    for caution in sheet.cautions:
        assert caution in folded(sheet_text(sheet))


def test_steps_are_numbered_through_and_a_branch_has_letters() -> None:
    sheet = demo()
    shown = printed(sheet_text(sheet))
    numbers = [int(number) for number in re.findall(r"^ *(\d+)\. ", shown, flags=re.MULTILINE)]
    assert numbers == list(range(1, len(sheet.steps) + 1))
    (branch,) = [step.branch for step in sheet.steps if step.branch]
    assert re.findall(r"^  ([a-z])\) ", shown, flags=re.MULTILINE) == ["a", "b", "c"][: len(branch)]


def test_figures_have_a_column_a_side_and_room_for_what_is_measured() -> None:
    sheet = demo()
    lines = printed(sheet_text(sheet)).splitlines()
    (height,) = [line for line in lines if line.startswith("hub to arch")]
    assert re.split(r"  +", height.strip()) == ["hub to arch", "349 ± 7 mm", "349 ± 7 mm"]
    pins = [known(known(c.plan).pin_distance).m_as("mm") for c in sheet.corners]
    (nut,) = [line for line in lines if line.startswith("nut after: bolt's pivot")]
    assert re.split(r"  +", nut.strip())[1:] == [f"_____ ({pin:.1f} mm)" for pin in pins]
    (load,) = [line for line in lines if line.startswith("scale reading: under")]
    assert re.split(r"  +", load.strip())[1:] == ["_____ (326 kg)", "_____ (323 kg)"]


def test_parts_that_differ_between_the_sides_are_named_for_both() -> None:
    right = make_setup(side=bw.parts.Side.RIGHT)
    other = attrs.evolve(right.damper, id="t:damper/two", title="Other")
    corners = (
        bw.JobCorner(setup=make_setup(), present=make_setup(), wanted=LOWER),
        bw.JobCorner(setup=right.with_parts(damper=other), present=right, wanted=LOWER),
    )
    shown = folded(sheet_text(bw.bench_sheet(bw.Job(title="t", corners=corners))))
    assert "; Damper (left), Other, in place of Damper (right)" in shown
    assert "Parts: Arm; Bar; " in shown


def test_alternatives_are_a_line_each_with_their_corners() -> None:
    lines = printed(sheet_text(demo())).splitlines()
    assert "   - plan 2, front left and front right: remove 1 tooth at the anchor end" in [
        line.rstrip() for line in lines
    ]
    one = make_setup()
    shown = printed(sheet_text(sheet_of(one, wanted=bw.Wanted(height="404 mm", cuts=0))))
    assert "Alternatives" not in shown


def test_a_sheet_that_refuses_prints_no_empty_headings() -> None:
    sheet = bw.bench_sheet(bw.Job(title="t", corners=(stuck_corner(),)))
    shown = printed(sheet_text(sheet))
    assert "STOP: This sheet knows no safe way" in shown
    for heading in ("Figures", "Measure and note", "Before you begin", "Alternatives"):
        assert heading not in shown


def test_a_sheet_whose_figures_have_no_source_names_none() -> None:
    sheet = sheet_of(make_setup())
    assert sheet.sources == ()
    assert "Sources" not in printed(sheet_text(sheet))

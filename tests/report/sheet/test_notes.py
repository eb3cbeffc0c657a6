"""Tests of `notes`: what is found at several corners is said once, with all figures."""

from __future__ import annotations

import attrs

import barwright as bw
from barwright.report.sheet.notes import notes, superseded
from sample_records import make_setup
from sheet_corners import sheet_of

LEFT, RIGHT = "front left", "front right"


def finding(text: str = "little thread left", **change: object) -> bw.answers.Finding:
    return bw.answers.Finding(topic=bw.answers.Topic.THREAD, text=text, **change)  # type: ignore[arg-type]


def of(left: list[bw.answers.Finding], right: list[bw.answers.Finding]) -> list[str]:
    return list(notes([(LEFT, left), (RIGHT, right)]))


def test_what_is_found_at_all_corners_is_said_once_and_names_none() -> None:
    assert of([finding()], [finding()]) == ["Little thread left"]


def test_what_is_found_at_one_corner_names_it() -> None:
    assert of([finding()], []) == ["Front left: little thread left"]
    assert of([], [finding(figure=3)]) == ["Front right: little thread left: 3"]


def test_figures_stand_beside_each_other_with_their_limits() -> None:
    at = [finding(figure=bw.Quantity(f"{n} mm"), limit=bw.Quantity("4 mm")) for n in (1, 2)]
    assert of([at[0]], [at[1]]) == [
        "Little thread left: 1.0 mm, limit 4.0 mm (left), 2.0 mm, limit 4.0 mm (right)"
    ]
    assert of([at[0]], [at[0]]) == ["Little thread left: 1.0 mm, limit 4.0 mm"]


def test_findings_of_two_ends_are_two() -> None:
    ends = [finding(end=end) for end in bw.parts.BarEndName]
    assert len(of(ends, ends)) == 2


def test_the_finding_that_a_refusal_says_is_no_note() -> None:
    sheet = sheet_of(make_setup(), wanted=bw.Wanted(height="900 mm"))
    reason = sheet.corners[0].reindex.findings[0]
    assert reason.text in sheet.headline
    assert not any(reason.text in note for note in sheet.notes)


def test_a_superseded_part_is_told_once_with_what_replaces_it() -> None:
    old = attrs.evolve(make_setup().damper, replaced_by=("t:damper/a", "t:damper/b"))
    setup = make_setup().with_parts(damper=old)
    line = f"{old.title} ({old.id}) is superseded by t:damper/a or t:damper/b"
    assert list(superseded([setup, setup])) == [line]
    assert list(superseded([make_setup()])) == []
    assert line in sheet_of(setup, wanted=bw.Wanted(height="404 mm")).notes


def test_the_bar_that_goes_in_is_named_by_number_and_paint() -> None:
    numbers = (bw.parts.PartNumber("works", "71-20 455"),)
    bar = attrs.evolve(make_setup().bar, numbers=numbers, paint="red", pack_version="1.2")
    sheet = sheet_of(make_setup().with_parts(bar=bar))
    lines = [step.line for step in sheet.steps]
    assert any(f"{bar.title} (works 71-20 455, paint red)." in line for line in lines)
    assert sheet.packs == (f"{bar.id.partition(':')[0]} 1.2",)
    assert sheet.vehicle_with_packs == f"{sheet.vehicle} ({sheet.packs[0]})"

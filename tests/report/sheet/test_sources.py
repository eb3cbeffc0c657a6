"""Tests of `sources`: each source once, old parts among them, and how it came to its figures."""

from __future__ import annotations

import attrs

import barwright as bw
from barwright.report.sheet.sources import sources_of
from sample_packs import discovered_once
from sample_records import make_setup


def test_a_job_names_its_sources_and_what_is_invented() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
    expected = ("fells:drawing-board (invented)", "standards:teaching-table (published)")
    assert sources_of(job) == bw.bench_sheet(job).sources == expected


def test_the_sources_of_a_part_that_comes_off_are_named_too() -> None:
    setup = make_setup()
    figure = bw.parts.Figure(
        value=setup.damper.open_length, source="t:tape", source_kind=bw.parts.SourceKind.MEASURED
    )
    worn = attrs.evolve(setup.damper, about=bw.parts.About({"open_length": figure}))
    corner = bw.JobCorner(
        setup=setup, present=setup.with_parts(damper=worn), wanted=bw.Wanted(height="404 mm")
    )
    assert sources_of(bw.Job(title="t", corners=(corner,))) == ("t:tape (measured)",)

"""Corners for tests of the bench sheet, and their sheets."""

from __future__ import annotations

import attrs

import barwright as bw
from sample_records import make_setup, swing_arm_mounting

__all__ = ["LOWER", "place", "sheet_of", "stuck_corner", "texts"]

LOWER = bw.Wanted(height="349 mm")
"""A height that costs the usual corner a tooth."""


def stuck_corner() -> bw.JobCorner:
    """A corner whose bar is to be swapped, and for whose bar no safe way out is known."""
    setup = make_setup(
        damper={"open_length": "640 mm", "closed_length": "480 mm"},
        axle={"droop_stop": "-18 deg", "suspension": swing_arm_mounting()},
    )
    other = attrs.evolve(setup.bar, title="Other bar")
    return bw.JobCorner(
        setup=setup.with_parts(bar=other),
        present=attrs.evolve(setup, arm_tooth=-1),
        wanted=bw.Wanted(height="300 mm"),
    )


def sheet_of(
    setup: bw.Setup, present: bw.Setup | None = None, wanted: bw.Wanted = LOWER
) -> bw.answers.BenchSheet:
    """Write the sheet of a job with one corner."""
    corner = bw.JobCorner(setup=setup, present=present or setup, wanted=wanted)
    return bw.bench_sheet(bw.Job(title="t", corners=(corner,)))


def texts(sheet: bw.answers.BenchSheet) -> str:
    """All steps with what a branch of theirs says, a line each."""
    return "\n".join(line for step in sheet.steps for line in (step.line, *step.branch))


def place(sheet: bw.answers.BenchSheet, *words: str) -> int:
    """Number of the one step that holds all words."""
    found = [n for n, step in enumerate(sheet.steps) if all(w in step.text for w in words)]
    assert len(found) == 1, (words, [step.text for step in sheet.steps])
    return found[0]

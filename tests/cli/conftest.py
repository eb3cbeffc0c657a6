"""Tests of how commands print answers share the answers."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from asked_once import asked_once

QUESTIONS = {
    "measurements.balance": ("balance",),
    "measurements.calibrate": ("calibrate",),
    "choose": ("choose",),
    "measurements.diagnose": ("diagnose",),
    "fit": ("length_fit",),
    "measurements.identify": ("identify",),
    "measurements.needs": ("needs",),
    "nut": ("nut_table", "work_rests_on"),
    "reindex": ("reindex_job", "work_rests_on"),
    "sheet": ("bench_sheet",),
    "strength": ("strength",),
    "grounds.tolerance": ("tolerance",),
    "grounds.trail": ("trail",),
    "grounds.working": ("working",),
}


@pytest.fixture(scope="module", autouse=True)
def _asked_once() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        asked_once(patch, "barwright.registry.authoring.scaffold", "schema_text")
        for command, questions in QUESTIONS.items():
            asked_once(patch, f"barwright.cli.asking.{command}", *questions)
        yield

"""Rule `metric-thread`: an adjuster's thread is one of the ISO metric threads."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed, reported

RULE = "metric-thread"
DIAMETER, PITCH = 'thread_diameter = "12 mm"', 'thread_pitch = "1.75 mm"'


@pytest.mark.parametrize("pitch", ["1.75 mm", "1.5 mm", "0.175 cm"])
def test_coarse_and_fine_threads_are_known(tmp_path: Path, pitch: str) -> None:
    assert changed(tmp_path, RULE, ("parts.toml", PITCH, f'thread_pitch = "{pitch}"')) == []


def test_a_pitch_that_the_diameter_does_not_have(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, RULE, ("parts.toml", PITCH, 'thread_pitch = "1.57 mm"'))
    message = (
        "thread_pitch 1.57 mm belongs to no ISO metric thread of thread_diameter 12 mm, which has "
        "1.75 mm, 1.5 mm, 1.25 mm, 1 mm"
    )
    assert reported(finding)[2:] == ("adjuster/one.thread_pitch", message)
    assert (finding.code, finding.severity) == ("R210", bw.answers.Severity.WARNING)


def test_a_diameter_that_no_thread_has(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, RULE, ("parts.toml", DIAMETER, 'thread_diameter = "13 mm"'))
    assert finding.of == "adjuster/one.thread_diameter"
    assert finding.message.endswith("of 13 mm; the nearest are 12 mm and 14 mm")

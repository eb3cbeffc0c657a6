"""Rule `weak-head`: a bar is thinner than the roots of its teeth."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed, reported

BAR = 'diameter = "23.3 mm ± 0.05 mm"'


@pytest.mark.parametrize(
    ("diameter", "ends"),
    [
        ("28.0 mm", []),
        ("28.1 mm", ["arm_end"]),
        ("30.3 mm", ["arm_end"]),
        ("30.4 mm", ["arm_end", "anchor_end"]),
    ],
)
def test_roots_are_larger_than_the_body(tmp_path: Path, diameter: str, ends: list[str]) -> None:
    change = ("parts.toml", BAR, f'diameter = "{diameter}"')
    findings = changed(tmp_path, "weak-head", change)
    assert [f.of for f in findings] == [f"bar/one.{end}.root_diameter" for end in ends]


def test_what_is_said_of_it(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, "weak-head", ("parts.toml", BAR, 'diameter = "29 mm"'))
    message = "roots of 28.1 mm are no larger than the body of 29 mm: the head would break first"
    assert reported(finding) == ("parts.toml", 16, "bar/one.arm_end.root_diameter", message)
    assert (finding.code, finding.severity) == ("R206", bw.answers.Severity.WARNING)

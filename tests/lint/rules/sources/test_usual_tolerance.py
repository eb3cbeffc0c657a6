"""Rule `usual-tolerance`: a tolerance is as wide as such figures usually have."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import ESTIMATED, changed, reported
from sample_packs import GOOD_PACK

RULE = "usual-tolerance"
BAR = 'diameter = "23.3 mm ± 0.05 mm"'
RADIUS = '"338 mm ± 0.5 mm"'


@pytest.mark.parametrize(
    ("tolerance", "is_odd"),
    [("0.2 mm", False), ("0.5 mm", True), ("5 mm", True), ("0.05 in", True), ("0.0005 mm", True)],
)
def test_a_bars_diameter(tmp_path: Path, tolerance: str, *, is_odd: bool) -> None:
    change = ("parts.toml", BAR, f'diameter = "23.3 mm ± {tolerance}"')
    of = [finding.of for finding in changed(tmp_path, RULE, change)]
    assert of == ["bar/one.diameter"] * is_odd


def test_what_is_said_of_an_arm(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, RULE, ("parts.toml", RADIUS, '"338 mm ± 0.5 in"'))
    message = "radius 338 mm has a tolerance of ± 0.5 in; such figures usually have ± 4 mm at most"
    assert reported(finding)[2:] == ("arm/one.radius", message)
    assert (finding.code, finding.severity) == ("R105", bw.answers.Severity.WARNING)


def test_the_range_of_an_estimate_may_be_wide(tmp_path: Path) -> None:
    header = (GOOD_PACK / "pack.toml").read_text(encoding="utf-8")
    wide = '{ is = "338 mm ± 20 mm", source = "estimated" }'
    source = ("pack.toml", header, f"{header}\n{ESTIMATED}")
    assert changed(tmp_path, RULE, ("parts.toml", RADIUS, wide), source) == []


def test_a_figure_that_nobody_has_an_opinion_of(tmp_path: Path) -> None:
    change = ("parts.toml", 'slope = "-0.42 N/mm"', 'slope = "-0.42 N/mm ± 0.4 N/mm"')
    assert changed(tmp_path, RULE, change) == []

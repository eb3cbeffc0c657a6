"""Rule `standard-seat`: a standard bar lies with both splines wholly in their sockets."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed, reported

RULE = "standard-seat"
LENGTH = 'length = "904 mm"'
SOCKET = 'socket_position = "772 mm"'


@pytest.mark.parametrize(
    ("length", "off"),
    [
        ("904 mm", ""),
        ("902.1 mm", ""),
        ("901.5 mm", "2.5 mm too short"),
        ("907.9 mm", ""),
        ("910 mm", "4.0 mm too long"),
        ("889 mm ± 0.5 mm", "15.0 mm too short"),
        ("901.5 mm ± 1 mm", ""),
    ],
)
def test_a_bar_is_as_long_as_its_sockets_lie_apart(tmp_path: Path, length: str, off: str) -> None:
    findings = changed(tmp_path, RULE, ("parts.toml", LENGTH, f'length = "{length}"'))
    assert [reported(f)[2] for f in findings] == ["chassis/one.axles[0]"] * bool(off)
    assert all(f"Bar is {off}" in f.message for f in findings)
    assert all("compare bar/one.length " in f.remedy for f in findings)
    assert all((f.code, f.severity) == ("R306", bw.answers.Severity.WARNING) for f in findings)


def test_where_the_tube_is_wrong_it_is_named_too(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, RULE, ("parts.toml", SOCKET, 'socket_position = "777 mm"'))
    assert "tube/one.socket_position 777 mm" in finding.remedy

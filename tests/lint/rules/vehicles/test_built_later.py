"""Rule `built-later`: a vehicle was not built later than the year of its source."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed

RULE = "built-later"
BENCH = 'source = "bench", at = "sheet 1" }'
"""A source that is said to be measured in 2031."""


def built(folder: Path, *, first: str, last: str = "", kind: str = "measured") -> list[str]:
    """What is said of the good pack's vehicle, when it was built and by which kind of source."""
    told = {"first_built": first, "last_built": last}
    lines = [f'{name} = {{ is = "{month}", {BENCH}' for name, month in told.items() if month]
    findings = changed(
        folder,
        RULE,
        ("vehicles.toml", "source =", "\n".join((*lines, "source ="))),
        ("pack.toml", 'kind = "measured"', f'kind = "{kind}"'),
    )
    assert all((f.code, f.severity) == ("R310", bw.answers.Severity.WARNING) for f in findings)
    return [finding.text for finding in findings]


@pytest.mark.parametrize("kind", ["measured", "published", "maker"])
def test_a_vehicle_that_was_built_after_its_source_is_told(tmp_path: Path, kind: str) -> None:
    (first, last) = built(tmp_path, first="2041-02", last="2042-03", kind=kind)

    said = "first_built 2041-02 is later than 2031, the year of its source tiny:bench; look for a"
    assert f".first_built: {said}" in first
    assert ".last_built: last_built 2042-03 is later than 2031" in last


@pytest.mark.parametrize("kind", ["invented", "recalled"])
def test_what_is_invented_or_recalled_has_no_date(tmp_path: Path, kind: str) -> None:
    assert built(tmp_path, first="2041-02", kind=kind) == []


def test_a_source_knows_what_was_built_in_its_own_year(tmp_path: Path) -> None:
    assert built(tmp_path, first="2029-01", last="2031-12") == []

"""Rule `unknown-figures`: each record with gaps is told once, and a gap is no fault."""

from __future__ import annotations

from pathlib import Path

import barwright as bw
from flawed_packs import changed, reported, small_pack
from sample_packs import GOOD_PACK, changed_pack

DAMPER = '[[damper]]\nid = "one"\ntitle = "One"\nsource = "invented"\n'


def test_a_record_with_gaps_is_told_once_with_all_of_them(tmp_path: Path) -> None:
    findings = changed(
        tmp_path,
        "unknown-figures",
        ("parts.toml", "arm_end = { teeth = 39,", 'arm_end = { teeth = "unknown",'),
        ("parts.toml", 'length = "904 mm"', 'bore = "unknown"'),
        ("vehicles.toml", 'top_up = "611 mm", ', ""),
        ("vehicles.toml", 'hub_up = "48 mm"', ""),
    )
    assert [(f.of, f.message) for f in findings] == [
        ("bar/one", "unknown: bore, length, arm_end.teeth"),
        ("chassis/one", "unknown: axles[0].hub_up, axles[0].suspension.top_up"),
    ]


def test_a_pack_with_nothing_but_notes_is_good(tmp_path: Path) -> None:
    linted = bw.lint_pack(changed_pack(tmp_path, "parts.toml", 'radius = "338 mm ± 0.5 mm"', ""))
    (finding,) = linted.findings
    assert reported(finding) == ("parts.toml", 1, "arm/one", "unknown: radius")
    assert (finding.code, finding.severity) == ("R104", bw.answers.Severity.NOTE)
    assert (finding.is_flaw, linted.exit_code, linted.mark) == (False, 0, "good")


def test_a_note_can_be_waived(tmp_path: Path) -> None:
    waiver = '[[waiver]]\nrule = "unknown-figures"\nof = "damper/one"\nwhy = "It rusted away."\n'
    linted = bw.lint_pack(small_pack(tmp_path, f"{DAMPER}{waiver}"))
    assert [finding.rule for finding in linted.waived] == ["unknown-figures"]


def test_a_record_without_gaps_is_not_told() -> None:
    assert bw.lint_pack(GOOD_PACK).findings == ()

"""Rule `waiver-reason`: a waiver says why."""

from __future__ import annotations

from pathlib import Path

import pytest

from flawed_packs import added, found, reported

WAIVER = '[[waiver]]\nrule = "plausible"\nof = "bar/one"\nwhy = "{}"\n'


@pytest.mark.parametrize(
    ("why", "is_reason"),
    [
        ("ok", False),
        ("it is right", False),
        ("- - - - -", False),
        ("Measured twice by hand.", True),
    ],
)
def test_a_reason_is_a_sentence(tmp_path: Path, why: str, *, is_reason: bool) -> None:
    findings = found(added(tmp_path, WAIVER.format(why)), "waiver-reason")
    expected = ("more.toml", 1, "bar/one", f"{why!r} is no reason")
    assert [reported(f) for f in findings] == [expected] * (not is_reason)
    assert all(f.code == "R503" for f in findings)


@pytest.mark.parametrize(
    ("line", "code"), [('why = "  "\n', "S203"), ("", "S202"), ("why = 3\n", "S203")]
)
def test_no_reason_at_all_is_a_problem_of_the_file(tmp_path: Path, line: str, code: str) -> None:
    waiver = WAIVER.partition("why")[0] + line
    (finding,) = found(added(tmp_path, waiver), "loads")
    assert (finding.code, finding.key) == (code, "waiver[0].why")

"""Rule `undated-source`: a source says when."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed

NOTE = "Invented too, and said to be measured in 2031."


@pytest.mark.parametrize(
    ("note", "has_year"),
    [
        ("Measured on the bench", False),
        ("Measured in 1931", True),
        ("Measured 2031-05-02", True),
        ("Edition of 1899.", True),
        ("Standard 10089 of springs", False),
        ("Page 1799 of the book", False),
        ("Sheet 12031 of the file", False),
    ],
)
def test_a_note_gives_the_year(tmp_path: Path, note: str, *, has_year: bool) -> None:
    findings = changed(tmp_path, "undated-source", ("pack.toml", NOTE, note))
    assert [(f.of, f.line) for f in findings] == ([] if has_year else [("source/bench.note", 15)])


@pytest.mark.parametrize(
    ("kind", "needs_year"),
    [
        ("measured", True),
        ("published", True),
        ("maker", True),
        ("invented", False),
        ("recalled", False),
    ],
)
def test_a_source_that_has_a_date_gives_it(tmp_path: Path, kind: str, *, needs_year: bool) -> None:
    changes = [
        ("pack.toml", NOTE, "Somewhere in the yard"),
        ("pack.toml", 'kind = "measured"', f'kind = "{kind}"'),
    ]
    findings = changed(tmp_path, "undated-source", *changes)
    assert [f.message for f in findings] == [
        f"the source is {kind}, but its note gives no year"
    ] * needs_year
    assert all((f.code, f.severity) == ("R113", bw.answers.Severity.WARNING) for f in findings)

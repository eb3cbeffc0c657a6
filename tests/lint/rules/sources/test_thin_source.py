"""Rule `thin-source`: a source can be found again."""

from __future__ import annotations

from pathlib import Path

import pytest

from flawed_packs import changed

NOTE = "Invented for the tests."


@pytest.mark.parametrize(
    ("note", "is_thin"),
    [
        ("?", True),
        ("n/a", True),
        ("Book", True),
        ("The book", True),
        ("a - b - c - d", True),
        ("Springs, edition 3", True),
        ("Springs, edition 31", False),
        ("Invented for it", False),
    ],
)
def test_a_note_says_enough(tmp_path: Path, note: str, *, is_thin: bool) -> None:
    findings = changed(tmp_path, "thin-source", ("pack.toml", NOTE, note))
    assert [(f.of, f.line) for f in findings] == ([("source/desk.note", 10)] if is_thin else [])
    assert all(
        (f.code, f.message) == ("R112", f"{note!r} is not enough to find the source again")
        for f in findings
    )

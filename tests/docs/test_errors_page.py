"""The messages on the page of errors are what the program says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import barwright as bw
from barwright.errors import DocumentError
from test_errors import RAISERS, Box, told_by

PAGE = (Path(__file__).parents[2] / "docs" / "errors.md").read_text(encoding="utf-8")
SHOWN = dict(
    re.findall(r"^## ([A-Z]\d{3}) .*?^```text\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
)

# The page calls every file by a name of its own, and digests change with the specimens.
NAME = re.compile(
    r"\b[0-9a-f]{12}\b|(?:[^\s:]*/)?[\w-]+\.toml\b|(?:[^\s:]*/)(?=none/sheet\.txt|copy$)|packs/",
    re.MULTILINE,
)
# Its message is read from the screen, where this test would have to run the console script.
BY_HAND = {"X101"}


def said(one: object) -> str:
    """A problem as the program prints it."""
    if isinstance(one, bw.Problem):
        return f"{one.place}: {one.code} {one.text}"
    return str(one)


@pytest.mark.parametrize("code", sorted(RAISERS.keys() - BY_HAND))
def test_a_shown_message_is_what_the_program_says(
    code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    told = told_by(RAISERS[code], Box(folder, monkeypatch))
    lines = [
        NAME.sub("", line.replace(str(folder), "jobs"))
        for one in told
        if not isinstance(one, DocumentError)
        for line in said(one).splitlines()
    ]
    for line in SHOWN[code].splitlines():
        assert NAME.sub("", line) in lines

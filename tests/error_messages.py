"""What the program says of each error, as the page of errors has it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import barwright as bw
from barwright.errors import DocumentError
from test_errors import RAISERS, Box, reported_by

__all__ = ["BY_HAND", "NAME", "reported_lines"]

# The page calls every file by a name of its own, and digests change with the specimens.
NAME = re.compile(
    r"\b[0-9a-f]{12}\b|(?:[^\s:]*/)?[\w-]+\.toml\b|(?:[^\s:]*/)(?=none/sheet\.txt|copy$)|packs/",
    re.MULTILINE,
)
# Its message is read from the screen, where this would have to run the console script.
BY_HAND = {"X101"}


def reported_lines(code: str, folder: Path, patch: pytest.MonkeyPatch) -> list[str]:
    """Lines that the program prints of an error, for jobs in a new folder."""
    jobs = folder / "jobs"
    jobs.mkdir()
    reported = reported_by(RAISERS[code], Box(jobs, patch))
    return [
        line.replace(str(jobs), "jobs")
        for one in reported
        if not isinstance(one, DocumentError)
        for line in _said(one).splitlines()
    ]


def _said(one: object) -> str:
    """A problem as the program prints it."""
    if isinstance(one, bw.answers.FileProblem):
        return f"{one.place}: {one.code} {one.text}"
    return str(one)

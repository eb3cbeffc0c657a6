"""The messages on the page of errors are what the program says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from each_case import each_case
from error_messages import BY_HAND, NAME, reported_lines
from test_errors import RAISERS

PAGE = (Path(__file__).parents[2] / "docs" / "errors.md").read_text(encoding="utf-8")
SHOWN = dict(
    re.findall(r"^## ([A-Z]\d{3}) .*?^```text\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
)


@each_case("code", sorted(RAISERS.keys() - BY_HAND))
def test_a_shown_message_is_what_the_program_says(
    code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = [NAME.sub("", line) for line in reported_lines(code, tmp_path, monkeypatch)]
    for line in SHOWN[code].splitlines():
        assert NAME.sub("", line) in lines

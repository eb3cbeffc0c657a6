"""The page on measuring sheets is followed script by script."""

from __future__ import annotations

from pathlib import Path

import pytest

from doc_pages import scripts, shell, shown_as


@pytest.mark.slow
def test_each_script_prints_what_the_page_shows_after_those_before_it(tmp_path: Path) -> None:
    codes = []
    for script, expected in scripts("from-a-sheet.md"):
        done = shell(script, tmp_path)
        assert shown_as(expected).fullmatch(done.stdout), done.stdout
        codes.append(done.returncode)
    # A sheet of figures that are missing is an answer that needs more figures.
    assert codes == [0, 1, 0, 0, 0, 0, 0]
    assert (tmp_path / "measure.pdf").read_bytes().startswith(b"%PDF")

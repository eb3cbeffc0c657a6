"""The page on tables is followed script by script, and once more with 5,000 rows."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import barwright as bw
from barwright.registry.importing.import_table import import_table
from doc_pages import scripts, shell, shown_as

SCRIPTS = scripts("from-a-table.md")
ROWS = 5_000


@pytest.mark.slow
def test_each_script_prints_what_the_page_shows_after_those_before_it(tmp_path: Path) -> None:
    for script, expected in SCRIPTS:
        done = shell(script, tmp_path)
        assert shown_as(expected).fullmatch(done.stdout), done.stdout
        assert done.returncode == 0


def heredoc(name: str) -> str:
    """The file that a script of the page writes."""
    (written,) = [script for script, _ in SCRIPTS if f"cat > {name} <<" in script]
    return written.partition("<<'END'\n")[2].partition("END\n")[0]


@pytest.mark.slow
def test_five_thousand_rows_are_a_pack_that_lints_clean(tmp_path: Path) -> None:
    heading, row, *_ = heredoc("trailers.csv").splitlines()
    lines = [
        re.sub("^WT-1,Wickett 500", f"WT-{number},Wickett {number}", row) for number in range(ROWS)
    ]
    table, mapping, folder = (tmp_path / name for name in ("many.csv", "map.toml", "many"))
    table.write_text("\n".join([heading, *lines]), encoding="utf-8")
    mapping.write_text(heredoc("trailers.map.toml"), encoding="utf-8")

    made = import_table(table, mapping, folder)

    assert (made.rows, made.counts["chassis"], made.counts["bar"]) == (ROWS, ROWS, 1)
    assert bw.lint_pack(folder / "src" / "barwright_pack_wickett").findings == ()

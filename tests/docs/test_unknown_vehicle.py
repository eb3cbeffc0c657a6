"""The page on a vehicle that no pack knows is followed script by script."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import barwright as bw
from doc_pages import read, scripts, shell, shown_as

PAGE = read("unknown-vehicle.md")
SCRIPTS = scripts("unknown-vehicle.md")


@pytest.mark.slow
def test_each_script_prints_what_the_page_shows_after_those_before_it(tmp_path: Path) -> None:
    codes = []
    for script, expected in SCRIPTS:
        done = shell(script, tmp_path)
        assert shown_as(expected).fullmatch(done.stdout), done.stdout
        codes.append(done.returncode)
    assert codes == [0, 1, 1]


def test_the_job_of_the_page_is_answered_as_it_shows(tmp_path: Path) -> None:
    written, _, rest = SCRIPTS[0][0].partition("<<'END'\n")[2].rpartition("END\n")
    assert rest == ""
    path = tmp_path / "no-pack.toml"
    path.write_text(written, encoding="utf-8")
    corner = bw.load_job(path, bw.Registry.from_folders()).corners[0]
    answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)

    shown = " ".join(SCRIPTS[1][1].split())
    assert shown.startswith(f"Rear left: {answer.headline[0].lower()}{answer.headline[1:]}")


def test_every_figure_of_the_job_is_one_that_was_measured() -> None:
    rows = re.findall(r"^\| [^|]+ \| ([\d.]+)[^|]* \| [^|]+ \| `([\w.]+)` \|", PAGE, re.MULTILINE)

    assert len(rows) == 10
    for value, field in rows:
        table, _, key = field.rpartition(".")
        before = rf"{table} = {{ " if table else ""
        assert re.search(rf'{before}{key} = "?{value}\b', SCRIPTS[0][0]), field

"""The page on writing a pack is followed word for word, in an empty folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from pack_reader import reader_in, steps


@pytest.mark.slow
def test_whoever_does_what_the_page_says_gets_what_it_shows(tmp_path: Path) -> None:
    reader = reader_in(tmp_path)
    for step in steps():
        reader.follow(step)

    assert (reader.ran, reader.edited, reader.replaced) == (21, 33, None)
    reader.run("barwright vehicles")
    for vehicle in ("fells:chassis/short", "hodmule:chassis/long", "trundlet:chassis/open"):
        assert vehicle in reader.printed
    assert "moor:chassis/flatbed" in reader.printed
    assert "scuttock:chassis/one" in reader.printed


@pytest.mark.parametrize("pack", ["moor", "scuttock"])
def test_a_plan_takes_three_commands_once_the_pack_is_there(pack: str) -> None:
    scripts = [step.content for step in steps() if step.language == "sh"]
    (begun,) = [n for n, script in enumerate(scripts) if f"barwright new-pack {pack} " in script]

    assert scripts[begun].count("\n") == 1
    assert scripts[begun + 1].splitlines() == [
        f"barwright lint {pack}/src",
        f"pip install ./{pack}",
        f"barwright reindex {pack}/jobs/lower.toml",
    ]

"""Rule `drive-word`: a drive is one of the words by which a vehicle is asked for."""

from __future__ import annotations

from pathlib import Path

import pytest

from barwright.lint.finding import Severity
from flawed_packs import changed, reported, subjects
from sample_packs import GOOD_PACK

RULE = "drive-word"


def drive(word: str) -> tuple[str, str, str]:
    """The good pack's vehicle with a drive, on the line of its title."""
    return "vehicles.toml", "source =", f'drive = "{word}"\nsource ='


def test_a_vehicle_need_not_say_what_drives_it() -> None:
    assert subjects(GOOD_PACK, RULE) == []


@pytest.mark.parametrize("word", ["front", "rear", "all", "none"])
def test_the_words_of_the_page_are_taken(tmp_path: Path, word: str) -> None:
    assert changed(tmp_path, RULE, drive(word)) == []


@pytest.mark.parametrize(
    ("word", "remedy"),
    [
        ("nome", "did you mean 'none'?"),
        ("Front", "did you mean 'front'?"),
        ("tracks", "known: all, front, none, rear"),
    ],
)
def test_another_word_is_told_with_the_nearest(tmp_path: Path, word: str, remedy: str) -> None:
    (finding,) = changed(tmp_path, RULE, drive(word))
    assert reported(finding)[2:] == (
        "chassis/one.drive",
        f"{word!r} is not one of front, rear, all, none",
    )
    assert (finding.remedy, finding.code, finding.severity) == (remedy, "R208", Severity.WARNING)

"""What every command prints in every width is as its file says, and no word of it is broken."""

from __future__ import annotations

import itertools
import re

import pytest

from barwright.cli.command import barwright
from barwright.report.text.layout.words import cells
from snapshots import COMMANDS, PLACE, WIDTHS, WRITING, printed, snapshot, without_styles

# A script that click writes, which differs with its version, and a schema that stands in docs.
WITHOUT = {"completion", "schema"}
# A page is printed with its own lines, and a chart is drawn to its width.
PAGES = {"explain"}
DRAWN = {"chart"}
# The widest page breaks the fewest lines.
EACH_WIDTH = [*WIDTHS[:-1], pytest.param(WIDTHS[-1], marks=pytest.mark.slow)]
ANEW = "look at the difference, then write it anew: python tests/snapshots.py"


def test_every_command_has_its_files() -> None:
    assert {call[0] for call in COMMANDS.values()} == {*barwright.list_commands(None)} - WITHOUT  # type: ignore[arg-type]
    expected = {snapshot(name, width) for name in COMMANDS for width in WIDTHS}
    expected |= {snapshot(name, 80, terminal=True) for name in COMMANDS}
    assert {*PLACE.iterdir()} == expected


@pytest.mark.parametrize("width", EACH_WIDTH)
@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_prints_into_a_pipe_what_its_file_says(name: str, width: int) -> None:
    assert printed(name, width) == snapshot(name, width).read_text(encoding="utf-8"), ANEW


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_prints_to_a_terminal_what_its_file_says(name: str) -> None:
    shown = printed(name, 80, terminal=True)
    assert shown == snapshot(name, 80, terminal=True).read_text(encoding="utf-8"), ANEW
    lines = [line.rstrip() for line in without_styles(shown).splitlines()]
    assert lines == snapshot(name, 80).read_text(encoding="utf-8").splitlines()


def text_of(name: str, width: int) -> str:
    return snapshot(name, width).read_text(encoding="utf-8")


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", sorted(COMMANDS.keys() - PAGES - WRITING))
def test_no_line_is_wider_than_the_pipe(name: str, width: int) -> None:
    assert [line for line in text_of(name, width).splitlines() if cells(line) > width] == []


@pytest.mark.parametrize("width", WIDTHS[:-1])
@pytest.mark.parametrize("name", sorted(COMMANDS.keys() - DRAWN))
def test_no_word_is_broken_and_none_is_lost(name: str, width: int) -> None:
    """Beside its row, a column's name is followed by a colon; its words are the same."""
    wide, narrow = (
        re.sub(r"[:;,]", " ", _CURVE.sub("", text_of(name, w))).split() for w in (WIDTHS[-1], width)
    )
    assert set(narrow) <= set(wide)
    # Of a column without room that is empty, there is not even the name.
    assert set(wide) - set(narrow) <= {"because", "of", "replaces"}


# A curve over the thread is drawn to its width: its rows, its axis and the places below that.
_CURVE = re.compile(r"^ *[\d.]* (\|.*\|.*|-\+-.*\n.*)$", re.MULTILINE)


@pytest.mark.parametrize("name", sorted(COMMANDS.keys() - PAGES - DRAWN))
def test_no_column_is_of_single_letters(name: str) -> None:
    lines = [line.strip() for line in text_of(name, 60).splitlines()]
    for line, following in itertools.pairwise(lines):
        assert not (len(line) == len(following) == 1), (line, following)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", sorted(COMMANDS.keys() - PAGES))
def test_no_number_is_parted_from_its_unit(name: str, width: int) -> None:
    lines = text_of(name, width).splitlines()
    for line, following in itertools.pairwise(lines):
        goes_on = re.match(r" *(mm|N·m|N/mm|MPa|GPa|%|°|±)(\W|$)", following)
        assert not (goes_on and re.search(r"\d$", line)), (line, following)


@pytest.mark.parametrize("name", sorted(COMMANDS.keys() - PAGES - WRITING))
def test_the_answer_stands_in_the_first_lines(name: str) -> None:
    first = text_of(name, 120).splitlines()[0]
    assert first.endswith((".", "fault", "waived")) or len(first) > 80

"""Every promise of the page names tests that exist, and its figures are those of the code."""

from __future__ import annotations

import ast
import re
from functools import cache

import pytest

from barwright.errors import ExitCode
from barwright.registry.files import file_limits as limits
from doc_pages import ROOT, read
from hostile import test_budget as budget

PAGE = read("promises.md")
TITLES, TEXTS = (re.split(r"^## (.*)$", PAGE, flags=re.MULTILINE)[start::2] for start in (1, 2))
SECTIONS = dict(zip(TITLES, TEXTS, strict=True))

# What stands there nobody can test.
WITHOUT_TESTS = {"What is not promised", "Report a weakness"}


def promises(text: str) -> dict[str, list[str]]:
    """Lines below each promise of a text, by its words in bold."""
    found = re.findall(r"^- \*\*([^*]+)\*\*.*\n((?:  .*\n)*)", text, re.MULTILINE)
    return {
        " ".join(words.split()): re.findall(r"^  - (.*)$", below, re.MULTILINE)
        for words, below in found
    }


PROMISES = {title: promises(text) for title, text in SECTIONS.items() if title not in WITHOUT_TESTS}


@cache
def names_in(file: str) -> set[str]:
    """Names of the tests that a file holds."""
    tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
    functions = (one.name for one in tree.body if isinstance(one, ast.FunctionDef))
    return {name for name in functions if name.startswith("test_")}


def test_every_section_makes_promises() -> None:
    assert SECTIONS.keys() >= WITHOUT_TESTS
    for title, found in PROMISES.items():
        assert found, title
        assert len(found) == len(re.findall(r"^- ", SECTIONS[title], re.MULTILINE)), title


@pytest.mark.parametrize(
    ("promise", "tests"),
    [pytest.param(*one, id=one[0]) for found in PROMISES.values() for one in found.items()],
)
def test_a_promise_names_tests_that_exist(promise: str, tests: list[str]) -> None:
    assert tests, promise
    for test in tests:
        found = re.fullmatch(r"`(tests/(?:\w+/)*test_\w+\.py)::(test_\w+)`", test)
        assert found, test
        file, name = found.groups()
        assert (ROOT / file).is_file(), test
        assert name in names_in(file), test


def test_the_table_lists_all_limits_with_their_figures() -> None:
    rows = re.findall(r"^\| `(\w+)` \| ([\d,]+) \| .+ \|$", SECTIONS["Limits"], re.MULTILINE)

    assert rows == [(name, f"{getattr(limits, name):,}") for name in sorted(limits.__all__)]


def test_the_exit_codes_are_those_of_the_program() -> None:
    assert ExitCode.listed() in " ".join(SECTIONS["Codes"].split())


def test_what_a_hostile_file_may_cost_is_what_is_measured() -> None:
    text = " ".join(SECTIONS["Bad input"].split())

    assert f"at most {budget.SECONDS:g} s of processor time" in text
    assert f"and {budget.MEMORY // budget.MEGABYTE} MB of memory for each megabyte" in text
    assert f"`lint` may take {budget.SECONDS_OF_LINT:g} s" in text

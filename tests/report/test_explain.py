"""Tests of `barwright.report.explain`: every code and rule has its section, as plain text."""

from __future__ import annotations

import re

import pytest

import barwright as bw
from barwright.errors import CODES
from barwright.lint.catalogue import OVERLAY_RULES, RULES, WAIVER_RULES
from barwright.report.explain import PAGES, code_lines, explanation
from doc_pages import read
from each_case import each_case

EVERY_RULE = [*RULES, *OVERLAY_RULES, *WAIVER_RULES]


def words(text: str) -> list[str]:
    return re.findall(r"\w+", text)


@each_case("code", CODES)
def test_a_code_is_explained_as_its_page_does(code: str) -> None:
    section = read("errors.md").partition(f"\n## {code} ")[2].partition("\n## ")[0]
    title, _, text = explanation(code.lower()).partition("\n\n")

    assert title == f"{code}: {CODES[code]}"
    assert "```" not in text
    assert "](" not in text
    kept = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", section.partition("\n")[2])
    assert text.split() == re.sub(r"^```\w*$", "", kept, flags=re.MULTILINE).split()


@each_case("rule", EVERY_RULE)
def test_a_rule_is_explained_by_name_and_by_code(rule: object) -> None:
    name, code = rule.name, rule.code  # type: ignore[attr-defined]
    text = explanation(name)

    assert text == explanation(code)
    assert text.startswith(f"{code} {name} (")
    assert len(text.splitlines()) > 2
    assert "### " not in text
    assert "\n## " not in text


@pytest.mark.parametrize("page", PAGES)
def test_a_page_is_printed_whole(page: str) -> None:
    text = explanation(page)

    assert text.startswith(read(f"{page}.md").partition("\n")[0])
    assert len(words(text)) > 0.7 * len(words(read(f"{page}.md")))
    assert "](" not in text


def test_all_that_can_be_explained_is_listed_with_what_it_means() -> None:
    listed = [line.split("  ")[0] for line in code_lines()]

    assert listed == [*CODES, *sorted(rule.code for rule in EVERY_RULE), *PAGES]
    assert all(explanation(name) for name in listed)


@pytest.mark.parametrize(
    ("name", "remedy"),
    [("placd", "did you mean 'placed'"), ("job-fil", "did you mean 'job-file'"), ("", "known: ")],
)
def test_what_cannot_be_explained_is_refused_with_what_comes_near(name: str, remedy: str) -> None:
    with pytest.raises(bw.UnknownNameError) as caught:
        explanation(name)

    assert caught.value.code == "L105"
    assert caught.value.remedy.startswith(remedy)

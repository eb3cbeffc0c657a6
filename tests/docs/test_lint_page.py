"""The page of rules is true to them, and so is what the page of packs says of checks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import barwright as bw
from barwright.lint.catalogue import OVERLAY_RULES, RULES, WAIVER_RULES
from barwright.lint.rules.checks.check_holds import BAND
from barwright.lint.rules.corrections.correction_near import LARGEST_RATIO
from barwright.lint.rules.corrections.correction_reason import FEWEST_WORDS
from barwright.lint.rules.records.plausible import RANGES
from barwright.lint.subject.quantities import QUANTITIES
from barwright.report.forms.notices import notices
from flawed_packs import POOR_PACK, added, linted_once
from sample_overlays import POOR_OVERLAY
from sample_packs import changed_pack

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "lint.md").read_text(encoding="utf-8")
PACK_PAGE = (DOCS / "pack-file.md").read_text(encoding="utf-8")
ALL = [*RULES, *OVERLAY_RULES, *WAIVER_RULES]


def sections() -> dict[str, str]:
    """Text of each rule's section, by the rule's name."""
    parts = re.split(r"^### `([a-z-]+)`$", PAGE, flags=re.MULTILINE)
    texts = (re.split(r"^## ", text, flags=re.MULTILINE)[0] for text in parts[2::2])
    return dict(zip(parts[1::2], texts, strict=True))


def test_the_table_lists_every_rule_with_what_it_wants() -> None:
    listed = re.findall(r"^\| `([a-z-]+)` \| (R\d+) \| (\w+) \| (.*)\. \|$", PAGE, re.MULTILINE)
    assert listed == [
        (rule.name, rule.code, rule.severity.value, rule.wants[0].upper() + rule.wants[1:])
        for rule in ALL
    ]


def test_every_rule_has_a_section() -> None:
    assert sorted(sections()) == sorted(rule.name for rule in ALL)


@pytest.mark.parametrize("rule", [rule.name for rule in ALL])
def test_the_example_of_a_rule_is_what_the_program_says(rule: str) -> None:
    poor = POOR_OVERLAY if rule in [one.name for one in OVERLAY_RULES] else POOR_PACK
    linted = linted_once(poor)
    said = [
        notice.line_of_text.removeprefix(f"{poor}/")
        for finding, notice in zip(linted.findings, notices(linted), strict=True)
        if finding.rule == rule
    ]
    (example,) = re.findall(r"^```text\n(.*?)\n```$", sections()[rule], re.MULTILINE | re.DOTALL)
    assert example in said


def test_ranges_on_the_page_are_those_of_the_rule() -> None:
    text = " ".join(sections()["plausible"].split())
    assert RANGES[bw.parts.Bar]["diameter"] == ("8 mm", "80 mm")
    assert RANGES[bw.parts.BarEnd]["teeth"] == (6, 80)
    assert RANGES[bw.parts.Material]["shear_modulus"] == ("65 GPa", "85 GPa")
    assert "a bar of 8 to 80 mm, 6 to 80 teeth, a shear modulus of 65 to 85 GPa" in text


def test_the_limits_of_corrections_on_the_page_are_those_of_the_rules() -> None:
    assert "wrong by half" in sections()["correction-near"]
    assert LARGEST_RATIO == 1.5
    assert "at least three words" in sections()["correction-reason"]
    assert FEWEST_WORDS == 3


# -- The page of packs ---------------------------------------------------------------


def example(name: str) -> str:
    found: str
    (found,) = re.findall(
        rf"^```toml\n(\[\[{name}\]\].*?)^```$", PACK_PAGE, re.DOTALL | re.MULTILINE
    )
    return found


def test_the_table_of_figures_is_what_can_be_computed() -> None:
    table = PACK_PAGE.partition("| `computes` | kind | of | what it is |")[2].partition("\n\n")[0]
    listed = {
        name: (kind, ways)
        for names, kind, ways in re.findall(
            r"^\| (`[^|]+`) \| ([^|]+) \| ([^|]+) \| [^|]+ \|$", table, re.MULTILINE
        )
        for name in re.findall(r"`([^`]+)`", names)
    }
    assert listed == {name: (q.kind.name, ", ".join(q.ways)) for name, q in QUANTITIES.items()}


def test_the_check_on_the_page_holds(tmp_path: Path) -> None:
    assert bw.lint_pack(added(tmp_path, example("check"))).findings == ()
    assert "Without a tolerance, 1 % is allowed" in PACK_PAGE
    assert BAND == 0.01


def test_the_waiver_on_the_page_waives(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "vehicles.toml", "185 N/mm", "1850 N/mm")
    rules = [f.rule for f in bw.lint_pack(pack).findings]
    beside = [rule for rule in rules if rule != "plausible"]
    assert len(beside) == len(rules) - 1
    text = (pack / "vehicles.toml").read_text(encoding="utf-8")
    (pack / "vehicles.toml").write_text(text + example("waiver"), encoding="utf-8")
    linted = bw.lint_pack(pack)
    assert [f.rule for f in linted.findings] == beside
    assert [f.rule for f in linted.waived] == ["plausible"]

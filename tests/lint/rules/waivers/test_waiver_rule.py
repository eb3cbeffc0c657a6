"""Rule `waiver-rule`: a waiver names a rule."""

from __future__ import annotations

from pathlib import Path

import pytest

from barwright.lint.catalogue import LOADS, RULES, WAIVER_RULES
from flawed_packs import added, found, reported

WAIVER = '[[waiver]]\nrule = "{}"\nof = "bar/one"\nwhy = "It is so on every one of them."\n'


@pytest.mark.parametrize("rule", [rule.name for rule in RULES])
def test_a_rule_by_its_name(tmp_path: Path, rule: str) -> None:
    assert found(added(tmp_path, WAIVER.format(rule)), "waiver-rule") == []


@pytest.mark.parametrize(
    "rule", ["no-such-rule", "R103", "Plausible", LOADS, *(rule.name for rule in WAIVER_RULES)]
)
def test_another_name_is_told(tmp_path: Path, rule: str) -> None:
    (finding,) = found(added(tmp_path, WAIVER.format(rule)), "waiver-rule")
    message = f"there is no rule {rule!r} that can be waived"
    assert reported(finding) == ("more.toml", 1, "bar/one", message)
    assert finding.code == "R501"


def test_the_nearest_name_is_offered(tmp_path: Path) -> None:
    (finding,) = found(added(tmp_path, WAIVER.format("plausable")), "waiver-rule")
    assert finding.remedy.startswith("did you mean 'plausible'")

"""`lint_pack`: all that is wrong with a pack, at once and in one order."""

from __future__ import annotations

import json
import pickle
import shutil
from collections.abc import Iterator
from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.lint import linting
from barwright.lint.catalogue import OVERLAY_RULES, RULES, WAIVER_RULES
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.registry.packs.load import STANDARDS
from flawed_packs import POOR_PACK, added, found, linted_once, small_pack
from sample_packs import GOOD_PACK, changed_pack

PLUGINS = Path(__file__).parents[2] / "plugins"


@pytest.mark.parametrize(
    "pack",
    [GOOD_PACK, STANDARDS, *(header.parent for header in PLUGINS.rglob("pack.toml"))],
    ids=lambda pack: pack.name,
)
def test_packs_of_this_project_are_good(pack: Path) -> None:
    linted = bw.lint_pack(pack)
    assert linted.findings == ()
    assert (linted.exit_code, linted.mark) == (0, "good")


def test_the_poor_pack_has_a_finding_of_every_rule() -> None:
    linted = linted_once(POOR_PACK)
    assert {f.rule for f in linted.findings} == {rule.name for rule in (*RULES, *WAIVER_RULES)}
    assert (linted.exit_code, linted.mark, linted.pack) == (1, "flaws", "poor")
    assert {f.of for f in linted.waived} == {"damper/one.gas.force", "damper/another.gas.force"}


def test_every_finding_says_where_it_is_and_what_to_do() -> None:
    for finding in (*linted_once(POOR_PACK).findings, *linted_once(POOR_PACK).waived):
        assert (POOR_PACK / finding.file).is_file()
        has_line = finding.rule != "empty-file"
        assert (finding.line > 0) is has_line
        assert bool(finding.key) is has_line
        assert all((finding.of, finding.message, finding.remedy, finding.code))
        assert finding.pack == "poor"
        assert finding.text == f"{finding.of}: {finding.message}; {finding.remedy}"


def test_findings_stand_in_the_order_of_files_and_lines() -> None:
    places = [(f.file != "pack.toml", f.file, f.line) for f in linted_once(POOR_PACK).findings]
    assert places == sorted(places)
    assert places[0][1] == "pack.toml"


def test_a_title_may_be_waived_in_pack_toml(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "One invented vehicle", "One  invented vehicle")
    assert [f.of for f in bw.lint_pack(pack).findings] == ["title"]
    waiver = '\n[[waiver]]\nrule = "plain-text"\nof = "title"\nwhy = "It is written so on it."\n'
    text = (pack / "pack.toml").read_text(encoding="utf-8")
    (pack / "pack.toml").write_text(text + waiver, encoding="utf-8")
    linted = bw.lint_pack(pack)
    assert (linted.findings, [f.of for f in linted.waived]) == ((), ["title"])


# -- What cannot be loaded -----------------------------------------------------------


def test_what_cannot_be_loaded_is_told_beside_what_the_rules_find(tmp_path: Path) -> None:
    broken = '[[damper]]\nid = "two"\ntitle = "Two"\nsource = "desk"\nopen_length = "674"\n'
    steel = '[[material]]\nid = "s"\ntitle = "S"\nsource = "desk"\nshear_modulus = "60 GPa"\n'
    pack = added(tmp_path, broken, steel)
    linted = bw.lint_pack(pack)
    assert [(f.rule, f.code, f.line, f.of) for f in linted.findings] == [
        ("loads", "Q105", 5, "damper[0].open_length"),
        ("toleranced", "R102", 11, "material/s.shear_modulus"),
        ("plausible", "R103", 11, "material/s.shear_modulus"),
        ("usual-steel", "R211", 11, "material/s.shear_modulus"),
    ]
    problem = linted.findings[0]
    assert (problem.pack, problem.file, problem.key) == ("tiny", "more.toml", problem.of)
    assert problem.message == "got '674', expected a length as one decimal number and one unit"
    assert problem.remedy.startswith("write '674 mm'")
    assert linted.exit_code == 1


def test_a_header_that_is_not_good_is_all_that_can_be_told(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 99")
    linted = bw.lint_pack(pack)
    assert [(f.code, f.line) for f in linted.findings] == [("P401", 2)]
    assert (linted.exit_code, linted.pack, linted.findings[0].pack) == (1, "", "")


def test_a_file_that_is_no_toml_is_told_beside_the_others(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "steel.toml", "shear_modulus = {", "shear_modulus = ")
    other = (pack / "parts.toml").read_text(encoding="utf-8")
    (pack / "parts.toml").write_text(other.replace('"Arm"', '"Arm "'), encoding="utf-8")
    codes = [(f.file, f.code) for f in bw.lint_pack(pack).findings]
    assert codes == [("parts.toml", "R201"), ("steel.toml", "F103")]


def test_no_other_pack_can_be_the_standards(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", 'id = "tiny"', 'id = "standards"')
    parts = (pack / "parts.toml").read_text(encoding="utf-8").replace("tiny:", "")
    (pack / "parts.toml").write_text(parts, encoding="utf-8")
    (finding,) = bw.lint_pack(pack).findings
    assert (finding.code, finding.file, finding.line, finding.of) == ("P301", "pack.toml", 3, "id")
    assert finding.remedy.endswith("another id: the standards have this one")
    assert bw.lint_pack(STANDARDS).findings == ()


@pytest.mark.parametrize("name", ["none", "empty"])
def test_a_folder_without_a_pack_is_bad(tmp_path: Path, name: str) -> None:
    (tmp_path / "empty").mkdir()
    linted = bw.lint_pack(tmp_path / name)
    assert [(f.rule, f.code, f.file) for f in linted.findings] == [("loads", "F101", "pack.toml")]
    assert (linted.exit_code, linted.mark, linted.pack) == (2, "bad", "")


# -- What does not matter ------------------------------------------------------------


def test_names_of_files_and_of_the_folder_do_not_change_what_is_found(tmp_path: Path) -> None:
    pack = shutil.copytree(POOR_PACK, tmp_path / "elsewhere")
    (pack / "deep").mkdir()
    (pack / "parts.toml").rename(pack / "deep" / "a.toml")
    found_there = {(f.code, f.of, f.message, f.line) for f in bw.lint_pack(pack).findings}
    assert found_there == {
        (f.code, f.of, f.message, f.line) for f in linted_once(POOR_PACK).findings
    }


def test_a_folder_may_be_given_as_text() -> None:
    linted = bw.lint_pack(str(GOOD_PACK))
    assert (linted.folder, linted.pack) == (str(GOOD_PACK), "tiny")


def test_an_answer_survives_json_and_pickling() -> None:
    linted = linted_once(POOR_PACK)
    assert bw.from_json(bw.to_json(linted)) == linted
    told = json.loads(bw.to_json(linted))["findings"]
    assert {one["severity"] for one in told} == {"error", "warning", "note"}
    assert pickle.loads(pickle.dumps(linted)) == linted  # noqa: S301 - our own


# -- Faults --------------------------------------------------------------------------


def faulty(subject: Subject) -> Iterator[Remark]:
    yield Remark(subject.records[0][0], "seen")
    raise ZeroDivisionError(subject.pack.id)


def test_a_fault_of_one_rule_does_not_stop_the_others(monkeypatch: pytest.MonkeyPatch) -> None:
    first, *others = RULES
    monkeypatch.setattr(linting, "RULES", (attrs.evolve(first, remarks=faulty), *others))
    linted = bw.lint_pack(POOR_PACK)
    (fault,) = [f for f in linted.findings if f.code == "U101"]
    assert (fault.rule, fault.file, fault.line) == (first.name, "pack.toml", 0)
    assert fault.message == "a fault of the program: ZeroDivisionError: poor"
    assert fault.text == f"{fault.message}; report it with the pack and the version"
    assert (linted.exit_code, linted.mark) == (3, "fault")
    assert {f.rule for f in linted.findings} == {rule.name for rule in (*RULES, *WAIVER_RULES)}


# -- Rules ---------------------------------------------------------------------------


def test_every_file_of_a_rule_is_in_the_catalogue_under_its_name_and_has_its_test() -> None:
    folder = Path(linting.__file__).parent / "rules"
    files = {path.stem for path in folder.rglob("*.py")} - {"__init__"}
    rules = (*RULES, *OVERLAY_RULES, *WAIVER_RULES)
    assert {rule.name.replace("-", "_") for rule in rules} == files
    assert files <= {
        path.stem.removeprefix("test_") for path in Path(__file__).parent.rglob("*.py")
    }


def test_names_and_codes_are_unique_and_texts_have_no_full_stop() -> None:
    rules: list[Rule] = [*RULES, *OVERLAY_RULES, *WAIVER_RULES]
    for field in ("name", "code", "wants", "tip"):
        reported = [getattr(rule, field) for rule in rules]
        assert len(set(reported)) == len(reported)
        assert not any(text.endswith(".") for text in reported)


def test_a_rule_that_needs_the_whole_pack_is_silent_while_some_is_missing(tmp_path: Path) -> None:
    assert len(found(small_pack(tmp_path), "unused-source")) == 5
    assert found(small_pack(tmp_path, '[[check]]\nof = "x"\n'), "unused-source") == []

"""Tests of `barwright.testing`: each thing that can be wrong with a pack fails its own test."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from barwright.lint.catalogue import OVERLAY_RULES, RULES, WAIVER_RULES
from barwright.registry.packs.load import STANDARDS
from barwright.testing import CONTRACT, PackContract, complaints
from flawed_packs import POOR_PACK, added
from sample_overlays import POOR_OVERLAY
from sample_packs import GOOD_PACK, changed_pack

PLUGINS = Path(__file__).parents[1] / "plugins"
OURS = [STANDARDS, *sorted(header.parent for header in PLUGINS.rglob("pack.toml"))]


class TestGoodPack(PackContract):
    """The contract itself, held against a good pack by its folder."""

    folder = GOOD_PACK


class TestDemoPack(PackContract):
    """And by the name of an installed package."""

    package = "barwright_pack_fells"


def failed(pack: Path) -> list[str]:
    return [test for test in CONTRACT if complaints(pack, test)]


@pytest.mark.parametrize("pack", OURS, ids=lambda pack: pack.name)
def test_the_packs_of_this_repository_keep_the_contract(pack: Path) -> None:
    assert failed(pack) == []


def test_there_is_a_test_for_each_rule_and_each_is_named_once() -> None:
    rules = {rule.name for rule in (*RULES, *OVERLAY_RULES, *WAIVER_RULES)}

    # A gap is no fault, and neither is another pack that is not there.
    assert rules - set(CONTRACT) == {"unknown-figures", "claim-unchecked"}
    assert len(set(CONTRACT)) == len(CONTRACT)
    assert CONTRACT[:5] == (
        "loads",
        "ids-unique",
        "references-resolve",
        "figures-possible",
        "runs-no-code",
    )


def test_the_class_itself_is_no_test_and_a_subclass_is_one() -> None:
    assert not PackContract.__test__
    assert TestGoodPack.__test__


DAMPER = '[[damper]]\nid = "{}"\ntitle = "Another damper"\nsource = "desk"\n'
SIZES = 'open_length = "674 mm"\nclosed_length = "486 mm"\n'
WRONG = {
    "loads": ("parts.toml", 'title = "Arm"', 'titel = "Arm"'),
    "ids-unique": ("more.toml", "", DAMPER.format("one") + SIZES),
    "references-resolve": ("parts.toml", '"material/steel"', '"material/stel"'),
    "figures-possible": ("parts.toml", '"904 mm"', '"904"'),
    "standard-fits": ("parts.toml", '"904 mm"', '"990 mm"'),
    "standard-stands": ("parts.toml", 'key_angle = "17.5 deg"', 'key_angle = "32 deg"'),
    "mirror": ("parts.toml", 'length = "904 mm"', 'length = "904 mm"\nblank_angle = "0.5 deg"'),
    "toleranced": ("steel.toml", "77 GPa ± 4 GPa", "77 GPa"),
    "placed": ("steel.toml", ', at = "sheet 2"', ""),
}


@pytest.mark.parametrize(("test", "change"), WRONG.items(), ids=WRONG)
def test_what_is_wrong_fails_the_test_of_that_name(
    tmp_path: Path, test: str, change: tuple[str, str, str]
) -> None:
    pack = changed_pack(tmp_path, *change)

    assert failed(pack) == [test]
    (line, *_) = complaints(pack, test)
    assert re.match(rf"{re.escape(str(pack))}/\w+\.toml:[1-9]", line)


def test_impossible_dimensions_are_impossible_figures(tmp_path: Path) -> None:
    assert failed(changed_pack(tmp_path, "parts.toml", '"904 mm"', '"90 mm"')) == [
        "figures-possible"
    ]


def test_a_check_that_does_not_hold_fails_its_test(tmp_path: Path) -> None:
    check = (
        '[[check]]\ncomputes = "bar_rate"\nof = "bar/one"\nis = "{} N*m/deg ± 3 N*m/deg"\n'
        'source = "bench"\nat = "sheet 3"\n'
    )
    assert failed(added(tmp_path, check.format(48))) == []
    shutil.rmtree(tmp_path / "pack")
    assert failed(added(tmp_path, check.format(60))) == ["check-holds"]


@pytest.mark.rare
def test_a_pack_with_many_flaws_fails_many_tests() -> None:
    assert len(failed(POOR_PACK)) > len(CONTRACT) // 2


@pytest.mark.parametrize(
    ("code", "is_fine"),
    [
        ("", True),
        ('"""Data only."""\n', True),
        ('"""Data only."""\nimport os\n', False),
        ("x = 1\n", False),
        ("print('hello')\n", False),
    ],
)
def test_code_beside_the_data_fails(tmp_path: Path, code: str, *, is_fine: bool) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    (pack / "deep").mkdir()
    (pack / "deep" / "__init__.py").write_text(code, encoding="utf-8")

    assert failed(pack) == ([] if is_fine else ["runs-no-code"])


def test_a_pack_that_changes_is_looked_at_again(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    assert failed(pack) == []
    (pack / "deep.toml").write_text("x = 1\n", encoding="utf-8")

    assert failed(pack) == ["loads"]


@pytest.mark.parametrize("code", [b"def (", b"\xff\xfe", b'"""Text."""\0', b'"\xff"'])
def test_a_module_that_cannot_be_read_fails_and_raises_nothing(tmp_path: Path, code: bytes) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    (pack / "__init__.py").write_bytes(code)

    assert failed(pack) == ["runs-no-code"]


def test_a_folder_that_is_called_like_a_module_holds_no_code(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    (pack / "deep.py").mkdir()

    assert failed(pack) == []


def test_an_overlay_is_held_to_the_rules_for_overlays_too() -> None:
    """The corrections of this one are of an installed pack."""
    rules = {rule.name for rule in OVERLAY_RULES}

    assert rules <= set(failed(POOR_OVERLAY))
    assert rules.isdisjoint(failed(POOR_PACK))

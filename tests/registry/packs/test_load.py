"""Tests of `barwright.registry.packs.load`: a folder becomes a pack, or says all that is wrong."""

from __future__ import annotations

import errno
import os
import shutil
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.packs.load import load_pack, load_partly
from each_case import each_case
from pack_mistakes import HEADER, IDS, TABLES
from sample_packs import GOOD_PACK, changed_pack, problems_in


def moved(pack: Path, name: str) -> None:
    """Give the file with the parts another name, and so another place in the order."""
    target = pack / name
    target.parent.mkdir(exist_ok=True, parents=True)
    (pack / "parts.toml").rename(target)


def test_a_pack_holds_every_record_by_its_full_id() -> None:
    pack = load_pack(GOOD_PACK, origin="tiny 1.0")

    assert (pack.id, pack.origin, pack.folder) == ("tiny", "tiny 1.0", GOOD_PACK)
    assert set(pack.parts) == {
        "tiny:material/steel",
        *(f"tiny:{kind}/one" for kind in ("arm", "bar", "tube", "adjuster", "damper", "chassis")),
    }
    assert all(part.id == full for full, part in pack.parts.items())


@pytest.mark.parametrize("name", ["a.toml", "zz.toml", "deep/er/parts.toml"])
def test_the_order_and_place_of_files_do_not_matter(tmp_path: Path, name: str) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    moved(pack, name)

    assert load_pack(pack, origin="").parts == load_pack(GOOD_PACK, origin="").parts


def test_records_of_one_kind_can_stand_in_several_files(tmp_path: Path) -> None:
    damper = '[[damper]]\nid = "two"\ntitle = "D"\nsource = "desk"\nopen_length = "6 m"\n'
    pack = changed_pack(tmp_path, "more.toml", "", f'{damper}closed_length = "4 m"\n')

    assert "tiny:damper/two" in load_pack(pack, origin="").parts


@each_case("old, new, problem", HEADER.values())
def test_a_bad_header(tmp_path: Path, old: str, new: str, problem: str) -> None:
    assert problem in problems_in(changed_pack(tmp_path, "pack.toml", old, new))


@pytest.mark.parametrize(
    ("schema", "remedy"), [(3, "install a newer barwright"), (0, "write schema = 2")]
)
def test_another_version_says_what_to_do(tmp_path: Path, schema: int, remedy: str) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "schema = 2", f"schema = {schema}")

    with pytest.raises(bw.PackError) as caught:
        load_pack(pack, origin="")

    assert [p.remedy for p in caught.value.problems] == [remedy]


@pytest.mark.parametrize(("file", "text", "problems"), TABLES.values(), ids=TABLES)
def test_a_bad_file(tmp_path: Path, file: str, text: str, problems: list[str]) -> None:
    assert problems_in(changed_pack(tmp_path, file, "", text)) == problems


@pytest.mark.parametrize(("old", "new"), IDS.values(), ids=IDS)
def test_a_bad_id(tmp_path: Path, old: str, new: str) -> None:
    pack = changed_pack(tmp_path, "parts.toml", old, new)

    assert "S205 damper[0].id" in problems_in(pack)


def test_an_id_stands_once_for_each_kind(tmp_path: Path) -> None:
    steel = '[[material]]\nid = "steel"\ntitle = "S"\nsource = "desk"\nshear_modulus = "1 GPa"\n'

    assert problems_in(changed_pack(tmp_path, "more.toml", "", steel)) == ["S205 material[0].id"]


def test_problems_of_all_files_come_at_once_with_file_and_line(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "parts.toml", "teeth = 39,", "teeth = 0,")
    steel = (pack / "steel.toml").read_text(encoding="utf-8")
    (pack / "steel.toml").write_text(steel.replace("77 GPa", "77"), encoding="utf-8")

    with pytest.raises(bw.PackError) as caught:
        load_pack(pack, origin="tiny 1.0")

    error = caught.value
    assert (error.code, error.file, error.exit_code) == ("P101", "tiny 1.0", 3)
    assert [(p.code, p.file, p.line, p.key) for p in error.problems] == [
        ("Q105", "steel.toml", 5, "material[0].shear_modulus"),
        ("S203", "parts.toml", 6, "arm[0].socket.teeth"),
    ]


def test_unreadable_files_are_told_together(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "a.toml", "", "bar = \n")
    (pack / "b.toml").write_bytes(b"\xff")
    (pack / "c.toml").mkdir()

    assert problems_in(pack) == ["F103", "F102", "F109"]


@pytest.mark.parametrize("inside", [False, True])
def test_a_link_is_refused_wherever_it_leads(tmp_path: Path, *, inside: bool) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    target = pack / "vehicles.txt" if inside else tmp_path / "elsewhere.toml"
    shutil.move(pack / "vehicles.toml", target)
    (pack / "vehicles.toml").symlink_to(target)

    assert problems_in(pack) == ["F109"]


def test_a_link_to_itself_is_a_problem_and_no_crash(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    (pack / "x.toml").symlink_to(pack / "x.toml")

    assert problems_in(pack) == ["F109"]


def test_a_linked_folder_is_not_followed(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "x.toml").write_text("not TOML at all", encoding="utf-8")
    (pack / "inside").symlink_to(tmp_path / "outside")

    assert problems_in(pack) == []


def test_a_file_without_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    really_open = os.open

    def refusing(path: str, *arguments: Any, **options: Any) -> Any:
        # A mode would not do, since the tests may run as root.
        if path == "parts.toml":
            raise PermissionError(errno.EACCES, "Permission denied")
        return really_open(path, *arguments, **options)

    monkeypatch.setattr(os, "open", refusing)

    assert problems_in(pack) == ["F101"]


def test_a_folder_that_is_no_pack(tmp_path: Path) -> None:
    assert problems_in(tmp_path) == ["F101"]
    assert problems_in(tmp_path / "none") == ["F101"]


def test_a_file_that_is_no_data_is_left_alone(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "notes.txt", "", "no = TOML = here")
    (pack / "__init__.py").write_text("raise SystemExit", encoding="utf-8")

    assert problems_in(pack) == []


# -- Partly --------------------------------------------------------------------------


def test_what_is_good_of_a_broken_pack_can_be_had_beside_its_problems(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "parts.toml", 'open_length = "674 mm"', 'open_length = "674"')

    loaded = load_partly(snapshot_of(pack), origin="")

    assert [(p.code, p.key) for p in loaded.problems] == [("Q105", "damper[0].open_length")]
    assert loaded.pack is not None
    assert "tiny:bar/one" in loaded.pack.parts
    assert set(loaded.pack.parts) == set(loaded.pack.entries)
    # The vehicle refers to what is broken, which is told once.
    assert {"tiny:damper/one", "tiny:chassis/one"}.isdisjoint(loaded.pack.parts)
    assert list(loaded.tables) == ["pack.toml", "parts.toml", "steel.toml", "vehicles.toml"]


def test_what_a_file_that_cannot_be_read_holds_is_not_missed_in_the_others(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "steel.toml", "shear_modulus = {", "shear_modulus = ")

    loaded = load_partly(snapshot_of(pack), origin="")

    assert [p.code for p in loaded.problems] == ["F103"]
    assert loaded.pack is not None
    assert "tiny:arm/one" in loaded.pack.parts
    assert "steel.toml" not in loaded.tables


def test_without_a_header_there_is_nothing(tmp_path: Path) -> None:
    loaded = load_partly(snapshot_of(tmp_path), origin="")

    assert (loaded.pack, loaded.tables) == (None, {})
    assert [p.code for p in loaded.problems] == ["F101"]


def test_a_good_pack_is_the_same_either_way() -> None:
    loaded = load_partly(snapshot_of(GOOD_PACK), origin="")

    assert loaded.problems == ()
    assert loaded.pack is not None
    assert loaded.pack.parts == load_pack(GOOD_PACK, origin="").parts


def test_checks_and_waivers_are_passed_over(tmp_path: Path) -> None:
    proofs = '[[check]]\ncomputes = "x"\n[[waiver]]\n'

    assert problems_in(changed_pack(tmp_path, "more.toml", "", proofs)) == []


def test_a_table_of_waivers_in_the_header_is_no_part_of_it(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    header = pack / "pack.toml"
    header.write_text(f"{header.read_text(encoding='utf-8')}\n[[waiver]]\n", encoding="utf-8")

    loaded = load_partly(snapshot_of(pack), origin="")

    assert loaded.pack is not None
    assert "waiver" not in loaded.pack.table
    assert loaded.tables["pack.toml"]["waiver"] == [{}]

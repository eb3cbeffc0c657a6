"""Tests of `barwright packs`: what is installed, and what is wrong with it."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from barwright.cli.command import run
from sample_packs import GOOD_PACK, changed_pack

OLD = 'id = "one"\ntitle = "Damper"\n'
NUMBERED = f'{OLD}numbers = {{ works = "71-20" }}\n'


def packs(*folders: Path) -> list[str]:
    """The command for some folders."""
    return ["packs", *(word for folder in folders for word in ("--pack", str(folder)))]


def test_every_pack_is_told_with_what_it_holds(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["packs", "--demo"]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("3 packs.\n")
    assert "1 arm, 3 bar, 1 fixed-socket, 1 damper" in " ".join(out.split())
    assert "Problems" not in out
    assert err == ""


def test_what_is_wrong_is_told_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    one = changed_pack(tmp_path / "a", "parts.toml", OLD, NUMBERED)
    two = changed_pack(tmp_path / "b", "parts.toml", OLD, NUMBERED)
    for file in ("pack.toml", "parts.toml", "vehicles.toml"):
        text = (two / file).read_text(encoding="utf-8")
        changed = text.replace('"tiny"', '"other"').replace("tiny:", "other:")
        (two / file).write_text(changed, encoding="utf-8")
    broken = changed_pack(tmp_path / "c", "pack.toml", '"tiny"', '"Tiny"')

    assert run(packs(one, two, broken)) == 3
    out, err = capsys.readouterr()
    shown = " ".join(out.split())
    assert (shown.startswith("2 packs, 1 left out."), err) == (True, "")
    assert "part number works 7120 is that of other:damper/one, tiny:damper/one" in shown
    assert f"{broken} is left out: S205: pack.toml:3: id" in shown
    assert "none" in shown  # no version

    assert run([*packs(one, two, broken), "--json"]) == 3
    found = json.loads(capsys.readouterr().out)
    assert [pack["id"] for pack in found["packs"]] == ["tiny", "other"]
    assert found["packs"][0]["sources"][0] == {
        "id": "desk",
        "kind": "invented",
        "note": "Invented for the tests.",
    }
    assert found["packs"][0]["records"]["damper"] == 1
    assert [problem["code"] for problem in found["left_out"][0]["problems"]] == ["S205"]
    assert found["shared_numbers"] == [
        {"number_system": "works", "number": "7120", "ids": ["other:damper/one", "tiny:damper/one"]}
    ]


def test_without_a_pack_it_says_where_there_are_some(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("barwright.registry.registry.installed_packs", lambda **_: [])
    assert run(["packs"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("no pack is installed: ")


def test_a_zip_file_for_a_folder_is_refused_with_what_to_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    archive = shutil.make_archive(str(tmp_path / "pack"), "zip", GOOD_PACK)
    assert run(["vehicles", "--pack", archive]) == 2
    assert "unpack it and name its folder" in capsys.readouterr().err
    assert run(["lint", archive]) == 2
    assert "if it is an archive, unpack it" in capsys.readouterr().out

"""Tests of `barwright new-pack` and `barwright schema`."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from barwright.cli.command import run
from barwright.registry.authoring.job_schema import job_schema
from barwright.registry.authoring.scaffold import new_pack
from barwright.registry.authoring.schema import overlay_schema, pack_schema, schema_text
from barwright.report.forms.answer_schema import answer_schema


def test_it_lists_what_it_wrote(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    assert run(["new-pack", "moor", "--id", "moor", "--title", "Moor, invented"]) == 0
    listed = capsys.readouterr().out.splitlines()
    assert listed == [
        path.relative_to(tmp_path).as_posix()
        for path in sorted((tmp_path / "moor").rglob("*"))
        if path.is_file()
    ]
    header = next((tmp_path / "moor").rglob("pack.toml")).read_text(encoding="utf-8")
    assert 'title = "Moor, invented"' in header


def test_it_refuses_a_folder_that_is_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    new_pack(tmp_path / "moor", "moor")

    assert run(["new-pack", str(tmp_path / "moor"), "--id", "moor"]) == 2
    assert "F201" in capsys.readouterr().err


@pytest.mark.parametrize("arguments", [["moor"], ["--id", "moor"], ["moor", "--id", "Moor"]])
def test_it_refuses_what_is_incomplete_or_no_id(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    assert run(["new-pack", *arguments]) == 2
    assert list(tmp_path.iterdir()) == []


def test_the_schema_is_printed_or_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "pack.schema.json"

    assert run(["schema"]) == 0
    printed = capsys.readouterr().out
    assert run(["schema", "--output", str(file)]) == 0
    assert capsys.readouterr().out == ""
    assert file.read_text(encoding="utf-8") == printed == schema_text()
    assert json.loads(printed) == pack_schema()


def test_the_schema_of_answers_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["schema", "--answers"]) == 0
    assert json.loads(capsys.readouterr().out) == answer_schema()


def test_the_schema_of_jobs_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["schema", "--job"]) == 0
    assert json.loads(capsys.readouterr().out) == job_schema()


@pytest.mark.parametrize("also", ["--overlay", "--job"])
def test_one_schema_is_printed_at_a_time(capsys: pytest.CaptureFixture[str], also: str) -> None:
    assert run(["schema", "--answers", also]) == 2
    assert "one schema at a time" in capsys.readouterr().err


def test_the_schema_of_overlays_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["schema", "--overlay"]) == 0
    assert json.loads(capsys.readouterr().out) == overlay_schema()


def test_a_new_overlay_is_written_and_lints_clean(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    assert run(["new-pack", "shop", "--overlay", "--id", "shop", "--title", "Ours, invented"]) == 0
    names = [
        "README.md",
        "corrections.toml",
        "overlay.schema.json",
        "pack.toml",
        "parts.toml",
    ]
    assert capsys.readouterr().out.splitlines() == [f"shop/{name}" for name in names]
    assert 'title = "Ours, invented"' in (tmp_path / "shop/pack.toml").read_text("utf-8")
    assert run(["lint", "shop"]) == 0


def test_the_choices_reach_the_pack(tmp_path: Path) -> None:
    folder = tmp_path / "moor"
    chosen = ["--suspension", "double-wishbone", "--anchorage", "key-lever", "--licence", "MIT"]

    assert run(["new-pack", str(folder), "--id", "moor", "--unknown", *chosen]) == 0
    (vehicles,) = folder.rglob("vehicles.toml")
    text = vehicles.read_text("utf-8")
    assert 'kind = "double-wishbone"' in text
    assert 'tube = "key-lever/standard"' in text
    assert 'droop_stop = "unknown"' in text
    assert 'license = "MIT"' in (folder / "pyproject.toml").read_text("utf-8")


@pytest.mark.parametrize(
    "option",
    [["--unknown"], ["--suspension", "strut"], ["--anchorage", "tube"], ["--licence", "MIT"]],
)
def test_an_overlay_has_no_choices(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], option: list[str]
) -> None:
    assert run(["new-pack", str(tmp_path / "shop"), "--id", "shop", "--overlay", *option]) == 2
    assert "--overlay goes with --id and --title only" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_schema_that_cannot_be_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["schema", "--output", str(tmp_path / "none" / "pack.schema.json")]) == 2
    assert "F201" in capsys.readouterr().err

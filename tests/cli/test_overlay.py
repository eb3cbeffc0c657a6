"""Tests of `--overlay`, `BARWRIGHT_OVERLAYS` and `--prefer`."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from barwright.cli.command import run
from sample_packs import SPECIMENS, changed_pack, distribution

JOB = str(SPECIMENS / "twenty" / "01-keep-standard.toml")
HEADER = """\
schema = 2
id = "{}"
title = "Our shop"
licence = "CC0-1.0"
[[source]]
id = "gauge"
kind = "measured"
note = "Our own gauge."
"""
STEEL = """\
[[material]]
id = "steel"
title = "Steel of {}"
source = "gauge"
shear_modulus = "78 GPa"
"""
CALLS = [
    ["fit", JOB],
    ["fit", "--donors", JOB],
    ["rates", JOB],
    ["strength", JOB],
    ["tolerance", JOB],
    ["trail", JOB],
    ["chart", JOB],
    ["reindex", JOB],
    ["sheet", JOB],
    ["compare", JOB, JOB],
    ["check", JOB],
    ["vehicles"],
    ["parts"],
    ["lock"],
]


def overlay(folder: Path, name: str) -> str:
    made = folder / name
    made.mkdir()
    (made / "pack.toml").write_text(HEADER.format(name), encoding="utf-8")
    (made / "ours.toml").write_text(STEEL.format(name), encoding="utf-8")
    return str(made)


@pytest.mark.parametrize("call", CALLS, ids=" ".join)
def test_every_command_that_opens_packs_takes_overlays(
    call: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bad = overlay(tmp_path, "bad")
    (tmp_path / "bad" / "ours.toml").write_text("no TOML", encoding="utf-8")

    assert run([*call, "--overlay", bad]) == 3
    reported = capsys.readouterr()
    assert reported.out == ""
    assert reported.err.startswith(f"overlay {bad!r} cannot be used\nerror F103")


@pytest.mark.parametrize("name", ["nowhere", "empty", "file"])
def test_what_is_no_overlay_at_all_is_bad_input(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "file").write_text("", encoding="utf-8")
    folder = str(tmp_path / name)

    assert run(["vehicles", "--overlay", folder]) == 2
    reported = capsys.readouterr()
    assert reported.out == ""
    assert reported.err.startswith("error F101: --overlay: got '")
    assert "expected a folder with a pack.toml in it" in reported.err


@pytest.mark.parametrize("spelled", ["{}/", "./{}", "{}/."])
def test_an_overlay_with_problems_ends_the_call_however_its_folder_is_spelled(
    spelled: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    overlay(tmp_path, "one")
    (tmp_path / "one" / "ours.toml").write_text("no TOML", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    assert run(["vehicles", "--overlay", spelled.format("one")]) == 3
    reported = capsys.readouterr()
    assert reported.out == ""
    assert reported.err.startswith("overlay 'one' cannot be used\nerror F103")


def test_overlays_are_given_again_or_by_the_environment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    one, two = overlay(tmp_path, "one"), overlay(tmp_path, "two")

    assert run(["parts", "steel", "of", "--overlay", one, "--overlay", two]) == 0
    given = capsys.readouterr().out
    assert "one:material/steel" in given
    assert "two:material/steel" in given
    monkeypatch.setenv("BARWRIGHT_OVERLAYS", os.pathsep.join([one, two]))
    assert run(["parts", "steel", "of"]) == 0
    assert capsys.readouterr().out == given
    assert run(["parts", "steel", "of", "--overlay", two]) == 0
    assert "one:material" not in capsys.readouterr().out


def test_a_pack_is_preferred(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("first", "second"):
        distribution(tmp_path, name, f"p = {name}_pack")
        (tmp_path / name).mkdir()
        made = changed_pack(tmp_path / name, "parts.toml", '"Bar"', f'"Bar, {name}"')
        made.rename(tmp_path / f"{name}_pack")
    monkeypatch.syspath_prepend(tmp_path)

    assert run(["parts", "tiny:bar"]) == 1
    assert "P301" in capsys.readouterr().err
    assert run(["parts", "tiny:bar", "--prefer", "tiny=second"]) == 0
    reported = capsys.readouterr()
    assert "Bar, second" in reported.out
    assert reported.err == ""


@pytest.mark.rare
def test_the_trail_tells_which_pack_an_overlay_prefers(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    prefer = '[prefer]\nfells = "barwright-pack-fells"\nhodmule = "barwright-pack-hodmule"\n'
    shop = Path(overlay(tmp_path, "shop"))
    header = HEADER.format("shop") + prefer
    (shop / "pack.toml").write_text(header, encoding="utf-8")

    assert run(["trail", JOB, "bar_rate", "--overlay", str(shop)]) == 0
    out = capsys.readouterr().out
    assert "fells: the pack of barwright-pack-fells, as shop says" in out
    assert "hodmule" not in out
    assert run(["trail", JOB, "bar_rate"]) == 0
    assert "the pack of" not in capsys.readouterr().out


def test_the_trail_tells_which_pack_the_call_prefers(capsys: pytest.CaptureFixture[str]) -> None:
    prefer = ["--prefer", "fells=barwright-pack-fells"]
    reported = {"id": "fells", "origin": "barwright-pack-fells", "by": "the call"}

    assert run(["trail", JOB, *prefer]) == 0
    assert "fells: the pack of barwright-pack-fells, as the call says" in capsys.readouterr().out
    assert run(["trail", JOB, *prefer, "--json"]) == 0
    answers = json.loads(capsys.readouterr().out)["answers"]
    assert [one["answer"]["preferences"] for one in answers] == [[reported], [reported]]


@pytest.mark.parametrize(
    ("text", "reported"),
    [
        ("fels=x", "got 'fels', expected the id of a pack; did you mean 'fells'?"),
        (
            "fells=nodist",
            "got 'nodist', expected a pack that claims the id; known: barwright-pack-",
        ),
    ],
)
def test_a_preference_for_what_is_not_there_is_bad_input(
    text: str, reported: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["parts", "--prefer", text]) == 2
    heard = capsys.readouterr()
    assert heard.out == ""
    assert heard.err.startswith(f"error S206: --prefer: {reported}")


@pytest.mark.parametrize("text", ["tiny", "tiny=", "=second"])
def test_a_preference_that_names_nothing_is_refused(
    text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["parts", "--prefer", text]) == 2
    assert "ID=DISTRIBUTION" in capsys.readouterr().err

"""Tests of usual figures on the command line: whatever rests on one says so."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from barwright.cli.command import run
from rare_cases import rarely_after
from sample_packs import changed_pack

JOB = """\
title = "Gaps filled"
vehicle = "tiny:chassis/one"
corners = ["front left", "front right"]
wanted.keep_standard = true
assume = "usual"
"""
DAMPER = "damper closed length 452 mm ± 54 mm (standards:usual/closed-damper)"
STEEL = "bar material shear modulus 76.2 GPa ± 3.8 GPa (standards:usual/shear-modulus)"
TYRE = "axle tyre rate 210 N/mm ± 90 N/mm (standards:usual/tyre-rate)"


@pytest.fixture
def pack(tmp_path: Path) -> list[str]:
    """The good pack without some figures, as an option; and a job beside it."""
    folder = changed_pack(tmp_path, "vehicles.toml", 'tyre_rate = "185 N/mm"', "")
    for name, figure in (("parts", 'closed_length = "486 mm"'), ("steel", "shear_modulus = {")):
        file = folder / f"{name}.toml"
        text = file.read_text(encoding="utf-8")
        assert figure in text
        gone = (line for line in text.splitlines() if not line.startswith(figure))
        file.write_text("\n".join(gone), encoding="utf-8")
    return ["--pack", str(folder)]


@pytest.fixture
def job(tmp_path: Path) -> str:
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return str(path)


def said(capsys: pytest.CaptureFixture[str]) -> str:
    """What was printed, in one line."""
    return " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(
    ("question", "named"),
    rarely_after(
        3,
        [
            ("fit", set()),
            ("rates", {DAMPER, STEEL, TYRE}),
            ("reindex", {STEEL}),
            ("nut", {STEEL}),
            ("sheet", {STEEL}),
            ("check", {STEEL}),
            ("trail", {DAMPER, STEEL, TYRE}),
        ],
    ),
)
def test_an_answer_names_what_it_assumed_and_no_more(
    question: str,
    named: set[str],
    pack: list[str],
    job: str,
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run([question, job, *pack]) == 0
    out = said(capsys)
    assert {figure for figure in (DAMPER, STEEL, TYRE) if figure in out} == named


def test_a_sheet_that_rests_on_usual_figures_forbids_no_work(
    pack: list[str], job: str, capsys: pytest.CaptureFixture[str]
) -> None:
    header = Path(pack[1]) / "pack.toml"
    text = header.read_text(encoding="utf-8")
    header.write_text(text.replace('kind = "invented"', 'kind = "measured"'), encoding="utf-8")

    assert run(["sheet", job, *pack]) == 0
    out = said(capsys)
    assert "for no vehicle" not in out
    assert f"Estimated, and included in every ±: {STEEL}" in out
    assert "standards:usual/shear-modulus (estimated)" in out


def test_a_program_is_given_the_figures(
    pack: list[str], job: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["reindex", job, "--json", "--units", "inch", *pack]) == 0
    (one, _) = json.loads(capsys.readouterr().out)["answers"]
    (steel,) = [found for found in one["rests_on"] if found["kind"] == "estimated"]

    assert steel["source"] == "standards:usual/shear-modulus"
    (figure,) = steel["figures"]
    assert figure["figure"] == "bar.material.shear_modulus"
    assert figure["value"] == {"value": pytest.approx(11051.9, abs=0.1), "unit": "ksi"}


def test_the_trail_gives_the_note_of_the_catalogue(
    pack: list[str], job: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["trail", job, *pack]) == 0
    assert "standards:usual/tyre-rate: estimated; Tyres of cars" in said(capsys)


def test_the_rate_of_a_bar_of_unknown_steel_is_given_if_that_is_allowed(
    pack: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["rate", "bar/one", "--assume", "usual", *pack]) == 0
    assert f"Rests on invented figures: tiny:desk; on estimated figures: {STEEL}" in said(capsys)

    assert run(["rate", "bar/one", *pack]) == 1

"""``barwright needs`` in its forms, on standard output and in files."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

import barwright as bw
from asked_once import asked_once
from barwright.cli.command import run
from sample_packs import discovered_once

JOB = Path(__file__).parents[4] / "docs" / "examples" / "firmer-bars.toml"
FORMS = ("text", "html", "pdf", "markdown", "json")


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Load the installed packs and put the questions once for all tests."""
    registry = discovered_once()
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)
    asked_once(monkeypatch, "barwright.cli.asking.measurements.needs", "needs")


@pytest.mark.parametrize("form", FORMS)
def test_a_file_holds_what_is_printed(
    form: str, tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    file = tmp_path / "needs"
    assert run(["needs", str(JOB), "--form", form, "--output", str(file)]) == 0
    assert capfdbinary.readouterr().out == b""
    assert run(["needs", str(JOB), "--form", form]) == 0
    sys.stdout.flush()
    assert capfdbinary.readouterr().out == file.read_bytes()


def test_each_page_is_that_of_its_function(tmp_path: Path) -> None:
    job = bw.load_job(JOB, discovered_once())
    answers = [bw.needs(corner.setup) for corner in job.corners]
    options = ["--all", "--paper", "letter", "--units", "inch"]
    for form in ("html", "pdf", "markdown"):
        file = tmp_path / form
        assert run(["needs", str(JOB), "--form", form, "--output", str(file), *options]) == 0
    html = bw.needs_html(answers, every=True, paper="letter", system="inch")
    assert (tmp_path / "html").read_text("utf-8") == html
    pdf = bw.needs_pdf(answers, every=True, paper="letter", system="inch")
    assert (tmp_path / "pdf").read_bytes() == pdf
    markdown = bw.needs_markdown(answers, every=True, system="inch")
    assert (tmp_path / "markdown").read_text("utf-8") == markdown


def test_what_is_read_is_told_to_programs_and_the_job_is_kept(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["needs", str(JOB), "--json"]) == 0
    answers = json.loads(capsys.readouterr().out.splitlines()[-1])["answers"]
    assert answers[0]["answer"]["as_it_stands"][0]["key"] == "[measured] height"
    assert run(["needs", str(JOB), "--output", str(JOB)]) == 2
    assert "F20" in capsys.readouterr().err


def test_two_forms_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["needs", str(JOB), "--json", "--form", "html"]) == 2
    assert "two forms" in capsys.readouterr().err

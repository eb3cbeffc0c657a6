"""``barwright sheet`` in its forms, on standard output and in files."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from printed_pages import demo_sheet, pdf_texts, said
from sample_packs import discovered_once

NAME = "firmer-bars"
JOB = str(Path(__file__).parents[3] / "docs" / "examples" / f"{NAME}.toml")
FORMS = ("text", "html", "pdf", "markdown", "json")


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Load the installed packs once for all tests."""
    registry = discovered_once()
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)


@pytest.mark.parametrize("form", FORMS)
def test_a_file_holds_what_is_printed(
    form: str, tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    file = tmp_path / "sheet"
    assert run(["sheet", JOB, "--form", form, "--output", str(file)]) == 0
    assert capfdbinary.readouterr().out == b""
    assert run(["sheet", JOB, "--form", form]) == 0
    sys.stdout.flush()
    assert capfdbinary.readouterr().out == file.read_bytes()


def test_each_form_is_that_of_its_function(tmp_path: Path) -> None:
    written = {}
    for form in FORMS:
        file = tmp_path / form
        assert run(["sheet", JOB, "--form", form, "--output", str(file)]) == 0
        written[form] = file.read_bytes()
    sheet = demo_sheet(NAME)
    assert written["html"].decode() == bw.sheet_html(sheet)
    assert written["markdown"].decode() == bw.sheet_markdown(sheet)
    assert written["pdf"] == bw.sheet_pdf(sheet)
    assert bw.from_json(written["json"].decode()) == sheet
    assert written["text"].decode().startswith("Front left and right: remove no tooth")


@pytest.mark.rare
def test_plan_units_and_paper_go_with_any_form(tmp_path: Path) -> None:
    file = tmp_path / "sheet.pdf"
    assert run(["sheet", JOB, "--form", "pdf", "--output", str(file), "--units", "inch"]) == 0
    assert said("19.68 ± 0.33 in") in pdf_texts(file.read_bytes())[0]
    a4 = file.read_bytes()
    options = ["--paper", "letter", "--units", "inch", "--output", str(file)]
    assert run(["sheet", JOB, "--form", "pdf", *options]) == 0
    assert file.read_bytes() != a4


def test_json_is_as_before(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["sheet", JOB, "--json"]) == 0
    before = capsys.readouterr().out
    assert json.loads(before)["answer"] == "BenchSheet"
    assert run(["sheet", JOB, "--json", "--form", "json"]) == 0
    assert capsys.readouterr().out == before


def test_two_forms_are_one_too_many(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["sheet", JOB, "--json", "--form", "html"]) == 2
    assert "leave one out" in capsys.readouterr().err


def test_a_terminal_is_sent_no_pdf(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    assert run(["sheet", JOB, "--form", "pdf"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "--output FILE" in err


def test_the_job_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "job.txt"
    job.write_bytes(Path(JOB).read_bytes())
    assert run(["sheet", str(job), "--form", "html", "--output", str(job)]) == 2
    assert "F202" in capsys.readouterr().err
    assert job.read_bytes() == Path(JOB).read_bytes()


@pytest.mark.parametrize(("form", "package"), [("html", "jinja2"), ("pdf", "typst")])
def test_a_missing_extra_is_named_and_no_file_is_made(
    form: str,
    package: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setitem(sys.modules, package, None)
    assert run(["sheet", JOB, "--form", form, "--output", str(tmp_path / "sheet")]) == 2
    assert "pip install 'barwright[report]'" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_the_template_needs_a_page_and_a_tooth_to_mark(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["sheet", JOB, "--template"]) == 2
    assert "--form html or --form pdf" in capsys.readouterr().err
    file = str(tmp_path / "sheet.pdf")
    assert run(["sheet", JOB, "--form", "pdf", "--template", "--output", file]) == 0
    assert "there is no template" in capsys.readouterr().err
    marked = JOB.replace(NAME, "loaded-trailer")
    assert run(["sheet", marked, "--form", "pdf", "--template", "--output", file]) == 0
    assert capsys.readouterr().err == f"The sheet is in {file}.\n"
    assert len(pdf_texts(Path(file).read_bytes())) > 2


def test_a_page_of_turns_needs_a_page_and_something_to_turn(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["sheet", JOB, "--whole-thread"]) == 2
    assert "--whole-thread needs a page to print" in capsys.readouterr().err
    file = str(tmp_path / "sheet.pdf")
    assert run(["sheet", JOB, "--form", "pdf", "--whole-thread", "--output", file]) == 0
    assert capsys.readouterr().err == f"The sheet is in {file}.\n"
    assert len(pdf_texts(Path(file).read_bytes())) == 3
    fixed = JOB.replace(NAME, "loaded-trailer")
    assert run(["sheet", fixed, "--form", "html", "--whole-thread", "--output", file]) == 0
    assert "there is no page of turns" in capsys.readouterr().err

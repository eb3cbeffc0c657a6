"""What packs and jobs say never steers a terminal, a drawing, a report or a build server."""

from __future__ import annotations

import json
import os
import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import jsonschema
import pytest
import tomli_w
import xmlschema
from click.shell_completion import ShellComplete
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.console import Console

import barwright as bw
from barwright.cli import output
from barwright.cli.command import barwright as command_line
from barwright.cli.command import run
from barwright.cli.output import shown_text
from barwright.registry.lock import LockedPack
from barwright.report.forms.annotations import to_annotations
from barwright.report.forms.junit import to_junit
from barwright.report.forms.sarif import to_sarif
from barwright.report.text.layout.tables import heading, marked, pairs, stacked, table
from draws import draws
from hostile_texts import ANY_TEXT, TEXTS
from rare_cases import rarely_after
from sample_packs import GOOD_PACK, SPECIMENS
from terminal_characters import unprintable

SCHEMAS = SPECIMENS / "schemas"
SARIF = jsonschema.Draft4Validator(json.loads((SCHEMAS / "sarif-2.1.0.json").read_text("utf-8")))
JUNIT = xmlschema.XMLSchema(str(SCHEMAS / "junit-10.xsd"))


@pytest.fixture(params=list(TEXTS.values()), ids=list(TEXTS))
def text(request: pytest.FixtureRequest) -> str:
    """A text that some program would take for something else."""
    given_text: str = request.param
    return given_text


@pytest.fixture
def printed(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path, text: str
) -> Callable[..., str]:
    """A function that runs the command with a pack and a job that are full of a text."""
    pack = hostile_pack(tmp_path, text)
    registry = bw.Registry.from_folders(pack, cache=False)
    assert not registry.problems
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)

    def execute(*arguments: str) -> str:
        code = run(list(arguments))
        out, err = capsys.readouterr()
        assert code in (0, 1, 2), err
        assert not unprintable(out + err)
        return out

    return execute


def hostile_pack(folder: Path, text: str) -> Path:
    """The good pack with a text wherever it may hold one."""
    pack = folder / "pack"
    pack.mkdir()
    for path in GOOD_PACK.glob("*.toml"):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        for records in table.values():
            for record in records if isinstance(records, list) else ():
                spoil(record, text)
        if path.name == "pack.toml":
            table |= {"title": text, "licence": text}
            table["waiver"] = [{"rule": "plausible", "of": text, "why": text}]
        (pack / path.name).write_text(tomli_w.dumps(table), encoding="utf-8")
    return pack


def spoil(record: dict[str, Any], text: str) -> None:
    """Put a text wherever a record may hold one."""
    if "note" in record:
        record["note"] = text
        return
    record |= {"title": text, "at": text}
    if "axles" in record:
        record |= {"maker": text, "model": text, "body": text, "codes": [text], "markets": [text]}


def hostile_job(folder: Path, text: str) -> str:
    """A job with a text as its title."""
    job = {"title": text, "vehicle": "tiny:chassis/one", "corners": ["front left"]}
    path = folder / "job.toml"
    wanted = {"wanted": {"keep_standard": True}}
    path.write_text(tomli_w.dumps(job | wanted), encoding="utf-8")
    return str(path)


def begins_no_command(text: str) -> bool:
    """Tell whether no line is one that a build server obeys."""
    return not [line for line in text.split("\n") if line.lstrip().startswith("::")]


QUESTIONS = ("fit", "nut", "rates", "reindex", "strength", "tolerance", "trail", "sheet")


def test_a_terminal_shows_texts_and_obeys_none(
    printed: Callable[..., str], tmp_path: Path, text: str
) -> None:
    job = hostile_job(tmp_path, text)
    commands = [["vehicles"], ["parts"], ["family"], ["chart", job], ["compare", job, job]]
    commands += [[question, job] for question in QUESTIONS]
    commands += [["trail", job, "ride.wheel_rate"], ["fit", "--donors", job], ["check", job]]
    commands += [["lint", str(tmp_path / "pack")], ["vehicles", text], ["vehicles", "--one", text]]
    for command in commands:
        assert begins_no_command(printed(*command)), command


def test_json_says_what_the_pack_says(
    printed: Callable[..., str], tmp_path: Path, text: str
) -> None:
    job = hostile_job(tmp_path, text)
    assert json.loads(printed("vehicles", "--json"))["vehicles"][0]["title"] == text
    assert {part["title"] for part in json.loads(printed("parts", "--json"))["parts"]} >= {text}
    assert json.loads(printed("sheet", "--json", job))["title"] == text
    for question in QUESTIONS[:-1]:
        assert json.loads(printed(question, "--json", job))["answers"][0]["job"] == text
    assert "problems" in json.loads(
        printed("rates", "--json", f"{job}{text[:40]}".replace("\0", ""))
    )


def test_a_drawing_is_xml_and_holds_no_script_and_no_link(
    printed: Callable[..., str], tmp_path: Path, text: str
) -> None:
    drawing = tmp_path / "chart.svg"
    printed("chart", "--svg", str(drawing), hostile_job(tmp_path, text))
    assert not unprintable(drawing.read_text(encoding="utf-8"))
    root = ET.parse(drawing).getroot()  # noqa: S314 - made here
    tags = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert tags == {"svg", "title", "desc", "rect", "text", "line", "polyline", "circle"}
    names = {name for element in root.iter() for name in element.attrib}
    assert not [name for name in names if "href" in name or name.startswith("on")]


@pytest.mark.parametrize("form", rarely_after(1, ["html", "markdown", "pdf"]))
def test_a_printed_sheet_is_written_whatever_it_says(
    form: str, printed: Callable[..., str], tmp_path: Path, text: str
) -> None:
    page = tmp_path / "page"
    job = hostile_job(tmp_path, text)
    printed("sheet", job, "--form", form, "--output", str(page))
    if form != "pdf":
        written = page.read_text(encoding="utf-8")
        assert not unprintable(written)
        assert begins_no_command(written)
        assert printed("sheet", job, "--form", form) == written


@pytest.mark.parametrize("form", ["json-lines", "junit", "github", "sarif"])
def test_forms_for_programs_are_well_formed(
    form: str, printed: Callable[..., str], tmp_path: Path, text: str
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(tomli_w.dumps({"title": text, text: text, "vehicle": text}), encoding="utf-8")
    for command in (("check", str(job)), ("lint", str(tmp_path / "pack"))):
        out = printed(*command, "--form", form)
        file = tmp_path / "out"
        printed(*command, "--form", form, "--output", str(file))
        assert file.read_text(encoding="utf-8") == out
        FORMS[form](out)


def _is_junit(out: str) -> None:
    JUNIT.validate(out)
    assert begins_no_command(out)


def _is_annotations(out: str) -> None:
    for line in filter(None, out.split("\n")):
        assert re.fullmatch(
            r"::(error|warning) file=[^:,]*(,line=\d+)?,title=[^:,]*::[^\n]*"
            r"|::notice::\d+ more of kind (error|warning) are not shown",
            line,
        )


FORMS: dict[str, Callable[[str], object]] = {
    "json-lines": json.loads,
    "junit": _is_junit,
    "github": _is_annotations,
    "sarif": lambda out: SARIF.validate(json.loads(out)),
}


@pytest.mark.parametrize("form", ["text", *FORMS])
def test_a_file_whose_name_is_no_text_is_told_of(
    form: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = Path(os.fsdecode(os.fsencode(tmp_path) + b"/\xff\x1b\n::error::x"))
    folder.mkdir()
    (folder / "job.toml").write_text("=", encoding="utf-8")
    (folder / "pack.toml").write_text("=", encoding="utf-8")
    for command, path, code in (("check", folder / "job.toml", 2), ("lint", folder, 1)):
        assert run([command, str(path), "--form", form]) == code
        out, err = capsys.readouterr()
        assert not unprintable(out + err)
        assert begins_no_command(out) or form == "github"
        FORMS.get(form, begins_no_command)(out)
        written = ["--output", str(tmp_path / "out")]
        assert run([command, str(path), "--form", form, *written]) == code


def test_wrong_arguments_are_told_of_without_steering(capsys: pytest.CaptureFixture[str]) -> None:
    for arguments in (
        ["\x1b[31m"],
        ["fit", "--\x1b[31m"],
        ["schema", "\x9b"],
        ["vehicles", "\x1b"],
    ):
        assert run(arguments)
        out, err = capsys.readouterr()
        assert not unprintable(out + err)


def test_only_one_module_of_the_command_line_prints() -> None:
    modules = Path(output.__file__).parent.rglob("*.py")
    printing = re.compile(r"\b(click\.s?echo|print|sys\.std(out|err)\.write)\(")
    found = [m.name for m in modules if printing.search(m.read_text(encoding="utf-8"))]
    # Without click there is nothing to print with but the interpreter, and nothing of a pack.
    assert sorted(found) == ["__init__.py", "output.py"]


# -- Over all of Unicode ------------------------------------------------------------------


@settings(max_examples=draws(60))
@given(ANY_TEXT, ANY_TEXT)
def test_whatever_a_table_holds_the_terminal_shows_lines_and_no_more(one: str, two: str) -> None:
    rows = table("a", "b")
    rows.add_row(one, two)
    shown = stacked(heading(one), rows, pairs((one, two)), marked("*", two), two)
    assert not unprintable(shown_text(shown))
    assert begins_no_command(shown_text(stacked(heading(f".{one}"), marked("", two))))


def test_styles_reach_a_terminal_where_those_of_texts_do_not(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setattr(Console, "is_terminal", True)
    output.show(heading("\x1b[31mHeading"))
    out = capsys.readouterr().out
    assert "\x1b[1m" in out
    assert "\ufffd[31mHeading" in out
    assert "\x1b[31m" not in out


def checked(file: str, problems: list[tuple[str, str, str]]) -> bw.answers.JobCheck:
    """A job file with problems full of a text."""
    return bw.answers.JobCheck(
        file=file,
        exit_code=2,
        problems=tuple(
            bw.answers.FileProblem(
                code="S201", value=v, expected=e, remedy=v, file=file, line=1, key=k
            )
            for v, e, k in problems
        ),
    )


NAMES = ANY_TEXT.filter(lambda text: bool(text) and "\0" not in text)
CHECKED = st.builds(
    checked, NAMES, st.lists(st.tuples(ANY_TEXT, ANY_TEXT, ANY_TEXT), min_size=1, max_size=12)
)


@settings(max_examples=draws(60))
@given(st.lists(CHECKED, min_size=1, max_size=3))
def test_forms_are_well_formed_whatever_they_tell_of(results: list[bw.answers.JobCheck]) -> None:
    SARIF.validate(json.loads(to_sarif(results, version="1")))
    _is_junit(to_junit(results))
    annotations = to_annotations(results)
    _is_annotations(annotations)
    assert annotations.count("::error ") <= 10
    reported = [to_sarif(results, version="1"), to_junit(results), annotations]
    assert not unprintable("".join(reported))


# -- Files that are written ---------------------------------------------------------------


@settings(max_examples=draws(40))
@given(ANY_TEXT, ANY_TEXT)
def test_a_lock_is_read_back_whatever_packs_are_called(origin: str, version: str) -> None:
    pack = LockedPack(id="tiny", origin=origin, version=version, digest="0" * 64)
    written = bw.lock_text(bw.answers.Lock(schema=1, library=version, pack=(pack,)))
    read = tomllib.loads(written.encode().decode())
    assert read["pack"][0]["origin"] == origin.encode(errors="replace").decode()


TITLES = ('a"b', "a'b\\", '"""', "${id} $x", "a # b", "=cmd()", "<b>&", "]]>", "%0A::x")


@pytest.mark.parametrize("title", TITLES)
def test_a_new_pack_has_the_title_that_was_given(title: str, tmp_path: Path) -> None:
    assert run(["new-pack", str(tmp_path / "new"), "--id", "moor", "--title", title]) == 0
    (header,) = (tmp_path / "new").rglob("pack.toml")
    assert tomllib.loads(header.read_text(encoding="utf-8"))["title"] == title
    tomllib.loads((tmp_path / "new" / "pyproject.toml").read_text(encoding="utf-8"))
    assert not bw.Registry.from_folders(header.parent, cache=False).problems


@pytest.mark.parametrize("title", ["a\nb", "\x1b", "\u202e", "\x00", "\ud800", "a\tb", " "])
def test_a_new_pack_takes_no_title_that_is_no_line_of_text(title: str, tmp_path: Path) -> None:
    assert run(["new-pack", str(tmp_path / "new"), "--id", "moor", "--title", title]) == 2
    assert not (tmp_path / "new").exists()


def test_completion_offers_nothing_that_a_pack_says(printed: Callable[..., str]) -> None:
    for name in command_line.list_commands(None):  # type: ignore[arg-type]
        offered = ShellComplete(command_line, {}, "barwright", "X").get_completions([name], "")
        assert all(re.fullmatch(r"[a-z-]*", item.value) for item in offered), name
        assert printed(name, "--help")

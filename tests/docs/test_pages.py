"""What the pages quote is real: output of commands, jobs, links, shell."""

from __future__ import annotations

import itertools
import json
import re
import shutil
import tomllib
from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.cli import command as command_module
from barwright.cli.checking import many
from barwright.cli.command import run
from barwright.registry.jobs.keys import JobKeys, LoadKeys, PartNames, PresentKeys, WantedKeys
from barwright.registry.packs.format.keys import key_of
from barwright.registry.packs.format.pack import KINDS
from doc_pages import DOCS, ROOT, fenced, output, quoted, read, scripts, shell, shown_as
from each_case import each_case

PAGES = sorted([*DOCS.glob("*.md"), *DOCS.glob("decisions/*.md")])


def blocks(name: str, language: str) -> list[str]:
    return [content for found, content in fenced(read(name)) if found == language]


# -- Reading a plan, and other vehicles ----------------------------------------------


LINE_BY_LINE = quoted("reading-a-plan.md")
SAMPLE = {command: lines for command, lines in quoted("../README.md").items() if lines}
OTHER_PAGES = ("other-vehicles.md", "which-bar.md", "working.md", "corner-weights.md")
QUOTED = LINE_BY_LINE | dict(itertools.chain(*(quoted(page).items() for page in OTHER_PAGES)))


def test_the_readme_shows_a_sample() -> None:
    assert SAMPLE


@pytest.mark.parametrize(
    ("command", "excerpts"),
    [*QUOTED.items(), *SAMPLE.items()],
)
def test_quoted_output_is_real_and_in_order(command: str, excerpts: list[list[str]]) -> None:
    assert excerpts, "nothing is quoted of it"
    lines = output(command)
    position = 0
    for excerpt in excerpts:
        starts = [
            i
            for i in range(position, len(lines) - len(excerpt) + 1)
            if lines[i : i + len(excerpt)] == excerpt
        ]
        assert starts, "\n".join(["not printed any more, or not in this order:", *excerpt])
        position = starts[0] + len(excerpt)


@pytest.mark.parametrize("command", LINE_BY_LINE)
def test_every_line_up_to_a_third_plan_is_quoted(command: str) -> None:
    reported = {line for excerpt in LINE_BY_LINE[command] for line in excerpt}
    before = itertools.takewhile(lambda line: not line.startswith("Plan 3"), output(command))
    assert [line for line in before if line.strip() and line not in reported] == []


# -- The job file --------------------------------------------------------------------


def test_every_job_of_the_page_loads_and_is_answered(tmp_path: Path) -> None:
    registry = bw.Registry.discover()
    jobs = [text for text in blocks("job-file.md", "toml") if "vehicle =" in text]
    assert len(jobs) >= 4
    for text in jobs:
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        for job in bw.load_jobs(path, registry):
            for corner in job.corners:
                answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)
                assert answer.outcome.is_good, text


def test_the_example_jobs_load() -> None:
    registry = bw.Registry.discover()
    for path in sorted((ROOT / "docs/examples").glob("*.toml")):
        assert bw.load_jobs(path, registry)


def test_the_page_lists_every_key_of_a_job() -> None:
    page = read("job-file.md")
    for keys in (JobKeys, PartNames, PresentKeys, LoadKeys, WantedKeys):
        for field in attrs.fields(keys):
            if field.name != "about":
                key = key_of(field.name)
                assert re.search(rf"^\| [^|]*`{key}`", page, re.MULTILINE), key
    for side in bw.parts.Side:
        assert f"`{side.value}`" in page


# -- All pages -----------------------------------------------------------------------


def anchor(heading: str) -> str:
    """Anchor that renderers make of a heading."""
    return re.sub(r"[^\w -]", "", heading.lower()).strip().replace(" ", "-")


@each_case("page", PAGES)
def test_links_lead_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)\s]+)\)", page.read_text(encoding="utf-8")):
        assert "://" not in target, "the pages cite by title, not by link"
        file, _, fragment = target.partition("#")
        aim = page.parent / file if file else page
        assert aim.exists(), target
        if fragment:
            headings = re.findall(r"^#+ (.*)$", aim.read_text(encoding="utf-8"), re.MULTILINE)
            assert fragment in map(anchor, headings), target


@each_case("page", PAGES)
def test_tables_have_one_width(page: Path) -> None:
    for table in re.findall(r"(?:^\|.*\n)+", page.read_text(encoding="utf-8"), re.MULTILINE):
        widths = {len(re.findall(r"(?<!\\)\|", row)) for row in table.splitlines()}
        assert len(widths) == 1, table.splitlines()[0]


@each_case("page", PAGES)
def test_toml_is_toml(page: Path) -> None:
    for language, content in fenced(page.read_text(encoding="utf-8")):
        if language == "toml":
            tomllib.loads(content)


@pytest.mark.slow
@pytest.mark.parametrize("script", blocks("recipes.md", "sh"))
def test_shell_of_the_recipes_runs(script: str) -> None:
    done = shell(f"set -e\n{script}", ROOT)
    assert done.returncode == 0, done.stdout
    assert "error" not in done.stdout


# -- The command line ----------------------------------------------------------------

SCRIPTS = scripts("scripts.md")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder that shows the jobs and packs of the tests and can be written to."""
    for name in ("tests/specimens/twenty", "tests/specimens/packs", "docs/examples"):
        shutil.copytree(ROOT / name, tmp_path / name)
    return tmp_path


@pytest.mark.slow
@pytest.mark.parametrize(
    ("script", "expected"), SCRIPTS, ids=[script.split("\n")[0] for script, _ in SCRIPTS]
)
def test_a_script_prints_what_the_page_shows(script: str, expected: str, folder: Path) -> None:
    done = shell(script, folder)
    assert done.returncode == 0, 'show an exit code with: echo "exit code $?"'
    assert shown_as(expected).fullmatch(done.stdout), done.stdout


def test_what_is_left_out_of_shown_output_is_marked() -> None:
    assert shown_as("a\n…\nc\n").fullmatch("a\nb\nb\nc\n")
    assert shown_as("a … c\n").fullmatch("a b c\n")
    assert not shown_as("a\nc\n").fullmatch("a\nb\nc\n")
    assert not shown_as("a … c\n").fullmatch("a b\nc\n")
    assert not shown_as("a.c\n").fullmatch("abc\n")


def test_the_page_lists_every_command_and_shows_each_that_it_explains() -> None:
    page = read("scripts.md")
    listed = re.findall(r"^\| `barwright ([\w-]+)[^|]*\| ", page, re.MULTILINE)
    assert sorted(listed) == sorted(command_module._ROOM_OF)  # noqa: SLF001
    others = itertools.chain(*map(scripts, OTHER_PAGES[1:]))
    run_there = "\n".join(script for script, _ in (*SCRIPTS, *others))
    for name in set(listed) - {"rates", "sheet"}:  # shown by their own pages
        assert f"barwright {name} " in run_there or f"barwright {name}\n" in run_there


def test_the_page_lists_every_form_and_kind_and_exit_code_word() -> None:
    page = read("scripts.md")
    for form in ("text", *many.FORMS):
        assert re.search(rf"^\| `{form}` \| ", page, re.MULTILINE), form
    for kind in KINDS:
        assert kind == "chassis" or re.search(rf"`{kind}`", page), kind
    for exit_code in range(4):
        mark = bw.answers.JobCheck(file="", exit_code=exit_code).mark
        assert re.search(rf"^\| {exit_code} \| {mark} \| ", page, re.MULTILINE)


JOB = "tests/specimens/twenty/01-keep-standard.toml"
CALLS = {
    "fit": ["fit", "--json", JOB],
    "fit --donors": ["fit", "--donors", "--json", JOB],
    "rate": ["rate", "--json", "fells:bar/short-firm"],
    "rates": ["rates", "--json", JOB],
    "reindex": ["reindex", "--json", JOB],
    "nut": ["nut", "--json", JOB],
    "strength": ["strength", "--json", JOB],
    "tolerance": ["tolerance", "--json", JOB],
    "trail": ["trail", "--json", JOB],
    "compare": ["compare", "--json", JOB, JOB],
    "sheet": ["sheet", "--json", JOB],
    "vehicles": ["vehicles", "--json"],
    "parts": ["parts", "--json"],
    "check --form json-lines": ["check", "--form", "json-lines", JOB, JOB],
    "lint --form json-lines": ["lint", "--form", "json-lines", "tests/specimens/packs/good"],
}


def test_the_table_of_documents_is_what_json_prints(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    table = {
        call: (document, classes)
        for call, document, classes in re.findall(
            r"^\| `([^`]+)` \| ([^|]+) \| (`\w+`[^|]*) \|$", read("scripts.md"), re.MULTILINE
        )
        if call in CALLS
    }
    assert table.keys() == CALLS.keys()
    for call, (document, classes) in table.items():
        assert run(CALLS[call]) == 0
        reported = json.loads(capsys.readouterr().out)
        name = re.search(r"\{\"(\w+)\": \[…\]\}", document)
        each = [reported] if name is None else reported[name[1]]
        assert name is None or list(reported) == [name[1]]
        assert each
        if "…" not in classes:
            # Answers to a job or about a bar say so, and hold the answer itself.
            answers = [one if isinstance(one["answer"], str) else one["answer"] for one in each]
            assert {one["answer"] for one in answers} == set(re.findall(r"`(\w+)`", classes))
            assert all(bw.from_json(json.dumps(one)) for one in answers)


def test_every_page_is_in_one_section_of_the_site_and_the_readme_leads_there() -> None:
    front = read("index.md")
    listed = [
        f"{name}.md"
        for content in re.findall(r"^```\{toctree\}\n(.*?)^```$", front, re.MULTILINE | re.DOTALL)
        for name in content.splitlines()
        if name and not name.startswith(":")
    ]
    pages = [*DOCS.glob("*.md"), *DOCS.glob("api/*.md"), DOCS / "decisions/README.md"]
    names = (page.relative_to(DOCS).as_posix() for page in pages)
    assert sorted(listed) == sorted(name for name in names if name != "index.md")
    assert "(docs/index.md)" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_list_of_decisions_names_each_once() -> None:
    index = DOCS / "decisions" / "README.md"
    listed = re.findall(r"^\d+\. \[[^\]]+\]\(([^)]+)\)", read("decisions/README.md"), re.MULTILINE)
    assert sorted(listed) == sorted(
        page.name for page in index.parent.glob("*.md") if page != index
    )

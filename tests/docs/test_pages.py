"""What the pages quote is real: output of commands, jobs, links, shell."""

from __future__ import annotations

import contextlib
import io
import os
import re
import subprocess
import sysconfig
import tomllib
from collections.abc import Iterator
from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.cli.command import run
from barwright.registry import job as job_module

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PAGES = sorted(DOCS.glob("*.md"))


def read(name: str) -> str:
    return (DOCS / name).read_text(encoding="utf-8")


def fenced(page: str) -> Iterator[tuple[str, str]]:
    """Language and content of every fenced block, in order."""
    for match in re.finditer(r"^```(\w+)\n(.*?)^```$", page, re.MULTILINE | re.DOTALL):
        yield match[1], match[2]


def blocks(name: str, language: str) -> list[str]:
    return [content for found, content in fenced(read(name)) if found == language]


# -- Reading a plan ------------------------------------------------------------------


def output(command: str, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Lines that a command of a page prints, as into a pipe."""
    monkeypatch.chdir(ROOT)
    program, *arguments = command.split()
    assert program == "barwright"
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        assert run(arguments) == 0
    return printed.getvalue().splitlines()


def quoted() -> dict[str, list[list[str]]]:
    """Excerpts of output in the page, by the command above them."""
    found: dict[str, list[list[str]]] = {}
    command = ""
    for language, content in fenced(read("reading-a-plan.md")):
        if language == "sh":
            command = content.strip()
            found[command] = []
        elif language == "text":
            found[command].append(content.splitlines())
    return found


@pytest.mark.parametrize("command", quoted())
def test_quoted_output_is_real_and_in_order(command: str, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = output(command, monkeypatch)
    position = 0
    for excerpt in quoted()[command]:
        starts = [
            i
            for i in range(position, len(lines) - len(excerpt) + 1)
            if lines[i : i + len(excerpt)] == excerpt
        ]
        assert starts, "\n".join(["not printed any more, or not in this order:", *excerpt])
        position = starts[0] + len(excerpt)


@pytest.mark.parametrize("command", quoted())
def test_every_line_of_the_left_corner_is_quoted(
    command: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = {line for excerpt in quoted()[command] for line in excerpt}
    for line in output(command, monkeypatch):
        if line.lower().endswith("front right"):
            break
        assert not line.strip() or line in told
    else:
        pytest.fail("the job has no right corner any more")


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
                assert answer.outcome is bw.Outcome.REACHED, text


def test_the_example_jobs_load() -> None:
    registry = bw.Registry.discover()
    for path in sorted((ROOT / "examples").glob("*.toml")):
        assert bw.load_jobs(path, registry)


def test_the_page_lists_every_key_of_a_job() -> None:
    page = read("job-file.md")
    for name in ("_JobFile", "_PartNames", "_Present", "_Load", "_Wanted"):
        for field in attrs.fields(getattr(job_module, name)):
            if field.name != "about":
                assert re.search(rf"^\| [^|]*`{field.name}`", page, re.MULTILINE), field.name
    for side in bw.Side:
        assert f"`{side.value}`" in page


# -- All pages -----------------------------------------------------------------------


def anchor(heading: str) -> str:
    """Anchor that renderers make of a heading."""
    return re.sub(r"[^\w -]", "", heading.lower()).strip().replace(" ", "-")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_lead_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)\s]+)\)", page.read_text(encoding="utf-8")):
        assert "://" not in target, "the pages cite by title, not by link"
        file, _, fragment = target.partition("#")
        aim = page.parent / file if file else page
        assert aim.exists(), target
        if fragment:
            headings = re.findall(r"^#+ (.*)$", aim.read_text(encoding="utf-8"), re.MULTILINE)
            assert fragment in map(anchor, headings), target


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_tables_have_one_width(page: Path) -> None:
    for table in re.findall(r"(?:^\|.*\n)+", page.read_text(encoding="utf-8"), re.MULTILINE):
        widths = {len(re.findall(r"(?<!\\)\|", row)) for row in table.splitlines()}
        assert len(widths) == 1, table.splitlines()[0]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_toml_is_toml(page: Path) -> None:
    for language, content in fenced(page.read_text(encoding="utf-8")):
        if language == "toml":
            tomllib.loads(content)


@pytest.mark.parametrize("page", ["recipes.md"])
def test_shell_of_a_page_runs(page: str) -> None:
    path = os.pathsep.join([sysconfig.get_path("scripts"), os.environ["PATH"]])
    for script in blocks(page, "sh"):
        done = subprocess.run(
            ["sh", "-e", "-c", script],
            cwd=ROOT,
            env=os.environ | {"PATH": path},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        assert done.stderr == ""

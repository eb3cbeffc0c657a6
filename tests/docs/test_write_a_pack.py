"""The page on writing a pack is followed word for word, in an empty folder."""

from __future__ import annotations

import os
import re
import subprocess
import sysconfig
import venv
from collections.abc import Iterator
from pathlib import Path

import attrs
import pytest

from paging import DOCS, fenced, read, shown_as

ROOT = DOCS.parent

# A new environment's own pip asks nobody: what is needed besides comes from the environment of
# this run, and what lies there is left alone.
OFFLINE = {
    "PIP_NO_INDEX": "1",
    "PIP_NO_DEPS": "1",
    "PIP_NO_BUILD_ISOLATION": "0",  # the value of --no-build-isolation, which is false
    "PIP_IGNORE_INSTALLED": "1",
    "PIP_CONFIG_FILE": os.devnull,
    "PIP_DISABLE_PIP_VERSION_CHECK": "1",
    "PIP_QUIET": "1",
}

PYTEST = """#!/bin/sh
exec {python} -m pytest "$@"
"""

PAGE = read("write-a-pack.md")


@attrs.frozen
class Step:
    """A block of the page, with the sentence above it."""

    language: str
    content: str
    above: str

    @property
    def file(self) -> str:
        """The last file that the sentence names."""
        return str(re.findall(r"`((?:moor|scuttock)/[^`]+\.toml)`", self.above)[-1])


def steps() -> Iterator[Step]:
    """Every block of the page, in order."""
    parts = re.split(r"^```\w+\n.*?^```$", PAGE, flags=re.MULTILINE | re.DOTALL)
    for (language, content), above in zip(fenced(PAGE), parts, strict=False):
        yield Step(language, content, above.strip().rpartition("\n\n")[2])


@attrs.define
class Reader:
    """Someone who does what the page says."""

    folder: Path
    environment: dict[str, str]
    printed: str = ""
    replaced: Step | None = None
    ran: int = 0
    edited: int = 0

    def follow(self, step: Step) -> None:
        if step.language == "sh":
            self.run(step.content)
        elif step.language == "text":
            assert shown_as(step.content).fullmatch(self.printed), self.printed
        else:
            self.edit(step)

    def run(self, script: str) -> None:
        done = subprocess.run(
            ["sh", "-ec", script],
            cwd=self.folder,
            env=self.environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
            check=False,
        )
        self.printed = done.stdout
        assert done.returncode == 0, done.stdout
        self.ran += 1

    def edit(self, step: Step) -> None:
        """Put a block of TOML where the sentence above it says."""
        if step.above == "by":
            assert self.replaced is not None
            self.change(self.replaced.file, self.replaced.content, step.content)
            self.replaced = None
        elif step.above.endswith("replace"):
            self.replaced = step
        elif re.search(r"add\s+to\s+`[^`]+`$", step.above):
            self.change(step.file, "", step.content)
        else:
            path = self.folder / step.file
            assert path.exists() == step.above.startswith("In the place of")
            path.write_text(step.content, encoding="utf-8")
        self.edited += 1

    def change(self, file: str, old: str, new: str) -> None:
        """Replace one piece of a file, remarks behind it left alone, or add to its end."""
        path = self.folder / file
        text = path.read_text(encoding="utf-8")
        if old:
            assert text.count(old.strip()) == 1, old
            text = text.replace(old.strip(), new.strip())
        else:
            text += new
        path.write_text(text, encoding="utf-8")


@pytest.fixture
def programs(tmp_path: Path) -> Path:
    """Programs of a new environment with the library, its demo packs, and what they stand on."""
    venv.create(tmp_path / "new", with_pip=True)
    where = {"base": str(tmp_path / "new"), "platbase": str(tmp_path / "new")}
    site, programs = (
        Path(sysconfig.get_path(name, "venv", where)) for name in ("purelib", "scripts")
    )
    here = sysconfig.get_path("purelib")
    (site / "here.pth").write_text(f"import site; site.addsitedir({here!r})\n", encoding="utf-8")
    pytest_here = programs / "pytest"
    pytest_here.write_text(PYTEST.format(python=programs / "python"), encoding="utf-8")
    pytest_here.chmod(0o755)
    return programs


@pytest.fixture
def reader(tmp_path: Path, programs: Path) -> Reader:
    (tmp_path / "work").mkdir()
    path = os.pathsep.join([str(programs), os.environ["PATH"]])
    # The tests of the pack are run as its author runs them, without this run's settings.
    left_out = ("PYTEST", "COV_", "PYTHONPATH", "PIP_")
    inherited = {k: v for k, v in os.environ.items() if not k.startswith(left_out)}
    own = {"COLUMNS": "80", "PATH": path, "PYTHONDONTWRITEBYTECODE": "1"}
    new = Reader(ROOT, inherited | OFFLINE | own)
    new.run("pip install '.[cli]' ./plugins/*")
    return attrs.evolve(new, folder=tmp_path / "work", ran=0)


def test_whoever_does_what_the_page_says_gets_what_it_shows(reader: Reader) -> None:
    for step in steps():
        reader.follow(step)

    assert (reader.ran, reader.edited, reader.replaced) == (15, 17, None)
    reader.run("barwright vehicles")
    for vehicle in ("fells:chassis/short", "hodmule:chassis/long", "trundlet:chassis/open"):
        assert vehicle in reader.printed
    assert "moor:chassis/flatbed" in reader.printed
    assert "scuttock:chassis/two-seat" in reader.printed


@pytest.mark.parametrize("pack", ["moor", "scuttock"])
def test_a_plan_takes_three_commands_once_the_pack_is_there(pack: str) -> None:
    scripts = [step.content for step in steps() if step.language == "sh"]
    (begun,) = [n for n, script in enumerate(scripts) if f"barwright new-pack {pack} " in script]

    assert scripts[begun].count("\n") == 1
    assert scripts[begun + 1].splitlines() == [
        f"barwright lint {pack}/src",
        f"pip install ./{pack}",
        f"barwright reindex {pack}/jobs/lower.toml",
    ]

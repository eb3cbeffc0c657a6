"""The page on writing a pack is followed word for word, in an empty folder."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import sysconfig
from collections.abc import Iterator
from pathlib import Path

import attrs
import pytest

from paging import fenced, read, shown_as

# Installs what a page says, beside what is there, in a folder of the test's own.
PIP = """#!/bin/sh
test "$1" = install || exit 2
shift
exec {python} -m pip install -q --no-deps --no-build-isolation --disable-pip-version-check \
    --no-index --target {site} --upgrade "$@"
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
        return str(re.findall(r"`(moor/[^`]+\.toml)`", self.above)[-1])


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
            assert not path.exists()
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
def reader(tmp_path: Path) -> Reader:
    site, programs, folder = (tmp_path / name for name in ("site", "bin", "work"))
    for new in (site, programs, folder):
        new.mkdir()
    pip = programs / "pip"
    pip.write_text(PIP.format(python=sys.executable, site=site), encoding="utf-8")
    pip.chmod(0o755)
    path = os.pathsep.join([str(programs), sysconfig.get_path("scripts"), os.environ["PATH"]])
    # The tests of the pack are run as its author runs them, without this run's settings.
    inherited = {k: v for k, v in os.environ.items() if not k.startswith(("PYTEST", "COV_"))}
    python = {"PYTHONPATH": str(site), "PYTHONDONTWRITEBYTECODE": "1"}
    return Reader(folder, inherited | python | {"COLUMNS": "80", "PATH": path})


def test_whoever_does_what_the_page_says_gets_what_it_shows(reader: Reader) -> None:
    for step in steps():
        reader.follow(step)

    assert (reader.ran, reader.edited, reader.replaced) == (10, 12, None)


def test_a_plan_takes_three_commands_once_the_pack_is_there() -> None:
    scripts = [step.content.splitlines() for step in steps() if step.language == "sh"]

    assert [len(script) for script in scripts[:2]] == [1, 3]
    assert scripts[1][0].startswith("barwright lint ")
    assert scripts[1][1].startswith("pip install ")
    assert scripts[1][2].startswith("barwright reindex ")

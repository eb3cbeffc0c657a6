"""Someone who does what the page on writing a pack says, in an empty folder."""

from __future__ import annotations

import importlib.metadata
import os
import re
import subprocess
import sysconfig
import venv
from collections.abc import Iterator
from pathlib import Path

import attrs

from doc_pages import ROOT, fenced, read, shown_as
from warm_command import folder_of_the_command

__all__ = ["PAGE", "PageStep", "Reader", "reader_in", "steps"]

# The pip of a new environment asks nobody: what is needed besides comes from the environment of
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

# Nor has an author the other plugins that pytest finds in this run's environment.
PLUGINS = [one.name for one in importlib.metadata.entry_points(group="pytest11")]
WITHOUT_PLUGINS = " ".join(f"-p no:{name}" for name in PLUGINS if name != "barwright")

PROGRAM = """#!/bin/sh
exec {python} -m {name} "$@"
"""

PAGE = read("write-a-pack.md")
"""The page as it is."""


@attrs.frozen
class PageStep:
    """A block of the page, with the sentence above it."""

    language: str
    content: str
    above: str

    @property
    def file(self) -> str:
        """The last file that the sentence names."""
        return str(re.findall(r"`((?:moor|scuttock|brindlow|fenny)/[^`]+\.toml)`", self.above)[-1])


def steps() -> Iterator[PageStep]:
    """Every block of the page, in order."""
    parts = re.split(r"^```\w+\n.*?^```$", PAGE, flags=re.MULTILINE | re.DOTALL)
    for (language, content), above in zip(fenced(PAGE), parts, strict=False):
        yield PageStep(language, content, above.strip().rpartition("\n\n")[2])


@attrs.define
class Reader:
    """Someone who does what the page says."""

    folder: Path
    environment: dict[str, str]
    printed: str = ""
    replaced: PageStep | None = None
    ran: int = 0
    edited: int = 0

    def follow(self, step: PageStep) -> None:
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

    def edit(self, step: PageStep) -> None:
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
            assert path.exists() == step.above.startswith("Replace the ")
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


def reader_in(folder: Path) -> Reader:
    """Someone with an empty folder, and with an environment that has the library and its packs."""
    programs = _programs(folder / "new")
    (folder / "work").mkdir()
    path = os.pathsep.join([str(programs), os.environ["PATH"]])
    # The tests of the pack are run as its author runs them, without this run's settings: what
    # pytest has made of the library's modules is kept for the next time.
    left_out = ("PYTEST", "COV_", "PYTHONDONTWRITEBYTECODE", "PYTHONPATH", "PIP_")
    inherited = {k: v for k, v in os.environ.items() if not k.startswith(left_out)}
    own = {
        "COLUMNS": "110",
        "PATH": path,
        "PYTEST_ADDOPTS": WITHOUT_PLUGINS,
    }
    new = Reader(ROOT, inherited | OFFLINE | own)
    new.run("pip install '.[cli]' ./plugins/*")
    new.run("barwright --version")
    warm = folder_of_the_command(str(programs / "python"))
    path = os.pathsep.join([str(warm), path])
    return Reader(folder / "work", new.environment | {"PATH": path})


def _programs(folder: Path) -> Path:
    """Programs of a new environment with what the library stands on, and this one's own pip."""
    venv.create(folder, with_pip=False)
    where = {"base": str(folder), "platbase": str(folder)}
    site, programs = (
        Path(sysconfig.get_path(name, "venv", where)) for name in ("purelib", "scripts")
    )
    here = sysconfig.get_path("purelib")
    (site / "here.pth").write_text(f"import site; site.addsitedir({here!r})\n", encoding="utf-8")
    for name in ("pip", "pytest"):
        program = programs / name
        program.write_text(PROGRAM.format(python=programs / "python", name=name), encoding="utf-8")
        program.chmod(0o755)
    return programs

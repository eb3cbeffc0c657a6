"""The pages of the documentation as tests read them."""

from __future__ import annotations

import contextlib
import io
import os
import re
import shlex
import subprocess
import sysconfig
from collections.abc import Iterator
from pathlib import Path

from barwright.cli.command import run
from warm_command import folder_of_the_command

__all__ = ["DOCS", "ROOT", "fenced", "output", "quoted", "read", "scripts", "shell", "shown_as"]

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"


def read(name: str) -> str:
    """Text of a page."""
    return (DOCS / name).read_text(encoding="utf-8")


def fenced(page: str) -> Iterator[tuple[str, str]]:
    """Language and content of every fenced block, in order."""
    for match in re.finditer(r"^```(\w+)\n(.*?)^```$", page, re.MULTILINE | re.DOTALL):
        yield match[1], match[2]


def shown_as(expected: str) -> re.Pattern[str]:
    """Match output that a page shows; a line `…` is any lines, `…` in a line any text."""
    lines = [
        r"(?:.*\n)*?" if line == "…" else re.escape(line).replace("…", ".*") + r"[ ]*\n"
        for line in expected.splitlines()
    ]
    return re.compile("".join(lines))


def output(command: str) -> list[str]:
    """Lines that a command of a page prints, as into a pipe."""
    program, *arguments = shlex.split(command)
    assert program == "barwright"
    printed = io.StringIO()
    with contextlib.chdir(ROOT), contextlib.redirect_stdout(printed):
        assert run(arguments) in {0, 1}  # a no is an answer too
    return printed.getvalue().splitlines()


def quoted(page: str) -> dict[str, list[list[str]]]:
    """Excerpts of output in a page, by the command above them."""
    found: dict[str, list[list[str]]] = {}
    command = ""
    for language, content in fenced(read(page)):
        if language == "sh":
            command = content.strip()
            found[command] = []
        elif language == "text":
            found[command].append(content.splitlines())
    return found


def shell(script: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a script with barwright on the path; both streams in one, as on a screen."""
    programs = [str(folder_of_the_command()), sysconfig.get_path("scripts"), os.environ["PATH"]]
    path = os.pathsep.join(programs)
    return subprocess.run(
        ["sh", "-c", script],
        cwd=folder,
        env=os.environ | {"PATH": path, "COLUMNS": "110"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )


def scripts(page: str) -> list[tuple[str, str]]:
    """Every script of a page with the output that is shown below it."""
    found: list[tuple[str, str]] = []
    for language, content in fenced(read(page)):
        if language == "sh":
            found.append((content, ""))
        elif language == "text":
            found[-1] = (found[-1][0], content)
    return found

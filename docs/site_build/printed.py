"""The directive ``printed``: a command of this project, and what it prints in this build."""

from __future__ import annotations

import contextlib
import io
import os
import shlex
from pathlib import Path
from typing import ClassVar
from unittest.mock import patch

from docutils import nodes
from docutils.parsers.rst import directives
from sphinx.application import Sphinx
from sphinx.util.docutils import SphinxDirective

from barwright.cli.command import run

__all__ = ["printed", "setup"]

ROOT = Path(__file__).parents[2]
_WIDTH = "110"  # what a code block of the site shows without scrolling
_FINE_OR_NO = 1  # a no is an answer too


def printed(command: str, *, worst: int = _FINE_OR_NO) -> list[str]:
    """Lines that a command prints, run at the root, unless its exit code is above the worst."""
    _, *arguments = shlex.split(command)
    out = io.StringIO()
    wide = patch.dict(os.environ, COLUMNS=_WIDTH)
    with contextlib.chdir(ROOT), contextlib.redirect_stdout(out), wide:
        code = run(arguments)
    if code > worst:
        message = f"exit code {code}: {command}"
        raise ValueError(message)
    return [line.rstrip() for line in out.getvalue().splitlines()]


class _Printed(SphinxDirective):
    """``:lines:`` keeps that many, with a line `…` in place of the rest; ``:worst:`` exit code."""

    required_arguments = 1
    final_argument_whitespace = True
    option_spec: ClassVar = {"lines": directives.positive_int, "worst": directives.positive_int}

    def run(self) -> list[nodes.Node]:
        command = self.arguments[0]
        lines = printed(command, worst=self.options.get("worst", _FINE_OR_NO))
        kept: int = self.options.get("lines", len(lines))
        if kept < len(lines):
            lines = [*lines[:kept], "…"]
        shown = "\n".join(lines)
        return [
            nodes.literal_block(command, command, language="sh"),
            nodes.literal_block(shown, shown, language="text"),
        ]


def setup(app: Sphinx) -> dict[str, bool]:
    """Add the directive."""
    app.add_directive("printed", _Printed)
    return {"parallel_read_safe": True, "parallel_write_safe": True}

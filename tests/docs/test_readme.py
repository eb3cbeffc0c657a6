"""The README names every command, and its examples in Python run."""

from __future__ import annotations

import re

from sybil import Sybil
from sybil.parsers.markdown import PythonCodeBlockParser

from barwright.cli import command
from doc_pages import ROOT

README = ROOT / "README.md"


def test_the_readme_lists_every_command_once() -> None:
    listed = re.findall(r"^barwright ([a-z-]+).* # ", README.read_text("utf-8"), re.MULTILINE)

    assert sorted(listed) == sorted(command._ROOM_OF)  # noqa: SLF001 - the list that help prints


def test_the_examples_of_the_readme_run() -> None:
    document = Sybil(parsers=[PythonCodeBlockParser()]).parse(README)
    examples = list(document.examples())

    assert examples
    for example in examples:
        example.evaluate()

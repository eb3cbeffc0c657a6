"""The README's examples in Python run."""

from __future__ import annotations

from sybil import Sybil
from sybil.parsers.markdown import PythonCodeBlockParser

from doc_pages import ROOT


def test_the_examples_of_the_readme_run() -> None:
    document = Sybil(parsers=[PythonCodeBlockParser()]).parse(ROOT / "README.md")
    examples = list(document.examples())

    assert examples
    for example in examples:
        example.evaluate()

"""Runs the Python examples of the Markdown pages, and keeps all tests out of the user's cache."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

import pytest
from sybil import Sybil
from sybil.parsers.markdown import PythonCodeBlockParser, SkipParser

pytest_plugins = ["pytester"]

pytest_collect_file = Sybil(
    parsers=[PythonCodeBlockParser(), SkipParser()], patterns=["*.md"]
).pytest()

# Programs that tests start have the folder too.
os.environ["BARWRIGHT_CACHE"] = tempfile.mkdtemp(prefix="barwright-tests-")
atexit.register(shutil.rmtree, os.environ["BARWRIGHT_CACHE"], ignore_errors=True)


@pytest.fixture(scope="session", autouse=True)
def _own_options() -> None:
    """Keep the options of this run from the programs that its tests start."""
    os.environ.pop("PYTEST_ADDOPTS", None)

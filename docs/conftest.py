"""Runs the Python examples of the pages, out of the user's cache."""

from __future__ import annotations

from sybil import Sybil
from sybil.parsers.markdown import PythonCodeBlockParser, SkipParser

import own_cache  # noqa: F401 - importing it is what counts

# What builds the site has no examples, and asks for packages that tests do without.
collect_ignore = ["conf.py", "site_build"]

pytest_collect_file = Sybil(
    parsers=[PythonCodeBlockParser(), SkipParser()], patterns=["*.md"]
).pytest()

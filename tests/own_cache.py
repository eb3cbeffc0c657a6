"""Keeps a run of the tests out of the user's cache, once it is imported."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

__all__: list[str] = []

# Programs that tests start have the folder too.
os.environ["BARWRIGHT_CACHE"] = tempfile.mkdtemp(prefix="barwright-tests-")
atexit.register(shutil.rmtree, os.environ["BARWRIGHT_CACHE"], ignore_errors=True)

"""Settings that all tests share."""

from __future__ import annotations

import os

import pytest

import draws  # noqa: F401 - importing it is what loads the profile
import own_cache  # noqa: F401 - importing it is what counts


@pytest.fixture(scope="session", autouse=True)
def _own_options() -> None:
    """Keep the options of this run from the programs that its tests start."""
    os.environ.pop("PYTEST_ADDOPTS", None)

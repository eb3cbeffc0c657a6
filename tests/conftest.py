"""Settings that all tests share."""

from __future__ import annotations

import gc
import os
from collections.abc import Generator

import pytest

import draws  # noqa: F401 - importing it is what loads the profile
import own_cache  # noqa: F401 - importing it is what counts


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """Look for no garbage among thousands of tests, all of which stay."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.enable()


@pytest.fixture(scope="session", autouse=True)
def _own_options() -> None:
    """Keep the options of this run from the programs that its tests start."""
    os.environ.pop("PYTEST_ADDOPTS", None)

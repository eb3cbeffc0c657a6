"""Settings that all tests share."""

from __future__ import annotations

import gc
import os
from collections.abc import Generator
from typing import Any

import pytest

import draws  # noqa: F401 - importing it is what loads the profile
import one_thread  # noqa: F401 - importing it is what counts
import own_cache  # noqa: F401 - importing it is what counts
from barwright.registry import unchanged


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """Look for no garbage among thousands of tests, all of which stay, and seldom after."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.set_threshold(50_000, 20, 20)
        gc.enable()


@pytest.hookimpl(wrapper=True)
def pytest_collect_file() -> Generator[None, list[Any], list[Any]]:
    """Look for no examples in docstrings of tests: there are none, and to look takes seconds."""
    collected = yield
    return [one for one in collected if type(one) is pytest.Module]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the files that take longest, so that all workers end at about the same time."""
    slow, rare = (
        {item.path for item in items if item.get_closest_marker(mark)} for mark in ("slow", "rare")
    )
    items.sort(key=lambda item: (item.path not in slow, item.path not in rare))


@pytest.fixture(scope="module", autouse=True)
def _nothing_opened_before() -> None:
    """Give the tests of a file no registry that those of another one opened."""
    unchanged._latest = None  # noqa: SLF001


@pytest.fixture(scope="session", autouse=True)
def _own_options() -> None:
    """Keep what this run was given from its tests and from the programs that they start."""
    os.environ.pop("PYTEST_ADDOPTS", None)
    os.environ.pop("COLUMNS", None)

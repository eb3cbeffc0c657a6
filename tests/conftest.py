"""Settings that all tests share."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

import own_cache  # noqa: F401 - importing it is what counts

# How long things take is for the benchmarks: a loaded machine must not fail a test. A run draws
# what the run before drew, so that a change that fails is to blame for it; "long" draws anew, and
# ten times as often where a test does not say how often: HYPOTHESIS_PROFILE=long pytest.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.register_profile("long", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))


@pytest.fixture(scope="session", autouse=True)
def _own_options() -> None:
    """Keep the options of this run from the programs that its tests start."""
    os.environ.pop("PYTEST_ADDOPTS", None)

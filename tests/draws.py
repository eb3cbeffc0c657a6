"""How often a property is tried: few times in the usual run, very often before a release."""

from __future__ import annotations

import os

from hypothesis import settings

__all__ = ["draws"]

# How long things take is for the benchmarks: a loaded machine must not fail a test. A run draws
# what the run before drew, so that a change that fails is to blame for it; "long" draws anew.
settings.register_profile("quick", deadline=None, derandomize=True, max_examples=10)
settings.register_profile("brief", deadline=None, derandomize=True, max_examples=25)
settings.register_profile("steady", deadline=None, derandomize=True, max_examples=100)
settings.register_profile("long", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))


def draws(number: int) -> int:
    """Draws of a test that takes so many in a steady run."""
    profile: int = settings().max_examples
    fewest = min(number, profile * 2 // 5)
    return max(fewest, number * profile // 100)

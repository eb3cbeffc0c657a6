"""Settings that all tests share."""

from __future__ import annotations

from hypothesis import settings

# A loaded machine must not fail a test; how long things take is for the benchmarks.
settings.register_profile("steady", deadline=None)
settings.load_profile("steady")

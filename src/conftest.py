"""Keeps the examples of docstrings out of the user's cache."""

from __future__ import annotations

import own_cache  # noqa: F401 - importing it is what counts

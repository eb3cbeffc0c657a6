"""The corner of the setup that is asked about: one for all questions in a row."""

from __future__ import annotations

from barwright.analysis.corner.corner import Corner
from barwright.parts.setup import Setup

__all__ = ["corner_of"]

_latest: Corner | None = None


def corner_of(setup: Setup) -> Corner:
    """Return the corner of a setup, the very same one for questions that follow each other.

    Parameters
    ----------
    setup : Setup
        The corner's records, which nothing can change.

    Returns
    -------
    Corner
        Only the latest one is kept.
    """
    global _latest  # noqa: PLW0603 - of threads that come at once, each has a corner of its own
    corner = _latest
    if corner is None or corner.setup is not setup:
        corner = _latest = Corner(setup)
    return corner

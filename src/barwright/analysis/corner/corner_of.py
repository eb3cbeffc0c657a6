"""The corner of the setup that is asked about: one for all questions in a row."""

from __future__ import annotations

from barwright.analysis.corner.corner import Corner
from barwright.parts.setup import Setup

__all__ = ["corner_of"]

_recent: tuple[Corner, ...] = ()


def corner_of(setup: Setup) -> Corner:
    """Return the corner of a setup, the very same one for questions that follow each other.

    Parameters
    ----------
    setup : Setup
        The corner's records, which nothing can change.

    Returns
    -------
    Corner
        Only the latest two are kept: a corner as it is to be, and as it is now. Another one
        takes over from them what is the same there, as both sides of an axle mostly are.
    """
    global _recent  # noqa: PLW0603 - of threads that come at once, each has a corner of its own
    recent = _recent
    for corner in recent:
        if corner.setup is setup:
            return corner
    corner = Corner(setup)
    for other in recent:
        corner.take_over(other)
    _recent = (*recent[-1:], corner)
    return corner

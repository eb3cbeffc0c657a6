"""Corners named in short."""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["names_of"]


def names_of(corners: Iterable[str]) -> str:
    """Name corners in short.

    Parameters
    ----------
    corners : iterable of str
        Axle and side of each.

    Returns
    -------
    str

    Examples
    --------
    >>> names_of(["front left", "front right", "rear left"])
    'Front left and right, rear left'
    """
    axles: dict[str, list[str]] = {}
    for corner in corners:
        axle, side = corner.split()
        axles.setdefault(axle, []).append(side)
    named = ", ".join(f"{axle} {' and '.join(sides)}" for axle, sides in axles.items())
    return named[0].upper() + named[1:]

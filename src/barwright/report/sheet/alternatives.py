"""What could be done instead of the plan that a bench sheet follows."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.report.sheet.sheet import BenchSheet

__all__ = ["ALTERNATIVES", "alternatives"]

ALTERNATIVES = "Alternatives: print one with --plan NUMBER or --plan SIDE=NUMBER"
"""Heading of the lines."""


def alternatives(sheet: BenchSheet) -> Iterator[str]:
    """Say in a line each what could be done instead.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.

    Yields
    ------
    str
        A plan with the corners that have it.
    """
    found: dict[tuple[int, str], list[str]] = {}
    for corner in sheet.corners:
        for number, plan in corner.other_plans:
            found.setdefault((number, plan.work), []).append(corner.corner)
    for (number, work), corners in found.items():
        yield f"plan {number}, {' and '.join(corners)}: {work}"

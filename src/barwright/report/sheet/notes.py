"""What must be known beside the answer, once for all corners that share it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from barwright.analysis.finding import Finding
from barwright.parts.setup import Setup
from barwright.report.sheet.corner_names import names_of
from barwright.report.sheet.steps.step import side_by_side

__all__ = ["notes", "superseded"]


def notes(corners: Sequence[tuple[str, Iterable[Finding]]]) -> Iterator[str]:
    """Say what was found, with the figures of the corners beside each other.

    Parameters
    ----------
    corners : sequence of (str, iterable of Finding)
        Name and findings of each corner.

    Yields
    ------
    str
    """
    alike: dict[str, dict[str, str]] = {}
    for corner, findings in corners:
        for finding in findings:
            alike.setdefault(finding.what, {})[corner] = finding.found
    for what, found in alike.items():
        where = "" if len(found) == len(corners) else f"{names_of(found)}: "
        figures = f": {side_by_side(found)}" if any(found.values()) else ""
        line = f"{where}{what}{figures}"
        yield f"{line[0].upper()}{line[1:]}"


def superseded(setups: Iterable[Setup]) -> Iterator[str]:
    """Say which parts of some corners are superseded, each once, and by what.

    Parameters
    ----------
    setups : iterable of Setup
        The corners, with the parts that go on.

    Yields
    ------
    str
    """
    parts = (part for setup in setups for part in setup.parts.values())
    for part in {part.id: part for part in parts if part.replaced_by}.values():
        yield f"{part.title} ({part.id}) is superseded by {' or '.join(part.replaced_by)}"

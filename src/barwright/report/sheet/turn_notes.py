"""What must be known of a turn of the adjuster's nut, in words."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.adjusting.nut_rows import NutRow
from barwright.mechanics.corner.statics import Support

__all__ = ["turn_notes"]


def turn_notes(row: NutRow) -> Iterator[str]:
    """Say what a reader must know of a place of the nut.

    Parameters
    ----------
    row : NutRow
        The place.

    Yields
    ------
    str
    """
    if row.support is not Support.BAR:
        yield _HELD[row.support]
    if row.lever_unheld:
        yield "not safe: lever loose at droop"
    elif row.slack_at_droop:
        yield "bar slack at droop"
    if row.bolt_takes_set:
        yield "not safe: bolt too weak at bump"


_HELD = {
    Support.SPRINGS: "bar slack, other springs hold it",
    Support.DROOP: "on the droop stop",
    Support.BUMP: "on the bump stop",
}

"""A corner with some figures shifted, sharing what does not depend on them."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import whole
from barwright.analysis.tolerance.figures import (
    FigureShifter,
    HeldFigure,
    TolerancedFigure,
    figure_places,
    toleranced_figures_among,
)
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup

__all__ = ["ToleranceEnds", "tolerance_ends"]


@attrs.frozen(eq=False)
class ToleranceEnds:
    """A corner at both ends of every tolerance that its figures have.

    Parameters
    ----------
    ways : tuple of TolerancedFigure
        The figures with a tolerance.
    corners : tuple of Corner, each optional
        The corner with the first of them at its lower end, then at its upper end, and so on,
        and last the corner as it is; none where no such corner can be.
    """

    ways: tuple[TolerancedFigure, ...]
    corners: tuple[Corner | None, ...]

    @property
    def there(self) -> list[Corner]:
        """The corners that can exist, the nominal one last."""
        return [corner for corner in self.corners if corner is not None]


@once_a_corner(whole)
def tolerance_ends(corner: Corner) -> ToleranceEnds:
    """Return a corner at both ends of every tolerance.

    Parameters
    ----------
    corner : Corner
        The corner, whose bar lies in both sockets.

    Returns
    -------
    ToleranceEnds
    """
    places = figure_places(corner.setup)
    ways = toleranced_figures_among(places, {})
    mover = FigureShifter(corner.setup, filter(_is_read, places))
    _compute(corner)
    moved = (_shifted_corner(corner, mover, {way: side}) for way in ways for side in (-1.0, 1.0))
    return ToleranceEnds(ways, (*moved, corner))


def _is_read(place: HeldFigure) -> bool:
    """Whether a corner is computed from the figure at a place of its setup.

    Of the parts that the vehicle left the works with, only the arm's radius is: it belongs to
    the geometry of the chassis.
    """
    first, *rest = place.path.removeprefix("reading.setup.").split(".")
    return first != "chassis" and (
        first != "axle" or rest[0] not in ("left", "right") or rest[1:] == ["arm", "radius"]
    )


def _shifted_corner(
    corner: Corner, mover: FigureShifter[Setup], shares: dict[TolerancedFigure, float]
) -> Corner | None:
    """Return a corner with figures shifted; none if no such corner can exist."""
    try:
        neighbour = corner.beside(mover.moved(shares))
        if neighbour.torsional_rates is None or not neighbour.lever_closes:
            return None
        _compute(neighbour)
    except BarwrightError:
        return None
    return neighbour


def _compute(corner: Corner) -> None:
    """Compute what shifted corners share; refuse a corner that cannot exist."""
    _ = corner.linkage, corner.arch_height, corner.springs, corner.travel, corner.load
    _ = corner.keyed_angle, corner.lever_span, corner.setting_middle

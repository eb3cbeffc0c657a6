"""A corner with some figures shifted, sharing what does not depend on them."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side, whole
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import (
    TolerancedFigure,
    read_places,
    toleranced_figures_among,
)
from barwright.errors import BarwrightError

__all__ = ["ToleranceEnds", "anchorage_ends", "tolerance_ends"]


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


@once_a_corner(of_either_side)
def tolerance_ends(corner: Corner) -> ToleranceEnds:
    """Return a corner at both ends of every tolerance.

    Parameters
    ----------
    corner : Corner
        The corner, whose bar lies in both sockets.

    Returns
    -------
    ToleranceEnds
        Of either side of the axle where both have the same figures: nobody may ask its corners
        for their side, teeth or nut.
    """
    return _ends(corner, _compute)


@once_a_corner(whole)
def anchorage_ends(corner: Corner) -> ToleranceEnds:
    """Return a corner at both ends of every tolerance, of which only the anchorage is known.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    ToleranceEnds
    """
    return _ends(corner, _compute_anchorage)


def _ends(corner: Corner, compute: Callable[[Corner], bool]) -> ToleranceEnds:
    """Move a corner, and keep those moved ones that can be computed."""
    places = read_places(corner.setup)
    ways = toleranced_figures_among(places, {})
    mover = FigureShifter(corner.setup, places)
    compute(corner)
    parts = corner.computed()

    def ends_of(way: TolerancedFigure) -> Iterator[Corner | None]:
        replaced = mover.replaced(way)
        for side in (-1.0, 1.0):
            try:
                end = Corner.shifted(mover.moved({way: side}), replaced=replaced, parts=parts)
                yield end if compute(end) else None
            except BarwrightError:
                yield None

    ends = (end for way in ways for end in ends_of(way))
    # A corner that kept itself among its ends would be freed by the garbage collector alone.
    as_it_is = Corner.shifted(corner.setup, replaced=frozenset(), parts=parts)
    return ToleranceEnds(ways, (*ends, as_it_is))


def _compute(corner: Corner) -> bool:
    """Compute what shifted corners share; false where the corner cannot be."""
    if corner.torsional_rates is None or not _compute_anchorage(corner):
        return False
    _ = corner.linkage, corner.arch_height, corner.springs, corner.travel, corner.load
    _ = corner.keyed_angle
    return True


def _compute_anchorage(corner: Corner) -> bool:
    """Compute what holds the anchor end; false where its lever does not reach its bolt."""
    if not corner.lever_closes:
        return False
    _ = corner.setting_middle, corner.lever_span
    return True

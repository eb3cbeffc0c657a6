"""`many`: rows of a thing, and its bounds."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np

from barwright.mechanics.common.interval import Interval
from barwright.mechanics.common.many import at_rows, bounds, bounds_inside
from linkages import STRUT


@attrs.frozen
class Thing:
    """A record with what a record may have."""

    figures: Any
    word: str = "word"
    kept: list[int] = attrs.field(factory=list, init=False)


FIGURES = np.array([3.0, 1.0, 2.0])


def test_rows_are_taken_of_every_array_and_of_nothing_else() -> None:
    thing = Thing((FIGURES, 7.0, Thing(FIGURES), np.array(5.0)))
    found = at_rows(thing, np.array([0, 2]))

    array, number, inner, single = found.figures
    assert array.tolist() == inner.figures.tolist() == [3.0, 2.0]
    assert (number, float(single), found.word) == (7.0, 5.0, "word")
    assert at_rows(thing, np.array([False, True, False])).figures[0].tolist() == [1.0]


def test_what_all_rows_have_in_common_is_the_very_same() -> None:
    assert at_rows(STRUT, np.array([0])) is STRUT
    assert bounds_inside(STRUT) is STRUT


def test_bounds_hold_all_rows() -> None:
    found = bounds_inside(Thing(FIGURES)).figures

    assert isinstance(found, Interval)
    assert (float(found.low), float(found.high)) == (1.0, 3.0)
    assert bounds(4.0) == 4.0

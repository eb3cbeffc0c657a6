"""A curve over the adjuster's thread as a piece of text."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import attrs

from barwright.first_use import FIRST_USE
from barwright.report.text.layout.grids import Line
from barwright.report.text.layout.tables import Block, Note, heading
from barwright.units import shown, unit_spelling

if TYPE_CHECKING:
    from barwright.report.drawing.nut_curve import NutCurveView

__all__ = ["NutChart"]


@attrs.frozen
class NutChart(Block):
    """A curve over the thread, drawn in characters where the width has room for it.

    Parameters
    ----------
    title : str
        Above it.
    view : NutCurveView
        The curve.
    set_here : str
        What the place is called where the nut is set.
    """

    title: str
    view: NutCurveView
    set_here: str

    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay it out; nothing where the width has no room for it."""
        if width < _LEAST:
            return
        yield from heading(self.title).lines(width, ascii_only=ascii_only)
        for words in self.legend:
            yield from Note(words).lines(width, ascii_only=ascii_only)
        with FIRST_USE:
            from barwright.report.chart import nut_chart  # noqa: PLC0415 - few pages have a curve
        for line in nut_chart(self.view, width=min(width, _MOST)):
            yield ((line, ""),)
        yield from Note(self.below).lines(width, ascii_only=ascii_only)

    @property
    def legend(self) -> Iterator[str]:
        """Say what the signs are."""
        here = self.view.set_row
        unit = unit_spelling(here.height)
        yield f"scale at the left: hub to arch [{unit}]; at the right: droop to spare [{unit}]"
        yield (
            f"S: {self.set_here}, {shown(here.pin_distance, 1)}, {shown(here.height, 0)} hub to "
            f"arch, {shown(here.droop_left, 0)} of droop to spare"
        )
        with FIRST_USE:
            from barwright.report.drawing.nut_curve import unsafe_words  # noqa: PLC0415 - as below
        stretches = self.view.nut_curve.unsafe_stretches
        for words in dict.fromkeys(map(unsafe_words, stretches)):
            yield f"x: not safe, {words}"

    @property
    def below(self) -> str:
        """Say what the places are."""
        view = self.view
        unit = unit_spelling(view.set_row.pin_distance)
        datum = view.bolt_datum.value
        return f"{view.turned_part.value} at [{unit}], from the {datum}; higher to the right"


# Narrower, a curve says less than its table; wider, it says no more.
_LEAST, _MOST = 50, 80

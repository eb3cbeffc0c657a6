"""The picture of a family chart: bars down, wheelbases across, read in black and white."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import attrs

from barwright.computed_once import cached_property
from barwright.family.chart import FamilyChart
from barwright.family.chart_line import ChartLine, ChartWheelbase
from barwright.parts.common.arguments import checks_arguments
from barwright.report.drawing.svg import (
    GREY,
    HAIR,
    INK,
    PALE,
    SMALL,
    THIN,
    TITLE,
    WHITE,
    Drawing,
    text_width,
)
from barwright.report.family.words import NO_CELL, bars_of, cells_of, no_cell_means, offered_of
from barwright.units import shown

__all__ = ["family_svg"]

# As wide as what a page of A4 or Letter has between its margins.
_WIDTH = 186.0
_NAMES, _WIDEST = 56.0, 65.0
_TOP, _LEADING, _ROW, _FOOT = 10.0, 4.0, 7.6, 11.0
_PAD, _WORDS = 1.5, 19.0
_STRIP = 2.6

# What one page can show so that it is read.
_MOST_BARS, _MOST_WHEELBASES = 27, 5


@checks_arguments
def family_svg(chart: FamilyChart) -> str:
    """Draw a family chart: how much each bar changes the rate on each wheelbase.

    Parameters
    ----------
    chart : FamilyChart
        The chart.

    Returns
    -------
    str
        An SVG document in black, white and grey, as wide as a page between its margins; the
        same bytes for the same chart.

    Examples
    --------
    >>> from barwright.family.chart import family_chart
    >>> from barwright.registry.registry import Registry
    >>> family_svg(family_chart(Registry.demo(), "hodmule")).count(">standard<")
    3
    """
    return str(_Picture(chart).drawn())


@attrs.frozen(slots=False)
class _Picture:
    """A chart on its way to paper."""

    chart: FamilyChart

    @cached_property
    def _bars(self) -> Sequence[tuple[str, str]]:
        """Those that go on the wheelbases of the picture."""
        shown_on = {wheelbase.key for wheelbase in self._wheelbases}
        drawn = {line.pair.bar_id for line in self.chart.lines if line.key in shown_on}
        return [one for one in bars_of(self.chart).items() if one[0] in drawn][:_MOST_BARS]

    @cached_property
    def _wheelbases(self) -> Sequence[ChartWheelbase]:
        return self.chart.wheelbases[:_MOST_WHEELBASES]

    @cached_property
    def _column(self) -> float:
        """Width of a wheelbase."""
        return min(_WIDEST, (_WIDTH - _NAMES) / max(1, len(self._wheelbases)))

    @cached_property
    def _head(self) -> float:
        """Where the rows begin."""
        lines = max((len(self._heading(one)) for one in self._wheelbases), default=0)
        return _TOP + _LEADING * lines

    @cached_property
    def _bottom(self) -> float:
        return self._head + _ROW * len(self._bars)

    @cached_property
    def _cells(self) -> Callable[[ChartWheelbase, str], Sequence[ChartLine]]:
        return cells_of(self.chart)

    def drawn(self) -> Drawing:
        """Draw all of it."""
        title = f"Torsion bars: {self.chart.family or 'by vehicle'}"
        out = Drawing((_WIDTH, self._bottom + _FOOT), title=title, description=self.chart.headline)
        out.text((0.0, 4.6), title, size=TITLE, anchor="start", bold=True)
        for number, (bar, name) in enumerate(self._bars):
            self._draw_bar(out, bar, name, top=self._head + number * _ROW)
        for number, wheelbase in enumerate(self._wheelbases):
            self._draw_head(out, wheelbase, left=self._left(number))
        out.line((0.0, self._bottom), (_WIDTH, self._bottom), width=THIN)
        self._draw_legend(out)
        return out

    def _left(self, number: int) -> float:
        return _NAMES + number * self._column

    def _draw_head(self, out: Drawing, wheelbase: ChartWheelbase, *, left: float) -> None:
        """Say what a column is, and draw the line of its standard rate through all rows."""
        for line, words in enumerate(self._heading(wheelbase)):
            place = (left + _PAD, _TOP + _LEADING * line)
            out.text(place, words, anchor="start", size=SMALL, bold=line == 0)
        x = left + self._zero
        out.line((x, self._head), (x, self._bottom), width=HAIR, name="standard")
        out.line((left, 6.4), (left, self._bottom), width=HAIR, ink=GREY)

    def _heading(self, wheelbase: ChartWheelbase) -> list[str]:
        """Name a wheelbase, its height, and its rate with the standard bar."""
        height, rate = wheelbase.height, wheelbase.standard_rate
        return [
            *_broken(wheelbase.called, self._column - 2.0 * _PAD),
            *([] if height is None else [f"at {shown(height, 0)}"]),
            *([] if rate is None else [f"standard {shown(rate, 1)}"]),
        ]

    def _draw_bar(self, out: Drawing, bar: str, name: str, *, top: float) -> None:
        """Draw a row: the bar's name, then its cell on each wheelbase."""
        out.line((0.0, top), (_WIDTH, top), width=HAIR, ink=GREY)
        lines = _broken(name, _NAMES - _PAD)[:2]
        for number, words in enumerate(lines):
            middle = top + _ROW / 2.0 + 1.1 + (number - (len(lines) - 1) / 2.0) * 3.2
            out.text((0.0, middle), words, anchor="start", size=SMALL)
        for number, wheelbase in enumerate(self._wheelbases):
            left = self._left(number)
            cells = self._cells(wheelbase, bar)
            if not cells:
                out.text((left + _PAD, top + _ROW / 2.0 + 1.0), NO_CELL, anchor="start")
            for half, line in enumerate(cells):
                height = _ROW / len(cells)
                self._draw_cell(out, line, left=left, top=top + half * height, height=height)

    def _draw_cell(
        self, out: Drawing, line: ChartLine, *, left: float, top: float, height: float
    ) -> None:
        """Write the change, and draw it as a strip: black without changes, else outlined."""
        middle = top + height / 2.0
        if line.pair.is_standard:
            out.box((left, top), (left + self._column, top + height), fill=PALE, width=THIN)
        is_plain = line.is_without_changes
        words = offered_of(line)
        out.text((left + _PAD, middle + 1.0), words, anchor="start", size=SMALL, bold=is_plain)
        change = line.pair.wheel_rate_change or 0.0
        ends = sorted((left + self._zero, left + self._zero + change * self._scale))
        half = min(_STRIP, height - 1.0) / 2.0
        low, high = (ends[0], middle - half), (ends[1], middle + half)
        name = "without changes" if is_plain else "with changes"
        out.box(low, high, fill=INK if is_plain else WHITE, width=THIN, name=name)

    @cached_property
    def _span(self) -> tuple[float, float]:
        """Least and greatest change on the chart, in per cent; zero lies between."""
        changes = [line.pair.wheel_rate_change or 0.0 for line in self.chart.lines]
        return min(0.0, *changes, -1.0), max(0.0, *changes, 1.0)

    @cached_property
    def _scale(self) -> float:
        """Width of one per cent [mm]."""
        low, high = self._span
        return (self._column - _WORDS - 2.0 * _PAD) / (high - low)

    @cached_property
    def _zero(self) -> float:
        """How far to the right in a column the standard rate lies [mm]."""
        return _PAD + _WORDS - self._span[0] * self._scale

    def _draw_legend(self, out: Drawing) -> None:
        y = self._bottom + 4.4
        out.box((0.0, y - 2.2), (5.0, y), fill=INK, width=THIN)
        out.text((6.5, y), "goes in as it is", anchor="start")
        out.box((42.0, y - 2.2), (47.0, y), fill=WHITE, width=THIN)
        out.text((48.5, y), "* with changes", anchor="start")
        out.box((84.0, y - 2.2), (89.0, y), fill=PALE, width=THIN)
        out.text((90.5, y), "standard", anchor="start")
        out.text((124.0, y), f"{NO_CELL} {no_cell_means(self.chart)}", anchor="start")
        words = f"Change of the rate at the wheel. {self._left_out}"
        out.text((0.0, y + 4.6), words.strip(), anchor="start")

    @cached_property
    def _left_out(self) -> str:
        """Say how much of the chart the picture has no room for."""
        bars = len(bars_of(self.chart)) - len(self._bars)
        wheelbases = len(self.chart.wheelbases) - len(self._wheelbases)
        counts = {"bar": bars, "wheelbase": wheelbases}
        more = [f"{n} more {what}{'s' * (n > 1)}" for what, n in counts.items() if n]
        return f"No room for {' and '.join(more)}: choose by words." if more else ""


def _broken(words: str, width: float) -> list[str]:
    """Break a name into two lines where it is too long for one; the second is cut."""
    if text_width(words, SMALL) <= width:
        return [words]
    most = int(width / text_width("x", SMALL))
    first = words[: most + 1].rpartition(" ")[0] or words[:most]
    second = words[len(first) :].strip()
    return [first, second if len(second) <= most else f"{second[: most - 1]}…"]

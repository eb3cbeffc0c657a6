"""One end of a bar as its viewer sees it: teeth, blanks, the tooth to remove, the key."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterator, Sequence
from typing import TypeAlias

import attrs

from barwright.analysis.reindex.plan.plan import EndAction, ToothDatum
from barwright.analysis.reindex.plan.tooth_places import place_on_key
from barwright.report.drawing.bar_end_view import (
    BarEndView,
    datum_of,
    described,
    name_of,
    place_before,
    short_way,
    viewer,
    work_words,
)
from barwright.report.drawing.splined_end import Mark, SplinedEnd
from barwright.report.drawing.svg import (
    HAIR,
    SHEET_BODY,
    SHEET_SMALL,
    SHEET_TITLE,
    XY,
    Drawing,
    spread,
    text_width,
)
from barwright.units import LENGTH, is_unknown, si

__all__ = ["bar_end_svg", "is_narrow"]


def bar_end_svg(view: BarEndView) -> str:
    """Draw one end of a bar as its viewer sees it.

    Parameters
    ----------
    view : BarEndView
        The end.

    Returns
    -------
    str
        An SVG document, 92 mm wide; half as wide where its top alone is marked.
    """
    narrow = is_narrow(view)
    width = _NARROW if narrow else _WIDE
    out = Drawing(
        (width, _HEIGHT), title=name_of(view), description=described(view), small=SHEET_SMALL
    )
    end = _end_of(view, width / 2.0, _SMALL_RADIUS if narrow else _RADIUS)
    _write_title(out, view, narrow=narrow)
    end.outline(out, gaps=view.missing_teeth)
    _draw_count(out, view, end)
    places = _places(view)
    for found in places:
        _draw_place(out, end, found)
    _label(out, view, end, places)
    _write_task(out, view, narrow=narrow)
    return str(out)


_WIDE, _NARROW, _HEIGHT = 92.0, 44.0, 86.0
_TOP, _RADIUS, _SMALL_RADIUS = 26.7, 18.0, 15.5
# First of the lines below an end.
_CAPTION, _NARROW_CAPTION = 74.5, 63.5

# Of the root circle to the circle over the teeth where nobody has measured them: the drawing
# shows which tooth is meant, whatever their height.
_USUAL_ROOT = 0.94


def is_narrow(view: BarEndView) -> bool:
    """Tell whether nothing but the place at the top is marked on an end."""
    return len(_places(view)) == 1


def _end_of(view: BarEndView, middle: float, radius: float) -> SplinedEnd:
    """Lay the end out at true proportions, as far as they are known."""
    root = radius * _USUAL_ROOT
    if not (is_unknown(view.root_diameter) or is_unknown(view.major_diameter)):
        root = radius * si(view.root_diameter, LENGTH) / si(view.major_diameter, LENGTH)
    return SplinedEnd(centre=(middle, _TOP + radius), tip=radius, root=root, teeth=view.teeth)


def _write_title(out: Drawing, view: BarEndView, *, narrow: bool) -> None:
    """Write what it is above it; from where it is seen too, if there is room."""
    if narrow:
        for line, words in enumerate(_wrapped(name_of(view), 13)):
            out.text((_NARROW / 2.0, 5.0 + line * _LEADING), words, size=SHEET_BODY, bold=True)
        return
    out.text((_WIDE / 2.0, 5.0), name_of(view), size=SHEET_TITLE, bold=True)
    out.text((_WIDE / 2.0, 10.2), viewer(view.work))


def _write_task(out: Drawing, view: BarEndView, *, narrow: bool) -> None:
    """Write below it what is to be done."""
    task, counted_from = work_words(view.work)
    if narrow:
        below = [viewer(view.work).replace("toward", "to"), f"{task} {counted_from}"]
        lines = [line for words in below for line in _wrapped(words, 21)]
        out.lines((_NARROW / 2.0, _NARROW_CAPTION), lines)
        return
    out.lines((_WIDE / 2.0, _CAPTION), [task, *_wrapped(counted_from, 29)])


def _wrapped(words: str, letters: int) -> list[str]:
    return textwrap.wrap(words, letters, break_on_hyphens=False)


# -- The count ---------------------------------------------------------------------------


def _draw_count(out: Drawing, view: BarEndView, end: SplinedEnd) -> None:
    """Write numbers in the sense that the plan counts in, and an arrow that way."""
    if view.work.direction is None:
        return
    way = 1 if place_on_key(view.work) > 0 else -1
    radius = end.root - 5.8
    for count in _numbered(view, radius):
        bold = count == view.work.tooth
        x, y = end.at(way * count, radius=radius)
        size = SHEET_BODY if bold else SHEET_SMALL
        out.text((x, y + 1.3), str(count), size=size, bold=bold)
    top = math.tau / 4.0
    out.arc(end.centre, 6.0, start=top, end=top - 1.75 * way, name="counting")
    out.text((end.centre[0], end.centre[1] + 1.2), "count")


def _numbered(view: BarEndView, radius: float) -> list[int]:
    """Choose the places whose numbers have room, the plan's own first, then 1 and the fives."""
    half = view.teeth // 2
    wanted = [view.work.tooth, 1, *range(5, half + 1, 5)]
    apart = _APART / (math.tau * radius / view.teeth)
    chosen: list[int] = []
    for count in wanted:
        if all(abs(count - other) >= apart for other in chosen):
            chosen.append(count)
    return chosen


# Least distance of two numbers along their circle [mm].
_APART = 5.6


# -- Marks and labels --------------------------------------------------------------------


@attrs.frozen(kw_only=True)
class _Place:
    """What stands at one place of an end.

    Parameters
    ----------
    place : int
        Clockwise from what teeth are counted from, the short way round.
    tooth : Mark, optional
        What its tooth is, or is to become.
    keys : tuple of Mark
        What faces it, now and after.
    """

    place: int
    tooth: Mark | None
    keys: tuple[Mark, ...]


def _places(view: BarEndView) -> list[_Place]:
    """List every place at which something stands, that of the count's start first."""
    after = place_on_key(view.work)
    before = [] if view.key_before is None else [view.key_before]
    counted = (short_way(p, teeth=view.teeth) for p in (0, *view.missing_teeth, *before, after))
    return [
        _Place(place=place, tooth=_tooth(view, place), keys=_keys(view, place))
        for place in dict.fromkeys(counted)
    ]


def _tooth(view: BarEndView, place: int) -> Mark | None:
    if place == 0 and view.work.tooth_datum is ToothDatum.BLANK:
        return Mark.MAKERS
    if place in {short_way(gap, teeth=view.teeth) for gap in view.missing_teeth}:
        return Mark.EARLIER
    if place == short_way(place_on_key(view.work), teeth=view.teeth):
        worked_on = _WORKED_ON.get(view.work.action)
        # Where the tooth to count from is itself marked, it carries that mark already.
        if worked_on and (place or worked_on is Mark.CUT):
            return worked_on
    return None if place else Mark.DATUM


_WORKED_ON = {EndAction.REMOVE_TOOTH: Mark.CUT, EndAction.NO_KEY: Mark.PAINT}


def _keys(view: BarEndView, place: int) -> tuple[Mark, ...]:
    facing = ((Mark.KEY_BEFORE, view.key_before), (Mark.KEY_AFTER, place_on_key(view.work)))
    return tuple(
        mark if view.keyed else Mark.NO_KEY
        for mark, at in facing
        if at is not None and (at - place) % view.teeth == 0
    )


def _draw_place(out: Drawing, end: SplinedEnd, found: _Place) -> None:
    """Draw the marks of a place: what its tooth is, and outside the key."""
    if found.tooth:
        _draw_tooth(out, end, found.place, found.tooth)
    for mark in found.keys[-1:]:
        at = end.at(found.place, radius=end.tip + _KEY_OUT)
        mark.draw(out, at, angle=end.angle(found.place) + math.pi, name=mark.name.lower())


def _draw_tooth(out: Drawing, end: SplinedEnd, place: int, mark: Mark) -> None:
    """Put a blank's mark into its gap; blacken another tooth, with its mark inside."""
    radius = (end.root + end.tip) / 2.0
    if mark not in (Mark.MAKERS, Mark.EARLIER):
        radius = end.root - 2.1
    if mark in (Mark.CUT, Mark.PAINT):
        end.black_tooth(out, place, name=f"{mark.name.lower()}-tooth")
    mark.draw(out, end.at(place, radius=radius), name=mark.name.lower())


# From the tips to the middle of a key's mark [mm].
_KEY_OUT = 2.2

_Line: TypeAlias = tuple[Mark | None, str]
"""Words of a label, with the shape that they name before them."""


def _lines(view: BarEndView, found: _Place) -> list[_Line]:
    """Write what stands at a place."""
    lines: list[_Line] = []
    if found.tooth:
        lines += [(found.tooth, words) for words in _tooth_words(view, found.tooth)]
    if found.place and found.place == short_way(place_on_key(view.work), teeth=view.teeth):
        lines.append((None, f"tooth {view.work.tooth}"))
    if found.keys:
        lines += _with_shape(found.keys[-1], _key_words(view, found))
    return lines


def _with_shape(mark: Mark, words: Sequence[str]) -> Iterator[_Line]:
    return zip((mark, *[None] * len(words)), words, strict=False)


def _key_words(view: BarEndView, found: _Place) -> tuple[str, ...]:
    """Say when a key faces a place; beside the end, a line has room for a dozen letters."""
    is_painted = view.work.tooth_datum is ToothDatum.PRESENT and view.work.datum_angle is None
    what = "key" if view.keyed else "socket's paint" if is_painted else "key's place"
    when = "now" if found.place == place_before(view) else "after"
    stays = len(found.keys) > 1
    if found.place == 0:
        return (f"{what} now and after" if stays else f"{what} {when}",)
    if view.keyed:
        return ("key now", "and after") if stays else (f"key {when}",)
    place = "paint" if is_painted else "key place"
    return (place, "now, after" if stays else when)


def _tooth_words(view: BarEndView, mark: Mark) -> tuple[str, ...]:
    """Name what a tooth is, or is to become."""
    if mark is Mark.DATUM:
        return (datum_of(view.work).removeprefix("the "),)
    return _TOOTH_WORDS.get(mark, ())


# What is cut earlier is named once, below the end.
_TOOTH_WORDS = {Mark.MAKERS: ("maker's blank",), Mark.CUT: ("REMOVE",), Mark.PAINT: ("MARK",)}


def _label(out: Drawing, view: BarEndView, end: SplinedEnd, places: Sequence[_Place]) -> None:
    """Write the label of the place at the top over it, others at both sides, blanks below."""
    if any(found.tooth is Mark.EARLIER for found in places):
        line = (Mark.EARLIER, "blank cut earlier")
        _write(out, (end.centre[0] - _width(line) / 2.0, _LEGEND), line)
    for found in places:
        if found.place == 0:
            _label_top(out, end, _lines(view, found), has_key=bool(found.keys))
    for side in (-1, 1):
        labels = [(found.place, _lines(view, found)) for found in places if found.place * side > 0]
        _label_side(out, end, side, [pair for pair in labels if pair[1]])


def _label_top(out: Drawing, end: SplinedEnd, lines: Sequence[_Line], *, has_key: bool) -> None:
    x, bottom = end.centre[0], end.tip_top - 2.0 * _KEY_OUT - 2.2
    for index, line in enumerate(reversed(lines)):
        _write(out, (x - _width(line) / 2.0, bottom - index * _LEADING), line)
    tip = _KEY_OUT + 1.6 if has_key else 0.6
    out.line((x, bottom + 0.8), (x, end.tip_top - tip), width=HAIR)


def _label_side(
    out: Drawing, end: SplinedEnd, side: int, labels: Sequence[tuple[int, list[_Line]]]
) -> None:
    """Write labels in a column beside the end, none over another, with a line to each place."""
    labels = sorted(labels, key=lambda pair: end.at(pair[0], radius=end.tip)[1])
    wanted = [end.at(place, radius=end.tip)[1] for place, _ in labels]
    heights = [len(lines) * _LEADING + 1.2 for _, lines in labels]
    tops = spread(wanted, heights, low=_COLUMN[0], high=_COLUMN[1])
    left = _SIDE_LEFT if side < 0 else _SIDE_RIGHT
    for (place, lines), top, height in zip(labels, tops, heights, strict=True):
        for index, line in enumerate(lines):
            _write(out, (left, top + (index + 1) * _LEADING - 0.8), line)
        near = left + max(map(_width, lines)) + 0.8 if side < 0 else left - 0.8
        out.line(
            (near, top + height / 2.0), end.at(place, radius=end.tip + _KEY_OUT + 1.8), width=HAIR
        )


def _write(out: Drawing, at: XY, line: _Line) -> None:
    mark, words = line
    if mark:
        mark.draw(out, (at[0] + 1.5, at[1] - 1.0))
    out.text((at[0] + _INDENT, at[1]), words, anchor="start", bold=words.isupper())


def _width(line: _Line) -> float:
    return _INDENT + text_width(line[1], SHEET_SMALL)


_LEADING, _INDENT = 4.8, 4.0
_LEGEND = 69.6
_SIDE_LEFT, _SIDE_RIGHT, _COLUMN = 0.5, 68.0, (19.0, 70.0)

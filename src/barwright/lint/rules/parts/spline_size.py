"""A spline's diameters suit its tooth count and its module."""

from __future__ import annotations

import functools
import math
import re
import statistics
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import TypeAlias

import attrs

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.spline import BarEnd, Socket
from barwright.units import LENGTH, Quantity, shown, si

__all__ = ["RULE"]

_Spline: TypeAlias = BarEnd | Socket


@attrs.frozen
class _Size:
    """A diameter, and how many modules it usually lies beyond the pitch circle's, each way."""

    figure: str
    least: float
    most: float

    def beyond(self, teeth: int) -> tuple[float, float]:
        return teeth + self.least, teeth + self.most


@attrs.frozen
class _Standard:
    """Proportions of one kind of teeth."""

    major: _Size
    root: _Size
    minor: _Size

    def sizes(self, spline: _Spline) -> tuple[_Size, ...]:
        return (self.major, self.root) if isinstance(spline, BarEnd) else (self.minor,)


def _standard(major: float, root: float, minor: float) -> _Standard:
    """Leave room for clearances, worn teeth and what shops make of a standard."""
    return _Standard(
        _Size("major_diameter", major - 0.5, major + 0.25),
        _Size("root_diameter", root - 0.55, root + 0.4),
        _Size("minor_diameter", minor - 0.4, minor + 0.6),
    )


_BY_ANGLE: Mapping[str, _Standard] = {
    "30": _standard(1.0, -1.5, -1.0),
    "37.5": _standard(0.9, -1.4, -0.9),
    "45": _standard(0.8, -1.2, -0.8),
}
"""Diameters less the pitch circle's, in modules: ISO 4156 and ANSI B92.1 (from memory)."""

_SHIFTED = _Standard(
    _Size("major_diameter", 0.6, 2.0),
    _Size("root_diameter", -1.9, 0.1),
    _Size("minor_diameter", -1.4, 0.3),
)
"""The same of DIN 5480, whose teeth are shifted by -0.05 to 0.45 modules (from memory)."""

_ANY_ANGLE = _Standard(
    _Size("major_diameter", 0.3, 1.25),
    _Size("root_diameter", -2.05, -0.8),
    _Size("minor_diameter", -1.4, -0.2),
)

_NUMBER = r"(\d+(?:[.,]\d+)?)"
_MODULE = re.compile(rf"\b(?:module|modul|mod\.?|m)\s*=?\s*{_NUMBER}", re.IGNORECASE)
_DESIGNATION = re.compile(rf"{_NUMBER}\s*[x×]\s*{_NUMBER}\s*[x×]\s*\d+", re.IGNORECASE)
_PITCH = re.compile(r"\b(\d+)/(\d+)\b")
_ANGLE = re.compile(r"\b(30|37[.,]5|45)\s*(?:deg|°)", re.IGNORECASE)

# Serrations and splines of an unnamed size: how far the pitches of one form may differ, in
# teeth of the larger.
_FURTHEST = 0.6

# Depth of a tooth, in pitches of a circle.
_DEPTH = (0.2, 1.0)


def _remarks(subject: Subject) -> Iterator[Remark]:
    splines = [
        (place, piece) for place, piece in subject.pieces if isinstance(piece, BarEnd | Socket)
    ]
    yield from said_where_known(splines, _against_module)
    yield from _against_others(splines)


def _against_module(placed: tuple[PackPlace, _Spline]) -> Iterator[Remark]:
    """Hold diameters against the module that the form names."""
    place, spline = placed
    module = _module(spline.form)
    if module is None:
        return
    teeth = int(spline.teeth)
    wrong = [
        size for size in _proportions(spline.form).sizes(spline) if _misses(spline, size, module)
    ]
    if wrong:
        yield _misfit(place, spline, wrong, module, teeth)


def _misfit(
    place: PackPlace, spline: _Spline, wrong: list[_Size], module: float, teeth: int
) -> Remark:
    found = " and ".join(f"{size.figure} {shown(_of(spline, size))}" for size in wrong)
    usual = " and ".join(_usual(size, module, teeth) for size in wrong)
    message = f"{found} do not suit {teeth} teeth of module {module:g} mm, which have {usual}"
    if len(wrong) < len(_proportions(spline.form).sizes(spline)):
        return Remark(place.within(wrong[0].figure), message.replace(" do not", " does not"))
    counted = _counted(spline, wrong, module)
    return Remark(
        place.within("teeth"),
        message if len(wrong) > 1 else message.replace(" do not", " does not"),
        f"count teeth again ({counted} would suit) and measure {wrong[0].figure} and the module "
        "in form; socket and bar end must be corrected together",
    )


def _usual(size: _Size, module: float, teeth: int) -> str:
    low, high = (module * times for times in size.beyond(teeth))
    return f"{low:.1f} mm to {high:.1f} mm"


def _counted(spline: _Spline, wrong: list[_Size], module: float) -> int:
    """Tooth count that the diameters would have."""
    size = wrong[0]
    middle = (size.least + size.most) / 2.0
    return round(_metres(_of(spline, size)) * 1000.0 / module - middle)


def _misses(spline: _Spline, size: _Size, module: float) -> bool:
    low, high = size.beyond(int(spline.teeth))
    return not low <= _metres(_of(spline, size)) * 1000.0 / module <= high


def _against_others(splines: Iterable[tuple[PackPlace, _Spline]]) -> Iterator[Remark]:
    """Hold bar ends of one form against one another, where the form names no module."""
    by_form: dict[str, list[tuple[PackPlace, BarEnd]]] = defaultdict(list)
    for place, spline in splines:
        if isinstance(spline, BarEnd) and _module(spline.form) is None:
            by_form[spline.form].append((place, spline))
    for ends in by_form.values():
        pitches = [pitch for _, end in ends for pitch in said_where_known([end], _pitch)]
        if pitches:
            middle = statistics.median_low(pitches)
            yield from said_where_known(ends, functools.partial(_off_others, middle=middle))


def _pitch(end: BarEnd) -> Iterator[float]:
    """Diameter [mm] that falls to one tooth."""
    yield 1000.0 * _metres(end.major_diameter) / (int(end.teeth) + 0.9)


def _off_others(placed: tuple[PackPlace, BarEnd], *, middle: float) -> Iterator[Remark]:
    place, end = placed
    (pitch,) = _pitch(end)
    if abs(pitch / middle - 1.0) * int(end.teeth) > _FURTHEST:
        message = (
            f"{int(end.teeth)} teeth with a major_diameter of {shown(end.major_diameter)} have "
            f"another pitch than other ends of form {end.form!r} ({pitch:.3f} mm of diameter a "
            f"tooth, not {middle:.3f} mm)"
        )
        yield Remark(place.within("teeth"), message, _NAME_BOTH)
    depth = 1000.0 * (_metres(end.major_diameter) - _metres(end.root_diameter)) / 2.0
    low, high = (share * math.pi * pitch for share in _DEPTH)
    if not low <= depth <= high:
        message = (
            f"teeth {depth:.2f} mm deep, by major_diameter {shown(end.major_diameter)} and "
            f"root_diameter {shown(end.root_diameter)}, do not suit {int(end.teeth)} teeth"
        )
        yield Remark(place.within("root_diameter"), message)


_NAME_BOTH = (
    "count teeth of both ends and of their sockets again, and measure major_diameter; if the "
    "ends do differ, name the module of each in form"
)


def _of(spline: _Spline, size: _Size) -> Quantity:
    value: Quantity = getattr(spline, size.figure)
    return value


def _metres(value: Quantity) -> float:
    return si(value, LENGTH)


def _module(form: str) -> float | None:
    """Return the module [mm] that a form names; none where it names none."""
    if found := _MODULE.search(form):
        return _number(found[1])
    if found := _DESIGNATION.search(form):
        return _number(found[2])
    if found := _PITCH.search(form):
        return 25.4 / _number(found[1])
    return None


def _proportions(form: str) -> _Standard:
    if "5480" in form:
        return _SHIFTED
    found = _ANGLE.search(form)
    return _BY_ANGLE[found[1].replace(",", ".")] if found else _ANY_ANGLE


def _number(text: str) -> float:
    return float(text.replace(",", "."))


RULE = Rule(
    name="spline-size",
    code="R209",
    severity=Severity.WARNING,
    wants="the diameters of a spline suit its tooth count and the module that its form names",
    tip="measure it again, count the teeth again, and compare the module in form",
    remarks=_remarks,
)

"""Where figures come from, for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from barwright.analysis.tolerance.unmeasured import UNSOURCED, UnmeasuredSource
from barwright.analysis.trail import Trail, TrailPart
from barwright.analysis.trail_facts import TrailFact, value_in_words
from barwright.analysis.trail_lines import TrailLine
from barwright.registry.overlays.preference import Preference
from barwright.report.safe_text import one_line
from barwright.report.sheet.sources import estimates
from barwright.report.text.layout.page import Page, Section, page_of
from barwright.report.text.layout.tables import Grid, Note, finding_lines, marked, table
from barwright.units import Quantity, quantity_of_unit, shown, unit_spelling

__all__ = ["rests_on_text", "trail_row", "trail_text"]

_DIGITS = 3
_MOST = 3


def rests_on_text(unmeasured: Iterable[UnmeasuredSource]) -> str:
    """Say in a line which sources of an answer nobody has measured or published.

    Parameters
    ----------
    unmeasured : iterable of UnmeasuredSource
        Those of all corners.

    Returns
    -------
    str
        Empty if there are none.

    Examples
    --------
    >>> rests_on_text([UnmeasuredSource(kind="invented", source="moor:sketch")])
    'Rests on invented figures: moor:sketch'
    """
    by_kind: dict[str, list[UnmeasuredSource]] = {}
    for one in unmeasured:
        by_kind.setdefault(one.kind, []).append(one)
    reported = [f"on {_figures(kind)}: {_named(found)}" for kind, found in by_kind.items()]
    return one_line(f"Rests {'; '.join(reported)}") if reported else ""


def _figures(kind: str) -> str:
    return "figures without a source" if kind == UNSOURCED else f"{kind} figures"


def _named(found: Iterable[UnmeasuredSource]) -> str:
    """Name sources of one kind: some of them, but all whose figures were assumed."""
    listed = list(found)
    estimated = estimates(listed)
    if estimated:
        return ", ".join(estimated)
    names = list(dict.fromkeys(_name(one.source) for one in listed))
    more = len(names) - _MOST
    return ", ".join(names[:_MOST]) + (f" and {more} more" if more > 0 else "")


def trail_text(answer: Trail) -> Page:
    """Show every figure and fact with its source, or what moves the figure that was asked for."""
    if answer.verdict.is_refusal and answer.value is None:
        return page_of(answer, findings=finding_lines("because", answer.further_findings))
    columns = ("moves it by", "source", "file") if answer.figure else ("source", "key")
    rows = table("figure", "value", *columns)
    for line in answer.lines:
        rows.add_row(*_cells(line, with_effect=bool(answer.figure)))
    facts = () if answer.figure or not answer.facts else (_facts(answer.facts),)
    told: tuple[TrailLine | TrailFact, ...] = (*answer.lines, *answer.facts)
    return page_of(
        answer,
        rows,
        *facts,
        Section("Parts", tuple(map(_part, answer.parts))),
        Section("Sources", tuple(_sources(told))),
        findings=(
            *_asked_for(answer),
            *(marked("*", text) for text in map(_correction, told) if text),
            *(marked("*", text) for text in map(_preferred, answer.preferences)),
        ),
    )


def trail_row(answer: Trail) -> dict[str, str]:
    """Sum a corner up in a row: the figure, and what moves it most."""
    if not answer.figure:
        return {"figures": str(len(answer.lines)), "facts": str(len(answer.facts))}
    first = ", ".join(_name(line.figure) for line in answer.lines[:_MOST])
    return {_name(answer.figure): _value(answer), "moved most by": first}


def _value(answer: Trail) -> str:
    """Tell the figure, or what became of the wish without it."""
    if answer.value is not None:
        return shown(answer.value, _DIGITS)
    return answer.verdict.value if answer.verdict.is_refusal else ""


def _asked_for(answer: Trail) -> Iterator[Note]:
    if answer.value is not None:
        figure = f"{_name(answer.figure)} {shown(answer.value, _DIGITS)}"
        count = len(answer.lines)
        yield Note(f"{figure} is affected by {count} figure{'s' * (count != 1)}, to first order:")


def _cells(line: TrailLine, *, with_effect: bool) -> Iterator[str]:
    yield _name(line.figure)
    spread = f" ± {shown(line.tolerance)}" if line.tolerance else ""
    yield f"{shown(line.value)}{spread}" + (f" ({line.written})" if line.written else "")
    if with_effect:
        yield _effect(line)
    yield _place(line)
    yield line.file if with_effect or not line.file else f"{line.file}: {_stated(line)}"


def _stated(line: TrailLine | TrailFact) -> str:
    """Say where a figure stands, and for which record that is like the one there."""
    return f"{line.key} ({line.taken_by} is like it)" if line.taken_by else line.key


def _facts(facts: Iterable[TrailFact]) -> Grid:
    rows = table("fact", "value", "source", "key")
    for one in facts:
        rows.add_row(_name(one.fact), one.value, _place(one), f"{one.file}: {_stated(one)}")
    return rows


def _place(line: TrailLine | TrailFact) -> str:
    return f"{line.source}, {line.at}" if line.at else line.source


def _effect(line: TrailLine) -> str:
    if line.effect is None or line.step is None:
        return "not known"
    sign = "+" if line.effect.magnitude > 0 else ""
    return f"{sign}{_significant(line.effect)} for {_significant(line.step)}"


def _correction(line: TrailLine | TrailFact) -> str:
    """Say what an overlay has corrected; empty if nothing."""
    if line.replaces is None and not line.why:
        return ""
    was = "not given"
    if line.replaces is not None:
        was = f"{value_in_words(line.replaces.value)} by {line.replaces.source}"
    name = line.figure if isinstance(line, TrailLine) else line.fact
    return f"{_name(name)} was {was}; corrected: {line.why}"


def _part(part: TrailPart) -> Note:
    """Say what names a part: its pack's version, numbers, paint mark, what supersedes it."""
    version = f" (version {part.pack_version})" if part.pack_version else ""
    said = (
        *map(str, part.numbers),
        f"paint {part.paint}" if part.paint else "",
        f"replaces {', '.join(part.replaces)}" if part.replaces else "",
        f"superseded by {' or '.join(part.replaced_by)}" if part.replaced_by else "",
        *part.remarks,
    )
    return marked("", "; ".join(filter(None, (f"{part.place}: {part.id}{version}", *said))))


def _sources(lines: Iterable[TrailLine | TrailFact]) -> Iterator[Note]:
    """List the sources, each once, with what finds it again."""
    named = {line.source: line for line in lines if line.source_kind is not None}
    for source, line in sorted(named.items()):
        kind = line.source_kind.value if line.source_kind else ""
        yield marked("", f"{source}: {kind}" + (f"; {line.note}" if line.note else ""))


def _preferred(one: Preference) -> str:
    """Say which of several packs was taken, and who says so."""
    return f"{one.id}: the pack of {one.origin}, as {one.by} says"


def _significant(value: Quantity) -> str:
    """Write a figure with three digits."""
    return shown(quantity_of_unit(float(f"{value.magnitude:.3g}"), unit_spelling(value)))


def _name(figure: str) -> str:
    """Name of a figure for a reader; that of a source stays as it is."""
    return figure if ":" in figure else figure.replace("_", " ").replace(".", ": ")

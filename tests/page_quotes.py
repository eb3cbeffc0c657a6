"""Find anew what a page quotes of an output that has changed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from functools import cache

__all__ = ["LEFT_OUT", "excerpts_anew", "line_anew", "nearest", "shown_anew"]

LEFT_OUT = "…"
"""Mark of what a page leaves out: lines, or text within a line."""

_FIGURE = re.compile(r"(?<![\d.])\d+(?:\.\d+)?")
_TOO_LONG = 200
_COST_OF_A_GAP = 0.2
_LEAST_LIKE = 0.6
_MARKER = re.compile(r"\s*(?:[-*!]|\d+\.) ")
_FAR_IN = 8


def excerpts_anew(
    excerpts: Sequence[Sequence[str]], printed: Sequence[str], *, joined_up_to: int = 0
) -> list[list[str]]:
    """Excerpts of an output, in order, as that output reads now.

    An excerpt that nothing printed is like stays as it is. Lines that have come between two
    excerpts join the one before them, up to a place in what is printed.
    """
    spans = list(_with_hanging_lines(_spans(excerpts, printed), printed))
    spans = list(_up_to_the_next(spans, joined_up_to))
    return [
        list(excerpt) if span is None else _without_blank_ends(printed[span])
        for excerpt, span in zip(excerpts, spans, strict=True)
    ]


def shown_anew(shown: str, printed: Sequence[str]) -> str:
    """A whole output as a page shows it, with the same left out as before."""
    lines = [line.rstrip() for line in printed]
    parts = _split(shown.splitlines())
    spans = _spans(parts, lines)
    if parts[0]:
        spans[0] = slice(0, spans[0].stop if spans[0] else 0)
    if parts[-1]:
        spans[-1] = slice(spans[-1].start if spans[-1] else len(lines), len(lines))
    anew = [
        _left_out_as_before(part, lines[span]) if span and lines[span] else part
        for part, span in zip(parts, spans, strict=True)
    ]
    return "".join(f"{line}\n" for line in _joined(anew))


def line_anew(old: str, new: str) -> str | None:
    """A line as it reads now with the same left out of it as before, if only figures differ."""
    pieces = [_figures_open(piece) for piece in old.split(LEFT_OUT)]
    match = re.fullmatch(".*".join(f"({piece})" for piece in pieces), new)
    return LEFT_OUT.join(match.groups()) if match else None


def nearest(line: str, among: Sequence[str]) -> str:
    """The line that is most like another one, or that one if none is like it."""
    best = max(among, key=lambda one: _likeness(line, one), default=line)
    return best if _likeness(line, best) >= _LEAST_LIKE else line


# -- Which line is which -------------------------------------------------------------


def _spans(excerpts: Sequence[Sequence[str]], printed: Sequence[str]) -> list[slice | None]:
    """What of the printed lines each excerpt is, from its first line to its last.

    Lines at its ends that nothing is like are taken to have been replaced by as many.
    """
    spans: list[slice | None] = []
    begins = 0
    found = _places(excerpts, printed)
    for number, (excerpt, places) in enumerate(zip(excerpts, found, strict=True)):
        if not places:
            spans.append(None)
            continue
        ends = next((later[0][1] for later in found[number + 1 :] if later), len(printed))
        (first_row, first), (last_row, last) = places[0], places[-1]
        start = max(begins, first - first_row)
        begins = min(ends, last + len(excerpt) - last_row)
        spans.append(slice(start, begins))
    return spans


def _with_hanging_lines(
    spans: Sequence[slice | None], printed: Sequence[str]
) -> Iterator[slice | None]:
    """Let each span take in what its last line goes on with."""
    for number, span in enumerate(spans):
        end = _begins_next(spans, number, len(printed))
        yield span and slice(span.start, _hanging(printed, span.stop - 1, end))


def _up_to_the_next(spans: Sequence[slice | None], most: int) -> Iterator[slice | None]:
    """Let each span but the last end where the next one begins, or at a place before that."""
    for number, span in enumerate(spans):
        following = _begins_next(spans, number, 0)
        yield span and slice(span.start, max(span.stop, min(following, most)))


def _begins_next(spans: Sequence[slice | None], number: int, otherwise: int) -> int:
    following: Iterator[int] = (span.start for span in spans[number + 1 :] if span)
    return next(following, otherwise)


def _places(
    excerpts: Sequence[Sequence[str]], printed: Sequence[str]
) -> list[list[tuple[int, int]]]:
    """For each excerpt its lines that are found, each with its place in what is printed."""
    quoted = [
        (number, line_number, line)
        for number, lines in enumerate(excerpts)
        for line_number, line in enumerate(lines)
    ]
    costs = [_COST_OF_A_GAP if line_number else 0.0 for _, line_number, _ in quoted]
    best = _best_from([line for *_, line in quoted], printed, costs)
    places: list[list[tuple[int, int]]] = [[] for _ in excerpts]
    row = column = 0
    while row < len(quoted) and column < len(printed):
        number, line_number, line = quoted[row]
        likeness = _likeness(line, printed[column])
        if likeness and best[row][column] == likeness + best[row + 1][column + 1]:
            places[number].append((line_number, column))
            row, column = row + 1, column + 1
        elif best[row][column] == best[row][column + 1] - costs[row]:
            column += 1
        else:
            row += 1
    return places


def _best_from(
    quoted: Sequence[str], printed: Sequence[str], costs: Sequence[float]
) -> list[list[float]]:
    """Largest sum of likenesses of what follows, by the place in both.

    To pass over a printed line within an excerpt costs a little, so that one stays together.
    """
    best = [[0.0] * (len(printed) + 1) for _ in range(len(quoted) + 1)]
    for row in reversed(range(len(quoted))):
        for column in reversed(range(len(printed))):
            both = best[row + 1][column + 1] + _likeness(quoted[row], printed[column])
            passed = best[row][column + 1] - costs[row]
            best[row][column] = max(both, best[row + 1][column], passed)
    return best


@cache
def _likeness(quoted: str, printed: str) -> float:
    """How like two lines are, whatever their figures: up to 1, a little more for the same line."""
    if quoted == printed:
        return 1.2 if quoted.strip() else 0.1
    if LEFT_OUT in quoted and line_anew(quoted, printed):
        return 1.1
    words, others = _words(quoted), _words(printed)
    ratio = SequenceMatcher(None, words, others, autojunk=False).ratio()
    return ratio if ratio >= _LEAST_LIKE else 0.0


def _words(line: str) -> list[str]:
    return _FIGURE.sub("0", line).split()


# -- Pieces of an output -------------------------------------------------------------


def _hanging(printed: Sequence[str], last: int, end: int) -> int:
    """End of what a line goes on with: lines that hang below its text, or far in."""
    marker = _MARKER.match(printed[last])
    depth = marker.end() if marker else _indent(printed[last]) + _FAR_IN
    last += 1
    while last < end and printed[last].strip() and _indent(printed[last]) >= depth:
        last += 1
    return last


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def _without_blank_ends(lines: Sequence[str]) -> list[str]:
    kept = [place for place, line in enumerate(lines) if line.strip()]
    return list(lines[kept[0] : kept[-1] + 1]) if kept else []


def _split(lines: Sequence[str]) -> list[list[str]]:
    """Parts between marks of what is left out; an end that is left out is an empty part."""
    parts: list[list[str]] = [[]]
    for line in lines:
        if line == LEFT_OUT:
            parts.append([])
        else:
            parts[-1].append(line)
    return parts


def _joined(parts: Sequence[Sequence[str]]) -> Iterator[str]:
    for number, part in enumerate(parts):
        if number:
            yield LEFT_OUT
        yield from part


def _left_out_as_before(old: Sequence[str], new: Sequence[str]) -> list[str]:
    """Leave out of the new lines what was left out of the old ones."""
    return [_marked_as_one_of(old, line) for line in new]


def _marked_as_one_of(old: Sequence[str], line: str) -> str:
    """A line with text left out as in one of these; a very long one stays for a person to do."""
    marked = (line_anew(one, line) for one in old if LEFT_OUT in one)
    fitting = next(filter(None, marked), None)
    if fitting is None and len(line) > _TOO_LONG:
        closest = nearest(line, old)
        return closest if LEFT_OUT in closest else line
    return fitting or line


def _figures_open(piece: str) -> str:
    """Pattern of a piece of a line with any figures."""
    parts = _FIGURE.split(piece)
    return _FIGURE.pattern.join(map(re.escape, parts))

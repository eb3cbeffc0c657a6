"""The bench sheet in Markdown, for a wiki, an issue or a message."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from barwright.report.page.content import PageRow, PageStage, SheetPage
from barwright.report.page.turns import PageTurns

__all__ = ["escaped", "page_markdown"]

# What Markdown reads as more than itself: anywhere, before a letter, and where a text begins.
_ANYWHERE = re.compile(r"[\\`*_{}\[\]<>|~&$@^]|:(?=\S)|(?<=www)\.")
_AT_THE_BEGINNING = re.compile(r"^(\d*)(?:(?<=\d)(?=[.)](?:\s|$))|(?<!\d)(?=[#+=-]))")


def page_markdown(page: SheetPage) -> str:
    """Write a page in Markdown, without its drawings.

    Parameters
    ----------
    page : SheetPage
        The page.

    Returns
    -------
    str
    """
    return "\n".join(_lines(page))


def _lines(page: SheetPage) -> Iterator[str]:
    for headline in page.headlines:
        yield from (f"**{escaped(headline)}**", "")
    yield from (f"# {escaped(f'{page.title}: {page.vehicle}')}", "")
    for line in page.whose:
        yield from (escaped(line), "")
    yield from _listed((*page.notes, *page.cautions))
    yield from ("## Parts", "")
    yield from _listed(part.text for part in page.parts)
    if page.figures:
        yield from ("## Figures", "")
        yield from _table(page.corners, page.figures, "{}")
    for stage in page.stages:
        yield from _stage(stage)
    if page.measurements:
        yield from ("## Measure and note", "")
        yield from _table(page.corners, page.measurements, "expected {}")
    if page.turns:
        yield from (f"## {page.turns.title}", "")
        yield from _turns(page.turns)
    if page.alternatives:
        yield from (f"## {page.alternatives_heading}", "")
        yield from _listed(page.alternatives)
    if page.sources:
        yield from (f"Sources: {escaped(page.sources)}", "")


def _listed(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        yield f"- {escaped(text)}"
    yield ""


def _table(corners: Sequence[str], rows: Iterable[PageRow], value: str) -> Iterator[str]:
    yield f"| | {' | '.join(corners)} |"
    yield f"| --- {'| --- ' * len(corners)}|"
    for row in rows:
        texts = [cell.text for cell in row.cells]
        values = (escaped(value.format(text)) if text else "" for text in texts)
        yield f"| {escaped(row.what)} | {' | '.join(values)} |"
    yield ""


def _turns(turns: PageTurns) -> Iterator[str]:
    heads = [
        f"{name}, {corner}" if corner else name
        for name in turns.quantities
        for corner in turns.corners or ("",)
    ]
    yield f"| turn | {' | '.join(map(escaped, heads))} |"
    yield f"| --- {'| --- ' * len(heads)}|"
    for row in turns.rows:
        values = (escaped(value) for values in row.values for value in values)
        yield f"| {escaped(row.turns)} | {' | '.join(values)} |"
    yield ""
    yield from _listed(turns.notes)


def _stage(stage: PageStage) -> Iterator[str]:
    yield from (f"## {escaped(stage.title)}", "")
    for step in stage.steps:
        yield f"- [ ] {step.number}. {escaped(step.text)}"
        for letter, action in step.branch:
            yield f"  - [ ] {letter}) {escaped(action)}"
    yield ""


def escaped(text: str) -> str:
    r"""Put a backslash before what Markdown would read as more than itself.

    Examples
    --------
    >>> print(escaped("- <b>*a* | www.x"))
    \- \<b\>\*a\* \| www\.x
    """
    return _AT_THE_BEGINNING.sub(r"\1\\", _ANYWHERE.sub(r"\\\g<0>", text.strip()))

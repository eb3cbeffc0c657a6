"""Packs at a terminal: what each holds, and what is wrong."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from barwright.errors import PackError
from barwright.registry.packs.format.pack import KINDS, PackInfo
from barwright.registry.search.parts import SharedNumber
from barwright.report.text.layout.page import Page, Section
from barwright.report.text.layout.tables import Note, marked, table

__all__ = ["packs_text"]


def packs_text(
    packs: Sequence[PackInfo], problems: Sequence[PackError], shared: Sequence[SharedNumber]
) -> Page:
    """Show how many packs there are, what each holds, and what is wrong with any."""
    rows = table("pack", "version", "licence", "records", "sources", "from")
    for info in packs:
        rows.add_row(
            info.id,
            info.version or "none",
            info.header.licence,
            _counts(info),
            _sources(info),
            info.origin,
        )
    told = tuple(marked("!", line) for line in _problems(packs, problems, shared))
    left_out = f", {len(problems)} left out" if problems else ""
    return Page(
        headlines=(Note(f"{len(packs)} pack{'s' * (len(packs) != 1)}{left_out}."),),
        parts=(rows, *([Section("Problems", told)] if told else [])),
    )


def _counts(info: PackInfo) -> str:
    """Count the records by kind, in the order in which the kinds are documented."""
    return ", ".join(f"{info.counts[kind]} {kind}" for kind in KINDS if info.counts.get(kind))


def _sources(info: PackInfo) -> str:
    kinds = Counter(source.kind.value for source in info.header.source)
    return ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))


def _problems(
    packs: Sequence[PackInfo], problems: Sequence[PackError], shared: Sequence[SharedNumber]
) -> Iterator[str]:
    for error in problems:
        yield from (f"{error.file} is left out: {line}" for line in str(error).splitlines())
    for info in packs:
        if info.hidden_versions:
            yield f"{info.origin} counts; not {', '.join(info.hidden_versions)}, installed too"
    for one in shared:
        yield f"part number {one.number_system} {one.number} is that of {', '.join(one.ids)}"

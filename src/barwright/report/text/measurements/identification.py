"""Which bar a loose one may be, for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.identification.identification import Identification, PossibleBar, percent
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Block, Note, table
from barwright.units import Quantity, shown

__all__ = ["identification_text"]

_MOST_BARS = 6
_MOST_READINGS = 3


def identification_text(answer: Identification) -> Page:
    """Show which bars it may be, what disagrees, and what to measure next.

    Parameters
    ----------
    answer : Identification
        The answer.

    Returns
    -------
    Page
    """
    return page_of(
        answer, *_bars(answer), *_odd(answer), *_next(answer), *_assumed(answer), *_cautions(answer)
    )


def _bars(answer: Identification) -> Iterator[Block]:
    named = answer.possible_bars[:_MOST_BARS]
    on = ("standard on",) if any(map(_on, named)) else ()
    found = table("bar", "likely", "title", *on, title="What it may be")
    for bar in named:
        titles, where = ", or ".join(bar.bar_titles), (_on(bar),) if on else ()
        found.add_row(" or ".join(bar.bar_ids), percent(bar.probability), titles, *where)
    rest = answer.possible_bars[_MOST_BARS:]
    if rest:
        found.add_row(f"{len(rest)} more", percent(sum(bar.probability for bar in rest)))
    found.add_row("not listed", percent(answer.unlisted), "a bar that no pack lists")
    yield found
    arm_end = answer.possible_bars[0].arm_end if answer.possible_bars else None
    if arm_end is not None and answer.is_answered:
        yield Note(f"The {('first', 'second')[arm_end - 1]} end that you gave is its arm end.")


def _on(bar: PossibleBar) -> str:
    claimed = [f"{one} (said to fit)" for one in bar.claimed_for]
    return ", ".join((*bar.standard_on, *claimed))


def _odd(answer: Identification) -> Iterator[Block]:
    if not answer.disagreeing:
        return
    found = table("figure", "measured", "listed", title="What disagrees with the first")
    for one in answer.disagreeing:
        found.add_row(one.named, _figure(one.observed), _figure(one.listed))
    yield found


def _figure(value: Quantity | int) -> str:
    return str(value) if isinstance(value, int) else shown(value, 2)


def _next(answer: Identification) -> Iterator[Block]:
    if not answer.next_readings:
        return
    found = table("next", "with", "then sure", "how", title="What would decide")
    for one in answer.next_readings[:_MOST_READINGS]:
        found.add_row(one.asked, one.tool, percent(one.certainty), one.where)
    yield found


def _assumed(answer: Identification) -> Iterator[Block]:
    for one in answer.assumed:
        figures = ", ".join(one.named_figures)
        usual = f"± {shown(one.within, 2)}, usual for a {one.tool}"
        yield Note(f"No ± stated for the {figures}: taken as {usual}.")


def _cautions(answer: Identification) -> Iterator[Block]:
    yield from (Note(f"Caution: {caution.text}") for caution in answer.cautions)

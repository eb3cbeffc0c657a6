"""Questions to an index about words and times, as SQL."""

from __future__ import annotations

from collections.abc import Sequence

import attrs

from barwright.registry.packs.search_terms import Condition

__all__ = ["Query", "counting", "searching"]


@attrs.frozen
class Query:
    """A piece of SQL with the values for its question marks."""

    text: str
    values: tuple[object, ...] = ()

    def __add__(self, other: Query | str) -> Query:
        """Put one piece behind another."""
        more = Query(other) if isinstance(other, str) else other
        return Query(self.text + more.text, self.values + more.values)


def searching(conditions: Sequence[Condition], *, most: int) -> Query:
    """Ask for pack and short id of every vehicle that meets all conditions.

    Parameters
    ----------
    conditions : sequence of Condition
        At least one; the vehicles that meet the first are listed, and the others
        are looked up for each of them.
    most : int
        How many are wanted; all if negative.

    Returns
    -------
    Query
    """
    first, *others = conditions
    query = Query("SELECT record.pack, record.short FROM (") + _listing(first)
    query += ") AS found CROSS JOIN record ON record.number = found.record"
    for place, condition in enumerate(others):
        query += Query(" AND " if place else " WHERE ") + _testing(condition)
    return query + Query(" LIMIT ?", (most,))


def counting(condition: Condition, *, most: int) -> Query:
    """Ask how many vehicles meet a condition, at most so many."""
    return Query("SELECT count(*) FROM (") + _listing(condition) + Query(" LIMIT ?)", (most,))


def _listing(condition: Condition) -> Query:
    """Ask for the records that meet a condition."""
    return _joined(
        condition,
        word=Query("SELECT record FROM term WHERE ") + _has_word(condition),
        built=Query("SELECT record FROM built WHERE ") + _was_built(condition),
        by=" UNION ",
    )


def _testing(condition: Condition) -> Query:
    """Ask whether the record that was found meets a condition."""
    found = "EXISTS (SELECT 1 FROM {0} WHERE {0}.record = found.record AND "
    return (
        Query("(")
        + _joined(
            condition,
            word=Query(found.format("term")) + _has_word(condition) + ")",
            built=Query(found.format("built")) + _was_built(condition) + ")",
            by=" OR ",
        )
        + ")"
    )


def _joined(condition: Condition, *, word: Query, built: Query, by: str) -> Query:
    """Put together what a condition asks for."""
    if condition.months is None:
        return word
    return word + by + built if condition.word else built


def _has_word(condition: Condition) -> Query:
    query = Query("word = (SELECT number FROM word WHERE text = ?)", (condition.word,))
    if condition.attribute:
        query += Query(
            " AND attribute = (SELECT number FROM attribute WHERE text = ?)",
            (condition.attribute,),
        )
    return query


def _was_built(condition: Condition) -> Query:
    first, last = condition.months or (0, 0)
    return Query("first <= ? AND last >= ?", (last, first))

"""A person's description of a vehicle, as conditions."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import attrs

from barwright.errors import SchemaError, UnknownNameError
from barwright.parts.common.identity import Month, month
from barwright.registry.files.file_limits import LONGEST_TEXT
from barwright.registry.packs.search_terms import ANY_WORD, EVERYWHERE, Condition, spelled, words_of

__all__ = ["Clause", "Description", "describe"]

_ID = re.compile(r"[^\s:/]+:[^\s:/]+/[^\s:/]+|chassis/[^\s:/]+")
_MONTH = re.compile(Month.PATTERN)
_YEAR = re.compile(r"[1-9][0-9]{3}")
_YEARS = (1000, 9999)
_AROUND_A_MONTH = ",;.()"

# An index looks each of them up; nobody names a vehicle by more.
_MOST_CLAUSES = 32


@attrs.frozen
class Clause:
    """One condition in a description of a vehicle.

    Parameters
    ----------
    said : str
        The same for a message.
    conditions : tuple of Condition
        A vehicle meets one of them.  The clause is unknown, and so a mistake,
        if no vehicle meets the first condition.
    """

    said: str
    conditions: tuple[Condition, ...]


@attrs.frozen(kw_only=True)
class Description:
    """A description of a vehicle.

    Parameters
    ----------
    text : str
        The same for a message.
    id : str
        Full or short id, if it is said.
    clauses : tuple of Clause
        All else; the vehicle meets each.
    """

    text: str
    id: str = ""
    clauses: tuple[Clause, ...] = ()

    @property
    def all_clauses(self) -> tuple[Clause, ...]:
        """Its clauses, and a clause for each word of the id."""
        return (*_words(self.id), *self.clauses)

    def without(self, clause: Clause) -> Description:
        """Return the same with one clause left out."""
        rest = tuple(other for other in self.clauses if other != clause)
        return attrs.evolve(self, clauses=rest)


def describe(
    words: str = "",
    *,
    attributes: Mapping[str, str | None] | None = None,
    year: int | None = None,
    built: str | Month | None = None,
) -> Description:
    """Parse a description of a vehicle.

    Parameters
    ----------
    words : str
        An id, or words; one like ``2014`` may also be a year in which it was built, and
        one like ``2014-05`` is a month.
    attributes : mapping, optional
        Whole texts by names of :data:`~barwright.registry.packs.search_terms.ATTRIBUTES`;
        those that are None are passed over.
    year : int, optional
        In which it was built.
    built : str or Month, optional
        Month in which it was built.

    Returns
    -------
    Description

    Raises
    ------
    SchemaError
        S203 or S204 for what is of the wrong type, or no year or month.
    UnknownNameError
        L101 if more is said than can be looked for.
    """
    text = _text(words, "words").strip()
    if len(text) > LONGEST_TEXT:
        raise _too_much(text, f"at most {LONGEST_TEXT} characters")
    named = text if _ID.fullmatch(text) else ""
    stated = {name: said for name, said in (attributes or {}).items() if said is not None}
    others = [_attribute(name, _text(said, name)) for name, said in stated.items()]
    others += [] if year is None else [_built_in_year(year)]
    others += [] if built is None else [_built_in(_month(built))]
    clauses = tuple(dict.fromkeys((*([] if named else _words(text)), *others)))
    description = Description(
        text=", ".join([*([text] if text else []), *(clause.said for clause in others)]),
        id=named,
        clauses=clauses,
    )
    if len(clauses) > _MOST_CLAUSES:
        raise _too_much(description.text, f"at most {_MOST_CLAUSES} words and attributes")
    return description


def _words(text: str) -> Iterator[Clause]:
    """Tell what each word says."""
    for piece in text.split():
        core = piece.strip(_AROUND_A_MONTH)
        if _MONTH.fullmatch(core):
            yield Clause(repr(core), _built_in(Month.of(core)).conditions)
        else:
            yield from map(_word, words_of(piece))


def _word(word: str) -> Clause:
    year = _year_of(int(word)) if _YEAR.fullmatch(word) else None
    return Clause(repr(word), (Condition(word=word, attribute=ANY_WORD, months=year),))


def _attribute(name: str, text: str) -> Clause:
    """Tell what the whole text of an attribute says."""
    conditions = [Condition(word=spelled(text), attribute=name)]
    if name == "market":
        conditions.append(Condition(word=EVERYWHERE, attribute=name))
    return Clause(f"{name} = {text!r}", tuple(conditions))


def _built_in_year(year: int) -> Clause:
    if type(year) is not int or not _YEARS[0] <= year <= _YEARS[1]:
        raise SchemaError(
            "S203",
            value=year,
            expected="a year as a whole number of four digits",
            remedy="write it like 2014, or a month like built='2014-05'",
            key="year",
        )
    return Clause(f"year = {year}", (Condition(months=_year_of(year)),))


def _built_in(month: Month) -> Clause:
    number = month.number
    return Clause(f"built = {str(month)!r}", (Condition(months=(number, number)),))


def _month(built: str | Month) -> Month:
    try:
        return month(built)
    except SchemaError as error:
        raise error.within(key="built") from None


def _year_of(year: int) -> tuple[int, int]:
    return Month(year, 1).number, Month(year, 12).number


def _text(value: object, key: str) -> str:
    if not isinstance(value, str):
        raise SchemaError(
            "S203",
            value=value,
            expected="text",
            remedy="write words, like 'fells short 2014'",
            key=key,
        )
    return value


def _too_much(text: str, expected: str) -> UnknownNameError:
    return UnknownNameError(
        "L101",
        value=text,
        expected=expected,
        remedy="keep only the words that tell the vehicle from others",
    )

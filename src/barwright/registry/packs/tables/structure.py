"""From tables to records, strictly: all problems of a document in one pass.

cattrs does the walking; its lenient defaults (text for numbers, 36.0 for 36,
unknown keys) are each replaced by a refusal that carries a code and a path.
"""

from __future__ import annotations

import contextlib
import enum
import functools
import itertools
import threading
import typing
from collections import ChainMap
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import Any, TypeVar, cast, get_args, get_origin

import attrs
import cattrs
from cattrs.errors import IterableValidationNote
from cattrs.gen import make_dict_structure_fn, override

from barwright.errors import BarwrightError, SchemaError
from barwright.parts.common.facts import as_stated, fact_fields
from barwright.parts.common.fields import figure_fields, known_or_not
from barwright.parts.common.identity import Month, PartNumber
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.parts.common.source import About, Fact, Figure, Source
from barwright.registry.files.file_limits import MOST_PROBLEMS
from barwright.registry.nearest_name import MOST_SUGGESTED, nearest
from barwright.registry.packs.format.keys import (
    FURTHER_KEYS,
    has_kinds,
    key_of,
    kinds_of,
    with_usual_keys,
)
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.tables import values
from barwright.registry.packs.tables.complete import completed
from barwright.registry.packs.tables.gaps import gaps_of
from barwright.registry.packs.tables.inherited import leaving_out
from barwright.registry.packs.tables.origins import Origins, Stated
from barwright.registry.packs.tables.refusals import problems_of, wrong_type
from barwright.units import UNKNOWN, Kind, Range, read_figure

__all__ = ["Structurer", "read_fact"]

T = TypeVar("T")

_CALLED = {cls: word.replace("-", " ") for word, cls in KINDS.items()}


class Structurer:
    """Makes records of the tables of one document.

    Parameters
    ----------
    file : str
        Name of the document, for what is known of each figure.
    sources : sequence of Source
        Those that the document may name; None if it names none.
    pack : str
        Id of the pack that the sources belong to.
    parts : mapping, optional
        Records that a table may refer to, by class and id.
    """

    def __init__(
        self,
        *,
        file: str,
        sources: Sequence[Source] | None = None,
        pack: str = "",
        parts: Mapping[type, Mapping[str, Any]] | None = None,
    ) -> None:
        self._file = file
        self._origins = Origins(file=file, sources=sources, pack=pack)
        self._parts = parts or {}

    def structure(self, table: object, cls: type[T], *, key: str = "") -> T:
        """Make one record.

        Parameters
        ----------
        table : dict
            The table, as parsed.
        cls : type
            Record class.
        key : str
            Path of the table in the document.

        Returns
        -------
        record

        Raises
        ------
        ExceptionGroup
            All problems; :func:`problems_of` lists them.
        """
        try:
            with _reading(self):
                return _converter().structure(table, cls)
        except Exception as error:  # noqa: BLE001 - whatever a converter raised is a problem
            found = [p.within(key=key, file=self._file) for p in problems_of(error)]
            raise ExceptionGroup(key, found) from None

    def refers(self, cls: type[Any]) -> bool:
        """Whether a class is a reference in the open table."""
        return cls in self._parts and self._origins.is_inside

    def record(
        self, table: dict[str, Any], cls: type[Any], plain: Callable[[Any, Any], Any]
    ) -> Any:  # noqa: ANN401 - the record class of the call
        """Make a record of a table, what is known of its figures and facts beside it."""
        is_record = issubclass(cls, Record)
        with self._origins.opened(table, is_record=is_record) as own:
            stated, wrong = self._stated(own, cls)
            raw = {**own, **{name: one.raw for name, one in stated.items()}, **wrong}
            gaps = gaps_of(raw, cls)
            figures = _figures(cls, {n: one for n, one in stated.items() if n not in gaps})
            record = plain({**raw, **gaps, **figures}, cls)
        if not is_record:
            return record
        known = {n: figure for n, figure in figures.items() if isinstance(figure, Figure)}
        facts = _facts(record, {n: one for n, one in stated.items() if n not in figures})
        return completed(record, about=About({**record.about, **known, **facts}))

    def _stated(
        self,
        table: Mapping[str, Any],
        cls: Any,  # noqa: ANN401 - a class
    ) -> tuple[dict[str, Stated], dict[str, BarwrightError]]:
        """Part the figures and facts of a table from their sources; errors are kept."""
        stated, wrong = {}, {}
        fields = _may_have_source(cls)
        for name, raw in table.items():
            if name in fields:
                try:
                    stated[name] = self._origins.stated(name, raw)
                except BarwrightError as error:
                    wrong[name] = error
        return stated, wrong

    def referred(self, name: object, *kinds: type[Any]) -> object:
        """Return the record of one of some kinds that an id names."""
        records = ChainMap[str, Any](*(cast("dict[str, Any]", self._parts[cls]) for cls in kinds))
        called = " or a ".join(_CALLED[cls] for cls in kinds)
        if not isinstance(name, str):
            raise wrong_type(name, f"the id of a {called} in quotes")
        if name not in records:
            raise SchemaError(
                "S206",
                value=name,
                expected=f"the id of a {called} of the pack or of the standards",
                remedy=nearest(name, self._alike(name, kinds)),
            )
        return records[name]

    def _alike(self, name: str, kinds: Iterable[type[Any]]) -> list[str]:
        """Ids of records, with their pack or without it as a name is."""
        known = itertools.chain.from_iterable(self._parts[cls] for cls in kinds)
        alike = (full for full in known if (":" in full) == (":" in name))
        return list(itertools.islice(alike, MOST_SUGGESTED))


# -- Figures and facts ---------------------------------------------------------------


@functools.cache
def _may_have_source(cls: Any) -> AbstractSet[str]:  # noqa: ANN401 - a class
    """List the fields that may be a table with a source of its own."""
    facts = fact_fields(cls) if issubclass(cls, Record) else frozenset()
    return figure_fields(cls).keys() | facts


def _figures(cls: type[Any], stated: Mapping[str, Stated]) -> dict[str, Figure | BarwrightError]:
    """Read the figures of a record; an error is kept, so that the others are read too."""
    figures: dict[str, Figure | BarwrightError] = {}
    for name, (kind, allowed) in figure_fields(cls).items():
        if name in stated:
            try:
                figures[name] = _figure(stated[name], kind, allowed)
            except BarwrightError as error:
                figures[name] = error
    return figures


def _figure(stated: Stated, kind: Kind, allowed: Range) -> Figure:
    """Read a figure; of which only one limit is known, a pack may say so."""
    read = read_figure(stated.raw, kind, key="", allowed=allowed, one_limit=stated.is_of_a_pack)
    return Figure(value=read.value, tolerance=read.tolerance, written=read.written, **stated.origin)


def read_fact(raw: object, cls: type[Record], field: str) -> Any:  # noqa: ANN401 - as the field
    """Read the value of a fact as that of a field.

    Parameters
    ----------
    raw : object
        As parsed.
    cls : type
        Class of the record.
    field : str
        One of :func:`fact_fields`.

    Returns
    -------
    object
        As the field holds it.

    Raises
    ------
    BarwrightError or ExceptionGroup
        If it is of another type, or none of the values that the field may have.
    """
    value = _converter().structure(raw, typing.get_type_hints(cls)[field])
    convert: Any = attrs.fields_dict(cls)[field].converter
    try:
        return convert(value) if convert else value
    except BarwrightError as error:
        error.key = error.key.removeprefix(field)
        raise


def _facts(record: Record, stated: Mapping[str, Stated]) -> dict[str, Fact]:
    """Say of each fact of a record where it comes from, and of each figure that is unknown."""
    return {
        name: Fact(value=as_stated(getattr(record, name)), **one.origin)
        for name, one in stated.items()
        if one.is_told
    }


# -- The converter -------------------------------------------------------------------

# Making one takes longer than reading a pack, so each thread has one of its own; its
# hooks ask which structurer is at work.
_THREAD = threading.local()


@contextlib.contextmanager
def _reading(structurer: Structurer) -> Iterator[None]:
    """Let the hooks of this thread's converter work for a structurer."""
    before = getattr(_THREAD, "structurer", None)
    _THREAD.structurer = structurer
    try:
        yield
    finally:
        _THREAD.structurer = before


def _converter() -> cattrs.Converter:
    """Return this thread's converter."""
    if not hasattr(_THREAD, "converter"):
        converter = cattrs.Converter(forbid_extra_keys=True, detailed_validation=True)
        converter.register_structure_hook(int, values.whole_number)
        converter.register_structure_hook(float, values.number)
        converter.register_structure_hook(str, values.text)
        converter.register_structure_hook(bool, values.truth)
        converter.register_structure_hook(Month, values.month)
        converter.register_structure_hook(enum.Enum, values.word)
        converter.register_structure_hook_func(_is_tuple, _list)
        converter.register_structure_hook_func(_is_numbers, values.part_numbers)
        converter.register_structure_hook_func(_is_table, values.table)
        converter.register_structure_hook_factory(attrs.has, _record_hook)
        converter.register_structure_hook_func(has_kinds, _of_its_kind)
        converter.register_structure_hook_func(_is_choice_of_parts, _one_of)
        _THREAD.converter = converter
    found: cattrs.Converter = _THREAD.converter
    return found


def _record_hook(cls: type[Any]) -> Callable[[Any, Any], Any]:
    figures = figure_fields(cls)
    overrides: dict[str, Any] = {}
    if issubclass(cls, Record):
        overrides |= {name: override(struct_hook=_fact_or_error) for name in fact_fields(cls)}
        overrides |= {name: override(omit=True) for name in NOT_IN_FILES}
    counts = known_or_not(cls) - figures.keys()
    overrides |= {name: override(struct_hook=_count_or_unknown) for name in counts}
    overrides |= {name: override(struct_hook=_figure_or_error) for name in figures}
    overrides |= {
        field.name: override(rename=key_of(field.name))
        for field in attrs.fields(cls)
        if field.name != key_of(field.name)
    }
    plain = make_dict_structure_fn(cls, _converter(), **overrides)
    further = FURTHER_KEYS.keys() & attrs.fields_dict(cls).keys()

    def structure(table: Any, _: Any) -> Any:  # noqa: ANN401 - whatever the file holds
        structurer: Structurer = _THREAD.structurer
        if structurer.refers(cls):
            return structurer.referred(table, cls)
        if not isinstance(table, dict):
            raise wrong_type(table, "a table of keys")
        written = further & table.keys()
        if not written:
            return structurer.record(table, cls, plain)
        with _keys_as_written(written):
            return structurer.record(with_usual_keys(table, written), cls, plain)

    return structure


@contextlib.contextmanager
def _keys_as_written(fields: Iterable[str]) -> Iterator[None]:
    """Let problems name the keys that stand in the table instead of the usual ones."""
    own = {key_of(field): field for field in fields}
    try:
        yield
    except Exception as error:  # noqa: BLE001 - whatever a converter raised is a problem
        problems = problems_of(error)
        for problem in problems:
            first, dot, rest = problem.key.partition(".")
            problem.key = f"{own.get(first, first)}{dot}{rest}"
        raise ExceptionGroup("", problems) from None


def _list(items: Any, cls: Any) -> Any:  # noqa: ANN401 - a tuple type
    """Make a tuple of a list, and of nothing else."""
    kinds = get_args(cls)
    if not isinstance(items, list):
        raise wrong_type(items, "a list in [ ]")
    if kinds[-1] is Ellipsis:
        kinds = kinds[:1] * len(items)
    if len(kinds) != len(items):
        raise wrong_type(items, f"a list of {len(kinds)}")
    made, errors = [], []
    for index, (value, kind) in enumerate(zip(items, kinds, strict=True)):
        try:
            made.append(_converter().structure(value, kind))
        except Exception as error:  # noqa: BLE001 - all problems in one pass
            error.add_note(IterableValidationNote("", index, kind))
            errors.append(error)
            if len(errors) > MOST_PROBLEMS:
                break
    if errors:
        raise ExceptionGroup("", errors)
    return tuple(made)


def _one_of(name: Any, union: Any) -> Any:  # noqa: ANN401 - a union of kinds of part
    """Take the record that an id names, of whichever of these kinds it is."""
    structurer: Structurer = _THREAD.structurer
    return structurer.referred(name, *get_args(union))


def _of_its_kind(table: Any, union: Any) -> Any:  # noqa: ANN401 - a union of classes
    """Take the class of a union that the table's `kind` names."""
    words = kinds_of(union)
    if not isinstance(table, dict) or str(table.get("kind")) not in words:
        given = table.get("kind", table) if isinstance(table, dict) else table
        raise SchemaError(
            "S204",
            value=given,
            expected=" or ".join(f"kind = {word!r}" for word in sorted(words)),
            remedy="say which kind it is",
            key="kind",
        )
    return _converter().structure(leaving_out(table, {"kind"}), words[table["kind"]])


def _figure_or_error(value: Any, _: Any) -> Any:  # noqa: ANN401 - cattrs' signature
    """Hand a figure's value on, or raise the error that its reading ended with."""
    if isinstance(value, BarwrightError):
        raise value
    return value if value == UNKNOWN else value.value


def _fact_or_error(value: Any, hint: Any) -> Any:  # noqa: ANN401 - cattrs' signature
    """Read a fact by its type, or raise the error that its table ended with."""
    if isinstance(value, BarwrightError):
        raise value
    return _converter().structure(value, hint)


def _count_or_unknown(value: Any, hint: Any) -> Any:  # noqa: ANN401 - cattrs' signature
    """Hand a count on, or the word for one that is not known."""
    return value if value == UNKNOWN else _fact_or_error(value, hint)


def _is_table(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    return get_origin(cls) is dict


def _is_numbers(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    return bool(cls == tuple[PartNumber, ...])


def _is_tuple(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    return get_origin(cls) is tuple


def _is_choice_of_parts(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    members = get_args(cls)
    return bool(members) and all(isinstance(m, type) and issubclass(m, Part) for m in members)

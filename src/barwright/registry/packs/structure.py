"""From tables to records, strictly: all problems of a document in one pass.

cattrs does the walking; its lenient defaults (text for numbers, 36.0 for 36,
unknown keys) are each replaced by a refusal that carries a code and a path.
"""

from __future__ import annotations

import contextlib
import enum
import itertools
import threading
from collections import ChainMap
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeVar, cast, get_args, get_origin

import attrs
import cattrs
from cattrs.errors import IterableValidationNote
from cattrs.gen import make_dict_structure_fn, override

from barwright.errors import BarwrightError, SchemaError
from barwright.parts.fields import figure_fields, known_or_not
from barwright.parts.identity import Month
from barwright.parts.record import Part, Record
from barwright.parts.source import CALLER, About, Figure, Source
from barwright.registry.files.file_limits import MOST_PROBLEMS
from barwright.registry.nearest_name import MOST_SUGGESTED, nearest
from barwright.registry.packs import values
from barwright.registry.packs.complete import completed
from barwright.registry.packs.gaps import gaps_of
from barwright.registry.packs.keys import (
    FURTHER_KEYS,
    has_kinds,
    key_of,
    kinds_of,
    with_usual_keys,
)
from barwright.registry.packs.pack import KINDS
from barwright.registry.packs.refusals import problems_of, wrong_keys, wrong_type
from barwright.units import UNKNOWN, Kind, Range, read_figure

__all__ = ["Structurer"]

T = TypeVar("T")

_CALLED = {cls: word.replace("-", " ") for word, cls in KINDS.items()}

# Keys of a table that say where its figures come from.
_PLACE = ("source", "at")


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
        self._sources = None if sources is None else {s.id: s.kind for s in sources}
        self._pack = pack
        self._parts = parts or {}
        # Source and place of the tables that are open, innermost last.
        self._stack: list[tuple[str, str, str]] = []

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
        return cls in self._parts and bool(self._stack)

    def record(
        self,
        table: dict[str, Any],
        cls: type[Any],
        plain: Callable[[Any, Any], Any],
        figures: Mapping[str, tuple[Kind, Range]],
    ) -> Any:  # noqa: ANN401 - the record class of the call
        """Make a record of a table, what is known of each figure beside it."""
        own = table
        outer = self._stack[-1] if self._stack else ("", "", "")
        source, at = outer[0], outer[1]
        if self._sources is not None and issubclass(cls, Record):
            source, at = self._place(own, source, at)
            own = {name: value for name, value in table.items() if name not in _PLACE}
        self._stack.append((source, at, str(own.get("id", outer[2]))))
        try:
            gaps = gaps_of(own, cls)
            known = {n: self._figure(n, own, *figures[n]) for n in figures if n not in gaps}
            written = own | {n: f for n, f in known.items() if f is not None}
            record = plain(written | gaps, cls)
        finally:
            self._stack.pop()
        if not issubclass(cls, Record):
            return record
        read = {name: figure for name, figure in known.items() if isinstance(figure, Figure)}
        return completed(record, about=About({**record.about, **read}))

    def _figure(
        self, name: str, table: Mapping[str, Any], kind: Kind, allowed: Range
    ) -> Figure | BarwrightError | None:
        """Read a field's figure; an error is kept, so that the others are read too."""
        if name not in table:
            return None
        try:
            return self._read(table[name], name, kind, allowed)
        except BarwrightError as error:
            return error

    def _read(self, raw: object, name: str, kind: Kind, allowed: Range) -> Figure:
        source, at, record = self._stack[-1]
        if isinstance(raw, dict):
            extra = sorted(set(raw) - {"is", *_PLACE})
            if extra or "is" not in raw:
                raise wrong_keys(extra, raw)
            source, at = self._place(raw, source, at)
            raw = raw["is"]
        reading = read_figure(raw, kind, key="", allowed=allowed)
        return Figure(
            value=reading.value,
            tolerance=reading.tolerance,
            source=f"{self._pack}:{source}" if source else CALLER,
            source_kind=(self._sources or {}).get(source),
            at=at,
            file=self._file,
            key=f"{record}.{name}".strip("."),
        )

    def _place(self, table: Mapping[str, Any], source: str, at: str) -> tuple[str, str]:
        """Source and place of a table: its own, or those of the record around it.

        A place belongs to its source: a table with another source does not inherit it.
        """
        own = table.get("source", source)
        place = table.get("at", at if own == source else "")
        self._check_place(own, place)
        return own, place

    def _check_place(self, source: object, at: object) -> None:
        """Refuse a source that the pack does not list, or a place that is no text."""
        if not isinstance(at, str):
            raise wrong_type(at, "text in quotes", key="at")
        if not isinstance(source, str):
            raise wrong_type(source, "the id of a source in quotes", key="source")
        if self._sources is not None and source not in self._sources:
            raise SchemaError(
                "S206" if source else "S202",
                value=source or "nothing",
                expected="the id of a [[source]] of the pack",
                remedy=nearest(source, self._sources),
                key="source",
            )

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


# -- The converter -------------------------------------------------------------------
#
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
        converter.register_structure_hook_func(_is_table, values.table)
        converter.register_structure_hook_factory(attrs.has, _record_hook)
        converter.register_structure_hook_func(has_kinds, _of_its_kind)
        converter.register_structure_hook_func(_is_choice_of_parts, _one_of)
        _THREAD.converter = converter
    found: cattrs.Converter = _THREAD.converter
    return found


def _record_hook(cls: type[Any]) -> Callable[[Any, Any], Any]:
    figures = figure_fields(cls)
    overrides: dict[str, Any] = {name: override(struct_hook=_figure_or_error) for name in figures}
    counts = known_or_not(cls) - figures.keys()
    overrides |= {name: override(struct_hook=_count_or_unknown) for name in counts}
    overrides |= {
        field.name: override(rename=key_of(field.name))
        for field in attrs.fields(cls)
        if field.name != key_of(field.name)
    }
    if issubclass(cls, Record):
        overrides["about"] = override(omit=True)
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
            return structurer.record(table, cls, plain, figures)
        with _keys_as_written(written):
            return structurer.record(with_usual_keys(table, written), cls, plain, figures)

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
    own = {key: value for key, value in table.items() if key != "kind"}
    return _converter().structure(own, words[table["kind"]])


def _figure_or_error(value: Any, _: Any) -> Any:  # noqa: ANN401 - cattrs' signature
    """Hand a figure's value on, or raise the error that its reading ended with."""
    if isinstance(value, BarwrightError):
        raise value
    return value if value == UNKNOWN else value.value


def _count_or_unknown(value: Any, _: Any) -> Any:  # noqa: ANN401 - cattrs' signature
    """Hand a count on, or the word for one that is not known."""
    return value if value == UNKNOWN else values.whole_number(value, int)


def _is_table(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    return get_origin(cls) is dict


def _is_tuple(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    return get_origin(cls) is tuple


def _is_choice_of_parts(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    members = get_args(cls)
    return bool(members) and all(isinstance(m, type) and issubclass(m, Part) for m in members)

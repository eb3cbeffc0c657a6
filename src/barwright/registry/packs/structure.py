"""From tables to records, strictly: all problems of a document in one pass.

cattrs does the walking; its lenient defaults (text for numbers, 36.0 for 36,
unknown keys) are each replaced by a refusal that carries a code and a path.
"""

from __future__ import annotations

import contextlib
import enum
import itertools
import math
import threading
from collections import ChainMap
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeVar, cast, get_args, get_origin

import attrs
import cattrs
from cattrs.errors import (
    AttributeValidationNote,
    ForbiddenExtraKeysError,
    IterableValidationNote,
)
from cattrs.gen import make_dict_structure_fn, override

from barwright.errors import BarwrightError, SchemaError, UnknownNameError
from barwright.parts.fields import figure_fields
from barwright.parts.identity import Month
from barwright.parts.record import Part, Record
from barwright.parts.source import CALLER, About, Figure, Source
from barwright.registry.files.file_limits import MOST_PROBLEMS
from barwright.registry.nearest_name import MOST_SUGGESTED, nearest
from barwright.registry.packs.complete import completed
from barwright.units import Kind, Range, read_figure

__all__ = ["LARGEST_WHOLE", "Structurer", "key_of", "kinds_of", "problems_of"]

T = TypeVar("T")

LARGEST_WHOLE = 9999
"""Of a whole number."""

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
        """Tell whether a class stands as a reference in the table that is open."""
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
            known = {name: self._figure(name, own, *figures[name]) for name in figures}
            record = plain(own | {n: f for n, f in known.items() if f is not None}, cls)
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
                raise _wrong_keys(extra, raw)
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
        """Source of a table and the place in it: its own, or those of the record around it.

        A place belongs to its source: a table with another source does not inherit it.
        """
        own = table.get("source", source)
        place = table.get("at", at if own == source else "")
        self._check_place(own, place)
        return own, place

    def _check_place(self, source: object, at: object) -> None:
        """Refuse a source that the pack does not list, or a place that is no text."""
        if not isinstance(at, str):
            raise _wrong_type(at, "text in quotes", key="at")
        if not isinstance(source, str):
            raise _wrong_type(source, "the id of a source in quotes", key="source")
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
        called = " or a ".join(_hyphenated(cls.__name__).replace("-", " ") for cls in kinds)
        if not isinstance(name, str):
            raise _wrong_type(name, f"the id of a {called} in quotes")
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
        converter.register_structure_hook(int, _whole_number)
        converter.register_structure_hook(float, _number)
        converter.register_structure_hook(str, _text)
        converter.register_structure_hook(bool, _truth)
        converter.register_structure_hook(Month, _month)
        converter.register_structure_hook(enum.Enum, _word)
        converter.register_structure_hook_func(_is_tuple, _list)
        converter.register_structure_hook_func(_is_table, _table)
        converter.register_structure_hook_factory(attrs.has, _record_hook)
        converter.register_structure_hook_func(_is_suspension, _suspension)
        converter.register_structure_hook_func(_is_choice_of_parts, _one_of)
        _THREAD.converter = converter
    found: cattrs.Converter = _THREAD.converter
    return found


def _record_hook(cls: type[Any]) -> Callable[[Any, Any], Any]:
    figures = figure_fields(cls)
    overrides: dict[str, Any] = {name: override(struct_hook=_figure_or_error) for name in figures}
    overrides |= {
        field.name: override(rename=key_of(field.name))
        for field in attrs.fields(cls)
        if field.name != key_of(field.name)
    }
    if issubclass(cls, Record):
        overrides["about"] = override(omit=True)
    plain = make_dict_structure_fn(cls, _converter(), **overrides)

    def structure(table: Any, _: Any) -> Any:  # noqa: ANN401 - whatever the file holds
        structurer: Structurer = _THREAD.structurer
        if structurer.refers(cls):
            return structurer.referred(table, cls)
        if not isinstance(table, dict):
            raise _wrong_type(table, "a table of keys")
        return structurer.record(table, cls, plain, figures)

    return structure


def _list(values: Any, cls: Any) -> Any:  # noqa: ANN401 - a tuple type
    """Make a tuple of a list, and of nothing else."""
    kinds = get_args(cls)
    if not isinstance(values, list):
        raise _wrong_type(values, "a list in [ ]")
    if kinds[-1] is Ellipsis:
        kinds = kinds[:1] * len(values)
    if len(kinds) != len(values):
        raise _wrong_type(values, f"a list of {len(kinds)}")
    made, errors = [], []
    for index, (value, kind) in enumerate(zip(values, kinds, strict=True)):
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


def _suspension(table: Any, union: Any) -> Any:  # noqa: ANN401 - a union of classes
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


def kinds_of(union: Any) -> dict[str, type[Any]]:  # noqa: ANN401 - a union of classes
    """List the classes that a table of several kinds may be, by the word for its `kind`.

    Parameters
    ----------
    union : type
        Union of record classes.

    Returns
    -------
    dict of str to type
        Empty where the union is of something else.
    """
    if not _is_suspension(union):
        return {}
    kinds = {cls.__name__.removesuffix("Mounting"): cls for cls in union.__args__}
    return {_hyphenated(name): cls for name, cls in kinds.items()}


def problems_of(error: BaseException) -> list[BarwrightError]:
    """Flatten an exception (group) into errors of ours, each with its path.

    Parameters
    ----------
    error : BaseException
        What a :class:`Structurer` or a record has raised.

    Returns
    -------
    list of BarwrightError
    """
    return list(_walk(error))


def _walk(error: BaseException) -> Iterator[BarwrightError]:
    if isinstance(error, ExceptionGroup):
        for inner in error.exceptions:
            key = _step(inner)
            for problem in _walk(inner):
                yield problem.within(key=key) if key else problem
    elif isinstance(error, ForbiddenExtraKeysError):
        names = [key_of(field.name) for field in attrs.fields(error.cl) if field.name != "about"]
        for extra in sorted(error.extra_fields):
            yield _unknown_key(extra, names)
    elif isinstance(error, KeyError) and not isinstance(error, UnknownNameError):
        yield SchemaError(
            "S202",
            value="nothing",
            expected="a value",
            remedy="add the key",
            key=str(error.args[0]),
        )
    elif isinstance(error, BarwrightError):
        yield error
    else:
        yield _wrong_type(str(error), "a value of another type")


def _step(error: BaseException) -> str:
    """Key or index that cattrs has noted on an error; none for a missing key."""
    if isinstance(error, KeyError) and not isinstance(error, BarwrightError):
        return ""
    notes = getattr(error, "__notes__", ())
    steps = [key_of(n.name) for n in notes if isinstance(n, AttributeValidationNote)]
    steps += [f"[{n.index}]" for n in notes if isinstance(n, IterableValidationNote)]
    return steps[0] if steps else ""


def key_of(field: str) -> str:
    """Return the key of a field: an underscore at its end parts it from a word of Python's own.

    Parameters
    ----------
    field : str
        Name of the field.

    Returns
    -------
    str
    """
    return field.removesuffix("_")


def _figure_or_error(value: Any, _: Any) -> Any:  # noqa: ANN401 - cattrs' signature
    """Hand a figure's value on, or raise the error that its reading ended with."""
    if isinstance(value, BarwrightError):
        raise value
    return value.value


def _whole_number(value: Any, _: Any) -> int:  # noqa: ANN401 - whatever the file holds
    if type(value) is not int or abs(value) > LARGEST_WHOLE:
        raise SchemaError(
            "S203",
            value=f'"{value}"' if isinstance(value, str) else value,
            expected=f"a whole number, at most {LARGEST_WHOLE}",
            remedy="write it without quotes, point or unit, like 36",
        )
    return value


def _number(value: Any, _: Any) -> float:  # noqa: ANN401 - whatever the file holds
    if type(value) not in (int, float) or not math.isfinite(value):
        raise _wrong_type(value, "a finite number")
    return float(value)


def _text(value: Any, _: Any) -> str:  # noqa: ANN401 - whatever the file holds
    if not isinstance(value, str) or not value.strip():
        raise _wrong_type(value, "text in quotes")
    return value


def _truth(value: Any, _: Any) -> bool:  # noqa: ANN401 - whatever the file holds
    if not isinstance(value, bool):
        raise _wrong_type(value, "true or false")
    return value


def _month(value: Any, _: Any) -> Month:  # noqa: ANN401 - whatever the file holds
    return Month.of(value)


def _word(value: Any, cls: type[enum.Enum]) -> enum.Enum:  # noqa: ANN401 - whatever the file holds
    words = [member.value for member in cls]
    if value not in words:
        raise SchemaError(
            "S204",
            value=value,
            expected=" or ".join(repr(word) for word in words),
            remedy="write one of these words",
        )
    return cls(value)


def _table(value: Any, _: Any) -> dict[str, Any]:  # noqa: ANN401 - whatever the file holds
    if not isinstance(value, dict):
        raise _wrong_type(value, "a table of keys")
    return value


def _wrong_type(value: object, expected: str, key: str = "") -> SchemaError:
    return SchemaError(
        "S203",
        value=value,
        expected=expected,
        remedy="barwright explain job-file, or pack-file, lists all keys",
        key=key,
    )


def _wrong_keys(extra: Sequence[str], raw: Mapping[str, Any]) -> SchemaError:
    if extra:
        return _unknown_key(extra[0], ["is", "source", "at"])
    return SchemaError(
        "S202", value=dict(raw), expected="a key 'is'", remedy="write { is = '12.5 mm', … }"
    )


def _unknown_key(key: str, names: Sequence[str]) -> SchemaError:
    return SchemaError(
        "S201", value=key, expected="a key on the list", remedy=nearest(key, names), key=key
    )


def _is_table(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    return get_origin(cls) is dict


def _is_tuple(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    return get_origin(cls) is tuple


def _is_suspension(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    members = getattr(cls, "__args__", ())
    return bool(members) and all(getattr(m, "__name__", "").endswith("Mounting") for m in members)


def _is_choice_of_parts(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    members = get_args(cls)
    return bool(members) and all(isinstance(m, type) and issubclass(m, Part) for m in members)


def _hyphenated(name: str) -> str:
    """Return "swing-arm" for "SwingArm"."""
    return "".join(f"-{c.lower()}" if c.isupper() else c for c in name).removeprefix("-")

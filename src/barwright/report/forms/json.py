"""Answers and records as JSON and back, without loss.

A quantity is ``{"value": 25.2, "unit": "mm"}``, an array
``{"values": [...], "unit": "mm"}``; units are the spellings of
:mod:`barwright.units`.  The document names its class and the version of this
form.  That of a setup or a job writes each record once, under ``records``, and has its name
wherever it belongs.
"""

from __future__ import annotations

import contextlib
import enum
import functools
import json
from collections.abc import Callable, Mapping
from types import NoneType
from typing import Any, NoReturn, get_args

import attrs
import cattrs
import numpy as np
from cattrs.gen import make_dict_unstructure_fn

from barwright.analysis.working.expression import EXPRESSIONS, Expression
from barwright.errors import BarwrightError, SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.identity import Month
from barwright.parts.common.source import About, Fact, Figure
from barwright.report.forms.documents import (
    ANSWER_SCHEMA,
    OF_SETUPS,
    class_of,
    field_of_key,
    key_of_field,
    word_of,
)
from barwright.report.forms.former_answers import FORMER_SCHEMAS, up_to_date
from barwright.report.forms.read_figures import exactly, reader_of
from barwright.report.forms.records import (
    is_record,
    named_or_whole,
    records_read,
    records_written,
    whole_or_by_name,
)
from barwright.units import (
    KINDS,
    UNKNOWN,
    Kind,
    Quantity,
    UnknownCount,
    is_quantity,
    is_quantity_type,
    is_unknown,
    unit_spelling,
)

__all__ = [
    "ALWAYS_KNOWN",
    "from_json",
    "has_summary",
    "plain",
    "plain_part",
    "to_json",
]


@checks_arguments
def to_json(answer: object, *, indent: int | None = None) -> str:
    """Write an answer, a record or a job as JSON text.

    Parameters
    ----------
    answer : Answer, record of barwright.parts, Job or BenchSheet
        What to write.
    indent : int, optional
        Indentation; one line if left out.

    Returns
    -------
    str

    Raises
    ------
    SchemaError
        S208 if it is none of these.

    Examples
    --------
    >>> from barwright.analysis.fit.length_fit import length_fit
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> from_json(to_json(length_fit(setup))) == length_fit(setup)
    True
    """
    return json.dumps(plain(answer), indent=indent, ensure_ascii=False, allow_nan=False)


def plain(answer: object) -> dict[str, Any]:
    """Turn an answer into dictionaries, lists, text and numbers.

    Parameters
    ----------
    answer : object
        As for :func:`to_json`.

    Returns
    -------
    dict
    """
    word = word_of(answer)
    if word is None:
        raise SchemaError(
            "S208",
            value=type(answer).__name__,
            expected="an answer, a part of one, a record or a job",
            remedy="write what it was made of, or what was asked of it",
        )
    head = {"answer": word, "schema": ANSWER_SCHEMA}
    with records_written() if word in OF_SETUPS else contextlib.nullcontext() as records:
        fields = plain_part(answer)
    named = {} if records is None else {"records": records.by_name}
    return head | {key_of_field(name): value for name, value in fields.items()} | named


def plain_part(part: object) -> dict[str, Any]:
    """Turn a part of an answer into dictionaries, lists, text and numbers.

    Parameters
    ----------
    part : object
        Of any class that an answer may hold.

    Returns
    -------
    dict
    """
    fields: dict[str, Any] = _converter().unstructure(part)
    return fields


@checks_arguments
def from_json(text: str) -> Any:  # noqa: ANN401 - the class that the document names
    """Read what :func:`to_json` wrote.

    Parameters
    ----------
    text : str
        The document.

    Returns
    -------
    object
        Equal to what was written.

    Raises
    ------
    SchemaError
        S208 if it is not such a document.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> bar = Registry.discover().part("fells:bar/short-firm")
    >>> from_json(to_json(bar)).title
    'Firm bar, short van'
    """
    try:
        table = json.loads(text, parse_constant=_no_number)
        schema = table.pop("schema")
        if schema in FORMER_SCHEMAS:
            table = up_to_date(table, schema=schema)
        elif schema != ANSWER_SCHEMA:
            raise _unreadable(f"schema {schema}")
        name = table.pop("answer")
        fields = {field_of_key(key): value for key, value in table.items()}
        with records_read(fields.pop("records", {}) if name in OF_SETUPS else {}) as records:
            answer = _converter().structure(fields, class_of(name))
    except BarwrightError:
        raise
    except cattrs.BaseValidationError as error:
        reason, _, place = cattrs.transform_error(error)[0].rpartition(" @ $")
        raise _unreadable(reason, key=place.strip(".")) from None
    # A document may be anything, and reading it may stumble over anything.  So may a fault of
    # this module: the cause stays with the error.
    except (ValueError, TypeError, LookupError, AttributeError, RecursionError) as error:
        raise _unreadable(str(text)[:60]) from error
    if records.unread:
        raise _unreadable(f"records that nothing names: {', '.join(records.unread)}", key="records")
    return answer


def _unreadable(value: str, *, key: str = "") -> SchemaError:
    return SchemaError(
        "S208",
        value=value,
        expected=f"an answer of schema {ANSWER_SCHEMA} as to_json writes it",
        remedy="write it again with this version",
        key=key,
    )


@functools.cache
def _converter() -> cattrs.Converter:
    # A hook of a class goes before all others.  Of those with a condition, the last one that holds
    # is taken: so those of any class come first, and records, choices and summaries after them.
    converter = cattrs.Converter(forbid_extra_keys=True)
    converter.register_unstructure_hook_func(is_quantity_type, _quantity_to_table)
    converter.register_structure_hook_factory(attrs.has, functools.partial(reader_of, converter))
    for counted in (int, UnknownCount):
        converter.register_unstructure_hook(counted, lambda n: UNKNOWN if is_unknown(n) else n)
    for cls in (bool, int, float, str):
        converter.register_structure_hook(cls, exactly)
    converter.register_unstructure_hook(enum.Enum, lambda word: word.value)
    converter.register_unstructure_hook(Month, str)
    converter.register_structure_hook(Month, lambda text, _: Month.of(text))
    converter.register_unstructure_hook_func(_is_mixed, _mixed_to_table(converter))
    _register_figures(converter)
    converter.register_unstructure_hook(
        About, lambda about: {name: converter.unstructure(f, Figure) for name, f in about.items()}
    )
    converter.register_structure_hook(
        About, lambda t, _: About({n: converter.structure(f, Figure) for n, f in t.items()})
    )
    converter.register_unstructure_hook_factory(
        is_record, lambda cls: named_or_whole(make_dict_unstructure_fn(cls, converter))
    )
    converter.register_structure_hook_factory(
        is_record,
        lambda cls: whole_or_by_name(cls, functools.partial(reader_of(converter, cls), _=cls)),
    )
    converter.register_structure_hook_factory(
        is_choice, functools.partial(_choice_reader, converter)
    )
    _register_equations(converter)
    converter.register_unstructure_hook_factory(
        has_summary, functools.partial(_with_summary, converter)
    )
    converter.register_structure_hook_factory(
        has_summary, functools.partial(_without_summary, converter)
    )
    return converter


def _register_figures(converter: cattrs.Converter) -> None:
    """Let a fact stand where a figure may: its value is no quantity, which tells them apart."""
    write = {cls: make_dict_unstructure_fn(cls, converter) for cls in (Figure, Fact)}
    converter.register_unstructure_hook(
        Figure, lambda known: _without_empty(write[type(known)](known))
    )
    read = {cls: reader_of(converter, cls) for cls in (Figure, Fact)}
    converter.register_structure_hook(
        Figure,
        lambda table, _: (
            read[Figure](table, Figure)
            if isinstance(table["value"], dict)
            else read[Fact](table | {"value": _fact(table["value"])}, Fact)
        ),
    )


ALWAYS_KNOWN = ("value", "source")
"""What is written of a figure or fact in any case; the rest only where there is something."""


def _without_empty(known: Mapping[str, Any]) -> dict[str, Any]:
    """Leave out whatever says nothing of a figure or fact."""
    return {n: value for n, value in known.items() if n in ALWAYS_KNOWN or value not in (None, "")}


def _fact(value: Any) -> Any:  # noqa: ANN401 - whatever the document holds
    """Take the value of a fact: a plain one, or a list of them."""
    if isinstance(value, list):
        return tuple(map(_fact, value))
    return exactly(value, next(c for c in (bool, int, float, str) if type(value) is c))


_SUMMARY_KEYS = ("outcome", "headline")
"""What follows from an answer's fields and is written before them, for whoever reads only that."""


def has_summary(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    """Whether a class gives an outcome and a headline."""
    return attrs.has(cls) and all(hasattr(cls, name) for name in _SUMMARY_KEYS)


def _with_summary(converter: cattrs.Converter, cls: type[Any]) -> Any:  # noqa: ANN401 - a hook
    fields = make_dict_unstructure_fn(cls, converter)
    return lambda answer: (
        {
            "outcome": answer.outcome.value,
            "headline": answer.headline,
        }
        | fields(answer)
    )


def _without_summary(converter: cattrs.Converter, cls: type[Any]) -> Any:  # noqa: ANN401 - a hook
    made = reader_of(converter, cls)
    return lambda table, _: made({n: v for n, v in table.items() if n not in _SUMMARY_KEYS}, cls)


def _no_number(constant: str) -> NoReturn:
    """Refuse what is no JSON, and no figure."""
    raise ValueError(constant)


def _quantity_to_table(value: Quantity) -> dict[str, Any] | str:
    if is_unknown(value):
        return UNKNOWN
    unit = unit_spelling(value)
    if np.ndim(value.magnitude):
        return {"values": np.asarray(value.magnitude, dtype=float).tolist(), "unit": unit}
    return {"value": float(value.magnitude), "unit": unit}


def _is_mixed(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    """Whether a type is a figure that may also be a count or a word."""
    members = get_args(cls)
    return int in members and any(is_quantity_type(member) for member in members)


def _mixed_to_table(converter: cattrs.Converter) -> Any:  # noqa: ANN401 - a hook
    def unstructure(value: Any) -> Any:  # noqa: ANN401 - a figure, a count or a word
        return _quantity_to_table(value) if is_quantity(value) else converter.unstructure(value)

    return unstructure


def _register_equations(converter: cattrs.Converter) -> None:
    """Let the trees of equations be told apart by their fields, and kinds by their names."""
    read = _by_fields(converter, EXPRESSIONS)
    converter.register_unstructure_hook_func(_is_any_tree, converter.unstructure)
    converter.register_structure_hook_func(_is_any_tree, lambda table, _: read(table))
    kinds = {kind.name: kind for kind in KINDS}
    converter.register_unstructure_hook(Kind, lambda kind: kind.name)
    converter.register_structure_hook(Kind, lambda name, _: kinds[name])


def _is_any_tree(cls: object) -> bool:
    return cls is Expression


def is_choice(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    """Whether a type is a union of several classes with fields, or of these and nothing."""
    classes = _classes_of(cls)
    return len(classes) > 1 and all(map(attrs.has, classes))


def _classes_of(union: Any) -> tuple[Any, ...]:  # noqa: ANN401 - any annotation
    return tuple(member for member in get_args(union) if member is not NoneType)


def _choice_reader(converter: cattrs.Converter, cls: Any) -> Any:  # noqa: ANN401 - a hook
    read = _by_fields(converter, _classes_of(cls))
    return whole_or_by_name(cls, lambda table: None if table is None else read(table))


def _by_fields(converter: cattrs.Converter, classes: tuple[Any, ...]) -> Callable[[Any], Any]:
    """Make what reads one of several classes, which their fields tell apart."""
    fields = {cls: {field.name for field in attrs.fields(cls)} for cls in classes}

    def read(table: Mapping[str, Any]) -> Any:  # noqa: ANN401 - of one of the classes
        for cls, names in fields.items():
            if set(table) <= names:
                return converter.structure(table, cls)
        raise _unreadable(", ".join(table))

    return read

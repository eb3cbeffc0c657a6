"""Answers and records as JSON and back, without loss.

A quantity is ``{"value": 25.2, "unit": "mm"}``, an array
``{"values": [...], "unit": "mm"}``; units are the spellings of
:mod:`barwright.units`.  The document names its class and the version of this
form.
"""

from __future__ import annotations

import enum
import functools
import json
import types
import typing
from collections.abc import Mapping
from typing import Any, NoReturn, get_args, get_origin

import attrs
import cattrs
import numpy as np
from cattrs.gen import make_dict_structure_fn, make_dict_unstructure_fn, override

from barwright.analysis.across.check import JobCheck
from barwright.analysis.across.compare import Comparison
from barwright.analysis.across.donors import Donors
from barwright.analysis.adjusting.nut_table import NutTable
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.bar_rate import BarRate
from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.rates.rates import Rates
from barwright.analysis.rates.ride import Ride
from barwright.analysis.reindex.plan import Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.strength.strength import Strength
from barwright.analysis.tolerance.tolerance import Tolerance
from barwright.analysis.trail import Trail
from barwright.errors import BarwrightError, SchemaError
from barwright.lint.finding import PackLint
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arguments import checks_arguments
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar
from barwright.parts.chassis import Chassis
from barwright.parts.damper import Damper
from barwright.parts.identity import Month
from barwright.parts.material import Material
from barwright.parts.source import About, Figure
from barwright.parts.tube import Tube
from barwright.registry.jobs.job import Job
from barwright.report.drawing.adjuster import AdjusterView
from barwright.report.drawing.bar_axis_view import BarAxisView
from barwright.report.drawing.bar_end_view import BarEndView
from barwright.report.drawing.load_curve import LoadCurveView
from barwright.report.drawing.template import TemplateView
from barwright.report.forms.field_kinds import OF_ANY_KIND, are_of_one_kind, kind_of
from barwright.report.forms.former_answers import FORMER_SCHEMA, up_to_date
from barwright.report.sheet.sheet import BenchSheet
from barwright.units import (
    LARGEST,
    UNKNOWN,
    Quantity,
    QuantityArray,
    check_range,
    is_quantity,
    is_quantity_type,
    is_unknown,
    quantity_of_unit,
    quantity_of_units,
    unit_spelling,
    unknown,
)

__all__ = ["ANSWER_SCHEMA", "from_json", "plain", "plain_part", "to_json"]

ANSWER_SCHEMA = 3
"""Version of this form of answers."""

_CLASSES: Mapping[str, type[Any]] = {
    "LengthFit": LengthFit,
    "BarRate": BarRate,
    "Rates": Rates,
    "Reindex": Reindex,
    "Plan": Plan,
    "Assembly": Assembly,
    "Ride": Ride,
    "NutTable": NutTable,
    "Donors": Donors,
    "Comparison": Comparison,
    "JobCheck": JobCheck,
    "BenchSheet": BenchSheet,
    "BarEndView": BarEndView,
    "AdjusterView": AdjusterView,
    "BarAxisView": BarAxisView,
    "LoadCurveView": LoadCurveView,
    "TemplateView": TemplateView,
    "Job": Job,
    "Strength": Strength,
    "Tolerance": Tolerance,
    "Trail": Trail,
    "PackLint": PackLint,
    "Material": Material,
    "Arm": Arm,
    "Bar": Bar,
    "Tube": Tube,
    "KeyLever": KeyLever,
    "FixedSocket": FixedSocket,
    "Adjuster": Adjuster,
    "Damper": Damper,
    "Chassis": Chassis,
}
"""What a document may hold, by the word that it says of itself; a class may change its name."""

_WORDS = {cls: word for word, cls in _CLASSES.items()}


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
    word = _WORDS.get(type(answer))
    if word is None:
        raise SchemaError(
            "S208",
            value=type(answer).__name__,
            expected=f"one of {', '.join(_CLASSES)}",
            remedy="write the whole answer that holds it",
        )
    return {"answer": word, "schema": ANSWER_SCHEMA} | plain_part(answer)


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
        if schema == FORMER_SCHEMA:
            table = up_to_date(table)
        elif schema != ANSWER_SCHEMA:
            raise _unreadable(f"schema {schema}")
        name = table.pop("answer")
        return _converter().structure(table, _CLASSES[name])
    except BarwrightError:
        raise
    except cattrs.BaseValidationError as error:
        found, _, place = cattrs.transform_error(error)[0].rpartition(" @ $")
        raise _unreadable(found, key=place.strip(".")) from None
    except (ValueError, TypeError, LookupError, AttributeError, RecursionError):
        raise _unreadable(str(text)[:60]) from None


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
    converter = cattrs.Converter(forbid_extra_keys=True)
    converter.register_unstructure_hook_func(is_quantity_type, _quantity_to_table)
    converter.register_structure_hook_factory(attrs.has, functools.partial(_reader_of, converter))
    for cls in (bool, int, float, str):
        converter.register_structure_hook(cls, _exactly)
    converter.register_unstructure_hook(enum.Enum, lambda word: word.value)
    converter.register_unstructure_hook(Month, str)
    converter.register_structure_hook(Month, lambda text, _: Month.of(text))
    converter.register_unstructure_hook_func(_is_mixed, _mixed_to_table(converter))
    converter.register_unstructure_hook(
        About, lambda about: {name: converter.unstructure(f, Figure) for name, f in about.items()}
    )
    converter.register_structure_hook(
        About, lambda t, _: About({n: converter.structure(f, Figure) for n, f in t.items()})
    )
    converter.register_structure_hook_func(_is_mounting, _table_to_mounting(converter))
    converter.register_unstructure_hook_factory(_is_headed, functools.partial(_headed, converter))
    converter.register_structure_hook_factory(_is_headed, functools.partial(_beheaded, converter))
    return converter


_HEAD = ("outcome", "headline")
"""What follows from an answer's fields and is written before them, for whoever reads only that."""


def _is_headed(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    """Whether a class gives an outcome and a headline."""
    return attrs.has(cls) and all(hasattr(cls, name) for name in _HEAD)


def _headed(converter: cattrs.Converter, cls: type[Any]) -> Any:  # noqa: ANN401 - a hook
    fields = make_dict_unstructure_fn(cls, converter)
    return lambda answer: (
        {
            "outcome": answer.outcome.value,
            "headline": answer.headline,
        }
        | fields(answer)
    )


def _beheaded(converter: cattrs.Converter, cls: type[Any]) -> Any:  # noqa: ANN401 - a hook
    made = _reader_of(converter, cls)
    return lambda table, _: made({n: v for n, v in table.items() if n not in _HEAD}, cls)


def _exactly(value: Any, cls: type) -> Any:  # noqa: ANN401 - whatever the document holds
    """Take a value of a type and no other, where the converter would turn it into one."""
    if type(value) is not cls or (isinstance(value, int | float) and not abs(value) <= LARGEST):
        raise TypeError(cls.__name__)
    return value


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


# -- Reading, each figure by the kind of its field --------------------------------------


def _reader_of(converter: cattrs.Converter, cls: type[Any]) -> Any:  # noqa: ANN401 - a hook
    """Make a hook for a class that reads each figure as its field has it."""
    hints = typing.get_type_hints(cls)
    figures: dict[str, Any] = {
        field.name: override(struct_hook=_figure_reader(field, hints[field.name]))
        for field in attrs.fields(cls)
        if any(map(is_quantity_type, _members(hints[field.name])))
    }
    read = make_dict_structure_fn(cls, converter, _cattrs_forbid_extra_keys=True, **figures)
    free = sorted(OF_ANY_KIND & figures.keys() - {"effect"})

    def structure(table: Any, _: Any) -> Any:  # noqa: ANN401 - whatever the document holds
        made = read(table, cls)
        held = [getattr(made, name) for name in free]
        if not are_of_one_kind([one for one in held if is_quantity(one) and not is_unknown(one)]):
            raise TypeError(cls.__name__)
        return made

    return structure


def _figure_reader(field: Any, hint: Any) -> Any:  # noqa: ANN401 - attrs' own class, and any annotation
    """Make a hook that reads a figure, or what else its field may hold."""
    # A record's own converter tells the kind of its figures.
    kind = None if "kind" in field.metadata else kind_of(field.name)
    others = [member for member in _members(hint) if not is_quantity_type(member)]
    is_array = bool(field.eq_key)

    def read(value: Any, _: Any) -> Any:  # noqa: ANN401 - whatever the document holds
        # Where a word may stand as well, it is one.
        if value == UNKNOWN and str not in others:
            return unknown()
        if not isinstance(value, dict):
            return _exactly(value, next((c for c in others if type(value) is c), type))
        figure = _array_of(value) if is_array else _scalar_of(value)
        if kind is not None and unit_spelling(figure) not in kind.units:
            raise TypeError(kind.name)
        return figure

    return read


def _members(hint: Any) -> tuple[Any, ...]:  # noqa: ANN401 - any annotation
    is_union = get_origin(hint) in (typing.Union, types.UnionType)
    return get_args(hint) if is_union else (hint,)


def _scalar_of(table: Mapping[str, Any]) -> Quantity:
    number, unit = _fields(table, "value")
    if type(number) not in (float, int):
        raise TypeError(number)
    figure = quantity_of_unit(float(number), unit)
    check_range(figure, key="")
    return figure


def _array_of(table: Mapping[str, Any]) -> QuantityArray:
    numbers, unit = _fields(table, "values")
    if set(map(type, numbers)) - {float, int}:
        raise TypeError(numbers)
    figures = quantity_of_units(numbers, unit)
    if not np.all(np.abs(figures.magnitude) <= LARGEST):
        raise ValueError(numbers)
    return figures


def _fields(table: Mapping[str, Any], wanted: str) -> tuple[Any, Any]:
    """Take number or numbers of a figure, and its unit, from a table with nothing else."""
    (name,) = table.keys() - {"unit"}
    if name != wanted:
        raise KeyError(name)
    return table[name], table["unit"]


def _is_mounting(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    members = get_args(cls)
    return bool(members) and all(attrs.has(member) for member in members)


def _table_to_mounting(converter: cattrs.Converter) -> Any:  # noqa: ANN401 - a hook
    """Tell the classes of a union apart by their fields."""

    def structure(table: Mapping[str, Any], cls: Any) -> Any:  # noqa: ANN401
        for member in get_args(cls):
            if set(table) <= {field.name for field in attrs.fields(member)}:
                return converter.structure(table, member)
        raise _unreadable(", ".join(table))

    return structure

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
from collections.abc import Collection, Mapping
from typing import Any, NoReturn, get_args

import attrs
import cattrs
import numpy as np
from cattrs.gen import make_dict_unstructure_fn

from barwright.errors import BarwrightError, SchemaError
from barwright.first_use import imported
from barwright.parts.arguments import checks_arguments
from barwright.parts.identity import Month
from barwright.parts.source import About, Fact, Figure
from barwright.report.forms.former_answers import FORMER_SCHEMA, up_to_date
from barwright.report.forms.read_figures import exactly, reader_of
from barwright.units import (
    UNKNOWN,
    Quantity,
    UnknownCount,
    is_quantity,
    is_quantity_type,
    is_unknown,
    unit_spelling,
)

__all__ = [
    "ANSWER_SCHEMA",
    "class_of",
    "documents",
    "from_json",
    "is_headed",
    "plain",
    "plain_part",
    "to_json",
]

ANSWER_SCHEMA = 3
"""Version of this form of answers."""

_HOMES: Mapping[str, str] = {
    "LengthFit": "analysis.fit.length_fit",
    "BarRate": "analysis.bar_rate",
    "Rates": "analysis.rates.rates",
    "Reindex": "analysis.reindex.reindex",
    "Plan": "analysis.reindex.plan",
    "Assembly": "analysis.assembly.assembly",
    "Ride": "analysis.rates.ride",
    "NutTable": "analysis.adjusting.nut_table",
    "CalibratedCorner": "analysis.calibration.calibrated_corner",
    "Identification": "analysis.identification.identification",
    "SplineIdentification": "analysis.identification.spline_identification",
    "Selection": "analysis.selection.selection",
    "Balance": "analysis.balancing.balance_answer",
    "Diagnosis": "analysis.diagnosis.diagnosis",
    "Donors": "analysis.across.donors",
    "Comparison": "analysis.across.compare",
    "FamilyChart": "family.chart",
    "FamilyFile": "family.family_file",
    "FamilyMatrix": "family.matrix",
    "JobCheck": "analysis.across.check",
    "BenchSheet": "report.sheet.sheet",
    "BarEndView": "report.drawing.bar_end_view",
    "AdjusterView": "report.drawing.adjuster",
    "BarAxisView": "report.drawing.bar_axis_view",
    "LoadCurveView": "report.drawing.load_curve",
    "TemplateView": "report.drawing.template",
    "Job": "registry.jobs.job",
    "Strength": "analysis.strength.strength",
    "Tolerance": "analysis.tolerance.tolerance",
    "Needs": "analysis.across.needs",
    "Trail": "analysis.trail",
    "PackLint": "lint.finding",
    "CornerState": "analysis.rates.corner_state",
    "Overstress": "analysis.strength.overstress",
    "StressLimit": "analysis.strength.strength_limits",
    "StrengthLimits": "analysis.strength.strength_limits",
    "TravelSpectrum": "analysis.strength.travel_history",
    "Goal": "parts.goal",
    "MeasuredBar": "parts.measured_bar",
    "Reading": "parts.setup",
    "Setup": "parts.setup",
    "Wanted": "parts.wanted",
    "WholeVehicle": "parts.whole_vehicle",
    "JobCorner": "registry.jobs.job",
    "WorkOrder": "registry.jobs.job",
    "Material": "parts.material",
    "Arm": "parts.arm",
    "Bar": "parts.bar",
    "Tube": "parts.tube",
    "KeyLever": "parts.anchor",
    "FixedSocket": "parts.anchor",
    "Adjuster": "parts.adjuster",
    "Damper": "parts.damper",
    "Chassis": "parts.chassis",
}
"""What a document may hold: the word that it says of itself, which is the name of a class, and
the module of that class.  Few are there when a document is written: one that is not loaded has
no answer."""

_WORDS = {(f"barwright.{home}", word): word for word, home in _HOMES.items()}


def documents() -> Collection[str]:
    """Return the words that a document may say of itself."""
    return _HOMES.keys()


def class_of(word: str) -> type[Any]:
    """Return the class that a document names."""
    found: type[Any] = getattr(imported(_HOMES[word]), word)
    return found


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
    word = _WORDS.get((type(answer).__module__, type(answer).__name__))
    if word is None:
        raise SchemaError(
            "S208",
            value=type(answer).__name__,
            expected=f"one of {', '.join(_HOMES)}",
            remedy="write the whole answer that contains it",
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
        return _converter().structure(table, class_of(name))
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
    converter.register_structure_hook_func(_is_mounting, _table_to_mounting(converter))
    converter.register_unstructure_hook_factory(is_headed, functools.partial(_headed, converter))
    converter.register_structure_hook_factory(is_headed, functools.partial(_beheaded, converter))
    return converter


def _register_figures(converter: cattrs.Converter) -> None:
    """Let a fact stand where a figure may: its value is no quantity, which tells them apart."""
    write = {cls: make_dict_unstructure_fn(cls, converter) for cls in (Figure, Fact)}
    converter.register_unstructure_hook(Figure, lambda known: write[type(known)](known))
    read = {cls: reader_of(converter, cls) for cls in (Figure, Fact)}
    converter.register_structure_hook(
        Figure,
        lambda table, _: (
            read[Figure](table, Figure)
            if isinstance(table["value"], dict)
            else read[Fact](table | {"value": _fact(table["value"])}, Fact)
        ),
    )


def _fact(value: Any) -> Any:  # noqa: ANN401 - whatever the document holds
    """Take the value of a fact: a plain one, or a list of them."""
    if isinstance(value, list):
        return tuple(map(_fact, value))
    return exactly(value, next(c for c in (bool, int, float, str) if type(value) is c))


_HEAD = ("outcome", "headline")
"""What follows from an answer's fields and is written before them, for whoever reads only that."""


def is_headed(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
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
    made = reader_of(converter, cls)
    return lambda table, _: made({n: v for n, v in table.items() if n not in _HEAD}, cls)


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

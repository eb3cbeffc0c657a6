"""Reading the figures of a JSON document, each by the kind of its field."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from typing import Any, get_args, get_origin

import attrs
import cattrs
import numpy as np
from cattrs.gen import make_dict_structure_fn, override

from barwright.report.forms.field_kinds import OF_ANY_KIND, are_of_one_kind, kind_of
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
    unknown_count,
)

__all__ = ["exactly", "reader_of"]


def exactly(value: Any, cls: type) -> Any:  # noqa: ANN401 - whatever the document holds
    """Take a value of a type and no other, where the converter would turn it into one."""
    if type(value) is not cls or (isinstance(value, int | float) and not abs(value) <= LARGEST):
        raise TypeError(cls.__name__)
    return value


def reader_of(converter: cattrs.Converter, cls: type[Any]) -> Any:  # noqa: ANN401 - a hook
    """Make a hook for a class that reads each figure as its field has it."""
    hints = typing.get_type_hints(cls)
    figures: dict[str, Any] = {
        field.name: override(struct_hook=_figure_reader(field, hints[field.name]))
        for field in attrs.fields(cls)
        if any(map(is_quantity_type, _members(hints[field.name])))
    }
    counts: dict[str, Any] = {
        field.name: override(struct_hook=_count)
        for field in attrs.fields(cls)
        if field.metadata.get("may_be_unknown")
    }
    hooks = figures | counts
    read = make_dict_structure_fn(cls, converter, _cattrs_forbid_extra_keys=True, **hooks)
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
            return exactly(value, next((c for c in others if type(value) is c), type))
        figure = _array_of(value) if is_array else _scalar_of(value)
        if kind is not None and unit_spelling(figure) not in kind.units:
            raise TypeError(kind.name)
        return figure

    return read


def _count(value: Any, _: Any) -> int:  # noqa: ANN401 - whatever the document holds
    """Read a count that may be unknown."""
    if value == UNKNOWN:
        return unknown_count()
    count: int = exactly(value, int)
    return count


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

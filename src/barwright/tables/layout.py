"""What each column of a table is: a figure of the setup with its unit, or one that is kept."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterator, Sequence
from typing import Any

import attrs

from barwright.columns.given import Kinds, check_unit, kind_of
from barwright.errors import BarwrightError, QuantityError, SchemaError, TableError
from barwright.registry.importing.arrow import arrow
from barwright.registry.importing.heading import Heading, heading_of
from barwright.registry.nearest_name import nearest
from barwright.tables.unit_of import unit_of_field
from barwright.units import Kind

__all__ = ["FigureColumn", "Layout", "layout_of"]


@attrs.frozen
class FigureColumn:
    """A column of figures.

    Parameters
    ----------
    place : int
        Which column of the table it is.
    path : str
        Fields of the setup that lead to the figure.
    kind : Kind
        What it holds.
    unit : str
        Unit of its numbers; empty if each cell gives its own.
    is_text : bool
        Whether its cells are texts.
    """

    place: int
    path: str
    kind: Kind
    unit: str
    is_text: bool


@attrs.frozen
class Layout:
    """Columns of a table.

    Parameters
    ----------
    figures : tuple of FigureColumn
        Those that take the place of the setup's.
    kept : tuple of (int, str)
        Those that are carried over unread: which column each is, and its name.
    """

    figures: tuple[FigureColumn, ...]
    kept: tuple[tuple[int, str], ...]


def layout_of(
    schema: Any,  # noqa: ANN401 - of Arrow
    kinds: Kinds,
    *,
    keep: Sequence[str],
    answered: Container[str],
) -> Layout:
    """Read the names of a table's columns, and their units.

    Parameters
    ----------
    schema : pyarrow.Schema
        Columns of the table.
    kinds : mapping
        Figures that they can take the place of.
    keep : sequence of str
        Names of columns that are carried over unread.
    answered : container of str
        Names of the columns that the answer adds.

    Returns
    -------
    Layout

    Raises
    ------
    SchemaError
        S201 for a name that no figure has; S202 for a table without figures; S205 for a name that
        another column has; S206 for a column to keep that is not there.
    QuantityError
        Q104 for a column of neither numbers nor texts, Q105 or Q202 for its unit.
    TableError
        T101 for several of these.
    """
    headings = [heading_of(field.name) for field in schema]
    names = [heading.name for heading in headings]
    problems: list[BarwrightError] = [*_doubled(names), *_wrongly_kept(keep, names, answered)]
    figures = []
    for place, heading in enumerate(headings):
        if heading.name not in keep:
            try:
                figures.append(_figure(place, schema.field(place), heading, kinds))
            except BarwrightError as error:
                problems.append(error)
    _refuse(problems if figures or problems else [_no_figure(kinds)])
    kept = tuple((place, name) for place, name in enumerate(names) if name in keep)
    return Layout(tuple(figures), kept)


def _refuse(problems: Sequence[BarwrightError]) -> None:
    if len(problems) == 1:
        raise problems[0]
    if problems:
        raise TableError("T101", problems=tuple(problems), file="")


def _doubled(names: Sequence[str]) -> Iterator[SchemaError]:
    for name, count in Counter(names).items():
        if count > 1:
            yield SchemaError(
                "S205",
                value=name,
                expected="a name that no other column has",
                remedy="leave one of the columns out",
                key="table",
            )


def _wrongly_kept(
    keep: Sequence[str], names: Sequence[str], answered: Container[str]
) -> Iterator[SchemaError]:
    for name in keep:
        if name not in names:
            yield SchemaError(
                "S206",
                value=name,
                expected="the name of a column of the table",
                remedy=nearest(name, names),
                key="keep",
            )
        elif name in answered:
            yield SchemaError(
                "S205",
                value=name,
                expected="a name that no column of the answer has",
                remedy="name the column otherwise",
                key="keep",
            )


def _figure(place: int, field: Any, heading: Heading, kinds: Kinds) -> FigureColumn:  # noqa: ANN401
    path = heading.name
    try:
        kind, _ = kind_of(path, kinds)
    except SchemaError as error:
        error.remedy += "; a column that is no figure is named in keep"
        raise
    unit = unit_of_field(field) or heading.unit
    if heading.unit not in ("", unit):
        raise QuantityError(
            "Q202",
            value=heading.unit,
            expected=f"{unit}, as the metadata of the column says",
            remedy="correct one of them",
            key=path,
        )
    is_text = _is_text(field.type, path)
    if unit or not is_text:
        check_unit(unit, kind, path=path)
    return FigureColumn(place, path, kind, unit, is_text)


def _is_text(kind: Any, path: str) -> bool:  # noqa: ANN401 - of Arrow
    """Tell texts from numbers."""
    types = arrow().core.types
    held = kind.value_type if types.is_dictionary(kind) else kind
    if any(tell(held) for tell in (types.is_string, types.is_large_string, types.is_string_view)):
        return True
    numbers = (types.is_floating, types.is_integer, types.is_decimal, types.is_null)
    if any(tell(held) for tell in numbers):
        return False
    raise QuantityError(
        "Q104",
        value=f"a column of {kind}",
        expected="numbers, or texts of a number and a unit",
        remedy="convert the column; one that is no figure is named in keep",
        key=path,
    )


def _no_figure(kinds: Kinds) -> SchemaError:
    path, (kind, _) = next(iter(kinds.items()))
    return SchemaError(
        "S202",
        value="no column of figures",
        expected="at least one",
        remedy=f"name a column like '{path} [{kind.units[0]}]'",
        key="table",
    )

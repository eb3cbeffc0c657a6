"""Tests of `fill`: what becomes of each kind of cell in each kind of field."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from barwright.registry.importing.fill import Filled, Filler
from barwright.registry.importing.heading import Heading
from barwright.registry.importing.table import Row, Table
from barwright.registry.importing.table_map import TableMap
from each_case import each_case


def filled(
    kind: str,
    template: dict[str, Any],
    *,
    decimal: str = ".",
    empty: str = "unknown",
    **cells: str,
) -> list[Filled]:
    """Records of one row; a column's name has ``__`` before its unit."""
    columns = tuple(Heading(*name.split("__")) for name in cells)
    table = Table("vans.csv", columns, (Row(2, tuple(cells.values())),))
    mapping = TableMap(
        name="map.toml",
        header={},
        separator=",",
        decimal=decimal,
        empty=empty,
        records=((kind, template),),
    )
    return list(Filler(table, mapping).records(table.rows[0]))


def one(template: dict[str, Any], kind: str = "bar", **cells: str) -> dict[str, Any]:
    (record,) = filled(kind, template, **cells)
    return record.table


@each_case(
    "template, cell, text",
    [
        ("{d}", "23.1", "23.1 mm"),
        ("{d}", "23", "23 mm"),
        ("{d}", "1e3", "1e3 mm"),
        ("{d}", "-0.5", "-0.5 mm"),
        ("{d} ± 0.05 mm", "23.1", "23.1 mm ± 0.05 mm"),
        ("{d}", "23.1 ± 0.05", "23.1 mm ± 0.05 mm"),
        ("{d}", "23.1 in", "23.1 in"),
        ("{d}", "about 23", "about 23"),
        ("{d}", "unknown", "unknown"),
        ("{d}", "", "unknown"),
        ("{d} ± 0.05 mm", "", "unknown"),
        ("5 mm", "23.1", "5 mm"),
    ],
)
def test_a_figure_takes_the_unit_of_its_heading(template: str, cell: str, text: str) -> None:
    assert one({"diameter": template}, d__mm=cell) == {"diameter": text}


def test_a_figure_without_a_unit_in_the_heading_takes_that_of_the_map() -> None:
    assert one({"diameter": "{d} mm"}, d="23.1") == {"diameter": "23.1 mm"}


def test_a_comma_before_decimals_is_read_where_the_map_says_so() -> None:
    template = {"diameter": "{d}", "title": "{d}"}
    kept = one(template, d__mm="23,1 ± 0,05")
    assert kept == {"diameter": "23,1 mm ± 0,05 mm", "title": "23,1 ± 0,05"}
    (read,) = filled("bar", template, decimal=",", d__mm="23,1 ± 0,05")
    assert read.table == {"diameter": "23.1 mm ± 0.05 mm", "title": "23,1 ± 0,05"}


def test_what_is_written_alike_in_two_places_is_read_by_its_field() -> None:
    """A whole number is a count in one field and a text in another."""
    template = {
        "title": "{n}",
        "preset": "{yes}",
        "arm_end": {"teeth": "{n}", "form": "{n}", "blanks": ["{n}", 0]},
    }

    table = one(template, n="39", yes="TRUE")

    assert table["arm_end"] == {"teeth": 39, "form": "39", "blanks": [39, 0]}
    assert (table["title"], table["preset"]) == ("39", True)


def test_what_is_no_number_is_left_to_the_loader() -> None:
    template = {"arm_end": {"teeth": "{n}"}, "preset": "{n}"}

    assert one(template, n="3.5") == {"arm_end": {"teeth": "3.5"}, "preset": "3.5"}


def test_directions_are_numbers() -> None:
    template = {"axles": [{"bar_axis": ["{x}", "{y}", 0]}]}

    table = one(template, kind="chassis", x="0.5", y="-1")

    assert table == {"axles": [{"bar_axis": [0.5, -1.0, 0]}]}


@pytest.mark.parametrize(
    ("cell", "spelled"),
    [
        ("FC-1", "fc-1"),
        ("FC 1 / long", "fc-1-long"),
        ("  Ä 7 ", "7"),
        ("2.5-", "2.5"),
    ],
)
def test_a_cell_in_an_id_or_a_reference_is_spelled_as_one(cell: str, spelled: str) -> None:
    template = {
        "id": "van-{c}",
        "title": "{c}",
        "axles": [{"left": {"bar": "bar/{c}", "anchor": "{c}"}}],
    }

    table = one(template, kind="chassis", c=cell)

    assert table["id"] == f"van-{spelled}"
    assert table["title"] == cell
    assert table["axles"][0]["left"] == {"bar": f"bar/{spelled}", "anchor": spelled}


def test_an_empty_cell_leaves_out_a_word_and_makes_a_figure_unknown() -> None:
    template = {
        "id": "a",
        "trim": "{c}",
        "codes": ["{c}", "X"],
        "wheelbase": "{c} mm",
        "axles": [{"left": {"adjuster": "adjuster/{c}"}}],
    }

    table = one(template, kind="chassis", c="")

    assert table == {
        "id": "a",
        "codes": ["X"],
        "wheelbase": "unknown",
        "axles": [{"left": {}}],
    }


def test_none_leaves_out_a_figure_and_is_a_word_like_others() -> None:
    template = {"bore": "{c}", "drive": "{c}"}

    assert one(template, kind="chassis", c="none") == {"bore": "none", "drive": "none"}
    assert one({"id": "a", "bore": "{c}"}, c="none") == {"id": "a"}


def test_an_empty_cell_can_mean_none() -> None:
    (record,) = filled("bar", {"id": "a", "bore": "{c}"}, empty="none", c="")
    assert record.table == {"id": "a"}
    (record,) = filled("bar", {"id": "a", "bore": "{c}"}, empty="none", c="unknown")
    assert record.table == {"id": "a", "bore": "unknown"}


GAS = {"id": "a", "gas": {"force": "{f}", "at_length": "{l}", "slope": "{s}"}}


def test_a_table_without_what_it_cannot_do_without_is_left_out() -> None:
    none = {"f": "none", "l__mm": "none", "s": "none"}
    assert one(GAS, kind="damper", **none) == {"id": "a"}
    empty = {"f__N": "190", "l__mm": "", "s": "none"}
    assert one(GAS, kind="damper", **empty)["gas"] == {"force": "190 N", "at_length": "unknown"}


def test_a_record_without_an_id_or_a_figure_that_it_needs_is_not_made() -> None:
    template = {"id": "{c}", "diameter": "{d}"}

    assert filled("bar", template, c="", d="3") == []
    assert filled("bar", template, c="x", d="none") == []
    assert len(filled("bar", template, c="x", d="")) == 1


@pytest.mark.parametrize(
    ("cells", "is_known"),
    [({"f": "190 N", "l": "590 mm"}, True), ({"f": "190 N", "l": ""}, False)],
)
def test_a_record_with_an_unknown_figure_says_so(cells: dict[str, str], *, is_known: bool) -> None:
    template = {
        "id": "a",
        "open_length": "5 mm",
        "closed_length": "3 mm",
        "gas": {"force": "{f}", "at_length": "{l}"},
    }
    (record,) = filled("damper", template, **cells)
    assert record.is_known is is_known
    del template["open_length"]
    (record,) = filled("damper", template, **cells)
    assert not record.is_known


def test_a_record_that_names_no_column_is_constant() -> None:
    (constant,) = filled("bar", {"id": "a", "arm_end": {"teeth": 39}}, c="x")
    (other,) = filled("bar", {"id": "a", "arm_end": {"form": "{c}"}}, c="x")

    assert (constant.is_constant, other.is_constant) == (True, False)


def test_a_figure_with_a_source_of_its_own_is_read_as_one() -> None:
    template = {"arm_end": {"teeth": {"is": "{n}", "source": "bench", "at": "sheet {n}"}}}

    table = one(template, n="39")

    assert table["arm_end"]["teeth"] == {"is": 39, "source": "bench", "at": "sheet 39"}


def test_a_figure_that_differs_left_and_right_is_read_as_two() -> None:
    template = {"wheelbase": {"left": "{l}", "right": {"is": "{r}", "source": "bench"}}}

    table = one(template, kind="chassis", l__mm="2432", r__mm="2402")

    right = {"is": "2402 mm", "source": "bench"}
    assert table == {"wheelbase": {"left": "2432 mm", "right": right}}


def test_records_that_another_is_like_or_replaces_are_named_by_their_ids() -> None:
    template = {"like": "chassis/{c}", "replaces": ["chassis/{c}"], "numbers": {"works": "{c}"}}

    table = one(template, kind="chassis", c="FC 1")

    assert table["like"] == "chassis/fc-1"
    assert table["replaces"] == ["chassis/fc-1"]
    assert table["numbers"] == {"works": "FC 1"}


def test_keys_that_no_record_has_are_left_to_the_loader() -> None:
    template = {"colour": "{c}", "gas": {"colour": {"of": "{c}"}}, "axles": {"kind": "{c}"}}

    table = one(template, kind="damper", c="red")

    assert table == {"colour": "red", "gas": {"colour": {"of": "red"}}, "axles": {"kind": "red"}}


def test_text_in_braces_that_is_no_column_stays() -> None:
    assert one({"title": "{} {"}, c="x") == {"title": "{} {"}


@pytest.mark.parametrize(
    "cell", ["=A1*2", "@SUM(A1)", "#REF!", "#N/A", "#DIV/0!", '=HYPERLINK("x")']
)
def test_a_formula_is_refused_and_never_computed(cell: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        one({"title": "{c}"}, c=cell)

    assert (caught.value.code, caught.value.key) == ("S203", "c")
    assert caught.value.expected == "a value"
    assert "in the place of formulas" in caught.value.remedy


def test_a_formula_in_a_column_that_is_not_used_does_not_matter() -> None:
    assert one({"title": "{c}"}, c="x", d="=A1") == {"title": "x"}


def test_a_cell_longer_than_any_is_refused() -> None:
    assert one({"title": "{c}"}, c="x" * 500) == {"title": "x" * 500}
    with pytest.raises(bw.SchemaError, match="at most 500 characters"):
        one({"title": "{c}"}, c="x" * 501)


def test_a_row_with_another_number_of_cells_is_refused() -> None:
    table = Table("vans.csv", (Heading("c"), Heading("d")), (Row(2, ("x",)),))
    mapping = TableMap(
        name="m", header={}, separator=",", decimal=".", empty="none", records=(("bar", {}),)
    )

    with pytest.raises(bw.SchemaError) as caught:
        list(Filler(table, mapping).records(table.rows[0]))

    assert caught.value.value == "1 cells"

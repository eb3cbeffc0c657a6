"""Tests of `fields`: what stands behind each key of a record."""

from __future__ import annotations

import attrs
import pytest

from barwright.parts.bar import Bar
from barwright.parts.chassis import Axle, Chassis, StandardParts
from barwright.parts.common.fields import figure_fields
from barwright.parts.damper import Damper, GasCharge
from barwright.parts.spline import BarEnd
from barwright.parts.suspension import StrutMounting
from barwright.registry.importing.fields import Leaf, fields_of, table_class
from barwright.registry.packs.format.keys import key_of
from barwright.registry.packs.format.pack import KINDS
from each_case import each_case


@each_case(
    "cls, key, leaf",
    [
        (Bar, "id", Leaf.ID),
        (Bar, "title", Leaf.TEXT),
        (Bar, "diameter", Leaf.FIGURE),
        (Bar, "bore", Leaf.FIGURE),
        (Bar, "material", Leaf.ID),
        (Bar, "preset", Leaf.TRUTH),
        (BarEnd, "teeth", Leaf.COUNT),
        (BarEnd, "form", Leaf.TEXT),
        (BarEnd, "blanks", Leaf.WHOLE),
        (Axle, "bar_axis", Leaf.NUMBER),
        (Axle, "place", Leaf.TEXT),
        (Chassis, "codes", Leaf.TEXT),
        (StandardParts, "tube", Leaf.ID),
        (StandardParts, "anchor", Leaf.ID),
        (StandardParts, "adjuster", Leaf.ID),
    ],
)
def test_how_a_text_is_read(cls: type, key: str, leaf: Leaf) -> None:
    assert fields_of(cls)[key][0] is leaf


@pytest.mark.parametrize("cls", KINDS.values())
def test_every_field_of_every_record_is_known(cls: type) -> None:
    fields = fields_of(cls)

    assert {key_of(field.name) for field in attrs.fields(cls)} <= fields.keys()
    figures = {key_of(name) for name in figure_fields(cls)}
    assert figures == {key for key, (leaf, _) in fields.items() if leaf is Leaf.FIGURE}


@pytest.mark.parametrize(
    ("cls", "key", "table", "expected"),
    [
        (Bar, "arm_end", {}, BarEnd),
        (Damper, "gas", {}, GasCharge),
        (Chassis, "axles", {}, Axle),
        (Axle, "left", {}, StandardParts),
        (Axle, "suspension", {"kind": "strut"}, StrutMounting),
        (Axle, "suspension", {"kind": "leaf"}, None),
        (Axle, "suspension", {}, None),
        (Bar, "title", {}, None),
    ],
)
def test_the_class_of_a_table(
    cls: type, key: str, table: dict[str, str], expected: type | None
) -> None:
    assert table_class(fields_of(cls)[key][1], table) is expected

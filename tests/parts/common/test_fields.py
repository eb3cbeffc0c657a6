"""Tests of `barwright.parts.common.fields`: what a field of a record takes, and what it refuses."""

from __future__ import annotations

import typing
from typing import Any, get_args

import attrs
import pytest

import barwright as bw
from barwright import units
from barwright.parts.common import fields
from barwright.parts.common.fields import count, figure_fields, named, size, turns_left_or_none
from barwright.parts.common.record import Record
from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.registry.jobs.keys import LoadKeys, PresentKeys, WantedKeys

Q = bw.Quantity


@attrs.frozen(kw_only=True, field_transformer=named)
class Part(Record):
    """A record with one of each kind of field."""

    size: Any = attrs.field(converter=size)
    maybe: Any = attrs.field(default=None, converter=turns_left_or_none)
    teeth: Any = attrs.field(default=36, converter=count)
    note: str = ""


@pytest.mark.parametrize("value", [36.0, "36", True, False, 0, -1, None, 10_000, [36]])
def test_a_count_is_a_whole_number_above_zero_and_nothing_like_it(value: Any) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        Part(size="25 mm", teeth=value)

    assert (caught.value.code, caught.value.key) == ("S203", "teeth")
    assert "like 36" in caught.value.remedy


def test_a_count_of_thousands_of_digits_is_refused_like_any_other() -> None:
    with pytest.raises(bw.SchemaError, match="too large to show"):
        Part(size="25 mm", teeth=16**5000)


@pytest.mark.parametrize("value", [1, 36, 9999])
def test_counts_that_are_taken(value: int) -> None:
    assert Part(size="25 mm", teeth=value).teeth == value


@pytest.mark.parametrize(
    ("field", "right", "wrong", "code"),
    [
        ("size", "1 mm", "0 mm", "Q302"),
        ("size", "1 mm", "-1 mm", "Q302"),
        ("size", "1 mm", "nan mm", "Q301"),
        ("size", "1 mm", "1 kg", "Q202"),
        ("size", "1 mm", 25, "Q105"),
        ("size", "1 mm", None, "Q104"),
        ("size_or_zero", "0 mm", "-1 mm", "Q302"),
        ("length", "-1 mm", "1 deg", "Q202"),
        ("angle", "-1 deg", "1 turn", "Q202"),
        ("turns", "-1 turn", "1 deg", "Q202"),
        ("mass", "1 kg", "0 kg", "Q302"),
        ("force", "0 N", "-1 N", "Q302"),
        ("rate", "1 N/mm", "0 N/mm", "Q302"),
        ("gas_slope", "-1 N/mm", "1 N", "Q202"),
        ("torsional_rate", "1 N*m/deg", "0 N*m/deg", "Q302"),
        ("torsional_rate", "1 N*m/deg", "1 N*m", "Q202"),
        ("damping_rate", "0 N*s/m", "-1 N*s/m", "Q302"),
        ("damping_rate", "1 N*s/mm", "1 N/mm", "Q202"),
        ("shear_modulus", "77 GPa", "-77 GPa", "Q302"),
        ("stress", "900 MPa", "0 MPa", "Q302"),
    ],
)
def test_each_kind_of_field_has_its_range(field: str, right: str, wrong: Any, code: str) -> None:
    read = getattr(fields, field)

    assert read(right) == Q(right)
    with pytest.raises(bw.QuantityError) as caught:
        read(wrong)
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("change", "key"),
    [({"size": "25"}, "size"), ({"maybe": "1"}, "maybe"), ({"teeth": 0}, "teeth")],
)
def test_an_error_names_its_field(change: dict[str, Any], key: str) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        Part(**{"size": "25 mm", **change})

    assert caught.value.key == key


def test_a_field_that_may_be_left_out_may_be_none() -> None:
    assert Part(size="25 mm").maybe is None
    assert Part(size="25 mm", maybe="2 turn").maybe == Q(2.0, "turn")


def test_figures_of_a_record_are_known_by_name() -> None:
    assert {name: kind.name for name, (kind, _) in figure_fields(Part).items()} == {
        "size": "length",
        "maybe": "number of nut turns",
    }
    assert set(figure_fields(bw.parts.Chassis)) == {"wheelbase"}
    assert "teeth" not in figure_fields(bw.parts.BarEnd)


@pytest.mark.parametrize(
    ("field", "right", "kind"),
    [
        ("size", "1 mm", units.LENGTH),
        ("size_or_zero", "0 mm", units.LENGTH),
        ("length", "-1 mm", units.LENGTH),
        ("angle", "-1 deg", units.ANGLE),
        ("twist", "1 deg", units.ANGLE),
        ("turns_left", "1 turn", units.TURNS),
        ("mass", "1 kg", units.MASS),
        ("damping_rate", "1 N*s/mm", units.DAMPING_RATE),
        ("stress", "1 MPa", units.STRESS),
        ("density", "1 kg/m**3", units.DENSITY),
    ],
)
def test_a_figure_that_may_be_left_out_is_of_its_kind(
    field: str, right: str, kind: units.Kind
) -> None:
    or_none = getattr(fields, f"{field}_or_none")
    held = attrs.make_class(
        "Held",
        {"given": attrs.field(converter=getattr(fields, field)), "maybe": or_none_field(or_none)},
        field_transformer=named,
        kw_only=True,
    )

    assert or_none(None) is None
    assert or_none(right) == Q(right)
    with pytest.raises(bw.QuantityError):
        or_none("1 K")
    both = figure_fields(held)
    assert both["maybe"] == both["given"]
    assert both["maybe"][0] == kind


def or_none_field(converter: Any) -> Any:
    """A field that may be left out."""
    return attrs.field(default=None, converter=converter)


@pytest.mark.parametrize(
    "cls",
    [
        *DEFINITION_NAMES,
        *(LoadKeys, PresentKeys, WantedKeys),
        *(bw.Wanted, bw.StrengthLimits, bw.WoehlerLine, bw.answers.StressLimit),
    ],
    ids=lambda cls: str(cls.__name__),
)
def test_every_figure_of_a_record_says_its_kind(cls: type[Any]) -> None:
    """A converter that the table of kinds does not list would leave a figure without any."""
    hints = typing.get_type_hints(cls)
    holding = {name for name, hint in hints.items() if bw.Quantity in (hint, *get_args(hint))}

    assert set(figure_fields(cls)) == holding

"""Tests of `barwright.parts.source`: fields that read figures, and what is known beside them."""

from __future__ import annotations

import pickle
from typing import Any

import attrs
import pint
import pytest

import barwright as bw
from barwright.parts import source
from barwright.parts.source import Record, count, figure_fields, named, size, turns
from making import make_bar, make_end, make_setup

Q = bw.Quantity


@attrs.frozen(kw_only=True, field_transformer=named)
class Part(Record):
    """A record with one of each kind of field."""

    size: Any = attrs.field(converter=size)
    maybe: Any = attrs.field(default=None, converter=attrs.converters.optional(turns))
    teeth: Any = attrs.field(default=36, converter=count)
    note: str = ""


KNOWN = bw.Figure(
    value=Q(25.0, "mm"),
    tolerance=Q(0.1, "mm"),
    source="fells:bench",
    source_kind=bw.SourceKind.MEASURED,
    at="sheet 2",
    file="bars.toml",
    key="one.size",
)


def known_part(**change: Any) -> Part:
    """A part of whose size more is known than its value."""
    return Part(**({"size": "25 mm", "about": bw.About({"size": KNOWN})} | change))


# -- Fields ----------------------------------------------------------------------------


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
    read = getattr(source, field)

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
        known_part(**change)

    assert caught.value.key == key


def test_a_field_that_may_be_left_out_may_be_none() -> None:
    assert Part(size="25 mm").maybe is None
    assert Part(size="25 mm", maybe="2 turn").maybe == Q(2.0, "turn")


def test_figures_of_a_record_are_known_by_name() -> None:
    assert {name: kind.name for name, (kind, _) in figure_fields(Part).items()} == {
        "size": "length",
        "maybe": "number of nut turns",
    }
    assert set(figure_fields(bw.Chassis)) == {"wheelbase"}
    assert "teeth" not in figure_fields(bw.BarEnd)


# -- What is known of a figure ------------------------------------------------------------


def test_what_is_known_of_a_figure_is_kept() -> None:
    assert known_part().about["size"] == KNOWN


def test_a_figure_that_nobody_speaks_of_is_the_callers() -> None:
    assert Part(size="25 mm").about["size"] == bw.Figure(value=Q(25.0, "mm"), source="caller")


def test_a_figure_that_is_left_out_has_no_entry() -> None:
    assert set(Part(size="25 mm").about) == {"size"}
    assert set(Part(size="25 mm", maybe="1 turn").about) == {"size", "maybe"}


def test_a_figure_that_is_replaced_becomes_the_callers() -> None:
    changed = attrs.evolve(known_part(), size="26 mm")

    assert changed.about["size"] == bw.Figure(value=Q(26.0, "mm"))
    assert (changed.about["size"].tolerance, changed.about["size"].source) == (None, "caller")


def test_another_field_that_is_replaced_leaves_what_is_known() -> None:
    assert attrs.evolve(known_part(), note="x").about["size"] == KNOWN


def test_an_entry_of_no_field_is_dropped() -> None:
    part = known_part(about=bw.About({"size": KNOWN, "weight": KNOWN, "note": KNOWN}))

    assert set(part.about) == {"size"}


def test_an_entry_of_another_registry_is_dropped_where_its_value_differs() -> None:
    foreign = bw.Figure(value=pint.UnitRegistry().Quantity(24.0, "mm"), source="x:y")

    assert known_part(about=bw.About({"size": foreign})).about["size"].source == "caller"


def test_what_is_known_names_its_fields() -> None:
    about = known_part().about
    assert repr(about) == "About(size)"
    assert (list(about), len(about)) == (["size"], 1)


def test_what_is_known_is_outside_equality_and_text() -> None:
    assert known_part() == Part(size="25 mm")
    assert hash(attrs.evolve(make_bar())) == hash(make_bar())
    assert "about" not in repr(known_part())
    assert "bench" not in repr(known_part())


def test_what_is_known_cannot_be_changed() -> None:
    about: Any = known_part().about

    with pytest.raises(TypeError):
        about["size"] = KNOWN
    with pytest.raises(TypeError):
        del about["size"]
    with pytest.raises(AttributeError):
        about.size = KNOWN
    with pytest.raises(attrs.exceptions.FrozenInstanceError):
        about["size"].tolerance = None


def test_a_dictionary_that_it_was_made_from_is_copied() -> None:
    figures = {"size": KNOWN}
    about = bw.About(figures)

    figures.clear()

    assert dict(about) == {"size": KNOWN}


def test_what_is_known_survives_pickling() -> None:
    again = pickle.loads(pickle.dumps(known_part().about))  # noqa: S301 - our own bytes

    assert isinstance(again, bw.About)
    assert dict(again) == {"size": KNOWN}
    assert repr(again) == "About(size)"


def test_a_record_inside_a_record_keeps_its_own() -> None:
    bar = make_bar(arm_end=make_end(39, length="37 mm"))

    assert bar.arm_end.about["length"].value == Q(37.0, "mm")
    assert "arm_end" not in bar.about


def test_a_whole_setup_survives_pickling() -> None:
    setup = make_setup()

    again = pickle.loads(pickle.dumps(setup))  # noqa: S301 - our own bytes

    assert again == setup
    assert dict(again.bar.about) == dict(setup.bar.about)

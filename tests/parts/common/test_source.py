"""Tests of `barwright.parts.common.source`: what is known of a figure beside its value."""

from __future__ import annotations

import pickle
from typing import Any

import attrs
import pint
import pytest

import barwright as bw
from barwright.parts.common.fields import named, size, turns_left_or_none
from barwright.parts.common.record import Record
from sample_records import make_bar, make_end, make_setup

Q = bw.Quantity


@attrs.frozen(kw_only=True, field_transformer=named)
class Part(Record):
    """A record of two figures, of which one may be left out, and a text."""

    size: Any = attrs.field(converter=size)
    maybe: Any = attrs.field(default=None, converter=turns_left_or_none)
    note: str = ""


KNOWN = bw.parts.Figure(
    value=Q(25.0, "mm"),
    tolerance=Q(0.1, "mm"),
    source="fells:bench",
    source_kind=bw.parts.SourceKind.MEASURED,
    at="sheet 2",
    file="bars.toml",
    key="one.size",
)


def known_part(**change: Any) -> Part:
    """A part of whose size more is known than its value."""
    return Part(**({"size": "25 mm", "about": bw.parts.About({"size": KNOWN})} | change))


def test_what_is_known_of_a_figure_is_kept() -> None:
    assert known_part().about["size"] == KNOWN


def test_a_figure_that_nobody_speaks_of_is_the_callers() -> None:
    assert Part(size="25 mm").about["size"] == bw.parts.Figure(value=Q(25.0, "mm"), source="caller")


def test_a_figure_that_is_left_out_has_no_entry() -> None:
    assert set(Part(size="25 mm").about) == {"size"}
    assert set(Part(size="25 mm", maybe="1 turn").about) == {"size", "maybe"}


def test_a_figure_that_is_replaced_becomes_the_callers() -> None:
    changed = attrs.evolve(known_part(), size="26 mm")

    assert changed.about["size"] == bw.parts.Figure(value=Q(26.0, "mm"))
    assert (changed.about["size"].tolerance, changed.about["size"].source) == (None, "caller")


def test_another_field_that_is_replaced_leaves_what_is_known() -> None:
    assert attrs.evolve(known_part(), note="x").about["size"] == KNOWN


def test_an_entry_of_no_field_is_dropped() -> None:
    part = known_part(about=bw.parts.About({"size": KNOWN, "weight": KNOWN, "note": KNOWN}))

    assert set(part.about) == {"size"}


def test_an_entry_of_another_registry_is_dropped_where_its_value_differs() -> None:
    foreign = bw.parts.Figure(value=pint.UnitRegistry().Quantity(24.0, "mm"), source="x:y")

    assert known_part(about=bw.parts.About({"size": foreign})).about["size"].source == "caller"


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
    about = bw.parts.About(figures)

    figures.clear()

    assert dict(about) == {"size": KNOWN}


def test_what_is_known_survives_pickling() -> None:
    again = pickle.loads(pickle.dumps(known_part().about))  # noqa: S301 - our own bytes

    assert isinstance(again, bw.parts.About)
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


# -- Facts ---------------------------------------------------------------------------

NOTE = bw.parts.Fact(value="x", source="fells:bench", at="sheet 2")


def test_what_is_known_of_a_fact_is_kept_while_it_is_true() -> None:
    part = known_part(note="x", about=bw.parts.About({"size": KNOWN, "note": NOTE}))

    assert part.about["note"] == NOTE
    assert attrs.evolve(part, size="26 mm").about["note"] == NOTE
    assert "note" not in attrs.evolve(part, note="y").about
    assert pickle.loads(pickle.dumps(part)).about["note"] == NOTE  # noqa: S301 - our own bytes


def test_an_unknown_figure_may_say_where_it_was_looked_for() -> None:
    searched = bw.parts.Fact(value="unknown", source="fells:bench")
    part = Part(size="unknown", about=bw.parts.About({"size": searched}))

    assert part.about["size"] == searched
    assert part.described({}).about["size"] == searched
    found = attrs.evolve(part, size="25 mm").about["size"]
    assert (found.value, found.source) == (Q(25.0, "mm"), "caller")


def test_a_fact_is_told_in_a_line() -> None:
    assert "value x" in repr(NOTE)


# -- Estimates -----------------------------------------------------------------------


def test_an_estimate_without_a_range_is_refused() -> None:
    with pytest.raises(bw.QuantityError) as caught:
        attrs.evolve(KNOWN, source_kind=bw.parts.SourceKind.ESTIMATED, tolerance=None)

    assert (caught.value.code, caught.value.value) == ("Q304", "25 mm")
    assert "±" in caught.value.remedy


@pytest.mark.parametrize("kind", bw.parts.SourceKind)
def test_a_figure_of_any_kind_may_have_a_range(kind: bw.parts.SourceKind) -> None:
    assert attrs.evolve(KNOWN, source_kind=kind).tolerance == KNOWN.tolerance


@pytest.mark.parametrize(
    "kind",
    [None, *(kind for kind in bw.parts.SourceKind if kind is not bw.parts.SourceKind.ESTIMATED)],
)
def test_what_is_not_estimated_may_lack_one(kind: bw.parts.SourceKind | None) -> None:
    assert attrs.evolve(KNOWN, source_kind=kind, tolerance=None).tolerance is None

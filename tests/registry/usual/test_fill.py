"""Tests of usual figures in the place of unknown ones."""

from __future__ import annotations

from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.analysis.tolerance.figures import held_figures
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Record
from barwright.registry.usual.catalogue import usual_ranges
from barwright.registry.usual.fill import UsualFigures
from barwright.units import is_unknown
from sample_packs import discovered_once

SETUP = discovered_once().setup("fells:chassis/short", corner="front left")
OFFERED = {(one.holder, one.field) for one in usual_ranges()}


def lacking(value: Any, *fields: str, done: dict[int, Any] | None = None) -> Any:
    """A setup or a record with some fields unknown, in all its records."""
    done = {} if done is None else done
    if isinstance(value, tuple):
        return tuple(lacking(item, *fields, done=done) for item in value)
    if not attrs.has(type(value)):
        return value
    if id(value) not in done:
        own = {f.name: getattr(value, f.name) for f in attrs.fields(type(value))}
        changes = {n: lacking(one, *fields, done=done) for n, one in own.items()}
        figures = figure_fields(type(value)) if isinstance(value, Record) else {}
        changes |= {n: "unknown" for n in fields if n in figures and own[n] is not None}
        done[id(value)] = attrs.evolve(value, **changes)
    return done[id(value)]


def filled(*fields: str) -> bw.Setup:
    """The corner with usual figures in some fields that were unknown."""
    setup = bw.with_usual(lacking(SETUP, *fields))
    assert isinstance(setup, bw.Setup)
    return setup


def test_a_usual_figure_takes_the_place_of_an_unknown_one() -> None:
    axle = filled("tyre_rate").axle
    figure = axle.about["tyre_rate"]

    assert axle.tyre_rate.m_as("N/mm") == 210.0
    assert figure.tolerance is not None
    assert figure.tolerance.m_as("N/mm") == 90.0
    assert figure.source == "standards:usual/tyre-rate"
    assert figure.source_kind is bw.parts.SourceKind.ESTIMATED
    # What is known beside it stays.
    assert axle.about["droop_stop"] == SETUP.axle.about["droop_stop"]


def test_what_is_known_stays_as_it_is() -> None:
    assert bw.with_usual(SETUP) is SETUP


@pytest.mark.parametrize("field", ["droop_stop", "key_angle", "open_length", "measured_height"])
def test_what_the_catalogue_does_not_have_stays_unknown(field: str) -> None:
    setup = lacking(SETUP, field)
    assert bw.with_usual(setup) is setup


@given(fields=st.sets(st.sampled_from(sorted({f for _, f in OFFERED} | {"droop_stop", "length"}))))
def test_exactly_the_unknown_figures_of_the_catalogue_are_put_in(fields: set[str]) -> None:
    before = {one.path: one for one in held_figures(SETUP)}
    after = {one.path: one for one in held_figures(filled(*(fields - {"droop_stop", "length"})))}

    for path, one in after.items():
        offered = (type(one.holder), one.field) in OFFERED and one.field in fields
        assert (one.known is not None and one.known.source.startswith("standards:usual/")) is (
            offered
        ), path
        if not offered:
            assert one.value == before[path].value


def test_a_figure_counts_once_wherever_its_record_stands() -> None:
    setup = filled("tyre_rate", "shear_modulus", "closed_length")
    names = [one.path for one in held_figures(setup) if one.known and "usual" in one.known.source]

    assert setup.axle is setup.chassis.axles[0]
    assert setup.bar is setup.axle.left.bar
    assert {"axle.tyre_rate", "damper.closed_length", "bar.material.shear_modulus"} <= set(names)
    assert len([name for name in names if name.endswith("tyre_rate")]) == 1


def test_setups_that_share_a_record_share_it_still() -> None:
    fill, holed = UsualFigures(), lacking(SETUP, "tyre_rate")
    other = attrs.evolve(holed, nut_turns="1 turn")

    assert fill.put_into(holed).axle is fill.put_into(other).axle


def test_a_figure_that_grows_with_an_unknown_one_stays_unknown() -> None:
    damper = attrs.evolve(SETUP.damper, open_length="unknown", closed_length="unknown")

    assert UsualFigures().put_into(damper) is damper


def test_a_figure_that_no_such_part_can_have_stays_unknown() -> None:
    """A thread that is no longer than the usual nut on it."""
    adjuster = SETUP.adjuster
    assert adjuster is not None
    short = attrs.evolve(adjuster, thread_start="50 mm", thread_end="59 mm", nut_height="unknown")
    assert is_unknown(UsualFigures().put_into(short).nut_height)


def test_the_uncertainty_of_an_answer_carries_it() -> None:
    def shares(setup: bw.Setup) -> set[str]:
        rows = bw.tolerance(bw.rates, setup).rows
        return {share.figure for row in rows for share in row.shares}

    assert "axle.tyre_rate" not in shares(SETUP)
    assert "axle.tyre_rate" in shares(filled("tyre_rate"))


@pytest.mark.parametrize("field", ["tyre_rate", "shear_modulus"])
def test_the_answer_names_it_if_it_moves_it(field: str) -> None:
    found = bw.rests_on(filled(field), questions=[lambda corner: corner.axle.tyre_rate])
    named = [one.source for one in found if one.kind == "estimated"]

    assert named == (["standards:usual/tyre-rate"] if field == "tyre_rate" else [])

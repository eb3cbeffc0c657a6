"""Every public class tells itself in one line."""

from __future__ import annotations

import inspect
import types
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.parts.common.in_short import Summarised, said_in_short
from barwright.units import unknown, unknown_count
from sample_packs import discovered_once
from sample_records import make_bar, make_setup

CLASSES = [
    found
    for room in (bw, bw.answers, bw.parts)
    for name in room.__all__
    if inspect.isclass(found := getattr(room, name))
    and attrs.has(found)
    and not issubclass(found, BaseException)
]


@pytest.mark.parametrize("cls", CLASSES, ids=lambda cls: cls.__name__)
def test_a_public_class_is_told_in_short(cls: type[Any]) -> None:
    own = cls.__dict__.get("__repr__")
    assert issubclass(cls, Summarised) or own is not None
    if issubclass(cls, Summarised):
        assert own is None, "attrs writes all its fields; leave it to the base with repr=False"


def everything() -> list[object]:
    """Answers, records, a job and a sheet, and all that is in them."""
    registry = discovered_once()
    job = bw.load_job("docs/examples/shorter-dampers.toml", registry)
    setup = job.corners[0].setup
    found: list[Any] = [
        job,
        registry,
        bw.bench_sheet(job),
        bw.tolerance(bw.rates, setup),
        bw.trail(setup, source=registry.source),
        bw.strength(setup, travel="40 mm", history=["0 mm", "40 mm", "-20 mm"]),
        bw.check_job("docs/examples/firmer-bars.toml", registry),
        bw.lint_pack("tests/specimens/packs/poor"),
        bw.lock_of(registry),
        *registry.vehicles(),
        *registry.parts(),
    ]
    for value in found:
        if attrs.has(type(value)):
            inner = [getattr(value, field.name) for field in attrs.fields(type(value))]
            flat = [one for part in inner for one in (part if isinstance(part, tuple) else [part])]
            found += [one for one in flat if attrs.has(type(one)) and one not in (None, registry)]
        if len(found) > 3000:
            break
    return found


def test_whatever_there_is_takes_one_line() -> None:
    seen = set()
    for value in everything():
        if isinstance(value, Summarised):
            seen.add(type(value))
            line = repr(value)
            assert len(line) <= 140
            assert line.isprintable()
            assert line.startswith(f"<{type(value).__name__}")
    assert len(seen) > 40


def test_an_answer_is_told_by_its_headline_and_a_record_by_its_name() -> None:
    setup = make_setup(bar=make_bar(title="Bar\nof\x1b[31m ours"))
    answer = bw.length_fit(setup)
    assert repr(answer) == f"<LengthFit: {answer.headline}>"
    assert repr(setup.bar) == "<Bar: t:bar/one, Bar of\ufffd[31m ours>"
    assert repr(setup) == "<Setup: Chassis, front left, Bar of\ufffd[31m ours>"
    plan = bw.reindex(make_setup()).plans[0]
    assert repr(plan).startswith(f"<Plan: {plan.summary[:30]}")
    assert repr(bw.Wanted()).startswith("<Wanted")
    assert repr(discovered_once()).startswith("<Registry of fells, hodmule, trundlet")


def test_a_notebook_lists_it_in_a_line() -> None:
    told: list[str] = []
    printer = types.SimpleNamespace(text=told.append)
    setup = make_setup()
    setup._repr_pretty_(printer, cycle=False)
    assert told == [repr(setup)]


def test_a_long_title_is_clipped() -> None:
    line = repr(make_bar(title="x" * 9000))
    assert line.endswith("x…>")
    assert len(line) < 120


@pytest.mark.parametrize(
    ("value", "told"),
    [
        (bw.Quantity(1.234, "mm"), "1.23 mm"),
        (bw.QuantityArray([1.0, 2.0], "mm"), "2 figures"),
        (bw.parts.Side.LEFT, "left"),
        (True, "yes"),
        (False, "no"),
        (0.123456, "0.1235"),
        (3, "3"),
        (unknown(), "unknown"),
        (unknown_count(), "unknown"),
        ("a", "a"),
        (("a", bw.parts.Side.LEFT), "a, left"),
        ((1, 2), ""),
        (None, ""),
        (object(), ""),
    ],
)
def test_a_field_is_told_if_it_is_short(value: object, told: str) -> None:
    assert said_in_short(value) == told

"""Records to TOML and back, and to JSON and back, without loss."""

from __future__ import annotations

import tomllib
from typing import Any

import attrs
import tomli_w
from hypothesis import HealthCheck, given, settings

import barwright as bw
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import NOT_IN_FILES
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.tables.structure import Structurer
from barwright.units import unit_spelling
from draws import draws
from part_identity import numbers_table
from setup_strategies import corners, identities


def as_table(value: Any) -> Any:
    """Write a record as the tables of a pack file, figures as text."""
    if isinstance(value, bw.Quantity):
        return f"{value.magnitude!r} {unit_spelling(value)}"
    if isinstance(value, tuple):
        return [as_table(item) for item in value]
    if isinstance(value, bw.parts.Month):
        return str(value)
    if hasattr(value, "value") and not attrs.has(type(value)):
        return value.value
    if not attrs.has(type(value)):
        return value
    table: dict[str, Any] = {}
    for field in attrs.fields(type(value)):
        inner = getattr(value, field.name)
        # Text that is empty is text that is not stated, and a pack leaves it out.
        if inner is None or inner == "" or field.name in NOT_IN_FILES:
            continue
        if field.name == "numbers":
            table["numbers"] = numbers_table(inner)
            continue
        # Parts inside a part are references in a pack.
        is_reference = isinstance(inner, bw.parts.Part)
        table[field.name] = inner.id if is_reference else as_table(inner)
    name = type(value).__name__.removesuffix("Mounting")
    if type(value).__name__.endswith("Mounting"):
        hyphened = "".join(f"-{c.lower()}" if c.isupper() else c for c in name)
        table["kind"] = hyphened.removeprefix("-")
    return table


@settings(max_examples=draws(40), suppress_health_check=[HealthCheck.too_slow])
@given(corners(), identities())
def test_records_survive_toml(drawn: tuple[bw.Setup, str], stated: dict[str, Any]) -> None:
    setup, _ = drawn
    chassis = attrs.evolve(setup.chassis, **stated)
    known: dict[type, dict[str, Any]] = {cls: {} for cls in KINDS.values()}
    parts = (setup.bar.material, setup.arm, setup.bar, setup.anchor, setup.adjuster, setup.damper)
    for part in (*parts, chassis):
        assert part is not None
        text = tomli_w.dumps(as_table(part))
        read = Structurer(file="t.toml", parts=known).structure(tomllib.loads(text), type(part))
        assert read == part
        assert all(
            read.about[name].value == getattr(part, name)
            for name in figure_fields(type(part))
            if getattr(part, name) is not None
        )
        known[type(part)][part.id] = read


@settings(max_examples=draws(25), suppress_health_check=[HealthCheck.too_slow])
@given(corners(), identities())
def test_records_and_jobs_survive_json(drawn: tuple[bw.Setup, str], stated: dict[str, Any]) -> None:
    setup, height = drawn
    chassis = attrs.evolve(setup.chassis, **stated)
    wanted = bw.Wanted(height=height)
    corner = bw.JobCorner(setup=setup, present=setup, wanted=wanted)
    job = bw.Job(title="t", corners=(corner,))
    for thing in (job, setup.bar, setup.anchor, chassis):
        assert bw.from_json(bw.to_json(thing)) == thing

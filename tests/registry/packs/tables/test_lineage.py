"""Tests of `barwright.registry.packs.tables.lineage`, and of corrections that go along it."""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.tables.lineage import lineage, says_like
from flawed_packs import added
from sample_overlays import correction, overlay

TABLES: Mapping[str, dict[str, Any]] = {
    "chassis/a": {"wheelbase": "1 m", "axles": [{"place": "front", "hub_up": "1 mm"}]},
    "chassis/b": {
        "like": "chassis/a",
        "axles": [{"place": "front", "tyre_rate": "1 N/mm", "suspension": {"top_up": "1 m"}}],
    },
    "chassis/c": {"like": "p:chassis/b", "without": ["axles.front.bushing", "trim"]},
    "chassis/d": {"wheelbase": "2 m", "axles": [{"place": "front", "like": "chassis/c"}]},
    "chassis/e": {"like": "chassis/d", "axles": [{"place": "front", "without": ["hub_up"]}]},
}


def entry(full_id: str) -> Entry | None:
    short = full_id.partition(":")[2]
    table = TABLES.get(short)
    if table is None:
        return None
    return Entry(id=full_id, kind="chassis", file="", key="", table=table)


@pytest.mark.parametrize(
    ("record", "figure", "line"),
    [
        ("a", "wheelbase", "a"),
        ("c", "wheelbase", "cba"),
        ("d", "wheelbase", "d"),
        ("e", "wheelbase", "ed"),
        ("c", "trim", "c"),
        ("b", "trim", "ba"),
        ("d", "axles.front.hub_up", "dcba"),
        ("e", "axles.front.hub_up", "e"),
        ("d", "axles.front.tyre_rate", "dcb"),
        ("d", "axles.front.bushing.rate", "dc"),
        ("d", "axles.front.suspension.top_up", "dcb"),
        ("d", "axles.front.suspension.offset", "dcba"),
        ("d", "axles.front", "dcba"),
        ("d", "axles.rear.hub_up", "d"),
        ("c", "axles.rear.hub_up", "cba"),
        ("x", "wheelbase", "x"),
    ],
)
def test_a_figure_comes_from_the_first_that_has_its_own_say(
    record: str, figure: str, line: str
) -> None:
    found = lineage(f"p:chassis/{record}", figure, entry)

    assert found == tuple(f"p:chassis/{name}" for name in line)


def test_a_record_says_like_itself_or_in_an_axle() -> None:
    said = [name for name, table in TABLES.items() if says_like(table)]

    assert said == ["chassis/b", "chassis/c", "chassis/d", "chassis/e"]


# -- Corrections ---------------------------------------------------------------------

THICK = """
[[bar]]
id = "thick"
title = "Thick bar"
source = "bench"
at = "page 8"
like = "bar/one"
diameter = "24.1 mm ± 0.05 mm"
"""
THIRD = """
[[bar]]
id = "third"
title = "Third bar"
source = "bench"
at = "page 8"
like = "bar/thick"
anchor_end = { nose = "2 mm ± 0.1 mm" }
"""


def corrected(tmp_path: Path, *corrections: str, more: str = "") -> bw.Registry:
    pack = added(tmp_path, THIRD, THICK, more)
    registry = bw.Registry.from_folders(pack, overlays=[overlay(tmp_path, *corrections)])
    assert registry.problems == ()
    return registry


def test_a_correction_reaches_those_that_are_like_the_record_and_says_so(tmp_path: Path) -> None:
    registry = corrected(tmp_path, correction("length", "905 mm ± 0.2 mm"))

    one, third = (registry.bar(f"bar/{name}") for name in ("one", "third"))
    assert one.length.magnitude == third.length.magnitude == 905.0
    assert one.about["length"].why == "Measured on the van."
    assert third.about["length"].why == (
        "Measured on the van. (corrected in tiny:bar/one, which tiny:bar/third is like)"
    )
    assert third.about["length"].replaces is not None
    assert third.about["length"].replaces.key == "one.length"
    again = pickle.loads(pickle.dumps(registry))  # noqa: S301 - our own
    assert again.bar("bar/third").length == third.length


def test_a_correction_passes_over_what_a_record_states_itself(tmp_path: Path) -> None:
    registry = corrected(tmp_path, correction("diameter", "23.4 mm ± 0.02 mm"))

    found = [registry.bar(f"bar/{name}").diameter.magnitude for name in ("one", "thick", "third")]
    assert found == [23.4, 24.1, 24.1]


def test_the_nearest_correction_counts(tmp_path: Path) -> None:
    registry = corrected(
        tmp_path,
        correction("length", "905 mm ± 0.2 mm", of="tiny:bar/thick"),
        correction("length", "903 mm ± 0.2 mm"),
        correction("anchor_end.taper", "27 mm ± 0.2 mm"),
        correction("anchor_end.taper", "25 mm ± 0.2 mm", of="tiny:bar/third"),
    )

    bars = [registry.bar(f"bar/{name}") for name in ("one", "thick", "third")]
    assert [bar.length.magnitude for bar in bars] == [903.0, 905.0, 905.0]
    assert [bar.anchor_end.taper.magnitude for bar in bars] == [27.0, 27.0, 25.0]


def test_a_correction_of_another_kind_of_record_leaves_those_alike_alone(tmp_path: Path) -> None:
    registry = corrected(
        tmp_path, correction("closed_length", "480 mm ± 1 mm", of="tiny:damper/one")
    )

    assert registry.damper("damper/one").closed_length.magnitude == 480.0
    assert registry.bar("bar/third").length == registry.bar("bar/one").length


def test_a_correction_fills_a_gap_of_all(tmp_path: Path) -> None:
    base = '[[damper]]\nid = "two"\ntitle = "D"\nsource = "desk"\nopen_length = "6 m"\n'
    like = '[[damper]]\nid = "three"\ntitle = "E"\nsource = "desk"\nlike = "damper/two"\n'
    given = correction("closed_length", "4 m ± 1 mm", of="tiny:damper/two")

    registry = corrected(tmp_path, given, more=base + like)

    assert registry.damper("damper/three").closed_length.magnitude == 4.0


def test_an_axle_that_is_shared_is_corrected_once(tmp_path: Path) -> None:
    shared = """
[[chassis]]
id = "other"
title = "Another vehicle"
source = "bench"
wheelbase = "2600 mm ± 1 mm"
axles = [{ place = "front", like = "chassis/one", without = ["cap_allowance"] }]
"""
    registry = corrected(
        tmp_path,
        correction("axles.front.tyre_rate", "180 N/mm ± 9 N/mm", of="tiny:chassis/one"),
        correction("axles.front.cap_allowance", "5 mm ± 1 mm", of="tiny:chassis/one"),
        more=shared,
    )

    axle = registry.chassis("chassis/other").axles[0]
    assert axle.tyre_rate.magnitude == 180.0
    assert "cap_allowance" not in axle.about
    setup = registry.setup("tiny:chassis/other", corner="front left")
    (line,) = (line for line in bw.trail(setup).lines if line.figure == "axle.tyre_rate")
    assert line.why.endswith("(corrected in tiny:chassis/one, which tiny:chassis/other is like)")


def test_a_corrected_tooth_count_reaches_those_that_are_like_the_record(tmp_path: Path) -> None:
    given = correction("arm_end.teeth", "41", of="tiny:bar/one").replace('"41"', "41")

    bar = corrected(tmp_path, given).bar("bar/third")

    assert bar.arm_end.teeth == 41
    assert bar.arm_end.about["teeth"].why.endswith("which tiny:bar/third is like)")

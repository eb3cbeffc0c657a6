"""The family chart as CSV: a row for each bar on each wheelbase, and nothing that calculates."""

from __future__ import annotations

import csv

import attrs
import pytest

import barwright as bw
from demo_charts import VANS


def read(chart: bw.answers.FamilyChart) -> list[dict[str, str]]:
    return list(csv.DictReader(bw.family_csv(chart).splitlines()))


def test_units_stand_in_the_heading_and_rows_hold_the_figures() -> None:
    rows = read(VANS)
    offered = [row for row in rows if row["offered"] == "yes"]
    assert len(offered) == len(VANS.lines)
    for row, line in zip(offered, VANS.lines, strict=True):
        pair = line.pair
        assert pair.wheel_rate is not None
        assert float(row["wheel_rate [N/mm]"]) == pair.wheel_rate.m_as("N/mm")
        assert pair.bar_rate is not None
        assert float(row["bar_rate [N*m/deg]"]) == pair.bar_rate.magnitude
        assert float(row["wheel_rate_change [%]"]) == pair.wheel_rate_change
        assert (row["bar_id"], row["vehicle_id"]) == (pair.bar_id, pair.vehicle_id)
        assert row["side"] == (line.side or "both")
        assert (row["standard"] == "yes") == pair.is_standard
        assert row["changes"] == ", ".join(pair.changes)
    inch = read(bw.in_units(VANS, "inch"))[0]
    assert "wheel_rate [lbf/in]" in inch
    assert "height [in]" in inch


def test_what_is_not_offered_follows_with_its_reason() -> None:
    rows = [row for row in read(VANS) if row["offered"] == "no"]
    assert len(rows) == sum(len(one.bars) * len(one.places) for one in VANS.not_offered)
    assert rows[0]["reason"] == "wrong length"
    assert rows[0]["wheel_rate [N/mm]"] == ""


@pytest.mark.parametrize("sign", ["=", "+", "-", "@"])
def test_no_cell_is_calculated(sign: str) -> None:
    group = VANS.groups[1]
    pair = attrs.evolve(group.lines[0].pair, bar_title=f"{sign}1+1\n=2")
    line = attrs.evolve(group.lines[0], pair=pair)
    (row,) = read(attrs.evolve(VANS, groups=(attrs.evolve(group, lines=(line,)),), not_offered=()))
    assert row["bar"] == f"'{sign}1+1 =2"


def test_what_is_not_known_is_blank() -> None:
    group = VANS.groups[1]
    bare = attrs.evolve(
        group.lines[0].pair, height=None, ride_frequency=None, strength=None, fit=None
    )
    line = attrs.evolve(group.lines[0], pair=bare)
    (row,) = read(attrs.evolve(VANS, groups=(attrs.evolve(group, lines=(line,)),), not_offered=()))
    assert (row["height"], row["ride_frequency"], row["fit"], row["strength"]) == ("",) * 4

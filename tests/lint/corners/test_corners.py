"""Corners of vehicles as they left the works: what is the same is computed once."""

from __future__ import annotations

from pathlib import Path
from unittest.mock import Mock

import pytest

import barwright as bw
from barwright.lint.corners import corners
from barwright.lint.rules.vehicles import standard_stands
from barwright.parts.bar import Side
from sample_packs import GOOD_PACK, changed_pack

VEHICLE = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")


def family(folder: Path, old: str, new: str) -> Path:
    """The good pack with a second vehicle, which differs in one thing."""
    another = VEHICLE.replace('id = "one"', 'id = "another"').replace(old, new)
    return changed_pack(folder, "vehicles.toml", VEHICLE, VEHICLE + another)


def asked_in(pack: Path, monkeypatch: pytest.MonkeyPatch) -> int:
    """How many corners a pack's linting plans the bar of."""
    plan = Mock(side_effect=bw.reindex)
    monkeypatch.setattr(standard_stands, "reindex", plan)
    bw.lint_pack(pack)
    return plan.call_count


def test_corners_with_the_same_figures_are_computed_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert asked_in(family(tmp_path, 'title = "', 'title = "Another '), monkeypatch) == 2


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('standard_mass = "291 kg"', 'standard_mass = "291.001 kg"'),
        ('hub_outboard = "92 mm"', 'hub_outboard = "9.2 cm"'),
        ("± 0.3 deg", "± 0.2 deg"),
        ('"front"', '"rear"'),
    ],
    ids=["figure", "unit", "tolerance", "place"],
)
def test_corners_that_differ_are_computed_each(
    old: str, new: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert old in VEHICLE
    assert asked_in(family(tmp_path, old, new), monkeypatch) == 4


def test_every_vehicle_with_a_fault_is_told_of(tmp_path: Path) -> None:
    pack = family(tmp_path, 'title = "', 'title = "Another ')
    parts = pack / "parts.toml"
    parts.write_text(parts.read_text(encoding="utf-8").replace("23.3 mm", "19.3 mm"), "utf-8")

    told = [f.of for f in bw.lint_pack(pack).findings if f.rule == "standard-stands"]

    assert set(told) == {"chassis/one.axles[0]", "chassis/another.axles[0]"}


def test_progress_is_told_for_each_rule_that_looks_at_axles(tmp_path: Path) -> None:
    progress = Mock()

    bw.lint_pack(family(tmp_path, 'title = "', 'title = "Another '), progress=progress)

    steps = [call.args for call in progress.call_args_list]
    assert len(steps) % 2 == 0
    assert steps == [(1, 2), (2, 2)] * (len(steps) // 2)
    assert len(steps) > 2


def test_an_answer_is_kept_by_question() -> None:
    pack = bw.Registry.from_folders(GOOD_PACK)
    chassis = pack.chassis("tiny:chassis/one")
    corner = corners.StandardCorner(chassis, chassis.axles[0], Side.LEFT, {})
    question = Mock(return_value=1)
    assert (corner.once(question), corner.once(question)) == (1, 1)
    question.assert_called_once_with(corner)

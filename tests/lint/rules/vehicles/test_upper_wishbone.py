"""A vehicle with its bars in the upper wishbones is a good one, and its slips are told."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

import barwright as bw
from sample_packs import SPECIMENS

UPPER = SPECIMENS / "packs" / "upper"


def changed(folder: Path, old: str, new: str) -> list[str]:
    """What the lint says of the pack with one line changed."""
    pack = folder / "pack"
    shutil.copytree(UPPER, pack)
    path = pack / "vehicles.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return [f"{one.code} {one.message}" for one in bw.lint_pack(pack).findings]


def test_it_is_good() -> None:
    assert bw.lint_pack(UPPER).findings == ()


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('upper_joint = "outboard"', 'upper_joint = "inboard"', "an upright that leans"),
        ('upper_up = "-236 mm"', 'upper_up = "236 mm"', "hub_up -213 mm"),
        ('hub_up = "-213 mm"', 'hub_up = "213 mm"', "hub_up 213 mm"),
        ('upper_outboard = "-78 mm"', 'upper_outboard = "178 mm"', "an upright that leans"),
    ],
)
def test_a_slip_is_told(tmp_path: Path, old: str, new: str, words: str) -> None:
    found = changed(tmp_path, old, new)

    assert any(words in one for one in found), found


def test_it_stands_where_it_was_measured() -> None:
    setup = bw.Registry.from_folders(UPPER).setup("fenny:chassis/one", corner="front left")

    figures = bw.rates(setup, wanted=bw.Wanted(height="404 mm")).figures

    assert figures is not None
    assert figures.ride.arm_angle.m_as("deg") == pytest.approx(-1.0, abs=0.05)


def test_where_the_other_pivot_is_not_known_nothing_is_said_of_it(tmp_path: Path) -> None:
    assert changed(tmp_path, 'upper_up = "-236 mm"', 'upper_up = "unknown"')[0].startswith("R104")

"""Slips planted in sound packs: each that can be told is told, with its figure named.

``PYTHONPATH=tests python tests/lint/corners/test_slips.py 24 1000`` plants every kind in 24 sound
packs and in those that the scaffold makes, looks for false findings in 1,000 others, and prints
what was told.
"""

from __future__ import annotations

import collections
import itertools
import re
import sys
import tempfile
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.tolerance.figures import figure_places
from barwright.lint.corners.slips import digits_exchanged, written_otherwise
from barwright.registry.authoring.scaffold import new_pack
from planted_slips import SLIPS, Slip, planted
from sample_packs import discovered_once
from sound_packs import FAMILIES, Tables, sound_pack, written

# Of so many kinds, those that a run of the whole suite has time for.
FEW = SLIPS[::9]


def scaffold() -> Tables:
    """The records of the pack that the scaffold makes."""
    with tempfile.TemporaryDirectory() as folder:
        files = new_pack(Path(folder) / "new", "new")
        tables: Tables = {}
        for file in (one for one in files if one.suffix == ".toml" and "src" in one.parts):
            table = tomllib.loads(file.read_text(encoding="utf-8"))
            tables |= {"pack": table} if file.name == "pack.toml" else table
    return tables


def findings(pack: Tables) -> list[bw.answers.LintFinding]:
    """What tells against a pack."""
    with tempfile.TemporaryDirectory() as folder:
        found = bw.lint_pack(written(pack, Path(folder) / "pack")).findings
    return [finding for finding in found if finding.is_flaw]


def is_named(slip: Slip, found: list[bw.answers.LintFinding]) -> bool:
    """Whether a finding says which figure may be wrong, by its key or in words."""
    told = " ".join(f"{finding.of} {finding.key} {finding.text}" for finding in found)
    names = [form for key in slip.keys for form in (key, key.replace("_", " "))]
    return any(re.search(rf"(?<![a-z_]){re.escape(name)}(?![a-z_])", told) for name in names)


@pytest.mark.parametrize("seed", range(9))
def test_a_sound_pack_has_no_finding(seed: int) -> None:
    assert findings(sound_pack(seed)) == []


def test_the_scaffold_is_sound() -> None:
    assert findings(scaffold()) == []


def test_most_slips_are_told_with_the_name_of_the_figure() -> None:
    packs = [scaffold(), *(sound_pack(seed, family) for seed, family in enumerate(FAMILIES))]
    told = []
    for slip, pack in zip(FEW, itertools.cycle(packs), strict=False):
        wrong = planted(slip, pack)
        if wrong is not None and not slip.untold:
            found = findings(wrong)
            told.append((bool(found), is_named(slip, found)))
            assert not any(finding.code == "U101" for finding in found)
    assert len(told) > len(FEW) / 2
    assert sum(one for one, _ in told) >= 0.9 * len(told)
    assert sum(named for _, named in told) >= 0.85 * len(told)


def test_there_are_enough_kinds_and_each_can_be_planted() -> None:
    packs = [scaffold(), *(sound_pack(seed) for seed in range(12))]
    assert len(SLIPS) >= 70
    assert len({slip.kind for slip in SLIPS if any(planted(slip, pack) for pack in packs)}) >= 180


# -- How else a figure may have been meant ---------------------------------------------


def test_a_number_without_digits_in_a_row_has_none_to_exchange() -> None:
    assert list(digits_exchanged(1e-12)) == []
    assert list(digits_exchanged(330.0)) == [303.0]


def test_a_lever_on_the_wrong_side_is_named() -> None:
    pack = scaffold()
    pack["adjuster"][0]["lever_lies"] = "droopward"
    remedies = [finding.remedy for finding in findings(pack)]
    assert any("adjuster/standard.lever_lies 'bumpward', not" in remedy for remedy in remedies)


@pytest.mark.parametrize("unknown", ["unsprung_mass", "tyre_radius"])
def test_what_is_not_known_is_no_suspect(unknown: str) -> None:
    pack = scaffold()
    pack["arm"][0]["socket"]["key_angle"] = "26 deg"
    pack["chassis"][0]["axles"][0][unknown] = "unknown"
    assert "standard-fits" not in {finding.rule for finding in findings(pack)}


# -- The whole table -----------------------------------------------------------------


def _table(packs: int) -> Iterator[str]:
    """What was planted, told and named, in all and kind by kind where some was missed."""
    sound = [scaffold(), *(sound_pack(seed) for seed in range(packs))]
    counts: dict[bool, collections.Counter[str]] = collections.defaultdict(collections.Counter)
    missed = []
    for slip in SLIPS:
        own: collections.Counter[str] = collections.Counter()
        for wrong in filter(None, (planted(slip, pack) for pack in sound)):
            found = findings(wrong)
            own.update(planted=1, told=bool(found), named=is_named(slip, found))
        counts[bool(slip.untold)] += own
        if own["named"] < own["planted"]:
            missed.append(f"{slip.kind}: {dict(own)} {slip.untold}")
    yield f"{len(SLIPS)} kinds; can be told: {dict(counts[False])}; not: {dict(counts[True])}"
    yield from missed


def _false(packs: int) -> Iterator[str]:
    wrong = [seed for seed in range(10_000, 10_000 + packs) if findings(sound_pack(seed))]
    yield f"false findings in {len(wrong)} of {packs} sound packs: {wrong}"


@pytest.mark.parametrize("unknown", ["unsprung_mass", "tyre_radius"])
def test_no_figure_is_put_right_by_one_that_is_unknown(unknown: str) -> None:
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    known = {place.path: place for place in figure_places(setup)}
    change: dict[str, Any] = {unknown: "unknown"}
    without = attrs.evolve(setup, axle=attrs.evolve(setup.axle, **change))
    figure = "standard_mass" if unknown == "unsprung_mass" else "standard_height"
    cause = "a scale reading" if unknown == "unsprung_mass" else "from the ground"

    said = [
        [why for _, why in written_otherwise(known[f"axle.{figure}"], of)]
        for of in (setup, without)
    ]

    assert [any(why.startswith(cause) for why in whys) for whys in said] == [True, False]


if __name__ == "__main__":
    for line in (*_false(int(sys.argv[2])), *_table(int(sys.argv[1]))):
        sys.stdout.write(f"{line}\n")

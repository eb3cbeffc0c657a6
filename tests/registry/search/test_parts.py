"""Tests of `barwright.registry.search.parts`, and of finding records by their numbers."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

import barwright as bw
from barwright.registry.search.parts import SharedNumber, described_by, shared_numbers, why_none
from index_packs import fresh_cache
from sample_overlays import overlay
from sample_packs import changed_pack

NUMBERS = (bw.parts.PartNumber("works", "71-20 455"), bw.parts.PartNumber("counter", "A.9"))
PART = bw.parts.Damper(
    id="p:damper/one",
    title="Dämpfer, groß",
    numbers=NUMBERS,
    paint="rød, blå",
    open_length="500 mm",
    closed_length="300 mm",
)


@pytest.mark.parametrize(
    "words", ["dampfer gross", "DÄMPFER", "damper/one", "rod bla", "7120455", "20-455", "a9", ""]
)
def test_a_part_is_found_by_all_that_it_is_called(words: str) -> None:
    assert list(described_by(words, [PART])) == [PART]


@pytest.mark.parametrize("words", ["712", "dampfer 999", "9"])
def test_a_few_digits_of_a_number_find_nothing(words: str) -> None:
    assert not list(described_by(words, [PART]))


def test_why_nothing_is_found_is_told_without_diacritics() -> None:
    assert why_none("damfper", [PART]) == "did you mean 'damper' or 'dampfer'?"


OLD = 'id = "one"\ntitle = "Damper"\n'
NUMBERED = f'{OLD}numbers = {{ works = "71-20 455" }}\npaint = "red"\nremarks = ["Rare."]\n'
NEW = """
[[damper]]
id = "new"
title = "New damper"
source = "desk"
open_length = "560 mm"
closed_length = "300 mm"
numbers = { works = ["80 1", "80-2"], counter = "Ø-7" }
replaces = ["damper/one"]
"""


def numbered(folder: Path) -> Path:
    """The good pack with numbers of two dampers and of its vehicle."""
    pack = changed_pack(folder, "parts.toml", OLD, NUMBERED)
    parts = pack / "parts.toml"
    parts.write_text(parts.read_text(encoding="utf-8") + NEW, encoding="utf-8")
    vehicles = pack / "vehicles.toml"
    text = vehicles.read_text(encoding="utf-8")
    changed = text.replace('id = "one"\n', 'id = "one"\nnumbers = { works = "V 1-22" }\n', 1)
    vehicles.write_text(changed, encoding="utf-8")
    return pack


def registries(folder: Path, monkeypatch: pytest.MonkeyPatch) -> list[bw.Registry]:
    """The same packs in memory, in an index, through pickling, and below an overlay."""
    fresh_cache(folder, monkeypatch)
    monkeypatch.setattr("barwright.registry.open_packs._WORTHWHILE", 0)
    pack, ours = numbered(folder), overlay(folder)
    plain = bw.Registry.from_folders(pack, cache=False)
    indexed = bw.Registry.from_folders(pack)
    kept = pickle.loads(pickle.dumps(indexed))  # noqa: S301 - our own
    return [plain, indexed, kept, bw.Registry.from_folders(pack, overlays=[ours])]


def test_every_store_knows_numbers_and_what_supersedes_what(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for registry in registries(tmp_path, monkeypatch):
        for number in ("71-20 455", "7120455", "71 20-455"):
            assert [part.id for part in registry.parts(number)] == ["tiny:damper/one"]
        assert [part.id for part in registry.parts("o7")] == ["tiny:damper/new"]
        assert [van.id for van in registry.vehicles("v122")] == ["tiny:chassis/one"]
        assert (registry.parts("v122"), registry.vehicles("o7")) == ((), ())
        old, new = registry.damper("damper/one"), registry.damper("damper/new")
        assert (old.replaced_by, old.replaces) == (("tiny:damper/new",), ())
        assert (new.replaced_by, new.replaces) == ((), ("tiny:damper/one",))
        assert (old.paint, old.remarks, old.ordered_by) == (
            "red",
            ("Rare.",),
            "works 71-20 455, paint red",
        )
        assert new.ordered_by == "works 80 1, works 80-2, counter Ø-7"


def test_every_store_tells_the_numbers_that_two_records_have(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for registry in registries(tmp_path, monkeypatch):
        assert registry.shared_numbers() == ()
        assert sorted(registry.store.numbers()) == [
            ("counter", "o7", "tiny:damper/new"),
            ("works", "7120455", "tiny:damper/one"),
            ("works", "801", "tiny:damper/new"),
            ("works", "802", "tiny:damper/new"),
            ("works", "v122", "tiny:chassis/one"),
        ]
    rows = [("w", "1", "p:bar/b"), ("w", "1", "p:bar/a"), ("c", "1", "p:bar/a")]
    assert list(shared_numbers(rows)) == [
        SharedNumber(number_system="w", number="1", ids=("p:bar/a", "p:bar/b"))
    ]


def test_numbers_of_a_pack_that_is_left_out_do_not_count(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fresh_cache(tmp_path, monkeypatch)
    monkeypatch.setattr("barwright.registry.open_packs._WORTHWHILE", 0)
    clash = changed_pack(tmp_path / "clash", "parts.toml", '"Damper"', '"Other damper"')
    registry = bw.Registry.from_folders(numbered(tmp_path), clash)
    assert [len(error.problems) for error in registry.problems] == [1, 1]
    assert list(registry.store.numbers()) == []
    assert registry.parts("7120455") == ()


def test_a_job_with_an_old_part_works_and_says_what_replaces_it(tmp_path: Path) -> None:
    registry = bw.Registry.from_folders(numbered(tmp_path))
    setup = registry.setup("tiny:chassis/one", corner="front left")
    part = next(one for one in bw.trail(setup).parts if one.place == "damper")
    assert (part.id, part.replaced_by) == ("tiny:damper/one", ("tiny:damper/new",))
    assert "superseded by tiny:damper/new" in bw.text(bw.trail(setup), width=400)
    assert bw.from_json(bw.to_json(setup.damper)) == setup.damper

"""Tests of `stack`: packs are opened once, or once more if an overlay fails."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from barwright.errors import PackError, SchemaError
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.overlays.preference import CALL, Preference
from barwright.registry.overlays.stack import open_with_overlays
from barwright.registry.packs.load import load_pack, standards
from barwright.registry.packs.store import MemoryStore, Store
from sample_overlays import correction, overlay
from sample_packs import GOOD_PACK


class Opening:
    """Opens the good pack, and notes what was preferred."""

    def __init__(self) -> None:
        self.asked: list[dict[str, str]] = []

    def __call__(self, prefer: Mapping[str, str]) -> tuple[Store, tuple[PackError, ...]]:
        self.asked.append(dict(prefer))
        return MemoryStore(standards(), [load_pack(GOOD_PACK, origin="good 1", version="1")]), ()


PREFER = '[prefer]\ntiny = "good"\n'


@pytest.mark.parametrize("prefer", [{}, {"tiny": "good"}])
def test_without_overlays_the_packs_are_all(prefer: dict[str, str]) -> None:
    opening = Opening()

    laid = open_with_overlays(opening, [], prefer=prefer)

    assert isinstance(laid.store, MemoryStore)
    assert (laid.problems, opening.asked) == ((), [prefer])
    assert laid.preferences == tuple(Preference("tiny", one, CALL) for one in prefer.values())


def test_what_is_preferred_is_asked_of_the_packs_once(tmp_path: Path) -> None:
    opening = Opening()
    shop = snapshot_of(overlay(tmp_path, correction(), header=PREFER))

    laid = open_with_overlays(opening, [shop], prefer={})

    assert opening.asked == [{"tiny": "good"}]
    assert laid.problems == ()
    assert [pack.id for pack in laid.store.packs] == ["tiny", "shop"]


def test_the_call_has_the_last_word(tmp_path: Path) -> None:
    opening = Opening()
    shop = snapshot_of(overlay(tmp_path, header=PREFER))

    laid = open_with_overlays(opening, [shop], prefer={"tiny": "good 1"})

    assert opening.asked == [{"tiny": "good 1"}]
    assert laid.preferences == (Preference("tiny", "good 1", CALL),)


def test_a_call_that_prefers_what_is_not_there_is_refused(tmp_path: Path) -> None:
    shop = snapshot_of(overlay(tmp_path, header=PREFER))

    with pytest.raises(SchemaError, match="known: good 1"):
        open_with_overlays(Opening(), [shop], prefer={"tiny": "x"})


def test_packs_are_opened_anew_without_what_a_bad_overlay_prefers(tmp_path: Path) -> None:
    opening = Opening()
    bad = snapshot_of(overlay(tmp_path, correction("size"), header=PREFER, pack_id="bad"))
    good = snapshot_of(overlay(tmp_path, pack_id="good"))

    laid = open_with_overlays(opening, [bad, good], prefer={})

    assert opening.asked == [{"tiny": "good"}, {}]
    assert [error.file for error in laid.problems] == [str(tmp_path / "bad")]
    assert [pack.id for pack in laid.store.packs] == ["tiny", "good"]


def test_a_bad_overlay_that_prefers_nothing_does_not_open_them_anew(tmp_path: Path) -> None:
    opening = Opening()
    bad = snapshot_of(overlay(tmp_path, correction("size"), pack_id="bad"))
    good = snapshot_of(overlay(tmp_path, header=PREFER, pack_id="good"))

    laid = open_with_overlays(opening, [bad, good], prefer={})

    assert opening.asked == [{"tiny": "good"}]
    assert [error.file for error in laid.problems] == [str(tmp_path / "bad")]
    assert [one.by for one in laid.preferences] == ["good"]

"""Tests of preferences that stand in an overlay: which of several packs with one id is taken."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.overlays.preference import (
    CALL,
    Preference,
    clashing,
    is_overlay,
    stated_preferences,
    wrong_preferences,
)
from barwright.registry.packs.load import standards
from barwright.registry.packs.store import MemoryStore
from sample_overlays import correction, overlay, two_packs
from sample_packs import GOOD_PACK


def preferring(folder: Path, **prefer: object) -> Path:
    """An overlay that prefers packs."""
    lines = [f'{name} = "{wanted}"\n' for name, wanted in prefer.items()]
    return overlay(folder, header=f"[prefer]\n{''.join(lines)}")


def titles(registry: bw.Registry) -> list[str]:
    return [part.title for part in registry.parts() if part.id == "tiny:bar/one"]


def problems(registry: bw.Registry) -> list[tuple[str, str, int]]:
    """Code, key and line of each problem."""
    return [(p.code, p.key, p.line) for error in registry.problems for p in error.problems]


@pytest.mark.parametrize("cache", [True, False])
def test_the_pack_that_an_overlay_prefers_is_taken(tmp_path: Path, *, cache: bool) -> None:
    first, second = two_packs(tmp_path)
    shop = preferring(tmp_path, tiny=second)

    assert titles(bw.Registry.from_folders(first, second, cache=cache)) == []
    registry = bw.Registry.from_folders(first, second, overlays=[shop], cache=cache)
    assert (titles(registry), registry.problems) == (["Bar, second"], ())
    assert registry.preferences == (Preference("tiny", str(second), "shop"),)


def test_the_call_overrules_the_overlay(tmp_path: Path) -> None:
    first, second = two_packs(tmp_path)
    shop = preferring(tmp_path, tiny=second)

    registry = bw.Registry.from_folders(first, second, overlays=[shop], prefer={"tiny": str(first)})

    assert titles(registry) == ["Bar, first"]
    assert registry.problems == ()
    assert registry.preferences == (Preference("tiny", str(first), CALL),)


@pytest.mark.parametrize("cache", [True, False])
@pytest.mark.parametrize(
    ("prefer", "value", "remedy"),
    [
        ({"tny": "x"}, "tny", "'tiny'"),
        ({"tiny": "x"}, "x", "{0}"),
        ({"standards": "barwright"}, "standards", "known: tiny"),
        ({"tiny": "{0}", "other": "x"}, "other", "known: tiny"),
    ],
)
def test_a_call_that_prefers_what_is_not_there_is_refused(
    tmp_path: Path, prefer: dict[str, str], value: str, remedy: str, *, cache: bool
) -> None:
    first, second = two_packs(tmp_path)
    said = {name: origin.format(first) for name, origin in prefer.items()}

    with pytest.raises(bw.SchemaError) as caught:
        bw.Registry.from_folders(first, second, prefer=said, cache=cache)

    error = caught.value
    assert (error.code, error.value, error.file) == ("S206", value, "")
    assert error.key in {f"prefer.{name}" for name in prefer}
    assert remedy.format(first) in error.remedy


def test_a_call_may_prefer_a_pack_without_a_rival() -> None:
    registry = bw.Registry.from_folders(GOOD_PACK, prefer={"tiny": str(GOOD_PACK)})

    assert [pack.id for pack in registry.packs] == ["tiny"]


def test_the_uppermost_overlay_overrules_those_below(tmp_path: Path) -> None:
    first, second = two_packs(tmp_path)
    low = overlay(tmp_path, header=f'[prefer]\ntiny = "{first}"\n', pack_id="low")
    high = overlay(tmp_path, header=f'[prefer]\ntiny = "{second}"\n', pack_id="high")

    registry = bw.Registry.from_folders(first, second, overlays=[low, high])

    assert titles(registry) == ["Bar, second"]
    assert [one.by for one in registry.preferences] == ["high"]


def test_what_is_overruled_need_not_be_there(tmp_path: Path) -> None:
    shop = preferring(tmp_path, tiny="nowhere")

    registry = bw.Registry.from_folders(GOOD_PACK, overlays=[shop], prefer={"tiny": str(GOOD_PACK)})

    assert registry.problems == ()


@pytest.mark.parametrize(
    ("name", "wanted", "value", "remedy"),
    [
        ("tny", "x", "tny", "'tiny'"),
        ("tiny", "x", "x", "known: {0}"),
        ("tiny", "{0}y", "{0}y", "'{0}'"),
        ("standards", "barwright", "standards", "known: tiny"),
    ],
)
def test_a_preference_for_what_is_not_there_leaves_the_overlay_out(
    tmp_path: Path, name: str, wanted: str, value: str, remedy: str
) -> None:
    shop = preferring(tmp_path, **{name: wanted.format(GOOD_PACK)})

    registry = bw.Registry.from_folders(GOOD_PACK, overlays=[shop])

    assert problems(registry) == [("S206", f"prefer.{name}", 27)]
    (problem,) = registry.problems[0].problems
    assert problem.value == value.format(GOOD_PACK)
    assert remedy.format(GOOD_PACK) in problem.remedy
    assert [pack.id for pack in registry.packs] == ["tiny"]
    assert registry.preferences == ()


def test_a_preference_for_none_of_the_packs_names_them(tmp_path: Path) -> None:
    first, second = two_packs(tmp_path)
    shop = preferring(tmp_path, tiny="third")

    registry = bw.Registry.from_folders(first, second, overlays=[shop])

    clash = [("P301", "id", 0), ("P301", "id", 0)]
    assert problems(registry) == [*clash, ("S206", "prefer.tiny", 27)]
    remedy = registry.problems[-1].problems[0].remedy
    assert str(first) in remedy
    assert str(second) in remedy


def test_an_overlay_that_is_left_out_prefers_nothing(tmp_path: Path) -> None:
    first, second = two_packs(tmp_path)
    shop = preferring(tmp_path, tiny=second)
    (shop / "ours.toml").write_text(correction("size"), encoding="utf-8")
    other = overlay(tmp_path, pack_id="other")
    wrong = overlay(tmp_path, correction("size"), pack_id="wrong")

    registry = bw.Registry.from_folders(first, second, overlays=[shop, other, wrong])

    assert titles(registry) == []
    assert [code for code, *_ in problems(registry)] == ["P301", "P301", "S206", "S206"]
    assert [error.file for error in registry.problems[2:]] == [str(wrong), str(shop)]
    assert [pack.id for pack in registry.packs] == ["other"]
    assert registry.preferences == ()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("[prefer]\ntiny = 5\n", [("S203", "prefer.tiny", 27)]),
        ('[prefer]\ntiny = " "\nb = []\n', [("S203", "prefer.tiny", 27), ("S203", "prefer.b", 28)]),
        ("[[prefer]]\ntiny = 5\n", [("S203", "prefer", 26)]),
        ('[preffer]\ntiny = "x"\n', [("S201", "preffer", 26)]),
    ],
)
def test_what_is_no_table_of_names_is_told(
    tmp_path: Path, text: str, expected: list[tuple[str, str, int]]
) -> None:
    registry = bw.Registry.from_folders(GOOD_PACK, overlays=[overlay(tmp_path, header=text)])

    assert problems(registry) == expected


def test_a_preference_that_is_no_name_says_how_one_is_written(tmp_path: Path) -> None:
    made = overlay(tmp_path, header="[prefer]\ntiny = 5\n")

    (error,) = bw.Registry.from_folders(GOOD_PACK, overlays=[made]).problems
    (problem,) = error.problems
    assert problem.expected == "the name of a distribution in quotes"
    assert problem.remedy == 'write it like fells = "barwright-pack-fells"'


@pytest.mark.parametrize(("old", "key"), [("[prefer]\n", "prefer"), ("", "overlay")])
def test_a_pack_neither_prefers_nor_says_that_it_is_an_overlay(
    tmp_path: Path, old: str, key: str
) -> None:
    made = overlay(tmp_path, header=old)
    header = made / "pack.toml"
    if old:
        text = header.read_text(encoding="utf-8").replace("overlay = true\n", "")
        header.write_text(text, encoding="utf-8")

    assert [(code, k) for code, k, _ in problems(bw.Registry.from_folders(made))] == [("S201", key)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("overlay = true", True),
        ("overlay = false", False),
        ("overlay = 1", False),
        ("", False),
        ("overlay = ", False),
    ],
)
def test_an_overlay_says_that_it_is_one(tmp_path: Path, text: str, *, expected: bool) -> None:
    (tmp_path / "pack.toml").write_text(text, encoding="utf-8")

    assert is_overlay(snapshot_of(tmp_path)) is expected


def test_where_there_is_no_header_nothing_is_said(tmp_path: Path) -> None:
    snapshot = snapshot_of(tmp_path)

    assert is_overlay(snapshot) is False
    assert stated_preferences(snapshot) == ()


def test_only_clashes_are_told_by_id(tmp_path: Path) -> None:
    first, second = two_packs(tmp_path)
    registry = bw.Registry.from_folders(first, second, tmp_path / "nowhere")

    assert clashing(registry.problems) == {"tiny": [str(first), str(second)]}


@pytest.mark.parametrize(("origin", "reported"), [("shop", 0), ("shop 2.5", 0), ("shop 2.6", 1)])
def test_a_pack_that_is_left_out_is_there_by_either_name(origin: str, reported: int) -> None:
    problem = bw.SchemaError("S201", value="x", expected="a key", remedy="drop it")
    left_out = bw.PackError("P101", problems=(problem,), file="shop 2.5")
    store = MemoryStore(standards(), [])
    wrong = wrong_preferences([Preference("tiny", origin, CALL)], store, [left_out])
    assert len(list(wrong)) == reported


def test_where_nothing_is_preferred_no_header_of_a_pack_is_made() -> None:
    store = MemoryStore(standards(), [])
    del store.packs

    assert list(wrong_preferences([], store, [])) == []

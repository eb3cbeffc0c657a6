"""Tests of `barwright.registry.lock`: a registry that is not as it was is refused."""

from __future__ import annotations

import os
import shutil
import tomllib
from pathlib import Path

import attrs
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.lock import LOCK_FILE
from draws import draws
from sample_overlays import correction, overlay
from sample_packs import GOOD_PACK, changed_pack

DIGEST = "0" * 64


def opened(*folders: Path) -> bw.Registry:
    """Packs as they are on the disk now."""
    return bw.Registry.from_folders(*folders, cache=False)


def laid_over_good(*overlays: Path) -> bw.Registry:
    """The good pack with overlays on top."""
    registry = bw.Registry.from_folders(GOOD_PACK, overlays=overlays, cache=False)
    assert registry.problems == ()
    return registry


def refused(registry: bw.Registry, lock: bw.answers.Lock) -> list[tuple[str, str, str, str]]:
    """Key, value, expectation and remedy of each problem."""
    with pytest.raises(bw.LockError) as caught:
        bw.check_lock(registry, lock)
    assert caught.value.code == "P501"
    assert {(p.code, p.file) for p in caught.value.problems} == {("P501", LOCK_FILE)}
    return [(p.key, p.value, p.expected, p.remedy) for p in caught.value.problems]


def test_a_lock_names_library_and_packs_by_id() -> None:
    lock = bw.lock_of(opened(GOOD_PACK))

    assert list(lock.by_id) == ["standards", "tiny"]
    tiny, standards = lock.by_id["tiny"], lock.by_id["standards"]
    assert (tiny.origin, tiny.version) == ("good", None)
    assert tiny.digest == opened(GOOD_PACK).packs[0].digest
    assert (standards.origin, standards.version) == ("barwright", None)


def test_a_distribution_is_locked_with_its_version() -> None:
    fells = bw.lock_of(bw.Registry.discover()).by_id["fells"]

    assert fells.origin == f"barwright-pack-fells {fells.version}"


def test_a_lock_comes_back_as_it_was_written(tmp_path: Path) -> None:
    for lock in (bw.lock_of(opened(GOOD_PACK)), bw.lock_of(bw.Registry.discover())):
        file = tmp_path / "barwright.lock"
        file.write_text(bw.lock_text(lock), encoding="utf-8")

        assert bw.read_lock(file) == lock


@given(st.text(), st.text(min_size=1).filter(str.strip))
def test_any_name_of_a_folder_is_written_as_toml(origin: str, version: str) -> None:
    pack = bw.answers.LockedPack(id="a", origin=origin, version=version, digest=DIGEST)

    reported = tomllib.loads(bw.lock_text(bw.answers.Lock(schema=1, library="1", pack=(pack,))))

    assert reported["pack"] == [{"id": "a", "origin": origin, "version": version, "digest": DIGEST}]


def test_what_utf_8_cannot_hold_is_written_all_the_same() -> None:
    pack = bw.answers.LockedPack(id="a", origin="a\udc80b", digest=DIGEST)

    reported = tomllib.loads(bw.lock_text(bw.answers.Lock(schema=1, library="1", pack=(pack,))))

    assert reported["pack"][0]["origin"] == "a?b"


def test_the_same_packs_pass_wherever_they_lie(tmp_path: Path) -> None:
    shutil.copytree(GOOD_PACK, tmp_path / "elsewhere")

    bw.check_lock(opened(tmp_path / "elsewhere"), bw.lock_of(opened(GOOD_PACK)))


FILES = sorted(path.relative_to(GOOD_PACK) for path in GOOD_PACK.rglob("*.toml"))


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=draws(25))
@given(
    file=st.sampled_from(FILES),
    place=st.floats(0.0, 1.0, exclude_max=True),
    flip=st.integers(1, 255),
)
def test_any_byte_that_is_changed_is_found(
    tmp_path: Path, file: Path, place: float, flip: int
) -> None:
    lock = bw.lock_of(opened(GOOD_PACK))
    pack = tmp_path / "pack"
    shutil.copytree(GOOD_PACK, pack, dirs_exist_ok=True)
    data = bytearray((pack / file).read_bytes())
    data[int(place * len(data))] ^= flip
    (pack / file).write_bytes(data)

    keys = {key for key, *_ in refused(opened(pack), lock)}

    # A changed id makes it another pack.
    assert "tiny" in keys


@pytest.mark.parametrize("cache", [True, False])
def test_a_change_that_leaves_size_and_time_is_found(tmp_path: Path, *, cache: bool) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "", "")
    file = pack / "pack.toml"
    before = file.stat()
    lock = bw.lock_of(bw.Registry.from_folders(pack, cache=cache))

    text = file.read_text(encoding="utf-8").replace("CC0-1.0", "CC0-1.1")
    file.write_text(text, encoding="utf-8")
    os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))

    assert [key for key, *_ in refused(bw.Registry.from_folders(pack, cache=cache), lock)] == [
        "tiny"
    ]


def test_each_pack_that_changed_is_missing_or_new_is_named(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    (tmp_path / "c").mkdir()
    other = changed_pack(tmp_path / "a", "pack.toml", '"tiny"', '"other"')
    parts = (other / "parts.toml").read_text(encoding="utf-8").replace("tiny:", "other:")
    (other / "parts.toml").write_text(parts, encoding="utf-8")
    changed = changed_pack(tmp_path / "b", "more.toml", "", "# More.\n")
    then, now = opened(GOOD_PACK).packs[0].digest[:12], opened(changed).packs[0].digest[:12]
    other_digest = opened(other).packs[0].digest[:12]

    assert refused(opened(changed), bw.lock_of(opened(GOOD_PACK))) == [
        (
            "tiny",
            f"content {now}",
            f"content {then}, as locked",
            "install good as it was when locked, or write the lock again",
        )
    ]
    assert refused(opened(other), bw.lock_of(opened(GOOD_PACK))) == [
        (
            "other",
            f"content {other_digest}",
            "no pack of that id",
            f"leave {other} out, or write the lock again".replace(str(other), other.name),
        ),
        (
            "tiny",
            "no such pack",
            f"content {then}, as locked",
            "install good as it was when locked, or write the lock again",
        ),
    ]


def test_a_pack_that_is_broken_now_is_missing(tmp_path: Path) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "licence", "license")

    assert [
        (key, value) for key, value, *_ in refused(opened(broken), bw.lock_of(opened(GOOD_PACK)))
    ] == [("tiny", "no such pack")]


def test_another_version_of_the_library_is_refused() -> None:
    registry = opened(GOOD_PACK)
    lock = bw.lock_of(registry)

    assert refused(registry, attrs.evolve(lock, library="0.0.1")) == [
        (
            "library",
            f"barwright {lock.library}",
            "barwright 0.0.1, as locked",
            "install the locked version, or write the lock again",
        )
    ]


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("schema = 1", "schema = 2", "S204 schema 2"),
        ("schema = 1", "", "S202 schema 0"),
        ('digest = "', 'digset = "', "S202 pack[0].digest 5"),
        ('library = "', 'library = 1 # "', "S203 library 3"),
    ],
)
def test_what_is_no_lock_is_refused(tmp_path: Path, old: str, new: str, problem: str) -> None:
    file = tmp_path / "barwright.lock"
    text = bw.lock_text(bw.lock_of(opened(GOOD_PACK)))
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")

    with pytest.raises(bw.LockError) as caught:
        bw.read_lock(file)

    assert caught.value.code == "P502"
    assert problem in [f"{p.code} {p.key} {p.line}" for p in caught.value.problems]
    assert {p.file for p in caught.value.problems} == {str(file)}


def test_a_lock_of_two_packs_of_one_id_is_refused(tmp_path: Path) -> None:
    pack = bw.answers.LockedPack(id="a", origin="a", digest=DIGEST)
    file = tmp_path / "barwright.lock"
    file.write_text(bw.lock_text(bw.answers.Lock(schema=1, library="1", pack=(pack, pack))))

    with pytest.raises(bw.LockError, match="S205"):
        bw.read_lock(file)


def test_a_lock_that_is_not_there_is_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(bw.FileError, match="F101"):
        bw.read_lock(tmp_path / "barwright.lock")


def test_overlays_in_another_order_are_refused(tmp_path: Path) -> None:
    low = overlay(tmp_path, correction(value="23.4 mm ± 0.02 mm"), pack_id="low")
    high = overlay(tmp_path, correction(value="23.5 mm ± 0.02 mm"), pack_id="high")
    other = overlay(tmp_path, pack_id="other")
    lock = bw.lock_of(laid_over_good(low, high))
    assert [(pack.id, pack.layer) for pack in lock.pack] == [
        ("high", 2),
        ("low", 1),
        ("standards", None),
        ("tiny", None),
    ]

    bw.check_lock(laid_over_good(low, high), lock)
    swapped = (
        "layer",
        "overlays high, low",
        "low, high, the lowest first, as in the lock",
        "lay them in that order, or write the lock again",
    )
    assert refused(laid_over_good(high, low), lock) == [swapped]
    assert [key for key, *_ in refused(laid_over_good(low), lock)] == ["high"]
    as_packs = attrs.evolve(lock, pack=tuple(attrs.evolve(one, layer=None) for one in lock.pack))
    assert [reported[:3] for reported in refused(laid_over_good(low, high), as_packs)] == [
        ("layer", "overlays low, high", "none, the lowest first, as in the lock")
    ]
    assert [key for key, *_ in refused(laid_over_good(other, low, high), lock)] == ["other"]


def test_a_lock_of_overlays_comes_back_as_it_was_written(tmp_path: Path) -> None:
    lock = bw.lock_of(laid_over_good(overlay(tmp_path)))
    file = tmp_path / "barwright.lock"
    file.write_text(bw.lock_text(lock), encoding="utf-8")

    assert bw.read_lock(file) == lock
    assert lock.overlays == ("shop",)


def test_what_a_folder_is_called_does_not_depend_on_where_one_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(changed_pack(tmp_path, "pack.toml", "", ""))
    registry = opened(Path())
    monkeypatch.chdir(tmp_path)

    assert bw.lock_of(registry).by_id["tiny"].origin == "pack"

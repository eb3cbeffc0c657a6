"""Tests of `distributions`: metadata are read once until they change."""

from __future__ import annotations

import os
import shutil
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import importlib_metadata
import pytest

from barwright.registry.discovery import distributions as module
from barwright.registry.discovery.distributions import PackDistribution, declared
from barwright.registry.files.cache_files import Kind, file_in, read_sealed, write_sealed
from file_faults import counted, failing, injected
from sample_packs import distribution

ORDINARY = list(sys.path)


class Reads:
    """How often the metadata were read."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.count = 0
        self._real = importlib_metadata.distributions
        monkeypatch.setattr(importlib_metadata, "distributions", self._counting)

    def _counting(self) -> Any:
        self.count += 1
        importlib_metadata.MetadataPathFinder.invalidate_caches()
        return self._real()


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder for one test, in which files are old as soon as they are written."""
    monkeypatch.setenv("BARWRIGHT_CACHE", str(tmp_path / "cache"))
    monkeypatch.setattr(module, "TICK", 0)
    return tmp_path / "cache" / "barwright-cache"


@pytest.fixture
def site(tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The only folder on the path, with two distributions of packs and two of other things."""
    assert not cache.exists()
    folder = tmp_path / "site"
    distribution(folder, "one", "a = one_pack\nb = other_pack")
    distribution(folder, "two", "a = two_pack", version="2.5")
    (distribution(folder, "script", "") / "entry_points.txt").write_text(
        "[console_scripts]\nx = y:z\n", encoding="utf-8"
    )
    (distribution(folder, "bare", "") / "entry_points.txt").unlink()
    monkeypatch.setattr(sys, "path", [str(folder)])
    return folder


@pytest.fixture
def reads(site: Path, monkeypatch: pytest.MonkeyPatch) -> Reads:
    """How often the metadata were read since the test began."""
    assert site.exists()
    return Reads(monkeypatch)


ONE = PackDistribution("one", "1.0", (("a", "one_pack"), ("b", "other_pack")))
TWO = PackDistribution("two", "2.5", (("a", "two_pack"),))


def test_metadata_are_read_once(reads: Reads) -> None:
    assert [declared() for _ in range(3)] == [[ONE, TWO]] * 3
    assert reads.count == 1


def test_without_a_cache_they_are_read_each_time(
    reads: Reads, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert declared(cache=False) == declared(cache=False) == [ONE, TWO]
    monkeypatch.setenv("BARWRIGHT_CACHE", "off")
    assert declared() == [ONE, TWO]
    assert (reads.count, cache.exists()) == (3, False)


def rewritten(path: Path, old: str, new: str) -> None:
    """Change a file and nothing else that the system tells, but the time of the change."""
    before = path.stat()
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def upgraded(site: Path) -> None:
    """Install another version in the place of one."""
    shutil.rmtree(site / "one-1.0.dist-info")
    distribution(site, "one", "a = one_pack", version="1.1")


def old_distribution(site: Path) -> None:
    """A distribution as old installers leave it."""
    info = site / "old.egg-info"
    info.mkdir()
    (info / "PKG-INFO").write_text("Name: old\nVersion: 0.5\n", encoding="utf-8")
    (info / "entry_points.txt").write_text("[barwright.packs]\nx = old_pack\n", encoding="utf-8")


def emptied(site: Path) -> None:
    """A distribution whose name stands where old installers leave it."""
    info = site / "two-2.5.dist-info"
    (info / "METADATA").write_text("", encoding="utf-8")
    (info / "PKG-INFO").write_text("Name: two\nVersion: 2.7\n", encoding="utf-8")


CHANGES: dict[str, tuple[Callable[[Path], object], list[PackDistribution]]] = {
    "installed": (
        lambda site: distribution(site, "late", "x = late_pack"),
        [PackDistribution("late", "1.0", (("x", "late_pack"),)), ONE, TWO],
    ),
    "removed": (lambda site: shutil.rmtree(site / "one-1.0.dist-info"), [TWO]),
    "upgraded": (
        upgraded,
        [PackDistribution("one", "1.1", (("a", "one_pack"),)), TWO],
    ),
    "entry point changed": (
        lambda site: rewritten(site / "two-2.5.dist-info" / "entry_points.txt", "two_", "tow_"),
        [ONE, PackDistribution("two", "2.5", (("a", "tow_pack"),))],
    ),
    "version changed": (
        lambda site: rewritten(site / "two-2.5.dist-info" / "METADATA", "2.5", "2.6"),
        [ONE, PackDistribution("two", "2.6", (("a", "two_pack"),))],
    ),
    "version in another file": (
        emptied,
        [ONE, PackDistribution("two", "2.7", (("a", "two_pack"),))],
    ),
    "entry points added": (
        lambda site: (site / "bare-1.0.dist-info" / "entry_points.txt").write_text(
            "[barwright.packs]\nx = bare_pack\n", encoding="utf-8"
        ),
        [PackDistribution("bare", "1.0", (("x", "bare_pack"),)), ONE, TWO],
    ),
    "a pack instead of a script": (
        lambda site: (site / "script-1.0.dist-info" / "entry_points.txt").write_text(
            "[barwright.packs]\nx = script_pack\n", encoding="utf-8"
        ),
        [ONE, PackDistribution("script", "1.0", (("x", "script_pack"),)), TWO],
    ),
    "entry points gone": (
        lambda site: (site / "one-1.0.dist-info" / "entry_points.txt").unlink(),
        [TWO],
    ),
    "installed in the old way": (
        old_distribution,
        [PackDistribution("old", "0.5", (("x", "old_pack"),)), ONE, TWO],
    ),
}


@pytest.mark.parametrize(("change", "found"), CHANGES.values(), ids=CHANGES)
def test_any_change_is_noticed(
    reads: Reads, site: Path, change: Callable[[Path], object], found: list[PackDistribution]
) -> None:
    declared()
    change(site)

    assert declared() == found == declared(cache=False)
    assert declared() == found
    assert reads.count == 3


def test_another_path_is_another_environment(
    reads: Reads, site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    distribution(tmp_path / "more", "more", "x = more_pack")
    more = PackDistribution("more", "1.0", (("x", "more_pack"),))
    assert declared() == [ONE, TWO]
    monkeypatch.setattr(sys, "path", [str(tmp_path / "more"), str(site), "nowhere", ""])
    assert declared() == [more, ONE, TWO]
    monkeypatch.setattr(sys, "path", [str(site)])
    assert declared() == [ONE, TWO]
    assert reads.count == 2


def test_the_folder_where_the_program_is_counts(
    reads: Reads, site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "path", [""])
    monkeypatch.chdir(tmp_path)
    assert declared() == []
    monkeypatch.chdir(site)
    assert declared() == [ONE, TWO]
    assert reads.count == 2


def test_an_archive_on_the_path_is_looked_into(
    reads: Reads, site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    archive = tmp_path / "packs.zip"
    # What reads archives is imported when the first one is met.
    monkeypatch.setattr(sys, "path", [str(site), *ORDINARY])
    zipfile.ZipFile(archive, "w").close()
    importlib_metadata.FastPath(str(archive)).children()
    monkeypatch.setattr(sys, "path", [str(archive)])
    for version in ("1.0", "1.1"):
        with zipfile.ZipFile(archive, "w") as file:
            file.writestr(f"z-{version}.dist-info/METADATA", f"Name: z\nVersion: {version}\n")
            file.writestr(f"z-{version}.dist-info/entry_points.txt", "[barwright.packs]\nx = z\n")
        assert declared() == [PackDistribution("z", version, (("x", "z"),))]
        assert declared() == declared(cache=False)
    assert reads.count == 4


def test_what_was_written_just_now_is_not_kept(
    reads: Reads, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "TICK", 3_000_000_000)

    assert declared() == declared() == [ONE, TWO]
    assert (reads.count, list(cache.glob("*"))) == (2, [])


def test_a_way_to_find_distributions_that_is_not_known_is_not_kept(
    reads: Reads, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whether what it finds has changed cannot be seen in any folder."""

    class Finder:
        """Finds what it likes."""

        @staticmethod
        def find_spec(*_: object) -> None:
            """Find no module."""

        @staticmethod
        def find_distributions(*_: object) -> list[object]:
            """Find nothing."""
            return []

    monkeypatch.setattr(sys, "meta_path", [*sys.meta_path, Finder])

    assert declared() == declared() == [ONE, TWO]
    assert reads.count == 2


def test_the_order_on_the_disk_changes_nothing(
    site: Path, reads: Reads, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Not even where two versions of one distribution were left in one folder."""
    distribution(site, "two", "a = new_pack", version="2.6")
    listdir = os.listdir
    found = []
    for backwards in (False, True):
        monkeypatch.setattr(os, "listdir", lambda p: sorted(listdir(p), reverse=backwards))  # noqa: B023
        found.append(declared(cache=False))

    assert found[0] == found[1]
    assert [one.version for one in found[0] if one.name == "two"] == ["2.5", "2.6"]
    assert reads.count == 2


def test_a_note_that_is_damaged_is_read_past(reads: Reads, cache: Path) -> None:
    declared()
    (note,) = cache.glob("*.distributions")
    whole = note.read_bytes()
    for place in range(0, len(whole), 11):
        note.write_bytes(whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :])
        assert declared() == [ONE, TWO]
        assert note.read_bytes() == whole
    listing = read_sealed(note)["listing"]
    rows: list[Any] = [[1], [1, "1", [], ""], ["x", None, [], ""], ["x", "1", [], 0]]
    rows += [["x", "1", 5, ""], ["x", "1", [["a"]], ""], ["x", "1", [["a", 1]], ""]]
    forged: list[Any] = [None, [], {"listing": listing}]
    forged += [{"listing": listing, "declared": wrong} for wrong in (5, *([row] for row in rows))]
    for wrong in forged:
        write_sealed(note, wrong)
        assert declared() == [ONE, TWO]
    assert reads.count > len(whole) / 11


def test_any_operation_may_fail(reads: Reads, cache: Path) -> None:
    number = counted(cache, declared)
    assert number > 4
    for at in range(1, number + 1):
        shutil.rmtree(cache, ignore_errors=True)
        with injected(cache, at, failing(28)):
            assert declared() == [ONE, TWO]
        assert declared() == [ONE, TWO]
        with injected(cache, at, failing(5)):
            assert declared() == [ONE, TWO]
    assert reads.count > number


def test_old_notes_are_forgotten(cache: Path, reads: Reads) -> None:
    cache.mkdir(mode=0o700, parents=True)
    for number in range(20):
        path = file_in(cache, f"{number:064x}", Kind.DISTRIBUTIONS)
        write_sealed(path, None)
        os.utime(path, (number, number))

    declared()

    left = [path.stem for path in cache.glob("*.distributions")]
    assert len(left) == 16
    assert f"{4:064x}" not in left
    assert f"{5:064x}" in left
    assert reads.count == 1


def test_broken_metadata_are_kept_as_broken(reads: Reads, site: Path) -> None:
    points = "[barwright.packs]\nthis is no entry point\n"
    (distribution(site, "odd", "") / "entry_points.txt").write_text(points, encoding="utf-8")

    found = declared()

    assert PackDistribution("odd-1.0.dist-info", "", flaw="entry_points.txt") in found
    assert declared() == found
    assert reads.count == 1


LARGE = 1024 * 1024
NO_NAME = "entry_points.txt beside a METADATA without name and version"
FLAWS: dict[str, tuple[str, Callable[[Path], object], str]] = {
    "100,000 packs": (
        "entry_points.txt",
        lambda path: path.write_text("[barwright.packs]\n" + "x = y\n" * 100_000),
        "more than 100 entry points in entry_points.txt",
    ),
    "a large file": (
        "entry_points.txt",
        lambda path: path.write_bytes(b"#" * (LARGE + 1)),
        "entry_points.txt: more than 1048576 bytes",
    ),
    "a pipe": ("entry_points.txt", os.mkfifo, "entry_points.txt that is no regular file"),
    "a device": (
        "entry_points.txt",
        lambda path: path.symlink_to("/dev/zero"),
        "entry_points.txt that is no regular file",
    ),
    "a folder": ("entry_points.txt", Path.mkdir, "entry_points.txt that is no regular file"),
    "a pipe for a name": ("METADATA", os.mkfifo, "METADATA that is no regular file"),
    "a device for a name": (
        "METADATA",
        lambda path: path.symlink_to("/dev/zero"),
        "METADATA that is no regular file",
    ),
    "a large file for a name": (
        "METADATA",
        lambda path: path.write_bytes(b"#" * (LARGE + 1)),
        "METADATA: more than 1048576 bytes",
    ),
    "no name": (
        "METADATA",
        lambda path: path.write_text("Version: 1\n\nName: late\n"),
        NO_NAME,
    ),
    "nothing for a name": (
        "METADATA",
        lambda path: path.parent,
        NO_NAME,
    ),
}


@pytest.mark.parametrize(("file", "make", "flaw"), FLAWS.values(), ids=FLAWS)
def test_metadata_that_would_cost_too_much_are_told_and_not_read(
    site: Path, reads: Reads, file: str, make: Callable[[Path], object], flaw: str
) -> None:
    path = distribution(site, "odd", "a = odd_pack") / file
    path.unlink()
    make(path)

    assert declared(cache=False) == [PackDistribution("odd-1.0.dist-info", "", flaw=flaw), ONE, TWO]
    assert reads.count == 1


def test_metadata_may_be_linked_and_hold_the_last_pack_that_is_allowed(
    site: Path, tmp_path: Path, reads: Reads
) -> None:
    """Some installers keep one copy of each file, and link to it."""
    info = distribution(site, "odd", "\n".join(f"p{n} = pack_{n}" for n in range(100)))
    info.joinpath("entry_points.txt").rename(tmp_path / "kept")
    info.joinpath("entry_points.txt").symlink_to(tmp_path / "kept")

    (odd,) = (one for one in declared(cache=False) if one.name == "odd")

    assert (len(odd.points), odd.flaw) == (100, "")
    assert reads.count == 1


def test_entry_points_are_told_from_comments_and_other_groups(site: Path, reads: Reads) -> None:
    info = distribution(site, "odd", "")
    info.joinpath("entry_points.txt").write_text(
        "# barwright.packs\n[barwright.packs.more]\na = b\n"
        "[ barwright.packs]\n[barwright.packs]\n\n# c = d\n  e  =  f  \n[other]\nnothing\n"
    )
    assert PackDistribution("odd", "1.0", (("e", "f"),)) in declared(cache=False)
    info.joinpath("entry_points.txt").write_text("# barwright.packs\n[barwright.packs]\n")
    assert declared(cache=False) == [ONE, TWO]
    assert reads.count == 2


@pytest.mark.parametrize(
    ("said", "flaws"),
    [(b"[barwright.packs]\n\xff = \xfe\n\xff\n", 1), (b"[console_scripts]\n\xff = \xfe\n", 0)],
)
def test_entry_points_that_are_no_text_stop_nothing(
    site: Path, reads: Reads, said: bytes, flaws: int
) -> None:
    (distribution(site, "odd", "") / "entry_points.txt").write_bytes(said)
    found = declared()
    assert [one for one in found if not one.flaw] == [ONE, TWO]
    assert len(found) == 2 + flaws
    assert reads.count == 1


class Strange:
    """A distribution that a stranger's code has found, which may lie nowhere."""

    def __init__(self, said: str | None) -> None:
        self._said = said

    def read_text(self, name: str) -> str | None:
        """Return the entry points, and no metadata."""
        if self._said is None:
            raise OSError(name)
        return self._said if name == "entry_points.txt" else None

    def locate_file(self, path: str) -> str:
        """Fail."""
        raise NotImplementedError(path)


@pytest.mark.parametrize(
    ("said", "flaw"),
    [
        (None, ""),
        ("", ""),
        (
            "[barwright.packs]\nx = y\n",
            NO_NAME,
        ),
    ],
)
def test_a_distribution_of_a_strange_kind_stops_nothing(said: str | None, flaw: str) -> None:
    found = module._declared(Strange(said))  # noqa: SLF001 - no installed one is so strange

    assert [one.flaw for one in found] == [flaw][: len(flaw)]
    assert {one.name for one in found} <= {"a distribution that names barwright.packs"}
    assert module._root(Strange(said)) == ""  # noqa: SLF001 - as above

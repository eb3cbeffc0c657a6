"""A registry that this process has opened is used again until anything changes."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import barwright as bw
from barwright.registry import unchanged as module
from sample_packs import GOOD_PACK, distribution


@pytest.fixture(name="site")
def _site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The first folder on the path, with a pack whose files are old at once."""
    folder = tmp_path / "site"
    shutil.copytree(GOOD_PACK, folder / "good_pack")
    (folder / "good_pack" / "__init__.py").write_text("", encoding="utf-8")
    distribution(folder, "good", "good = good_pack")
    monkeypatch.setattr(module, "TICK", 0)
    monkeypatch.syspath_prepend(folder)
    return folder


def _ids(registry: bw.Registry) -> list[str]:
    return [pack.id for pack in registry.packs]


def test_nothing_is_opened_twice(site: Path) -> None:
    assert site.exists()
    first = bw.Registry.discover()
    assert "tiny" in _ids(first)
    assert bw.Registry.discover() is first


CHANGES: dict[str, Callable[[Path], object]] = {
    "a file changed": lambda site: os.utime(site / "good_pack" / "pack.toml"),
    "a file added": lambda site: (site / "good_pack" / "more.toml").write_text("", "utf-8"),
    "a file removed": lambda site: (site / "good_pack" / "__init__.py").unlink(),
    "a folder added": lambda site: (site / "good_pack" / "more").mkdir(),
    "a distribution added": lambda site: distribution(site, "other", "x = other_pack"),
    "the path gone": shutil.rmtree,
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_after_a_change_it_is_opened_anew(site: Path, change: Callable[[Path], object]) -> None:
    first = bw.Registry.discover()
    change(site)
    assert bw.Registry.discover() is not first


def test_in_another_environment_it_is_opened_anew(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = bw.Registry.discover()
    with monkeypatch.context() as elsewhere:
        elsewhere.chdir(tmp_path)
        assert bw.Registry.discover() is not first
    monkeypatch.setattr(sys, "path", [entry for entry in sys.path if entry != str(site)])
    assert "tiny" not in _ids(bw.Registry.discover())


def test_a_folder_that_is_gone_is_no_environment_of_its_own(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert site.exists()
    (tmp_path / "gone").mkdir()
    monkeypatch.chdir(tmp_path / "gone")
    (tmp_path / "gone").rmdir()
    first = bw.Registry.discover()
    assert bw.Registry.discover() is first


def test_whoever_asks_for_something_else_gets_it(site: Path) -> None:
    assert site.exists()

    class Other(bw.Registry):
        """A registry of another kind."""

    first = bw.Registry.discover()
    assert bw.Registry.discover(cache=False) is not first
    assert bw.Registry.discover(prefer={"tiny": "good 1.0"}) is not first
    assert type(Other.discover()) is Other


def test_what_was_written_just_now_is_not_relied_on(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "TICK", 3_000_000_000)
    assert site.exists()
    assert bw.Registry.discover() is not bw.Registry.discover()


def test_more_files_than_a_pack_can_have_are_not_looked_at_each_time(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "MOST_ENTRIES", 2)
    assert site.exists()
    assert bw.Registry.discover() is not bw.Registry.discover()

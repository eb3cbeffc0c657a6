"""Whatever is wrong with one pack of a hundred, the other ninety-nine are there."""

from __future__ import annotations

import functools
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

import barwright as bw
from benchmarks.many_packs import write_pack
from index_packs import fresh_cache
from rare_cases import rarely_after
from sample_packs import distribution

_COUNT = 100
_NUMBER = 42
_ONE = "p0042"

_HEADER = """schema = 2
id = "p{number:04}"
title = "Invented pack {number}, one of many"
licence = "CC0-1.0"
source = [{{ id = "desk", kind = "invented", note = "Invented for the test." }}]
"""


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Ninety-nine good packs, installed in one folder."""
    site = tmp_path_factory.mktemp("many")
    for number in range(_COUNT):
        if number != _NUMBER:
            folder = site / f"one_of_many_{number:04}"
            folder.mkdir()
            text = _HEADER.format(number=number)
            (folder / "pack.toml").write_text(text, encoding="utf-8")
            distribution(site, f"many-{number:04}", f"p{number:04} = {folder.name}")
    return site


@pytest.fixture
def site(many: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder beside theirs, with the hundredth, which a test may break."""
    site = tmp_path / "site"
    write_pack(site / "one_of_many_0042", number=_NUMBER, chassis=1)
    distribution(site, "many-0042", f"{_ONE} = one_of_many_0042")
    monkeypatch.syspath_prepend(str(many))
    monkeypatch.syspath_prepend(str(site))
    fresh_cache(tmp_path, monkeypatch)
    return site


def _pack(site: Path) -> Path:
    return site / "one_of_many_0042"


def _metadata(site: Path) -> Path:
    return site / "many-0042-1.0.dist-info"


def _rewritten(site: Path, name: str, old: str, new: str) -> None:
    path = _pack(site) / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def _nothing_there(site: Path) -> None:
    shutil.rmtree(_pack(site))


def _no_header(site: Path) -> None:
    (_pack(site) / "pack.toml").unlink()


def _not_text(site: Path) -> None:
    (_pack(site) / "parts.toml").write_bytes(b"\xff\xfe")


def _not_toml(site: Path) -> None:
    (_pack(site) / "parts.toml").write_bytes(b"[[bar]\n")


def _too_large(site: Path) -> None:
    (_pack(site) / "parts.toml").write_bytes(b"#" * (2 * 1024 * 1024))


def _too_deep(site: Path) -> None:
    (_pack(site) / "more.toml").write_text("x = " + "[" * 5000 + "]" * 5000, encoding="utf-8")


def _too_long_a_key(site: Path) -> None:
    (_pack(site) / "more.toml").write_text("a." * 50_000 + "a = 1", encoding="utf-8")


def _a_key_too_many(site: Path) -> None:
    _rewritten(site, "parts.toml", "[[bar]]\n", "[[bar]]\ncolour = 'red'\n")


def _a_wrong_unit(site: Path) -> None:
    _rewritten(site, "parts.toml", 'teeth = 39\nform = "involute"\nlength = "37 mm"', "teeth = 0")


def _a_reference_to_nothing(site: Path) -> None:
    _rewritten(site, "parts.toml", '"material/steel"', '"material/stele"')


def _a_newer_format(site: Path) -> None:
    _rewritten(site, "pack.toml", "schema = 2", "schema = 99")


def _an_id_twice(site: Path) -> None:
    text = (_pack(site) / "vehicles.toml").read_text(encoding="utf-8")
    (_pack(site) / "again.toml").write_text(text, encoding="utf-8")


def _a_link_that_leads_out(site: Path) -> None:
    (_pack(site) / "parts.toml").unlink()
    (_pack(site) / "parts.toml").symlink_to("../../elsewhere.toml")


def _a_link_to_itself(site: Path) -> None:
    (_pack(site) / "loop.toml").symlink_to("loop.toml")


def _a_pipe(site: Path) -> None:
    os.mkfifo(_pack(site) / "pipe.toml")


def _a_folder_for_a_file(site: Path) -> None:
    (_pack(site) / "parts.toml").unlink()
    (_pack(site) / "parts.toml").mkdir()


def _an_entry_point_to_nothing(site: Path) -> None:
    text = "[barwright.packs]\np0042 = one_of_many_0042.gone\n"
    (_metadata(site) / "entry_points.txt").write_text(text, encoding="utf-8")


def _metadata_that_is_none(site: Path) -> None:
    (_metadata(site) / "entry_points.txt").write_bytes(b"[barwright.packs]\n\xff = \xfe\n")


def _before(cache: str) -> tuple[set[str], int]:
    """Packs and problems while nothing is wrong, which a cache is to hold before it is."""
    if cache == "off":
        return _without_cache()
    registry = bw.Registry.discover()
    return {pack.id for pack in registry.packs}, len(registry.problems)


@functools.cache
def _without_cache() -> tuple[set[str], int]:
    registry = bw.Registry.discover(cache=False)
    return {pack.id for pack in registry.packs}, len(registry.problems)


_FAULTS: list[Callable[[Path], None]] = [
    _nothing_there,
    _no_header,
    _not_text,
    _not_toml,
    _too_large,
    _too_deep,
    _too_long_a_key,
    _a_key_too_many,
    _a_wrong_unit,
    _a_reference_to_nothing,
    _a_newer_format,
    _an_id_twice,
    _a_link_that_leads_out,
    _a_link_to_itself,
    _a_pipe,
    _a_folder_for_a_file,
    _an_entry_point_to_nothing,
    _metadata_that_is_none,
]


@pytest.mark.parametrize("cache", ["on", pytest.param("off", marks=pytest.mark.slow)])
@pytest.mark.parametrize(
    "fault", rarely_after(6, _FAULTS), ids=lambda fault: fault.__name__.strip("_")
)
def test_one_bad_pack_hides_no_other(
    fault: Callable[[Path], None], cache: str, site: Path, many: Path
) -> None:
    there, problems = _before(cache)
    fault(site)
    registry = bw.Registry.discover(cache=cache == "on")
    assert there - {pack.id for pack in registry.packs} == {_ONE}
    assert len([pack for pack in registry.packs if pack.folder.parent == many]) == _COUNT - 1
    assert len(registry.problems) == problems + 1
    assert registry.problems[-1].problems

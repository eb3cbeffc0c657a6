"""Packs for tests of the index, and all that a registry of them answers, as one text."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.registry.files import snapshot
from barwright.registry.index import store as index_store
from barwright.registry.packs.search_terms import Condition
from barwright.report.forms.json import plain
from benchmarks.many_packs import write_pack
from sample_packs import GOOD_PACK

__all__ = [
    "answers",
    "asked",
    "broken_pack",
    "changed",
    "expected",
    "fresh_cache",
    "indexes",
    "is_indexed",
    "opened",
    "reported",
    "short_answers",
    "small_packs",
    "uncached",
    "words",
]

_ASKED = [
    (),
    ("maker1",),
    ("van", "v0"),
    ("model2", "short"),
    ("nobody",),
    ("van", "box"),
]

_MISSPELT = [
    "p0001:chassis/v0",
    "chassis/v0",
    "chassis/v9",
    "p0001:chasis/v1",
    "x:bar/p0",
    "\udcff",
]


def fresh_cache(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The library's own cache folder for one test, in which files are old at once."""
    monkeypatch.setenv("BARWRIGHT_CACHE", str(folder / "cache"))
    monkeypatch.setattr(snapshot, "TICK", 0)
    return folder / "cache" / "barwright-cache"


def opened(*packs: Path) -> tuple[bw.Registry, list[tuple[int, int]]]:
    """A registry by way of the cache, and how many packs had to be read for it."""
    counts: list[tuple[int, int]] = []
    registry = bw.Registry.from_folders(*packs, progress=lambda *count: counts.append(count))
    return registry, counts


def uncached(*packs: Path) -> str:
    """What the packs answer without any cache."""
    return answers(bw.Registry.from_folders(*packs, cache=False))


def small_packs(folder: Path, count: int = 3, chassis: int = 2) -> list[Path]:
    """Packs that are worth an index together, in folders of their own."""
    for number in range(count):
        write_pack(folder / f"pack_{number}", number=number, chassis=chassis)
    return [folder / f"pack_{number}" for number in range(count)]


def broken_pack(folder: Path) -> Path:
    """A pack with problems of several kinds in several files."""
    pack = folder / "broken"
    shutil.copytree(GOOD_PACK, pack)
    parts = (pack / "parts.toml").read_text(encoding="utf-8")
    parts = parts.replace("teeth = 39,", "teeth = 0,", 1).replace('"904 mm"', '"904"')
    (pack / "parts.toml").write_text(parts, encoding="utf-8")
    (pack / "more.toml").write_text('[[barr]]\nid = "x"\n', encoding="utf-8")
    return pack


def answers(registry: bw.Registry) -> str:
    """All that a registry knows, and what it says of names that it does not."""
    store = registry.store
    ids = store.ids()
    return json.dumps(
        {
            "packs": [_plain_pack(pack) for pack in registry.packs],
            "problems": [reported(problem) for problem in registry.problems],
            "ids": [ids, registry.ids("bar"), registry.ids("chassis"), registry.ids("none")],
            "parts": [plain(part) for part in (*registry.parts(), *registry.vehicles())],
            "about": [_about(store.part(full)) for full in ids],
            "entries": [attrs.asdict(entry) for entry in map(store.entry, ids) if entry],
            "none": [store.entry("p0001:bar/none"), store.part("none:bar/p0"), store.header("x")],
            "shared": store.full_ids("chassis/v0"),
            "found": [store.having(words(*asked)) for asked in _ASKED],
            "known": [store.knows(word) for word in words("van", "nobody")],
            "words": [store.words(), store.words("title"), store.words("none")],
            "unknown": [_refusal(registry, name) for name in _MISSPELT],
        },
        indent=1,
        default=str,
    )


def short_answers(registry: bw.Registry) -> list[object]:
    """As much as tells a right registry from a wrong one, and takes little time."""
    ids = [full for full in registry.ids() if not full.startswith("standards:")]
    made = [repr(registry.store.part(full)) for full in ids]
    return [ids, made, [str(p) for p in registry.problems], [p.digest for p in registry.packs]]


def asked(*packs: Path) -> list[object]:
    """What the packs answer by way of the cache."""
    return short_answers(bw.Registry.from_folders(*packs))


def expected(*packs: Path) -> list[object]:
    """What they answer without it."""
    return short_answers(bw.Registry.from_folders(*packs, cache=False))


def words(*asked: str) -> list[Condition]:
    """Conditions that a vehicle has some words."""
    return [Condition(word=word) for word in asked]


def reported(problem: bw.BarwrightError) -> list[Any]:
    """Everything that an error says."""
    inner = [reported(one) for one in getattr(problem, "problems", ())]
    return [type(problem).__name__, problem.fields, str(problem), problem.exit_code, inner]


def _plain_pack(pack: Any) -> dict[str, Any]:
    return attrs.asdict(pack, value_serializer=lambda *_: _[-1]) | {"id": pack.id}


def _about(part: bw.parts.Part | None) -> Any:
    assert part is not None
    return {field: str(figure) for field, figure in sorted(part.about.items())}


def _refusal(registry: bw.Registry, name: str) -> Any:
    try:
        return registry.chassis(name).id
    except bw.UnknownNameError as error:
        return reported(error)


def is_indexed(registry: bw.Registry) -> bool:
    """Whether a registry stands on an index."""
    store = registry.store
    return isinstance(store, index_store.SafeStore) and isinstance(
        store._store,  # noqa: SLF001 - what is behind it is what this is about
        index_store.IndexStore,
    )


def changed(pack: Path, old: str, new: str, file: str = "vehicles.toml") -> None:
    """Change a file of a pack."""
    text = (pack / file).read_text(encoding="utf-8")
    assert old in text
    (pack / file).write_text(text.replace(old, new, 1), encoding="utf-8")


def indexes(cache: Path) -> list[Path]:
    """The indexes that lie in the cache."""
    return sorted(cache.glob("*.index"))

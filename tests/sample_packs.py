"""Packs for tests: a good one, of which a test changes what it is about."""

from __future__ import annotations

import functools
import shutil
from pathlib import Path

import barwright as bw

__all__ = [
    "GOOD_PACK",
    "SPECIMENS",
    "changed_pack",
    "discovered_once",
    "distribution",
    "problems_in",
]

SPECIMENS = Path(__file__).parent / "specimens"
GOOD_PACK = SPECIMENS / "packs" / "good"


@functools.cache
def discovered_once() -> bw.Registry:
    """The registry of this environment, for tests that ask it often."""
    return bw.Registry.discover()


def changed_pack(folder: Path, file: str, old: str, new: str) -> Path:
    """The good pack, copied, with one piece of text replaced or a file added."""
    pack = folder / "pack"
    shutil.copytree(GOOD_PACK, pack)
    path = pack / file
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return pack


def problems_in(pack: Path) -> list[str]:
    """Code and key of each problem of a pack, as "S203 bar[0].teeth"."""
    return [
        f"{problem.code} {problem.key}".strip()
        for error in bw.Registry.from_folders(pack).problems
        for problem in error.problems
    ]


def distribution(folder: Path, name: str, points: str, version: str = "1.0") -> Path:
    """The metadata of an installed distribution with entry points, and nothing else."""
    info = folder / f"{name}-{version}.dist-info"
    info.mkdir(parents=True)
    text = f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n"
    (info / "METADATA").write_text(text, encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[barwright.packs]\n{points}\n", encoding="utf-8")
    return info

"""Locks, histories, notes of the cache and metadata of distributions, spoilt and read."""

from __future__ import annotations

import functools
import importlib
import json
import sys
import tempfile
from pathlib import Path
from random import Random

import pytest
import tomli_w

import barwright as bw
from barwright.registry.discovery.distributions import declared
from barwright.registry.files.cache_files import write_sealed
from barwright.registry.index.note import read_note
from barwright.registry.lock import read_lock
from fuzz.mutations import spoilt_bytes, spoilt_table
from fuzz.seeds import TEXTS, seeds

__all__ = [
    "a_history",
    "a_lock",
    "a_note",
    "ask_history",
    "ask_lock",
    "ask_metadata",
    "ask_note",
    "some_metadata",
]


@functools.cache
def _folder() -> Path:
    return Path(tempfile.mkdtemp(prefix="barwright-fuzz-"))


_LOCK = {
    "schema": 1,
    "library": "0.1.0",
    "pack": [{"id": "tiny", "origin": "packs", "digest": "0" * 64, "layer": 1}],
}
_HISTORY = b"0 mm\n45 mm  # a hole\n-30 mm \xc2\xb1 1 mm\n\n# end\n"
_NOTE = {
    "index": "0" * 64,
    "state": "1" * 64,
    "seen": [1, 2, 3, 4],
    "packs": [["folder", [["pack.toml", 1, 2, 3, 4]], True, "2" * 64]],
}
_POINTS = b"[console_scripts]\nx = y:z\n[barwright.packs]\na = b_pack\nc = d_pack\n"
_METADATA = b"Metadata-Version: 2.1\nName: odd\nVersion: 1.0\n\nA text: of words.\n"


def a_lock(chance: Random) -> bytes:
    if chance.random() < 0.5:
        return spoilt_bytes(chance, tomli_w.dumps(_LOCK).encode(), seeds().blocks)
    return tomli_w.dumps(spoilt_table(chance, _LOCK, [_LOCK])).encode("utf-8", "replace")


def ask_lock(data: bytes) -> str:
    (_folder() / "barwright.lock").write_bytes(data)
    return f"read {len(read_lock(_folder() / 'barwright.lock').pack)}"


def a_history(chance: Random) -> bytes:
    return spoilt_bytes(chance, _HISTORY, [_HISTORY, *(text.encode() for text in TEXTS)])


def ask_history(data: bytes) -> str:
    (_folder() / "history.txt").write_bytes(data)
    return f"read {len(bw.load_history(_folder() / 'history.txt').magnitude)}"


def a_note(chance: Random) -> bytes:
    return json.dumps(spoilt_table(chance, _NOTE, [_NOTE]), default=str).encode()


def ask_note(data: bytes) -> str:
    write_sealed(_folder() / "note", json.loads(data))
    return str(read_note(_folder() / "note") is not None)


def some_metadata(chance: Random) -> bytes:
    points = spoilt_bytes(chance, _POINTS, [_POINTS, _METADATA])
    return points + b"\0METADATA\0" + spoilt_bytes(chance, _METADATA, [_POINTS, _METADATA])


def ask_metadata(data: bytes) -> str:
    points, _, metadata = data.partition(b"\0METADATA\0")
    info = _folder() / "site" / "odd-1.0.dist-info"
    info.mkdir(parents=True, exist_ok=True)
    (info / "entry_points.txt").write_bytes(points)
    (info / "METADATA").write_bytes(metadata)
    importlib.import_module("importlib_metadata")  # while it can be found
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(sys, "path", [str(info.parent)])
        found = declared(cache=False)
    return f"{len(found)} declared\n{found}"

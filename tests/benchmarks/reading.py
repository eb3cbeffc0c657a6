"""Measures what it costs to read packs, and prints a table.

    cd tests && python -m benchmarks.reading FOLDER [--packs 1000] [--chassis 100] [--runs 5]

Packs are written into the folder unless they are there; the cache lies beside them.  Each
figure is the least processor time of the runs, beside it what it is held against in the same
run, their ratio, and the goal.
"""

from __future__ import annotations

import argparse
import functools
import os
import random
import sys
import time
import tomllib
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pint

import barwright as bw
from barwright.registry.discovery.distributions import declared
from barwright.registry.files.cache_files import Kind
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.index.file import open_index
from barwright.registry.packs.load import load_snapshot, standards
from barwright.units import LENGTH, read_figure
from benchmarks.many_packs import write_pack, write_packs

__all__ = ["main"]

_TEXTS = [f"{700 + number / 7:.4f} mm" for number in range(2000)]
_ASKED = ("entry_points.txt", "METADATA")
_SETTLED = 4  # seconds until a change of what was just written would show


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--packs", type=int, default=1000)
    parser.add_argument("--chassis", type=int, default=100)
    parser.add_argument("--runs", type=int, default=5)
    given = parser.parse_args()
    site = given.folder.absolute() / "site"
    os.environ["BARWRIGHT_CACHE"] = str(site.parent / "cache")
    if not site.exists():
        write_packs(site, packs=given.packs, chassis=given.chassis)
    standards()
    lines = (*_a_pack(site.parent / "pack", given.runs), *_a_figure(given.runs))
    for line in (*lines, *_an_index(site, given.packs, given.chassis, given.runs)):
        print(line)  # noqa: T201 - what a script is for


def _a_pack(folder: Path, runs: int) -> Iterator[str]:
    """A pack of one size, read without a cache."""
    if not folder.exists():
        write_pack(folder, number=0, chassis=500)
    snapshot = snapshot_of(folder)
    texts = [text.decode() for text in snapshot.files.values() if isinstance(text, bytes)]
    ours, parser = _by_turns(
        [
            lambda: load_snapshot(snapshot, origin="x"),
            lambda: [tomllib.loads(text) for text in texts],
        ],
        runs,
    )
    yield _against("a sound pack", ours, "tomllib", parser, "<= 2")


def _a_figure(runs: int) -> Iterator[str]:
    """The text of a figure, no two the same."""
    registry = pint.get_application_registry()  # type: ignore[no-untyped-call]
    ours, pints = _by_turns(
        [
            lambda: [read_figure(text, LENGTH, key="") for text in _TEXTS],
            lambda: [registry.Quantity(text) for text in _TEXTS],
        ],
        runs,
    )
    micros = ours / len(_TEXTS) * 1e6
    faster = pints / ours
    yield f"{'a figure':<34}{micros:>9.3f} µs  pint's parser takes {faster:.0f} times, goal >= 100"


def _an_index(site: Path, packs: int, chassis: int, runs: int) -> Iterator[str]:
    """An index of many packs: built, opened, searched."""
    sys.path.insert(0, str(site))
    cache = Path(os.environ["BARWRIGHT_CACHE"]) / "barwright-cache"
    for path in cache.glob("*"):
        path.unlink()
    files = sorted(site.glob("pack_*/*.toml"))
    built, parser = _by_turns(
        [bw.Registry.discover, lambda: [tomllib.loads(path.read_text("utf-8")) for path in files]],
        1,
    )
    yield _against(f"an index of {packs} packs, built", built, "tomllib", parser, "<= 1.35; 20 s")
    time.sleep(_SETTLED)
    registry = bw.Registry.discover()
    (index,) = cache.glob(f"*{Kind.INDEX}")
    file = open_index(index, index.stem)
    assert file is not None
    seen = file.seen
    (opened,) = _by_turns([lambda: open_index(index, index.stem, seen=seen)], runs)
    yield _alone("an index, opened", opened, "<= 10 ms")
    asked = [f"{info}/{name}" for info in site.glob("*.dist-info") for name in _ASKED]
    # As a Path it would take twice as long.
    kept, alone = _by_turns([declared, lambda: [os.stat(path) for path in asked]], runs)  # noqa: PTH116
    yield _against("metadata that were kept", kept, "asking for their files", alone, "<= 5 ms")
    yield _alone("discover() again", _by_turns([bw.Registry.discover], runs)[0], "<= 0.1 ms for 3")
    chance = random.Random(0)  # noqa: S311 - no secret
    names = [
        f"p{chance.randrange(packs):04}:chassis/v{chance.randrange(chassis)}" for _ in range(1000)
    ]
    times = sorted(_time(functools.partial(registry.chassis, name)) for name in names)
    yield _alone(f"a vehicle among {packs * chassis}", times[len(times) // 2], "<= 1 ms")


def _by_turns(calls: Sequence[Callable[[], object]], runs: int) -> list[float]:
    """Least processor time of each of several calls, measured by turns [s]."""
    times = [[_time(call) for call in calls] for _ in range(runs)]
    return [min(times) for times in zip(*times, strict=True)]


def _time(call: Callable[[], object]) -> float:
    start = time.process_time()
    call()
    return time.process_time() - start


def _against(name: str, ours: float, against: str, theirs: float, goal: str) -> str:
    ratio = ours / theirs
    return f"{_alone(name, ours)}  over {against} {theirs * 1e3:.1f} ms = {ratio:.2f}, goal {goal}"


def _alone(name: str, ours: float, goal: str = "") -> str:
    return f"{name:<34}{ours * 1e3:>9.3f} ms{f', goal {goal}' if goal else ''}"


if __name__ == "__main__":
    main()

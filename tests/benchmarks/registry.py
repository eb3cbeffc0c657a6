"""Measures the registry with very many packs, and prints a table.

    cd tests && python -m benchmarks.registry FOLDER [--packs 1000] [--chassis 100] [--runs 5]

Packs are written into the folder unless they are there; the cache lies beside them.
Every figure is taken in a process of its own and is the median of the runs.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from benchmarks.many_packs import write_packs

_SHARED = """
import json, random, sys, time
sys.path.insert(0, {site!r})
def resident():
    with open("/proc/self/statm") as file:
        return int(file.read().split()[1]) * 4096 / 1e6
import barwright as bw
bw.Registry, bw.Quantity
from barwright.registry.index import shelf as cached, store as index_store
bare = bw.Registry.from_folders().parts()
imported, start = resident(), time.perf_counter()
told = {{}}
def tell(name, value):
    told[name] = value
def timed(call, *arguments):
    before = time.perf_counter()
    call(*arguments)
    return (time.perf_counter() - before) * 1e3
def spread(times):
    times = sorted(times)
    return times[len(times) // 2], times[len(times) * 99 // 100]
"""

_OPEN = """
registry = bw.Registry.discover()
tell("open", (time.perf_counter() - start) * 1e3)
assert not registry.problems, registry.problems
tell("first", timed(registry.chassis, "p0007:chassis/v3"))
tell("resident_cold", resident() - imported)
print(json.dumps(told))
"""

_WARM = """
registry = bw.Registry.discover()
chance = random.Random(0)
def number(most):
    return chance.randrange(most)
names = [f"p{{number({packs}):04}}:chassis/v{{number({chassis})}}" for _ in range({count})]
registry.chassis(names[0])
median, worst = spread([timed(registry.chassis, name) for name in names])
tell("by_id", median)
tell("by_id_worst", worst)
tell("again", spread([timed(registry.chassis, names[-1]) for _ in range(1000)])[0])
asked = [(number({packs}), number({chassis})) for _ in range({count})]
words = [f"Maker{{pack % 40}} Model{{pack}} T{{vehicle}}" for pack, vehicle in asked]
median, worst = spread([timed(registry.resolve, text) for text in words])
tell("by_words", median)
tell("by_words_worst", worst)
def by_attributes(pack, vehicle):
    registry.resolve(maker=f"maker{{pack % 40}}", model=f"model{{pack}}", trim=f"t{{vehicle}}")
median, worst = spread([timed(by_attributes, *one) for one in asked])
tell("by_attributes", median)
tell("by_attributes_worst", worst)
def several():
    try:
        registry.resolve("van home 1987")
    except bw.UnknownNameError as error:
        assert error.code == "L104", error
tell("several", spread([timed(several) for _ in range(5)])[0])
tell("resident_warm", resident() - imported)
def unknown():
    try:
        registry.chassis("p0007:chasis/v3")
    except bw.UnknownNameError:
        pass
tell("unknown", timed(unknown))
print(json.dumps(told))
"""

_MEMORY = """
registry = bw.Registry.discover(cache=False)
tell("memory", (time.perf_counter() - start) * 1e3)
tell("resident_memory", resident() - imported)
print(json.dumps(told))
"""

_METADATA = """
from barwright.registry.discovery.distributions import declared
tell("metadata", timed(lambda: declared(cache={cache})))
print(json.dumps(told))
"""


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--packs", type=int, default=1000)
    parser.add_argument("--chassis", type=int, default=100)
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--without-index", action="store_true", help="measure that too")
    given = parser.parse_args()
    site = given.folder.absolute() / "site"
    if not site.exists():
        write_packs(site, packs=given.packs, chassis=given.chassis)
        time.sleep(4)  # until a change of what was just written would show
    for name, value in _measured(Bench(site, given.packs, given.chassis, given.runs), given):
        print(f"{name:<62}{value:>14}")  # noqa: T201 - what a script is for


class Bench:
    """Runs pieces of a program in processes of their own."""

    def __init__(self, site: Path, packs: int, chassis: int, runs: int) -> None:
        self.site = site
        self.cache = site.parent / "cache"
        self._runs = runs
        self._sizes = {"packs": packs, "chassis": chassis, "count": min(1000, packs * chassis)}

    def kept(self) -> list[Path]:
        """Files of the cache."""
        return list(self.cache.glob("barwright-cache/*"))

    def run(self, program: str, *, runs: int = 0, **values: object) -> dict[str, float]:
        """Median of everything that a program tells, and how long it took to tell it."""
        reported = [self._run(program, **values) for _ in range(runs or self._runs)]
        return {name: statistics.median(one[name] for one in reported) for name in reported[0]}

    def _run(self, program: str, **values: object) -> dict[str, float]:
        code = (_SHARED + program).format(site=str(self.site), **self._sizes, **values)
        start = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            env=os.environ | {"BARWRIGHT_CACHE": str(self.cache)},
        )
        reported: dict[str, float] = json.loads(done.stdout)
        return reported | {"process": (time.perf_counter() - start) * 1e3}


def _measured(bench: Bench, given: argparse.Namespace) -> Iterator[tuple[str, str]]:
    """Every figure with its name, one after the other."""
    if given.without_index:
        memory = bench.run(_MEMORY, runs=1)
        yield "no index: all packs loaded", f"{memory['memory'] / 1e3:.1f} s"
        yield "no index: resident beyond the imports", f"{memory['resident_memory']:.0f} MB"
    for path in bench.kept():
        path.unlink()
    built = bench.run(_OPEN, runs=1)
    yield "first build of the index", f"{built['open'] / 1e3:.1f} s"
    yield "resident beyond the imports after the build", f"{built['resident_cold']:.1f} MB"
    size = sum(path.stat().st_size for path in bench.kept())
    yield "index and notes on disk", f"{size / 1e6:.0f} MB"
    cold = bench.run(_OPEN)
    yield "cold start: whole process, to the first vehicle", f"{cold['process']:.0f} ms"
    yield "cold start: of that, opening the registry", f"{cold['open']:.0f} ms"
    yield "cold start: of that, the first vehicle", f"{cold['first']:.1f} ms"
    yield "cold start: resident beyond the imports", f"{cold['resident_cold']:.1f} MB"
    warm = bench.run(_WARM)
    yield "warm: a vehicle by id, not asked for before", f"{warm['by_id']:.2f} ms"
    yield "warm: the same, 99 of 100 are faster", f"{warm['by_id_worst']:.2f} ms"
    yield "warm: a vehicle by id, asked for before", f"{warm['again'] * 1e3:.1f} µs"
    yield "warm: a vehicle by maker, model and trim as words", f"{warm['by_words']:.2f} ms"
    yield "warm: the same, 99 of 100 are faster", f"{warm['by_words_worst']:.2f} ms"
    yield "warm: a vehicle by the same as attributes", f"{warm['by_attributes']:.2f} ms"
    yield "warm: the same, 99 of 100 are faster", f"{warm['by_attributes_worst']:.2f} ms"
    yield "warm: words that hundreds of vehicles have", f"{warm['several']:.0f} ms"
    yield "warm: an unknown vehicle, with the nearest names", f"{warm['unknown']:.0f} ms"
    yield "warm: resident beyond the imports after all that", f"{warm['resident_warm']:.1f} MB"
    yield from _changes(bench)
    yield (
        "metadata of all distributions, read",
        f"{bench.run(_METADATA, cache=False)['metadata']:.0f} ms",
    )
    yield (
        "metadata of all distributions, kept",
        f"{bench.run(_METADATA, cache=True)['metadata']:.1f} ms",
    )


def _changes(bench: Bench) -> Iterator[tuple[str, str]]:
    """What it costs when one pack was touched, or changed."""
    file = bench.site / "pack_0007" / "vehicles.toml"
    text = file.read_text(encoding="utf-8")
    file.touch()
    yield "opening after one pack was touched", f"{bench.run(_OPEN, runs=1)['open']:.0f} ms"
    file.write_text(text.replace("Maker", "Other", 1), encoding="utf-8")
    yield "opening after one pack was changed", f"{bench.run(_OPEN, runs=1)['open']:.0f} ms"
    file.write_text(text, encoding="utf-8")
    bench.run(_OPEN, runs=1)


if __name__ == "__main__":
    main()

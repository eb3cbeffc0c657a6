"""Measures long work in parts against a plain loop over the same files, and prints a table.

    cd tests && python -m benchmarks.in_parts FOLDER [--rows 2000000] [--files 16] [--workers 1 2]

All times are taken in one run, and shown as ratios to the plain loop: read a file, answer it, write
the answers.  Starting the cluster is not counted; its workers answer a first small file before.
"""

from __future__ import annotations

import argparse
import importlib
import shutil
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pyarrow as pa
from pyarrow import parquet

import barwright as bw

_ROWS_OF_A_GROUP = 131_072


# As the page on clusters says: a worker keeps memory that it will need again at once.
_MEMORY = {
    f"distributed.nanny.pre-spawn-environ.MALLOC_{name}_THRESHOLD_": 1 << 28
    for name in ("TRIM", "MMAP")
}


class _Times(NamedTuple):
    """Seconds that passed, and seconds of all processors that worked on it."""

    elapsed: float
    processors: float


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--rows", type=int, default=2_000_000)
    parser.add_argument("--files", type=int, default=16)
    parser.add_argument("--workers", type=int, nargs="*", default=[1, 2])
    asked = parser.parse_args()
    source = _source(asked.folder, rows=asked.rows, files=asked.files)
    van = bw.Registry.demo().setup("fells:chassis/short", corner="front left")
    output = asked.folder / "answers.parquet"
    plain = _timed(lambda: _plainly(van, source, asked.folder / "plain"))
    sys.stdout.write(f"{'':24}{'elapsed':>20}{'processors':>20}\n")
    _say("plain loop", plain, plain)
    alone = _timed(lambda: bw.write_batch(van, source, _new(output), processes=1))
    _say("in parts, 1 process", alone, plain)
    unsettled = _on_dask(van, source, output, 1, settled=False)
    _say("on Dask, 1, as it comes", unsettled, plain)
    for workers in asked.workers:
        _say(f"on Dask, {workers} worker(s)", _on_dask(van, source, output, workers), plain)


def _source(folder: Path, *, rows: int, files: int) -> Path:
    """Write tables of loads and diameters, the same each time."""
    source = folder / f"{rows}-rows-in-{files}-files"
    if not source.exists():
        source.mkdir(parents=True)
        for number in range(files):
            chance = np.random.default_rng(number)
            of_file = rows // files
            columns = {
                "load.mass [kg]": chance.uniform(250.0, 330.0, of_file),
                "bar.diameter [mm]": chance.uniform(21.0, 25.0, of_file),
            }
            path = source / f"{number:04}.parquet"
            parquet.write_table(pa.table(columns), path, row_group_size=_ROWS_OF_A_GROUP)
    return source


def _plainly(van: bw.Setup, source: Path, output: Path) -> None:
    shutil.rmtree(output, ignore_errors=True)
    output.mkdir()
    for path in sorted(source.iterdir()):
        parquet.write_table(bw.batch_table(van, parquet.read_table(path)), output / path.name)


def _on_dask(
    van: bw.Setup, source: Path, output: Path, workers: int, *, settled: bool = True
) -> _Times:
    local: Any = importlib.import_module("distributed")
    settings: Any = importlib.import_module("dask").config
    with (
        settings.set(_MEMORY if settled else {}),
        local.LocalCluster(
            n_workers=workers, threads_per_worker=1, dashboard_address=None
        ) as cluster,
        local.Client(cluster) as client,
    ):
        bw.write_batch(van, _small(source), _new(output), client=client)
        before = sum(client.run(time.process_time).values())
        times = _timed(lambda: bw.write_batch(van, source, _new(output), client=client))
        there = sum(client.run(time.process_time).values()) - before
        return _Times(times.elapsed, times.processors + there)


def _small(source: Path) -> Path:
    """Small files, by which every worker loads what it needs."""
    folder = source.with_name("small")
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    first = parquet.read_table(min(source.iterdir())).slice(0, 64)
    for number in range(16):
        parquet.write_table(first, folder / f"{number}.parquet")
    return folder


def _new(output: Path) -> Path:
    output.unlink(missing_ok=True)
    return output


def _timed(call: Callable[[], object]) -> _Times:
    elapsed, processors = time.perf_counter(), time.process_time()
    call()
    return _Times(time.perf_counter() - elapsed, time.process_time() - processors)


def _say(what: str, times: _Times, plain: _Times) -> None:
    cells = "".join(
        f"{one:10.2f} s{one / base:8.2f}" for one, base in zip(times, plain, strict=True)
    )
    sys.stdout.write(f"{what:24}{cells}\n")


if __name__ == "__main__":
    main()

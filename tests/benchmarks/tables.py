"""Measures `barwright batch` from Parquet to Parquet: processor time and peak memory by rows.

    cd tests && python -m benchmarks.tables FOLDER [--asked rates] [--rows 100000 1000000 10000000]

Each line is a process of its own: its rows, its rows a second of processor time, and the most
memory that it held. The memory is to be the same however many rows there are. A row of the rates
takes 200 bytes of the folder, in and out.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pyarrow as pa

from barwright.tables.files.table_file import table_file

__all__ = ["main"]

_PIECE = 1_000_000
_CORNER = ("--demo", "--vehicle", "fells:chassis/short", "--corner", "front left")


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--asked", default="rates")
    parser.add_argument("--rows", type=int, nargs="+", default=[100_000, 1_000_000, 10_000_000])
    given = parser.parse_args()
    for rows in given.rows:
        table, output = given.folder / "rows.parquet", given.folder / "answers.parquet"
        _write(table, rows)
        seconds, megabytes = _answer(table, output, given.asked)
        speed = rows / seconds
        print(f"{rows:>12,} rows  {speed:>12,.0f} rows/s  {megabytes:>6,} MB")  # noqa: T201
        table.unlink()
        output.unlink()


def _write(path: Path, rows: int) -> None:
    """Write a table of loads and diameters."""
    chance = np.random.default_rng(0)
    columns = {"load.mass [kg]": (250.0, 330.0), "bar.diameter [mm]": (22.5, 24.0)}
    schema = pa.schema([pa.field(name, pa.float64()) for name in columns])
    with table_file(path, schema) as write:
        for first in range(0, rows, _PIECE):
            number = min(_PIECE, rows - first)
            arrays = [chance.uniform(low, high, number) for low, high in columns.values()]
            write(pa.table(arrays, schema=schema))


def _answer(table: Path, output: Path, asked: str) -> tuple[float, int]:
    """Processor time of the command in seconds, and the most memory in megabytes."""
    program = [sys.executable, "-m", "barwright", "batch", str(table), *_CORNER]
    process = subprocess.Popen([*program, "--asked", asked, "--output", str(output)])
    _, status, used = os.wait4(process.pid, 0)
    assert os.waitstatus_to_exitcode(status) == 0
    return used.ru_utime + used.ru_stime, used.ru_maxrss // 1024


if __name__ == "__main__":
    main()

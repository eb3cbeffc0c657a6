"""Measures the family matrix: pairs answered together in columns, and one by one.

    cd tests && python -m benchmarks.family FOLDER [--vehicles 384]

Both are asked of one invented family in one run of one process, and given in pairs a second of
processor time.
"""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path
from unittest import mock

import barwright as bw
from barwright.family import vehicle
from benchmarks.family_pack import write_family


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--vehicles", type=int, default=384)
    asked = parser.parse_args()
    pack = asked.folder / f"family-of-{asked.vehicles}"
    if not pack.exists():
        write_family(pack, chassis=asked.vehicles, shared=False)
    registry = bw.Registry.from_folders(pack)
    bw.family_matrix(registry, bars="firm", processes=1)
    together = _pairs_a_second(registry)
    with mock.patch.object(vehicle, "answered_together", lambda pairs: [None] * len(pairs)):
        alone = _pairs_a_second(registry)
    sys.stdout.write(
        f"together {together:,.0f} pairs/s, one by one {alone:,.0f} pairs/s, "
        f"ratio {together / alone:.1f}\n"
    )


def _pairs_a_second(registry: bw.Registry) -> float:
    start = time.process_time()
    rows = bw.family_matrix(registry, processes=1).rows
    return len(rows) / (time.process_time() - start)


if __name__ == "__main__":
    main()

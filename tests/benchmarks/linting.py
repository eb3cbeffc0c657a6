"""Measures what it costs to lint the pack of a family.

    cd tests && python -m benchmarks.linting FOLDER [--chassis 5000]

The packs are written into the folder, if they are not there yet. Each is linted in a process
of its own; the times are those of the processor.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
from pathlib import Path

from benchmarks.family_pack import SHARED_AXLES, write_family

__all__ = ["main"]

_PROGRAM = """
import json, resource, sys, time
from barwright.lint.linting import lint_pack
start = time.process_time()
linted = lint_pack(sys.argv[1])
used = resource.getrusage(resource.RUSAGE_SELF)
print(json.dumps([time.process_time() - start, used.ru_maxrss / 1024, len(linted.findings)]))
"""


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--chassis", type=int, default=5000)
    given = parser.parse_args()
    for shared in (True, False):
        name = f"{given.chassis} chassis, {SHARED_AXLES if shared else given.chassis} axles"
        pack = given.folder / name.replace(", ", "-").replace(" ", "-")
        if not pack.exists():
            write_family(pack, chassis=given.chassis, shared=shared)
        seconds, megabytes, findings = _linted(pack)
        print(f"{name:<32}{seconds:>8.1f} s{megabytes:>8.0f} MB{findings:>6.0f} findings")  # noqa: T201 - what a script is for


def _linted(pack: Path) -> tuple[float, float, float]:
    """Return time [s], peak memory [MB] and count of findings of a pack."""
    done = subprocess.run(
        [sys.executable, "-c", _PROGRAM, str(pack)], capture_output=True, text=True, check=True
    )
    seconds, megabytes, findings = json.loads(done.stdout)
    return seconds, megabytes, findings


if __name__ == "__main__":
    main()

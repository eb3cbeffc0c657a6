"""Plants small slips in the library, one after the other, and counts those that tests notice.

    cd tests && python -m mutation.run PACKAGE... [--mutants 120] [--seed 0] [--jobs 2]

The first run notes which tests reach which lines (``--reached FILE``; one run of all tests,
with coverage). Each mutant then runs the tests that reach its line, at most so many, and
stops at the first that fails. A mutant that lives is printed: either a test is missing, or
it changes no answer. Run by hand; no test runs it.
"""

from __future__ import annotations

import argparse
import concurrent.futures
import os
import re
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import attrs

from mutation.mutants import Mutant, drawn
from mutation.planted import FILE, SOURCE

__all__ = ["Outcome", "main"]

TESTS = Path(__file__).parents[1]
ROOT = TESTS.parent
PACKAGE = ROOT / "src" / "barwright"

_HANGS = 120.0
_NONE_COLLECTED = (4, 5)


@attrs.frozen
class Outcome:
    """What became of a mutant.

    Parameters
    ----------
    mutant : Mutant
        The mutant.
    killed_by : str
        The test that noticed it, or how else; empty if none did.
    tests : int
        Tests that reach its line.
    """

    mutant: Mutant
    killed_by: str
    tests: int

    @property
    def line(self) -> str:
        """The outcome in a line."""
        place = f"{self.mutant.file.relative_to(ROOT)}:{self.mutant.line}"
        lived = self.killed_by or f"LIVED ({self.tests} tests reach it)"
        return f"{place}: {self.mutant.slip}: {lived}"


class Reached:
    """Which tests reach which lines, as coverage noted it."""

    def __init__(self, file: Path) -> None:
        self._data = sqlite3.connect(file)
        self._seconds: Mapping[str, float] = {}

    def tests(self, file: Path, line: int) -> list[str]:
        """Tests that reach a line; where none does by itself, those that reach the file."""
        found = self._of(file)
        own = [test for test, lines in found.items() if line in lines]
        # A line that runs at import is reached by whoever reaches anything of its module.
        chosen = own or list(found)
        return sorted(chosen, key=lambda test: (_mirrors(test, file), test))

    def _of(self, file: Path) -> dict[str, set[int]]:
        rows = self._data.execute(
            "select c.context, b.numbits from line_bits b join context c on c.id = b.context_id "
            "join file f on f.id = b.file_id where f.path = ? and c.context != ''",
            (str(file),),
        )
        found: dict[str, set[int]] = {}
        for context, bits in rows:
            test = context.partition("|")[0]
            if test.startswith("tests/"):
                found.setdefault(test, set()).update(_numbers(bits))
        arcs = self._data.execute(
            "select c.context, a.fromno, a.tono from arc a join context c on c.id = a.context_id "
            "join file f on f.id = a.file_id where f.path = ? and c.context != ''",
            (str(file),),
        )
        for context, start, end in arcs:
            test = context.partition("|")[0]
            if test.startswith("tests/"):
                found.setdefault(test, set()).update((start, end))
        return found


def _mirrors(test: str, file: Path) -> bool:
    """Tests of the module's own file come first: False sorts before True."""
    return f"test_{file.stem}.py" not in test


def _numbers(bits: bytes) -> Iterable[int]:
    for place, byte in enumerate(bits):
        for bit in range(8):
            if byte >> bit & 1:
                yield place * 8 + bit


def note_reached(file: Path) -> None:
    """Run all tests once, and note which lines each reaches."""
    environment = os.environ | {"COVERAGE_FILE": str(file), "HYPOTHESIS_PROFILE": "steady"}
    options = ["--cov=barwright", "--cov-branch", "--cov-context=test", "--cov-report="]
    command = [sys.executable, "-m", "pytest", "-q", *options, "tests"]
    subprocess.run(command, cwd=ROOT, env=environment, check=False)


def outcome(mutant: Mutant, tests: Sequence[str], *, most: int) -> Outcome:
    """Run the tests that reach a mutant until one fails."""
    if not tests:
        return Outcome(mutant, "", 0)
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder, mutant.file.name)
        source.write_text(mutant.source, encoding="utf-8")
        environment = os.environ | {
            FILE: str(mutant.file),
            SOURCE: str(source),
            "PYTHONPATH": str(TESTS),
            "HYPOTHESIS_PROFILE": "steady",
            "PYTHONDONTWRITEBYTECODE": "1",
        }
        options = ["-n0", "-x", "-q", "--no-header", "-p", "mutation.planted"]
        command = [sys.executable, "-m", "pytest", *options, *tests[:most]]
        try:
            ran = subprocess.run(
                command,
                cwd=ROOT,
                env=environment,
                capture_output=True,
                text=True,
                timeout=_HANGS,
                check=False,
            )
        except subprocess.TimeoutExpired:
            return Outcome(mutant, "a test that hangs", len(tests))
    return Outcome(mutant, _killed_by(ran), len(tests))


def _killed_by(ran: subprocess.CompletedProcess[str]) -> str:
    if ran.returncode == 0:
        return ""
    failed = re.search(r"^(?:FAILED|ERROR) (\S+)", ran.stdout, re.MULTILINE)
    if failed:
        return failed.group(1)
    return "the import" if ran.returncode in _NONE_COLLECTED else f"exit code {ran.returncode}"


def main(arguments: Sequence[str] | None = None) -> int:
    """Draw mutants of packages, run them, print those that live and the share killed."""
    parser = argparse.ArgumentParser(prog="python -m mutation.run")
    parser.add_argument("packages", nargs="+", help="analysis, report, units, registry, lint …")
    parser.add_argument("--mutants", type=int, default=120)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--most", type=int, default=80, help="tests that a mutant runs at most")
    parser.add_argument("--reached", type=Path, default=ROOT / "build" / "reached.coverage")
    given = parser.parse_args(arguments)
    if not given.reached.exists():
        given.reached.parent.mkdir(exist_ok=True)
        note_reached(given.reached)
    lived = 0
    for package in given.packages:
        lived += _report(package, given)
    return int(lived > 0)


def _report(package: str, given: argparse.Namespace) -> int:
    reached = Reached(given.reached)
    mutants = drawn(PACKAGE / package, count=given.mutants, seed=given.seed)
    tests = [reached.tests(mutant.file, mutant.line) for mutant in mutants]
    with concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
        runs = [
            pool.submit(outcome, m, t, most=given.most) for m, t in zip(mutants, tests, strict=True)
        ]
        found = [run.result() for run in runs]
    living = [one for one in found if not one.killed_by]
    for one in living:
        sys.stdout.write(f"{one.line}\n")
    killed = len(found) - len(living)
    sys.stdout.write(f"{package}: {killed} of {len(found)} killed\n")
    sys.stdout.flush()
    return len(living)


if __name__ == "__main__":
    sys.exit(main())

"""Plants small slips in the library, one after the other, and counts those that tests notice.

    cd tests && python -m mutation.run PACKAGE... [--mutants 120] [--seed 0] [--jobs 2]

The first run notes which tests reach which lines (``--reached FILE``; one run of all tests,
or of those in ``--noted``, with coverage). Each mutant then runs the tests that reach its line,
at most so many, and stops at the first that fails. A mutant that lives is printed: either a
test is missing, or it changes no answer. Those that change none are listed in
``equivalents.toml``, each with its reason, and are told apart. Run by hand; no test runs it.

A mutant of what writes and deletes files may delete any that its user may. So this runs only
where Python's own library cannot be written: as a user to whom nothing but the checkout
belongs, or in namespaces of its own (``isolated.sh``).
"""

from __future__ import annotations

import argparse
import concurrent.futures
import functools
import multiprocessing
import os
import re
import sqlite3
import subprocess
import sys
import tempfile
import tomllib
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path

import attrs
import pytest

from mutation.mutants import Mutant, drawn
from mutation.planted import plant

__all__ = ["Outcome", "main"]

TESTS = Path(__file__).parents[1]
ROOT = TESTS.parent
PACKAGE = ROOT / "src" / "barwright"

EQUIVALENTS = Path(__file__).with_name("equivalents.toml")

# No test that starts programs: those that are rare for other reasons notice what others do not.
_ASKED_FOR = ["-m", "not slow"]

_NOT_STARTED = 4
_NOT_FOUND = "ERROR: not found"

# Children come of a process that has loaded what every test loads but barwright, whose modules
# a mutant stands in for.
_FORKED = multiprocessing.get_context("forkserver")
_FORKED.set_forkserver_preload(["attrs", "cattrs", "hypothesis.extra.numpy", "numpy", "pint"])


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

    @property
    def changes_nothing(self) -> bool:
        """Whether the mutant is listed as one that changes no answer."""
        code = self.mutant.file.read_text(encoding="utf-8").splitlines()[self.mutant.line - 1]
        key = (str(self.mutant.file.relative_to(PACKAGE)), code.strip(), self.mutant.slip)
        return key in _equivalents()


@functools.cache
def _equivalents() -> set[tuple[str, str, str]]:
    listed = tomllib.loads(EQUIVALENTS.read_text(encoding="utf-8")).get("equivalent", [])
    return {(one["module"], one["code"], one["slip"]) for one in listed}


class Reached:
    """Which tests reach which lines, as coverage noted it."""

    def __init__(self, file: Path) -> None:
        self._data = sqlite3.connect(file)
        self._seconds: Mapping[str, float] = {}

    def tests(self, file: Path, line: int) -> list[str]:
        """Tests that reach a line, then those that reach its module.

        What is made once is reached by the first test that needs it, and seen by others; a
        line that runs at import is reached by whoever reaches anything of its module.
        """
        found = self._of(file)
        own = [test for test, lines in found.items() if line in lines]
        others = sorted(set(found) - set(own))
        return [*_ordered(own, file), *_ordered(others, file)] or _ordered(_naming(file), file)

    def _of(self, file: Path) -> dict[str, set[int]]:
        rows = self._data.execute(
            "select c.context, b.numbits from line_bits b join context c on c.id = b.context_id "
            "join file f on f.id = b.file_id where f.path = ? and c.context != ''",
            (str(file),),
        )
        found: dict[str, set[int]] = {}
        for context, bits in rows:
            test = context.rpartition("|")[0]
            if test.startswith("tests/"):
                found.setdefault(test, set()).update(_numbers(bits))
        arcs = self._data.execute(
            "select c.context, a.fromno, a.tono from arc a join context c on c.id = a.context_id "
            "join file f on f.id = a.file_id where f.path = ? and c.context != ''",
            (str(file),),
        )
        for context, start, end in arcs:
            test = context.rpartition("|")[0]
            if test.startswith("tests/"):
                found.setdefault(test, set()).update((start, end))
        return found


def _ordered(tests: Iterable[str], file: Path) -> list[str]:
    """One case of each test comes first, then a second one, since cases of a test are alike."""
    before: Counter[str] = Counter()
    placed = []
    for test in sorted(tests):
        function = test.partition("[")[0]
        placed.append((before[function], _distance(test, file), test))
        before[function] += 1
    return [test for _, _, test in sorted(placed)]


def _distance(test: str, file: Path) -> int:
    """Tests of the module's own file come first, then those of its room, then all others."""
    room = (TESTS / file.relative_to(PACKAGE)).parent
    own = (ROOT / test.partition("::")[0]).parent == room
    return (not own) + (f"/test_{file.stem}.py" not in test)


def _naming(file: Path) -> list[str]:
    """Files of tests that name a module: one of constants alone is reached at import only."""
    name = re.compile(rf"\b{file.stem}\b")
    files = [path for path in TESTS.rglob("test_*.py") if name.search(path.read_text("utf-8"))]
    return [str(path.relative_to(ROOT)) for path in files]


def _numbers(bits: bytes) -> Iterable[int]:
    for place, byte in enumerate(bits):
        for bit in range(8):
            if byte >> bit & 1:
                yield place * 8 + bit


def note_reached(file: Path, tests: Sequence[str], *, jobs: int) -> None:
    """Run tests once, and note which lines each reaches."""
    environment = os.environ | {"COVERAGE_FILE": str(file)}
    options = [
        *_ASKED_FOR,
        "--cov=barwright",
        "--cov-branch",
        "--cov-context=test",
        "--cov-report=",
    ]
    command = [sys.executable, "-m", "pytest", "-q", f"-n{jobs}", *options, *tests]
    subprocess.run(command, cwd=ROOT, env=environment, check=False)


def outcome(mutant: Mutant, tests: Sequence[str], *, hangs: float, most: int) -> Outcome:
    """Run the tests that reach a mutant until one fails."""
    if not tests:
        return Outcome(mutant, "", 0)
    with tempfile.TemporaryDirectory() as folder:
        source, told = Path(folder, mutant.file.name), Path(folder, "told")
        source.write_text(mutant.source, encoding="utf-8")
        told.touch()
        given = (tests[:most], mutant.file, source, told)
        process = _FORKED.Process(target=_run_tests, args=given)
        process.start()
        process.join(hangs)
        if process.exitcode is None:
            process.kill()
            process.join()
            return Outcome(mutant, "a test that hangs", len(tests))
        output = told.read_text(encoding="utf-8", errors="replace")
        return Outcome(mutant, _killed_by(process.exitcode, output), len(tests))


def _run_tests(tests: Sequence[str], file: Path, source: Path, told: Path) -> None:
    """In a process of its own, which has loaded what all tests need, and nothing of barwright."""
    for stream in (1, 2):
        os.dup2(os.open(told, os.O_WRONLY | os.O_APPEND), stream)
    os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
    os.chdir(ROOT)
    plant(file, source)
    options = [*_ASKED_FOR, "-n0", "-x", "-q", "--no-header", "-p", "no:cacheprovider"]
    loaded = ["-W", "ignore::pytest.PytestAssertRewriteWarning"]
    code = pytest.main([*options, *loaded, *tests])
    sys.stdout.flush()
    os._exit(int(code))


def _killed_by(code: int, output: str) -> str:
    if code == 0:
        return ""
    failed = re.search(r"^(?:FAILED|ERROR) (\S+)", output, re.MULTILINE)
    if failed:
        return failed.group(1)
    if code == _NOT_STARTED and _NOT_FOUND not in output:
        return "the import"
    if code < 0:
        return f"signal {-code}"
    # No test has failed, so that nothing is known of the mutant; one may be called otherwise
    # by now than when it was noted.
    raise RuntimeError(output)


def main(arguments: Sequence[str] | None = None) -> int:
    """Draw mutants of packages, run them, print those that live and the share killed."""
    parser = argparse.ArgumentParser(prog="python -m mutation.run")
    parser.add_argument("packages", nargs="+", help="analysis, report, units, registry, lint …")
    parser.add_argument("--mutants", type=int, default=120)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--only", nargs="+", help="of these, like report/chart.py:90; again, say")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--most", type=int, default=80, help="tests that a mutant runs at most")
    parser.add_argument("--hangs", type=float, default=600.0, help="seconds until a test hangs")
    parser.add_argument("--noted", nargs="+", default=["tests"], help="tests that are noted")
    parser.add_argument("--reached", type=Path, default=ROOT / "build" / "reached.coverage")
    given = parser.parse_args(arguments)
    if os.access(os.__file__, os.W_OK):
        parser.error("a mutant could delete Python's own library; see the head of this file")
    # Few draws find few slips. Whoever has no time for more says so.
    os.environ.setdefault("HYPOTHESIS_PROFILE", "steady")
    given.reached = given.reached.absolute()
    if not given.reached.exists():
        given.reached.parent.mkdir(exist_ok=True)
        note_reached(given.reached, given.noted, jobs=given.jobs)
    lived = 0
    for package in given.packages:
        lived += _report(package, given)
    return int(lived > 0)


def _report(package: str, given: argparse.Namespace) -> int:
    reached = Reached(given.reached)
    every = drawn(PACKAGE / package, count=given.mutants, seed=given.seed)
    mutants = [one for one in every if given.only is None or _place(one) in given.only]
    tests = [reached.tests(mutant.file, mutant.line) for mutant in mutants]
    tried = functools.partial(outcome, hangs=given.hangs, most=given.most)
    _refuse_failing(mutants[0], tests[0], tried)
    with concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
        runs = [pool.submit(tried, m, t) for m, t in zip(mutants, tests, strict=True)]
        alive = [o for run in concurrent.futures.as_completed(runs) if _lives(o := run.result())]
    equivalent = sum(one.changes_nothing for one in alive)
    killed = f"{len(runs) - len(alive)} of {len(runs)} killed"
    print(f"{package}: {killed}, {equivalent} equivalent", flush=True)  # noqa: T201
    return len(alive) - equivalent


def _place(mutant: Mutant) -> str:
    return f"{mutant.file.relative_to(PACKAGE)}:{mutant.line}"


def _refuse_failing(
    mutant: Mutant, tests: Sequence[str], tried: Callable[[Mutant, Sequence[str]], Outcome]
) -> None:
    """Tests that fail without a slip would count every slip as noticed."""
    sound = attrs.evolve(mutant, source=mutant.file.read_text(encoding="utf-8"))
    if killed_by := tried(sound, tests).killed_by:
        message = f"{killed_by} fails without a slip"
        raise RuntimeError(message)


def _lives(outcome: Outcome) -> bool:
    """Whether a mutant lives. It is printed if it does, unless it changes no answer."""
    if not outcome.killed_by and not outcome.changes_nothing:
        print(outcome.line, flush=True)  # noqa: T201 - a program for the terminal
    return not outcome.killed_by


if __name__ == "__main__":
    sys.exit(main())

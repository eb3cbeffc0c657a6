"""Puts very many spoilt inputs to what reads strangers' data, and counts what comes of it.

    cd tests && python -m fuzz.run [--target NAME ...] [--inputs 10000] [--seed 0]

Every input is made of the seed and its number alone, so that each can be made again:
``--first NUMBER --inputs 1``. What leaves other than an error of barwright's own, what
takes longer than two seconds, and what ends otherwise the second time is a finding; it is
printed, and its input written into the folder that ``--findings`` names. The exit code is
1 if there are any.
"""

from __future__ import annotations

import argparse
import contextlib
import math
import resource
import signal
import time
import traceback
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import FrameType

import attrs

from barwright.errors import BarwrightError, DocumentError
from fuzz.mutations import chance_of
from fuzz.targets import TARGETS, Target

__all__ = ["OTHERWISE", "SLOW", "Found", "Ran", "main", "ran", "stopping_what_hangs"]

SLOW = "over two seconds"
"""The finding that depends on the machine."""

OTHERWISE = "otherwise the second time"
"""The finding that an input has two outcomes."""

_UNTYPED = "UNTYPED"

_TOO_LONG = 2.0
_HANGS = 20.0
_MOST_MEMORY = 3 * 2**30

# One in so many is asked twice.
_TWICE = 16
_SHOWN = 600


class HangError(BaseException):
    """An input that had to be stopped."""


@attrs.frozen
class Found:
    """The first input that ends in a certain way which it should not.

    Parameters
    ----------
    number : int
        Of the input.
    data : bytes
        The input.
    told : str
        All that is known.
    """

    number: int
    data: bytes = attrs.field(repr=False)
    reported: str


@attrs.define
class Ran:
    """What became of the inputs of one target.

    Parameters
    ----------
    target : str
        Its name.
    executions : int
        How often it was asked.
    seconds : float
        That all of it took, of processor time.
    slowest : float
        Seconds of the slowest input.
    slowest_input : int
        Its number.
    slowest_data : bytes
        The input itself.
    outcomes : Counter
        How often each outcome occurred.
    findings : dict
        The first of each by what it is.
    """

    target: str
    executions: int = 0
    seconds: float = 0.0
    slowest: float = 0.0
    slowest_input: int = -1
    slowest_data: bytes = b""
    outcomes: Counter[str] = attrs.field(factory=Counter)
    findings: dict[str, Found] = attrs.field(factory=dict)

    @property
    def row(self) -> str:
        """All of it in a line."""
        outcomes = ", ".join(f"{name} {count}" for name, count in self.outcomes.most_common(6))
        return (
            f"{self.target:<10} {self.executions:>9} inputs {self.seconds:>8.1f} s"
            f"  slowest {self.slowest * 1e3:>7.1f} ms (number {self.slowest_input})"
            f"  {len(self.findings)} finding(s)  [{outcomes}]"
        )


def ran(name: str, *, inputs: int, seed: int, first: int = 0) -> Ran:
    """Put a number of inputs to a target."""
    target, record = TARGETS[name], Ran(name)
    for number in range(first, first + inputs):
        data = target.draw(chance_of(seed, number))
        _put(target, number, data, record)
    return record


def _put(target: Target, number: int, data: bytes, record: Ran) -> None:
    outcome, took = _timed(target, data)
    record.executions += 1
    record.seconds += took
    first = outcome.partition("\n")[0]
    record.outcomes[first[:40]] += 1
    if took > record.slowest:
        record.slowest, record.slowest_input, record.slowest_data = took, number, data
    if took > _TOO_LONG:
        record.findings.setdefault(SLOW, Found(number, data, f"{took:.1f} s"))
    if first.startswith(_UNTYPED):
        record.findings.setdefault(first, Found(number, data, outcome))
    elif number % _TWICE == 0 and (again := _timed(target, data)[0]) != outcome:
        reported = f"{outcome}\nand then\n{again}"
        record.findings.setdefault(OTHERWISE, Found(number, data, reported))


def _timed(target: Target, data: bytes) -> tuple[str, float]:
    start = time.process_time()
    signal.setitimer(signal.ITIMER_VIRTUAL, _HANGS)
    try:
        outcome = target.ask(data)
    except BarwrightError as error:
        outcome = reported(error)
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # noqa: BLE001 - nothing may leave but the above
        last = traceback.extract_tb(error.__traceback__)[-1]
        place = f"{Path(last.filename).name}:{last.lineno}"
        outcome = f"{_UNTYPED} {type(error).__name__} {place}\n{traceback.format_exc(limit=-6)}"
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    return outcome, time.process_time() - start


def reported(error: BarwrightError) -> str:
    """First code of an error, and on the lines below all that it says."""
    first = error.problems[0].code if isinstance(error, DocumentError) else error.code
    return f"{first}\n{error}"


@contextlib.contextmanager
def stopping_what_hangs() -> Iterator[None]:
    """Stop each input that takes very long."""
    before = signal.signal(signal.SIGVTALRM, _stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGVTALRM, before)


def _stop(_number: int, _frame: FrameType | None) -> None:
    raise HangError


def _keep(record: Ran, folder: Path) -> None:
    for index, (what, found) in enumerate(record.findings.items()):
        reported = f"FINDING {record.target} number {found.number}: {what}\n{found.reported}"
        _print(f"{reported}\n  {found.data[:_SHOWN]!r}")
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{record.target}-{found.number}-{index}").write_bytes(found.data)


def _print(text: str) -> None:
    print(text, flush=True)  # noqa: T201 - a program for the terminal


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the targets that are named, or all."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--target", action="append", choices=list(TARGETS))
    parser.add_argument("--inputs", type=int, default=10_000, help="times the target's share")
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--unlimited", action="store_true", help="set no limit of memory")
    parser.add_argument("--slowest", type=Path, help="folder for the slowest input of each target")
    parser.add_argument("--findings", type=Path, default=Path("fuzz-findings"))
    given = parser.parse_args(arguments)
    if not given.unlimited:
        resource.setrlimit(resource.RLIMIT_AS, (_MOST_MEMORY, _MOST_MEMORY))
    found = 0
    with stopping_what_hangs():
        for name in given.target or TARGETS:
            inputs = math.ceil(given.inputs * TARGETS[name].share)
            _timed(TARGETS[name], TARGETS[name].draw(chance_of(given.seed, -1)))  # fills caches
            record = ran(name, inputs=inputs, seed=given.seed, first=given.first)
            _keep(record, given.findings)
            if given.slowest:
                given.slowest.mkdir(parents=True, exist_ok=True)
                (given.slowest / name).write_bytes(record.slowest_data)
            _print(record.row)
            found += len(record.findings)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    _print(f"peak memory {peak:.0f} MiB")
    return int(found > 0)


if __name__ == "__main__":
    raise SystemExit(main())

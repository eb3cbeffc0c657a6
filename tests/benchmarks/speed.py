"""Measures what one question costs, and how long a command takes to start.

    cd tests && python -m benchmarks.speed [--runs 9]

Each line is a ratio of processor times, measured by turns in one run: what is measured over
what it is held against. The table of the page that is named beside each goal comes from here.
"""

from __future__ import annotations

import argparse
import math
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

import barwright as bw
from barwright.analysis.corner import corner_of
from barwright.mechanics.spline.clocking_search import ClockedEnd, choices
from benchmarks.plain_plan import PlainCorner, plain_plan
from tooth_sweep import sweep

__all__ = ["main"]

T = TypeVar("T")

_JOB = Path(__file__).parents[2] / "docs" / "examples" / "shorter-dampers.toml"
_HEIGHT = "380 mm"
_METRES = 0.380
_TEETH = ((36, 40), (60, 61), (120, 121), (300, 301))
_CHOICES = 20
_CORNERS = ("front left", "front right")
_BARWRIGHT = "import sys; from barwright.cli import main; sys.argv[1:] = {arguments!r}; main()"

# As many commands as barwright lists, each with as long a line of help.
_CLICK = """
import sys, click
@click.group()
@click.version_option("0.1.0")
def program(): pass
for number in range(22):
    program.command(f"name{{number}}", short_help="What it does, in a line of help.")(lambda: 0)
sys.argv[1:] = {arguments!r}
program()
"""
_PINT = "import numpy, pint; print(pint.UnitRegistry()('25.4 mm').to('m'))"

_STARTS = (
    ("import barwright", "import barwright", "import attrs", "import attrs", 0.05),
    ("--version", ["--version"], "a bare click program", ["--version"], 1.2),
    ("--help", ["--help"], "a bare click program", ["--help"], 1.2),
    ("fit --json", ["fit", str(_JOB), "--json"], "pint and numpy, one length", _PINT, 1.0),
    ("fit", ["fit", str(_JOB)], "pint and numpy, one length", _PINT, 1.0),
)


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=9)
    runs: int = parser.parse_args().runs
    for name, ours, against, theirs, goal in _STARTS:
        own = _program(ours, _BARWRIGHT)
        other = _program(theirs, _CLICK)
        _tell(name, against, _by_turns([own, other], _process_time, runs), goal)
    plan, plain = _plans()
    _tell(
        "plan, both sides",
        "the same equations in plain floats",
        _by_turns([plan, plain], _call_time, runs),
        2.5,
    )
    for teeth in _TEETH:
        name = "teeth, {} and {}".format(*teeth)
        times = _by_turns(list(_teeth_choices(*teeth)), _call_time, runs)
        _tell(name, f"NumPy over all pairs, each {_CHOICES} times", times, 0.02)


def _program(given: str | list[str], command: str) -> str:
    """Return a program: as it is given, or a command with its arguments."""
    return given if isinstance(given, str) else command.format(arguments=given)


def _plans() -> tuple[Callable[[], object], Callable[[], object]]:
    """Fit, rates and plans of both sides: by the library, and in plain floats."""
    registry, wanted = bw.Registry.demo(), bw.Wanted(height=_HEIGHT)
    setups = [registry.setup("fells:chassis/short", corner=corner) for corner in _CORNERS]
    corners = [PlainCorner.of(setup) for setup in setups]

    def plan() -> object:
        corner_of._recent = ()  # noqa: SLF001 - nothing is left of the run before
        return [
            (bw.length_fit(s), bw.rates(s, wanted=wanted), bw.reindex(s, wanted=wanted))
            for s in setups
        ]

    return plan, lambda: [plain_plan(corner, height=_METRES) for corner in corners]


def _teeth_choices(arm: int, anchor: int) -> tuple[Callable[[], object], Callable[[], object]]:
    """Choose the teeth of a bar many times: by the library, and by trying all pairs."""
    ends = ClockedEnd(arm), ClockedEnd(anchor)
    turn = math.lcm(arm, anchor)
    limits = {"wanted_steps": 0.23 * turn, "low": 0.13 * turn, "high": 0.33 * turn}

    def repeated(choose: Callable[..., object]) -> Callable[[], object]:
        return lambda: [choose(*ends, **limits) for _ in range(_CHOICES)]

    return repeated(choices), repeated(sweep)


def _by_turns(things: Sequence[T], measured: Callable[[T], float], runs: int) -> list[float]:
    """Least time of each of several things, measured by turns [s]."""
    times = [[measured(thing) for thing in things] for _ in range(runs)]
    return [min(times) for times in zip(*times, strict=True)]


def _process_time(program: str) -> float:
    """Processor time of a whole process, without that of an empty one [s]."""
    empty = _children(["-c", "pass"])
    return _children(["-c", program]) - empty


def _children(arguments: Sequence[str]) -> float:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *arguments], check=False, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def _call_time(call: Callable[[], object]) -> float:
    """Processor time of a call [s]."""
    start = time.process_time()
    call()
    return time.process_time() - start


def _tell(name: str, against: str, times: Sequence[float], goal: float) -> None:
    ours, theirs = times
    print(  # noqa: T201 - what a script is for
        f"{name:<18}{ours * 1e3:>9.2f} ms  over {against:<36}{theirs * 1e3:>8.2f} ms"
        f"{ours / theirs:>8.3g}  goal {goal:g}"
    )


if __name__ == "__main__":
    main()

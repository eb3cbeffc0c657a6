"""Measures what one question costs, and how long a command takes to start.

    cd tests && python -m benchmarks.speed [--runs 9] [--page]

Each line is a ratio of processor times, measured by turns in one run: what is measured over
what it is held against. The table of ``docs/speed.md`` comes from here.
"""

from __future__ import annotations

import argparse
import compileall
import math
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

import attrs

import barwright as bw
from barwright.analysis.corner import corner_of
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import read_places, toleranced_figures_among
from barwright.mechanics.spline.clocking_search import ClockedEnd, choices
from barwright.units import LENGTH, is_quantity, quantity
from benchmarks.plain_plan import PlainCorner, plain_plan
from tooth_sweep import sweep

__all__ = ["main"]

T = TypeVar("T")

_JOB = Path(__file__).parents[2] / "docs" / "examples" / "shorter-dampers.toml"
_PAGE = _JOB.parents[1] / "speed.md"
_HEAD = "| What | Against | Ratio | Goal |\n| --- | --- | --- | --- |\n"
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
    ("`import barwright`", "import barwright", "`import attrs`", "import attrs", 0.05),
    ("`--version`", ["--version"], "a bare click program", ["--version"], 1.2),
    ("`--help`", ["--help"], "a bare click program", ["--help"], 1.2),
    ("`fit --json`", ["fit", str(_JOB), "--json"], "pint and numpy, one length", _PINT, 1.0),
    ("`fit`", ["fit", str(_JOB)], "pint and numpy, one length", _PINT, 1.0),
)


class Measured(NamedTuple):
    """What was measured, against what, the least times of both [s], and the goal of the ratio."""

    name: str
    against: str
    ours: float
    theirs: float
    goal: float | None

    @property
    def ratio(self) -> str:
        """How many times as long it takes."""
        return f"{max(self.ours, 0.0) / self.theirs:.2g}"

    @property
    def line(self) -> str:
        """Line for a terminal."""
        wanted = "" if self.goal is None else f"  goal {self.goal:g}"
        return (
            f"{self.name:<20}{self.ours * 1e3:>9.2f} ms  over {self.against:<36}"
            f"{self.theirs * 1e3:>8.2f} ms{self.ratio:>8}{wanted}"
        )

    @property
    def row(self) -> str:
        """Row of the page's table."""
        wanted = "–" if self.goal is None else f"{self.goal:g}"
        return f"| {self.name} | {self.against} | {self.ratio} | {wanted} |"


def main() -> None:
    """Measure, and print a table; with --page write it into the page that shows it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=9)
    parser.add_argument("--page", action="store_true", help="write docs/speed.md too")
    given = parser.parse_args()
    found = []
    for one in _measured(given.runs):
        print(one.line)  # noqa: T201 - what a script is for
        found.append(one)
    if given.page:
        _write_page([one.row for one in found])


def _write_page(rows: Sequence[str]) -> None:
    """Put rows in the place of those below the head of the page's table."""
    before, head, below = _PAGE.read_text(encoding="utf-8").partition(_HEAD)
    _, end, after = below.partition("\n\n")
    _PAGE.write_text("".join((before, head, "\n".join(rows), end, after)), encoding="utf-8")


def _measured(runs: int) -> Iterator[Measured]:
    # As an installer does: else the first starts after a change would compile it.
    compileall.compile_dir(Path(bw.__file__).parent, quiet=2)
    for name, ours, against, theirs, goal in _STARTS:
        own = _program(ours, _BARWRIGHT)
        other = _program(theirs, _CLICK)
        first, second = _by_turns([own, other], _process_time, runs)
        yield Measured(name, against, first, second, goal)
    plan, plain = _plans()
    calls: tuple[tuple[str, Callable[[], object], float | None], ...] = (
        ("a plan of both sides", plan, 2.5),
        ("its quantities alone", _quantities(plan()), None),
        ("its moved records", _moved_setups(), None),
        ("`check` of a job", _check(), 7.5),
    )
    for name, call, at_most in calls:
        first, second = _by_turns([call, plain], _call_time, runs)
        yield Measured(name, "both sides in plain floats", first, second, at_most)
    for teeth in _TEETH:
        name = "teeth, {} and {}".format(*teeth)
        first, second = _by_turns(list(_teeth_choices(*teeth)), _call_time, runs)
        yield Measured(name, "NumPy over all pairs", first, second, 0.02)


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


def _quantities(answers: object) -> Callable[[], object]:
    """Make as many quantities as answers hold."""
    count = _count(answers)
    return lambda: [quantity(0.123456789, LENGTH) for _ in range(count)]


def _count(value: object) -> int:
    if is_quantity(value):
        return 1
    if isinstance(value, list | tuple):
        return sum(map(_count, value))
    cls: type[Any] = type(value)
    fields = attrs.fields(cls) if attrs.has(cls) else ()
    return sum(_count(getattr(value, field.name)) for field in fields)


def _moved_setups() -> Callable[[], object]:
    """Make the setups with each figure at both ends of its tolerance, once for both sides."""
    setup = bw.Registry.demo().setup("fells:chassis/short", corner=_CORNERS[0])
    places = read_places(setup)
    ways = toleranced_figures_among(places, {})
    shifter = FigureShifter(setup, places)
    return lambda: [shifter.moved({way: share}) for way in ways for share in (-1.0, 1.0)]


def _check() -> Callable[[], object]:
    """Check the demo's job of two corners."""
    registry = bw.Registry.demo()

    def check() -> object:
        corner_of._recent = ()  # noqa: SLF001 - as above
        return bw.check_job(_JOB, registry)

    return check


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


if __name__ == "__main__":
    main()

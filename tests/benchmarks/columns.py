"""Measures what a row of columns costs, in time and in memory.

    cd tests && python -m benchmarks.columns [--rows 200000] [--runs 5]

Each line is a ratio of processor times of the same rows, measured by turns in one run: what
columns are held against over columns. What is held against them is written by hand in
`plain_columns.py`, and its answers are first compared with theirs.
"""

from __future__ import annotations

import argparse
import resource
import time
from collections.abc import Callable, Sequence
from typing import Any

import attrs
import numpy as np

import barwright as bw
from benchmarks.plain_columns import Figures, chunked_rates, figures_of, looped_rates

__all__ = ["main"]

# Whether an arm, and with it the linkage, differs from row to row.
_TABLES = {
    "load, bar and nut": ("load.mass [kg]", "bar.diameter [mm]", "nut_turns [turn]"),
    "load, bar, nut and arm": (
        "load.mass [kg]",
        "bar.diameter [mm]",
        "nut_turns [turn]",
        "arm.radius [mm]",
    ),
}
_RANGES = {
    "load.mass [kg]": (250.0, 330.0, "mass", 1.0),
    "bar.diameter [mm]": (22.5, 24.0, "diameter", 1e-3),
    "nut_turns [turn]": (-5.0, 5.0, "turns", 1.0),
    "arm.radius [mm]": (-3.0, 3.0, "radius", 1e-3),
}
_LOOPED = 2000
_ALONE = 40
_SIZES = (10_000, 100_000, 1_000_000)


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=int, default=200_000)
    parser.add_argument("--runs", type=int, default=5)
    given = parser.parse_args()
    van = bw.Registry.demo().setup("fells:chassis/short", corner="front left")
    van = attrs.evolve(van, damper=attrs.evolve(van.damper, damping_rate="1500 N*s/m"))
    for name, columns in _TABLES.items():
        _compare(name, van, columns, rows=given.rows, runs=given.runs)
    _grow(van)


def _compare(name: str, van: bw.Setup, columns: Sequence[str], *, rows: int, runs: int) -> None:
    table, figures = _drawn(van, columns, rows)
    _hold_together(bw.batch(van, table), chunked_rates(figures, rows))
    own, chunked = _by_turns(
        [lambda: bw.batch(van, table), lambda: chunked_rates(figures, rows)], runs
    )
    looped = _least([lambda: looped_rates(figures, _LOOPED)] * 3) / _LOOPED
    alone = _least([lambda: _one_after_another(van, table)] * 2) / _ALONE
    print(f"{name}: {own / rows * 1e6:.2f} µs a row")  # noqa: T201 - what a script is for
    for against, cost, goal in (
        ("cache-chunked NumPy, by hand", chunked / rows, 0.9),
        ("a loop over floats, by hand", looped, 80.0),
        ("a loop over bw.rates", alone, 2000.0),
    ):
        ratio = cost / (own / rows)
        print(f"  {against:<32}{cost * 1e6:>10.2f} µs{ratio:>9.2f}  goal {goal:g}")  # noqa: T201


def _drawn(van: bw.Setup, columns: Sequence[str], rows: int) -> tuple[dict[str, Any], Figures]:
    """Table for the library, and the same as figures in SI units."""
    chance = np.random.default_rng(7)
    table: dict[str, Any] = {}
    figures: dict[str, Any] = dict(figures_of(van))
    for column in columns:
        low, high, name, unit = _RANGES[column]
        numbers = chance.uniform(low, high, rows)
        if column.startswith("arm."):
            numbers += float(van.arm.radius.m_as("mm"))
        table[column], figures[name] = numbers, numbers * unit
    return table, figures


def _hold_together(answer: bw.answers.Batch, plain: dict[str, Any]) -> None:
    """Compare what is measured with what it is held against."""
    units = {"height": "m", "wheel_rate": "N/m", "shear_stress": "Pa", "damper_length": "m"}
    for name, numbers in plain.items():
        column = answer[name]
        unit = units.get(name.split(".")[-1])
        if unit is not None:
            np.testing.assert_allclose(column.m_as(unit), numbers, rtol=1e-9, err_msg=name)
    np.testing.assert_allclose(answer["damping_ratio"], plain["damping_ratio"], rtol=1e-9)


def _one_after_another(van: bw.Setup, table: dict[str, Any]) -> None:
    for row in range(_ALONE):
        bar = attrs.evolve(van.bar, diameter=f"{table['bar.diameter [mm]'][row]} mm")
        load = attrs.evolve(van.load, mass=f"{table['load.mass [kg]'][row]} kg")
        turns = f"{table['nut_turns [turn]'][row]} turn"
        bw.rates(attrs.evolve(van, bar=bar, load=load, nut_turns=turns))


def _grow(van: bw.Setup) -> None:
    """Show that time and memory of a row are the same in tables of any length."""
    for rows in _SIZES:
        table, _ = _drawn(van, _TABLES["load, bar, nut and arm"], rows)
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        seconds = _least([lambda table=table: bw.batch(van, table)])  # type: ignore[misc]
        more = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
        cost, memory = seconds / rows * 1e6, more * 1024 / rows
        print(f"{rows:>9,} rows: {cost:.2f} µs and {memory:.0f} bytes a row")  # noqa: T201 - as above


def _by_turns(calls: Sequence[Callable[[], object]], runs: int) -> list[float]:
    """Least processor time of each of several calls, measured by turns [s]."""
    times = [[_time(call) for call in calls] for _ in range(runs)]
    return [min(times) for times in zip(*times, strict=True)]


def _least(calls: Sequence[Callable[[], object]]) -> float:
    return min(map(_time, calls))


def _time(call: Callable[[], object]) -> float:
    start = time.process_time()
    call()
    return time.process_time() - start


if __name__ == "__main__":
    main()

"""Rows of `barwright.mechanics.strength.histories`.

Counts of ASTM E1049 from memory; pylife's four-point counter, Wöhler line and damage;
shapely for the line that a mean is taken away along.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import Any

import numpy as np
import pandas as pd
import pylife.stress.collective  # noqa: F401 - registers the accessor
from pylife.strength import Fatigue
from pylife.strength.miner import MinerElementary
from pylife.stress.rainflow import FourPointDetector, LoopValueRecorder
from shapely import LineString

from barwright.mechanics.strength.histories import (
    basquin_life,
    count_cycles,
    history_damage,
    miner_damage,
    repeats_to_failure,
    reversed_amplitude,
)
from validation import Kind, Row

# ASTM E1049-85, 5.4.4, history and counts from memory.
ASTM = "ASTM E1049-85, 5.4.4"
HISTORY = [-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0]
COUNTS = {3.0: 0.5, 4.0: 1.5, 6.0: 0.5, 8.0: 1.0, 9.0: 0.5}
IN_WORDS = "history -2, 1, -3, 5, -1, 3, -4, 4, -2"

# From highest peak to highest peak no counter leaves a half cycle unpaired [MPa].
ROUND = [600.0, -400.0, 300.0, -100.0, 500.0, -500.0, 200.0, 0.0, 400.0, -300.0, 600.0]
LINE = {"at_stress": 250.0, "at_life": 2e6, "exponent": 5.0}
ULTIMATE = 1000.0


def counted(history: Sequence[float]) -> dict[float, float]:
    """Cycles of each range that the kernel counts."""
    cycles = count_cycles(list(history))
    sums: dict[float, float] = defaultdict(float)
    for size, count in zip(cycles.ranges, cycles.counts, strict=True):
        sums[float(size)] += float(count)
    return dict(sums)


def whole_by_pylife(history: Sequence[float]) -> tuple[pd.DataFrame, list[float]]:
    """Closed cycles of pylife's four-point counter, and the residue that it leaves."""
    detector = FourPointDetector(recorder=LoopValueRecorder())
    detector.process(np.asarray(history, dtype=float))
    return detector.recorder.collective, [float(point) for point in detector.residuals]


def round_by_pylife() -> pd.DataFrame:
    """All cycles of the round history by pylife; its residue is one more."""
    closed, residue = whole_by_pylife(ROUND)
    highest, lowest, again = residue
    assert highest == again
    last = pd.DataFrame({"from": [highest], "to": [lowest]})
    return pd.concat([closed, last], ignore_index=True).assign(cycles=1.0)


def pylife_line(exponent: float = LINE["exponent"]) -> pd.Series:
    """The line of lives for pylife."""
    return pd.Series({"k_1": exponent, "ND": LINE["at_life"], "SD": LINE["at_stress"]})


def damage_by_pylife(collective: pd.DataFrame, *, exponent: float = LINE["exponent"]) -> float:
    """Damage of a load collective, with the line carried on below its point."""
    line = Fatigue(pylife_line(exponent)).miner_elementary()
    return float(line.damage(collective.load_collective).sum())


def without_mean(*, amplitude: float, mean: float) -> float:
    """Where the line from the ultimate stress through a pair meets the axis of amplitudes."""
    beyond = np.array([ULTIMATE, 0.0]) + 1e3 * np.array([abs(mean) - ULTIMATE, amplitude])
    line = LineString([(ULTIMATE, 0.0), tuple(beyond)])
    return float(line.intersection(LineString([(0.0, 0.0), (0.0, 1e9)])).y)


def without_means() -> pd.DataFrame:
    """Cycles of the round history, each reversed along its line."""
    cycles: Any = round_by_pylife().load_collective
    pairs = zip(cycles.amplitude, cycles.meanstress, strict=True)
    ranges = [2.0 * without_mean(amplitude=float(a), mean=float(m)) for a, m in pairs]
    return pd.DataFrame({"range": ranges, "mean": 0.0, "cycles": 1.0})


SPECTRUM = pd.DataFrame({"range": [1000.0, 800.0], "mean": 0.0, "cycles": [10.0, 25.0]})


def spectrum_damage() -> float:
    """The kernel's damage of the spectrum."""
    lives = basquin_life(np.array([500.0, 400.0]), **LINE)
    return float(miner_damage(counts=np.array([10.0, 25.0]), lives=lives))


def repeats_by_pylife() -> float:
    """Runs of the spectrum: cycles to failure, over those of one run."""
    cycles = MinerElementary(pylife_line()).gassner_cycles(SPECTRUM.load_collective)
    return float(cycles) / float(SPECTRUM.cycles.sum())


def whole_cycle(what: str) -> float:
    """Range, mean or amplitude of the one whole cycle that the kernel counts in the history."""
    cycles = count_cycles(HISTORY)
    return float(getattr(cycles, what)[cycles.counts == 1.0][0])


def astm_row(size: float) -> Row:
    """Count of one range in the standard's history."""
    return Row(
        of="histories.count_cycles",
        source=ASTM,
        given=f"{IN_WORDS}: cycles of range {size:g}",
        unit="",
        expected=COUNTS[size],
        got=lambda: counted(HISTORY)[size],
        within=1e-12,
        kind=Kind.RECALLED,
    )


ROWS = [
    *(astm_row(size) for size in COUNTS),
    Row(
        of="histories.count_cycles",
        source="pylife, four-point counter: mean of the one closed cycle",
        given=IN_WORDS,
        unit="",
        expected=lambda: whole_by_pylife(HISTORY)[0].load_collective.meanstress.iloc[0],
        got=lambda: whole_cycle("means"),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="histories.Cycles.amplitudes",
        source="pylife, four-point counter: amplitude of the one closed cycle",
        given=IN_WORDS,
        unit="",
        expected=lambda: whole_by_pylife(HISTORY)[0].load_collective.amplitude.iloc[0],
        got=lambda: whole_cycle("amplitudes"),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="histories.reversed_amplitude",
        source="shapely, line from the ultimate stress through the pair, at zero mean",
        given="amplitude 150, mean 400, ultimate 1000 MPa",
        unit="MPa",
        expected=lambda: without_mean(amplitude=150.0, mean=400.0),
        got=lambda: float(reversed_amplitude(amplitude=150.0, mean=400.0, ultimate=ULTIMATE)),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="histories.basquin_life",
        source="pylife, Wöhler line",
        given="amplitude 500 MPa; 250 MPa at 2e6 cycles, exponent 5",
        unit="cycles",
        expected=lambda: float(Fatigue(pylife_line()).cycles([500.0])[0]),
        got=lambda: float(basquin_life(500.0, **LINE)),
        within=1e-9,
        kind=Kind.ENGINE,
    ),
    Row(
        of="histories.basquin_life",
        source="pylife, Wöhler line extended below its knee point (elementary Miner)",
        given="amplitude 125 MPa; 250 MPa at 2e6 cycles, exponent 5",
        unit="cycles",
        expected=lambda: float(Fatigue(pylife_line()).miner_elementary().cycles([125.0])[0]),
        got=lambda: float(basquin_life(125.0, **LINE)),
        within=1e-9,
        kind=Kind.ENGINE,
    ),
    Row(
        of="histories.miner_damage",
        source="pylife, damage of a load collective",
        given="10 cycles of 500 MPa, 25 of 400 MPa; 250 MPa at 2e6 cycles, exponent 5",
        unit="",
        expected=lambda: damage_by_pylife(SPECTRUM),
        got=spectrum_damage,
        within=1e-9,
        kind=Kind.ENGINE,
    ),
    Row(
        of="histories.history_damage",
        source="pylife, four-point count with its residue closed, and damage",
        given="round history of 11 points, mean stresses ignored; the same line",
        unit="",
        expected=lambda: damage_by_pylife(round_by_pylife()),
        got=lambda: float(history_damage(count_cycles(ROUND), ultimate=np.inf, **LINE)),
        within=1e-9,
        kind=Kind.ENGINE,
    ),
    Row(
        of="histories.history_damage",
        source="pylife, the same; shapely, each mean stress removed along its line",
        given="round history of 11 points, ultimate 1000 MPa; the same line",
        unit="",
        expected=lambda: damage_by_pylife(without_means()),
        got=lambda: float(history_damage(count_cycles(ROUND), ultimate=ULTIMATE, **LINE)),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="histories.repeats_to_failure",
        source="pylife, cycles on the line of a spectrum (elementary Miner)",
        given="runs of 10 cycles of 500 MPa and 25 of 400 MPa; the same line",
        unit="runs",
        expected=repeats_by_pylife,
        got=lambda: float(repeats_to_failure(spectrum_damage())),
        within=1e-9,
        kind=Kind.ENGINE,
    ),
]

"""Compares answers in columns with those of each corner alone, over very many random rows.

    cd tests && python -m compare_columns NOTES.jsonl [--rows 100000] [--questions ride reindex]

Tables are drawn about corners of every linkage and anchorage: up to six figures differ, most a
little, some far, some impossibly; often a height is wanted.  A row counts that was answered in
columns: each verdict and error code must be that of the corner alone, and each number lie within
4 ulp of it, times the answer's own condition number, and half a unit of the 15th digit, to which
an answer is rounded.  The condition number is found for the row that differs most, in one table of
four and where a number differs by more than 1e-9 of its unit: by how much each number moves with
each figure of the corner.

What each table came to is a line of the notes.  Started again, it goes on after the last one.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any
from unittest import mock

import attrs
import hypothesis
import numpy as np
from hypothesis import HealthCheck, Phase
from numpy.typing import NDArray

import barwright as bw
from barwright.analysis.tolerance.figures import figure_places
from barwright.columns.asked.question import Question
from barwright.columns.given import WANTED_HEIGHT, columns_of
from barwright.columns.rows import Corners, Rows, answered_rows
from barwright.columns.stack import row_of
from barwright.units import quantity_of_units, unit_spelling
from column_corners import ALL, on_each_anchorage
from column_rows import ASKED, heights_of, paths_of, table_of
from setup_strategies import corners

__all__ = ["main"]

_ROWS = 40
_DRAWN = 60
_MOST_FIGURES = 6
_HEIGHTS = 0.5

_ULPS = 4.0
_EPSILON = float(np.finfo(float).eps)
# Answers of one corner are rounded to so many digits, those in columns are not.
_DIGITS = 15

# Share of a figure by which it is moved to see what moves with it.
_STEP = 1e-7

# What differs by more of its unit is looked at in any table.  Where a linkage all but locks, the
# condition number may allow that.
_MOST = 1e-9

# To find condition numbers takes as long as to compare the rows of a few tables.
_EACH = 4

# They are estimates: what the figures move, to first order, and nothing of steps between.
_ESTIMATED = 2.0

# What is left between two others, which cancel, is as uncertain as both of them.
_DIFFERENCE = re.compile(r"(uncertainty|rounding|reserve|amplitude|_left\w*|stroke_to_\w+)$")


@attrs.frozen
class Compared:
    """What the rows of a table came to, in columns and alone."""

    together: Rows
    alone: Rows
    rows: NDArray[np.intp]

    def wrong_words(self) -> list[int]:
        """Rows whose verdict, code or reason is another one."""
        one, other = self.together, self.alone
        return [
            row
            for row in self.rows.tolist()
            if one.verdicts[row] != other.verdicts[row]
            or one.codes[row] != other.codes[row]
            or one.reasons.get(row) != other.reasons.get(row)
        ]

    def differences(self, name: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """By how much a number differs in each row, and in ulps; of a curve at most."""
        one, other = (rows.numbers[name][self.rows] for rows in (self.together, self.alone))
        with np.errstate(invalid="ignore"):
            by = np.where(one == other, 0.0, np.abs(one - other) - _rounded_by(other))
        by = np.where(np.isnan(one) & np.isnan(other), 0.0, np.fmax(by, 0.0))
        by = np.where(np.isfinite(one) == np.isfinite(other), by, np.inf)
        size = np.where(np.isfinite(other), np.abs(other), 1.0)
        with np.errstate(over="ignore"):
            ulps = by / np.spacing(np.fmax(size, np.finfo(float).tiny))
        points = tuple(range(1, by.ndim))
        return by.max(axis=points), ulps.max(axis=points)


def _rounded_by(numbers: NDArray[np.float64]) -> NDArray[np.float64]:
    """Half a unit of the last digit that an answer keeps."""
    size = np.where(np.isfinite(numbers) & (numbers != 0.0), np.abs(numbers), 1.0)
    half: NDArray[np.float64] = 0.5 * 10.0 ** (np.floor(np.log10(size)) + 1 - _DIGITS)
    return np.where(numbers == 0.0, 0.0, half)


def main() -> None:
    """Compare, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("notes", type=Path)
    parser.add_argument("--rows", type=int, default=100_000)
    parser.add_argument("--questions", nargs="+", choices=list(ASKED), default=list(ASKED))
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    setups = [*ALL, *on_each_anchorage(), *_drawn_corners(given.seed)]
    for question in given.questions:
        _compare(given, question, setups)
    sys.stdout.write(_told(_noted(given.notes)))


def _drawn_corners(seed: int) -> list[bw.Setup]:
    """Corners with bars that lie along and across, of other teeth, keys and hands."""
    found: list[bw.Setup] = []

    @hypothesis.seed(seed)
    @hypothesis.settings(
        max_examples=_DRAWN,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @hypothesis.given(corners())
    def collect(drawn: tuple[bw.Setup, str]) -> None:
        found.append(drawn[0])

    collect()
    return found


def _compare(given: argparse.Namespace, question: str, setups: Sequence[bw.Setup]) -> None:
    """Compare tables until enough rows of them were answered in columns."""
    notes = [note for note in _noted(given.notes) if note["question"] == question]
    rows, number = sum(note["rows"] for note in notes), len(notes)
    while rows < given.rows:
        note = _note(question, setups, [given.seed, list(ASKED).index(question), number])
        with given.notes.open("a", encoding="utf-8") as file:
            file.write(json.dumps(note) + "\n")
        rows, number = rows + note["rows"], number + 1


def _note(question: str, setups: Sequence[bw.Setup], seed: list[int]) -> dict[str, Any]:
    """Compare the rows of a table."""
    chance = np.random.default_rng(seed)
    which = int(chance.integers(len(setups)))
    setup = setups[which]
    table = _table(setup, question, chance)
    note: dict[str, Any] = {
        "question": question,
        "number": seed[-1],
        "corner": which,
        "figures": list(table),
    }
    start = time.process_time()
    try:
        compared = _compared(setup, table, question)
    except Exception as error:  # noqa: BLE001 - any is a finding
        return note | {"rows": 0, "failure": repr(error)}
    found = {
        name: [numbers.max(initial=0.0) for numbers in compared.differences(name)]
        for name in compared.together.numbers
    }
    note |= {
        "rows": int(compared.rows.size),
        "alone": _ROWS - int(compared.rows.size),
        "errors": len(compared.alone.reasons),
        "words": compared.wrong_words(),
        "by": {name: one for name, (one, _) in found.items() if one},
        "ulps": {name: one for name, (_, one) in found.items() if one},
    }
    if seed[-1] % _EACH == 0 or max(note["by"].values(), default=0.0) > _MOST:
        note["of_allowed"] = _of_allowed(setup, table, question, compared)
    return note | {"seconds": time.process_time() - start}


def _table(setup: bw.Setup, question: str, chance: np.random.Generator) -> dict[str, Any]:
    paths = paths_of(setup)
    number = int(chance.integers(1, _MOST_FIGURES + 1))
    table = table_of(setup, chance.choice(paths, number, replace=False).tolist(), chance, _ROWS)
    if ASKED[question].takes_height and chance.random() < _HEIGHTS:
        table[WANTED_HEIGHT] = heights_of(setup, chance, _ROWS)
    return table


def _compared(setup: bw.Setup, table: dict[str, Any], question: str) -> Compared:
    """Answer a table in columns, and those of its rows alone that were so answered."""
    columns, asked = columns_of(setup, table), ASKED[question]
    singly: set[int] = set()
    single = Rows.single

    def noted(rows: Rows, row: int) -> None:
        singly.add(row)
        single(rows, row)

    with mock.patch.object(Rows, "single", noted):
        (together,) = answered_rows(setup, columns, [asked])
    alone = Rows(setup, columns, asked, Corners(setup, columns))
    rows = [row for row in range(_ROWS) if row not in singly]
    for row in rows:
        alone.single(row)
    return Compared(together, alone, np.array(rows, dtype=np.intp))


# -- Condition numbers ------------------------------------------------------------------


def _of_allowed(
    setup: bw.Setup, table: dict[str, Any], question: str, compared: Compared
) -> dict[str, float]:
    """Compare what the row differs by that differs most with what it may, number by number."""
    ulps = {name: compared.differences(name)[1] for name in compared.together.numbers}
    # A number near zero differs by many of its ulps: the row counts in which many numbers do.
    each = np.array([np.minimum(one, 1e3) for one in ulps.values()]).sum(axis=0)
    if not each.size or each.max() == 0.0:
        return {}
    place = int(each.argmax())
    columns = columns_of(setup, table)
    row = int(compared.rows[place])
    height = next((c.figure(row) for c in columns if c.path == WANTED_HEIGHT), None)
    sizes = _sizes(row_of(setup, columns, row), height, ASKED[question])
    return {
        name: float(compared.differences(name)[0][place] / (_ULPS * _EPSILON * sizes[name]))
        for name, one in ulps.items()
        if one[place] > 0.0
    }


def _sizes(setup: bw.Setup, height: Any, asked: Question) -> dict[str, float]:
    """Size of each number of a corner times its condition number, which is 1 at least.

    That is how far all figures together move it, each for as much as it is large: a number that
    happens to be zero is measured by it too.
    """
    own = {place.path: place.value for place in figure_places(setup)}
    own = {path: own[path] for path in paths_of(setup)}
    if height is not None:
        own[WANTED_HEIGHT] = height
    moved = [path for path, value in own.items() if value.magnitude]
    steps = np.vstack([np.zeros(len(own)), np.eye(len(own)) * _STEP])
    table = {
        path: quantity_of_units(value.magnitude * (1.0 + steps[:, at]), unit_spelling(value))
        for at, (path, value) in enumerate(own.items())
        if path in moved
    }
    (rows,) = answered_rows(setup, columns_of(setup, table), [asked])
    found = {}
    for name, numbers in rows.numbers.items():
        flat = numbers.reshape(len(steps), -1)
        moves = np.abs(flat[1:] - flat[0]) / _STEP
        moves = np.where(np.isfinite(moves), moves, 0.0).sum(axis=0)
        found[name] = float(np.fmax(moves, np.abs(flat[0])).max())
    return {
        name: 2.0 * max(found[other] for other in found if asked.kinds[other] is kind)
        if _DIFFERENCE.search(name)
        else size
        for name, size in found.items()
        for kind in (asked.kinds[name],)
    }


# -- What it came to --------------------------------------------------------------------


def _noted(notes: Path) -> list[dict[str, Any]]:
    if not notes.exists():
        return []
    return [json.loads(line) for line in notes.read_text(encoding="utf-8").splitlines()]


def _told(notes: Sequence[dict[str, Any]]) -> str:
    return "".join(line + "\n" for line in _lines(notes))


def _lines(notes: Sequence[dict[str, Any]]) -> Iterator[str]:
    for question in dict.fromkeys(note["question"] for note in notes):
        own = [note for note in notes if note["question"] == question]
        alone = sum(note.get("alone", 0) for note in own)
        yield f"{question}: {sum(n['rows'] for n in own):,} rows in columns, {alone:,} asked alone"
        for note in own:
            if note.get("words") or "failure" in note:
                yield f"  table {note['number']}: {note.get('failure', note['words'])}"
        yield from _differences(own, ASKED[question])


def _differences(notes: Sequence[dict[str, Any]], asked: Question) -> Iterator[str]:
    """Tell of each unit the greatest difference, and the greatest share of what is allowed."""
    units: dict[str, list[str]] = {}
    for name, kind in asked.kinds.items():
        units.setdefault("" if kind is None else kind.units[0], []).append(name)
    for unit, names in units.items():
        by, name, table = _greatest(notes, "by", names)
        share, worst, at = _greatest(notes, "of_allowed", names)
        beyond = "  TOO MUCH" if share > _ESTIMATED else ""
        yield (
            f"  {unit or 'ratio':<9}{by:.1e} ({name}, table {table}); "
            f"{share:.2f} of what is allowed ({worst}, table {at}){beyond}"
        )


def _greatest(
    notes: Sequence[dict[str, Any]], key: str, names: Sequence[str]
) -> tuple[float, str, int]:
    found = [
        (note[key][name], name, note["number"])
        for note in notes
        for name in names
        if name in note.get(key, {})
    ]
    return max(found, default=(0.0, "none", -1))


if __name__ == "__main__":
    main()

"""Every public computation is held against the world, and the page says how."""

from __future__ import annotations

import functools
import inspect
import math
from typing import Any

import pytest

import barwright
import validation
from altered_results import altered, change
from barwright.errors import BarwrightError
from each_case import each_case
from validation import ENGINES, EXACT, LIBRARIES, Kind, Row

ROWS = validation.rows()
COMPUTATIONS = sorted(validation.computations())
EACH = each_case("row", ROWS, called=lambda row: f"{row.of}, {row.given}")

THOUSANDTH = 1e-3

# All modules of the library are loaded before a computation is changed, and so none keeps a change.
LOADED = [getattr(barwright, name) for name in barwright.__all__]

# Expected, got and error in a line of the page.
FIGURES = slice(3, 6)


def _refuse(_: Any) -> Any:
    pytest.fail("an outside figure asks the code")


@pytest.fixture(scope="module")
def outside() -> dict[Row, float]:
    """Outside figures of all rows, found while none of the code's computations answers."""
    with pytest.MonkeyPatch.context() as patch:
        for of in {row.of for row in ROWS}:
            change(patch, *next(row for row in ROWS if row.of == of).place(), _refuse)
        return {row: row.outside() for row in ROWS}


@EACH
def test_a_computation_gives_the_figure_from_outside(row: Row, outside: dict[Row, float]) -> None:
    expected = outside[row]

    assert math.isfinite(expected)
    assert expected != 0.0
    assert validation.relative_error(expected, row.got()) <= row.within


@pytest.mark.parametrize("sign", [1.0, pytest.param(-1.0, marks=pytest.mark.slow)])
@EACH
def test_a_row_notices_what_the_computation_gives(
    row: Row, outside: dict[Row, float], monkeypatch: pytest.MonkeyPatch, sign: float
) -> None:
    by = sign * max(THOUSANDTH, 3.0 * row.within)
    change(monkeypatch, *row.place(), functools.partial(altered, by=by))
    assert _is_off(row, outside[row])


def _is_off(row: Row, expected: float) -> bool:
    try:
        return not validation.relative_error(expected, row.got()) <= row.within
    except (BarwrightError, LookupError, ValueError):
        return True


@EACH
def test_a_row_gives_reasons_and_says_how_it_is_known(row: Row) -> None:
    owner, name = row.place()
    found = inspect.getattr_static(owner, name) if inspect.isclass(owner) else getattr(owner, name)

    assert callable(found) or isinstance(found, (property, functools.cached_property, classmethod))
    assert row.source
    assert row.given
    assert row.why or row.within <= EXACT
    named = {
        Kind.ENGINE: any(engine in row.source for engine in ENGINES),
        Kind.FORMULATED: any(library in row.source for library in LIBRARIES),
    }
    if row.kind in named:
        assert callable(row.expected) or callable(row.got)
        assert named[row.kind]
    else:
        assert not any(program in row.source for program in (*ENGINES, *LIBRARIES))


@each_case("of", COMPUTATIONS)
def test_no_public_computation_lacks_a_row_that_notices_a_thousandth(of: str) -> None:
    finest = min((row.within for row in ROWS if row.of == of), default=math.inf)

    if of in validation.DEFINITIONS:
        assert finest == math.inf
    else:
        assert (finest < THOUSANDTH / 3.0) is (of not in validation.COARSE)
        assert finest < math.inf


def test_all_rows_and_exceptions_are_of_public_computations() -> None:
    assert {row.of for row in ROWS} <= set(COMPUTATIONS)
    assert {*validation.COARSE, *validation.DEFINITIONS} <= set(COMPUTATIONS)


def test_each_question_is_known_to_give_figures_of_its_own_or_none() -> None:
    questions = {
        name
        for name in barwright.__all__
        if inspect.isfunction(found := getattr(barwright, name))
        and found.__module__.startswith("barwright.analysis.")
    }

    assert questions == {*validation.FIGURED, *validation.WITHOUT_FIGURES}


def test_the_page_says_what_the_rows_say() -> None:
    written = validation.PAGE.read_text(encoding="utf-8").splitlines()
    now = validation.page(lambda _: (1.0, 1.0)).splitlines()

    assert [_words(line) for line in written] == [_words(line) for line in now], (
        "write it anew: python tests/validation.py"
    )


def _words(line: str) -> list[str]:
    """Cells of a line without its figures, whose last digits are not the same on every engine."""
    cells = line.split(" | ")
    return cells[: FIGURES.start] + cells[FIGURES.stop :]

"""Put a question to many corners at once, and answer it in columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, overload

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.columns.asked.catalogue import QUESTIONS, QuestionName
from barwright.columns.asked.question import Question
from barwright.columns.asked.strength import strength_question
from barwright.columns.given import WANTED_HEIGHT, Column, Table, columns_of
from barwright.columns.rows import Rows, answered_rows
from barwright.errors import SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.units import ArrayWithUnit
from barwright.units.kept import taken_over

__all__ = ["Batch", "QuestionName", "batch"]


@attrs.frozen(kw_only=True, repr=False, eq=False)
class Batch(Summarised):
    """Answers to one question for many corners: a row each, in columns.

    Parameters
    ----------
    asked : str
        The question: fit, height, rates, ride, strength or reindex.
    verdicts : array of str, shape (rows,)
        Verdict of each row; empty where the row is an error.
    error_codes : array of str, shape (rows,)
        Code of the error with which a row ends; empty where there is an answer.
    error_texts : mapping of int to str
        What is wrong with each such row, by its number from 0.
    columns : mapping of str to QuantityArray or array
        Figures of the answers, each a column: an array with its unit, or a plain one of ratios.
        Not a number where a row has none.  Those of a curve have a row of points for each row.
    """

    asked: str
    verdicts: NDArray[np.str_]
    error_codes: NDArray[np.str_]
    error_texts: Mapping[int, str]
    columns: Mapping[str, Any]

    def __getitem__(self, name: str) -> Any:  # noqa: ANN401 - with its unit, or a ratio without
        """Return a column of figures."""
        return self.columns[name]

    def __len__(self) -> int:
        """Count the rows."""
        return int(self.verdicts.size)

    def _in_short(self) -> str:
        """Tell how many rows there are, and how many are errors."""
        return f"{self.asked}, {len(self)} rows, {len(self.error_texts)} of them errors"


@overload
def batch(
    setup: Setup,
    table: Table,
    *,
    asked: QuestionName = "rates",
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
) -> Batch: ...
@overload
def batch(
    setup: Setup,
    table: Table,
    *,
    asked: tuple[QuestionName, ...],
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
) -> tuple[Batch, ...]: ...
@checks_arguments
def batch(
    setup: Setup,
    table: Table,
    *,
    asked: QuestionName | tuple[QuestionName, ...] = "rates",
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
) -> Batch | tuple[Batch, ...]:
    """Answer a question for many corners that differ from one in some figures.

    Parameters
    ----------
    setup : Setup
        The corner.
    table : mapping of str to array
        Columns of figures that take the place of the setup's: by their names, like
        ``bar.diameter`` or ``load.mass``, arrays with units; or, with the unit in brackets behind
        the name, like ``load.mass [kg]``, numbers.  ``wanted.height`` is the height at which
        rates, ride and strength are asked for, and for which a plan is made.
    asked : {"fit", "height", "rates", "ride", "strength", "reindex"}, or a tuple of them
        What is asked of each: as :func:`barwright.length_fit`, :func:`barwright.ride`,
        :func:`barwright.rates`, :func:`barwright.strength` and :func:`barwright.reindex` answer
        it; the ride is what the rates say of frequencies, and of load against height over the
        travel; of a re-indexing, the preferred plan.
    limits, travel, history : optional
        Of the strength, for all rows alike: as :func:`barwright.strength` takes them.  Cycles of
        a history are counted row by row.

    Returns
    -------
    Batch, or tuple of Batch
        A row that cannot be is an error with its code and reason; all others are answered.
        Of several questions one each, from the same corners.

    Raises
    ------
    SchemaError
        S201 for a name that no figure has, and for what no question asked here takes; S203 for
        columns of different lengths.
    QuantityError
        Q104, Q105 or Q202 for a column that holds no numbers with a unit of its kind.

    References
    ----------
    The same equations as of single corners; held against them row by row.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> van = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> answer = batch(van, {"load.mass [kg]": [260.0, 291.0, -1.0]})
    >>> [f"{rate:.1f}" for rate in answer["ride.wheel_rate"].m_as("N/mm")]
    ['20.7', '21.1', 'nan']
    >>> print(answer.error_codes[2])
    Q302
    """
    columns = columns_of(setup, table)
    names = (asked,) if isinstance(asked, str) else asked
    strength = {"limits": limits, "travel": travel, "history": history}
    questions = [_question(name, strength) for name in names]
    _refuse_unused_strength(names, strength)
    _refuse_unused_height(columns, questions)
    answers = answered_rows(setup, columns, questions)
    found = tuple(_batch(name, rows) for name, rows in zip(names, answers, strict=True))
    return found[0] if isinstance(asked, str) else found


def _question(name: QuestionName, strength: Mapping[str, Any]) -> Question:
    return strength_question(**strength) if name == "strength" else QUESTIONS[name]


def _refuse_unused_strength(names: Sequence[str], strength: Mapping[str, Any]) -> None:
    given = [key for key, value in strength.items() if value is not None]
    if given and "strength" not in names:
        raise SchemaError(
            "S201",
            value=given[0],
            expected="what the question takes",
            remedy="leave it out, or ask for the strength",
            key=given[0],
        )


def _refuse_unused_height(columns: Sequence[Column], questions: Sequence[Question]) -> None:
    is_given = any(column.path == WANTED_HEIGHT for column in columns)
    if is_given and not any(question.takes_height for question in questions):
        at_a_height = [name for name, question in QUESTIONS.items() if question.takes_height]
        raise SchemaError(
            "S201",
            value=WANTED_HEIGHT,
            expected="a figure of the setup",
            remedy=f"leave it out; asked for at a height: {', '.join(at_a_height)}",
            key=WANTED_HEIGHT,
        )


def _batch(name: str, rows: Rows) -> Batch:
    return Batch(
        asked=name,
        verdicts=rows.verdicts,
        error_codes=rows.codes,
        error_texts=rows.reasons,
        columns={
            name: rows.numbers[name]
            if kind is None
            else taken_over(rows.numbers[name], kind.units[0])
            for name, kind in rows.question.kinds.items()
        },
    )

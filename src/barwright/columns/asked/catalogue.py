"""The questions that columns can be asked, by their names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias

from barwright.columns.asked.fit import FIT
from barwright.columns.asked.height import HEIGHT
from barwright.columns.asked.question import Question
from barwright.columns.asked.rates import RATES
from barwright.columns.asked.reindex import REINDEX
from barwright.columns.asked.ride import RIDE
from barwright.columns.asked.strength import strength_question

__all__ = ["QUESTIONS", "QuestionName"]

QuestionName: TypeAlias = Literal["fit", "height", "rates", "ride", "strength", "reindex"]
"""Questions that columns can be asked."""

QUESTIONS: Mapping[str, Question] = {
    "fit": FIT,
    "height": HEIGHT,
    "rates": RATES,
    "ride": RIDE,
    "strength": strength_question(),
    "reindex": REINDEX,
}
"""Each with its name."""

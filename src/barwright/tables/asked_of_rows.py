"""What is asked of all rows of a table alike."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import attrs

from barwright.columns.asked.catalogue import QUESTIONS, QuestionName
from barwright.columns.asked.question import Question
from barwright.columns.batch import Batch, batch
from barwright.columns.given import Table
from barwright.parts.setup import Setup
from barwright.units import System

__all__ = ["AskedOfRows"]


@attrs.frozen(eq=False)
class AskedOfRows:
    """A question to many corners.

    Parameters
    ----------
    name : str
        Its name.
    system : {"metric", "inch"}
        Units of the answers.
    strength : mapping
        Limits, travel and history of the strength, as :func:`barwright.batch` takes them.
    """

    name: QuestionName
    system: System = "metric"
    strength: Mapping[str, Any] = attrs.field(factory=dict)

    @property
    def question(self) -> Question:
        """Kinds of its columns."""
        return QUESTIONS[self.name]

    @property
    def is_planned(self) -> bool:
        """Whether it is answered by a plan: tolerances count in it, and all that a job wants."""
        return self.name == "reindex"

    @property
    def counts_cycles(self) -> bool:
        """Whether the cycles of a history are counted, of each row by itself."""
        return self.strength.get("history") is not None

    def __call__(self, setup: Setup, table: Table) -> Batch:
        """Put it to the corners that differ from one in some figures."""
        return batch(setup, table, asked=self.name, **self.strength)

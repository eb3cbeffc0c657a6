"""Collects the problems of several readers, so that all are raised at once."""

from __future__ import annotations

from typing import Any

from barwright.errors import BarwrightError
from barwright.registry.packs.tables.refusals import problems_of

__all__ = ["Collector"]


class Collector:
    """Calls readers one after the other and keeps their problems for the end."""

    def __init__(self) -> None:
        self.problems: list[BarwrightError] = []

    def __call__(self, reader: Any, *arguments: Any) -> Any:  # noqa: ANN401 - any reader
        """Return what a reader returns, or nothing if it has problems."""
        try:
            return reader(*arguments)
        except (BarwrightError, ExceptionGroup) as error:
            self.problems += problems_of(error)
            return None

    def raise_problems(self) -> None:
        """Raise everything at once."""
        if self.problems:
            raise ExceptionGroup("", self.problems)

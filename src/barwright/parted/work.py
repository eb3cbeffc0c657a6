"""Work whose result is a table that is made in parts."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Any, Protocol

import attrs

__all__ = ["PartTable", "Work", "key_of"]


@attrs.frozen
class PartTable:
    """One part of a result.

    Parameters
    ----------
    table : pyarrow.Table
        Its rows; all parts have the same columns.
    counted : mapping of str to int
        What is summed up over all parts.
    """

    table: Any
    counted: Mapping[str, int]


class Work(Protocol):
    """Work that can be done part by part, in any order, on any machine that it is sent to.

    A part that is done twice is the same twice.
    """

    @property
    def question(self) -> Mapping[str, str | float | bool | None]:
        """What the result depends on; parts of another question are never mixed with these."""

    @property
    def number(self) -> int:
        """How many parts there are."""

    def part(self, number: int) -> PartTable:
        """Do one part, counted from 0."""


def key_of(work: Work) -> str:
    """Return a digest of all that the result of a work depends on.

    Parameters
    ----------
    work : Work
        The work.

    Returns
    -------
    str
    """
    text = json.dumps({**work.question, "parts": work.number}, sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()

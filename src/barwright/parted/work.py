"""Work whose result is a table that is made in parts."""

from __future__ import annotations

import abc
import hashlib
import json
from collections.abc import Mapping, Sequence
from typing import Any, Generic, Protocol, TypeVar

import attrs

__all__ = ["ListedWork", "PartTable", "Work", "key_of"]

Piece = TypeVar("Piece")


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


class ListedWork(abc.ABC, Generic[Piece]):
    """Work of which each part is a piece of a list; of no piece, there is one part of no rows."""

    @property
    @abc.abstractmethod
    def pieces(self) -> Sequence[Piece]:
        """The list."""

    @abc.abstractmethod
    def of_pieces(self, pieces: Sequence[Piece]) -> PartTable:
        """Do some of them, of which there is one or none."""

    @property
    def number(self) -> int:
        """How many parts there are."""
        return max(1, len(self.pieces))

    def part(self, number: int) -> PartTable:
        """Do one part.

        Parameters
        ----------
        number : int
            Which, from 0.

        Returns
        -------
        PartTable
        """
        return self.of_pieces(self.pieces[number : number + 1])

    def __getstate__(self) -> dict[str, Any]:
        """Send what the work is made of; what it computed of that is computed there again."""
        work: Any = type(self)
        return {field.name: getattr(self, field.name) for field in attrs.fields(work)}


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

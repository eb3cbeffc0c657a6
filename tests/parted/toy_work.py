"""A work of a few rows, whose parts a test can let fail."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from pathlib import Path

import attrs
import pyarrow as pa

from barwright.parted.work import PartTable

__all__ = ["ToyWork", "numbers_in"]


@attrs.frozen
class ToyWork:
    """Numbers and their squares, two in each part.

    Parameters
    ----------
    number : int
        Parts.
    asked : str
        What the numbers are asked for: parts of another question have other numbers.
    before : callable, optional
        Called with the number of each part before it is done.
    seconds : float
        How long a part takes.
    """

    number: int = 5
    asked: str = "squares"
    before: Callable[[int], object] | None = None
    seconds: float = 0.0

    @property
    def question(self) -> Mapping[str, str | float | bool | None]:
        """What the result depends on."""
        return {"registry": "one", "asked": self.asked}

    def part(self, number: int) -> PartTable:
        """Two rows."""
        if self.before is not None:
            self.before(number)
        time.sleep(self.seconds)
        of = [2 * number, 2 * number + 1]
        table = pa.table({"of": of, "square": [n * n for n in of]})
        return PartTable(table, {"rows": 2, "even": 1})


def numbers_in(path: Path) -> list[int]:
    """The numbers of a result, in their order."""
    from pyarrow import parquet  # noqa: PLC0415 - one test looks into a file

    numbers: list[int] = parquet.read_table(path)["of"].to_pylist()
    return numbers

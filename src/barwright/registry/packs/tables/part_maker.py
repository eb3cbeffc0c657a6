"""Parts of tables: the fast way, and the careful one for tables with anything wrong or unusual."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from barwright.errors import BarwrightError
from barwright.parts.chassis import Chassis
from barwright.parts.common.record import Part
from barwright.parts.common.source import Source
from barwright.registry.packs.tables.complete import completed
from barwright.registry.packs.tables.in_order import RecordsInOrder
from barwright.registry.packs.tables.refusals import problems_of
from barwright.registry.packs.tables.sided import tables_of_sides
from barwright.registry.packs.tables.structure import Structurer

__all__ = ["PartMaker"]


class PartMaker:
    """Makes parts of the tables of one file.

    Parameters
    ----------
    file : str
        Name of the file.
    sources : sequence of Source
        Those that it may name.
    pack : str
        Id of the pack that the sources belong to.
    parts : mapping
        Records that a table may refer to, by class and id.
    """

    def __init__(
        self,
        *,
        file: str,
        sources: Sequence[Source],
        pack: str,
        parts: Mapping[type, Mapping[str, Any]],
    ) -> None:
        self._in_order = RecordsInOrder(file=file, sources=sources, pack=pack, parts=parts)
        self._structurer = Structurer(file=file, sources=sources, pack=pack, parts=parts)

    def made(self, table: Mapping[str, Any], cls: type[Part], *, key: str) -> Part:
        """Make a part of a table; of a vehicle whose sides differ, one for each side.

        Parameters
        ----------
        table : mapping
            The table.
        cls : type
            Class of the record.
        key : str
            Path of the table in its document.

        Returns
        -------
        Part
            A chassis has the one of its right corners in it.

        Raises
        ------
        ExceptionGroup
            All problems.
        """
        return self._in_order.record(table, cls) or self._carefully(table, cls, key=key)

    def _carefully(self, table: Mapping[str, Any], cls: type[Part], *, key: str) -> Part:
        """Look at every key, and tell all that is wrong with either side."""
        sides = tables_of_sides(table) if cls is Chassis else ()
        if not sides:
            return self._structurer.structure(table, cls, key=key)
        made, problems = [], dict[str, BarwrightError]()
        for of_side in sides:
            try:
                made.append(self._structurer.structure(of_side, cls, key=key))
            except ExceptionGroup as error:
                problems |= {str(problem): problem for problem in problems_of(error)}
        if problems:
            raise ExceptionGroup(key, list(problems.values()))
        left, right = made
        return completed(left, right_side=right)

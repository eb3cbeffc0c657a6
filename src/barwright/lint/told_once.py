"""What a record takes of another one that it is like is told where that one states it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from barwright.lint.finding import LintFinding
from barwright.lint.subject.subject import Subject
from barwright.parts.chassis import Chassis
from barwright.registry.packs.tables.lineage import lineage, says_like

__all__ = ["TellsOnce"]

_AXLE = re.compile(r"^axles\[(\d+)\]")


class TellsOnce:
    """Tells what a record states itself from what it only takes of another one.

    Parameters
    ----------
    subject : Subject
        The pack.
    """

    def __init__(self, subject: Subject) -> None:
        self._parts = subject.pack.parts
        self._entries = subject.pack.entries
        self._gaps = subject.gaps
        self._by_place = {(entry.file, entry.key): entry for entry in self._entries.values()}

    def findings(self, found: Iterable[LintFinding]) -> Iterator[LintFinding]:
        """Leave out findings that were made, word by word, where the record states it.

        Parameters
        ----------
        found : iterable of LintFinding
            All findings of all rules.

        Yields
        ------
        LintFinding
        """
        every = list(found)
        placed = [(one, *self._place(one)) for one in every]
        known = {(one.rule, id_, path, one.message) for one, id_, path in placed}
        for one, full_id, path in placed:
            above = self._above(full_id, path) if path else ()
            elsewhere = [(base, path) for base in above]
            if path.endswith(".right"):
                elsewhere.append((full_id, path.removesuffix(".right")))
            if not any((one.rule, *there, one.message) in known for there in elsewhere):
                yield one

    def gaps(self, full_id: str) -> tuple[str, ...]:
        """List what is not known of a record, but for what the one that it is like lacks too.

        Parameters
        ----------
        full_id : str
            Of the record.

        Returns
        -------
        tuple of str
        """
        return tuple(
            name for name in self._gaps.get(full_id, ()) if not self._is_gap(full_id, name)
        )

    def _is_gap(self, full_id: str, name: str) -> bool:
        path = self._by_axle(full_id, name)
        return any(
            path in {self._by_axle(base, other) for other in self._gaps.get(base, ())}
            for base in self._above(full_id, path)
        )

    def _place(self, finding: LintFinding) -> tuple[str, str]:
        """Return the record of a finding, and the fields in it; both empty for anything else."""
        record, _, path = finding.key.partition(".")
        entry = self._by_place.get((finding.file, record))
        return (entry.id, self._by_axle(entry.id, path)) if entry else ("", "")

    def _by_axle(self, full_id: str, path: str) -> str:
        """Name the axle of a path by its place: the order of axles may differ."""
        part, found = self._parts[full_id], _AXLE.match(path)
        if not found or not isinstance(part, Chassis):
            return path
        return f"axles.{part.axles[int(found[1])].place.value}{path[found.end() :]}"

    def _above(self, full_id: str, path: str) -> tuple[str, ...]:
        """List the records from which one takes what some fields lead to."""
        if not says_like(self._entries[full_id].table):
            return ()
        return lineage(full_id, path, self._entries.get)[1:]

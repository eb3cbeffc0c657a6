"""A file of records has at least one table."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.registry.files.snapshot import HEADER
from barwright.registry.overlays.preference import OverlayHeader

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    files = {file: tables for file, tables in subject.tables.items() if file != HEADER}
    # A new overlay has a file for corrections, all of it comments until there is one.
    if isinstance(subject.pack.header, OverlayHeader) and any(files.values()):
        return
    for file, tables in files.items():
        if not tables:
            yield Remark(PackPlace(file, file, ""), "the file is empty, or all comments")


RULE = Rule(
    name="empty-file",
    code="R223",
    severity=Severity.WARNING,
    wants="every file beside pack.toml has a record, a check or a waiver",
    tip="if it was cut off, restore it; if it is not needed, delete it",
    remarks=_remarks,
)

"""A pack of an older version of the format uses nothing that is newer."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.registry.files.snapshot import HEADER
from barwright.registry.packs.format.migrate import MIGRATIONS

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    version = subject.written_for
    if version not in MIGRATIONS:
        return
    known = MIGRATIONS[version].keys
    newer = {key for table in subject.tables.values() for key in _newer(table, known)}
    if newer:
        text = f"schema = {version}, but that version does not know {', '.join(sorted(newer))}"
        yield Remark(PackPlace(HEADER, HEADER, "schema"), text)


def _newer(value: object, known: AbstractSet[str]) -> Iterator[str]:
    """Keys that are not known, of a table and of what it holds under those that are."""
    if isinstance(value, list):
        for one in value:
            yield from _newer(one, known)
    elif isinstance(value, dict):
        for key, inner in value.items():
            if key in known:
                yield from _newer(inner, known)
            else:
                yield key


RULE = Rule(
    name="older-format",
    code="R224",
    severity=Severity.WARNING,
    wants="a pack of an older version of the format uses no newer keys",
    tip="write the present version, schema = 2, since an older barwright cannot read the pack",
    remarks=_remarks,
)

"""A waiver says why."""

from __future__ import annotations

import re
from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]

_FEWEST_WORDS = 4


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.waivers:
        if len(re.findall(r"\w+", stated.waiver.why)) < _FEWEST_WORDS:
            yield Remark(stated.place, f"{stated.waiver.why!r} is no reason")


RULE = Rule(
    name="waiver-reason",
    code="R503",
    wants="a waiver gives its reason in a sentence",
    tip="say why the finding is right as it is",
    remarks=_remarks,
)

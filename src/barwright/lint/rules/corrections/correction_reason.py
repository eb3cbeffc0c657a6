"""A correction says why."""

from __future__ import annotations

import re
from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["FEWEST_WORDS", "RULE"]

FEWEST_WORDS = 3
"""Of a reason."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.corrections:
        if len(re.findall(r"\w+", stated.about.why)) < FEWEST_WORDS:
            yield Remark(stated.place, f"{stated.about.why!r} is no reason")


RULE = Rule(
    name="correction-reason",
    code="R604",
    wants="a correction gives its reason",
    tip="say what was found, on which part and how",
    remarks=_remarks,
)

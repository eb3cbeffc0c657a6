"""A correction changes what is known."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.trail_facts import value_in_words
from barwright.lint.content import same_figure
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.stated import StatedCorrection
from barwright.lint.subject.subject import Subject
from barwright.parts.common.source import Fact

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.corrections:
        if _changes_nothing(stated):
            value = value_in_words(stated.about.value)
            yield Remark(stated.place, f"the pack already says {value}, from as good a source")


def _changes_nothing(stated: StatedCorrection) -> bool:
    """Tell whether figure, tolerance and kind of source are those of the pack."""
    known, replaced = stated.about, stated.replaces
    if replaced is None or replaced.source_kind is not known.source_kind:
        return False
    if isinstance(replaced, Fact) or isinstance(known, Fact):
        return bool(replaced.value == known.value)
    return same_figure(replaced.value, known.value, stated.kind) and same_figure(
        replaced.tolerance, known.tolerance, stated.kind
    )


RULE = Rule(
    name="correction-needed",
    code="R601",
    wants="a correction changes the figure, its tolerance or the kind of its source",
    tip="delete the correction: the pack now has it",
    remarks=_remarks,
)

"""A correction changes what is known."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.content import same_figure
from barwright.lint.rule import Remark, Rule
from barwright.lint.stated import StatedCorrection
from barwright.lint.subject import Subject
from barwright.units import shown

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.corrections:
        if _changes_nothing(stated):
            value = shown(stated.about.value)
            yield Remark(stated.place, f"the pack already says {value}, from as good a source")


def _changes_nothing(stated: StatedCorrection) -> bool:
    """Tell whether figure, tolerance and kind of source are those of the pack."""
    known, replaced = stated.about, stated.replaces
    return (
        replaced is not None
        and replaced.source_kind is known.source_kind
        and same_figure(replaced.value, known.value, stated.kind)
        and same_figure(replaced.tolerance, known.tolerance, stated.kind)
    )


RULE = Rule(
    name="correction-needed",
    code="R601",
    wants="a correction changes the figure, its tolerance or the kind of its source",
    tip="delete the correction: the pack now has it",
    remarks=_remarks,
)

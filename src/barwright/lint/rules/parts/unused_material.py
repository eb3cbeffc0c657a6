"""A material is there for a bar or a tube."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.bar import Bar
from barwright.parts.material import Material
from barwright.parts.tube import Tube

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    made_of = {part.material.id for _, part in subject.records if isinstance(part, Bar | Tube)}
    # A pack of steels alone is there to be looked up.
    for place, material in subject.records_of(Material) if made_of else ():
        if material.id not in made_of:
            yield Remark(place, "no bar or tube uses this material")


RULE = Rule(
    name="unused-material",
    code="R204",
    wants="every material is used by a bar or a tube of the pack",
    tip="name the material in its bar or tube, or delete it",
    remarks=_remarks,
    needs_whole=True,
)

"""What a part replaces is another part of its kind, and no two replace each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.common.record import Part
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.supersession import newest_replacements, replacements, same_kind

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    direct = replacements(part for _, part in subject.records)
    newest = newest_replacements(direct)
    for place, part in subject.records:
        for index, old in enumerate(part.replaces):
            where = place.within(f"replaces[{index}]")
            yield from _of_one(subject, where, part, old)
        yield from _in_a_circle(place, part, direct, newest)


def _of_one(subject: Subject, where: PackPlace, part: Part, old: str) -> Iterator[Remark]:
    """Look at one part that is replaced."""
    own = subject.pack.id
    if old == part.id:
        yield Remark(where, "a part cannot replace itself", "name the part that it replaces")
    elif old not in subject.pack.parts and old not in subject.below:
        short = old.removeprefix(f"{own}:")
        remedy = nearest(short, [entry.short for entry in subject.pack.entries.values()])
        if ":" in short:
            remedy = "name a part of this pack; an overlay may replace a part of another"
        yield Remark(where, f"it replaces {short}, which the pack does not have", remedy)
    elif not same_kind(old, part.id):
        kind = part.id.partition(":")[2].partition("/")[0]
        yield Remark(where, f"it replaces {old}, which is of another kind", f"name a {kind}")


def _in_a_circle(
    place: PackPlace,
    part: Part,
    direct: Mapping[str, Sequence[str]],
    newest: Mapping[str, Sequence[str]],
) -> Iterator[Remark]:
    """Say of a part which others replace that none of them is the newest."""
    if part.id in direct and part.id not in newest:
        names = " and ".join(name.partition(":")[2] for name in direct[part.id])
        yield Remark(
            place.within("replaces"),
            f"{names} replaces it, and nothing is the newest: they replace each other in a circle",
            "remove the one 'replaces' that is not true",
        )


RULE = Rule(
    name="supersession",
    code="R222",
    wants="what a part replaces is another part of its kind in the pack, and none in a circle",
    tip="correct what it replaces",
    remarks=_remarks,
    needs_whole=True,
)

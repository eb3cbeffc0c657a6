"""A spline has a counterpart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.tube import Tube
from barwright.units import is_unknown, unknown_count

__all__ = ["RULE"]

_Splines: TypeAlias = Sequence[tuple[PackPlace, BarEnd | Socket]]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for name, holders in (("arm_end", Arm), ("anchor_end", Tube | KeyLever | FixedSocket)):
        ends = [(place.within(name), getattr(bar, name)) for place, bar in subject.records_of(Bar)]
        sockets = [
            (place.within("socket"), part.socket)
            for place, part in subject.records
            if isinstance(part, holders)
        ]
        yield from _unmatched(ends, sockets, "socket")
        yield from _unmatched(sockets, ends, "bar end")


def _unmatched(splines: _Splines, others: _Splines, name: str) -> Iterator[Remark]:
    """Name the splines without a counterpart, unless the counterparts are in other packs."""
    known = {(other.teeth, other.form) for _, other in others}
    for place, one in splines:
        is_sure = not is_unknown(one.teeth) and (unknown_count(), one.form) not in known
        if known and is_sure and (one.teeth, one.form) not in known:
            message = f"no {name} in the pack has {one.teeth} teeth of form {one.form!r}"
            yield Remark(place, message)


RULE = Rule(
    name="unmatched-spline",
    code="R205",
    severity=Severity.WARNING,
    wants="every bar end fits a socket of the pack, and every socket a bar end",
    tip="compare tooth count and form: both must be the same",
    remarks=_remarks,
    needs_whole=True,
)

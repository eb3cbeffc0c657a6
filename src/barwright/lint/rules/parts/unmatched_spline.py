"""A spline has a counterpart."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject import Subject
from barwright.parts.spline import BarEnd, Socket

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    ends = {(end.teeth, end.form) for _, end in subject.pieces_of(BarEnd)}
    sockets = {(socket.teeth, socket.form) for _, socket in subject.pieces_of(Socket)}
    # A pack of bars alone goes with the sockets of others.
    if not (ends and sockets):
        return
    for place, piece in subject.pieces:
        if not isinstance(piece, BarEnd | Socket):
            continue
        others, name = (sockets, "socket") if isinstance(piece, BarEnd) else (ends, "bar end")
        if (piece.teeth, piece.form) not in others:
            message = f"no {name} in the pack has {piece.teeth} teeth of form {piece.form!r}"
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

"""An adjuster's thread is one of the ISO metric threads."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.adjuster import Adjuster
from barwright.units import shown

__all__ = ["RULE"]

_PITCHES: Mapping[float, tuple[float, ...]] = {
    6.0: (1.0, 0.75),
    7.0: (1.0, 0.75),
    8.0: (1.25, 1.0, 0.75),
    9.0: (1.25, 1.0, 0.75),
    10.0: (1.5, 1.25, 1.0, 0.75),
    12.0: (1.75, 1.5, 1.25, 1.0),
    14.0: (2.0, 1.5, 1.25, 1.0),
    16.0: (2.0, 1.5, 1.0),
    18.0: (2.5, 2.0, 1.5, 1.0),
    20.0: (2.5, 2.0, 1.5, 1.0),
    22.0: (2.5, 2.0, 1.5, 1.0),
    24.0: (3.0, 2.0, 1.5, 1.0),
    27.0: (3.0, 2.0, 1.5, 1.0),
    30.0: (3.5, 3.0, 2.0, 1.5, 1.0),
    33.0: (3.5, 3.0, 2.0, 1.5),
    36.0: (4.0, 3.0, 2.0, 1.5),
}
"""Pitches by diameter [mm]: ISO 261, first and second choice (from memory)."""

_CLOSE = 1e-6


def _remarks(subject: Subject) -> Iterator[Remark]:
    return said_where_known(subject.records_of(Adjuster), _odd)


def _odd(placed: tuple[PackPlace, Adjuster]) -> Iterator[Remark]:
    place, bolt = placed
    diameter, pitch = (float(size.m_as("mm")) for size in (bolt.thread_diameter, bolt.thread_pitch))
    pitches = next((of for size, of in _PITCHES.items() if abs(size - diameter) < _CLOSE), None)
    if pitches is None:
        near = sorted(_PITCHES, key=lambda size: abs(size - diameter))[:2]
        known = " and ".join(f"{size:g} mm" for size in sorted(near))
        message = f"no ISO metric thread has a thread_diameter of {shown(bolt.thread_diameter)}"
        yield Remark(place.within("thread_diameter"), f"{message}; the nearest are {known}")
    elif not any(abs(one - pitch) < _CLOSE for one in pitches):
        known = ", ".join(f"{one:g} mm" for one in pitches)
        message = (
            f"thread_pitch {shown(bolt.thread_pitch)} belongs to no ISO metric thread of "
            f"thread_diameter {shown(bolt.thread_diameter)}, which has {known}"
        )
        yield Remark(place.within("thread_pitch"), message)


RULE = Rule(
    name="metric-thread",
    code="R210",
    severity=Severity.WARNING,
    wants="diameter and pitch of an adjuster are those of an ISO metric thread",
    tip="measure the thread with a gauge; if it is a special thread, waive the finding",
    remarks=_remarks,
)

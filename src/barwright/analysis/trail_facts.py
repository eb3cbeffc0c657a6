"""Origin of a setup's facts: the counts, words, lists and directions of its records."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import attrs

from barwright.parts.chassis import AxlePlace
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.parts.common.source import JOB, Fact, Figure, Source, SourceKind
from barwright.parts.setup import Setup
from barwright.units import is_quantity, shown

__all__ = ["TrailFact", "stated_at", "trail_facts", "value_in_words"]

# Fields of a setup that hold again what its other fields say in fewer words.
_LAST = ("axle", "chassis", "reading", "further_readings")


@attrs.frozen(kw_only=True, repr=False)
class TrailFact(Summarised):
    """A fact of a setup, and its origin.

    Parameters
    ----------
    fact : str
        Its name, by the fields of the setup that lead to it.
    value : str
        What a file says; ``unknown`` for a figure or a count that its source does not give.
    source : str
        ``pack:source``.
    source_kind : SourceKind, optional
        How the source came to it.
    note : str
        What finds the source again; empty if it is not known.
    at : str
        Place in the source.
    file : str
        File that it was read from, within its pack.
    key : str
        Record and field within that file, like ``bar/standard: arm_end.teeth``; of a
        correction, where it stands.
    replaces : Figure, optional
        What a pack says, where an overlay corrects it.
    why : str
        Why it was corrected.
    taken_by : str
        Record that takes the fact from the one that it is like; empty if it states it itself.
    """

    fact: str
    value: str
    source: str
    source_kind: SourceKind | None
    note: str
    at: str
    file: str
    key: str
    replaces: Figure | None
    why: str
    taken_by: str = ""


def trail_facts(
    setup: Setup, source: Callable[[str], Source | None] | None
) -> tuple[TrailFact, ...]:
    """List the facts of a setup that have a source, each at the first place where it stands.

    Parameters
    ----------
    setup : Setup
        The corner.
    source : callable, optional
        Returns a source by its name.

    Returns
    -------
    tuple of TrailFact
    """
    found: dict[int, TrailFact] = {}
    for path, (part, fields), known in _held(setup, "", ("", "")):
        if id(known) not in found:
            named = source(known.source) if source else None
            taken_by, key = stated_at(part, fields, known)
            found[id(known)] = TrailFact(
                fact=path,
                value=value_in_words(known.value),
                source=known.source,
                source_kind=known.source_kind,
                note=named.note if named else "",
                at=known.at,
                file=known.file,
                key=known.key if known.why else key,
                replaces=known.replaces,
                why=known.why,
                taken_by="" if known.why else taken_by,
            )
    return tuple(found.values())


def value_in_words(value: object) -> str:
    """Write the value of a fact as a file does, a word without quotes; show a figure.

    Parameters
    ----------
    value : object
        As :class:`Fact` or :class:`Figure` has it.

    Returns
    -------
    str

    Examples
    --------
    >>> value_in_words((0, 3)), value_in_words(False), value_in_words("anchor end")
    ('[0, 3]', 'false', 'anchor end')
    """
    if is_quantity(value):
        return shown(value)
    if isinstance(value, tuple):
        return f"[{', '.join(map(value_in_words, value))}]"
    return str(value).lower() if isinstance(value, bool) else str(value)


def stated_at(part: str, fields: str, known: Fact | Figure) -> tuple[str, str]:
    """Return which record takes a figure or a fact of another one, and where it stands.

    Parameters
    ----------
    part : str
        Full id of the part that holds it.
    fields : str
        Fields of that part that lead to it.
    known : Fact or Figure
        What is known of it.

    Returns
    -------
    tuple of str
        The record that takes it, empty if it states it itself; record and fields in a file.
    """
    pack, _, record = part.partition(":")
    kind, _, name = record.partition("/")
    stating = known.key.rpartition(".")[0]
    # What a job describes is no record that another one could be like.
    if pack == JOB or not known.source.startswith(f"{pack}:") or stating == name:
        return "", f"{record}: {fields}"
    return record, f"{kind}/{stating}: {fields}"


def _held(
    value: Any,  # noqa: ANN401 - any part of a setup
    path: str,
    key: tuple[str, str],
) -> Iterator[tuple[str, tuple[str, str], Fact]]:
    """Facts of a value and of all in it: the path in the setup, and part and fields in a file."""
    if isinstance(value, Part):
        key = (value.id, "")
    part, fields = key
    if isinstance(value, Record):
        for name, known in value.about.items():
            if isinstance(known, Fact):
                yield f"{path}{name}", (part, f"{fields}{name}"), known
    for name, child in _branches(value):
        is_axle = isinstance(value, Setup) and name == "axle"
        there = (value.chassis.id, f"axles.{child.place.value}.") if is_axle else None
        yield from _held(child, f"{path}{name}.", there or (part, f"{fields}{name}."))


def _branches(value: Any) -> Iterator[tuple[str, Any]]:  # noqa: ANN401 - any part of a setup
    if isinstance(value, tuple):
        for index, item in enumerate(value):
            place = getattr(item, "place", None)
            yield place.value if isinstance(place, AxlePlace) else str(index), item
    elif attrs.has(type(value)):
        names = [f.name for f in attrs.fields(type(value)) if f.name not in NOT_IN_FILES]
        last = _LAST if isinstance(value, Setup) else ()
        for name in (*(name for name in names if name not in last), *last):
            yield name, getattr(value, name)

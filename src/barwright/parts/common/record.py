"""The base classes of all records."""

from __future__ import annotations

import functools
import inspect
import operator
from collections.abc import Callable, Mapping
from typing import Any, ClassVar, NamedTuple, Self, TypeVar, cast

import attrs

from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.facts import as_stated
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.identity import PartNumber
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import About, Fact, Figure
from barwright.units import is_unknown

__all__ = ["NOT_IN_FILES", "Part", "Record", "evolved"]

A = TypeVar("A", bound=attrs.AttrsInstance)

NOT_IN_FILES = frozenset({"about", "replaced_by", "pack_version", "right_side"})
"""Fields that no file states: they follow from where a record stands, and beside what."""


@attrs.frozen(kw_only=True, repr=False)
class Record(Summarised):
    """Base of all records with figures.

    Parameters
    ----------
    about : About
        What is known of each figure besides its value.  An entry whose value is
        no longer the field's is replaced by one that names the caller.  A fact (a count, a
        word, a list) and a figure that is unknown have one only where a source is named.
    """

    MAY_HAVE_GAPS: ClassVar[bool] = True
    """Whether a table of a file may leave required figures out, which are then unknown."""

    about: About = attrs.field(factory=About, eq=False, repr=False)

    def __attrs_post_init__(self) -> None:
        """Keep ``about`` true to the fields, and refuse fields that do not go together."""
        self._keep_about()
        self._check()

    def _check(self) -> None:
        """Refuse fields that do not go together."""

    def _keep_about(self) -> None:
        kept: dict[str, Figure] = {}
        about = self.about
        for name in figure_fields(type(self)):
            value = getattr(self, name)
            if value is not None and not is_unknown(value):
                known = about.get(name)
                is_same = known is not None and (known.value is value or known.value == value)
                kept[name] = known if known and is_same else Figure(value=value)
        kept |= {
            name: fact
            for name, fact in self.about.items()
            if isinstance(fact, Fact) and fact.value == as_stated(getattr(self, name, None))
        }
        object.__setattr__(self, "about", About(kept))

    @checks_arguments
    def described(self, known: Mapping[str, Figure]) -> Self:
        """Return this record with what is known of its fields, each under its field's name."""
        return attrs.evolve(self, about=About({**self.about, **known}))


@attrs.frozen(kw_only=True, repr=False)
class Part(Record):
    """Base of all records with an id.

    Parameters
    ----------
    id : str
        Name within its kind; of a record that was loaded, ``pack:kind/name``.
    title : str
        What a person calls it.
    numbers : tuple of PartNumber
        Numbers that it is ordered or filed by, each of a system, such as the maker's own or a
        parts counter's.
    replaces : tuple of str
        Ids of the parts of its kind that it supersedes.
    paint : str
        Paint mark that it is told by on the vehicle, such as ``"yellow, blue"``.
    remarks : tuple of str
        What else there is to know, a sentence or two each.
    replaced_by : tuple of str
        Ids of the parts that supersede it, and that nothing supersedes in turn. It follows from
        what these replace.
    pack_version : str
        Version of the pack that it comes from; empty if that has none.
    """

    id: str
    title: str
    numbers: tuple[PartNumber, ...] = ()
    replaces: tuple[str, ...] = ()
    paint: str = ""
    remarks: tuple[str, ...] = ()
    replaced_by: tuple[str, ...] = ()
    pack_version: str = attrs.field(default="", eq=False)

    def _in_short(self) -> str:
        """Show its id and its title."""
        return ", ".join(filter(None, (self.id, self.title)))

    @property
    def ordered_by(self) -> str:
        """Its numbers and its paint mark in one line; empty if it has neither."""
        painted = f"paint {self.paint}" if self.paint else ""
        return ", ".join(filter(None, (*map(str, self.numbers), painted)))


def evolved(record: A, changes: Mapping[str, Any]) -> A:
    """Return a record with some fields changed, in less time than :func:`attrs.evolve` takes.

    What stays was converted when the record was made, and is not converted again. The record
    itself is checked as any new one.

    Parameters
    ----------
    record : Record
        The record, or a setup.
    changes : mapping
        New values by field; ``about`` among them must be true to them.

    Returns
    -------
    Record

    Raises
    ------
    BarwrightError
        If no such record can be.
    """
    made = object.__new__(type(record))
    slots = _slots_of(type(record))
    for set_to, value in zip(slots.setters, slots.values(record), strict=True):
        set_to(made, value)
    for name, value in changes.items():
        set_to, convert = slots.by_name[name]
        set_to(made, value if convert is None else convert(value))
    if isinstance(made, Record):
        if "about" not in changes:
            made._keep_about()
        made._check()
    return made


class _Slots(NamedTuple):
    """What gives all fields of a class, what sets each, and both that and what converts it."""

    values: Callable[[Any], tuple[Any, ...]]
    setters: tuple[Callable[[Any, Any], None], ...]
    by_name: Mapping[str, tuple[Callable[[Any, Any], None], Callable[[Any], Any] | None]]


@functools.cache
def _slots_of(cls: type[attrs.AttrsInstance]) -> _Slots:
    fields = {field.name: cast("Any", field.converter) for field in attrs.fields(cls)}
    setters = tuple(inspect.getattr_static(cls, name).__set__ for name in fields)
    by_name = dict(zip(fields, zip(setters, fields.values(), strict=True), strict=True))
    return _Slots(operator.attrgetter(*fields), setters, by_name)

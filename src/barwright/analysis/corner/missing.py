"""Figures that a question needed of a corner and that nobody knows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import Any, TypeVar

import attrs

from barwright.analysis.finding import Finding, Topic
from barwright.errors import NeedsError
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.setup import Setup
from barwright.registry.measuring.catalogue import AskedFor, unknown_and_needed
from barwright.registry.usual.fill import UsualFigures
from barwright.units import Quantity, is_unknown, unknown

__all__ = [
    "MissingFigures",
    "figure_in_words",
    "missing_findings",
    "path_of",
    "unknown_paths",
    "usual_ranges",
]

T = TypeVar("T")

# Records that a setup holds only to say where it comes from.
_OTHERS = ("chassis", "left", "right", "about")


@attrs.define
class MissingFigures:
    """Collects what is missing while a question answers what it can.

    Parameters
    ----------
    setup : Setup
        The corner.
    present : Setup, optional
        The corner as it is now, where that is another one.
    """

    setup: Setup
    present: Setup | None = None
    _needed: list[object] = attrs.field(factory=list, init=False)

    def tried(self, part: Callable[[], T]) -> T | None:
        """Return a part of the answer; none, with its figure noted, where one is missing.

        Parameters
        ----------
        part : callable
            Computes it.

        Returns
        -------
        object, optional
        """
        try:
            return part()
        except NeedsError as error:
            self._needed.append(error.needed)
            return None

    def figure(self, part: Callable[[], Quantity]) -> Quantity:
        """Return a figure of the answer, unknown where one that it rests on is missing.

        Parameters
        ----------
        part : callable
            Computes it.

        Returns
        -------
        Quantity
        """
        found = self.tried(part)
        return unknown() if found is None else found

    def each(self, checks: Iterable[Callable[[], Iterable[Finding]]]) -> Iterator[Finding]:
        """Yield the findings of checks, passing over those whose figures are missing.

        Parameters
        ----------
        checks : iterable of callable
            Each one finds what it finds.

        Yields
        ------
        Finding
        """
        for check in checks:
            yield from self.tried(partial(_all_of, check)) or ()

    @property
    def paths(self) -> tuple[str, ...]:
        """Fields of the setup that lead to the missing figures, each once."""
        return self._paths_in(self.setup)

    def _paths_in(self, setup: Setup) -> tuple[str, ...]:
        found = (path_of(setup, needed) for needed in self._needed)
        return tuple(dict.fromkeys(path for path in found if path))

    def findings(self, text: str, question: AskedFor | None = None) -> tuple[Finding, ...]:
        """Say which figures are missing, if any is.

        Parameters
        ----------
        text : str
            What is not known for want of them.
        question : AskedFor, optional
            The question that cannot be answered: all that it needs is then named, and not
            only what was missed first.

        Returns
        -------
        tuple of Finding
        """
        if not self._needed:
            return ()
        further = () if question is None else unknown_and_needed(self.setup, question)
        own = tuple(dict.fromkeys((*self.paths, *further)))
        now = () if self.paths or self.present is None else self._paths_in(self.present)
        return (
            *missing_findings(self.setup, own, text),
            *missing_findings(self.present or self.setup, now, f"{text}, of the parts fitted now"),
        )


def _all_of(check: Callable[[], Iterable[Finding]]) -> tuple[Finding, ...]:
    return tuple(check())


def missing_findings(
    setup: attrs.AttrsInstance, paths: Sequence[str], text: str
) -> tuple[Finding, ...]:
    """Say which figures are missing, if any is.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    paths : sequence of str
        Fields of the setup that lead to them.
    text : str
        What is not known for want of them.

    Returns
    -------
    tuple of Finding
    """
    if not paths:
        return ()
    names = ", ".join(figure_in_words(setup, path) for path in paths)
    hint = usual_ranges(setup, paths)
    return (Finding(topic=Topic.NEEDED, text=f"{text}: {names}{hint and f'; {hint}'}"),)


def usual_ranges(setup: attrs.AttrsInstance, paths: Sequence[str]) -> str:
    """Say for which of some missing figures a usual range may be assumed.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    paths : sequence of str
        Fields of the setup that lead to them.

    Returns
    -------
    str
        Empty if for none.
    """
    filled = UsualFigures().put_into(setup)
    still = {path for path, _ in _unknowns(filled)}
    offered = [path for path in paths if path not in still]
    if not offered:
        return ""
    named = ", ".join(figure_in_words(setup, path) for path in offered)
    what = f"for {named} a usual range" if len(offered) < len(paths) else "a usual range of each"
    if len(paths) == 1:
        what = "its usual range"
    return f'{what} may be enough: assume = "usual"'


def figure_in_words(setup: attrs.AttrsInstance, path: str) -> str:
    """Name a figure of a setup for a reader.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    path : str
        Fields that lead to it, such as ``anchor.socket.key_angle``.

    Returns
    -------
    str
    """
    first, *rest = path.split(".")
    holder = first
    if isinstance(setup, Setup) and first == "anchor":
        holder = _anchor_in_words(setup)
    steps = [step for step in rest if step != "mounting"]
    # An axle has its figures on the vehicle: nobody looks for an axle's suspension.
    named = steps if first == "axle" else [holder, *steps]
    return " ".join(named).replace("_", " ")


def _anchor_in_words(setup: Setup) -> str:
    anchor = setup.anchor
    if isinstance(anchor, KeyLever):
        return "key lever"
    return "fixed" if isinstance(anchor, FixedSocket) else "tube"


def path_of(setup: attrs.AttrsInstance, needed: object) -> str:
    """Find where in a setup an unknown figure stands.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    needed : object
        The unknown itself.

    Returns
    -------
    str
        Fields that lead to it; empty where it stands elsewhere.
    """
    return next((path for path, found in _unknowns(setup) if found is needed), "")


def unknown_paths(setup: Setup) -> tuple[str, ...]:
    """List the unknown figures of a setup, those of its chassis' other parts left out.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    tuple of str
        Fields that lead to them.
    """
    return tuple(path for path, _ in _unknowns(setup))


def _unknowns(holder: Any, path: str = "") -> Iterator[tuple[str, object]]:  # noqa: ANN401 - any record
    """Walk a record for its unknown figures."""
    if isinstance(holder, tuple):
        for number, item in enumerate(holder):
            yield from _unknowns(item, f"{path}{number}.")
    if not attrs.has(type(holder)):
        return
    for field in attrs.fields(type(holder)):
        value = getattr(holder, field.name)
        if is_unknown(value):
            yield f"{path}{field.name}", value
        elif field.name not in _OTHERS:
            yield from _unknowns(value, f"{path}{field.name}.")

"""A rule for packs, and its remarks."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

import attrs

from barwright.errors import NeedsError
from barwright.lint.finding import Severity
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject

__all__ = ["Remark", "Rule", "said_where_known"]

R = TypeVar("R")
T = TypeVar("T")


@attrs.frozen
class Remark:
    """A fault that a rule finds.

    Parameters
    ----------
    place : PackPlace
        Where.
    message : str
        What was found.
    remedy : str
        What to do about it, if it is not what the rule always tells.
    """

    place: PackPlace
    message: str
    remedy: str = ""


@attrs.frozen(kw_only=True)
class Rule:
    """A rule for packs.

    Parameters
    ----------
    name : str
        By which a waiver names it.
    code : str
        Stable code, never used again for another rule.
    severity : Severity
        What its findings are.
    wants : str
        What it wants, in a sentence without a full stop.
    tip : str
        What to do about its findings.
    remarks : callable
        Looks at a pack and yields what it stumbles over.
    needs_whole : bool
        Whether it says nothing while some of the pack cannot be loaded.
    """

    name: str
    code: str
    severity: Severity = Severity.ERROR
    wants: str
    tip: str
    remarks: Callable[[Subject], Iterator[Remark]]
    needs_whole: bool = False


def said_where_known(things: Iterable[T], said_of: Callable[[T], Iterable[R]]) -> Iterator[R]:
    """Say what there is to say of each thing, and nothing of one whose figures are not known.

    Parameters
    ----------
    things : iterable
        What a rule looks at.
    said_of : callable
        From one of them to what is to be said of it.

    Yields
    ------
    object
        Whatever is said.
    """
    for thing in things:
        with contextlib.suppress(NeedsError):
            yield from tuple(said_of(thing))

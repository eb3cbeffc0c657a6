"""Usual figures that stand in for unknown ones: an answer names them."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from typing import Any, TypeVar, cast

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import figure_in_words
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.analysis.finding import Finding, Topic
from barwright.parts.common.facts import fact_fields
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Record
from barwright.parts.setup import Setup
from barwright.registry.measuring.catalogue import AskedFor, needed_paths
from barwright.registry.usual.catalogue import is_usual

__all__ = ["assumed_paths", "names_assumed"]

Q = TypeVar("Q", bound=Callable[..., Any])

# Records that a setup holds only to say where it comes from.
_OTHERS = ("chassis", "left", "right", "about")


def names_assumed(question: AskedFor | None = None) -> Callable[[Q], Q]:
    """Decorate a public question, so that its answers name the usual figures of the corner.

    Parameters
    ----------
    question : AskedFor, optional
        If given, only figures are named that this question needs.

    Returns
    -------
    callable
        A decorator.
    """

    def decorated(ask: Q) -> Q:
        @functools.wraps(ask)
        def asking(setup: Setup, *given: Any, **named: Any) -> Any:  # noqa: ANN401 - any answer
            answer = ask(setup, *given, **named)
            found = _findings(setup, question)
            return attrs.evolve(answer, findings=(*answer.findings, *found)) if found else answer

        return cast("Q", asking)

    return decorated


def _findings(setup: Setup, question: AskedFor | None) -> tuple[Finding, ...]:
    # The values are left out: what only repeats a figure must not look as if it moved with it.
    paths = _paths(corner_of(setup))
    if paths and question is not None:
        needed = needed_paths(setup, question)
        paths = tuple(path for path in paths if path in needed)
    if not paths:
        return ()
    names = ", ".join(figure_in_words(setup, path) for path in paths)
    return (Finding(topic=Topic.ASSUMED, text=f"usual ranges are assumed for {names}"),)


@once_a_corner(of_either_side)
def _paths(corner: Corner) -> tuple[str, ...]:
    return assumed_paths(corner.setup)


def assumed_paths(setup: Setup) -> tuple[str, ...]:
    """List the figures of a setup for which usual ranges stand in.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    tuple of str
        Fields that lead to them.
    """
    return tuple(_assumed(setup, ""))


def _assumed(holder: Any, path: str) -> Iterator[str]:  # noqa: ANN401 - any record
    for name, figure in holder.about.items():
        if is_usual(figure.source):
            yield f"{path}{name}"
    cls: type[attrs.AttrsInstance] = type(holder)
    for name in _inner_fields(cls):
        inner = getattr(holder, name)
        if isinstance(inner, Record):
            yield from _assumed(inner, f"{path}{name}.")


@functools.cache
def _inner_fields(cls: type[attrs.AttrsInstance]) -> tuple[str, ...]:
    """Fields of a class of records that may hold another record."""
    others = {*_OTHERS, *figure_fields(cls), *fact_fields(cls)}
    return tuple(field.name for field in attrs.fields(cls) if field.name not in others)

"""Questions that are put once, for tests of the forms in which the answers are written."""

from __future__ import annotations

import functools
import importlib
import io
import pickle
from collections.abc import Callable
from typing import Any

import attrs
import pytest

import barwright as bw

__all__ = ["asked_once"]

Question = Callable[..., Any]


def asked_once(patch: pytest.MonkeyPatch, module: str, *questions: str) -> None:
    """Let a module put each question once for the same arguments, whichever test asks.

    How far it is, is not shown.

    Parameters
    ----------
    patch : pytest.MonkeyPatch
        Undoes it.
    module : str
        Module that asks.
    questions : str
        Names there of functions whose answers nobody can change.
    """
    asking = importlib.import_module(module)
    for question in questions:
        patch.setattr(asking, question, _answering(getattr(asking, question)))


@functools.cache
def _answering(question: Question) -> Question:
    kept: dict[bytes, Any] = {}

    @functools.wraps(question)
    def answer(*given: Any, progress: object = None, **named: Any) -> Any:
        del progress
        try:
            asked = _bytes_of((given, sorted(named.items())))
        except (pickle.PicklingError, AttributeError, TypeError):  # of a function without a name
            return question(*given, **named)
        if asked not in kept:
            kept[asked] = question(*given, **named)
        return kept[asked]

    return answer


# A registry is the same one if it is the same object, which lives as long as what was asked of it.
_REGISTRIES: dict[int, bw.Registry] = {}


class _Told(pickle.Pickler):
    """Arguments to the last digit, unit and source: equal records may differ in all of these.

    What a record has computed of itself, and which of them share a part, is left out.
    """

    fast = True

    def reducer_override(self, given: Any) -> Any:
        if isinstance(given, bw.parts.About):
            return dict, (tuple(given.items()),)
        if not attrs.has(type(given)):
            return NotImplemented
        fields = attrs.fields(type(given))
        return type(given), tuple(getattr(given, field.name) for field in fields)

    def persistent_id(self, given: Any) -> int | None:
        if not isinstance(given, bw.Registry):
            return None
        _REGISTRIES[id(given)] = given
        return id(given)


def _bytes_of(given: object) -> bytes:
    told = io.BytesIO()
    _Told(told).dump(given)
    return told.getvalue()

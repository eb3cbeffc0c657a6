"""Questions that are put once, for tests of the forms in which commands write the answers."""

from __future__ import annotations

import functools
import importlib
from collections.abc import Callable
from typing import Any

import pytest

__all__ = ["asked_once"]


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
        Names there of functions whose arguments have hashes.
    """
    asking = importlib.import_module(module)
    for question in questions:
        patch.setattr(asking, question, _answering(getattr(asking, question)))


@functools.cache
def _answering(question: Callable[..., Any]) -> Callable[..., Any]:
    kept = functools.cache(question)

    def answer(*given: Any, progress: object = None, **named: Any) -> Any:
        del progress
        return kept(*given, **named)

    return answer

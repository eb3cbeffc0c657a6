"""Cases of a test that only ``.ci/run`` and the mutants try, beside those that every run does."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest

__all__ = ["rarely_after"]


def rarely_after(first: int, cases: Iterable[Any]) -> list[Any]:
    """Cases for ``parametrize``, all but the first ones marked ``rare``.

    Parameters
    ----------
    first : int
        How many cases every run tries, at least one.
    cases : iterable
        Values of one argument, or tuples of values.

    Returns
    -------
    list
    """
    assert first > 0
    return [_rare(case) if number >= first else case for number, case in enumerate(cases)]


def _rare(case: Any) -> Any:
    marked = isinstance(case, type(pytest.param()))
    values = case.values if marked else case if isinstance(case, tuple) else (case,)
    name, marks = (case.id, case.marks) if marked else (None, ())
    return pytest.param(*values, id=name, marks=[*marks, pytest.mark.rare])

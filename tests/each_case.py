"""Hundreds of small cases in one test, each named if it fails: pytest takes long over a test."""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any, TypeAlias

import pytest

__all__ = ["each_case"]

Test: TypeAlias = Callable[..., None]


def each_case(
    names: str, cases: Iterable[Any], *, called: Callable[[Any], str] = ascii
) -> Callable[[Test], Test]:
    """Run a test's body with each case in turn, and fail with all cases that fail.

    Parameters
    ----------
    names : str
        Argument that is the case; several, parted by commas, take its items.
    cases : iterable
        The cases, at least one.
    called : callable
        What a case is called where it fails.

    Returns
    -------
    callable
        Decorator of a test.  Its ``tmp_path`` is a new folder in each case, and what it
        changes by ``monkeypatch`` is undone after each.
    """
    given, listed = names.replace(" ", "").split(","), list(cases)
    assert listed

    def decorate(test: Test) -> Test:
        @functools.wraps(test)
        def in_each(**fixtures: Any) -> None:
            failed = [
                failure
                for number, case in enumerate(listed)
                for failure in _failures(test, case, given, _own(fixtures, number), called)
            ]
            if failed:
                raise ExceptionGroup(f"{len(failed)} of {len(listed)} cases", failed)

        taken = inspect.signature(test).parameters
        left = [parameter for name, parameter in taken.items() if name not in given]
        in_each.__signature__ = inspect.Signature(left)  # type: ignore[attr-defined]
        return in_each

    return decorate


def _failures(
    test: Test, case: Any, given: list[str], fixtures: dict[str, Any], called: Callable[[Any], str]
) -> Iterator[Exception]:
    values = (case,) if len(given) == 1 else case
    with ExitStack() as stack:
        if patch := fixtures.get("monkeypatch"):
            fixtures["monkeypatch"] = stack.enter_context(patch.context())
        try:
            test(**fixtures, **dict(zip(given, values, strict=True)))
        except (Exception, pytest.fail.Exception) as failure:  # noqa: BLE001 - all cases are told
            failure.add_note(f"in the case {called(case)}")
            yield failure if isinstance(failure, Exception) else AssertionError(str(failure))


def _own(fixtures: dict[str, Any], number: int) -> dict[str, Any]:
    """Fixtures of one case."""
    if "tmp_path" not in fixtures:
        return dict(fixtures)
    folder: Path = fixtures["tmp_path"] / str(number)
    folder.mkdir()
    return fixtures | {"tmp_path": folder}

"""Which versions of barwright a pack asks for.

A requirement is one comparison or several with commas between, like ``">=0.4, <2"``: each is
``>=``, ``>``, ``<=``, ``<``, ``==`` or ``!=`` before numbers with points between.  A missing number
counts as 0.  What a version of barwright has behind its numbers, such as ``rc1``, does not count.
"""

from __future__ import annotations

import functools
import operator
import re
from collections.abc import Callable, Mapping
from importlib import metadata
from itertools import zip_longest

from barwright.errors import SchemaError
from barwright.registry.files.snapshot import HEADER

__all__ = ["REQUIREMENT", "check_requirement", "is_met", "own_version"]

_VERSION = r"(?:0|[1-9][0-9]{0,4})(?:\.(?:0|[1-9][0-9]{0,4})){0,3}"
_CLAUSE = rf"(?:>=|<=|==|!=|>|<) ?{_VERSION}"

REQUIREMENT = rf"{_CLAUSE}(?: ?, ?{_CLAUSE}){{0,7}}"
"""Pattern of a requirement."""

_KEY = "requires_barwright"
_COMPARISONS: Mapping[str, Callable[[int, int], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    "==": operator.eq,
    "!=": operator.ne,
    ">": operator.gt,
    "<": operator.lt,
}


@functools.cache
def own_version() -> str:
    """Return the version of barwright that runs."""
    return metadata.version("barwright")


def is_met(requirement: str, version: str) -> bool:
    """Tell whether a version meets a requirement.

    Parameters
    ----------
    requirement : str
        Spelled as :data:`REQUIREMENT` says.
    version : str
        Of barwright.

    Returns
    -------
    bool

    Examples
    --------
    >>> is_met(">=0.4, <2", "0.10.1"), is_met(">=0.4", "0.3")
    (True, False)
    """
    clauses = re.findall(r"([><=!]+) ?([0-9.]+)", requirement)
    return all(_COMPARISONS[sign](_order(version, wanted), 0) for sign, wanted in clauses)


def _order(one: str, other: str) -> int:
    """Return a number above zero if a version is later than another, below if it is earlier."""
    pairs = list(zip_longest(_numbers(one), _numbers(other), fillvalue=0))
    first, second = zip(*pairs, strict=True)
    return (first > second) - (first < second)


def _numbers(version: str) -> list[int]:
    release = re.match(r"[0-9]+(?:\.[0-9]+)*", version)
    return [int(number) for number in release[0].split(".")] if release else [0]


def check_requirement(table: Mapping[str, object]) -> None:
    """Refuse a pack that asks for another version of barwright, before anything else of it.

    Parameters
    ----------
    table : mapping
        Its ``pack.toml``, as parsed; a value of another type is refused elsewhere.

    Raises
    ------
    SchemaError
        S204 for what is no requirement, P402 for one that is not met.
    """
    wanted = table.get(_KEY)
    if not isinstance(wanted, str):
        return
    if not re.fullmatch(REQUIREMENT, wanted):
        raise SchemaError(
            "S204",
            value=wanted,
            expected="comparisons with versions of numbers and points: >=, >, <=, <, == or !=",
            remedy="write it like '>=0.4' or '>=0.4, <2'",
            key=_KEY,
            file=HEADER,
        )
    if not is_met(wanted, own_version()):
        raise SchemaError(
            "P402",
            value=f"barwright {own_version()}",
            expected=f"a barwright of version {wanted}, as the pack requires",
            remedy="install such a version, or a version of the pack for this one",
            key=_KEY,
            file=HEADER,
        )

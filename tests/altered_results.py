"""What a computation gives, changed a little or refused, for tests of the tests."""

from __future__ import annotations

import collections
import enum
import functools
import inspect
import sys
from collections.abc import Callable, Mapping
from typing import Any

import attrs
import numpy as np
import pytest

__all__ = ["altered", "change"]

# Modules in which a name for a function of the library may stand.
_OURS = (
    "barwright",
    "outside",
    "linkages",
    "teeth",
    "inclined_arm",
    "validation",
    "sample_records",
)


def altered(found: Any, by: float) -> Any:
    """Change numbers by a share, counts by two, and what is so or not so; shorten lists."""
    if isinstance(found, (bool, np.bool_)):
        return not found
    if isinstance(found, enum.Enum):
        members = list(type(found))
        return members[(members.index(found) + 1) % len(members)]
    if isinstance(found, int):
        return found + (2 if by > 0.0 else -2)
    if isinstance(found, (float, complex, np.floating)) or hasattr(found, "magnitude"):
        return found * (1.0 + by)
    return _nudged_whole(found, by)


def _nudged_whole(found: Any, by: float) -> Any:
    """Change every part of what has parts."""
    if isinstance(found, np.ndarray):
        return np.logical_not(found) if found.dtype == bool else found * (1.0 + by)
    if isinstance(found, list):
        return [altered(part, by) for part in found[:-1]]
    if hasattr(found, "_replace"):
        return type(found)(*(altered(part, by) for part in found))
    if isinstance(found, (tuple, frozenset)):
        return type(found)(altered(part, by) for part in found)
    if attrs.has(type(found)):
        changes = {
            field.alias: altered(getattr(found, field.name), by)
            for field in attrs.fields(type(found))
            if field.init
        }
        # What computes its fields when they are asked for is altered as what has them.
        plain = next(cls for cls in type(found).__mro__ if "__attrs_attrs__" in vars(cls))
        return plain(**changes)
    return found


def change(patch: pytest.MonkeyPatch, owner: Any, name: str, changed: Callable[[Any], Any]) -> None:
    """Let a function of a module, or what a class computes, give something else."""
    if inspect.isclass(owner):
        member = inspect.getattr_static(owner, name)
        patch.setattr(owner, name, _changed_member(member, changed))
        return

    found = getattr(owner, name)
    new = _after(found, changed)
    places = [at for at in _places(len(sys.modules))[id(found)] if getattr(*at) is found]
    assert (owner, name) in places
    for module, own in places:
        patch.setattr(module, own, new)


@functools.cache
def _places(_: int) -> Mapping[int, list[tuple[Any, str]]]:
    """Modules and names, by the id of what they name, while so many modules are loaded."""
    places = collections.defaultdict(list)
    for path, module in sys.modules.items():
        if path.partition(".")[0] in _OURS:
            for name, value in vars(module).items():
                places[id(value)].append((module, name))
    return places


def _changed_member(found: Any, changed: Callable[[Any], Any]) -> Any:
    if isinstance(found, property):
        assert found.fget is not None
        return property(_after(found.fget, changed))
    if isinstance(found, functools.cached_property):
        return property(_after(found.func, changed))
    if isinstance(found, classmethod):
        return classmethod(_after(found.__func__, changed))
    return _after(found, changed)


def _after(function: Callable[..., Any], changed: Callable[[Any], Any]) -> Callable[..., Any]:
    @functools.wraps(function)
    def new(*given: Any, **named: Any) -> Any:
        return changed(function(*given, **named))

    return new

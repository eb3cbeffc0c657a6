"""Make things once on first use, under threads and forks.

A process that forks while another of its threads holds a lock leaves it held in the child
for ever, since that thread is not in the child.
"""

from __future__ import annotations

import functools
import importlib
import os
import sys
import threading
from collections.abc import Callable, Mapping
from typing import Any, TypeVar, overload

__all__ = ["FIRST_USE", "cached_property", "name_loader"]

T = TypeVar("T")

FIRST_USE = threading.RLock()
"""Held while something that all threads share is made; nobody makes any during a fork.

One lock for all such things: with two, a fork could wait for one while the thread that has
it waits for the other.
"""

_at_fork = getattr(os, "register_at_fork", dict)  # where no process forks, nothing is called
_at_fork(
    before=FIRST_USE.acquire,
    after_in_parent=FIRST_USE.release,
    after_in_child=FIRST_USE.release,
)


def name_loader(module: str, home_of: Mapping[str, str]) -> Callable[[str], object]:
    """Make the ``__getattr__`` of a module whose names are loaded on first use.

    Parameters
    ----------
    module : str
        Name of the module.
    home_of : mapping of str to str
        Module of each name, counted from this package.

    Returns
    -------
    callable
    """

    def load(name: str) -> object:
        if name not in home_of:
            message = f"module {module!r} has no attribute {name!r}"
            raise AttributeError(message)
        # A child of a fork would wait for ever for a module that another thread was importing.
        with FIRST_USE:
            home = importlib.import_module(f"{__package__}.{home_of[name]}")
            value: object = getattr(home, name)
        setattr(sys.modules[module], name, value)
        return value

    return load


class cached_property(functools.cached_property[T]):  # noqa: N801 - spelled like its base
    """A property that is computed once for each object, without a lock.

    That of Python 3.11 holds one for all objects of a class.  Threads that come at once
    may each compute the value; it is the same.
    """

    @overload
    def __get__(self, instance: None, owner: type[Any] | None = None) -> cached_property[T]: ...
    @overload
    def __get__(self, instance: object, owner: type[Any] | None = None) -> T: ...
    def __get__(
        self, instance: object | None, owner: type[Any] | None = None
    ) -> cached_property[T] | T:
        """Return what is kept in the object; compute it if nothing is."""
        if instance is None:
            return self
        value: T = vars(instance).setdefault(self.func.__name__, self.func(instance))
        return value

"""What is made on first use, by whatever thread comes first, in processes that may fork.

A process that forks while another of its threads holds a lock leaves it held in the child
for ever, since that thread is not in the child.
"""

from __future__ import annotations

import functools
import os
import threading
from typing import Any, TypeVar, overload

__all__ = ["FIRST_USE", "cached_property"]

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

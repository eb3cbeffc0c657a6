"""Properties that are computed once for each object."""

from __future__ import annotations

import functools
from typing import Any, TypeVar, overload

__all__ = ["cached_property"]

T = TypeVar("T")


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

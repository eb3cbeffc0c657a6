"""Make things once on first use, under threads and forks.

A process that forks while another of its threads holds a lock leaves it held in the child
for ever, since that thread is not in the child.
"""

from __future__ import annotations

import _thread  # threading itself, like typing, would take longer than all else here
import os
import sys

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from types import ModuleType

__all__ = ["FIRST_USE", "imported", "name_loader"]

FIRST_USE = _thread.RLock()
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


def imported(module: str) -> ModuleType:
    """Import a module of this package on its first use.

    Parameters
    ----------
    module : str
        Its name, counted from the package.

    Returns
    -------
    module
    """
    # A child of a fork would wait for ever for a module that another thread was importing.
    with FIRST_USE:
        import importlib  # noqa: PLC0415 - as threading

        return importlib.import_module(f"{__package__}.{module}")


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
        value: object = getattr(imported(home_of[name]), name)
        setattr(sys.modules[module], name, value)
        return value

    return load

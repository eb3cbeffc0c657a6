"""Pint without what it loads to meet other libraries: no command has their numbers."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Iterator

__all__ = ["pint_alone"]

# Loaded by pint where they are installed; together they take as long as pint itself.
_OTHERS = ("babel", "dask", "scipy", "uncertainties")


@contextlib.contextmanager
def pint_alone() -> Iterator[None]:
    """Have pint loaded without other libraries, for a program that has no other use for it.

    They can be imported afterwards like any other.
    """
    hidden = () if "pint" in sys.modules else [n for n in _OTHERS if n not in sys.modules]
    # What stands there as None is not found by an import.
    sys.modules.update(dict.fromkeys(hidden))  # type: ignore[arg-type] # as Python documents it
    try:
        yield
    finally:
        for name in hidden:
            del sys.modules[name]

"""Registries of units that are not the library's own: those of a host.

What pint reads for the first of them is kept for the others: it takes nine tenths of the time.
"""

from __future__ import annotations

import atexit
import shutil
import tempfile
from typing import Any

import pint

__all__ = ["OTHER", "made_anew"]

_READ = tempfile.mkdtemp(prefix="barwright-units-")
atexit.register(shutil.rmtree, _READ, ignore_errors=True)


def made_anew(**how: Any) -> pint.UnitRegistry[Any]:
    """A registry with the usual units that nobody else has."""
    return pint.UnitRegistry(cache_folder=_READ, **how)


OTHER = made_anew()
"""One for all tests."""

"""A registry of units that is not the library's own: the one of a host, made once for all tests."""

from __future__ import annotations

from typing import Any

import pint

__all__ = ["OTHER"]

OTHER: pint.UnitRegistry[Any] = pint.UnitRegistry()

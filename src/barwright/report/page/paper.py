"""The size of the paper that a page is printed on."""

from __future__ import annotations

from typing import Literal, TypeAlias

__all__ = ["Paper"]

Paper: TypeAlias = Literal["a4", "letter"]

"""The version, where it can be read without the metadata of the installation."""

from __future__ import annotations

__all__ = ["VERSION"]

VERSION = "0.1.0"
"""That of this library: its distribution takes it from here."""

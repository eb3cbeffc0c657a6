"""Puts a mutant in place of a module, for a process of its own."""

from __future__ import annotations

import importlib.abc
import importlib.machinery
import importlib.util
import sys
from collections.abc import Sequence
from pathlib import Path
from types import CodeType, ModuleType

__all__ = ["plant"]


class _Planted(importlib.machinery.SourceFileLoader):
    """Loads a module from another file than the one that it is said to be."""

    def __init__(self, name: str, path: str, source: Path) -> None:
        super().__init__(name, path)
        self._source = source

    def get_code(self, fullname: str) -> CodeType:  # noqa: ARG002 - as the base class has it
        """Compile the mutant, past any cache."""
        return compile(self._source.read_bytes(), self.path, "exec")


class _Finder(importlib.abc.MetaPathFinder):
    """Finds the one module that a mutant stands in for."""

    def __init__(self, file: Path, source: Path) -> None:
        self._file = str(file)
        self._source = source

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        """Find a module; none but the mutant's is found here."""
        spec = importlib.machinery.PathFinder.find_spec(name, path, target)
        if spec is None or spec.origin != self._file:
            return None
        return importlib.util.spec_from_file_location(
            name,
            spec.origin,
            loader=_Planted(name, spec.origin, self._source),
            submodule_search_locations=spec.submodule_search_locations,
        )


def plant(file: Path, source: Path) -> None:
    """Let a module be loaded from other source, if none of the library is loaded yet."""
    assert "barwright" not in sys.modules
    sys.meta_path.insert(0, _Finder(file, source))

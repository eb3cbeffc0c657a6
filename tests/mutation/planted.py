"""A pytest plugin that puts a mutant in place of a module, for a run of its own."""

from __future__ import annotations

import importlib.abc
import importlib.machinery
import importlib.util
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from types import CodeType, ModuleType

__all__ = ["FILE", "SOURCE"]

FILE, SOURCE = "MUTANT_FILE", "MUTANT_SOURCE"
"""Variables of the environment: the module's file, and the file with the mutant's source."""


class _Planted(importlib.machinery.SourceFileLoader):
    """Loads a module from another file than the one that it is said to be."""

    def get_code(self, fullname: str) -> CodeType:  # noqa: ARG002 - as the base class has it
        """Compile the mutant, past any cache."""
        return compile(Path(os.environ[SOURCE]).read_bytes(), self.path, "exec")


class _Finder(importlib.abc.MetaPathFinder):
    """Finds the one module that a mutant stands in for."""

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        """Find a module; none but the mutant's is found here."""
        spec = importlib.machinery.PathFinder.find_spec(name, path, target)
        if spec is None or spec.origin != os.environ[FILE]:
            return None
        return importlib.util.spec_from_file_location(
            name,
            spec.origin,
            loader=_Planted(name, spec.origin),
            submodule_search_locations=spec.submodule_search_locations,
        )


if FILE in os.environ:
    sys.meta_path.insert(0, _Finder())

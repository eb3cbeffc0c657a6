"""Finding installed packs by entry point, without importing any of them."""

from __future__ import annotations

import importlib.util
from collections.abc import Iterator
from pathlib import Path

import attrs
import importlib_metadata

from barwright.errors import FileError, PackError

__all__ = ["GROUP", "Found", "installed_packs"]

GROUP = "barwright.packs"
"""Entry-point group in which a distribution names its data package."""


@attrs.frozen
class Found:
    """Where a pack lies, or why its folder cannot be found.

    Parameters
    ----------
    origin : str
        Distribution and version.
    folder : Path or None
        The pack's folder.
    problem : PackError or None
        Why there is none.
    """

    origin: str
    folder: Path | None = None
    problem: PackError | None = None


def installed_packs() -> list[Found]:
    """List the packs of this environment, in an order that installation does not change.

    Returns
    -------
    list of Found
    """
    points = importlib_metadata.entry_points(group=GROUP)
    found = {_locate(point) for point in points}
    return sorted(found, key=lambda pack: (pack.origin, str(pack.folder)))


def _locate(point: importlib_metadata.EntryPoint) -> Found:
    distribution = point.dist
    origin = f"{distribution.name} {distribution.version}" if distribution else point.name
    for folder in _folders(point.value):
        if (folder / "pack.toml").is_file():
            return Found(origin, folder=folder)
    problem = FileError(
        "P201",
        value=f"{point.name} = {point.value!r}",
        expected="a top-level package with a pack.toml in it",
        remedy="reinstall the distribution, or correct its entry point",
        file=origin,
    )
    return Found(origin, problem=PackError("P101", problems=(problem,), file=origin))


def _folders(package: str) -> Iterator[Path]:
    """Folders of a top-level package by its import spec, which runs no code of it."""
    # The spec of a dotted name would import its parent.
    if not package.isidentifier():
        return
    try:
        spec = importlib.util.find_spec(package)
    except (ImportError, ValueError):
        return
    if spec is not None:
        yield from map(Path, spec.submodule_search_locations or ())

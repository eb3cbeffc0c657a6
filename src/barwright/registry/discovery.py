"""Finding installed packs by entry point, without importing any of them."""

from __future__ import annotations

import importlib.util
from collections.abc import Iterator
from pathlib import Path
from typing import Any

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
    found: dict[str, list[Found]] = {}
    for distribution in importlib_metadata.distributions():
        name, declared = _declared(distribution)
        # Of one that lies on the path twice, the first is the one that counts.
        found.setdefault(name, declared)
    packs = {pack for declared in found.values() for pack in declared}
    return sorted(packs, key=lambda pack: (pack.origin, str(pack.folder)))


def _declared(distribution: Any) -> tuple[str, list[Found]]:  # noqa: ANN401 - two types by turns
    """Name of a distribution and the packs that it declares."""
    try:
        points = distribution.entry_points.select(group=GROUP)
        if not points:
            return "", []
        origin = f"{distribution.name} {distribution.version}"
        return distribution.name, [_locate(point, origin) for point in points]
    except Exception:  # noqa: BLE001 - whatever is wrong with the metadata of a stranger
        text = distribution.read_text("entry_points.txt") or ""
        lost = _lost("entry_points.txt", origin=f"a distribution that names {GROUP}")
        return text, [lost] if GROUP in text else []


def _locate(point: importlib_metadata.EntryPoint, origin: str) -> Found:
    for folder in _folders(point.value):
        if (folder / "pack.toml").is_file():
            return Found(origin, folder=folder)
    return _lost(f"{point.name} = {point.value!r}", origin=origin)


def _lost(value: str, *, origin: str) -> Found:
    problem = FileError(
        "P201",
        value=value,
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

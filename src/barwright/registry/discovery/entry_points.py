"""Finding installed packs by entry point, without importing any of them."""

from __future__ import annotations

import importlib.util
import re
from collections.abc import Iterator
from pathlib import Path

import attrs

from barwright.errors import FileError, PackError
from barwright.registry.discovery.distributions import GROUP, PackDistribution, declared
from barwright.registry.files.find_files import is_file
from barwright.registry.files.snapshot import HEADER

__all__ = ["GROUP", "LocatedPack", "installed_packs"]


@attrs.frozen
class LocatedPack:
    """Where a pack lies, or why its folder cannot be found.

    Parameters
    ----------
    origin : str
        Distribution and version.
    folder : Path or None
        The pack's folder.
    problem : PackError or None
        Why there is none.
    version : str
        Of the distribution.
    """

    origin: str
    folder: Path | None = None
    problem: PackError | None = None
    version: str = ""


def installed_packs(*, cache: bool = True) -> list[LocatedPack]:
    """List the packs of this environment, in an order that installation does not change.

    Parameters
    ----------
    cache : bool
        Whether the distributions' metadata may be kept, and used while it is true.

    Returns
    -------
    list of Found
    """
    found: dict[str, list[LocatedPack]] = {}
    for distribution in declared(cache=cache):
        # Of one that lies on the path twice, the first is the one that counts.
        found.setdefault(_plain(distribution.name), list(_packs(distribution)))
    packs = {pack for places in found.values() for pack in places}
    return sorted(packs, key=lambda pack: (pack.origin, str(pack.folder), str(pack.problem)))


def _plain(name: str) -> str:
    """Return a distribution's name as it is compared: spelled in other ways it is the same."""
    return re.sub(r"[-_.]+", "-", name).lower()


def _packs(distribution: PackDistribution) -> Iterator[LocatedPack]:
    if distribution.flaw:
        yield _lost(distribution.flaw, origin=distribution.name)
    for name, package in distribution.points:
        yield _locate(name, package, distribution)


def _locate(name: str, package: str, distribution: PackDistribution) -> LocatedPack:
    origin = f"{distribution.name} {distribution.version}"
    for folder in _folders(package):
        if is_file(folder / HEADER):
            return LocatedPack(origin, folder=folder, version=distribution.version)
    return _lost(f"{name} = {package!r}", origin=origin)


def _lost(value: str, *, origin: str) -> LocatedPack:
    problem = FileError(
        "P201",
        value=value,
        expected="a top-level package with a pack.toml in it",
        remedy="reinstall the distribution, or correct its entry point",
        file=origin,
    )
    return LocatedPack(origin, problem=PackError("P101", problems=(problem,), file=origin))


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

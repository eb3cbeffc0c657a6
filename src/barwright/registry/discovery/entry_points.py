"""Finding installed packs by entry point, without importing any of them."""

from __future__ import annotations

import importlib.util
import re
from collections.abc import Iterator, Sequence
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
    hidden_versions : tuple of str
        Other versions of the distribution that are installed too and do not count.
    """

    origin: str
    folder: Path | None = None
    problem: PackError | None = None
    version: str = ""
    hidden_versions: tuple[str, ...] = ()


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
    found: dict[str, list[PackDistribution]] = {}
    for distribution in declared(cache=cache):
        found.setdefault(_plain(distribution.name), []).append(distribution)
    packs = {pack for same in found.values() for pack in _counting(same)}
    return sorted(packs, key=lambda pack: (pack.origin, str(pack.folder), str(pack.problem)))


def _counting(same: Sequence[PackDistribution]) -> Iterator[LocatedPack]:
    """List the packs of a distribution that may lie on the path more than once.

    The first is the one that counts, as it is for whoever imports it.
    """
    first = same[0]
    hidden = tuple(sorted({one.version for one in same} - {first.version}))
    for pack in _packs(first):
        yield attrs.evolve(pack, hidden_versions=hidden)


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
    folders = list(_folders(package))
    for folder in folders:
        if is_file(folder / HEADER):
            return LocatedPack(origin, folder=folder, version=distribution.version)
    archive = next(filter(None, map(_archive, folders)), None)
    if archive is not None:
        return _zipped(archive, origin=origin)
    return _lost(f"{name} = {package!r}", origin=origin)


def _archive(folder: Path) -> Path | None:
    """Return the file that a folder lies in, if it lies in one."""
    return next(filter(is_file, folder.parents), None)


def _zipped(archive: Path, *, origin: str) -> LocatedPack:
    problem = FileError(
        "P202",
        value=archive.name,
        expected="a pack that is installed as a folder: none is read out of an archive",
        remedy=f"install it with pip install {archive.name}, or unpack it and name its folder",
        file=origin,
    )
    return LocatedPack(origin, problem=PackError("P101", problems=(problem,), file=origin))


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

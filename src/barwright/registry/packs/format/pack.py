"""A data pack: what one distribution says about vehicles and parts."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import attrs

from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar
from barwright.parts.chassis import Chassis
from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.parts.common.source import Source
from barwright.parts.damper import Damper
from barwright.parts.material import Material
from barwright.parts.tube import Tube
from barwright.registry.packs.format.entry import Entry

__all__ = ["KINDS", "SCHEMA", "Pack", "PackHeader", "PackInfo"]

SCHEMA = 2
"""Present version of the pack format; older ones are migrated."""

KINDS: Mapping[str, type[Part]] = {
    "material": Material,
    "arm": Arm,
    "bar": Bar,
    "tube": Tube,
    "key-lever": KeyLever,
    "fixed-socket": FixedSocket,
    "adjuster": Adjuster,
    "damper": Damper,
    "chassis": Chassis,
}
"""Kinds of record by the name of their table; each may refer to those before it."""


@attrs.frozen(kw_only=True)
class PackHeader:
    """What ``pack.toml`` says of the pack itself.

    Parameters
    ----------
    schema : int
        Version of the pack format.
    id : str
        First part of every id in the pack.
    title : str
        What a person calls it.
    licence : str
        SPDX identifier of the data's licence.
    version : str
        Of the data, such as ``"1.2.0"``; the version of the installed distribution counts if
        left out.
    requires_barwright : str
        Versions of barwright that can read the pack, such as ``">=0.4"``.
    source : tuple of Source
        Where its figures come from.
    """

    schema: int
    id: str
    title: str
    licence: str
    version: str = ""
    requires_barwright: str = ""
    source: tuple[Source, ...]


@attrs.frozen(kw_only=True)
class PackInfo:
    """A pack without its records.

    Parameters
    ----------
    header : PackHeader
        What it says of itself.
    folder : Path
        Where it was read from.
    origin : str
        Distribution and version, or the folder given.
    distribution_version : str
        Of the distribution; empty for a folder.
    hidden_versions : tuple of str
        Other versions of the distribution that are installed too and do not count.
    digest : str
        SHA-256 over the names and contents of its files.
    counts : mapping of str to int
        How many records it has, by kind.
    """

    header: PackHeader
    folder: Path
    origin: str
    distribution_version: str = ""
    hidden_versions: tuple[str, ...] = ()
    digest: str = ""
    counts: Mapping[str, int] = attrs.field(factory=dict)

    @property
    def id(self) -> str:
        """The pack's id."""
        return self.header.id

    @property
    def version(self) -> str:
        """The pack's own version, or else its distribution's; empty if it has neither."""
        return self.header.version or self.distribution_version


@attrs.frozen(kw_only=True, eq=False)
class Pack:
    """A pack as loaded.

    Parameters
    ----------
    info : PackInfo
        All but its records.
    table : mapping
        ``pack.toml`` as it was read, without its waivers.
    parts : mapping of str to Part
        Every record by its full id.
    entries : mapping of str to Entry
        Each as it stands in its file, by the same id.
    claims : tuple of Claim
        What it says its parts fit, in the order of its files.
    """

    info: PackInfo
    table: Mapping[str, Any] = attrs.field(repr=False)
    parts: Mapping[str, Part]
    entries: Mapping[str, Entry]
    claims: tuple[Claim, ...] = ()

    @property
    def id(self) -> str:
        """The pack's id."""
        return self.info.id

    @property
    def header(self) -> PackHeader:
        """What it says of itself."""
        return self.info.header

    @property
    def folder(self) -> Path:
        """Where it was read from."""
        return self.info.folder

    @property
    def origin(self) -> str:
        """Distribution and version, or the folder given."""
        return self.info.origin

    @property
    def distribution_version(self) -> str:
        """Of the distribution; empty for a folder."""
        return self.info.distribution_version

    @property
    def version(self) -> str:
        """The pack's own version, or else its distribution's; empty if it has neither."""
        return self.info.version

    @property
    def digest(self) -> str:
        """SHA-256 over the names and contents of its files."""
        return self.info.digest

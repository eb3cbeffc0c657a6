"""A data pack: what one distribution says about vehicles and parts."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import attrs

from barwright.parts.adjuster import Adjuster
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar
from barwright.parts.chassis import Chassis
from barwright.parts.damper import Damper
from barwright.parts.material import Material
from barwright.parts.source import Part, Source
from barwright.parts.tube import Tube
from barwright.registry.entry import Entry

__all__ = ["KINDS", "SCHEMA", "Pack", "PackHeader"]

SCHEMA = 1
"""Version of the pack format that this library reads."""

KINDS: Mapping[str, type[Part]] = {
    "material": Material,
    "arm": Arm,
    "bar": Bar,
    "tube": Tube,
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
    source : tuple of Source
        Where its figures come from.
    """

    schema: int
    id: str
    title: str
    licence: str
    source: tuple[Source, ...]


@attrs.frozen(kw_only=True, eq=False)
class Pack:
    """A pack as loaded.

    Parameters
    ----------
    header : PackHeader
        What it says of itself.
    folder : Path
        Where it was read from.
    origin : str
        Distribution and version, or the folder given.
    parts : mapping of str to Part
        Every record by its full id.
    entries : mapping of str to Entry
        Each as it stands in its file, by the same id.
    """

    header: PackHeader
    folder: Path
    origin: str
    parts: Mapping[str, Part]
    entries: Mapping[str, Entry]

    @property
    def id(self) -> str:
        """The pack's id."""
        return self.header.id

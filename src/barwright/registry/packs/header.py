"""What ``pack.toml`` says of a pack, and the names in it."""

from __future__ import annotations

import re
from typing import Any

from barwright.errors import SchemaError
from barwright.registry.files.snapshot import HEADER
from barwright.registry.packs.format.pack import PackHeader
from barwright.registry.packs.record_loader import check_name
from barwright.registry.packs.tables.structure import Structurer

__all__ = ["VERSION", "read_header"]

VERSION = re.compile(r"[0-9A-Za-z][0-9A-Za-z.+-]{0,31}")
"""What the version of a pack looks like."""


def read_header(table: dict[str, Any], cls: type[PackHeader]) -> PackHeader:
    """Read what a pack says of itself.

    Parameters
    ----------
    table : dict
        Its ``pack.toml``, as parsed.
    cls : type
        Class to read it into: that of packs, or that of overlays.

    Returns
    -------
    PackHeader

    Raises
    ------
    ExceptionGroup
        All problems of its keys.
    SchemaError
        S205 for an id that cannot be one, or that two sources have; S204 for a version that
        cannot be one.
    """
    header = Structurer(file=HEADER).structure(table, cls)
    check_name(header.id, "id", HEADER)
    _check_version(header.version)
    _check_sources(header)
    return header


def _check_version(version: str) -> None:
    if version and not VERSION.fullmatch(version):
        raise SchemaError(
            "S204",
            value=version,
            expected="a version of digits, letters, points and + or -, at most 32 characters",
            remedy="write it like '1.2.0'",
            key="version",
            file=HEADER,
        )


def _check_sources(header: PackHeader) -> None:
    known: set[str] = set()
    for index, source in enumerate(header.source):
        check_name(source.id, f"source[{index}].id", HEADER)
        if source.id in known:
            raise SchemaError(
                "S205",
                value=source.id,
                expected="an id that no other source of the pack has",
                remedy="rename one of the two",
                key=f"source[{index}].id",
                file=HEADER,
            )
        known.add(source.id)

"""A new, working pack or overlay, written complete or not at all."""

from __future__ import annotations

import contextlib
import json
import os
import re
import secrets
import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path
from string import Template

import attrs

from barwright.errors import FileError, SchemaError
from barwright.parts.source import Source
from barwright.registry.files.snapshot import HEADER
from barwright.registry.overlays.correction import CORRECTIONS, Correction
from barwright.registry.packs.keys import key_of
from barwright.registry.packs.load import NAME, standards
from barwright.registry.packs.pack import SCHEMA

__all__ = ["OVERLAY_SCAFFOLD", "SCAFFOLD", "new_corrections", "new_overlay", "new_pack"]

SCAFFOLD = Path(__file__).parents[2] / "scaffold" / "pack"
"""Folder of the templates; each is called like its file, with this behind it: ``.txt``."""

OVERLAY_SCAFFOLD = SCAFFOLD.with_name("overlay")
"""The same of an overlay."""

_SUFFIX = ".txt"

# A folder of the templates that is named after the pack.
_PACKAGE = "package"


def new_pack(folder: Path, pack_id: str, *, title: str = "") -> tuple[Path, ...]:
    """Write the distribution of a pack into a new folder.

    Parameters
    ----------
    folder : Path
        Where it is to be.
    pack_id : str
        First part of every id in the pack.
    title : str
        Name for people; made from the id if left out.

    Returns
    -------
    tuple of Path
        All files, each with the folder.

    Raises
    ------
    SchemaError
        S205 if the id is none, P301 if it is that of the standards, S203 if the title is
        no line of text.
    FileError
        F201 if the folder is there, or cannot be written; then nothing is left of it.
    """
    return _written(SCAFFOLD, folder, _names(pack_id, title or f"Pack {pack_id}, invented"))


def new_overlay(folder: Path, overlay_id: str, *, title: str = "") -> tuple[Path, ...]:
    """Write an overlay into a new folder.

    Parameters
    ----------
    folder : Path
        Where it is to be.
    overlay_id : str
        First part of every id in the overlay.
    title : str
        Name for people; made from the id if left out.

    Returns
    -------
    tuple of Path
        All files, each with the folder.

    Raises
    ------
    SchemaError
        S205 if the id is none, P301 if it is that of the standards, S203 if the title is
        no line of text.
    FileError
        F201 if the folder is there, or cannot be written; then nothing is left of it.
    """
    names = _names(overlay_id, title or f"Overlay {overlay_id}, invented")
    return _written(OVERLAY_SCAFFOLD, folder, names)


def new_corrections(
    folder: Path, corrections: Sequence[Correction], source: Source
) -> tuple[Path, ...]:
    """Write an overlay that holds corrections into a folder that is not there yet.

    Parameters
    ----------
    folder : Path
        Where it is to be; its name becomes the overlay's id.
    corrections : sequence of Correction
        The corrected figures.
    source : Source
        Where they come from.

    Returns
    -------
    tuple of Path
        All files, each with the folder.

    Raises
    ------
    SchemaError
        S205 if the folder's name is no id, P301 if it is that of the standards.
    FileError
        F201 if the folder is there, or cannot be written; then nothing is left of it.
    """
    names = _names(folder.name, f"Overlay {folder.name}, {source.kind.value}")
    header = {
        "schema": SCHEMA,
        "id": names["id"],
        "title": names["title"],
        "licence": "CC0-1.0",
        "overlay": True,
    }
    stated = {"id": source.id, "kind": source.kind.value, "note": source.note}
    listed = (
        _table(f"[[{CORRECTIONS}]]", {key_of(name): value for name, value in fields.items()})
        for fields in map(attrs.asdict, corrections)
    )
    contents = {
        HEADER: f"{_table('', header)}\n{_table('[[source]]', stated)}",
        "corrections.toml": "\n".join(listed),
    }
    return _placed(folder, contents)


def _table(head: str, fields: Mapping[str, object]) -> str:
    """Write a table of TOML; text is spelled as in JSON, which TOML reads too."""
    lines = (f"{name} = {json.dumps(value, ensure_ascii=False)}" for name, value in fields.items())
    return "\n".join(filter(None, (head, *lines))) + "\n"


def _written(templates: Path, folder: Path, names: Mapping[str, str]) -> tuple[Path, ...]:
    """Fill all templates of a folder in, and write them."""
    contents = {
        _target(template.relative_to(templates), names): Template(
            template.read_text(encoding="utf-8")
        ).substitute(names)
        for template in sorted(templates.rglob(f"*{_SUFFIX}"))
    }
    return _placed(folder, contents)


def _placed(folder: Path, contents: Mapping[str, str]) -> tuple[Path, ...]:
    """Write files into a folder that is not there yet."""
    if os.path.lexists(folder):
        raise _refused(folder, "it already exists", "name a new folder")
    try:
        _write(folder, contents)
    except OSError as error:
        reason = error.strerror or type(error).__name__
        remedy = "check the folder around it, its permissions and the free space"
        raise _refused(folder, reason, remedy) from None
    return tuple(folder / name for name in sorted(contents))


def _names(pack_id: str, title: str) -> dict[str, str]:
    """Everything that the templates leave open."""
    if not NAME.fullmatch(pack_id) or not pack_id[-1].isalnum():
        raise SchemaError(
            "S205",
            value=pack_id,
            expected="small letters, digits, points and hyphens, at most 64, "
            "a letter or digit at both ends",
            remedy="write it like 'moor'",
            key="id",
        )
    if pack_id == standards().id:
        raise SchemaError(
            "P301",
            value=pack_id,
            expected="an id that no other pack claims",
            remedy="write another id: the standards have this one",
            key="id",
        )
    if not title.isprintable() or not title.strip():
        raise SchemaError(
            "S203",
            value=title,
            expected="one line of text",
            remedy="leave it out, or write a name for people",
            key="title",
        )
    plain = re.sub(r"[.-]+", "-", pack_id)
    return {
        "id": pack_id,
        "title": title,
        "title_toml": json.dumps(title, ensure_ascii=False),
        "distribution": f"barwright-pack-{plain}",
        "package": f"barwright_pack_{plain.replace('-', '_')}",
        "schema": str(SCHEMA),
    }


def _target(template: Path, names: Mapping[str, str]) -> str:
    parts = template.with_suffix("").parts
    return "/".join(names["package"] if part == _PACKAGE else part for part in parts)


def _write(folder: Path, contents: Mapping[str, str]) -> None:
    """Write all files beside the folder's place, and put them there when they are complete."""
    # Of a name that no other writer has, and that is left over from none.
    part = folder.with_name(f".barwright-{secrets.token_hex(8)}.part")
    part.mkdir()
    try:
        for name, content in contents.items():
            path = part / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(content, encoding="utf-8", newline="\n")
        part.rename(folder)
    except BaseException:
        with contextlib.suppress(OSError):
            shutil.rmtree(part)
        raise


def _refused(folder: Path, value: str, remedy: str) -> FileError:
    return FileError(
        "F201",
        value=value,
        expected="a place for a new folder",
        remedy=remedy,
        file=str(folder),
    )

"""A new, working pack or overlay, written complete or not at all."""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Container, Mapping, Sequence
from pathlib import Path
from string import Template

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.source import Source
from barwright.registry.authoring.new_folder import write_new_folder
from barwright.registry.authoring.schema import schema_text
from barwright.registry.files.snapshot import HEADER
from barwright.registry.overlays.correction import CORRECTIONS, Correction
from barwright.registry.packs.format.keys import key_of
from barwright.registry.packs.format.pack import SCHEMA
from barwright.registry.packs.load import standards
from barwright.registry.packs.record_loader import NAME
from barwright.units import UNKNOWN

__all__ = [
    "ANCHORAGES",
    "LICENCES",
    "OVERLAY_SCAFFOLD",
    "SCAFFOLD",
    "SUSPENSIONS",
    "distribution_around",
    "new_corrections",
    "new_overlay",
    "new_pack",
]

SCAFFOLD = Path(__file__).parents[2] / "scaffold" / "pack"
"""Folder of the templates; each is called like its file, with this behind it: ``.txt``."""

OVERLAY_SCAFFOLD = SCAFFOLD.with_name("overlay")
"""The same of an overlay."""

SUSPENSIONS: tuple[str, ...] = ("strut", "double-wishbone", "swing-arm")
"""Suspensions of which there is a template, as files call them."""

ANCHORAGES: tuple[str, ...] = ("tube", "key-lever", "fixed-socket")
"""What may hold the bar's anchor end in a template, as files call it."""

LICENCES: tuple[str, ...] = ("CC0-1.0", "CC-BY-4.0", "CC-BY-SA-4.0", "MIT")
"""Licences whose text is at hand, as in the license list of SPDX."""

_SUFFIX = ".txt"

# A folder of the templates that is named after the pack, and the one that its data lie in.
_PACKAGE = "package"

# A figure of a template, and a tooth count.
_FIGURE = re.compile(r'"-?[0-9.]+ [^"]+"|(?<=^teeth = )[0-9]+', re.MULTILINE)

_REMARKS_AT = 38

# What a new pack describes its invented vehicle in.
_EXAMPLES = {f"{name}.toml{_SUFFIX}" for name in ("lower", "pack", "parts", "vehicles")}

_SPDX_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9.+-]{0,63}")


def new_pack(
    folder: Path,
    pack_id: str,
    *,
    title: str = "",
    suspension: str = SUSPENSIONS[0],
    anchorage: str = ANCHORAGES[0],
    licence: str = LICENCES[0],
    unknown: bool = False,
) -> tuple[Path, ...]:
    """Write the distribution of a pack into a new folder.

    Parameters
    ----------
    folder : Path
        Where it is to be.
    pack_id : str
        First part of every id in the pack.
    title : str
        Name for people; made from the id if left out.
    suspension : str
        What guides the wheel: one of :data:`SUSPENSIONS`.
    anchorage : str
        What holds the bar's anchor end: one of :data:`ANCHORAGES`. Each goes with each
        suspension.
    licence : str
        SPDX identifier of the licence. The text of those in :data:`LICENCES` is written; for
        another one, a file that says to add the text.
    unknown : bool
        Whether each figure is to be ``"unknown"`` instead of invented.

    Returns
    -------
    tuple of Path
        All files, each with the folder.

    Raises
    ------
    SchemaError
        S205 if the id is none, P301 if it is that of the standards, S203 if the title is
        no line of text, S204 if there is no template of such a suspension or anchorage or if
        the licence is no SPDX identifier.
    FileError
        F201 if the folder is there, or cannot be written; then nothing is left of it.
    """
    names = _names(pack_id, title or f"Pack {pack_id}{'' if unknown else ', invented'}")
    names |= {"licence": _spdx_id(licence), "year": str(dt.datetime.now().astimezone().year)}
    figures = "unknown" if unknown else "invented"
    for group, chosen, known in (
        ("figures", figures, (figures,)),
        ("suspension", suspension, SUSPENSIONS),
        ("anchorage", anchorage, ANCHORAGES),
    ):
        names |= _pieces(group, _one_of(chosen, known, key=group), names)
    contents = _filled(SCAFFOLD, names)
    if unknown:
        contents = {name: _without_figures(name, text) for name, text in contents.items()}
    return write_new_folder(folder, _around(contents, names))


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
    contents = _filled(OVERLAY_SCAFFOLD, names)
    return write_new_folder(folder, {**contents, "overlay.schema.json": schema_text(overlay=True)})


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
    return write_new_folder(folder, contents)


def _table(head: str, fields: Mapping[str, object]) -> str:
    """Write a table of TOML; text is spelled as in JSON, which TOML reads too."""
    lines = (f"{name} = {json.dumps(value, ensure_ascii=False)}" for name, value in fields.items())
    return "\n".join(filter(None, (head, *lines))) + "\n"


def distribution_around(files: Mapping[str, str], header: Mapping[str, str]) -> Mapping[str, str]:
    """Put the files of a distribution around those of a pack.

    Parameters
    ----------
    files : mapping of str to str
        Text of the pack's data files by their names.
    header : mapping
        Id, title and licence of the pack.

    Returns
    -------
    mapping of str to str
        Text of each file, by its path in the distribution's folder.

    Raises
    ------
    SchemaError
        S205 if the id is none, P301 if it is that of the standards, S203 if the title is
        no line of text, S204 if the licence is no SPDX identifier.
    """
    names = _names(header["id"], header["title"]) | {"licence": _spdx_id(header["licence"])}
    names |= _pieces("figures", "table", names)
    data = {f"src/{names['package']}/{name}": text for name, text in files.items()}
    return _around(_filled(SCAFFOLD, names, without=_EXAMPLES) | data, names)


def _around(contents: Mapping[str, str], names: Mapping[str, str]) -> dict[str, str]:
    """Add what is no template of a pack: the licence's text and the schema."""
    text = _licence_text(names["licence"]).substitute(names)
    return {**contents, "LICENSE": text, "pack.schema.json": schema_text()}


def _filled(
    templates: Path, names: Mapping[str, str], *, without: Container[str] = ()
) -> dict[str, str]:
    """Fill all templates of a folder in."""
    return {
        _target(template.relative_to(templates), names): _template(template).substitute(names)
        for template in sorted(templates.rglob(f"*{_SUFFIX}"))
        if template.name not in without
    }


def _template(path: Path) -> Template:
    return Template(path.read_text(encoding="utf-8"))


def _pieces(group: str, chosen: str, names: Mapping[str, str]) -> dict[str, str]:
    """Read what the templates leave open for a choice, by its name behind the group's."""
    folder = SCAFFOLD.with_name(group) / chosen
    return {
        f"{group}_{piece.stem}": _template(piece).substitute(names).rstrip("\n")
        for piece in folder.glob(f"*{_SUFFIX}")
    }


def _one_of(word: str, known: Sequence[str], *, key: str) -> str:
    if word not in known:
        raise SchemaError(
            "S204",
            value=word,
            expected=" or ".join(map(repr, known)),
            remedy="write one of these words",
            key=key,
        )
    return word


def _spdx_id(licence: str) -> str:
    if not _SPDX_ID.fullmatch(licence):
        raise SchemaError(
            "S204",
            value=licence,
            expected="the SPDX identifier of a licence",
            remedy=f"write it like {' or '.join(map(repr, LICENCES))}",
            key="licence",
        )
    return licence


def _licence_text(licence: str) -> Template:
    if licence in LICENCES:
        return _template(SCAFFOLD.with_name("licences") / f"{licence}{_SUFFIX}")
    return _template(SCAFFOLD.with_name(f"no-licence-text{_SUFFIX}"))


def _without_figures(name: str, text: str) -> str:
    """Write the word for an unknown figure in the place of each figure of a data file."""
    if not name.startswith("src/"):
        return text
    return "".join(map(_without_figure, text.splitlines(keepends=True)))


def _without_figure(line: str) -> str:
    if line.startswith("#"):
        return line
    stated, mark, remark = _FIGURE.sub(json.dumps(UNKNOWN), line).partition("  #")
    return f"{stated.rstrip().ljust(_REMARKS_AT - 1)} #{remark}" if mark else stated


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

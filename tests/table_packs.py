"""A table of invented carriers, its map, and the pack that they give."""

from __future__ import annotations

import functools
import tempfile
from pathlib import Path

from barwright.registry.authoring.scaffold import new_pack

__all__ = ["HEADER", "HEADINGS", "ROWS", "carrier_map", "write_files", "written_table"]

HEADINGS = (
    "code",
    "model",
    "first built",
    "wheelbase [mm]",
    "bar",
    "bar diameter [mm]",
    "sprung mass [kg]",
)
"""Of the columns."""

ROWS = (
    ("FC-1", "Moor short", "2029-01", "2432", "A", "23.1", "291.0"),
    ("FC-2", "Moor middle", "2030-02", "2690", "B", "23.4", "291.2"),
    ("FC-3", "Moor long", "2031-03", "2948", "A", "23.1", "291.4"),
)
"""Cells of the table."""

HEADER = """\
id = "moor"
title = "Moor carriers, invented"
licence = "CC0-1.0"

[[source]]
id = "list"
kind = "invented"
note = "List of carriers, made up."

"""
"""First lines of a map."""

_FROM_COLUMNS = {
    'id = "standard"\ntitle = "Standard bar"': 'id = "{bar}"\ntitle = "Bar {bar}"',
    'diameter = "23.1 mm ± 0.05 mm"': 'diameter = "{bar diameter} ± 0.05 mm"',
    'id = "one"\ntitle = "Invented vehicle"': 'id = "{code}"\ntitle = "{model} {code}, invented"',
    'model = "Hauler"': 'model = "{model}"',
    'codes = ["ONE-1"]': 'codes = ["{code}"]',
    'first_built = "2031-05"\nlast_built = "2036-12"': 'first_built = "{first built}"',
    'wheelbase = "2350 mm"': 'wheelbase = "{wheelbase}"',
    'standard_mass = "291 kg"': 'standard_mass = "{sprung mass}"',
    'bar = "bar/standard"': 'bar = "bar/{bar}"',
}


@functools.cache
def carrier_map() -> str:
    """Text of a map for the table, made of the template of a new pack."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made) / "moor"
        new_pack(folder, "moor")
        data = folder / "src" / "barwright_pack_moor"
        text = "".join((data / n).read_text("utf-8") for n in ("parts.toml", "vehicles.toml"))
    lines = (line for line in text.splitlines() if line != 'source = "scaffold"')
    body = "\n".join(line for line in lines if not line.startswith("#"))
    for old, new in _FROM_COLUMNS.items():
        assert old in body
        body = body.replace(old, new, 1)
    return HEADER + body + "\n"


def written_table(*rows: tuple[str, ...], headings: tuple[str, ...] = HEADINGS) -> str:
    """Text of a table in CSV, each cell in quotes."""
    quoted = (['"' + cell.replace('"', '""') + '"' for cell in row] for row in (headings, *rows))
    return "".join(",".join(cells) + "\n" for cells in quoted)


def write_files(folder: Path, table: str, mapping: str) -> tuple[Path, Path, Path]:
    """Write a table and a map; with them, the folder that is not there yet."""
    paths = folder / "vans.csv", folder / "vans.map.toml", folder / "moor"
    paths[0].write_text(table, encoding="utf-8")
    paths[1].write_text(mapping, encoding="utf-8")
    return paths

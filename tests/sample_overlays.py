"""Overlays for tests: a header with sources of each kind, and a few lines of TOML."""

from __future__ import annotations

import shutil
from pathlib import Path

import barwright as bw
from sample_packs import GOOD_PACK, SPECIMENS

__all__ = [
    "GOOD_OVERLAY",
    "POOR_OVERLAY",
    "correction",
    "fact_correction",
    "found_over",
    "overlay",
    "two_packs",
]

GOOD_OVERLAY = SPECIMENS / "overlays" / "good"
POOR_OVERLAY = SPECIMENS / "overlays" / "poor"

_HEADER = """\
schema = 2
id = "{}"
title = "Our shop, invented"
licence = "CC0-1.0"
overlay = true
"""
_SOURCE = '[[source]]\nid = "{0}"\nkind = "{0}"\nnote = "Written down for the tests in 2031."\n'
_KINDS = ("invented", "measured", "published", "maker", "recalled")


def overlay(folder: Path, *records: str, header: str = "", pack_id: str = "shop") -> Path:
    """An overlay of some tables, with a source of each kind by the name of its kind."""
    made = folder / pack_id
    made.mkdir()
    sources = "".join(map(_SOURCE.format, _KINDS))
    text = _HEADER.format(pack_id) + sources + header
    (made / "pack.toml").write_text(text, encoding="utf-8")
    (made / "ours.toml").write_text("\n".join(records), encoding="utf-8")
    return made


def correction(
    figure: str = "diameter",
    value: str = "23.6 mm ± 0.02 mm",
    *,
    of: str = "tiny:bar/one",
    source: str = "measured",
    why: str = "Measured on the van.",
) -> str:
    """A correction of a record of the good pack."""
    return fact_correction(figure, f'"{value}"', of=of, source=source, why=why)


def fact_correction(
    figure: str,
    value: str,
    *,
    of: str = "tiny:bar/one",
    source: str = "measured",
    why: str = "Measured on the van.",
) -> str:
    """A correction of a count, a word or a list of the good pack, as TOML has it."""
    return (
        f'[[correction]]\nof = "{of}"\nfigure = "{figure}"\nis = {value}\n'
        f'source = "{source}"\nat = "sheet 1"\nwhy = "{why}"\n'
    )


def found_over(made: Path, rule: str) -> list[tuple[str, int, str, str]]:
    """File, line, concern and message of what one rule finds in an overlay of the good pack."""
    findings = bw.lint_pack(made, over=[GOOD_PACK]).findings
    return [(f.file, f.line, f.of, f.message) for f in findings if f.rule == rule]


def two_packs(folder: Path) -> tuple[Path, Path]:
    """Two packs that claim one id; the title of a bar tells which is which."""
    made = []
    for name in ("first", "second"):
        pack = folder / name
        shutil.copytree(GOOD_PACK, pack)
        parts = pack / "parts.toml"
        text = parts.read_text(encoding="utf-8")
        assert '"Bar"' in text
        parts.write_text(text.replace('"Bar"', f'"Bar, {name}"', 1), encoding="utf-8")
        made.append(pack)
    return made[0], made[1]

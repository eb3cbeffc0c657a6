"""What the inputs are made of: records and jobs that are good, and tokens that are not."""

from __future__ import annotations

import functools
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import attrs

from barwright.parts.common.record import Part
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.load import load_pack, standards
from sample_packs import SPECIMENS

__all__ = ["HEADER", "TEXTS", "TOKENS", "VALUES", "Seeds", "seeds"]

_PLUGINS = Path(__file__).parents[2] / "plugins"
_KINDS = "|".join(KINDS)
_SOURCE = re.compile(r'\bsource = "[^"]*"')
_BLOCK = re.compile(rf"^(?=\[\[(?:{_KINDS}|check|waiver)\]\])", re.MULTILINE)

HEADER = b"""schema = 2
id = "tiny"
title = "One invented vehicle"
licence = "CC0-1.0"

[[source]]
id = "desk"
kind = "invented"
note = "Invented for the tests."
"""
"""A ``pack.toml`` with the source of all blocks."""

TEXTS = (
    "",
    " ",
    "0",
    "-1",
    "1e308 mm",
    "-0 mm",
    "1e-320 mm",
    "1 mm ± 1 mm",
    "9" * 400,
    "9**9**9 mm",
    "25,4 mm",
    "3/8 in",
    "nan mm",
    "٣ mm",
    "１２ mm",
    "a" * 3000,
    "a." * 100,
    "../../x",
    "C:\\x",
    "tiny:bar/one",
    "bar/one",
    "barwright:material/x",
    ":",
    "/",
    "fells:chassis/short",
    "\x1b[31m\x1b]0;x\x07",
    "\x9b31m",
    "\u202egnp.exe",
    "\u2066x\u2069",
    "<script>alert(1)</script>",
    "]]>&amp;--",
    "a%0Ab\n::error::c,d:e",
    "\x00",
    "\ufeff",
    "\ufffe\uffff",
    "e\u0301" * 50,
    "\U0001f697",
    "\u2028\u2029",
    "=cmd()",
    "[red]x[/red]",
    "{0}{}%s%n$x`x`",
)
"""Text that has surprised some program."""

VALUES: tuple[Any, ...] = (
    *(0, -1, 1, 39, 9999, 10_000, 2**31, 2**63 - 1, -(2**63)),
    *(0.0, -0.0, 1e308, 5e-324, float("inf"), float("-inf"), float("nan")),
    *(True, False, [], [[]], [0, 0, 0], [1e-200, 0, 0], {}, {"is": "1 mm"}, [{}], ["left"]),
    {"is": "1 mm ± 2 mm", "source": "nothing", "at": 5},
    {"kind": "strut"},
    {"": {"": {"": 0}}},
    *(tomllib.loads("x = 2031-01-02\ny = 10:00:00\nz = 2031-01-02T10:00:00Z").values()),
)
"""Values of all types that TOML has."""

TOKENS = (
    *(b"\xff", b"\xc0\x80", b"\xed\xa0\x80"),
    *map(
        str.encode,
        (
            *(
                "[",
                "]",
                "[[",
                "]]",
                "{",
                "}",
                '"',
                "'",
                '"""',
                "'''",
                "=",
                ".",
                ",",
                "#",
                "\\",
                "\n",
            ),
            *("\r", "\r\n", "\t", "\x00", "\x7f", "\x1b", "\ufeff", "\u202e", "\\u0000", "\\uD800"),
            *("\\U00110000", "\\x", "nan", "-inf", "true", "0x7fffffffffffffffff", "1_0", "1__0"),
            *("1e999", "-0", "0o8", "2031-02-30", "25:61:00", "9" * 5000, "[" * 40, "{a=" * 40),
            *(
                "a." * 60,
                "x = [[[[]]]]",
                "id = 1",
                'source = ""',
                'at = ""',
                "schema = 99",
                "±",
                " mm",
            ),
            *("[[chassis.axles]]", "[[bar]]", "[bar]", "left = {}", "kind = 'strut'", "waiver = 1"),
        ),
    ),
)
"""Bytes that mean something to a parser of TOML, or should not."""


@attrs.frozen
class Seeds:
    """Good things, to be spoilt.

    Parameters
    ----------
    blocks : tuple of bytes
        Text of one record, check or waiver each, all of one source.
    tables : tuple of dict
        The same as parsed: what a file with that block holds.
    known : mapping
        Records that the blocks may refer to, by class and by short and full id.
    jobs : tuple of bytes
        Job files.
    packs : tuple of mapping
        Whole packs: bytes of each file by its name.
    """

    blocks: tuple[bytes, ...]
    tables: tuple[dict[str, Any], ...]
    known: Mapping[type, Mapping[str, Part]]
    jobs: tuple[bytes, ...]
    packs: tuple[Mapping[str, bytes], ...]


@functools.cache
def seeds() -> Seeds:
    """Read the demo packs, the specimens and the job files."""
    folders = [*sorted(_PLUGINS.glob("*/src/*")), SPECIMENS / "packs" / "good"]
    packs = [{f.name: f.read_bytes() for f in sorted(d.glob("*.toml"))} for d in folders]
    poor = {f.name: f.read_bytes() for f in sorted((SPECIMENS / "packs" / "poor").glob("*.toml"))}
    texts = [t.decode() for p in (*packs, poor) for name, t in p.items() if name != "pack.toml"]
    blocks = [block for text in texts for block in _BLOCK.split(text) if block.startswith("[[")]
    blocks = [_SOURCE.sub('source = "desk"', block) for block in blocks]
    return Seeds(
        blocks=tuple(block.encode() for block in blocks),
        tables=tuple(map(tomllib.loads, blocks)),
        known=_known(folders),
        jobs=tuple(path.read_bytes() for path in sorted((SPECIMENS / "jobs").rglob("*.toml"))),
        packs=tuple(packs),
    )


def _known(folders: list[Path]) -> Mapping[type, Mapping[str, Part]]:
    parts: dict[str, Part] = dict(standards().parts)
    for folder in folders:
        parts |= load_pack(folder, origin=folder.name).parts
    short = {full.partition(":")[2]: part for full, part in parts.items()}
    both = parts | short
    return {
        cls: {name: part for name, part in both.items() if isinstance(part, cls)}
        for cls in KINDS.values()
    }

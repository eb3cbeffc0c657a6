"""Packs for tests whose parts are said to fit the good pack's vehicle."""

from __future__ import annotations

from pathlib import Path

import barwright as bw
from sample_packs import GOOD_PACK

__all__ = ["BAR", "BOTH", "FITS", "aftermarket_pack", "linted", "said", "with_bar"]

_HEADER = """
schema = 2
id = "extra"
title = "Bars of another maker"
licence = "CC0-1.0"

[[source]]
id = "list"
kind = "maker"
note = "Price list of 2031."
"""

BAR = """
[[bar]]
id = "two"
title = "Other bar"
source = "list"
at = "page 2"
material = "standards:material/51crv4"
diameter = "23.6 mm ± 0.05 mm"
length = "904 mm"
[bar.arm_end]
teeth = 39
form = "involute"
length = "37 mm"
major_diameter = "30 mm"
root_diameter = "28.1 mm"
taper = "22 mm"

[bar.anchor_end]
teeth = 42
form = "involute"
length = "37 mm"
major_diameter = "32.2 mm"
root_diameter = "30.4 mm"
taper = "26 mm"
"""

FITS = """
[[fits]]
parts = ["bar/two"]
on = ["tiny:chassis/one"]
axle = "front"
as = "fits"
source = "list"
at = "page 2"
"""


def aftermarket_pack(folder: Path, *data: str, name: str = "extra") -> Path:
    """A pack with a bar, and whatever else a test says."""
    pack = folder / name
    pack.mkdir()
    header = _HEADER.replace('"extra"', f'"{name}"')
    (pack / "pack.toml").write_text(header, encoding="utf-8")
    (pack / "bars.toml").write_text("\n".join((BAR, *data)), encoding="utf-8")
    return pack


def linted(pack: Path, *over: Path, rule: str = "claim-") -> list[bw.answers.LintFinding]:
    """What the rules of some name find in a pack beside the good one, or beside others."""
    found = bw.lint_pack(pack, over=list(over or (GOOD_PACK,))).findings
    return [finding for finding in found if finding.rule.startswith(rule)]


BOTH = "on tiny:chassis/one, front left, front right"


def said(pack: Path, *over: Path) -> list[tuple[str, str]]:
    """Rule and message of each finding on a pack's claims."""
    return [(finding.rule, finding.message) for finding in linted(pack, *over)]


def with_bar(folder: Path, *changes: tuple[str, str], fits: str = FITS) -> Path:
    """A pack whose bar is changed."""
    bar = BAR
    for old, new in changes:
        assert old in bar
        bar = bar.replace(old, new)
    pack = aftermarket_pack(folder, fits)
    text = (pack / "bars.toml").read_text(encoding="utf-8")
    (pack / "bars.toml").write_text(text.replace(BAR, bar), encoding="utf-8")
    return pack

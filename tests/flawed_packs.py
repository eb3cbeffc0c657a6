"""Packs with a flaw for tests: the good one changed, or a few lines of TOML."""

from __future__ import annotations

import functools
from pathlib import Path
from unittest import mock

import barwright as bw
from barwright.lint import linting
from barwright.lint.catalogue import RULES
from sample_packs import GOOD_PACK, SPECIMENS, changed_pack

__all__ = [
    "ESTIMATED",
    "POOR_PACK",
    "added",
    "changed",
    "found",
    "linted_once",
    "reported",
    "small_pack",
    "subjects",
]

ESTIMATED = '[[source]]\nid = "estimated"\nkind = "estimated"\nnote = "Seen on many others."\n'
"""A source of estimates, for the header of a pack or an overlay."""

POOR_PACK = SPECIMENS / "packs" / "poor"

_HEADER = 'schema = 2\nid = "small"\ntitle = "Small"\nlicence = "CC0-1.0"\n'
_SOURCE = '[[source]]\nid = "{0}"\nkind = "{0}"\nnote = "Written down for the tests in 2031."\n'
_GOOD_SOURCES = ("invented", "measured", "published", "maker", "recalled")


def small_pack(folder: Path, data: str = "", header: str = "") -> Path:
    """A pack of a few lines, with a source of each kind by the name of its kind."""
    pack = folder / "small"
    pack.mkdir(exist_ok=True)
    sources = "".join(map(_SOURCE.format, _GOOD_SOURCES))
    (pack / "pack.toml").write_text(_HEADER + sources + header, encoding="utf-8")
    (pack / "data.toml").write_text(data, encoding="utf-8")
    return pack


@functools.cache
def linted_once(pack: Path) -> bw.answers.PackLint:
    """What lint says of a pack that no test changes, for tests that ask often."""
    return bw.lint_pack(pack)


def found(pack: Path, rule: str) -> list[bw.answers.LintFinding]:
    """What one rule finds in a pack; rules that look at waivers need what all find."""
    alone = tuple(one for one in RULES if one.name == rule)
    with mock.patch.object(linting, "RULES", alone or RULES):
        return [finding for finding in bw.lint_pack(pack).findings if finding.rule == rule]


def subjects(pack: Path, rule: str) -> list[str]:
    """What one rule's findings in a pack concern."""
    return [finding.of for finding in found(pack, rule)]


def changed(
    folder: Path, rule: str, *changes: tuple[str, str, str]
) -> list[bw.answers.LintFinding]:
    """What one rule finds in the good pack after some pieces of its files were replaced."""
    (file, old, new), *others = changes
    pack = changed_pack(folder, file, old, new)
    for name, before, after in others:
        path = pack / name
        text = path.read_text(encoding="utf-8")
        assert before in text
        path.write_text(text.replace(before, after, 1), encoding="utf-8")
    return found(pack, rule)


def added(folder: Path, *texts: str) -> Path:
    """The good pack with a file of further tables."""
    assert not (GOOD_PACK / "more.toml").exists()
    return changed_pack(folder, "more.toml", "", "\n".join(texts))


def reported(finding: bw.answers.LintFinding) -> tuple[str, int, str, str]:
    """File, line, what a finding concerns, and its message."""
    return finding.file, finding.line, finding.of, finding.message

"""Rule `unused-source`: every source in the list is used by a figure or a check."""

from __future__ import annotations

from pathlib import Path

from flawed_packs import added, found, reported, small_pack, subjects
from sample_packs import GOOD_PACK

BOOK = '\n[[source]]\nid = "book"\nkind = "published"\nnote = "Book of springs, 2031"\n'
CHECK = """
[[check]]
computes = "clocking_step"
of = "bar/one"
is = "0.6593 deg"
source = "book"
at = "page 3"
"""


def test_sources_of_figures_are_used() -> None:
    assert subjects(GOOD_PACK, "unused-source") == []


def with_book(folder: Path, *texts: str) -> Path:
    """The good pack with another source on its list."""
    pack = added(folder, *texts)
    header = pack / "pack.toml"
    header.write_text(header.read_text(encoding="utf-8") + BOOK, encoding="utf-8")
    return pack


def test_a_source_of_nothing_is_found_at_its_entry(tmp_path: Path) -> None:
    (finding,) = found(with_book(tmp_path), "unused-source")
    message = "no figure or check uses this source"
    assert reported(finding) == ("pack.toml", 17, "source/book", message)
    assert finding.code == "R111"


def test_a_check_uses_its_source(tmp_path: Path) -> None:
    assert subjects(with_book(tmp_path, CHECK), "unused-source") == []


def test_nothing_is_said_while_a_record_that_may_use_it_is_broken(tmp_path: Path) -> None:
    assert len(subjects(small_pack(tmp_path), "unused-source")) == 5
    assert subjects(small_pack(tmp_path, "[[bar]]\n"), "unused-source") == []


def test_a_fact_uses_its_source(tmp_path: Path) -> None:
    pack = with_book(tmp_path)
    parts = pack / "parts.toml"
    text = parts.read_text(encoding="utf-8")
    assert "teeth = 39" in text
    own = 'teeth = { is = 39, source = "book", at = "page 7" }'
    parts.write_text(text.replace("teeth = 39", own, 1), encoding="utf-8")

    assert subjects(pack, "unused-source") == []

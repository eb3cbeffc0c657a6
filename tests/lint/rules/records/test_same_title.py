"""Rule `same-title`: two records of a kind can be told apart in a list."""

from __future__ import annotations

from pathlib import Path

import barwright as bw
from flawed_packs import found, reported, small_pack, subjects

DAMPER = '[[damper]]\nid = "{}"\ntitle = "{}"\nsource = "invented"\nopen_length = "{} mm"\n'
DAMPER += 'closed_length = "300 mm"\n'
STEEL = '[[material]]\nid = "a"\ntitle = "One"\nsource = "invented"\nshear_modulus = "77 GPa"\n'


def test_the_second_of_two_is_found(tmp_path: Path) -> None:
    data = DAMPER.format("a", "One", 500) + DAMPER.format("b", "one", 501)
    (finding,) = found(small_pack(tmp_path, data), "same-title")
    assert reported(finding) == (
        "data.toml",
        9,
        "damper/b.title",
        "'one' is the title of damper/a too",
    )
    assert (finding.code, finding.severity) == ("R202", bw.answers.Severity.WARNING)


def test_titles_that_differ_or_are_of_other_kinds_are_good(tmp_path: Path) -> None:
    data = DAMPER.format("a", "One", 500) + DAMPER.format("b", "Two", 501) + STEEL
    assert subjects(small_pack(tmp_path, data), "same-title") == []

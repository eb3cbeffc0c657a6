"""Rule `same-number`: a part number is that of one part only."""

from __future__ import annotations

from pathlib import Path

import barwright as bw
from flawed_packs import found, reported, small_pack, subjects

DAMPER = '[[damper]]\nid = "{0}"\ntitle = "{0}"\nsource = "invented"\nopen_length = "50{1} mm"\n'
DAMPER += 'closed_length = "300 mm"\nnumbers = {2}\n'


def test_a_number_of_two_parts_is_told_however_it_is_spelled(tmp_path: Path) -> None:
    data = DAMPER.format("a", 0, '{ works = "71-20 455" }')
    data += DAMPER.format("b", 1, '{ works = ["7120455", "9"], counter = "1" }')
    (finding,) = found(small_pack(tmp_path, data), "same-number")
    assert reported(finding) == (
        "data.toml",
        14,
        "damper/b.numbers.works",
        "the number works 7120455 is that of damper/a too",
    )
    assert (finding.code, finding.severity) == ("R221", bw.answers.Severity.WARNING)


def test_the_same_number_of_another_system_is_good(tmp_path: Path) -> None:
    data = DAMPER.format("a", 0, '{ works = ["1", "1"] }')
    data += DAMPER.format("b", 1, '{ counter = "1" }')
    assert subjects(small_pack(tmp_path, data), "same-number") == []

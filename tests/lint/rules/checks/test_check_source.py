"""Rule `check-source`: a check rests on someone else."""

from __future__ import annotations

from pathlib import Path

import pytest

from flawed_packs import ESTIMATED, found, reported, small_pack

BAR = """
[[material]]
id = "s"
title = "S"
source = "invented"
shear_modulus = "77 GPa ± 1 GPa"
[[tube]]
id = "t"
title = "T"
source = "invented"
material = "material/s"
outside_diameter = "46 mm"
bore = "38.4 mm"
lever_position = "31 mm"
lever_radius = "118 mm"
cap_position = "789 mm"
socket_position = "772 mm"
socket = { teeth = 42, form = "i", length = "38 mm", minor_diameter = "31 mm", \
required_engagement = "24 mm", key_angle = "0 deg" }

[[check]]
computes = "tube_rate"
of = "tube/t"
is = "410 N*m/deg"
"""
OURS = '[[source]]\nid = "ours"\nkind = "published"\nnote = "Output of {} in 2031"\n'


@pytest.mark.parametrize(
    ("source", "is_outside"),
    [
        ("measured", True),
        ("published", True),
        ("maker", True),
        ("recalled", True),
        ("invented", False),
        ("estimated", False),
    ],
)
def test_what_is_invented_or_estimated_proves_nothing(
    tmp_path: Path, source: str, *, is_outside: bool
) -> None:
    pack = small_pack(tmp_path, f'{BAR}source = "{source}"\nat = "page 3"\n', ESTIMATED)
    expected = (
        "data.toml",
        20,
        "tube/t.tube_rate",
        f"source '{source}' is {source} and proves nothing",
    )
    assert [reported(f) for f in found(pack, "check-source")] == [expected] * (not is_outside)


@pytest.mark.parametrize(
    ("program", "at", "is_ours"),
    [
        ("barwright", "line 3", True),
        ("Barwright 0.1", "line 3", True),
        ("a test bench", "line 3 of barwright's output", True),
        ("a test bench", "line 3", False),
    ],
)
def test_our_own_answer_proves_nothing(
    tmp_path: Path, program: str, at: str, *, is_ours: bool
) -> None:
    data = f'{BAR}source = "ours"\nat = "{at}"\n'
    findings = found(small_pack(tmp_path, data, OURS.format(program)), "check-source")
    message = "source 'ours' is barwright itself and proves nothing"
    assert [f.message for f in findings] == [message] * is_ours
    assert all(f.code == "R402" for f in findings)

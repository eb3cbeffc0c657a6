"""The text of an identification says what it must."""

from __future__ import annotations

import re

import barwright as bw
from barwright.parts import MeasuredBar, MeasuredEnd
from sample_packs import discovered_once


def shown(measured: MeasuredBar) -> str:
    return bw.text(bw.identify(measured, registry=discovered_once()), width=120)


def test_the_bar_its_ends_and_the_caution_are_told() -> None:
    ends = [MeasuredEnd(teeth=42), MeasuredEnd(teeth=39)]

    out = shown(MeasuredBar(diameter="25.0 mm ± 0.1 mm", length="904 mm", ends=ends))

    assert out.startswith("Firm bar, short van (fells:bar/short-firm): over 99 %.\n")
    assert re.search(r"^not listed +under 1 % +a bar that no pack lists$", out, re.MULTILINE)
    assert "The second end that you gave is its arm end.\n" in out
    note = "No ± stated for the length over both splines: taken as ± 2.00 mm, usual for a tape."
    assert note in " ".join(out.split())
    assert "diameter of the body: taken" not in out
    assert out.endswith("Caution: A bar with a nick, rust pit or stray grinding mark is scrap.\n")
    assert "What would decide" not in out
    assert "What disagrees" not in out


def test_what_disagrees_stands_beside_what_is_listed() -> None:
    ends = [MeasuredEnd(teeth=39, length="37 mm"), MeasuredEnd(teeth=41)]

    out = shown(MeasuredBar(diameter="25.0 mm", length="874 mm", ends=ends))

    assert re.search(r"^length over both splines +874\.00 mm +904\.00 mm$", out, re.MULTILINE)
    assert re.search(r"^tooth count of the end with 41 teeth +41 +42$", out, re.MULTILINE)


def test_what_would_decide_comes_with_tool_and_place() -> None:
    out = shown(MeasuredBar(length="904 mm"))

    row = r"^measure the diameter of the body +calliper +74 % +away from cones and paint$"
    assert re.search(row, out, re.MULTILINE)
    assert out.count("measure the") == 3
    assert re.search(r"^1 more +12 %$", out, re.MULTILINE)
    assert "arm end." not in out

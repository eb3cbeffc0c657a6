"""The text of a diagnosis says what it must."""

from __future__ import annotations

import re

import attrs

import barwright as bw
from barwright.parts import measured
from sample_packs import discovered_once
from sample_records import make_bar


def read(side: str, height: str) -> bw.Setup:
    setup = discovered_once().setup("fells:chassis/short", corner=f"front {side}")
    return attrs.evolve(setup, reading=measured(setup, height=height))


def test_how_it_stands_what_may_be_wrong_and_how_it_is_mended() -> None:
    both = [read("left", "355 mm ± 2 mm"), read("right", "404 mm ± 2 mm")]
    answer = bw.diagnose(both, registry=discovered_once())

    shown = bw.text(answer, width=140)

    row = r"^front left +355 mm +404 mm +-49 mm +3 mm +8 mm$"
    assert re.search(row, shown, re.MULTILINE)
    assert re.search(r"^front right +404 mm +404 mm +0 mm", shown, re.MULTILINE)
    assert re.search(
        r"^front left: anchor end on another tooth .* +\d+ % +-49 mm", shown, re.MULTILINE
    )
    assert "If it is front left: anchor end on another tooth" in shown
    assert "(1 tooth in the droop sense), for the expected 404 mm: Remove no tooth" in shown
    assert "Caution: A twisted bar can maim." in shown


def test_what_stands_too_high_has_a_sign() -> None:
    answer = bw.diagnose([read("left", "430 mm")], registry=discovered_once())

    assert re.search(
        r"^front left +430 mm +404 mm +\+26 mm", bw.text(answer, width=140), re.MULTILINE
    )


def test_a_corner_that_cannot_be_settled_has_no_tables() -> None:
    gap = read("left", "400 mm")
    bar = make_bar(diameter="unknown")
    without = attrs.evolve(gap, bar=bar, reading=None)
    gap = attrs.evolve(without, reading=measured(without, height="400 mm"))

    shown = bw.text(bw.diagnose([gap], registry=discovered_once()))

    assert "How it stands" not in shown
    assert "What may be wrong" not in shown

"""The terminal's text of two setups says what it must."""

from __future__ import annotations

import barwright as bw
from barwright.report.text.compare import comparison_text
from sample_records import make_bar, make_setup
from terminal_text import folded


def test_a_comparison_shows_both_and_the_change() -> None:
    answer = bw.compare(make_setup(), make_setup(bar=make_bar(diameter="25.1 mm")))
    shown = folded(comparison_text(answer))
    assert "ride: wheel rate" in shown
    assert "+" in shown
    missing = bw.compare(make_setup(), make_setup(bar=make_bar(length="1200 mm")))
    assert "bar rate" in folded(comparison_text(missing))

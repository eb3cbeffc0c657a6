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


def test_each_figure_stands_with_its_change_under_both_names() -> None:
    firm = make_bar(diameter="25.1 mm", title="Firm bar")
    answer = bw.compare(make_setup(), make_setup(bar=firm))
    shown = folded(comparison_text(answer))
    assert shown.startswith(
        f"{answer.headline} first: Chassis, front left, Bar second: Chassis, front left, Firm bar "
        "figure first second change percent "
        "fit: ends: arm end: engagement 37.00 mm 37.00 mm 0.00 mm +0.0 "
    )
    assert " heads: arm end: teeth left 38 38 0 +0.0 " in shown
    # A body of 904 mm, less splines, tapers and a millimetre of bare head, is 790 mm and more:
    # its rate goes with the fourth power of the diameter, less for the heads.
    rate = shown.partition("bar rate ")[2].partition(" tube rate")[0].split()
    assert 30.0 < float(rate[-1]) < 100.0 * ((25.1 / 23.3) ** 4 - 1.0)

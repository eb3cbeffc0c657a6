"""The terminal's text of two setups says what it must."""

from __future__ import annotations

import barwright as bw
from barwright.report.text.across.compare import comparison_text
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
    shown = folded(comparison_text(answer, whole=True))
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


def test_what_is_the_same_is_counted_and_shown_only_if_asked_for() -> None:
    answer = bw.compare(make_setup(), make_setup(bar=make_bar(diameter="25.1 mm")))
    short, whole = (folded(comparison_text(answer, whole=whole)) for whole in (False, True))
    same = [row for row in answer.rows if row.change is not None and not row.change]
    assert "bar rate" in short
    assert "engagement 37.00 mm 37.00 mm" not in short
    assert "engagement 37.00 mm 37.00 mm" in whole
    assert "--all" not in whole
    count = int(short.partition("The same in both: ")[2].split()[0])
    assert 0 < count <= len(answer.rows)
    assert count >= len(same) > 0
    itself = folded(comparison_text(bw.compare(make_setup(), make_setup())))
    assert "change percent" not in itself
    assert itself.endswith("more (--all shows them).")

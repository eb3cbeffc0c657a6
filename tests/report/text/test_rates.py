"""The terminal's text of rates says what it must."""

from __future__ import annotations

import barwright as bw
from barwright.report.text.rates import rates_text
from sample_records import make_setup
from terminal_text import folded

LOWER = bw.Wanted(height="349 mm")


def test_rates_show_bar_tube_and_wheel() -> None:
    answer = bw.rates(make_setup(), wanted=LOWER)
    assert answer.figures is not None
    shown = folded(rates_text(answer))
    for label in ("bar alone", "torque tube", "bar and tube in series", "full droop", "Hz"):
        assert label in shown
    assert f"{answer.figures.ride.wheel_rate.m_as('N/mm'):.2f} N/mm" in shown


def test_the_share_of_a_bolts_proof_load_is_shown_where_it_is_known() -> None:
    marked = {"property_class": bw.parts.PropertyClass.CLASS_10_9}
    answer = bw.rates(make_setup(adjuster=marked))
    assert answer.figures is not None
    bolt = answer.figures.bolt
    assert bolt is not None
    load = f"{bolt.proof_load:.0f~P}"
    assert f"proof load {bolt.proof_share:.2f} of {load}" in folded(rates_text(answer))
    assert "proof load" not in folded(rates_text(bw.rates(make_setup())))


def test_a_damping_ratio_is_shown_where_it_is_known() -> None:
    answer = bw.rates(make_setup(damper={"damping_rate": "1800 N*s/m"}), wanted=LOWER)
    assert answer.figures is not None
    assert answer.figures.damping_ratio is not None
    shown = folded(rates_text(answer))
    assert f"damping ratio {answer.figures.damping_ratio:.2f}" in shown
    hop = f"{answer.figures.wheel_hop_frequency:.1f~P}"
    assert f"wheel hop {hop}, damping ratio {answer.figures.wheel_hop_damping:.2f}" in shown
    assert "wheel hop 1" in folded(rates_text(bw.rates(make_setup())))
    unknown = folded(rates_text(bw.rates(make_setup(), wanted=LOWER)))
    assert "damping ratio" not in unknown


def test_rates_out_of_reach_show_the_range() -> None:
    shown = folded(rates_text(bw.rates(make_setup(), wanted=bw.Wanted(height="900 mm"))))
    assert "cannot be reached" in shown.lower()
    assert "found 900.0 mm" in shown

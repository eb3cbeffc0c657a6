"""The terminal's text of rates says what it must."""

from __future__ import annotations

import re

import barwright as bw
from anchored_corners import on_key_lever
from barwright.report.text.rates import rates_row, rates_text
from sample_records import make_bar, make_setup
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
    plain = folded(rates_text(bw.rates(make_setup())))
    assert "proof load" not in plain
    assert (
        f" bolt, load at ride {bolt.at_ride:.0f~P} bolt, load at full bump "
        f"{bolt.at_bump:.0f~P} bolt, stress on its thread at full bump "
        f"{bolt.stress_at_bump.m_as('MPa'):.0f} MPa At droop, ride and bump "
    ) in plain


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


def test_the_curve_runs_from_full_droop_to_full_bump() -> None:
    figures = bw.rates(make_setup()).figures
    assert figures is not None
    shown = folded(rates_text(bw.rates(make_setup())))
    curve = shown.partition("hub to arch arm angle load at the wheel rate at the wheel ")[2]
    rows = curve.partition(" Heads at their greatest torque")[0]
    for state, place in ((figures.droop, "first"), (figures.bump, "last")):
        row = (
            f"{state.height:.1f~P} {state.arm_angle.m_as('deg'):.1f}° {state.wheel_load:.0f~P} "
            f"{state.wheel_rate.m_as('N/mm'):.2f} N/mm"
        )
        assert rows.startswith(row) if place == "first" else rows.endswith(row)


def test_the_corner_is_shown_at_droop_ride_and_bump() -> None:
    figures = bw.rates(make_setup()).figures
    assert figures is not None
    states = (figures.droop, figures.ride, figures.bump)
    shown = folded(rates_text(bw.rates(make_setup())))
    for words, name, unit, digits, sign in (
        ("arm angle", "arm_angle", "deg", 1, "°"),
        ("hub to arch", "height", "mm", 1, " mm"),
        ("twist", "twist", "deg", 1, "°"),
        ("torque", "torque", "N*m", 0, " N·m"),
        ("shear stress of the body", "shear_stress", "MPa", 0, " MPa"),
        ("load at the wheel", "wheel_load", "N", 0, " N"),
        ("rate at the wheel", "wheel_rate", "N/mm", 2, " N/mm"),
        ("damper stroke to closed", "stroke_to_closed", "mm", 1, " mm"),
        ("damper stroke to open", "stroke_to_open", "mm", 1, " mm"),
    ):
        cells = [f"{abs(getattr(s, name).m_as(unit)):.{digits}f}{sign}" for s in states]
        assert re.search(rf"{words} -?{' -?'.join(map(re.escape, cells))} ", shown), words


def test_the_heads_stand_with_their_teeth_and_stresses() -> None:
    figures = bw.rates(make_setup()).figures
    assert figures is not None
    shown = folded(rates_text(bw.rates(make_setup())))
    below = shown.partition("Heads at their greatest torque arm end anchor end ")[2]
    heads = figures.heads
    assert [head.teeth_left for head in heads] == [38, 41]
    for words, cells in (
        ("torque", [f"{figures.bump.torque.m_as('N*m'):.0f} N·m"] * 2),
        ("teeth that carry", ["38", "41"]),
        ("factor for missing teeth", [f"{head.missing_tooth_factor:.3f}" for head in heads]),
        ("shear under the roots", [f"{head.root_shear.m_as('MPa'):.0f} MPa" for head in heads]),
        ("shear in the teeth", [f"{head.tooth_shear.m_as('MPa'):.0f} MPa" for head in heads]),
        ("pressure on the flanks", [f"{head.tooth_bearing:.0f~P}" for head in heads]),
    ):
        assert f"{words} {' '.join(cells)} " in below
    (method,) = {head.method for head in figures.heads}
    assert f" Head stresses by {method}. Use them to compare heads, not to judge strength." in shown


def test_a_shear_modulus_is_shown_with_its_tolerance() -> None:
    modulus = bw.parts.Figure(value=bw.Quantity(77, "GPa"), tolerance=bw.Quantity(2, "GPa"))
    steel = make_bar().material.described({"shear_modulus": modulus})
    for material, shown in ((make_bar().material, "77.0 GPa"), (steel, "77.0 GPa ± 2.0 GPa")):
        text = folded(rates_text(bw.rates(make_setup(bar=make_bar(material=material)))))
        assert f"shear modulus of the bar {shown} bolt, with the bar" in text


def test_rates_stand_in_a_row() -> None:
    answer = bw.rates(make_setup())
    assert rates_row(answer) == {
        "answer": "rated",
        "bar and tube": f"{answer.system_rate.m_as('N*m/deg'):.2f} N·m/deg",
        "at the wheel": f"{answer.wheel_rate.m_as('N/mm'):.2f} N/mm",
        "ride": f"{answer.ride_frequency.m_as('Hz'):.2f} Hz",
        "stress at bump": f"{answer.bump.shear_stress.m_as('MPa'):.0f} MPa",
    }
    nothing = rates_row(bw.rates(make_setup(), wanted=bw.Wanted(height="900 mm")))
    assert list(nothing.values()) == ["cannot be reached", "", "", "", ""]


def test_figures_stand_with_their_places() -> None:
    answer = bw.rates(make_setup())
    assert answer.figures is not None
    shown = folded(rates_text(answer))
    ride = answer.ride.wheel_rate.m_as("N/mm")
    assert f"at the wheel, at ride height {ride:.2f} N/mm ride frequency, tyre in series " in shown
    assert f"in series {answer.ride_frequency.m_as('Hz'):.2f} Hz wheel hop " in shown


def test_the_side_thrust_on_a_bolt_is_shown_where_it_has_a_face() -> None:
    # The lever is square to its bolt.
    words = " bolt, side thrust on its end at full bump 0 N At droop, ride and bump"
    assert words in folded(rates_text(bw.rates(on_key_lever())))
    assert "side thrust" not in folded(rates_text(bw.rates(make_setup())))

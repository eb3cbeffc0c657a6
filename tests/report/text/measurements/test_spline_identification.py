"""The text of a spline's identification says what it must."""

from __future__ import annotations

import attrs

import barwright as bw
from barwright.analysis.identification.identify_spline import identify_spline
from barwright.parts import MeasuredSpline


def test_forms_come_with_their_sizes_and_what_would_decide() -> None:
    answer = identify_spline(MeasuredSpline(teeth=39, major_diameter="29.92 mm"))

    shown = bw.text(answer, width=120)

    assert "over pins of 1.40 mm" in shown
    assert "What would decide" in shown
    assert "socket, at the roots of its teeth" in shown
    assert "No ± stated for the diameter over the teeth: taken as ± 0.05 mm" in shown


def test_a_serration_has_no_sizes_to_show() -> None:
    answer = identify_spline(
        MeasuredSpline(
            teeth=36, major_diameter="34.0 mm ± 0.02 mm", root_diameter="30.2 mm ± 0.02 mm"
        )
    )
    alone = attrs.evolve(answer, possible_forms=answer.possible_forms[:1], next_readings=())

    shown = bw.text(alone, width=120)

    assert "serration with straight flanks of 60°" in shown
    assert "What goes with it" not in shown
    assert "What would decide" not in shown
    assert "No ± stated" not in shown

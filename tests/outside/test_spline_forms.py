"""Stated probabilities of a spline's form are as often right as they say.

Bars are drawn: a form of some standard, sizes short of it as shops make them, and readings with
a calliper's errors.  Nothing of what identifies them is used but the list of forms.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.random import Generator

import barwright as bw
from barwright.analysis.identification.standard_forms import StandardForm, standard_forms
from barwright.parts import MeasuredSpline

PIN = 1.8


def drawn_form(random: Generator, teeth: int) -> StandardForm:
    """Each standard about as often as the others, of those between modules 0.5 and 3."""
    forms = [one for one in standard_forms(teeth) if one.module <= 3e-3]
    standards = sorted({one.standard.value for one in forms})
    chosen = standards[int(random.integers(len(standards)))]
    among = [one for one in forms if one.standard.value == chosen]
    return among[int(random.integers(len(among)))]


def measured(random: Generator, form: StandardForm) -> MeasuredSpline:
    """Read a bar of a form: its tips, mostly its roots, sometimes over pins."""
    millimetres = form.module * 1e3

    def read(size: float, short: float) -> str:
        error = random.uniform(-0.05, 0.05)
        return f"{size * 1e3 - short * random.uniform() + error:.3f} mm ± 0.05 mm"

    given = {"major_diameter": read(form.major_diameter, 0.2 * millimetres ** (2 / 3))}
    if random.uniform() < 0.7:
        given["root_diameter"] = read(form.root_diameter, 0.3 * millimetres)
    pin = round(PIN * millimetres, 1)
    over = form.over_pins(pin / 1e3)
    if random.uniform() < 0.4 and not np.isnan(over):
        given["over_pins"] = read(over, 0.12 * millimetres ** (1 / 3))
        given["pin_diameter"] = f"{pin} mm"
    return MeasuredSpline(teeth=form.teeth, **given)


def is_right(found: bw.answers.SplineForm, form: StandardForm) -> bool:
    assert found.module is not None
    assert found.pressure_angle is not None
    return (
        found.standard is form.standard
        and found.teeth == form.teeth
        and found.designation.startswith(form.designation)
        and abs(found.pressure_angle.m_as("rad") - form.pressure_angle) < 1e-9
    )


@pytest.mark.slow
def test_forms_are_as_often_right_as_they_are_said_to_be() -> None:
    random = np.random.default_rng(2026)
    stated, right, first = [], [], []
    for _ in range(300):
        form = drawn_form(random, int(random.integers(20, 50)))
        answer = bw.identify_spline(measured(random, form))
        forms = [one for one in answer.possible_forms if one.module is not None]
        stated += [one.probability for one in forms]
        right += [is_right(one, form) for one in forms]
        first.append(is_right(forms[0], form))

    assert np.mean(first) > 0.85
    sure = np.array(stated) >= 0.9
    assert np.mean(np.array(right)[sure]) > 0.9
    for low, high in ((0.02, 0.3), (0.3, 0.7), (0.7, 1.0)):
        group = (np.array(stated) >= low) & (np.array(stated) < high)
        off = np.mean(np.array(right)[group]) - np.mean(np.array(stated)[group])
        assert abs(off) < 0.12

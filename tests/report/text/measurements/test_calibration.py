"""The terminal's page of a calibrated corner says what it must."""

from __future__ import annotations

import barwright as bw
from barwright.report.text.measurements.calibration import calibration_row, calibration_text
from read_corners import read, true_corner
from sample_records import known, make_setup
from terminal_text import folded

SETUP, TRUE = make_setup(), true_corner()


def shown(answer: bw.answers.CalibratedCorner) -> str:
    return folded(calibration_text(answer))


def test_each_figure_has_its_interval_and_its_basis() -> None:
    answer = bw.calibrate(SETUP, read(SETUP, TRUE, off=(1.0, -1.0, 1.0, -1.0)))
    text = shown(answer)
    rate = known(answer.system_rate).magnitude
    half = known(answer.system_rate_uncertainty).magnitude
    error = known(answer.system_rate_standard_error).magnitude
    assert f"bar and tube {rate:.2f} N·m/deg ± {half:.2f} N·m/deg" in text
    assert f"{half:.2f} N·m/deg, standard error {error:.2f} N·m/deg" in text
    assert f"by their figures {known(answer.expected_system_rate).magnitude:.2f} N·m/deg" in text
    assert f"bar alone {known(answer.bar_rate).magnitude:.2f} N·m/deg ±" in text
    assert f"free angle {known(answer.free_angle).magnitude:.2f}° ±" in text
    assert "± covers 95 %: from the ± of the readings, 1.96 standard errors" in text
    for number, one in enumerate(answer.readings, 1):
        stood, off = one.height.magnitude, known(one.residual_height).magnitude
        assert f" {number} {one.sprung_mass.magnitude:.0f} kg 0.00 turn {stood:.1f} mm" in text
        assert f"{off:.1f} mm" in text


def test_an_interval_from_scatter_says_so() -> None:
    readings = read(SETUP, TRUE, off=(1.0, -1.0, 1.0, -1.0), height="")
    four, three = (bw.calibrate(SETUP, one) for one in (readings, readings[:3]))
    assert "by Student's t with 2 degrees of freedom, 4.30 standard errors" in shown(four)
    assert "by Student's t with 1 degree of freedom, 12.71 standard errors" in shown(three)
    assert "* note: state the ± of each reading" in shown(four)


def test_what_is_not_known_is_left_out() -> None:
    alone = shown(bw.calibrate(SETUP, read(SETUP, TRUE, height="")[:1]))
    assert "±" not in alone.replace("state the ±", "").partition("by their figures")[2]
    assert "bar alone" not in alone
    none = bw.calibrate(SETUP)
    assert shown(none) == none.headline
    assert list(calibration_row(none).values()) == ["needs more figures", "", ""]
    refused = shown(bw.calibrate(SETUP, read(SETUP, TRUE, off=(-90.0, -20.0, 20.0, 90.0), mass="")))
    assert "* because: state the ±" in refused


def test_a_calibration_is_summed_up_in_a_row() -> None:
    answer = bw.calibrate(SETUP, read(SETUP, TRUE))
    row = calibration_row(answer)
    assert row["answer"] == "calibrated"
    assert row["bar and tube"] in answer.headline
    assert row["free angle"] in answer.headline

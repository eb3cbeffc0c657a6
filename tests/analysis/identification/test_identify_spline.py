"""To which standard a spline may be made."""

from __future__ import annotations

import pytest

import barwright as bw
from barwright.analysis.identification.standard_forms import SplineStandard, standard_forms
from barwright.parts import MeasuredSpline


def identified(teeth: int, **given: str) -> bw.answers.SplineIdentification:
    return bw.identify_spline(MeasuredSpline(teeth=teeth, **given))


def test_tips_and_roots_tell_standard_module_and_roots() -> None:
    answer = identified(39, major_diameter="29.92 mm", root_diameter="27.8 mm")

    assert answer.verdict is bw.Verdict.IDENTIFIED
    first = answer.possible_forms[0]
    assert first.standard is SplineStandard.METRIC
    assert first.designation == "module 0.75, fillet root"
    assert first.module == bw.Quantity(0.75, "mm")
    assert answer.headline == (
        "ISO 4156, module 0.75, fillet root, pressure angle 30.0° (over 99 %)."
    )


def test_tips_alone_leave_the_pressure_angle_open_and_say_what_decides() -> None:
    answer = identified(39, major_diameter="29.92 mm")

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    first, second = answer.possible_forms[:2]
    assert {first.pressure_angle, second.pressure_angle} == {
        bw.Quantity(30.0, "deg"),
        bw.Quantity(37.5, "deg"),
    }
    # Both forms of roots at 30° are possible, so none is named.
    assert first.designation == "module 0.75"
    assert answer.next_readings[0].asked == "measure the root diameter"
    assert answer.next_readings[0].certainty > first.probability
    assert answer.assumed[0].named_figures == ("diameter over the teeth",)


@pytest.mark.parametrize(
    ("teeth", "given", "named"),
    [
        (30, {"major_diameter": "1.288 in"}, "ANSI B92.1, pitch 24/48"),
        (22, {"major_diameter": "29.7 mm", "root_diameter": "27.1 mm"}, "DIN 5480, W 30 × 1.25"),
        (36, {"major_diameter": "34.0 mm", "root_diameter": "30.2 mm"}, "serration with"),
        (
            39,
            {
                "root_diameter": "27.8 mm",
                "over_pins": "31.55 mm ± 0.02 mm",
                "pin_diameter": "1.5 mm",
            },
            "ISO 4156, module 0.75, fillet root",
        ),
    ],
)
def test_each_standard_is_known_by_its_sizes(teeth: int, given: dict[str, str], named: str) -> None:
    assert identified(teeth, **given).possible_forms[0].named.startswith(named)


def test_teeth_of_no_standard_are_told_from_all() -> None:
    answer = identified(36, major_diameter="31.0 mm", root_diameter="29.3 mm")

    assert answer.verdict is bw.Verdict.NOT_LISTED
    assert answer.headline == "No standard form has these sizes (98 %)."


def test_teeth_that_were_miscounted_are_to_be_counted_again() -> None:
    answer = identified(
        40,
        major_diameter="29.92 mm ± 0.02 mm",
        root_diameter="27.8 mm",
        over_pins="31.22 mm",
        pin_diameter="1.4 mm",
    )

    assert answer.possible_forms[0].teeth == 39
    assert "Count the teeth again: this form has 39, not 40." in answer.headline


def test_pins_are_counted_on_as_measured_or_as_suits_the_teeth() -> None:
    own = identified(39, major_diameter="29.9 mm", pin_diameter="1.6 mm")
    usual = identified(39, root_diameter="27.9 mm")
    thin = identified(39, major_diameter="29.9 mm", pin_diameter="0.01 mm")

    assert own.pin_diameter == bw.Quantity(1.6, "mm")
    assert usual.pin_diameter.m_as("mm") == pytest.approx(1.3)
    assert thin.possible_forms[0].over_pins is None
    assert not any("pins" in one.asked for one in thin.next_readings)


def test_sizes_of_a_form_are_those_of_its_socket_too() -> None:
    (form, *_) = identified(30, major_diameter="1.29 in").possible_forms

    assert form.socket_major_diameter is not None
    assert form.major_diameter is not None
    assert form.contact_depth is not None
    assert form.tip_clearance is not None
    gap = (form.socket_major_diameter - form.major_diameter).m_as("mm") / 2.0
    assert form.tip_clearance.m_as("mm") == pytest.approx(gap)
    assert form.contact_depth.m_as("mm") == pytest.approx(25.4 / 24.0)
    assert "ANSI B92.1, pitch 24/48" in repr(form)


def test_few_teeth_are_no_serration_by_their_roots() -> None:
    assert identified(6, major_diameter="9 mm", root_diameter="7 mm").possible_forms


@pytest.mark.parametrize(
    ("teeth", "odd"), [(3, "few"), (11, "few"), (12, ""), (99, ""), (300, "many")]
)
def test_a_count_that_no_bar_has_is_doubted(teeth: int, odd: str) -> None:
    answer = identified(teeth, major_diameter=f"{teeth - 1} mm")

    said = f"Count the teeth again: {teeth} are {odd} for the end of a bar."
    assert (said in answer.headline) is bool(odd)


def test_teeth_alone_tell_no_form() -> None:
    with pytest.raises(bw.SchemaError, match="only the teeth"):
        identified(39)


def test_a_reference_diameter_is_whole_and_its_teeth_are_moved_out_little() -> None:
    found = [one for one in standard_forms(22) if one.standard is SplineStandard.REFERENCE]

    assert {one.designation for one in found if one.module == 1.25e-3} == {
        "W 29 × 1.25 × 22",
        "W 30 × 1.25 × 22",
    }


def test_no_further_size_may_tell_forms_apart() -> None:
    answer = identified(
        42,
        major_diameter="32.2 mm",
        root_diameter="30.05 mm",
        over_pins="33.8 mm",
        pin_diameter="1.5 mm",
    )

    assert answer.next_readings == ()
    if answer.verdict is bw.Verdict.NEEDS_FIGURES:
        assert "No further size" in answer.headline

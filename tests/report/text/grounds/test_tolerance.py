"""How sure an answer is, in the terminal: what is unsure, by what, and what could not be asked."""

from __future__ import annotations

import io

import attrs
import pytest
from rich.console import Console

import barwright as bw
from barwright.report.text.grounds.tolerance import tolerances_row, tolerances_text
from barwright.report.text.layout.tables import Shown
from sample_packs import discovered_once
from sample_records import make_setup

SETUP = make_setup()


def demo() -> bw.Setup:
    """A corner of the demo pack, whose figures have tolerances."""
    return discovered_once().setup("fells:chassis/short", corner="front left")


def folded(renderable: Shown) -> str:
    """Text without the line breaks of its layout."""
    out = io.StringIO()
    Console(file=out, width=200, highlight=False, markup=False).print(renderable, crop=False)
    return " ".join(out.getvalue().split())


def test_the_shares_that_matter_stand_below_the_answer() -> None:
    answer = bw.tolerance(bw.rates, demo())
    shown = folded(tolerances_text(answer))
    (rate,) = [row for row in answer.rows if row.figure == "ride.wheel_rate"]
    assert answer.reported == rate
    told = shown.partition("tolerance of share ")[2].partition(" The main figures")[0]
    first = rate.shares[0]
    assert told.startswith(f"bar: material: shear modulus {first.percent:.0f} %")
    assert first.percent >= 94.5
    rest = sum(share.percent for share in rate.shares[told.count("%") - 1 :])
    assert told.endswith(f" smaller ones together {rest:.0f} %")
    assert "ride: wheel rate 21.10 N/mm 0.86 N/mm" in shown
    assert "fit: active length" not in shown
    assert shown.endswith("All figures, each with its causes: --all.")


def made_of(*percents: float) -> str:
    """What is shown of a wheel rate to which tolerances contribute in these shares."""
    answer = bw.tolerance(bw.rates, demo())
    assert answer.reported is not None
    like = answer.reported.shares[0]
    shares = tuple(
        attrs.evolve(like, figure=f"f{n}", percent=percent) for n, percent in enumerate(percents)
    )
    rows = tuple(
        attrs.evolve(row, shares=shares) if row.figure == "ride.wheel_rate" else row
        for row in answer.rows
    )
    shown = folded(tolerances_text(attrs.evolve(answer, rows=rows)))
    return shown.partition("tolerance of share ")[2].partition(" The main figures")[0]


def test_shares_are_named_up_to_nearly_all_and_a_dozen_at_most() -> None:
    assert made_of(60.0, 35.0, 4.0, 1.0) == "f0 60 % f1 35 % 2 smaller ones together 5 %"
    assert made_of(60.0, 34.0, 6.0) == "f0 60 % f1 34 % f2 6 %"
    assert made_of(60.0, 36.0, 4.0) == "f0 60 % f1 36 % 1 smaller one 4 %"
    many = made_of(*[5.0] * 20)
    assert "f11 5 %" in many
    assert many.endswith("f11 5 % 8 smaller ones together 40 %")


def test_unsure_figures_are_shown_with_what_they_come_from() -> None:
    answer = bw.tolerance(bw.rates, demo())
    shown = folded(tolerances_text(answer, whole=True))

    assert shown.startswith(
        "The rate at the wheel is 21.1 N/mm, ± 0.9 N/mm from tolerances (about 95 %). Most of "
        "that comes from the shear modulus of the bar material (95 %). "
        "12 figures have a tolerance: a half width within which every value is equally likely. "
        "± is 2 standard uncertainties (about 95 %), to first order. "
        "figure nominal ± mostly by"
    )
    assert (
        "system rate 43.1 N·m/deg 2.2 N·m/deg bar: material: shear modulus 97 %, bar: diameter 3 %"
        in shown
    )
    assert "ride: wheel rate 21.10 N/mm 0.86 N/mm bar: material: shear modulus 95 %" in shown
    assert "wheel load 2853" not in shown
    sure = sum(row.uncertainty == 0.0 * row.nominal for row in answer.rows)
    assert shown.endswith(f"Not affected by any of them: {sure} figures more.")


def test_an_answer_that_is_no_says_why_and_another_one_what_is_noted() -> None:
    far = bw.Wanted(height="600 mm")
    answer = bw.tolerance(lambda setup: bw.rates(setup, wanted=far), demo())

    assert folded(tolerances_text(answer, whole=True)).startswith(
        "Cannot be reached: the wanted height is outside the travel, hub to arch; "
    )
    noted = attrs.evolve(answer, verdict=bw.Verdict.RATED)
    assert "* note: the wanted height is outside" in folded(tolerances_text(noted))


def test_an_uncertainty_has_two_digits_and_its_figure_as_many_places() -> None:
    figures = bw.rates(SETUP).figures
    assert figures is not None
    twist = float(figures.droop.twist.magnitude)
    # The twist at droop goes with the key: by 2 / √3 of its half width.
    for half_width, places in (("10 deg", 0), ("1 deg", 1), ("0.1 deg", 2), ("0.0001 deg", 4)):
        answer = bw.tolerance(bw.rates, SETUP, half_widths={"anchor.socket.key_angle": half_width})
        behind = 1.1547 * float(half_width.split()[0])
        assert f"droop: twist {twist:.{places}f}° {behind:.{places}f}° anchor" in folded(
            tolerances_text(answer, whole=True)
        )


@pytest.mark.parametrize(("system", "shown"), [("metric", "48.0"), ("inch", "35.4")])
def test_units_of_the_reader_are_shown(system: str, shown: str) -> None:
    answer = bw.in_units(bw.tolerance(bw.rates, demo()), system)  # type: ignore[arg-type]
    text = folded(tolerances_text(answer, whole=True))

    assert f"bar rate {shown} " in text
    assert ("lbf" in text) == (system == "inch")
    assert "fit: active length 812.78 mm 0.34 mm" in text or "31.9994 in 0.0134 in" in text


def test_only_the_largest_shares_are_named() -> None:
    answer = bw.tolerance(bw.rates, demo())
    (twist,) = [row for row in answer.rows if row.figure == "droop.twist"]
    assert len(twist.shares) > 3
    assert twist.shares[3].percent > 0.5
    shown = folded(tolerances_text(answer, whole=True))
    line = shown.partition("droop: twist")[2].partition("droop: torque")[0]

    assert line.count("%") == 3
    # The length has a two-hundredth part of a percent in the bar's rate.
    (rate,) = [row for row in answer.rows if row.figure == "bar_rate"]
    assert rate.shares[2].figure == "bar.length"
    assert "bar: length" not in shown.partition("bar rate")[2].partition("tube rate")[0]


def test_draws_bring_their_interval() -> None:
    answer = bw.tolerance(bw.rates, demo(), draws=100)
    (rate,) = [row for row in answer.rows if row.figure == "bar_rate"]
    shown = folded(tolerances_text(answer))

    assert "± is 2 standard uncertainties (about 95 %), of 100 draws." in shown
    assert "figure nominal ± 95 % of the draws mostly by" in shown
    assert rate.low is not None
    assert rate.high is not None
    assert f"{rate.low.magnitude:.1f} N·m/deg to {rate.high.magnitude:.1f} N·m/deg" in shown


def test_ends_without_an_answer_are_told() -> None:
    answer = bw.tolerance(bw.rates, SETUP, half_widths={"anchor.bore": "12 mm"}, draws=100)
    count = sum(gap.draws for gap in answer.gaps)
    shown = folded(tolerances_text(answer))

    assert "* with anchor: bore at 92 mm there is no answer: G104: bore: got '92 mm', " in shown
    assert count > 0
    assert f"* at {answer.gaps[1].draws} of the draws there is no answer: G104" in shown


def test_figures_that_are_missing_are_named_up_to_four() -> None:
    wish = bw.Wanted(height="300 mm")
    answer = bw.tolerance(
        lambda setup: bw.rates(setup, wanted=wish),
        SETUP,
        half_widths={"axle.measured_height": "12 mm"},
    )
    more = len(answer.gaps[0].missing) - 4
    shown = folded(tolerances_text(answer))

    assert (
        "* with axle: measured height at 416 mm these are missing: bar rate, tube rate, "
        f"system rate, shear modulus and {more} more 1 figure has a tolerance" in shown
    )
    few = bw.tolerance(
        lambda setup: getattr(bw.rates(setup, wanted=wish).figures, "droop", None),
        SETUP,
        half_widths={"axle.measured_height": "12 mm"},
    )
    text = folded(tolerances_text(few))
    assert "these are missing: arm angle, height, twist, torque and 6 more" in text
    lone = bw.tolerance(
        lambda setup: getattr(bw.rates(setup, wanted=wish).figures, "bar_rate", None),
        SETUP,
        half_widths={"axle.measured_height": "12 mm"},
    )
    assert "these are missing: answer 1 figure has" in folded(tolerances_text(lone))


def test_as_many_figures_as_are_named_leave_none_to_count() -> None:
    answer = bw.tolerance(bw.rates, SETUP, half_widths={"anchor.bore": "12 mm"}, draws=100)
    for count, told in ((4, "a, b, c, d 1"), (5, "a, b, c, d and 1 more 1")):
        gap = attrs.evolve(answer.gaps[0], text="", missing=tuple("abcde"[:count]))
        shown = folded(tolerances_text(attrs.evolve(answer, gaps=(gap,))))
        assert f"these are missing: {told} figure has a tolerance" in shown


def test_what_is_not_known_is_called_so() -> None:
    answer = bw.tolerance(bw.ride, SETUP, half_widths={"nut_turns": "90 turn"}, draws=100)
    shown = folded(tolerances_text(answer))

    assert shown.startswith("The tolerances change no figure of the answer. ")
    assert " 1 figure has a tolerance: " in shown
    (height,) = [row.nominal for row in answer.rows if row.figure == "state.height"]
    assert f"state: height {height.magnitude:.2f} mm not known state: " in shown
    assert shown.endswith("Not affected by any of them: 0 figures more.")


def test_the_figures_of_a_corner_stand_in_a_row() -> None:
    row = tolerances_row(bw.tolerance(bw.rates, demo()))

    assert row == {
        "answer": "rated",
        "bar and tube": "43.1 ± 2.2 N·m/deg",
        "at the wheel": "21.10 ± 0.86 N/mm",
        "ride": "1.284 ± 0.023 Hz",
        "stress at bump": "722 ± 37 MPa",
    }
    nothing = tolerances_row(bw.tolerance(bw.length_fit, demo()))
    assert nothing.pop("answer") == "fits"
    assert set(nothing.values()) == {""}
    unknown = bw.tolerance(bw.rates, SETUP, half_widths={"nut_turns": "90 turn"})
    figures = bw.rates(SETUP).figures
    assert figures is not None
    assert figures.ride_frequency is not None
    frequency = f"{figures.ride_frequency.magnitude:.2f} Hz"
    assert tolerances_row(unknown)["ride"] == frequency


def test_one_figure_has_a_tolerance_and_several_have_one() -> None:
    answer = bw.tolerance(bw.length_fit, demo())
    one = attrs.evolve(answer, inputs=answer.inputs[:1])
    two = attrs.evolve(answer, inputs=answer.inputs[:2])
    assert "1 figure has a tolerance" in folded(tolerances_text(one))
    assert "2 figures have a tolerance" in folded(tolerances_text(two))

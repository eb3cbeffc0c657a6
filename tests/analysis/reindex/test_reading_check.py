"""Tests of `reading_check`: a corner that was measured is planned from where it stands."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.reading_check import (
    odd_readings,
    off_its_figures,
    unstated_error,
    unstated_place,
)
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import figure_places, toleranced_figures
from barwright.report.unit_system import in_units
from read_corners import read
from sample_records import known, make_bar, make_setup

ALIKE = bw.Wanted(height="398 mm", thread_reserve="2 turn")
MAKERS = [make_setup, on_key_lever]


def with_key_off(setup: bw.Setup, degrees: float) -> bw.Setup:
    """The corner with the key of its arm elsewhere than its figures say."""
    socket = setup.arm.socket
    key = socket.key_angle + bw.Quantity(degrees, "deg")
    moved = attrs.evolve(socket, key_angle=key)
    return attrs.evolve(setup, arm=attrs.evolve(setup.arm, socket=moved))


def stands(setup: bw.Setup) -> float:
    return known(bw.ride(setup).state).height.m_as("mm")


def seen(setup: bw.Setup, height: float, **tolerance: str) -> bw.Setup:
    return setup.with_reading(height=f"{height!r} mm", **tolerance)


def settings(answer: bw.answers.Reindex) -> list[Any]:
    """All that plans have cut and set."""
    return [
        (
            plan.cuts,
            plan.arm_tooth,
            plan.anchor_tooth,
            pytest.approx(known(plan.pin_distance).m_as("mm"), abs=1e-6),
            pytest.approx(plan.height.m_as("mm"), abs=1e-6),
        )
        for plan in answer.plans
    ]


@given(degrees=st.floats(-6.0, 6.0), maker=st.sampled_from(MAKERS))
def test_a_height_tells_where_the_keys_are(degrees: float, maker: Any) -> None:
    figures, true = maker(), with_key_off(maker(), degrees)
    measured = seen(figures, stands(true))
    assert stands(measured) == pytest.approx(stands(true), abs=1e-6)
    asked = [bw.reindex(one, wanted=ALIKE) for one in (true, measured)]
    assert settings(asked[0]) == settings(asked[1])


def test_another_bar_and_load_keep_what_a_height_has_told() -> None:
    figures, true = make_setup(), with_key_off(make_setup(), 4.0)
    measured = seen(figures, stands(true))
    firmer = make_bar(diameter="26 mm", id="t:bar/firm")
    changed = [
        one.with_parts(bar=firmer).with_load(kind=bw.parts.LoadKind.SPRUNG, mass="310 kg")
        for one in (true, measured)
    ]
    assert stands(changed[1]) == pytest.approx(stands(changed[0]), abs=1e-6)


def test_a_fixed_socket_is_known_from_a_height_too() -> None:
    deep: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
    true = with_key_off(on_fixed(**deep), 1.5)
    assert stands(seen(on_fixed(**deep), stands(true))) == pytest.approx(stands(true), abs=1e-6)


def test_keys_that_are_poorly_known_leave_nothing_open_once_a_height_is() -> None:
    socket = make_setup().arm.socket
    wide = bw.parts.Figure(value=socket.key_angle, tolerance=bw.Quantity("3 deg"))
    vague = make_setup()
    socket = attrs.evolve(vague.arm.socket, about=bw.parts.About({"key_angle": wide}))
    vague = attrs.evolve(vague, arm=attrs.evolve(vague.arm, socket=socket))
    height = stands(vague)
    by_figures = bw.reindex(vague, wanted=ALIKE).preferred.height_uncertainty.m_as("mm")
    exact = bw.reindex(seen(vague, height), wanted=ALIKE).preferred.height_uncertainty
    taped = bw.reindex(seen(vague, height, tolerance="2 mm"), wanted=ALIKE).preferred
    assert by_figures > 15.0
    assert exact.m_as("mm") < 0.5
    # A half width of 2 mm stands for 2 · 2 mm / √3 at two standard uncertainties.
    assert taped.height_uncertainty.m_as("mm") == pytest.approx(4.0 / np.sqrt(3.0), abs=0.3)


@pytest.mark.rare
def test_the_stated_uncertainty_covers_cars_whose_figures_lie_within_their_tolerances() -> None:
    van = bw.Registry.demo().setup("fells:chassis/short", corner="front left")
    ways = toleranced_figures(van, {})
    mover = FigureShifter(van, figure_places(van))
    draws = np.random.default_rng(14).uniform(-1.0, 1.0, (60, len(ways) + 1))
    covered = []
    for *shares, misread in draws.tolist():
        car = mover.moved(dict(zip(ways, shares, strict=True)))
        measured = seen(van, stands(car) + 2.0 * misread, tolerance="2 mm")
        plan = bw.reindex(measured, wanted=bw.Wanted(height="385 mm")).preferred
        off = stands(bw.carry_out(car, plan)) - plan.height.m_as("mm")
        covered.append(abs(off) <= plan.height_uncertainty.m_as("mm"))
    assert np.mean(covered) >= 0.93


# -- Whether figures and height can both be right -----------------------------------------


def findings(setup: bw.Setup) -> list[bw.answers.Finding]:
    corner = Corner(setup)
    return [*unstated_place(corner), *off_its_figures(corner)]


def placed(**change: Any) -> bw.Setup:
    """The usual corner with the place of its nut measured, in the middle of the thread."""
    return attrs.evolve(make_setup(**change), pin_distance="159.5 mm")


@pytest.mark.parametrize("maker", MAKERS)
def test_a_height_without_the_place_of_the_adjuster_asks_for_it(maker: Any) -> None:
    (found,) = findings(seen(maker(), stands(maker())))
    assert found.topic is bw.answers.Topic.MEASURED
    assert found.text.startswith(
        "the adjuster is assumed to have been at mid-thread when the height"
    )
    assert "(pin_distance)" in found.text
    assert (found.figure, found.limit, found.upper) == (None, None, None)
    assert found in bw.reindex(seen(maker(), stands(maker())), wanted=ALIKE).findings


def test_a_height_with_the_place_of_the_adjuster_or_without_an_adjuster_asks_for_none() -> None:
    deep: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
    turned = make_setup(nut_turns="2 turn")
    for setup in (placed(), turned, on_fixed(**deep)):
        assert findings(seen(setup, stands(setup))) == []
    # What the plan would set is no word of where the nut stood when the tape was read.
    afterwards = attrs.evolve(seen(make_setup(), stands(make_setup())), nut_turns="2 turn")
    assert len(findings(afterwards)) == 1


@pytest.mark.parametrize(
    ("by", "side", "reason"),
    [
        (30.0, "higher", "rubber bushings tightened with the wheel hanging"),
        (-30.0, "lower", "one that has taken a set"),
    ],
)
def test_a_height_far_from_its_figures_asks_for_the_reason(
    by: float, side: str, reason: str
) -> None:
    setup = placed()
    measured = seen(setup, stands(setup) + by, tolerance="1 mm")
    (found,) = findings(measured)
    assert found.topic is bw.answers.Topic.MEASURED
    assert found.text.startswith(
        f"the vehicle stands {side} than its figures say. First find out why"
    )
    assert found.text.endswith(f", another bar, or {reason}")
    assert known(measured.reading).height == found.figure
    for limit in (found.limit, found.upper):
        assert isinstance(limit, bw.Quantity)
        assert limit.m_as("mm") == pytest.approx(stands(setup))
    answer = bw.reindex(measured, wanted=ALIKE)
    assert found in answer.findings
    # A turn of the nut can be undone; a tooth that is gone cannot.
    assert not answer.preferred.cuts
    assert answer.doubt == ""
    low = bw.Wanted(height="320 mm")
    far = bw.reindex(measured, wanted=low)
    assert far.preferred.cuts
    assert far.headline.startswith(
        f"Remove no tooth yet: it stands 30 mm {side} than its figures say. "
    )
    # In inches it has no millimetres.
    assert f"it stands 1.18 in {side} than" in in_units(far, "inch").headline
    assert " mm" not in in_units(found, "inch").line
    job = bw.Job(
        title="t",
        corners=(
            bw.JobCorner(setup=measured, present=measured, wanted=bw.Wanted(height="320 mm")),
        ),
    )
    steps = [step.text for step in bw.bench_sheet(job).steps]
    assert f"Only if you know why it stands 30 mm {side} than its figures say: go on here." in steps


def test_a_height_within_what_is_left_open_is_no_news() -> None:
    setup = placed()
    assert findings(setup) == []
    assert findings(seen(setup, stands(setup))) == []
    # Neither figure has a tolerance here but the tape's own: 2 · 3 mm / √3 = 3.5 mm.
    assert findings(seen(setup, stands(setup) + 3.4, tolerance="3 mm")) == []
    assert len(findings(seen(setup, stands(setup) + 3.6, tolerance="3 mm"))) == 1
    # Without a tolerance a tape still reads no finer than a millimetre.
    assert findings(seen(setup, stands(setup) + 0.9)) == []
    bare = attrs.evolve(known(seen(setup, stands(setup) + 1.1).reading), about=bw.parts.About())
    assert len(findings(attrs.evolve(setup, reading=bare))) == 1


def test_a_height_at_which_no_corner_stands_is_refused() -> None:
    low = make_setup().with_reading(height="150 mm")
    with pytest.raises(
        bw.QuantityError, match="a height within the travel, front left: "
    ) as caught:
        bw.ride(low)
    assert (caught.value.code, caught.value.key) == ("Q302", "reading.height")


def test_several_readings_are_taken_together_each_by_its_own_uncertainty() -> None:
    setup = placed()
    true = with_key_off(setup, 2.0)
    stood = stands(true)
    near, far = (
        bw.parts.measured(setup, height=f"{height!r} mm ± {half}", sprung_mass="291 kg ± 0.01 kg")
        for height, half in ((stood, "0.1 mm"), (stood + 5.0, "10 mm"))
    )
    assert stands(setup.with_readings([near, far])) == pytest.approx(stood, abs=0.01)
    # Without a ± all count alike.
    plain = [bw.parts.measured(setup, height=f"{stood + off!r} mm") for off in (-1.0, 1.0)]
    assert stands(setup.with_readings(plain)) == pytest.approx(stood, abs=0.01)


def test_an_arm_angle_is_as_good_as_a_height() -> None:
    setup = placed()
    true = with_key_off(setup, 2.0)
    angle = known(bw.ride(true).state).arm_angle
    by_angle = setup.with_readings(
        [bw.parts.measured(setup, arm_angle=f"{angle.m_as('deg')!r} deg ± 0.3 deg")]
    )
    assert stands(by_angle) == pytest.approx(stands(true), abs=1e-6)
    (found,) = findings(by_angle)
    assert isinstance(found.figure, bw.Quantity)
    assert found.figure.m_as("mm") == pytest.approx(stands(true))
    low = setup.with_readings([bw.parts.measured(setup, arm_angle="-60 deg")])
    with pytest.raises(
        bw.QuantityError, match="an arm angle within the travel, front left: "
    ) as caught:
        bw.ride(low)
    assert caught.value.key == "reading.arm_angle"


def test_of_several_readings_one_far_from_its_figures_is_enough() -> None:
    setup = placed()
    readings = [
        bw.parts.measured(setup, height=f"{stands(setup) + off!r} mm ± 2 mm", nut_turns="0 turn")
        for off in (30.0, 31.0)
    ]
    (found,) = findings(setup.with_readings(readings))
    assert found.text.startswith("the vehicle stands higher than")


def test_readings_that_do_not_agree_at_the_rate_of_the_figures_ask_for_theirs() -> None:
    setup = placed()
    softer = setup.with_parts(bar=attrs.evolve(setup.bar, measured_rate="38 N*m/deg"))
    readings = read(setup, softer, loads=(200.0, 290.0, 380.0), height=" ± 1 mm")
    torn = setup.with_readings(readings)
    answer = bw.reindex(torn, wanted=ALIKE)
    # A plan on the mean of what contradicts itself would look surer than it is.
    assert (answer.outcome.value, answer.plans) == ("needs more figures", ())
    assert answer.findings[0].topic is bw.answers.Topic.MEASURED
    assert answer.headline.startswith("The readings do not agree at the torsional rate")
    assert "Measure again, or find the rate that they show: barwright calibrate" in answer.headline


# -- Whether the readings are stated as they must be --------------------------------------


def test_a_height_without_its_tolerance_asks_for_it_once() -> None:
    setup = make_setup()
    bare = setup.with_readings(read(setup, setup, height=""))
    (found,) = unstated_error(Corner(bare))
    assert found.topic is bw.answers.Topic.UNCERTAINTY
    assert found.text == (
        "the ± of the height leaves out how well the height was measured: write height with "
        "its ±; usual is ± 2 mm"
    )
    assert found in bw.reindex(bare, wanted=ALIKE).findings


def test_an_arm_angle_without_its_tolerance_asks_for_it() -> None:
    setup = make_setup()
    bare = setup.with_readings([bw.parts.measured(setup, arm_angle="-5 deg")])
    (found,) = unstated_error(Corner(bare))
    assert "how well the arm's angle was measured: write arm_angle with its ±" in found.text


def test_readings_with_their_tolerances_and_none_ask_for_nothing() -> None:
    setup = make_setup()
    for known_well in (setup, setup.with_readings(read(setup, setup))):
        assert not list(unstated_error(Corner(known_well)))


def test_loads_of_several_readings_in_pounds_for_kilograms_are_noticed() -> None:
    setup = make_setup()
    right = read(setup, setup)
    slips = [
        bw.parts.measured(
            setup, height=one.height, sprung_mass=f"{2.2046 * one.corner.load.mass.m_as('kg')!r} kg"
        )
        for one in right
    ]
    assert not list(odd_readings(Corner(setup.with_readings(right))))
    odd = setup.with_readings(slips)
    found = list(odd_readings(Corner(odd)))
    assert [one.text.partition(":")[0] for one in found] == [f"reading {n}" for n in (1, 2, 3, 4)]
    assert all("pounds written as kilograms" in one.text for one in found)


def test_a_reading_under_the_load_of_the_job_is_not_reported_twice() -> None:
    heavy = make_setup().with_load(kind=bw.parts.LoadKind.SPRUNG, mass="700 kg")
    assert not list(odd_readings(Corner(seen(heavy, stands(make_setup())))))


def test_no_tooth_of_a_bar_for_the_other_side_goes_before_that_is_said() -> None:
    registry = bw.Registry.demo()
    setup = registry.setup("fells:chassis/short", corner="front left")
    other = setup.with_parts(bar=registry.bar("fells:bar/short-angled-right"))
    low = bw.Wanted(height="390 mm")

    answer = bw.reindex(other, wanted=low)
    assert answer.preferred.cuts
    assert answer.doubt == "Remove no tooth yet: the bar's blanks are for the other side. "
    assert answer.headline.startswith(answer.doubt)
    corner = bw.JobCorner(setup=other, present=setup, wanted=low)
    steps = [step.text for step in bw.bench_sheet(bw.Job(title="t", corners=(corner,))).steps]
    (waits,) = (n for n, step in enumerate(steps) if "no bar for this side is to be had" in step)
    assert steps[waits] == "Only if no bar for this side is to be had: go on here."
    assert any("paint X" in step for step in steps[waits + 1 :])
    # On its own side, and where no tooth goes, there is nothing to wait for.
    own = setup.with_parts(bar=registry.bar("fells:bar/short-angled-left"))
    assert bw.reindex(own, wanted=low).doubt == ""
    assert bw.reindex(other, wanted=attrs.evolve(low, cuts=0)).doubt == ""

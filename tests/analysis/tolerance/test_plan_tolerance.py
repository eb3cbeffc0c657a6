"""A plan's ± is the one that `tolerance` gives, whichever figure it comes from."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import attrs
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.rates.ride_height import free_angle_for
from barwright.analysis.tolerance.figures import HeldFigure, figure_places, held_figures
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty
from barwright.parts.common.fields import figure_fields
from barwright.report.sheet.rows import left_open as words_of
from barwright.units import ANGLE, quantity, shown
from draws import draws
from sample_packs import discovered_once
from sample_records import (
    double_wishbone_mounting,
    fixed_line,
    make_bar,
    make_setup,
    swing_arm_mounting,
    tube_of,
)
from setup_strategies import GAS, corners

WANTED = bw.Wanted(height="385 mm")

# Rounding of a difference of two heights or angles that are each found to rounding.
ROUNDING = 1e-9
TWO_OF_A_RECTANGLE = 2.0 / math.sqrt(3.0)


# -- Giving a figure a tolerance ---------------------------------------------------------


def toleranced(setup: bw.Setup, held: HeldFigure, half_width: bw.Quantity) -> bw.Setup:
    """A setup whose record knows a half width of one figure, at one place where it stands."""
    figure = bw.parts.Figure(value=held.value, tolerance=half_width)
    result: bw.Setup = _reported(setup, held.path.split("."), figure)
    return result


def _reported(value: Any, steps: list[str], figure: bw.parts.Figure) -> Any:
    first, *rest = steps
    if not rest:
        return value.described({first: figure})
    if isinstance(value, tuple):
        return tuple(
            _reported(item, rest, figure) if str(index) == first else item
            for index, item in enumerate(value)
        )
    return attrs.evolve(value, **{first: _reported(getattr(value, first), rest, figure)})


def half_width_of(held: HeldFigure) -> bw.Quantity:
    """A small half width: a hundredth of a degree, else a thousandth of the figure."""
    kind, _ = figure_fields(type(held.holder))[held.field]
    if kind.name == "angle":
        return bw.Quantity(0.01, "degree")
    small: bw.Quantity = abs(held.value) * 1e-3
    return small if small.magnitude else bw.Quantity(0.01, "millimeter")


def own_figures(setup: bw.Setup) -> list[HeldFigure]:
    """Figures of a setup that a record holds and that may lie elsewhere.

    A spacer that is not there has no thickness to be unsure of.
    """
    return [
        held
        for held in held_figures(setup)
        if held.path != "nut_turns" and (held.field != "spacer" or held.value.magnitude)
    ]


def with_tolerance(setup: bw.Setup, path: str, half_width: str) -> bw.Setup:
    (held,) = (place for place in figure_places(setup) if place.path == path)
    return toleranced(setup, held, bw.Quantity(half_width))


# -- What `tolerance` says -----------------------------------------------------------------


def carried_out(plan: bw.answers.Plan) -> Callable[[bw.Setup], bw.answers.Ride]:
    return lambda setup: bw.ride(bw.carry_out(setup, plan))


def free_angle_at(height: bw.Quantity) -> Callable[[bw.Setup], bw.Quantity]:
    """The free angle of a reindex, without all else that it works out."""

    def question(setup: bw.Setup) -> bw.Quantity:
        model = Corner(setup)
        spring = model.torsional_rates
        angle = model.angle_at_height(metres(height))
        assert angle is not None
        assert spring is not None
        return quantity(free_angle_for(model, spring, angle), ANGLE)

    return question


def row(answer: bw.answers.Tolerance, figure: str) -> bw.answers.ToleranceRow:
    return {one.figure: one for one in answer.rows}[figure]


def is_told_alike(setup: bw.Setup, wanted: bw.Wanted) -> bool:
    """Compare the ± of a corner's plan with what `tolerance` says; false if there is none."""
    answer = bw.reindex(setup, wanted=wanted)
    plans = (*answer.plans, *answer.rejected)
    if not plans:
        return False
    # The standard height may have a tolerance, a wish for it has none.
    assert answer.wanted_height is not None
    needed = bw.tolerance(free_angle_at(answer.wanted_height), setup)
    assert all(gap.text for gap in needed.gaps)
    assert number(answer.free_angle_uncertainty) == pytest.approx(
        number(row(needed, "answer").uncertainty), rel=1e-6, abs=ROUNDING
    )
    stands = bw.tolerance(carried_out(plans[0]), setup)
    assert all(gap.text for gap in stands.gaps)
    assert number(plans[0].height_uncertainty) == pytest.approx(
        number(row(stands, "state.height").uncertainty), rel=1e-6, abs=ROUNDING
    )
    return True


def number(quantity: bw.Quantity | None) -> float:
    assert quantity is not None
    return float(quantity.magnitude)


# -- Four places ----------------------------------------------------------------------------


@pytest.mark.parametrize("job", ["shorter-dampers", "firmer-bars", "loaded-trailer"])
def test_one_height_has_one_uncertainty_wherever_it_is_said(job: str) -> None:
    corner = bw.load_job(f"docs/examples/{job}.toml", discovered_once()).corners[0]
    setup = corner.setup
    answer = bw.reindex(setup, wanted=corner.wanted)
    plan = (*answer.plans, *answer.rejected)[0]
    at_rest = row(bw.tolerance(carried_out(plan), setup), "state.height").uncertainty
    rated = bw.tolerance(lambda one: bw.rates(bw.carry_out(one, plan)), setup)

    assert number(at_rest) > 1.0
    assert number(plan.height_uncertainty) == pytest.approx(number(at_rest), rel=1e-9)
    assert number(row(rated, "ride.height").uncertainty) == pytest.approx(number(at_rest), rel=1e-9)
    assert at_rest is not None
    assert f"leave ± {shown(at_rest, 0)} (about 95 %)" in words_of(plan)


def test_the_free_angle_of_a_reindex_has_the_uncertainty_that_tolerance_says() -> None:
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    said = row(bw.tolerance(lambda one: bw.reindex(one, wanted=WANTED), setup), "free_angle")

    assert free_angle_uncertainty(setup) == pytest.approx(number(said.uncertainty), rel=1e-9)
    assert number(said.uncertainty) > 1.0


@pytest.mark.parametrize(
    "job",
    [
        pytest.param("shorter-dampers", marks=pytest.mark.slow),
        pytest.param("firmer-bars", marks=pytest.mark.slow),
        "loaded-trailer",
    ],
)
def test_every_figure_of_a_vehicle_counts_in_a_plan_as_it_does_anywhere(job: str) -> None:
    corner = bw.load_job(f"docs/examples/{job}.toml", discovered_once()).corners[0]
    setup = corner.setup
    for held in own_figures(setup):
        setup = toleranced(setup, held, half_width_of(held))

    assert is_told_alike(setup, corner.wanted)


# -- One figure ------------------------------------------------------------------------------


BUMP_RUBBER = bw.parts.BumpRubber(
    curve=(
        bw.parts.BumpRubberForce(compression="10 mm", force="300 N"),
        bw.parts.BumpRubberForce(compression="40 mm", force="2000 N"),
    ),
    contact_height="395 mm",
)
SPRUNG: dict[str, Any] = {
    "bump_rubber": BUMP_RUBBER,
    "bushing": bw.parts.ArmBushing(rate="2.5 N*m/deg"),
    "helper_coil": bw.parts.HelperCoil(rate="6 N/mm", free_length="330 mm", seat_offset="260 mm"),
}
SCALED = bw.parts.Load(kind=bw.parts.LoadKind.SCALE_READING, mass="330 kg")
OTHER_ARM = bw.parts.Arm(
    id="t:arm/other", title="Other", radius="352 mm", socket=make_setup().arm.socket
)
KINDS = {
    "strut": attrs.evolve(
        make_setup(axle=SPRUNG, damper={"gas": GAS}).with_parts(arm=OTHER_ARM), load=SCALED
    ),
    "swing arm": make_setup(
        axle={"suspension": swing_arm_mounting(), "load_at": bw.parts.LoadPoint.HUB},
        damper={"open_length": "700 mm", "closed_length": "450 mm"},
        adjuster={"mounting": fixed_line()},
    ),
    "wishbone": on_key_lever(
        axle={"suspension": double_wishbone_mounting(), **SPRUNG},
        damper={"open_length": "500 mm", "closed_length": "250 mm"},
    ),
    "fixed": on_fixed(axle=SPRUNG, bar=make_bar(bore="12 mm")),
}


@pytest.mark.rare
@settings(max_examples=draws(12))
@given(st.data())
def test_any_single_figure_changes_a_plan_exactly_as_tolerance_says(data: st.DataObject) -> None:
    setup = KINDS[data.draw(st.sampled_from(sorted(KINDS)))]
    held = data.draw(st.sampled_from(own_figures(setup)))
    known = toleranced(setup, held, half_width_of(held))

    assert is_told_alike(known, WANTED)


@pytest.mark.parametrize("kind", [pytest.param("strut", marks=pytest.mark.slow), "wishbone"])
def test_all_figures_at_once_change_a_plan_exactly_as_tolerance_says(kind: str) -> None:
    setup = KINDS[kind]
    for held in own_figures(setup):
        setup = toleranced(setup, held, half_width_of(held))

    assert is_told_alike(setup, WANTED)


@pytest.mark.rare
@settings(max_examples=draws(8))
@given(case=corners(), data=st.data())
def test_any_corner_agrees(case: tuple[bw.Setup, str], data: st.DataObject) -> None:
    setup, height = case
    some = data.draw(st.lists(st.sampled_from(own_figures(setup)), min_size=1, max_size=4))
    for held in some:
        setup = toleranced(setup, held, half_width_of(held))

    assume(is_told_alike(setup, bw.Wanted(height=height)))


# -- What once was taken for something else ------------------------------------------------------


def half_change(setup: bw.Setup, field: str, half_width: str) -> float:
    """Half of what the free angle changes between both ends of a figure of the axle [deg]."""
    middle, half = getattr(setup.axle, field), bw.Quantity(half_width)
    ends = []
    for value in (middle - half, middle + half):
        axle = attrs.evolve(setup.axle, **{field: value})
        moved = attrs.evolve(setup, axle=axle)
        ends.append(number(bw.reindex(moved, wanted=WANTED).free_angle))
    return abs(ends[1] - ends[0]) / 2.0


def free_angle_uncertainty(setup: bw.Setup) -> float:
    return number(bw.reindex(setup, wanted=WANTED).free_angle_uncertainty)


def test_the_measured_pair_belongs_to_the_arm_that_the_vehicle_left_the_works_with() -> None:
    long = attrs.evolve(OTHER_ARM, radius="420 mm")
    # The wheel carrier stands as it did with the chassis' own arm at the measured angle.
    setup = make_setup().with_parts(arm=long)
    known = with_tolerance(setup, "axle.measured_angle", "0.5 deg")

    expected = TWO_OF_A_RECTANGLE * half_change(setup, "measured_angle", "0.5 deg")
    assert free_angle_uncertainty(known) == pytest.approx(expected, rel=1e-9)


def test_bushings_that_the_measured_height_places_go_with_it() -> None:
    setup = make_setup(axle={"bushing": bw.parts.ArmBushing(rate="40 N*m/deg")})
    known = with_tolerance(setup, "axle.measured_height", "3 mm")
    held = make_setup(axle={"bushing": bw.parts.ArmBushing(rate="40 N*m/deg", set_angle="-5 deg")})

    expected = TWO_OF_A_RECTANGLE * half_change(setup, "measured_height", "3 mm")
    assert free_angle_uncertainty(known) == pytest.approx(expected, rel=1e-9)
    # Bushings that are tightened at a stated angle stay there.
    stated = free_angle_uncertainty(with_tolerance(held, "axle.measured_height", "3 mm"))
    assert stated > 1.5 * free_angle_uncertainty(known)


# -- By hand -------------------------------------------------------------------------------------


def test_bar_and_tube_of_one_steel_err_together() -> None:
    setup = make_setup()
    other = bw.parts.Material(id="t:material/other", title="Other steel", shear_modulus="77 GPa")
    apart = setup.with_parts(anchor=attrs.evolve(tube_of(setup), material=other))
    modulus = "material.shear_modulus"
    of_bar, of_tube = (with_tolerance(apart, f"{p}.{modulus}", "1 GPa") for p in ("bar", "anchor"))
    alone = free_angle_uncertainty(of_bar), free_angle_uncertainty(of_tube)
    both = with_tolerance(of_bar, f"anchor.{modulus}", "1 GPa")
    together = free_angle_uncertainty(with_tolerance(setup, f"bar.{modulus}", "1 GPa"))

    assert together == pytest.approx(sum(alone), rel=1e-3)
    # The same tolerance on two steels is two coincidences, which seldom meet.
    assert free_angle_uncertainty(both) == pytest.approx(math.hypot(*alone), rel=1e-9)


def test_without_tolerances_nothing_is_open() -> None:
    answer = bw.reindex(make_setup(), wanted=WANTED)

    assert number(answer.free_angle_uncertainty) == number(answer.lever_angle_uncertainty) == 0.0
    assert {number(plan.height_uncertainty) for plan in answer.plans} == {0.0}


def test_heights_that_were_looked_ahead_for_are_left_open_as_those_asked_for_alone() -> None:
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    settings = [(turns, clocked) for turns in (-1.5, 0.0, 2.0) for clocked in (-3.5, -3.4)]
    corner = Corner(van)
    together, alone = (PlanUncertainty(corner, height=0.38) for _ in range(2))
    together.look_ahead(settings)
    found = together.heights(settings)
    assert found == [alone.heights([one])[0] for one in settings]
    assert len(set(found)) == len(settings)


def test_a_key_turns_the_lever_and_not_the_free_angle() -> None:
    answer = bw.reindex(
        with_tolerance(make_setup(), "arm.socket.key_angle", "0.5 deg"), wanted=WANTED
    )

    assert number(answer.free_angle_uncertainty) == 0.0
    assert number(answer.lever_angle_uncertainty) == pytest.approx(0.5 * TWO_OF_A_RECTANGLE)
    assert number(answer.plans[0].height_uncertainty) > 1.0


# -- What a bar without torque has to spare --------------------------------------------------


def reserves(setup: bw.Setup) -> tuple[bw.Quantity, ...]:
    """What the bar that is in has to spare, with the damper on and with it off."""
    return tuple(way.unloading_reserve for way in bw.reindex(setup, wanted=WANTED).removal)


def left_open(setup: bw.Setup) -> list[float]:
    return [
        number(way.unloading_reserve_uncertainty)
        for way in bw.reindex(setup, wanted=WANTED).removal
    ]


def reserve_at(place: int) -> Callable[[bw.Setup], bw.Quantity]:
    return lambda setup: reserves(setup)[place]


@pytest.mark.parametrize(
    ("path", "half_width", "opens"),
    [
        ("bar.diameter", "0.05 mm", [False, False]),
        ("load.mass", "3 kg", [False, False]),
        ("damper.open_length", "2 mm", [True, False]),
        ("axle.droop_stop", "0.4 deg", [False, True]),
        ("arm.radius", "1 mm", [True, False]),
        ("axle.suspension.top_up", "2 mm", [True, False]),
        ("arm.socket.key_angle", "0.3 deg", [True, True]),
        ("bar.blank_angle", "0.2 deg", [True, True]),
        ("adjuster.thread_end", "1 mm", [True, True]),
        ("adjuster.thread_start", "1 mm", [False, False]),
    ],
)
def test_what_is_to_spare_has_the_uncertainty_that_tolerance_says(
    path: str, half_width: str, opens: list[bool]
) -> None:
    known = with_tolerance(make_setup(), path, half_width)
    said = [number(bw.tolerance(reserve_at(place), known).rows[0].uncertainty) for place in (0, 1)]

    assert left_open(known) == pytest.approx(said, rel=1e-9, abs=ROUNDING)
    assert [value > 0.0 for value in left_open(known)] == opens


def test_a_damper_that_is_longer_than_the_travel_opens_nothing() -> None:
    loose = make_setup(damper={"open_length": "760 mm"})

    assert left_open(with_tolerance(loose, "damper.open_length", "2 mm")) == [0.0, 0.0]


def test_a_fixed_socket_has_to_spare_what_is_nearer() -> None:
    known = with_tolerance(on_fixed(), "axle.bump_stop", "0.4 deg")
    said = [number(bw.tolerance(reserve_at(place), known).rows[0].uncertainty) for place in (0, 1)]

    assert left_open(known) == pytest.approx(said, rel=1e-9, abs=ROUNDING)


def test_one_end_that_cannot_be_leaves_the_other_to_speak() -> None:
    # A bore that comes up to the outside diameter leaves no wall.
    setup = make_setup()
    known = with_tolerance(setup, "anchor.bore", "12 mm")
    said = bw.tolerance(lambda one: bw.reindex(one, wanted=WANTED), known)

    assert len(said.gaps) == 1
    assert free_angle_uncertainty(known) == pytest.approx(
        number(row(said, "free_angle").uncertainty), rel=1e-9
    )


def test_an_end_at_which_the_lever_does_not_reach_leaves_the_other_to_speak() -> None:
    known = with_tolerance(make_setup(), "anchor.lever_radius", "100 mm")
    plan = bw.reindex(known, wanted=WANTED).plans[0]
    said = bw.tolerance(carried_out(plan), known)

    assert [gap.text for gap in said.gaps] == [""]
    assert number(plan.height_uncertainty) == pytest.approx(
        number(row(said, "state.height").uncertainty), rel=1e-9
    )


@pytest.mark.parametrize(
    ("path", "half_width", "shows"),
    [
        ("axle.measured_height", "300 mm", "404 mm ± 300 mm"),
        ("bar.diameter", "30 mm", "23.3 mm ± 30 mm"),
    ],
)
def test_a_tolerance_that_leaves_nothing_to_plan_is_refused(
    path: str, half_width: str, shows: str
) -> None:
    known = with_tolerance(make_setup(), path, half_width)

    with pytest.raises(bw.QuantityError) as caught:
        bw.reindex(known, wanted=WANTED)
    assert (caught.value.code, caught.value.key, caught.value.value) == ("Q303", path, shows)
    assert caught.value.remedy.startswith("check the unit; if the figure is")

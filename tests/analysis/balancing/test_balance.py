"""How a van is balanced: by hand, by a multibody engine, and what is said where it cannot be."""

from __future__ import annotations

import functools
from typing import Any

import attrs
import numpy as np
import pytest

import barwright as bw
from barwright.analysis.balancing.nut_search import NOT_WORTH_CHASING
from barwright.analysis.balancing.standing import StandingVehicle
from barwright.analysis.balancing.weighed_vehicle import weighed_vehicle
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import figure_places, toleranced_figures
from barwright.answers import BalanceAim
from barwright.parts import WeighedAxle, WholeVehicle, measured
from sample_packs import discovered_once
from weighed_vans import (
    fours,
    fours_with_fixed_rear,
    fronts,
    toleranced_fronts,
    van,
    van_on_four,
    wheel,
)

CROSSED = np.array([0.0, 1.0, 1.0, 0.0])
LEVEL = [bw.Wanted(height="395 mm")] * 2
G = 9.80665


def balanced(vehicle: WholeVehicle, wanted: Any = LEVEL, **asked: Any) -> bw.answers.Balance:
    return bw.balance(fronts(), vehicle=vehicle, wanted=wanted, **asked)


LOW_LEFT = van((306.0, 341.0, 268.0, 230.0), (385.0, 403.0))


@functools.cache
def low_left() -> bw.answers.Balance:
    return bw.balance(toleranced_fronts(), vehicle=LOW_LEFT, wanted=LEVEL)


@functools.cache
def four() -> bw.answers.Balance:
    wanted = [bw.Wanted(height=height) for height in ("395 mm", "395 mm", "400 mm", "400 mm")]
    return bw.balance(fours(), vehicle=van_on_four(), wanted=wanted)


def heights(settings: bw.answers.NutSettings) -> list[float]:
    return [one.height.m_as("mm") for one in settings.scales if one.height is not None]


# -- What a good mechanic does -------------------------------------------------------------


def test_two_nuts_are_turned_oppositely_and_give_the_heights() -> None:
    answer = low_left()
    found = answer.preferred

    assert answer.verdict is bw.Verdict.REACHED
    assert answer.outcome is bw.Outcome.FINE_WITH_CHANGES
    assert found.aim is BalanceAim.HEIGHTS
    assert heights(found) == pytest.approx([395.0, 395.0], abs=0.6)
    assert [one.corner for one in found.moves] == ["front right", "front left"]
    # What lowers comes first; clockwise raises this van.
    assert [one.is_raised for one in found.moves] == [False, True]
    assert [one.correcting_turns.m_as("turn") > 0.0 for one in found.moves] == [False, True]
    for one in found.moves:
        flats = one.correcting_turns.m_as("turn") * 6.0
        assert flats == pytest.approx(round(flats), abs=1e-6)
        assert one.left_to_raise.magnitude > 0.0
        assert one.left_to_lower.magnitude > 0.0
    assert answer.headline.startswith(
        "Cross weight 53.2 % now. Turn front right: 2.67 turns (16 flats) counter-clockwise;"
    )
    assert " clockwise, seen from the bolt's free end. Then heights" in answer.headline


def test_every_aim_is_answered() -> None:
    aims = [one.aim for one in low_left().settings]

    assert aims == [BalanceAim.HEIGHTS, BalanceAim.CROSS_WEIGHT, BalanceAim.BOTH]


@pytest.mark.rare
def test_the_aim_that_is_asked_for_comes_first() -> None:
    asked = balanced(LOW_LEFT, aim=BalanceAim.CROSS_WEIGHT)

    assert asked.preferred.aim is BalanceAim.CROSS_WEIGHT
    assert asked.preferred.cross_weight == pytest.approx(0.5, abs=2e-3)


@pytest.mark.rare
def test_a_wished_cross_weight_is_an_aim_too() -> None:
    wished = balanced(attrs.evolve(LOW_LEFT, wanted_cross_weight=51.0))

    assert wished.preferred.aim is BalanceAim.BOTH


def test_what_is_not_worth_chasing_is_left_alone() -> None:
    answer = balanced(van())

    assert answer.verdict is bw.Verdict.BALANCED
    assert answer.outcome is bw.Outcome.FINE
    assert answer.preferred.turned == ()
    assert answer.cautions == ()
    assert answer.headline == (
        "Leave the nuts where they are: heights 394 mm and 396 mm, cross weight 50.0 ± 0.3 %."
    )
    assert repr(answer.preferred.moves[0]) == "<NutMove: front left: leave the nut>"
    assert repr(answer.preferred) == "<NutSettings: heights: balanced>"


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        (NOT_WORTH_CHASING - 0.5, bw.Verdict.BALANCED),
        (2.0 * NOT_WORTH_CHASING, bw.Verdict.REACHED),
    ],
)
def test_five_kilograms_at_a_wheel_are_not_chased_and_ten_are(
    more: float, verdict: bw.Verdict
) -> None:
    scales = (323.0 - more, 323.0 + more, 249.0 + more, 249.0 - more)

    assert balanced(van(scales, (395.0, 395.0)), aim=BalanceAim.CROSS_WEIGHT).verdict is verdict


@pytest.mark.rare
def test_without_a_wish_both_sides_come_to_their_mean() -> None:
    found = bw.balance(fronts(), vehicle=LOW_LEFT).preferred

    assert heights(found) == pytest.approx([394.0, 394.0], abs=0.6)


@pytest.mark.rare
def test_an_axle_may_say_its_height_itself() -> None:
    high = attrs.evolve(LOW_LEFT, front=attrs.evolve(LOW_LEFT.front, wanted_height="400 mm"))

    assert heights(balanced(high).preferred) == pytest.approx([400.0, 400.0], abs=0.6)


@pytest.mark.rare
def test_heights_and_a_contrary_cross_weight_are_met_halfway() -> None:
    contrary = van((340.0, 306.0, 232.0, 266.0), (385.0, 403.0))
    answer = balanced(contrary, aim=BalanceAim.BOTH)

    assert answer.verdict is bw.Verdict.NEAREST
    assert answer.outcome is bw.Outcome.FINE_WITH_CHANGES
    assert "more wishes than nuts" in answer.findings[0].line
    found = {one.aim: one for one in answer.settings}
    left = {aim: heights(one)[0] for aim, one in found.items()}
    assert left[BalanceAim.CROSS_WEIGHT] < left[BalanceAim.BOTH] < left[BalanceAim.HEIGHTS]


def test_four_nuts_give_heights_and_cross_weight() -> None:
    answer = four()
    found = answer.preferred

    assert found.aim is BalanceAim.BOTH
    assert answer.verdict is bw.Verdict.REACHED
    assert heights(found) == pytest.approx([395.0, 395.0, 400.0, 400.0], abs=3.0)
    assert found.cross_weight == pytest.approx(0.5, abs=5e-3)
    assert len(found.moves) == 4


@pytest.mark.rare
def test_a_warp_of_four_heights_is_told_and_not_chased() -> None:
    wanted = [bw.Wanted(height=height) for height in ("395 mm", "395 mm", "400 mm", "400 mm")]
    twisted = van_on_four(heights=(391.0, 399.0, 402.0, 396.0))
    found = bw.balance(fours(), vehicle=twisted, wanted=wanted).preferred

    assert found.verdict is bw.Verdict.REACHED
    assert any("no nut mends it" in one.line for one in found.findings)
    assert all(abs(one.correcting_turns.m_as("turn")) < 2.0 for one in found.moves)


@pytest.mark.rare
def test_bars_in_fixed_sockets_at_the_rear_only_give_way() -> None:
    read = van_on_four()
    rear = {
        side: attrs.evolve(getattr(read.rear, side), nut_turns=None) for side in ("left", "right")
    }
    vehicle = attrs.evolve(read, rear=attrs.evolve(read.rear, **rear))
    answer = bw.balance(fours_with_fixed_rear(), vehicle=vehicle)

    assert {one.corner for one in answer.preferred.moves} == {"front left", "front right"}
    assert answer.preferred.aim is BalanceAim.HEIGHTS


# -- Against the world ---------------------------------------------------------------------


def test_a_symmetric_car_by_hand() -> None:
    """One self-stress: the free height over the compliances of all springs and tyres.

    Each diagonal's two wheels gain what the others lose; nothing leans, so gravity has no part.
    """
    level = van((320.0, 320.0, 250.0, 250.0), (395.0, 395.0))
    standing = StandingVehicle(weighed_vehicle(fronts(), level))
    law = standing.laws[0]
    turn = np.array([1.0 / 6.0, 0.0])
    free = law.free_height_per_turn(law.height, turns=law.turns) / 6.0
    compliance = 2.0 * float(np.sum(1.0 / standing.rates[[0, 2]]))
    compliance += 2.0 / 185e3 + 2.0 / 190e3

    gained = standing.rest(standing.turns + turn).stance.loads - standing.loads

    assert gained == pytest.approx(free / compliance * np.array([1, -1, -1, 1]), rel=0.01)


def test_nothing_turned_leaves_what_was_read() -> None:
    tied = {"anti_roll_bar": bw.parts.AxleAntiRollBar(one_wheel_rate="9 N/mm")}
    for vehicle in (LOW_LEFT, van((306.0, 341.0, 268.0, 230.0), (385.0, 403.0), front=tied)):
        standing = StandingVehicle(weighed_vehicle(fronts(), vehicle))
        stance = standing.rest(standing.turns).stance

        assert stance.loads / G == pytest.approx([306.0, 341.0, 268.0, 230.0], abs=1e-6)
        assert stance.heights[:2] == pytest.approx([0.385, 0.403], abs=1e-9)


def test_four_nuts_solved_forward_give_what_was_wanted() -> None:
    found = four().preferred
    standing = StandingVehicle(weighed_vehicle(fours(), van_on_four()))
    order = {one.corner: one.correcting_turns.m_as("turn") for one in found.moves}
    turned = np.array([order[setup.corner] for setup in standing.weighed.setups])
    stance = standing.rest(standing.turns + turned).stance

    for number, one in enumerate(found.scales):
        assert one.scale_uncertainty is not None
        off = abs(stance.loads[number] / G - one.scale_reading.m_as("kg"))
        assert off < one.scale_uncertainty.m_as("kg") / 100.0
    share = float(stance.loads @ CROSSED / np.sum(stance.loads))
    assert share == pytest.approx(0.5, abs=5e-3)


def test_most_true_vans_then_stand_within_the_stated_uncertainty() -> None:
    """The van's own figures lie anywhere within their ±, and so does each reading."""
    found = low_left().preferred
    weighed = weighed_vehicle(toleranced_fronts(), LOW_LEFT)
    ways = toleranced_figures(weighed, {})
    shifter = FigureShifter(weighed, figure_places(weighed))
    order = {one.corner: one.correcting_turns.m_as("turn") for one in found.moves}
    turned = np.array([order["front left"], order["front right"]])
    drawn = np.random.default_rng(7).uniform(-1.0, 1.0, size=(60, len(ways)))
    within = 0
    for shares in drawn:
        true = StandingVehicle(shifter.moved(dict(zip(ways, shares.tolist(), strict=True))))
        loads = true.rest(true.turns + turned).stance.loads
        share = float(loads @ CROSSED / np.sum(loads))
        within += abs(share - found.cross_weight) <= found.cross_uncertainty

    assert 0.9 * len(drawn) <= within


# -- What is missing or wrong --------------------------------------------------------------


def test_readings_that_do_not_add_up_to_the_total_are_told_and_nothing_is_turned() -> None:
    answer = balanced(attrs.evolve(LOW_LEFT, total="1190 kg"))

    assert answer.verdict is bw.Verdict.CONTRADICTORY
    assert answer.outcome is bw.Outcome.NO
    assert answer.settings == ()
    assert answer.cross_weight == pytest.approx(0.5319, abs=1e-4)
    assert "found -45.0 kg, limit" in answer.headline


def test_readings_that_do_not_add_up_on_an_axle_are_told() -> None:
    answer = balanced(van(rear={"scale_reading": "540 kg"}))

    assert answer.verdict is bw.Verdict.CONTRADICTORY
    assert "the rear wheels weighed together" in answer.headline
    assert balanced(van(rear={"scale_reading": "500 kg"})).verdict is bw.Verdict.BALANCED


@pytest.mark.parametrize(
    ("rear", "total"),
    [
        ({"right": wheel(), "scale_reading": "498 kg"}, None),
        ({"right": wheel()}, "1144 kg"),
    ],
)
def test_one_missing_reading_is_what_is_left_of_a_sum(rear: Any, total: str | None) -> None:
    answer = balanced(van(rear=rear, total=total))

    assert answer.scales[3].scale_reading.m_as("kg") == pytest.approx(248.0, abs=1e-9)
    assert answer.is_answered


def test_without_scales_it_says_which_are_missing() -> None:
    answer = bw.balance(fronts(), vehicle=WholeVehicle())

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    assert answer.scales == ()
    for key in ("front.left.scale_reading", "rear.wheel_rate", "front.left.height", "front.track"):
        assert key in answer.headline
    with pytest.raises(bw.NoFigureError):
        _ = answer.preferred


def test_without_the_rear_rate_it_still_says_how_it_stands() -> None:
    answer = balanced(van(rear={"wheel_rate": "unknown"}))

    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert answer.cross_weight == pytest.approx(0.5, abs=1e-3)
    assert answer.headline == (
        "Cross weight 50.0 % now. Needed for turns of the nuts: rear.wheel_rate in [balance]."
    )


def test_what_a_corner_itself_lacks_is_named() -> None:
    unknown = [attrs.evolve(one, arm=attrs.evolve(one.arm, radius="unknown")) for one in fronts()]
    answer = bw.balance(unknown, vehicle=van())

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    assert "arm radius" in answer.headline


def test_a_bar_that_does_not_fit_is_told_first() -> None:
    truck = discovered_once().bar("hodmule:bar/firm")
    answer = bw.balance([one.with_parts(bar=truck) for one in fronts()], vehicle=van())

    assert answer.verdict is bw.Verdict.DOES_NOT_FIT


def test_what_stands_in_for_missing_figures_is_told() -> None:
    bare = {"tyre_rate": None, "unsprung_mass": None, "track": None}
    answer = balanced(van(front={"left": wheel("324 kg", "394 mm")}, rear=bare))
    lines = [one.line for one in answer.findings]

    assert any("rear.track, rear.tyre_rate, rear.unsprung_mass" in line for line in lines)
    assert any("mid-thread" in line and "front left" in line for line in lines)


def test_a_far_off_cross_weight_has_another_cause() -> None:
    answer = balanced(van((290.0, 356.0, 284.0, 214.0), (395.0, 395.0)))

    assert any("barwright diagnose" in one.line for one in answer.findings)


def test_a_thread_that_ends_sends_to_a_re_index() -> None:
    answer = balanced(LOW_LEFT, [bw.Wanted(height="330 mm")] * 2)

    assert answer.verdict is bw.Verdict.OUT_OF_REACH
    assert "re-indexed: barwright reindex" in answer.headline
    ends = [one.left_to_lower.m_as("turn") for one in answer.preferred.moves]
    assert ends == pytest.approx([0.0, 0.0], abs=1.0 / 6.0)


def test_fixed_sockets_leave_nothing_to_turn() -> None:
    registry = discovered_once()
    setups = [
        registry.setup("trundlet:chassis/open", corner=f"rear {s}") for s in ("left", "right")
    ]
    height = f"{setups[0].axle.standard_height.m_as('mm')} mm"
    vehicle = WholeVehicle(
        front=WeighedAxle(
            track="1390 mm", wheel_rate="20 N/mm", left=wheel("240 kg"), right=wheel("250 kg")
        ),
        rear=WeighedAxle(left=wheel("250 kg", height), right=wheel("255 kg", height)),
    )
    answer = bw.balance(setups, vehicle=vehicle)

    assert answer.verdict is bw.Verdict.NOTHING_TO_TURN
    assert "barwright reindex" in answer.headline
    assert answer.ride_and_roll is not None


# -- What must not be ----------------------------------------------------------------------


TILTED = ("430 mm", "360 mm")
FORBIDDEN = [
    (van((324.0, 322.0, 40.0, 42.0)), TILTED, bw.Verdict.OUT_OF_REACH, "wheel lifts off its scale"),
    (van((324.0, 322.0, 60.0, 62.0)), TILTED, bw.Verdict.NOT_SAFE, "spring goes slack"),
    (
        van((60.0, 322.0, 250.0, 248.0)),
        ("300 mm", "420 mm"),
        bw.Verdict.NOT_SAFE,
        "bar goes slack",
    ),
    (
        van((150.0, 322.0, 250.0, 248.0), (482.0, 396.0)),
        ("520 mm", "396 mm"),
        bw.Verdict.OUT_OF_REACH,
        "front left arm comes to rest on a stop",
    ),
    (LOW_LEFT, ("460 mm",) * 2, bw.Verdict.OVERSTRESSED, "yields at full bump"),
]


@pytest.mark.parametrize(("vehicle", "wished", "verdict", "why"), FORBIDDEN)
def test_what_must_not_be_is_refused_with_its_reason(
    vehicle: WholeVehicle, wished: tuple[str, str], verdict: bw.Verdict, why: str
) -> None:
    answer = balanced(vehicle, [bw.Wanted(height=height) for height in wished])

    assert (answer.verdict, answer.outcome) == (verdict, bw.Outcome.NO)
    assert any(why in one.line for one in answer.findings)
    assert why in answer.headline


# -- Refusals ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "setups",
    [
        list,
        lambda: fronts()[:1],
        lambda: (*fronts(), fronts()[0]),
        lambda: (fronts()[0], discovered_once().setup("fells:chassis/long", corner="front right")),
    ],
)
def test_other_corners_than_both_of_an_axle_are_refused(setups: Any) -> None:
    with pytest.raises(bw.JobError) as caught:
        bw.balance(setups(), vehicle=van())

    assert (caught.value.code, caught.value.key) == ("S207", "corners")


def test_a_wish_too_many_is_refused() -> None:
    with pytest.raises(bw.JobError) as caught:
        balanced(van(), LEVEL[:1])

    assert caught.value.key == "wanted"


@pytest.mark.parametrize(
    ("vehicle", "key"),
    [
        (lambda: van((324.0, 322.0, 20.0, 248.0)), "balance.rear.left.scale_reading"),
        (
            lambda: van(front={"left": wheel("324 kg", "394 mm", pin_distance="400 mm")}),
            "balance.front.left.pin_distance",
        ),
        (lambda: van(heights=(200.0, 396.0)), "balance.front.left.height"),
    ],
)
def test_readings_that_no_such_vehicle_gives_are_refused(vehicle: Any, key: str) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        balanced(vehicle())

    assert (caught.value.code, caught.value.key) == ("Q302", key)


def test_a_corners_own_reading_counts_where_the_vehicle_has_none() -> None:
    read = [
        attrs.evolve(
            one,
            reading=measured(
                one, height="394 mm ± 1 mm", scale_reading="323 kg ± 1 kg", pin_distance="158 mm"
            ),
        )
        for one in fronts()
    ]
    silent = {"left": wheel(), "right": wheel()}
    answer = bw.balance(read, vehicle=van(front=silent))

    assert answer.scales[0].scale_reading.m_as("kg") == pytest.approx(323.0)
    assert answer.scales[0].height is not None
    assert answer.scales[0].height.m_as("mm") == pytest.approx(394.0)
    weighed = weighed_vehicle(read, van(front=silent)).vehicle.front.left
    assert weighed.about["height"].tolerance == bw.Quantity("1 mm")
    assert weighed.pin_distance == bw.Quantity("158 mm")
    # A sprung mass is no scale reading.
    light = [
        attrs.evolve(one, reading=measured(one, height="394 mm", sprung_mass="290 kg"))
        for one in fronts()
    ]
    assert "scale_reading" in bw.balance(light, vehicle=van(front=silent)).headline

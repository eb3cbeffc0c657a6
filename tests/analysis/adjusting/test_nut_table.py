"""A table over the thread says where the corner stands, with what left, and what must be known."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import attrs
import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner import Corner
from barwright.answers import BoltDatum, Caution, NutRow, Support, Topic, TurnedPart, TurningSense
from draws import draws
from sample_records import fixed_line, known, make_bar, make_setup
from setup_strategies import corners

# Room for all of the thread between the stops.
ROOMY = {"open_length": "700 mm", "closed_length": "450 mm"}


SHORT_TRAVEL = make_setup(axle={"droop_stop": "-15 deg"})


def mm(length: bw.Quantity) -> float:
    return float(length.m_as("mm"))


def turns(value: bw.Quantity) -> float:
    return float(value.m_as("turn"))


def counts(rows: Sequence[NutRow]) -> list[int]:
    return [row.raising_turns for row in rows]


def planned(setup: bw.Setup, height: str) -> bw.Setup:
    """A setup that stands at a height, on its spring."""
    plans = bw.reindex(setup, wanted=bw.Wanted(height=height)).plans
    assume(plans)
    return bw.carry_out(setup, plans[0])


def at(setup: bw.Setup, nut: float) -> bw.Setup:
    return attrs.evolve(setup, nut_turns=f"{nut:.9f} turn")


# -- Rows ------------------------------------------------------------------------------


@settings(max_examples=draws(20), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_each_turn_in_the_raising_sense_raises_the_vehicle(drawn: tuple[bw.Setup, str]) -> None:
    table = bw.nut_table(planned(*drawn))
    raising = 1.0 if table.raising_sense is TurningSense.CLOCKWISE else -1.0
    assert counts(table.table_rows) == list(
        range(table.table_rows[0].raising_turns, table.table_rows[-1].raising_turns + 1)
    )
    for low, high in itertools.pairwise(table.table_rows):
        assert math.isclose(turns(high.nut_turns) - turns(low.nut_turns), raising, abs_tol=1e-9)
        assert turns(high.from_slack_end) > turns(low.from_slack_end)
        on_stop = {low.support, high.support} & {Support.DROOP, Support.BUMP}
        assert mm(high.height) > mm(low.height) or on_stop
        assert mm(high.height) >= mm(low.height)


@pytest.mark.rare
@settings(max_examples=draws(20), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_each_row_is_where_the_corner_rests_with_its_nut_there(
    drawn: tuple[bw.Setup, str],
) -> None:
    setup = planned(*drawn)
    table = bw.nut_table(setup)
    for row in table.table_rows[::5]:
        there = attrs.evolve(setup, nut_turns=row.nut_turns)
        figures = known(bw.rates(there).figures)
        bolt = known(figures.bolt)
        assert mm(row.height) == pytest.approx(mm(figures.ride.height), abs=1e-6)
        assert mm(row.droop_left) == pytest.approx(mm(figures.droop.height - row.height), abs=1e-6)
        assert mm(row.bump_left) == pytest.approx(mm(row.height - figures.bump.height), abs=1e-6)
        assert row.torque.m_as("N*m") == pytest.approx(figures.ride.torque.m_as("N*m"), abs=1e-6)
        assert row.bolt_at_ride.m_as("N") == pytest.approx(bolt.at_ride.m_as("N"), abs=1e-4)
        assert row.bolt_at_bump.m_as("N") == pytest.approx(bolt.at_bump.m_as("N"), abs=1e-4)
        assert row.slack_at_droop is (figures.droop.torque.magnitude == 0.0)


@settings(max_examples=draws(20), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_the_rise_per_turn_is_what_a_small_turn_gives(drawn: tuple[bw.Setup, str]) -> None:
    setup = planned(*drawn)
    table = bw.nut_table(setup)
    # Away from the ends of the thread.
    for row in table.table_rows[1:-1:4]:
        around = [
            mm(bw.ride(at(setup, turns(row.nut_turns) + step)).height) for step in (-1e-3, 1e-3)
        ]
        slope = abs(around[1] - around[0]) / 2e-3
        assert math.isclose(slope, float(row.height_per_turn.magnitude), rel_tol=1e-3, abs_tol=1e-6)


@pytest.mark.parametrize("setup", [make_setup(damper=ROOMY), on_key_lever()])
def test_the_row_of_a_plan_carried_out_is_what_the_plan_says(setup: bw.Setup) -> None:
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).preferred
    row = bw.nut_table(bw.carry_out(setup, plan)).set_row
    assert (row.nut_turns, row.pin_distance) == (plan.nut_turns, plan.pin_distance)
    for mine, its in (
        (row.height, plan.height),
        (row.droop_left, plan.droop_left),
        (row.bump_left, plan.bump_left),
    ):
        assert mm(mine) == pytest.approx(mm(its), abs=1e-6)
    # The plan's is that of the exact height, a fraction of a flat away.
    assert row.height_per_turn.magnitude == pytest.approx(
        known(plan.height_per_turn).magnitude, rel=0.01
    )


def test_rows_count_from_where_the_nut_is_set_to_both_ends_of_the_thread() -> None:
    # 31 mm of thread for the pin, 1.75 mm a turn: 8.857 turns to either side of its middle.
    for nut, expected in (("0 turn", (-8, 8)), ("2.5 turn", (-11, 6)), ("-8.5 turn", (0, 17))):
        rows = bw.nut_table(make_setup(nut_turns=nut)).table_rows
        assert (rows[0].raising_turns, rows[-1].raising_turns) == expected
        here = next(row for row in rows if row.is_set)
        assert here.nut_turns == bw.Quantity(float(nut.split()[0]), "turn")
        assert turns(here.from_slack_end) == pytest.approx(15.5 / 1.75 + turns(here.nut_turns))
        assert mm(here.pin_distance) == pytest.approx(159.5 - 1.75 * turns(here.nut_turns))


def test_a_nut_at_the_end_of_its_thread_is_a_row_too() -> None:
    end = 15.5 / 1.75
    for nut, expected in ((-end, (0, 17)), (end, (-17, 0))):
        rows = bw.nut_table(at(make_setup(), nut)).table_rows
        assert (rows[0].raising_turns, rows[-1].raising_turns) == expected


def test_left_and_right_have_one_table() -> None:
    left, right = (bw.nut_table(make_setup(side=side)) for side in bw.parts.Side)
    assert left.table_rows == right.table_rows


@pytest.mark.parametrize(
    ("place", "count", "expected"),
    [
        (None, 5, [*range(-5, 6)]),
        (None, 0, [0]),
        ("7 turn", 3, [4, 5, 6, 7, 8]),
        ("0.5 turn", 1, [0, 1]),
        ("20 turn", 5, []),
    ],
)
def test_rows_near_a_place_end_where_the_thread_ends(
    place: str | None, count: int, expected: list[int]
) -> None:
    assert counts(bw.nut_table(make_setup()).rows_near(place, count=count)) == expected


def test_rows_near_where_there_is_no_table_are_none() -> None:
    assert bw.nut_table(on_fixed()).rows_near() == ()


# -- Curve -----------------------------------------------------------------------------


def test_the_curve_runs_over_the_whole_thread_and_through_the_rows() -> None:
    table = bw.nut_table(make_setup(damper=ROOMY))
    curve = known(table.nut_curve)
    assert curve.from_slack_end[0].m_as("turn") == 0.0
    assert curve.from_slack_end[-1].m_as("turn") == pytest.approx(2.0 * 15.5 / 1.75)
    assert abs(curve.nut_turns[-1].m_as("turn")) == pytest.approx(15.5 / 1.75)
    for name in ("pin_distance", "height", "droop_left", "bump_left"):
        between = np.interp(
            [turns(row.from_slack_end) for row in table.table_rows],
            curve.from_slack_end.m_as("turn"),
            getattr(curve, name).m_as("mm"),
        )
        mine = [mm(getattr(row, name)) for row in table.table_rows]
        assert between == pytest.approx(mine, abs=0.01)
    for name, unit in (("torque", "N*m"), ("bolt_at_ride", "N"), ("bolt_at_bump", "N")):
        between = np.interp(
            [turns(row.from_slack_end) for row in table.table_rows],
            curve.from_slack_end.m_as("turn"),
            getattr(curve, name).m_as(unit),
        )
        mine = [getattr(row, name).m_as(unit) for row in table.table_rows]
        assert between == pytest.approx(mine, rel=1e-3)
        assert not getattr(curve, name).magnitude.flags.writeable


# -- What is turned, and what must be known ------------------------------------------------


@pytest.mark.parametrize(
    ("setup", "part", "datum"),
    [
        (make_setup(), TurnedPart.NUT, BoltDatum.PIVOT),
        (make_setup(adjuster={"mounting": fixed_line()}), TurnedPart.NUT, BoltDatum.HEAD),
        (on_key_lever(), TurnedPart.BOLT, BoltDatum.CROSS_MEMBER),
    ],
)
def test_it_says_what_is_turned_and_where_distances_begin(
    setup: bw.Setup, part: TurnedPart, datum: BoltDatum
) -> None:
    table = bw.nut_table(setup)
    assert (table.verdict, table.turned_part, table.bolt_datum) == (
        bw.Verdict.LISTED,
        part,
        datum,
    )
    full = {TurnedPart.NUT: Caution.FULL_NUT, TurnedPart.BOLT: Caution.FULL_BOLT}
    assert full[part] in table.cautions
    assert {*full.values()} - {full[part]} - {*table.cautions}
    assert (Caution.SPACER in table.cautions) is (part is TurnedPart.NUT)
    assert Caution.BOTH_SIDES_BY_TURNS in table.cautions
    assert Caution.PROVE_LOOSE not in table.cautions


def test_of_a_trailer_its_coupling_is_to_be_checked() -> None:
    setup = make_setup()
    for drive, caution in (
        ("none", Caution.ON_ITS_COUPLING),
        ("front", Caution.AFTER_HEIGHT_CHANGE),
    ):
        chassis = attrs.evolve(setup.chassis, drive=drive)
        cautions = bw.nut_table(attrs.evolve(setup, chassis=chassis)).cautions
        both = {Caution.ON_ITS_COUPLING, Caution.AFTER_HEIGHT_CHANGE}
        assert both & {*cautions} == {caution}


def test_a_fixed_socket_has_nothing_to_turn_and_says_what_to_do() -> None:
    table = bw.nut_table(on_fixed(), measured="400 mm")
    assert (table.outcome, table.verdict) == (bw.Outcome.NO, bw.Verdict.NOTHING_TO_TURN)
    assert (table.table_rows, table.nut_curve, table.correction) == ((), None, None)
    assert table.headline.startswith("Nothing to turn: a fixed socket holds the bar, and only")
    with pytest.raises(bw.NoFigureError, match="N201: got 'nothing to turn'"):
        _ = table.set_row


def test_a_bar_without_overlap_has_no_table() -> None:
    table = bw.nut_table(make_setup(bar=make_bar(length="1200 mm")), measured="400 mm")
    assert (table.verdict, table.table_rows) == (bw.Verdict.DOES_NOT_FIT, ())
    assert table.findings[0].topic is Topic.NO_OVERLAP


def test_a_bar_that_does_not_fit_for_other_reasons_keeps_its_table_and_gets_no_turn() -> None:
    setup = make_setup().with_parts(bar=make_bar(arm_teeth=38))
    table = bw.nut_table(setup, measured="400 mm")
    assert (table.verdict, table.correction) == (bw.Verdict.DOES_NOT_FIT, None)
    assert table.findings[0].topic is Topic.TOOTH_COUNT
    assert table.table_rows


def test_a_nut_beyond_its_thread_is_an_error() -> None:
    with pytest.raises(bw.QuantityError, match="Q302: nut_turns: got '9 turn'"):
        bw.nut_table(make_setup(nut_turns="9 turn"))


@pytest.mark.parametrize(
    ("mass", "support", "stop"),
    [("900 kg", Support.BUMP, "bump"), ("100 kg", Support.DROOP, "droop")],
)
def test_rows_on_a_stop_are_marked_and_rise_no_further(
    mass: str, support: Support, stop: str
) -> None:
    table = bw.nut_table(make_setup(mass=mass))
    here = table.set_row
    assert (here.support, here.height_per_turn.magnitude) == (support, 0.0)
    left = here.droop_left if support is Support.DROOP else here.bump_left
    assert mm(left) == pytest.approx(0.0, abs=1e-9)
    assert f"the corner rests on its {stop} stop, not on its spring" in [
        finding.text for finding in table.findings
    ]
    assert table.outcome is bw.Outcome.FINE_WITH_CHANGES
    # The headline of a table without a correction leaves them all to be read.
    assert table.further_findings == table.findings


def test_rows_whose_bar_is_slack_at_droop_are_marked_and_cautioned_about() -> None:
    table = bw.nut_table(make_setup(damper=ROOMY, axle={"droop_stop": "-34 deg"}))
    marked = [row.slack_at_droop for row in table.table_rows]
    assert marked == sorted(marked, reverse=True)
    assert len({*marked}) == 2
    assert Caution.SLACK_AT_DROOP in table.cautions
    assert Caution.SLACK_AT_DROOP not in bw.nut_table(SHORT_TRAVEL).cautions


@pytest.mark.parametrize(("held_by", "unheld"), [(None, True), ("a clip", False)])
def test_rows_at_which_nothing_holds_a_key_lever_are_marked(
    held_by: str | None, *, unheld: bool
) -> None:
    loose = on_key_lever({"held_by": held_by}, damper=ROOMY, axle={"droop_stop": "-34 deg"})
    rows = bw.nut_table(loose).table_rows
    assert any(row.slack_at_droop for row in rows)
    assert [row.lever_unheld for row in rows] == [unheld and row.slack_at_droop for row in rows]


def test_rows_that_are_too_much_for_the_bolt_are_marked() -> None:
    weak = {"property_class": bw.parts.PropertyClass.CLASS_8_8, "thread_diameter": "6 mm"}
    table = bw.nut_table(make_setup(adjuster=weak | {"thread_pitch": "1 mm"}))
    proof = known(
        known(bw.rates(make_setup(adjuster=weak | {"thread_pitch": "1 mm"})).figures).bolt
    )
    most = known(proof.proof_load).m_as("N")
    marked = [row.bolt_takes_set for row in table.table_rows]
    assert marked == [abs(row.bolt_at_bump.m_as("N")) > most for row in table.table_rows]
    assert any(marked)
    assert any(finding.topic is Topic.THREAD for finding in table.findings)
    assert not any(row.bolt_takes_set for row in bw.nut_table(make_setup()).table_rows)


# -- How far it may be turned --------------------------------------------------------------


@pytest.mark.parametrize(
    ("unheld", "takes_set", "safe"),
    [(False, False, True), (True, False, False), (False, True, False), (True, True, False)],
)
def test_a_nut_may_stand_where_its_lever_is_held_and_its_bolt_takes_no_set(
    *, unheld: bool, takes_set: bool, safe: bool
) -> None:
    row = bw.nut_table(make_setup()).set_row
    assert attrs.evolve(row, lever_unheld=unheld, bolt_takes_set=takes_set).is_safe is safe


@given(unsafe=st.sets(st.integers(-8, 8)))
def test_a_nut_may_be_turned_to_the_row_before_the_first_that_is_not_safe(
    unsafe: set[int],
) -> None:
    usual = bw.nut_table(make_setup())
    rows = tuple(
        attrs.evolve(row, bolt_takes_set=row.raising_turns in unsafe) for row in usual.table_rows
    )
    table = attrs.evolve(usual, table_rows=rows)
    below, above = [-n for n in unsafe if n < 0], [n for n in unsafe if n > 0]
    assert table.most_lowering == (min(below) - 1 if below else None)
    assert table.most_raising == (min(above) - 1 if above else None)


def test_the_thread_alone_limits_a_nut_that_is_safe_all_along() -> None:
    for table in (bw.nut_table(make_setup()), bw.nut_table(on_fixed())):
        assert (table.most_lowering, table.most_raising) == (None, None)


def test_a_key_lever_may_be_lowered_only_while_it_is_held() -> None:
    loose = on_key_lever(damper=ROOMY, axle={"droop_stop": "-34 deg"}, nut_turns="6 turn")
    table = bw.nut_table(loose)
    most = known(table.most_lowering)
    assert most > 0
    assert table.most_raising is None
    rows = {row.raising_turns: row for row in table.table_rows}
    # The limit is that of the corner with its bolt turned there.
    for count, safe in ((most, True), (most + 1, False)):
        there = attrs.evolve(loose, nut_turns=rows[-count].nut_turns)
        assert bw.nut_table(there).set_row.is_safe is safe
    held = on_key_lever({"held_by": "a clip"}, damper=ROOMY, axle={"droop_stop": "-34 deg"})
    assert bw.nut_table(held).most_lowering is None


def test_a_weak_bolt_may_be_raised_only_until_it_takes_a_set() -> None:
    weak = {"property_class": bw.parts.PropertyClass.CLASS_8_8, "thread_diameter": "7.5 mm"}
    setup = make_setup(adjuster=weak | {"thread_pitch": "1 mm"}, nut_turns="-10 turn")
    table = bw.nut_table(setup)
    most = known(table.most_raising)
    assert most > 0
    assert table.most_lowering is None
    rows = {row.raising_turns: row for row in table.table_rows}
    bolt = known(known(bw.rates(setup).figures).bolt)
    proof = known(bolt.proof_load)
    assert rows[most].bolt_at_bump <= proof < rows[most + 1].bolt_at_bump


def test_the_uncertainty_is_that_of_a_plan_for_the_same_place(demo_van: bw.Setup) -> None:
    plan = bw.reindex(demo_van).preferred
    table = bw.nut_table(bw.carry_out(demo_van, plan))
    assert mm(known(table.height_uncertainty)) == pytest.approx(
        mm(plan.height_uncertainty), rel=1e-3
    )
    height = f"{mm(table.set_row.height):.0f} ± {mm(known(table.height_uncertainty)):.0f} mm"
    assert f"stands at {height} hub to arch" in table.headline


@pytest.fixture(name="demo_van")
def _demo_van() -> bw.Setup:
    return bw.Registry.discover().setup("fells:chassis/short", corner="front left")


def test_the_headline_says_where_it_stands_and_what_a_turn_does() -> None:
    table = bw.nut_table(make_setup(damper=ROOMY))
    here, curve = table.set_row, known(table.nut_curve)
    low, high = (float(curve.height[end].m_as("mm")) for end in (0, -1))
    assert table.headline == (
        "With the nut 159.5 mm from the bolt's pivot, the corner stands at "
        f"{mm(here.height):.0f} mm hub to arch; one turn clockwise raises it by "
        f"{here.height_per_turn.magnitude:.1f} mm. The thread covers {low:.0f} to {high:.0f} mm."
    )


def test_a_height_that_the_figures_cannot_explain_is_checked_before_anything_is_turned() -> None:
    setup = bw.Registry.demo().setup("hodmule:chassis/short", corner="front left")
    stands = bw.ride(setup).height.m_as("mm")
    near, far = (
        bw.nut_table(setup, measured=f"{stands - off} mm", wanted=bw.Wanted(height="500 mm"))
        for off in (2.0, 30.0)
    )
    assert near.headline.startswith("Turn the bolt ")
    assert far.headline.startswith(
        "Turn nothing yet: the measured height differs from the computed one"
    )
    assert ". If all is right: turn the bolt " in far.headline
    # The headline says it, so no note says it again.
    assert [one for one in far.findings if one not in far.further_findings] != []
    assert near.further_findings == near.findings


@pytest.mark.parametrize("height", ["9000 mm", "50 mm"])
def test_a_height_at_which_no_corner_stands_is_refused(height: str) -> None:
    setup = bw.Registry.demo().setup("hodmule:chassis/short", corner="front left")
    with pytest.raises(bw.QuantityError, match="a height near the travel: ") as caught:
        bw.nut_table(setup, measured=height)
    assert (caught.value.code, caught.value.key) == ("Q302", "measured")


def test_a_measured_pin_says_where_the_nut_is_set() -> None:
    van = bw.Registry.demo().setup("fells:chassis/short", corner="front left")
    by_turns = attrs.evolve(van, nut_turns="2 turn")
    pin = Corner(by_turns).setting_now
    by_pin = attrs.evolve(van, pin_distance=f"{pin * 1e3:.12g} mm")
    one, other = bw.nut_table(by_turns, measured="400 mm"), bw.nut_table(by_pin, measured="400 mm")
    assert other.set_row.pin_distance.m_as("m") == pytest.approx(pin)
    assert other.set_row.height.m_as("mm") == pytest.approx(one.set_row.height.m_as("mm"))
    assert one.correction is not None
    assert other.correction is not None
    assert other.correction.correcting_turns.m_as("turn") == pytest.approx(
        one.correction.correcting_turns.m_as("turn")
    )


def test_a_height_that_was_read_without_the_place_of_the_nut_says_what_is_assumed() -> None:
    read = make_setup().with_reading(height="404 mm")

    listed = bw.nut_table(read)
    assert listed.verdict is bw.Verdict.LISTED
    assert "assumed to have been at mid-thread" in listed.findings[-1].text
    turned = bw.nut_table(read, wanted=bw.Wanted(height="408 mm"))
    assert turned.headline.startswith("Turn nothing yet: the adjuster is assumed")
    # Where the tape is read now, the nut is where the table has it.
    told = bw.nut_table(make_setup(), measured="404 mm", wanted=bw.Wanted(height="408 mm"))
    assert told.headline.startswith("Turn the nut ")

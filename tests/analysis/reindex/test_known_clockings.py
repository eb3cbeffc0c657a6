"""Clockings from what is known: what they need, and how they count."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.clocking import Clocking
from barwright.analysis.reindex.known_clockings import known_clockings
from barwright.answers import EndAction, ToothDatum
from barwright.units import is_unknown
from each_case import each_case
from gaps import with_only
from sample_records import adjuster_of, fixed_line, make_bar, make_end, make_setup, tube_of

SAME = bw.Wanted(same_height=True)
LOW = make_setup(nut_turns="-8 turn")

# What a shop measures of a car that no pack knows: teeth, lever, bolt and thread.
MEASURED = {
    *("bar.arm_end.teeth", "bar.anchor_end.teeth", "anchor.lever_radius"),
    *(f"adjuster.thread_{what}" for what in ("pitch", "start", "end")),
    *("adjuster.nut_height", "adjuster.spacer", "adjuster.mounting.pivot_distance"),
    *("adjuster.mounting.line_distance", "adjuster.mounting.foot_position"),
    *("adjuster.mounting.end_radius", "anchor.face_offset"),
    *("anchor.face_start", "anchor.face_end"),
}


def found(
    setup: bw.Setup, wanted: bw.Wanted = SAME, present: bw.Setup | None = None
) -> tuple[Clocking, ...]:
    now = Corner(setup if present is None else present)
    return known_clockings(Corner(setup), now=now, wanted=wanted)


SETUPS = [
    LOW,
    make_setup(nut_turns="-8 turn", adjuster={"mounting": fixed_line()}),
    on_key_lever(nut_turns="-7 turn"),
]


@pytest.mark.parametrize("setup", SETUPS, ids=["swivelling", "fixed line", "key lever"])
def test_teeth_lever_and_thread_are_all_that_is_needed(setup: bw.Setup) -> None:
    alone = found(with_only(setup, MEASURED))

    assert len(alone) > 1
    assert alone == tuple(attrs.evolve(one, height_per_turn=None) for one in found(setup))


@each_case("path", sorted(MEASURED))
def test_each_of_these_is_needed_with_some_bolt(path: str) -> None:
    needed = []
    for setup in SETUPS:
        try:
            found(with_only(setup, MEASURED - {path}))
        except bw.NeedsError as error:
            needed.append(error.needed)
    assert needed
    assert all(map(is_unknown, needed))


# -- Another height, other parts ---------------------------------------------------------


def test_another_height_needs_a_measured_one() -> None:
    assert found(LOW, bw.Wanted(height="380 mm")) == ()

    read = LOW.with_reading(height="371 mm")
    plans = bw.reindex(read, wanted=bw.Wanted(height="380 mm")).plans
    first = found(read, bw.Wanted(height="380 mm"))[0]
    assert (first.arm_tooth, first.anchor_tooth) == (plans[0].arm_tooth, plans[0].anchor_tooth)
    assert first.nut_turns == plans[0].nut_turns


def test_the_measured_height_as_a_wish_is_the_same_height() -> None:
    read = LOW.with_reading(height="371 mm")
    bare = attrs.evolve(read, damper=with_only(LOW, set()).damper)

    assert found(bare, bw.Wanted(height="371 mm")) == found(bare, SAME)


def test_a_height_out_of_travel_has_no_clocking() -> None:
    assert found(LOW.with_reading(height="371 mm"), bw.Wanted(height="200 mm")) == ()


def test_a_bar_that_does_not_lie_in_its_sockets_has_none_at_another_height() -> None:
    bar = make_bar(length="1200 mm", id="t:bar/other")
    read = attrs.evolve(LOW.with_reading(height="371 mm"), bar=bar)

    assert found(read, bw.Wanted(height="380 mm")) == ()
    assert found(attrs.evolve(read, bar=LOW.bar), SAME) != ()


def test_another_load_moves_the_nut_at_the_same_height() -> None:
    read = LOW.with_reading(height="371 mm")
    laden = read.with_load(kind=bw.parts.LoadKind.SPRUNG, mass="330 kg")

    plans = bw.reindex(laden, wanted=SAME).plans
    assert found(laden)[0].nut_turns == plans[0].nut_turns
    assert found(laden)[0].pin_distance != found(read)[0].pin_distance


def test_other_parts_that_hold_the_bar_ask_for_a_measured_height() -> None:
    arm = attrs.evolve(LOW.arm, id="t:arm/donor")
    assert found(LOW.with_parts(arm=arm), present=LOW) == ()


def test_another_gas_force_or_load_asks_for_a_measured_height() -> None:
    gas = bw.parts.GasCharge(force="190 N", at_length="590 mm", slope="-0.42 N/mm")
    damper = attrs.evolve(LOW.damper, id="t:damper/gas", gas=gas)
    laden = LOW.with_load(kind=bw.parts.LoadKind.SPRUNG, mass="330 kg")
    for setup in (LOW.with_parts(damper=damper), laden):
        assert found(setup, present=LOW) == ()
        read = attrs.evolve(setup, reading=LOW.with_reading(height="371 mm").reading)
        plans = bw.reindex(read, wanted=SAME, present=LOW).plans
        assert found(read, present=LOW)[0].nut_turns == plans[0].nut_turns


def test_a_damper_without_gas_moves_nothing() -> None:
    damper = attrs.evolve(LOW.damper, id="t:damper/short", open_length="640 mm")
    assert found(LOW.with_parts(damper=damper), present=LOW) == found(LOW)


def donors() -> dict[str, bw.Setup]:
    """The corner with another arm, tube or bar, each with its key or blank elsewhere."""
    arm = attrs.evolve(LOW.arm, id="t:arm/donor", socket=_turned(LOW.arm.socket, "21 deg"))
    tube = tube_of(LOW)
    anchor = attrs.evolve(tube, id="t:tube/donor", socket=_turned(tube.socket, "-178 deg"))
    return {
        "arm": LOW.with_parts(arm=arm),
        "anchor": LOW.with_parts(anchor=anchor),
        "bar": LOW.with_parts(bar=make_bar(blank_angle="4 deg", id="t:bar/angled")),
    }


def _turned(socket: bw.parts.Socket, key: str) -> bw.parts.Socket:
    return attrs.evolve(socket, key_angle=key)


@pytest.mark.parametrize("part", ["arm", "anchor", "bar"])
def test_the_key_of_a_donor_part_counts_beside_the_present_one(part: str) -> None:
    read = LOW.with_reading(height="371 mm")
    setup = attrs.evolve(donors()[part], reading=read.reading)
    answer = bw.reindex(setup, wanted=SAME, present=read)
    first = found(setup, present=read)[0]

    plan = next(plan for plan in answer.plans if plan.arm_tooth == first.arm_tooth)
    assert first.anchor_tooth == plan.anchor_tooth
    assert first.nut_turns == plan.nut_turns
    datums = {end.end.value: end.tooth_datum for end in first.ends}
    new = {"arm": {"arm end"}, "anchor": {"anchor end"}, "bar": {"arm end", "anchor end"}}[part]
    assert {name for name, datum in datums.items() if datum is ToothDatum.BLANK} == new


def test_the_bolt_of_another_adjuster_is_where_its_figures_say() -> None:
    read = LOW.with_reading(height="371 mm")
    other = attrs.evolve(adjuster_of(LOW), id="t:adjuster/other", spacer="4 mm")
    setup = attrs.evolve(LOW.with_parts(adjuster=other), reading=read.reading)

    plans = bw.reindex(setup, wanted=SAME, present=read).plans
    assert found(setup, present=read)[0].nut_turns == plans[0].nut_turns


# -- What is said -------------------------------------------------------------------------


def test_nothing_is_turned_at_a_fixed_socket() -> None:
    assert found(on_fixed()) == ()


def test_a_lever_that_does_not_reach_its_bolt_has_no_clocking() -> None:
    assert (
        found(
            attrs.evolve(
                LOW,
                adjuster=attrs.evolve(adjuster_of(LOW), thread_start="255 mm", thread_end="300 mm"),
                nut_turns="0 turn",
            )
        )
        == ()
    )


def test_teeth_are_counted_from_the_one_on_the_key() -> None:
    turned = attrs.evolve(LOW, arm_tooth=3, anchor_tooth=-2)
    for here, there in zip(found(LOW), found(turned), strict=True):
        for mine, its in zip(here.ends, there.ends, strict=True):
            assert (mine.tooth, mine.direction) == (its.tooth, its.direction)
        assert here.rotation.m_as("deg") == pytest.approx(there.rotation.m_as("deg"))
        assert here.pin_distance == there.pin_distance


def test_a_clocking_tells_what_is_cut_and_where_the_nut_goes() -> None:
    first, *_, last = found(LOW)
    assert first.summary == (
        "Remove 1 tooth at the anchor end. Set the nut at 158.6 ± 0.1 mm from the bolt's pivot."
    )
    assert repr(first) == f"<Clocking: {first.summary}>"
    assert last.summary.startswith(
        "Remove no tooth; the bar stays on the same teeth. Set the nut at"
    )
    (cut,) = [end for end in first.ends if end.cuts]
    assert (cut.action, cut.tooth) == (EndAction.REMOVE_TOOTH, 1)
    assert {end.direction for end in last.ends} == {None}


def test_a_tolerance_that_leaves_the_lever_off_its_bolt_is_refused() -> None:
    # Within so wide a ± the lever reaches its bolt at neither end.
    about = {
        "pivot_distance": bw.parts.Figure(
            value=bw.Quantity(142.0, "mm"), tolerance=bw.Quantity(139.0, "mm")
        )
    }
    adjuster = adjuster_of(LOW)
    wide = attrs.evolve(adjuster, mounting=adjuster.mounting.described(about))
    with pytest.raises(bw.QuantityError) as caught:
        found(attrs.evolve(LOW, adjuster=wide))
    assert (caught.value.code, caught.value.key) == ("Q303", "adjuster.mounting.pivot_distance")


def test_a_nut_at_the_end_of_its_thread_may_lie_beyond_it() -> None:
    adjuster = adjuster_of(LOW)
    end = bw.parts.Figure(value=adjuster.thread_end, tolerance=bw.Quantity(1.0, "mm"))
    setup = attrs.evolve(
        LOW,
        nut_turns="0 turn",
        pin_distance="174.9 mm",
        adjuster=adjuster.described({"thread_end": end}),
    )
    # Where the thread ends does not move a pin that was measured from the pivot.
    assert {one.pin_uncertainty.magnitude for one in found(setup)} == {0.0}


def test_what_a_turn_raises_is_not_known_of_a_bar_that_does_not_lie_in_its_sockets() -> None:
    apart = attrs.evolve(LOW, bar=make_bar(length="1200 mm"))
    assert {one.height_per_turn for one in found(apart)} == {None}


def test_a_bar_that_shows_nothing_is_counted_from_the_tooth_that_it_lies_on_with_another_arm() -> (
    None
):
    bar = make_bar(arm_end=make_end(39, blanks=()), anchor_end=make_end(42, blanks=()))
    present = make_setup(bar=bar, arm_keyed=False, anchor_keyed=False, nut_turns="-8 turn")
    present = present.with_reading(height="404 mm")
    other = attrs.evolve(
        present.arm,
        id="t:arm/two",
        socket=attrs.evolve(present.arm.socket, key_angle="25 deg"),
    )
    setup = present.with_parts(arm=other)
    wanted = bw.Wanted(height="404 mm")
    (first, *_) = known_clockings(Corner(setup), now=Corner(present), wanted=wanted)
    whole = bw.reindex(setup, wanted=wanted, present=present).plans[0]

    for end, work in zip(first.ends, whole.ends, strict=True):
        assert end.tooth_datum is work.tooth_datum is ToothDatum.PRESENT
        assert (end.tooth, end.direction) == (work.tooth, work.direction)

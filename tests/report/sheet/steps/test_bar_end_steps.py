"""Tests of `bar_end_steps`: what is done at an end, seen from where, and what is on its key."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.answers import EndAction, ToothDatum
from barwright.parts import BarEndName
from barwright.report.drawing.bar_end_view import viewer
from barwright.report.sheet.steps.bar_end_steps import end_steps, on_key, painting
from barwright.report.sheet.steps.step import together
from sample_records import known, make_bar, make_end, make_setup
from sheet_corners import LOWER, place, sheet_of

AS_IT_IS = bw.Wanted(height="404 mm")
VIEWED = "seen from the arm end toward the anchor end"
FIRST = f"tooth 1 counter-clockwise from the maker's blank, {VIEWED}"


def at_arm(setup: bw.Setup, wanted: bw.Wanted = LOWER) -> bw.answers.EndWork:
    """What the first plan asks for at the arm end."""
    return bw.reindex(setup, wanted=wanted).plans[0].ends[0]


def said(work: bw.answers.EndWork) -> list[str]:
    return [together({"front left": step}).text for step in end_steps(work)]


def after_a_cut() -> bw.Setup:
    return bw.carry_out(make_setup(), known(sheet_of(make_setup()).corners[0].plan))


UNKEYED = make_setup(arm_keyed=False)
CASES = {
    "cut": (make_setup(), LOWER, f"Arm end: paint X on {FIRST}."),
    "earlier": (
        attrs.evolve(after_a_cut(), arm_tooth=0),
        LOWER,
        f"Arm end: nothing to remove; the blank cut earlier goes on the key: {FIRST}.",
    ),
    "maker's": (
        after_a_cut(),
        AS_IT_IS,
        "Arm end: nothing to remove; the maker's blank goes on the key.",
    ),
    "no key": (
        UNKEYED,
        LOWER,
        (
            f"Arm end: nothing to remove; the socket has no key. Mark {FIRST}: it goes 17.5° "
            "counter-clockwise from the arm's centreline."
        ),
    ),
    "no key, blank": (
        attrs.evolve(UNKEYED, arm_tooth=1),
        AS_IT_IS,
        (
            "Arm end: nothing to remove; the socket has no key. The maker's blank goes 17.5° "
            f"counter-clockwise from the arm's centreline, {VIEWED}."
        ),
    ),
}


BARE = make_bar(arm_end=make_end(39, blanks=()), anchor_end=make_end(42, blanks=()))
READ = make_setup(bar=BARE, arm_keyed=False, anchor_keyed=False).with_reading(height="404 mm")
FAR = bw.Wanted(height="330 mm")
FROM_PAINT = "tooth 1 counter-clockwise from the painted tooth"


def turned_arm(*, keyed: bool, key_angle: str = "25 deg") -> bw.Setup:
    """The corner with an arm whose key is elsewhere; the bar stays."""
    socket = attrs.evolve(READ.arm.socket, key_angle=key_angle, keyed=keyed)
    arm = attrs.evolve(READ.arm, id="t:arm/two", socket=socket)
    return READ.with_parts(arm=arm)


def test_a_bar_that_shows_nothing_is_counted_from_paint_on_a_tooth_and_its_socket() -> None:
    plans = bw.reindex(READ, wanted=FAR).plans
    work = next(w for plan in plans for w in plan.ends if w.action is EndAction.NO_KEY)
    line = "the lever's centreline"
    end, part = work.end.value, "arm" if work.end is BarEndName.ARM else "tube"
    step = painting(work, anchor="tube", anchor_line=line)
    assert together({"front left": step}).text == (
        f"{end.capitalize()}: it has no blank. Paint one tooth, and the {part} beside it."
    )
    (told,) = said(work)
    assert told.startswith(
        f"{end.capitalize()}: nothing to remove; the socket has no key. Mark tooth "
    )
    assert told.endswith(": it goes to the paint beside it.")
    assert on_key(work) == "the tooth that you marked beside the paint"


def test_where_the_arm_changes_the_tooth_at_the_old_keys_place_is_painted() -> None:
    after = bw.Wanted(height="385 mm")
    work = bw.reindex(turned_arm(keyed=False), wanted=after, present=READ).plans[0].ends[0]
    step = painting(work, anchor="tube", anchor_line="the lever's centreline")
    assert together({"front left": step}).text == (
        "Arm end: it has no blank. Paint the tooth 17.5° counter-clockwise from the arm's "
        f"centreline, {VIEWED}."
    )
    (told,) = said(work)
    assert told.startswith(
        "Arm end: nothing to remove; the socket has no key. Mark tooth 1 counter-clockwise "
        f"from the painted tooth, {VIEWED}: it goes 25.0° "
    )
    assert on_key(work) == "the marked tooth at its angle"

    cut = bw.reindex(turned_arm(keyed=True), wanted=after, present=READ).plans[0].ends[0]
    assert said(cut)[0] == f"Arm end: paint X on {FROM_PAINT}, {VIEWED}."


@pytest.mark.parametrize(
    ("datum", "own"),
    [(ToothDatum.MARK, "its marked tooth"), (ToothDatum.PRESENT, "its painted tooth")],
)
def test_an_end_that_stays_names_the_tooth_that_it_is_known_by(datum: ToothDatum, own: str) -> None:
    stays = bw.reindex(READ).plans[0].ends[0]
    assert on_key(attrs.evolve(stays, tooth_datum=datum)) == f"{own} where it was"


def test_the_tooth_that_carries_the_mark_may_be_the_one_to_remove() -> None:
    bar = attrs.evolve(
        BARE,
        arm_end=make_end(39, blanks=(), mark="a dot"),
        anchor_end=make_end(42, blanks=(), mark="a dot"),
        blank_angle="0 deg",
    )
    work = bw.reindex(make_setup(bar=bar), present=make_setup()).plans[0].ends[0]
    assert said(work)[0] == f"Arm end: paint X on the marked tooth, {VIEWED}."


@pytest.mark.parametrize("case", CASES)
def test_what_is_done_at_an_end_is_told_for_each_kind_of_work(case: str) -> None:
    setup, wanted, expected = CASES[case]
    assert said(at_arm(setup, wanted))[0] == expected


def test_an_end_that_stays_says_what_is_on_its_key() -> None:
    plan = bw.reindex(make_setup(), wanted=LOWER).plans[0]
    (stays,) = [work for work in plan.ends if work.action is bw.answers.EndAction.STAYS]
    assert said(stays) == ["Anchor end: nothing to remove; it goes back as it was."]
    assert on_key(stays) == "the maker's blank on the key"
    assert viewer(stays) == "seen from the anchor end toward the arm end"


def test_an_end_that_stays_without_a_blank_on_the_key_names_its_tooth() -> None:
    setup = make_setup(arm_keyed=False, arm_tooth=1)
    plans = bw.reindex(setup, wanted=LOWER).plans
    found = {
        (*said(work), on_key(work))
        for plan in plans
        for work in plan.ends
        if work.action is bw.answers.EndAction.STAYS and work.tooth == 1
    }
    assert found == {
        (
            "Arm end: nothing to remove; it goes back as it was.",
            "tooth 1 counter-clockwise where it was",
        )
    }


def test_an_end_that_stays_as_the_maker_left_it_without_a_key() -> None:
    plans = bw.reindex(UNKEYED, wanted=LOWER).plans
    (stays,) = {
        (*said(work), on_key(work))
        for plan in plans
        for work in plan.ends
        if work.action is bw.answers.EndAction.STAYS and work.end is bw.parts.BarEndName.ARM
    }
    assert stays == (
        "Arm end: nothing to remove; it goes back as it was.",
        "its blank where it was",
    )


@pytest.mark.parametrize("cleared", [True, False])
def test_a_tooth_is_spared_where_clearing_the_key_would_do(*, cleared: bool) -> None:
    work = attrs.evolve(at_arm(make_setup()), key_may_be_cleared=cleared)
    marked, *spared = said(work)
    assert marked.startswith("Arm end: paint X on tooth 1 ")
    kept = "Only if you keep the tooth: remove this socket's key. The tooth goes there."
    assert spared == ([kept] if cleared else [])


def test_what_is_on_no_key_is_told_by_its_mark_or_its_blank() -> None:
    assert on_key(at_arm(UNKEYED)) == "the marked tooth at its angle"
    back = at_arm(attrs.evolve(UNKEYED, arm_tooth=1), AS_IT_IS)
    assert on_key(back) == "the maker's blank at its angle"
    assert on_key(at_arm(make_setup())) == "the new blank on the key"


def test_the_anchors_end_is_counted_from_the_line_that_it_is_given() -> None:
    setup = make_setup(anchor_keyed=False)
    plans = bw.reindex(setup, wanted=LOWER).plans
    (work, *_) = [
        work
        for plan in plans
        for work in plan.ends
        if work.end is bw.parts.BarEndName.ANCHOR and work.action is bw.answers.EndAction.NO_KEY
    ]
    (step,) = end_steps(work, anchor_line="a line")
    assert step.figures["line"] == "a line"
    (step,) = end_steps(work)
    assert step.figures["line"] == "the lever's centreline"


def test_each_side_has_its_sense_and_the_words_are_shared() -> None:
    job = bw.Job(
        title="t",
        corners=tuple(
            bw.JobCorner(setup=setup, present=setup, wanted=LOWER)
            for setup in (make_setup(), make_setup(side=bw.parts.Side.RIGHT))
        ),
    )
    sheet = bw.bench_sheet(job)
    cut = sheet.steps[place(sheet, "paint X on tooth 1")]
    senses = [known(known(corner.plan).ends[0].direction).value for corner in sheet.corners]
    assert senses == ["counter-clockwise", "clockwise"]
    assert "paint X on tooth 1 counter-clockwise (left), clockwise (right) from" in cut.text
    assert cut.corners == ()

"""Tests of `unloading_steps`: which way is safe is known before anything is touched."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import fixed_socket, on_fixed, on_key_lever
from barwright.analysis.assembly.loose_bar import loose_bar
from barwright.analysis.corner.corner import Corner
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.adjustment import slackened, words_for
from barwright.report.sheet.steps.step import CornerStep, steps_together
from barwright.report.sheet.steps.unloading_steps import refusal, unloading_steps
from sample_records import known, make_bar, make_setup

NO_WAY = "knows no safe way to take that torque out"
SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
TOO_SHORT = {"open_length": "560 mm", "closed_length": "420 mm"}
DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}


WANTED = bw.Wanted(height="404 mm")


def work_on(present: bw.Setup) -> CornerWork:
    """The work that swaps the bar for another of the same figures."""
    setup = present.with_parts(bar=attrs.evolve(present.bar, title="Another"))
    answer = bw.reindex(setup, wanted=WANTED, present=present)
    return CornerWork(
        setup=setup,
        present=present,
        answer=answer,
        plan=PLAN,
        rates=bw.rates(setup),
        strength=bw.strength(setup),
        nut_table=None,
        loose=loose_bar(Corner(setup)),
        loose_now=loose_bar(Corner(present)),
    )


def written(steps: tuple[CornerStep, ...]) -> tuple[bw.answers.SheetStep, ...]:
    return steps_together({"front left": steps})


def texts(present: bw.Setup) -> list[str]:
    """What the steps say, each with its branch."""
    steps = written(unloading_steps(work_on(present)))
    return [" ".join((step.text, *step.branch)) for step in steps]


def assert_in_order(text: str, *order: str) -> None:
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def held(droop_stop: str) -> bw.Setup:
    """A corner with the damper too short for the old clocking."""
    return make_setup(damper=SHORT, axle={"droop_stop": droop_stop})


LOOSE = make_setup(bar=make_bar(diameter="24.6 mm"))
PLAN = bw.reindex(LOOSE, wanted=WANTED).plans[0]
WITHOUT_THE_DAMPER = (
    *("Free the brake hose", "Tie the wheel carrier up loosely", "take the damper off"),
    "Let the arm down slowly until the chassis stops it.",
)
STILL_STIFF = "If it is still stiff, refit all, set the nut as noted, and stop."
ALL_WAYS = (LOOSE, held("-20 deg"), held("-11 deg"), on_fixed(**DEEP))


@pytest.mark.parametrize("present", [*ALL_WAYS, on_key_lever()])
def test_a_bar_is_proved_loose_on_every_way(present: bw.Setup) -> None:
    *_, proof, binds = written(unloading_steps(work_on(present)))
    if words_for(present):
        assert proof.text == "Check that the bar is loose: waggle the lever both ways by hand."
        assert binds.text.startswith("Only if the lever is stiff:")
    else:
        assert proof.text == "Check that the bar is loose: slide it a little by hand."
        assert binds.text.startswith("Only if it binds:")
    assert not proof.refused
    assert not binds.refused


@pytest.mark.parametrize("present", [*ALL_WAYS[:3], on_key_lever()])
def test_an_adjuster_goes_to_its_slack_end_whatever_may_come_off_beside(present: bw.Setup) -> None:
    said = texts(present)
    (slack,) = written((slackened(present, known(words_for(present)), loose_bar(Corner(present))),))
    # What the bar still has is known before the adjuster is touched.
    assert said.index(slack.text) == (0 if work_on(present).unloading.damper_on.slides else 1)


def test_a_bar_that_binds_is_unloaded_by_what_is_left_to_do() -> None:
    on, off, parted, fixed = (texts(present)[-1] for present in ALL_WAYS)
    assert on.startswith("Only if the lever is stiff: Free the brake hose")
    assert_in_order(on, *WITHOUT_THE_DAMPER, "Check again.", STILL_STIFF, "off until the bar is in")
    assert on.endswith("until the bar is in. Refit them then, and untie the wheel carrier.")
    assert off == "Only if the lever is stiff: refit all, set the nut as noted, and stop."
    assert parted.endswith(": let the arm down a little more.")
    assert fixed.endswith(": do not force it. Move the arm until the bar slides.")


@pytest.mark.parametrize(("corner", "what"), [(make_setup, "nut"), (on_key_lever, "bolt")])
def test_what_is_put_back_as_noted_is_what_is_turned(corner: Any, what: str) -> None:
    on, free, off = (
        texts(corner(**change))[-1]
        for change in (
            {"bar": LOOSE.bar},
            {"bar": LOOSE.bar, "damper": {"open_length": "760 mm"}},
            {"damper": TOO_SHORT, "axle": {"droop_stop": "-20 deg"}},
        )
    )
    assert f"Check again. If it is still stiff, refit all, set the {what} as noted, and stop." in on
    for said in (free, off):
        assert said.endswith(f": refit all, set the {what} as noted, and stop.")


def test_a_carrier_is_held_before_its_strut_goes_and_the_arm_is_let_down_after() -> None:
    for present in ALL_WAYS[1:3]:
        said = "\n".join(texts(present))
        assert_in_order(
            said, "to its slack end", *WITHOUT_THE_DAMPER, "Check that the bar is loose"
        )


def test_where_the_damper_holds_nothing_it_does_not_come_off() -> None:
    # The damper is longer than the chassis lets the arm hang.
    free = make_setup(bar=LOOSE.bar, damper={"open_length": "760 mm"})
    assert not work_on(free).unloading.damper_helps
    slack, hangs, _, binds = texts(free)
    assert "to its slack end" in slack
    assert hangs == "Let the arm hang as low as it goes."
    assert binds.endswith("refit all, set the nut as noted, and stop.")


def test_a_damper_comes_off_for_what_the_bar_holds_or_may_hold() -> None:
    left = bw.reindex(held("-20 deg")).removal[0]
    torque = left.residual_torque.m_as("N*m")
    assert texts(held("-20 deg"))[0] == (
        f"Do not take the nut off: at its slack end the bar still carries {torque:.0f} N·m."
    )
    said = texts(with_key_known_to(LOOSE, "2 deg"))[0]
    assert said == (
        "With the damper on and the nut fully slackened, the margin is only 1.0° of arm angle, and "
        "the figures are uncertain by 2.3°: the damper comes off."
    )


def test_why_a_damper_comes_off_names_what_is_turned_and_nothing_where_nothing_is() -> None:
    wound = texts(on_key_lever(damper=TOO_SHORT, axle={"droop_stop": "-20 deg"}))[0]
    assert wound.startswith("Do not take the bolt off: at its slack end the bar still carries ")
    unsure = texts(with_key_known_to(on_key_lever(), "14 deg"))[0]
    assert unsure.startswith("With the damper on and the bolt fully slackened, the margin is only ")
    nearly = on_fixed(socket={"anchor_angle": "182 deg"}, axle={"droop_stop": "-40 deg"})
    unsure = texts(with_key_known_to(nearly, "2 deg"))[0]
    assert unsure.startswith("With the damper on, the margin is only 2.0° of arm angle, and ")


def with_key_known_to(setup: bw.Setup, tolerance: str) -> bw.Setup:
    socket = setup.arm.socket
    known = bw.parts.Figure(value=socket.key_angle, tolerance=bw.Quantity(tolerance))
    socket = attrs.evolve(socket, about=bw.parts.About({"key_angle": known}))
    return attrs.evolve(setup, arm=attrs.evolve(setup.arm, socket=socket))


def refused(present: bw.Setup) -> tuple[bw.answers.SheetStep, ...]:
    """What is said where no way is safe, whatever else stands against the work."""
    answer = bw.reindex(present, wanted=WANTED)
    return written(refusal(present, attrs.evolve(answer, verdict=bw.Verdict.NO_SAFE_WAY)))


def test_what_would_be_left_is_said_before_a_refusal() -> None:
    now = attrs.evolve(held("-9 deg"), arm_tooth=-1)
    said, no_way = refused(now)
    residual = bw.reindex(now).removal[1].residual_torque.m_as("N*m")
    assert (
        f"with the nut fully slackened and the damper off it still carries {residual:.0f} N·m ("
        in (said.text)
    )
    assert said.refused
    assert no_way.refused
    assert NO_WAY in no_way.text


def test_of_a_fixed_socket_no_nut_is_named() -> None:
    wound = attrs.evolve(on_fixed(**DEEP), anchor=fixed_socket(anchor_angle="222 deg"))
    said, _ = refused(wound)
    assert said.text.startswith("Do not touch the bar: with the damper off it still carries ")
    held_on = on_fixed(socket={"anchor_angle": "172 deg"}, axle={"droop_stop": "-40 deg"})
    first, second = texts(held_on)[:2]
    torque = bw.reindex(held_on).removal[0].residual_torque.m_as("N*m")
    assert first == (
        f"With the damper on, the bar still carries {torque:.0f} N·m: the damper comes off."
    )
    assert second.startswith("Free the brake hose")


def test_nothing_is_refused_where_something_else_stands_against_the_work() -> None:
    for present, wanted in ((LOOSE, WANTED), (LOOSE, bw.Wanted(height="900 mm"))):
        assert refusal(present, bw.reindex(present, wanted=wanted)) == ()
    bare = attrs.evolve(bw.reindex(LOOSE), unloading=None, verdict=bw.Verdict.NO_SAFE_WAY)
    assert refusal(LOOSE, bare) == ()


@pytest.mark.rare
def test_a_sheet_that_knows_no_way_asks_for_nothing() -> None:
    job = bw.load_job("docs/examples/loaded-trailer.toml", bw.Registry.discover())
    corner = job.corners[0]
    refuses = []
    for tooth in range(-22, 23):
        present = attrs.evolve(corner.present, arm_tooth=tooth)
        changed = attrs.evolve(job, corners=(attrs.evolve(corner, present=present),))
        sheet = bw.bench_sheet(changed)
        (only,) = sheet.corners
        refuses.append(any(NO_WAY in step.text for step in sheet.steps))
        slides = any(way.slides for way in only.reindex.removal)
        assert refuses[-1] == (not slides)
        if refuses[-1]:
            assert all(step.refused for step in sheet.steps)
            assert (only.plan, sheet.figures, sheet.measurements) == (None, (), ())
            assert only.verdict is bw.Verdict.NO_SAFE_WAY
    assert set(refuses) == {True, False}

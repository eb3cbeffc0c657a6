"""The page that re-indexes by hand: every figure again, and the library's plan beside it."""

from __future__ import annotations

from math import acos, cos, degrees, radians, sqrt

import pytest

import barwright as bw
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.known_clockings import known_clockings
from doc_pages import read
from each_case import each_case
from gaps import with_only
from sample_records import known, make_bar, make_setup, swing_arm_mounting, swivelling

PAGE = read("by-hand.md").replace("−", "-")

# -- The arithmetic, without the library -------------------------------------------------

ARM_STEP, ANCHOR_STEP = 360 / 36, 360 / 41
PITCH = 1.5
NEAREST, FURTHEST = 140 - 5, 180 - 10 - 5
MIDDLE = (NEAREST + FURTHEST) / 2
NOW = 138


def angle(pin: float, lever: float = 90) -> float:
    """Angle of the triangle at the bar axis [deg], from the pin's distance [mm]."""
    return degrees(acos((120**2 + lever**2 - pin**2) / (2 * 120 * lever)))


def pin(at: float, lever: float = 90) -> float:
    """Distance of the pin from the pivot [mm], from the angle at the bar axis [deg]."""
    return sqrt(120**2 + lever**2 - 2 * 120 * lever * cos(radians(at)))


def turns(distance: float) -> float:
    """Turns of the nut clockwise of the middle."""
    return (MIDDLE - distance) / PITCH


def cosine(at: float) -> float:
    return cos(radians(at))


NEW = angle(NOW) + ANCHOR_STEP
"""Angle that the equation leaves with one tooth at the anchor end."""


def figures() -> dict[str, tuple[float, int]]:
    """What the page calls each figure, with its value and its digits behind the point."""
    longer = angle(NOW, 91) + ANCHOR_STEP
    return {
        "nearest   140 - 5 = ": (NEAREST, 0),
        "furthest  180 - 10 - 5 = ": (FURTHEST, 0),
        "middle    (135 + 165) / 2 = ": (MIDDLE, 0),
        "now       (150 - 138) / 1.5 = ": (turns(NOW), 3),
        "left      (138 - 135) / 1.5 = ": ((NOW - NEAREST) / PITCH, 3),
        "An eighth of the thread is 20 / 8 = ": ((FURTHEST - NEAREST) / PITCH / 8, 1),
        "(22500 - 19044) / 21600 = ": (cosine(angle(NOW)), 4),
        "0.1600    γ = ": (angle(NOW), 4),
        "(22500 - 22500) / 21600 = ": (cosine(angle(MIDDLE)), 4),
        "0.0000    γ = ": (angle(MIDDLE), 4),
        "turn       90.0000° - 80.7931° = ": (angle(MIDDLE) - angle(NOW), 4),
        "arm end     360° / 36 = ": (ARM_STEP, 4),
        "anchor end  360° / 41 = ": (ANCHOR_STEP, 4),
        "| 0 | +1 | ": (-ANCHOR_STEP, 4),
        "| -1 | 0 | ": (-ARM_STEP, 4),
        "140.0000° - 149.2683° = ": (14 * ARM_STEP - 17 * ANCHOR_STEP, 4),
        "-8.7805° | ": (angle(MIDDLE) - NEW, 4),
        "-10.0000° | ": (angle(NOW) + ARM_STEP - angle(MIDDLE), 4),
        "-9.2683° | ": (17 * ANCHOR_STEP - 14 * ARM_STEP - angle(MIDDLE) + angle(NOW), 4),
        "γ = 80.7931° + 8.7805° = ": (NEW, 4),
        "89.5736°    cos γ = ": (cosine(NEW), 5),
        "22500 - 21600 · 0.00744 = ": (22500 - 21600 * round(cosine(NEW), 5), 1),
        "22339.3    ℓ = ": (pin(NEW), 3),
        "(150 - 149.463) / 1.5 = ": (turns(pin(NEW)), 3),
        "flats      0.358 · 6 = ": (6 * turns(pin(NEW)), 2),
        "set to     150 - 1.5 / 3 = ": (MIDDLE - PITCH / 3, 1),
        "left       10 - 1/3 = ": ((FURTHEST - MIDDLE) / PITCH - 1 / 3, 3),
        "(22500 - 22350.25) / 21600 = ": (cosine(angle(149.5)), 5),
        "0.00693 and γ = ": (angle(149.5), 4),
        "89.6028° - 80.7931° + 0° - 8.7805° = ": (angle(149.5) - NEW, 4),
        "a whole flat. That is ": (6 * turns(pin(NEW)) - 2, 2),
        "(22681 - 19044) / 21840 = ": (cosine(angle(NOW, 91)), 4),
        "0.1665    γ = ": (angle(NOW, 91), 4),
        "(22681 - 22500) / 21840 = ": (cosine(angle(MIDDLE, 91)), 4),
        "0.0083    γ = ": (angle(MIDDLE, 91), 4),
        "turn    89.5252° - 80.4139° = ": (angle(MIDDLE, 91) - angle(NOW, 91), 4),
        "γ = 80.4139° + 8.7805° = ": (longer, 4),
        "89.1944°    ℓ = ": (pin(longer, 91), 3),
        "(150 - 149.579) / 1.5 = ": (turns(pin(longer, 91)), 3),
        "0.358 - 0.281 = ": (turns(pin(NEW)) - turns(pin(longer, 91)), 3),
        "and the nut is set ": (turns(pin(NEW)) - turns(pin(angle(NOW) + 360 / 40)), 3),
    }


@each_case("before", figures())
def test_a_figure_of_the_page_is_right(before: str) -> None:
    value, digits = figures()[before]
    assert f"{before}{value:.{digits}f}" in PAGE


def test_every_figure_that_stands_behind_an_equals_sign_is_among_them() -> None:
    text = "\n".join(part for part in PAGE.split("```")[1::2])
    results = [piece.split()[0] for piece in text.split("= ")[1:]]
    known = {f"{value:.{digits}f}" for value, digits in figures().values()}
    steps = {"(22500", "(22681", "22500", "21600", "80.7931°", "80.4139°"}
    assert {result.rstrip("°,") for result in results if result not in steps} <= known


def test_the_words_on_the_page_are_right() -> None:
    # A step is more than seven turns, and the two ends together come closest at 14 and 17.
    assert turns(pin(angle(MIDDLE) - ANCHOR_STEP)) > 7
    wanted = angle(NOW) - angle(MIDDLE)

    def off(arm: int, anchor: int) -> float:
        return abs((arm * ARM_STEP - anchor * ANCHOR_STEP - wanted + 180) % 360 - 180)

    pairs = [(arm, anchor) for arm in range(-18, 18) for anchor in range(-20, 21)]
    assert min(pairs, key=lambda pair: off(*pair)) == (14, 17)
    assert (MIDDLE - NOW) / PITCH + 2 == (FURTHEST - MIDDLE) / PITCH


# -- A whole vehicle with the same parts -------------------------------------------------


def vehicle() -> bw.Setup:
    """A swing-arm corner with the parts of the page, its nut where the page has it."""
    return make_setup(
        bar=make_bar(36, 41),
        nut_turns="8 turn",
        axle={"suspension": swing_arm_mounting()},
        damper={"open_length": "700 mm", "closed_length": "400 mm"},
        anchor_key="-191 deg",
        anchor={"lever_radius": "90 mm"},
        adjuster={
            "mounting": swivelling(pivot_distance="120 mm"),
            "thread_diameter": "10 mm",
            "thread_pitch": "1.5 mm",
            "thread_start": "140 mm",
            "thread_end": "180 mm",
            "nut_height": "10 mm",
            "spacer": "5 mm",
        },
    )


def test_the_full_model_plans_the_same_tooth_and_the_same_flat() -> None:
    setup = vehicle()
    answer = bw.reindex(setup, wanted=bw.Wanted(same_height=True), present=setup)

    plan = answer.preferred
    assert (plan.arm_tooth, plan.anchor_tooth, plan.cuts) == (0, 1, 1)
    assert known(plan.nut_turns).m_as("turn") == pytest.approx(1 / 3)
    assert known(plan.pin_distance).m_as("mm") == pytest.approx(149.5)
    # What the flat leaves over, and the height of a turn.
    assert (bw.ride(setup).height - plan.height).m_as("mm") == pytest.approx(0.3, abs=0.05)
    assert f"{known(plan.height_per_turn).m_as('mm / turn'):.1f} mm of height" in PAGE


def test_the_full_model_has_the_other_rows_of_the_table_too() -> None:
    setup = vehicle()
    answer = bw.reindex(setup, wanted=bw.Wanted(same_height=True), present=setup)

    found = {(plan.arm_tooth, plan.anchor_tooth): plan for plan in answer.plans}
    assert {(0, 1), (-1, 0), (14, 17)} <= found.keys()
    for (arm, anchor), plan in found.items():
        made_up = (arm * ARM_STEP - anchor * ANCHOR_STEP + 180) % 360 - 180
        exact = turns(pin(angle(NOW) - made_up))
        assert known(plan.nut_turns).m_as("turn") == pytest.approx(exact, abs=1 / 12 + 1e-9)
        assert plan.cuts == (arm != 0) + (anchor != 0)


# -- A vehicle of which only the figures of the page are known ---------------------------

MEASURED = {
    *("bar.arm_end.teeth", "bar.anchor_end.teeth", "anchor.lever_radius"),
    *("adjuster.mounting.pivot_distance", "adjuster.thread_pitch", "adjuster.thread_start"),
    *("adjuster.thread_end", "adjuster.nut_height", "adjuster.spacer"),
}


def test_the_figures_of_the_page_alone_give_the_same_rows() -> None:
    bare = Corner(with_only(vehicle(), MEASURED))
    found = known_clockings(bare, now=bare, wanted=bw.Wanted(same_height=True))

    assert (found[0].arm_tooth, found[0].anchor_tooth, found[0].cuts) == (0, 1, 1)
    assert found[0].nut_turns.m_as("turn") == pytest.approx(1 / 3)
    assert found[0].pin_distance.m_as("mm") == pytest.approx(149.5)
    setup = vehicle()
    plans = bw.reindex(setup, wanted=bw.Wanted(same_height=True), present=setup).plans
    rows = [(plan.arm_tooth, plan.anchor_tooth, plan.nut_turns) for plan in plans]
    assert [(one.arm_tooth, one.anchor_tooth, one.nut_turns) for one in found] == rows

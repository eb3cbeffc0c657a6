"""Laws of `barwright.mechanics.spline.clocking_search`."""

from __future__ import annotations

from barwright.mechanics.spline.clocking import rotation_steps
from barwright.mechanics.spline.clocking_search import Choice, ClockedEnd, choices


def test_blanks_and_sockets_without_a_key_cost_no_cut() -> None:
    cut_before = ClockedEnd(36, blanks=frozenset({0, 5}))

    assert [cut_before.cuts(tooth) for tooth in (0, 5, 6)] == [0, 0, 1]
    assert ClockedEnd(36, keyed=False).cuts(6) == 0


def test_ready_teeth_are_looked_at_each_and_any_other_once() -> None:
    assert ClockedEnd(36, current=3, blanks=frozenset({0, -5})).ways() == [-5, 0, 3, None]
    assert ClockedEnd(36, current=3, keyed=False).ways() == [3, None]


def test_present_clocking_comes_first_and_costs_nothing() -> None:
    arm, anchor = ClockedEnd(36, current=4), ClockedEnd(40, current=-3)
    steps = rotation_steps(arm_tooth=4, anchor_tooth=-3, arm_teeth=36, anchor_teeth=40)
    first = choices(arm, anchor, wanted_steps=float(steps), low=steps - 5.0, high=steps + 5.0)[0]

    # Tooth 4 is not a blank: its key has been cleared, and nothing is cut again.
    assert first == Choice(steps, 4, -3, cuts=0, disturbed=frozenset())


def test_bar_cut_before_reaches_its_second_blank_without_a_cut() -> None:
    arm, anchor = ClockedEnd(36, blanks=frozenset({0, 2})), ClockedEnd(40)
    found = choices(arm, anchor, wanted_steps=20.0, low=15.0, high=25.0)

    assert Choice(20, 2, 0, cuts=0, disturbed=frozenset({"arm"})) in found


def test_choices_are_sorted_by_cuts() -> None:
    cuts = [
        c.cuts
        for c in choices(ClockedEnd(36), ClockedEnd(40), wanted_steps=9.2, low=-40.0, high=40.0)
    ]

    assert cuts == sorted(cuts)
    assert set(cuts) == {0, 1, 2}

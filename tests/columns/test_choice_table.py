"""Laws of `barwright.columns.planning.choice_table`."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.columns.planning.choice_table import ChoiceTable, choice_table
from barwright.mechanics.spline.clocking import centred
from barwright.mechanics.spline.clocking_search import Choice, ClockedEnd, choices
from draws import draws


@st.composite
def bar_ends(draw: st.DrawFn) -> ClockedEnd:
    teeth = draw(st.integers(4, 48))
    tooth = st.integers(-teeth, teeth).map(lambda tooth: centred(tooth, teeth=teeth))
    return ClockedEnd(
        teeth,
        current=draw(tooth),
        blanks=frozenset(draw(st.sets(tooth, max_size=3))),
        keyed=draw(st.booleans()),
        in_place=draw(st.booleans()),
    )


@settings(max_examples=draws(60))
@given(arm=bar_ends(), anchor=bar_ends(), seed=st.integers(0, 2**32 - 1))
def test_the_table_of_many_rotations_holds_the_choices_of_each(
    arm: ClockedEnd, anchor: ClockedEnd, seed: int
) -> None:
    chance = np.random.default_rng(seed)
    wanted = chance.uniform(-90.0, 90.0, 6)
    low, high = wanted + chance.uniform(-30.0, 5.0, 6), wanted + chance.uniform(-5.0, 30.0, 6)
    room = chance.uniform(0.0, 9.0, 6)

    table = choice_table(arm, anchor, wanted_steps=wanted, low=low, high=high, room=room)

    for place in range(6):
        limits = {"low": low[place], "high": high[place], "room": room[place]}
        alone = choices(arm, anchor, wanted_steps=wanted[place], **limits)
        assert _listed(table, place) == set(alone)


def _listed(table: ChoiceTable, place: int) -> set[Choice]:
    rows = np.flatnonzero(table.is_there[:, place]).tolist()
    return {
        Choice(
            int(table.clocking_steps[row, place]),
            int(table.arm_tooth[row, place]),
            int(table.anchor_tooth[row, place]),
            int(table.cuts[row, place]),
            frozenset(
                name
                for name, moves in (("arm", table.arm_moves), ("anchor", table.anchor_moves))
                if moves[row, place]
            ),
        )
        for row in rows
    }

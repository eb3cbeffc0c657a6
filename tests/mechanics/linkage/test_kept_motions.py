"""`kept_motions`: states that are remembered are those that would be found again."""

from __future__ import annotations

import numpy as np

from barwright.mechanics.common.many import at_rows
from barwright.mechanics.linkage.kept_motions import KeptMotions
from linkages import STRUT


def test_a_state_is_remembered_at_the_very_angle_alone() -> None:
    linkage, angle = KeptMotions(STRUT), np.array([0.1, 0.2])
    linkage.keep(angle)

    assert linkage.motion(angle) is linkage.motion(angle)
    assert linkage.motion(angle.copy()) is not linkage.motion(angle)
    assert linkage.motion(angle).load.slope.tolist() == STRUT.motion(angle).load.slope.tolist()  # type: ignore[union-attr]
    assert linkage.angle_at_damper_length(0.6) == STRUT.angle_at_damper_length(0.6)


def test_rows_of_it_remember_nothing() -> None:
    linkage = KeptMotions(STRUT)
    linkage.keep(0.1)
    assert at_rows(linkage, np.array([0])).motion(0.2).angle == 0.2

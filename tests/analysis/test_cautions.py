"""Tests of `barwright.analysis.cautions`: what concerns the work, and nothing else."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.analysis.cautions import cautions_for
from making import make_setup, swing_arm_mounting


def test_every_caution_says_something_of_its_own() -> None:
    texts = [caution.text for caution in bw.Caution]
    assert len(set(texts)) == len(texts)
    assert all(text.endswith(".") for text in texts)


@pytest.mark.parametrize(("spacer", "told"), [("6 mm", True), ("0 mm", False)])
def test_a_spacer_is_spoken_of_where_there_is_one(spacer: str, *, told: bool) -> None:
    setup = make_setup(adjuster={"spacer": spacer})
    assert (bw.Caution.SPACER in cautions_for(setup, cuts=0)) is told
    assert bw.Caution.FULL_NUT in cautions_for(setup, cuts=0)


@pytest.mark.parametrize("drive", [None, "front", "none"])
def test_a_trailer_has_a_coupling_and_no_headlamps(drive: str | None) -> None:
    usual = make_setup()
    setup = attrs.evolve(usual, chassis=attrs.evolve(usual.chassis, drive=drive))
    told = {bw.Caution.AFTER_HEIGHT_CHANGE, bw.Caution.ON_ITS_COUPLING} & {
        *cautions_for(setup, cuts=0)
    }
    assert told == {
        bw.Caution.ON_ITS_COUPLING if drive == "none" else bw.Caution.AFTER_HEIGHT_CHANGE
    }


def test_teeth_and_struts_are_spoken_of_where_they_are() -> None:
    setup = make_setup(axle={"suspension": swing_arm_mounting()})
    assert bw.Caution.GUIDE_MOUNT not in cautions_for(setup, cuts=1)
    assert bw.Caution.GUIDE_MOUNT in cautions_for(make_setup(), cuts=1)
    assert bw.Caution.FEWER_TEETH in cautions_for(setup, cuts=1)
    assert bw.Caution.FEWER_TEETH not in cautions_for(setup, cuts=0)

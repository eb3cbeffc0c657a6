"""Which figures a finding asks to compare."""

from __future__ import annotations

import pytest

from barwright.analysis.finding import Topic
from barwright.lint.corners.compared import compared
from barwright.parts import BarEndName
from sample_records import make_setup


@pytest.mark.parametrize(("end", "named"), [(BarEndName.ARM, "arm"), (BarEndName.ANCHOR, "anchor")])
def test_the_figures_are_those_of_the_end_that_it_is_about(end: BarEndName, named: str) -> None:
    told = compared(make_setup(), Topic.TOOTH_COUNT, end)

    assert told.startswith("compare ")
    assert named in told
    assert told.endswith("; one of them is wrong or has another datum")


def test_a_finding_that_rests_on_no_figures_asks_for_none() -> None:
    assert compared(make_setup(), Topic.BOTH_SIDES) == ""

"""The terminal's page of needed figures says of each what is known."""

from __future__ import annotations

import barwright as bw
from sample_records import make_setup


def test_a_figure_that_nobody_knows_is_said_to_be_unknown() -> None:
    text = bw.text(bw.needs(make_setup(axle={"droop_stop": "unknown"})))

    (line,) = (line for line in text.splitlines() if line.startswith("droop stop"))
    assert "protractor" in line
    assert "unknown" in line

"""The terminal's text of plans says what it must."""

from __future__ import annotations

import barwright as bw
from barwright.report.text.reindex import reindex_text
from sample_records import make_setup
from terminal_text import folded

LOWER = bw.Wanted(height="349 mm")


def test_plans_show_end_tooth_viewer_and_key() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    shown = folded(reindex_text(answer))
    assert f"Plan {len(answer.plans)}:" in shown
    assert "seen from the anchor end, looking toward the arm end" in shown
    assert "The bar as it is now comes out:" in shown

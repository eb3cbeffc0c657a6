"""The terminal's text of a bench sheet says what it must."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.report.text.reindex import reindex_text
from barwright.report.text.sheet import sheet_text
from sample_records import make_bar, make_setup
from terminal_text import folded, printed

LOWER = bw.Wanted(height="349 mm")


def test_a_sheet_without_rates_and_a_re_index_without_fit_still_show() -> None:
    setup = make_setup(bar=make_bar(length="1200 mm"))
    corner = bw.JobCorner(setup=setup, present=setup, wanted=LOWER)
    sheet = bw.bench_sheet(bw.Job(title="t", corners=(corner,)))
    assert "Does not fit" in folded(sheet_text(sheet))
    assert "free angle of the arm none" in folded(reindex_text(bw.reindex(setup)))


def test_a_plan_that_cannot_be_assembled_is_called_so() -> None:
    held = make_setup(
        axle={"droop_stop": "-5.5 deg"},
        bar=make_bar(diameter="20.2 mm"),
        adjuster={"thread_start": "164 mm", "thread_end": "180 mm"},
    )
    wanted = bw.Wanted(height="404 mm")
    assert "cannot be assembled" in folded(reindex_text(bw.reindex(held, wanted=wanted)))
    corner = bw.JobCorner(setup=held, present=held, wanted=wanted)
    sheet = bw.bench_sheet(bw.Job(title="t", corners=(corner,)))
    assert "wherever the nut stands" in folded(sheet_text(sheet))


def test_the_sheet_begins_with_its_cautions_and_numbers_its_steps() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    shown = printed(sheet_text(bw.bench_sheet(job)))
    assert shown.index("Cautions") < shown.index("FRONT LEFT") < shown.index("FRONT RIGHT")
    for caution in ("stores enough energy", "only", "nick", "licensed workshop"):
        assert caution in shown
    assert (
        "3. The damper comes off first: with the nut right back the bar still holds 401 N" in shown
    )
    assert "________" in shown


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ("1.2345 turn", "1.23"),
        ("1.2345 mm/turn", "1.23"),
        ("1.2345 mm", "1.2 mm"),
        ("1.2345 N*m", "1.2 N"),
    ],
)
def test_a_figure_to_set_has_the_digits_of_its_kind_whatever_it_is_called(
    value: str, shown: str
) -> None:
    sheet = bw.bench_sheet(
        bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    )
    setting = bw.answers.SheetSetting(what="nut, turned", value=bw.Quantity(value))
    corner = attrs.evolve(sheet.corners[0], settings=(setting,))

    assert f"nut, turned {shown}" in folded(sheet_text(attrs.evolve(sheet, corners=(corner,))))

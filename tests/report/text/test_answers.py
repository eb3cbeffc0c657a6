"""The terminal text: every answer renders, and says what it must."""

from __future__ import annotations

import io

import pytest
from rich.console import Console, RenderableType

import barwright as bw
from barwright.report.text import answers as text
from barwright.report.text.sheet import sheet_text
from sample_records import make_bar, make_setup
from sample_vehicles import make_chassis

LOWER = bw.Wanted(height="349 mm")


def printed(renderable: RenderableType) -> str:
    out = io.StringIO()
    Console(file=out, width=110, highlight=False, markup=False).print(renderable)
    return out.getvalue()


def folded(renderable: RenderableType) -> str:
    """Text without the line breaks of its layout."""
    return " ".join(printed(renderable).split())


def test_a_fit_shows_both_ends_and_its_verdict() -> None:
    shown = folded(text.fit_text(bw.length_fit(make_setup())))
    assert shown.startswith("The bar fits")
    assert "engagement 37.0 mm 36.0 mm" in shown


def test_reasons_show_figure_and_limit() -> None:
    shown = folded(text.fit_text(bw.length_fit(make_setup(bar=make_bar(length="1200 mm")))))
    assert "does not fit" in shown.lower()
    assert "found 1200.0 mm, limit 980.0 mm" in shown
    assert "active length none" in shown


def test_rates_show_bar_tube_and_wheel() -> None:
    answer = bw.rates(make_setup(), wanted=LOWER)
    assert answer.figures is not None
    shown = folded(text.rates_text(answer))
    for label in ("bar alone", "torque tube", "bar and tube in series", "full droop", "Hz"):
        assert label in shown
    assert f"{answer.figures.ride.wheel_rate.m_as('N/mm'):.2f} N/mm" in shown


def test_a_damping_ratio_is_shown_where_it_is_known() -> None:
    answer = bw.rates(make_setup(damper={"damping_rate": "1800 N*s/m"}), wanted=LOWER)
    assert answer.figures is not None
    assert answer.figures.damping_ratio is not None
    shown = folded(text.rates_text(answer))
    assert f"damping ratio {answer.figures.damping_ratio:.2f}" in shown
    unknown = folded(text.rates_text(bw.rates(make_setup(), wanted=LOWER)))
    assert "damping ratio" not in unknown


def test_rates_out_of_reach_show_the_range() -> None:
    shown = folded(text.rates_text(bw.rates(make_setup(), wanted=bw.Wanted(height="900 mm"))))
    assert "cannot be reached" in shown.lower()
    assert "found 900.0 mm" in shown


def test_plans_show_end_tooth_viewer_and_key() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    shown = folded(text.reindex_text(answer))
    assert f"Plan {len(answer.plans)}:" in shown
    assert "seen from the anchor end, looking toward the arm end" in shown
    assert "The bar as it is now comes out:" in shown


def test_a_sheet_without_rates_and_a_re_index_without_fit_still_show() -> None:
    setup = make_setup(bar=make_bar(length="1200 mm"))
    corner = bw.JobCorner(setup=setup, present=setup, wanted=LOWER)
    sheet = bw.bench_sheet(bw.Job(title="t", corners=(corner,)))
    assert "Does not fit" in folded(sheet_text(sheet))
    assert "free angle of the arm none" in folded(text.reindex_text(bw.reindex(setup)))


def test_a_plan_that_cannot_be_assembled_is_called_so() -> None:
    held = make_setup(
        axle={"droop_stop": "-5.5 deg"},
        bar=make_bar(diameter="20.2 mm"),
        adjuster={"thread_start": "164 mm", "thread_end": "180 mm"},
    )
    wanted = bw.Wanted(height="404 mm")
    assert "cannot be assembled" in folded(text.reindex_text(bw.reindex(held, wanted=wanted)))
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


@pytest.mark.parametrize("van", ["short", "middle", "long"])
def test_the_vehicles_are_listed_by_id(van: str) -> None:
    registry = bw.Registry.discover()
    assert f"fells:chassis/{van}" in printed(text.vehicles_text(registry.vehicles()))


def test_a_vehicle_is_shown_with_what_tells_it_from_others() -> None:
    one = make_chassis(codes=("YD-7", "YD-8"), first_built="2009-03", last_built="2014-05")
    shown = printed(text.vehicles_text([one, make_chassis("two")]))
    assert [line.split() for line in shown.splitlines()] == [
        ["vehicle", "title", "built", "codes", "wheelbase", "axles"],
        [
            *("t:chassis/one", "Van", "2009-03", "to", "2014-05"),
            *("YD-7,", "YD-8", "2400", "mm", "front"),
        ],
        ["t:chassis/two", "Van", "2400", "mm", "front"],
    ]


def test_donors_are_shown_where_a_bar_does_not_fit() -> None:
    registry = bw.Registry.discover()
    van = registry.setup("fells:chassis/long", corner="front left")
    bar = registry.part("fells:bar/short-standard")
    assert isinstance(bar, bw.parts.Bar)
    answer = bw.donors(van.with_parts(bar=bar), parts=registry.parts())
    shown = folded(text.donors_text(answer))
    assert "Donors, best first" in shown
    assert "-171.0 mm, 0.0 mm" in shown
    assert "new cap holes" in shown
    none = folded(text.donors_text(bw.donors(van.with_parts(bar=bar), parts=[])))
    assert "No arm and tube of the installed packs makes it fit." in none
    fits = folded(text.donors_text(bw.donors(van, parts=[])))
    assert fits.startswith("The bar fits")


def test_the_best_donors_stand_in_a_row() -> None:
    registry = bw.Registry.discover()
    van = registry.setup("fells:chassis/long", corner="front left")
    bar = registry.part("fells:bar/short-standard")
    assert isinstance(bar, bw.parts.Bar)
    setup = van.with_parts(bar=bar)
    best = [
        text.donors_row(bw.donors(corner, parts=parts))["best donors"]
        for corner, parts in ((van, ()), (setup, ()), (setup, registry.parts()))
    ]
    assert best == ["", "none", "fells:arm/standard and fells:tube/short"]


def test_a_comparison_shows_both_and_the_change() -> None:
    answer = bw.compare(make_setup(), make_setup(bar=make_bar(diameter="25.1 mm")))
    shown = folded(text.comparison_text(answer))
    assert "ride: wheel rate" in shown
    assert "+" in shown
    missing = bw.compare(make_setup(), make_setup(bar=make_bar(length="1200 mm")))
    assert "bar rate" in folded(text.comparison_text(missing))


def test_rows_sum_answers_up() -> None:
    good, bad = make_setup(), make_setup(bar=make_bar(length="1200 mm"))
    fits = [text.fit_row(bw.length_fit(setup)) for setup in (good, bad)]
    assert [row["verdict"] for row in fits] == ["fits", "does not fit"]
    rated = [text.rates_row(bw.rates(setup)) for setup in (good, bad)]
    assert [bool(row["at the wheel"]) for row in rated] == [True, False]
    plans = [text.reindex_row(bw.reindex(setup, wanted=LOWER)) for setup in (good, bad)]
    assert [row["teeth to remove"] for row in plans] == ["1", ""]
    assert "does not fit" in printed(text.rows_text(fits))


def test_parts_are_listed_with_their_telling_figures() -> None:
    registry = bw.Registry.discover()
    shown = folded(text.parts_text(registry.parts()))
    assert "diameter 23.1 mm, length 904.0 mm" in shown
    assert "0.909 in" in folded(text.parts_text([bw.in_units(p, "inch") for p in registry.parts()]))

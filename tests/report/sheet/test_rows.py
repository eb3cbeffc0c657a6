"""Tests of `rows`: a figure a row, a corner a column."""

from __future__ import annotations

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import fixed_socket, on_fixed, on_key_lever
from barwright.report.sheet.rows import SheetRow, figures, left_open, measurements, rows_together
from sample_packs import discovered_once
from sample_records import fixed_line, known, make_setup
from sheet_corners import LOWER, sheet_of
from sheet_work import work_on

WANTED = bw.Wanted(height="380 mm")
DEEP = on_fixed(axle={"droop_stop": "-40 deg"}, damper={"open_length": "760 mm"})
SPRUNG = bw.parts.LoadKind.SPRUNG
COLUMNS = st.lists(
    st.dictionaries(st.sampled_from("abcd"), st.sampled_from("xyz"), max_size=4),
    min_size=1,
    max_size=4,
)


@given(COLUMNS)
def test_every_figure_of_every_corner_is_in_its_row_and_column(
    columns: list[dict[str, str]],
) -> None:
    rows = rows_together([column.items() for column in columns])
    assert sorted(row.what for row in rows) == sorted({name for c in columns for name in c})
    for row in rows:
        assert row.values == tuple(column.get(row.what, "") for column in columns)
        assert row.value == (row.values[0] if len({*row.values}) == 1 else None)


def test_rows_stand_in_the_order_of_the_corner_that_has_most() -> None:
    rows = rows_together([[("b", "1")], [("a", "2"), ("b", "3")]])
    assert rows == (SheetRow(what="a", values=("", "2")), SheetRow(what="b", values=("1", "3")))


def test_the_figures_to_set_are_the_plan_s() -> None:
    sheet = sheet_of(make_setup())
    plan = known(sheet.corners[0].plan)
    values = {row.what: row.value for row in sheet.figures}
    height = plan.height.m_as("mm")
    assert values["tooth to remove, arm end"] == "1 counter-clockwise"
    # An end that keeps all of its teeth has no row.
    assert [what for what in values if "tooth" in what] == ["tooth to remove, arm end"]
    assert values["bolt's pivot to lever's pin"] == f"{known(plan.pin_distance).m_as('mm'):.1f} mm"
    assert values["hub to arch"] == f"{height:.0f} mm"
    assert values["droop, bump to spare"] == (
        f"{plan.droop_left.m_as('mm'):.0f} mm, {plan.bump_left.m_as('mm'):.0f} mm"
    )
    expected = {one.what: one.expected for one in sheet.measurements}
    assert expected["nut after"] == (values["bolt's pivot to lever's pin"],)
    assert expected["height after"] == (f"{height:.0f} mm",)


@pytest.mark.parametrize(
    ("setup", "what", "place"),
    [
        (make_setup(), "nut", "bolt's pivot to lever's pin"),
        (make_setup(adjuster={"mounting": fixed_line()}), "nut", "bolt's head to lever's pin"),
        (on_key_lever(), "bolt", "cross-member to bolt's end"),
    ],
)
def test_what_is_set_is_told_by_the_names_of_its_pieces(
    setup: bw.Setup, what: str, place: str
) -> None:
    work = work_on(setup, wanted=WANTED)
    rows = dict(figures(work, "metric"))
    left = (work.plan.turns_left_clockwise, work.plan.turns_left_counter_clockwise)
    assert list(rows)[:3] == [
        place,
        "turns to spare clockwise, back",
        "one turn clockwise raises",
    ]
    told = ", ".join(f"{known(turns).m_as('turn'):.1f}" for turns in left)
    assert rows["turns to spare clockwise, back"] == told
    rise = known(work.plan.height_per_turn).m_as("mm/turn")
    assert rows["one turn clockwise raises"] == f"{rise:.1f} mm"
    assert [
        (one.what, one.where, one.tool, bool(one.expected[0]))
        for one in measurements([work], "metric")
    ] == [
        ("scale reading", "under the tyre", "wheel scale", False),
        ("height before", "hub to arch", "tape", False),
        (f"{what} before", place, "calliper", False),
        (f"{what} after", place, "calliper", True),
        ("height after", "hub to arch", "tape", True),
    ]


@pytest.mark.parametrize(
    ("setup", "what", "end"),
    [
        (make_setup(arm_keyed=False), "tooth to mark, arm end", 0),
        (make_setup(anchor_keyed=False), "tooth to mark, anchor end", 1),
    ],
)
def test_a_tooth_is_only_marked_where_no_key_asks_for_its_place(
    setup: bw.Setup, what: str, end: int
) -> None:
    work = work_on(setup, wanted=LOWER)
    its = work.plan.ends[end]
    rows = dict(figures(work, "metric"))
    assert rows[what] == f"{its.tooth} {known(its.direction).value}"
    assert [name for name in rows if "tooth" in name] == [what]


def test_a_blank_that_was_cut_before_is_no_tooth_to_remove_or_to_mark() -> None:
    work = work_on(make_setup(), wanted=LOWER)
    cut = bw.carry_out(work.setup, work.plan)
    back = work_on(cut, present=make_setup(), wanted=LOWER)
    assert back.plan.cuts == 0
    assert any(end.tooth and end.direction for end in back.plan.ends)
    assert not any("tooth" in what for what in dict(figures(back, "metric")))


@pytest.mark.parametrize(("turns", "told"), [(0, "0 turns"), (1, "1 turn"), (2, "2 turns")])
def test_a_limit_of_safe_turns_is_told_where_there_is_one(turns: int, told: str) -> None:
    work = work_on(make_setup(), wanted=WANTED)
    table = bw.nut_table(bw.carry_out(work.setup, work.plan))
    for way, sign in (("lower", -1), ("raise", 1)):
        unsafe = attrs.evolve(
            table,
            table_rows=tuple(
                attrs.evolve(row, bolt_takes_set=sign * row.raising_turns > turns)
                for row in table.table_rows
            ),
        )
        rows = dict(figures(attrs.evolve(work, nut_table=unsafe), "metric"))
        safe = {what: value for what, value in rows.items() if what.startswith("safe to")}
        assert safe == {f"safe to {way} by at most": told}
        # It stands by what a turn does.
        assert list(rows).index(f"safe to {way} by at most") == (
            list(rows).index("one turn clockwise raises") + 1
        )


@pytest.mark.parametrize("table", [bw.nut_table(make_setup()), bw.nut_table(on_fixed()), None])
def test_no_limit_of_turns_is_told_where_the_thread_alone_is_one(
    table: bw.answers.NutTable | None,
) -> None:
    work = attrs.evolve(work_on(make_setup(), wanted=WANTED), nut_table=table)
    assert not any("safe" in what for what, _ in figures(work, "metric"))


def test_the_sheet_tells_the_limit_of_its_plan_carried_out() -> None:
    sheet = bw.bench_sheet(bw.load_job("docs/examples/firmer-bars.toml", discovered_once()))
    limits = [known(corner.nut_table).most_lowering for corner in sheet.corners]
    assert limits == [1, 1]
    (row,) = [row for row in sheet.figures if row.what == "safe to lower by at most"]
    assert row.values == ("1 turn", "1 turn")


def test_nothing_is_turned_with_a_fixed_socket() -> None:
    sheet = sheet_of(DEEP, wanted=bw.Wanted(height="404 mm"))
    assert [row.what for row in sheet.figures] == [
        *("tooth to remove, arm end", "tooth to remove, anchor end"),
        *("hub to arch", "droop, bump to spare"),
        *(sheet.corners[0].load_is, "rate, frequency at the wheel", "bar at full bump"),
    ]
    assert [one.what for one in sheet.measurements] == [
        "scale reading",
        "height before",
        "height after",
    ]


def test_a_rate_without_a_frequency_and_a_bar_without_rates_are_still_told() -> None:
    work = work_on(make_setup(), wanted=WANTED)
    found = known(work.rates.figures)
    rated = attrs.evolve(work.rates, figures=attrs.evolve(found, ride_frequency=None))
    rate = f"{found.ride.wheel_rate.m_as('N/mm'):.1f} N/mm"
    rows = dict(figures(attrs.evolve(work, rates=rated), "metric"))
    assert rows["rate, frequency at the wheel"] == rate
    unrated = attrs.evolve(work, rates=attrs.evolve(work.rates, figures=None))
    rows = dict(figures(unrated, "metric"))
    assert "rate, frequency at the wheel" not in rows
    assert rows["bar at full bump"] == work.strength.verdict.value


def test_a_load_is_told_in_the_reader_s_units() -> None:
    work = work_on(make_setup(), wanted=WANTED)
    name = work.setup.load.kind.value
    kilograms, pounds = (
        float(dict(figures(work, system))[name].split()[0]) for system in ("metric", "inch")
    )
    assert pounds == pytest.approx(kilograms / 0.45359237, abs=0.2)


def test_the_sheet_says_what_the_tolerances_leave_open() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
    for corner in bw.bench_sheet(job).corners:
        plan = known(corner.plan)
        assert "to a flat of the nut; the parts' tolerances leave ± 7 mm (about 95 %)" in (
            left_open(plan)
        )
        # The nut can make it up: enough thread is left for it.
        by_turns = known(plan.thread_reserve).magnitude * known(plan.height_per_turn).magnitude
        assert plan.height_uncertainty.m_as("mm") < by_turns


@pytest.mark.parametrize(
    ("setup", "height", "said"),
    [
        (make_setup(), "380 mm", "± {:.1f} mm to a flat of the nut"),
        (on_key_lever(), "380 mm", "± {:.1f} mm to a flat of the bolt's head"),
        (DEEP, "404 mm", "{:.1f} mm off the wanted"),
    ],
)
def test_a_height_is_left_open_by_what_it_is_set_with(
    setup: bw.Setup, height: str, said: str
) -> None:
    plan = bw.reindex(setup, wanted=bw.Wanted(height=height)).plans[0]
    assert left_open(plan) == said.format(plan.height_rounding.m_as("mm"))


def test_a_place_that_a_job_states_is_expected_before() -> None:
    for turns, expected in (("0 turn", ""), ("2 turn", f"{159.5 - 3.5:.1f} mm")):
        # 159.5 mm from its pivot in the middle, less two turns of 1.75 mm.
        sheet = sheet_of(make_setup(nut_turns=turns))
        (before,) = [one for one in sheet.measurements if one.what == "nut before"]
        assert before.expected == (expected,)


def test_nothing_is_measured_where_nothing_is_done() -> None:
    assert measurements([], "metric") == ()


@pytest.mark.parametrize(
    ("kind", "expected"), [(bw.parts.LoadKind.SCALE_READING, "300 kg"), (SPRUNG, "")]
)
def test_the_scale_reading_is_the_first_thing_to_measure(
    kind: bw.parts.LoadKind, expected: str
) -> None:
    """A sprung mass is not what a scale shows: there is nothing to compare."""
    sheet = sheet_of(make_setup().with_load(kind=kind, mass="300 kg"), wanted=WANTED)
    first = sheet.measurements[0]
    assert (first.what, first.expected) == ("scale reading", (expected,))


def test_a_bolt_that_makes_room_for_a_fixed_socket_is_measured_before_and_not_after() -> None:
    tube = make_setup(axle={"droop_stop": "-40 deg"}, damper={"open_length": "760 mm"})
    fixed = tube.with_parts(anchor=fixed_socket())
    wanted = bw.Wanted(height="404 mm")
    there, back = sheet_of(fixed, tube, wanted), sheet_of(tube, fixed, wanted)
    assert [row.what for row in there.measurements][2:] == ["nut before", "height after"]
    assert [row.what for row in back.measurements][2:] == ["nut after", "height after"]


def test_a_place_of_one_side_leaves_the_other_s_column_empty() -> None:
    """Only one corner's bolt is of a kind: each kind has its row."""
    nut, bolt = work_on(make_setup(), wanted=LOWER), work_on(on_key_lever(), wanted=WANTED)
    rows = {one.what: one.expected for one in measurements([nut, bolt], "metric")}
    assert rows["nut after"][1] == ""
    assert rows["bolt after"][0] == ""
    assert rows["nut after"][0] != ""
    assert rows["bolt after"][1] != ""


def test_what_was_measured_is_expected_before() -> None:
    setup = attrs.evolve(make_setup(), pin_distance="158.5 mm").with_reading(height="385 mm")
    found = {row.what: row.expected for row in sheet_of(setup).measurements}
    assert (found["nut before"], found["height before"]) == (("158.5 mm",), ("385 mm",))
    bare = {row.what: row.expected for row in sheet_of(make_setup()).measurements}
    assert (bare["nut before"], bare["height before"]) == (("",), ("",))

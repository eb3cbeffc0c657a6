"""The bench sheet of a job: its answer first, one list of steps, nothing beside a refusal."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.cli.output import shown_text
from barwright.report.sheet.steps.adjustment import adjusted
from barwright.report.text.sheet import sheet_text
from rare_cases import rarely_after
from sample_packs import discovered_once
from sample_records import known, make_setup
from sheet_corners import LOWER, place, sheet_of, stuck_corner, texts

Caution = bw.answers.Caution
SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
AS_IT_IS, FAR = bw.Wanted(height="404 mm"), bw.Wanted(height="900 mm")
LEFT, RIGHT = make_setup(), make_setup(side=bw.parts.Side.RIGHT)


def corner(setup: bw.Setup, wanted: bw.Wanted = LOWER) -> bw.JobCorner:
    return bw.JobCorner(setup=setup, present=setup, wanted=wanted)


def of_both(left: bw.JobCorner, right: bw.JobCorner) -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.Job(title="t", corners=(left, right)))


def demo(name: str = "shorter-dampers") -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.load_job(f"docs/examples/{name}.toml", discovered_once()))


# -- What it follows ------------------------------------------------------------------------


def test_the_demo_job_needs_one_tooth_on_each_side() -> None:
    sheet = demo()
    assert all(outcome.is_good for outcome in sheet.outcomes)
    for each in sheet.corners:
        assert (known(each.plan).cuts, len(known(each.plan).disturbed)) == (1, 1)


def test_the_steps_can_follow_another_plan() -> None:
    job = bw.Job(title="t", corners=(corner(make_setup()),))
    first, second = (bw.bench_sheet(job, plan=n) for n in (1, 2))
    for number, sheet in ((1, first), (2, second)):
        (only,) = sheet.corners
        assert (only.plan, only.plan_number) == (only.reindex.plans[number - 1], number)
    assert first.steps != second.steps


def test_plans_are_counted_from_one() -> None:
    job = bw.Job(title="t", corners=(corner(make_setup()),))
    with pytest.raises(bw.SchemaError) as caught:
        bw.bench_sheet(job, plan=0)
    assert (caught.value.code, caught.value.key) == ("S203", "plan")


def test_the_rates_are_those_of_the_bar_as_it_will_be() -> None:
    figures = known(demo().corners[0].rates.figures)
    assert [head.teeth_left for head in figures.heads] == [37, 41]


def test_a_nut_beyond_its_thread_is_refused_even_where_nothing_else_depends_on_it() -> None:
    with pytest.raises(bw.QuantityError) as caught:
        sheet_of(make_setup(), make_setup(nut_turns="40 turn"))
    assert caught.value.key == "present.nut_turns"


@pytest.mark.parametrize(
    ("corners", "found"),
    [((), "no corner"), ((corner(LEFT), corner(LEFT, AS_IT_IS)), "front left, front left")],
)
def test_a_sheet_has_a_corner_and_a_column_for_each(
    corners: tuple[bw.JobCorner, ...], found: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.bench_sheet(bw.Job(title="t", corners=corners))
    assert (caught.value.code, caught.value.value, caught.value.key) == ("S207", found, "corners")


# -- Both sides -----------------------------------------------------------------------------


def test_what_both_sides_share_is_written_once() -> None:
    one, both = sheet_of(LEFT), of_both(corner(LEFT), corner(RIGHT))
    assert len(both.steps) == len(one.steps)
    assert all(step.corners == () for step in both.steps)
    assert [stage.title for stage in both.stages] == [stage.title for stage in one.stages]


def test_what_differs_between_the_sides_is_shown_for_both() -> None:
    finer = make_setup(side=bw.parts.Side.RIGHT, adjuster={"thread_pitch": "1.5 mm"})
    sheet = of_both(corner(LEFT), corner(finer))
    said = sheet.steps[place(sheet, "Set the nut")].text
    turns = [known(adjusted(known(each.plan))).from_slack_end.magnitude for each in sheet.corners]
    assert f"about {turns[0]:.1f} (left), {turns[1]:.1f} (right) turns clockwise" in said
    assert "Set the nut: 161.0 mm from the bolt's pivot" in said  # the same on both
    assert sheet.planned == ("front left", "front right")


def test_a_step_of_one_corner_names_it() -> None:
    """Only on the left is there a tooth to remove."""
    sheet = of_both(corner(LEFT), corner(RIGHT, AS_IT_IS))
    own = {step.text: step for step in sheet.steps if step.corners}
    drawn = own["Pull the bar out at the anchor end."]
    assert drawn.corners == ("front left",)
    assert drawn.line == "Front left: Pull the bar out at the anchor end."
    # The nut is set on both, on the right from where it stands.
    assert sheet.steps[place(sheet, "Set the nut")].corners == ("front left",)
    assert sheet.steps[place(sheet, "Turn the nut until")].corners == ("front right",)
    assert sheet.steps[place(sheet, "Chock the wheels")].corners == ()


# -- Refusals -------------------------------------------------------------------------------


def test_a_wish_out_of_reach_has_no_steps() -> None:
    sheet = sheet_of(make_setup(), wanted=FAR)
    (only,) = sheet.corners
    assert only.verdict is bw.Verdict.OUT_OF_REACH
    assert only.plan is None
    assert (sheet.steps, sheet.figures, sheet.measurements, sheet.planned) == (
        (),
        (),
        (),
        (),
    )


def test_without_a_ball_joint_the_sheet_stops_where_it_knows_no_way() -> None:
    sheet = bw.bench_sheet(bw.Job(title="t", corners=(stuck_corner(),)))
    (only,) = sheet.corners
    assert (only.plan, only.verdict) == (None, bw.Verdict.NO_SAFE_WAY)
    assert not sheet.outcome.is_good
    # Nothing is to be touched: no step stands beside the refusal, and nothing is to be set.
    touched, no_way = sheet.steps
    assert touched.line.startswith(
        "STOP: Do not touch the bar: with the nut fully slackened and the damper off it still "
    )
    assert no_way.line.startswith("STOP: This sheet knows no safe way")
    assert [stage.title for stage in sheet.stages] == ["Front left: leave it alone"]
    assert (sheet.figures, sheet.measurements) == ((), ())


def test_what_must_not_be_touched_stands_before_the_work_on_the_other_side() -> None:
    stuck = stuck_corner()
    other = make_setup(side=bw.parts.Side.RIGHT)
    sheet = of_both(stuck, corner(other))
    refusals, *work = sheet.stages
    assert refusals.title == "Front left: leave it alone"
    assert all(step.refused for step in refusals.steps)
    assert work
    for stage in work:
        assert not any(step.refused for step in stage.steps)
        assert not any("front left" in step.corners for step in stage.steps)
    assert sheet.planned == ("front right",)
    assert {row.values for row in sheet.figures if len(row.values) != 1} == set()
    assert sheet.headlines[0].startswith("Front right: remove 1 tooth")
    assert sheet.headlines[1].startswith("Front left: no safe way known")


def test_the_worst_corner_is_the_outcome_of_the_sheet() -> None:
    sheet = of_both(corner(LEFT), corner(RIGHT, FAR))
    assert sheet.outcomes == (bw.Outcome.FINE_WITH_CHANGES, bw.Outcome.NO)
    assert sheet.outcome is bw.Outcome.NO
    assert sheet.headline == " ".join(sheet.headlines)
    assert len(sheet.headlines) == 2


def test_a_refusal_that_corners_share_is_said_once() -> None:
    same = of_both(corner(LEFT, FAR), corner(RIGHT, FAR))
    (line,) = same.headlines
    assert line.startswith("Front left and right: cannot be reached: ")
    assert line.count("cannot be reached") == 1


# -- Parts, sources, untrusted text ---------------------------------------------------------


def test_a_part_that_replaces_another_says_so() -> None:
    now = make_setup()
    short = make_setup(damper=SHORT | {"id": "t:damper/short", "title": "Short"}).damper
    sheet = sheet_of(now.with_parts(damper=short), now, AS_IT_IS)
    parts = {part.kind: part for part in sheet.corners[0].parts}
    assert (parts["damper"].replaces, parts["bar"].replaces) == ("Damper", "")
    rows = {row.what: row.value for row in sheet.parts}
    assert rows["damper"] == "Short, in place of Damper"
    assert rows["bar"] == "Bar"


def test_a_part_of_the_same_id_that_differs_is_in_the_place_of_the_other() -> None:
    now = make_setup()
    worn = attrs.evolve(now.damper, open_length="670 mm")
    sheet = sheet_of(now.with_parts(damper=worn), now, bw.Wanted())
    assert {part.kind: part.replaces for part in sheet.corners[0].parts}["damper"] == "Damper"


@pytest.mark.parametrize(
    "title",
    rarely_after(
        3, ["{x}", "{0.__class__}", "{", "}} {{", "{bar}", "[bold]red[/bold]", "[/]", "%s"]
    ),
)
def test_what_packs_and_jobs_say_comes_out_as_it_is(title: str) -> None:
    named = {"title": title}
    now = make_setup(adjuster=named, damper=named)
    other = attrs.evolve(now.bar, id="t:bar/two", title=title)
    new = {part: attrs.evolve(getattr(now, part), id=f"t:{part}/two") for part in ("arm", "damper")}
    job_corner = bw.JobCorner(setup=now.with_parts(bar=other, **new), present=now, wanted=LOWER)
    right = make_setup(side=bw.parts.Side.RIGHT)
    for corners_of in ((job_corner,), (job_corner, corner(right))):
        sheet = bw.bench_sheet(bw.Job(title=title, corners=corners_of))
        said = texts(sheet)
        assert f"Inspect it in good light: {title}" in said
        assert f"until the damper goes on: {title}" in said
        shown = shown_text(sheet_text(sheet))
        assert f"{title}: Chassis" in shown
        assert f"Inspect it in good light: {title}" in shown
        assert bw.from_json(bw.to_json(sheet)) == sheet


def test_steps_in_inches_hold_no_metric_figure() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
    sheet = bw.bench_sheet(job, system="inch")
    said = texts(sheet)
    rows = [value for row in (*sheet.figures,) for value in row.values]
    rows += [value for row in sheet.measurements for value in row.expected]
    for text in (said, *rows, *sheet.headlines):
        assert " mm" not in text
        assert "N·m" not in text
        assert " kg" not in text
    assert " in " in said
    assert any(value.endswith(" in") for value in rows)


def test_a_corner_of_a_sheet_sums_up_its_plan_and_numbers_the_others() -> None:
    (only,) = sheet_of(make_setup()).corners
    assert only.headline == f"R{known(only.plan).summary[1:]}"
    assert [number for number, _ in only.other_plans] == list(range(2, len(only.reindex.plans) + 1))
    assert only.outcome is only.reindex.outcome
    (far,) = sheet_of(make_setup(), wanted=FAR).corners
    assert far.headline == far.reindex.headline


def test_a_sheet_and_its_corners_are_told_by_their_answer() -> None:
    sheet = sheet_of(make_setup())
    (only,) = sheet.corners
    assert repr(only).startswith(f"<CornerSheet: front left: {only.headline[:30]}")
    assert repr(sheet).startswith(f"<BenchSheet: {sheet.headline[:30]}")


def test_bushings_that_are_not_tightened_at_the_height_are_a_note_of_the_sheet() -> None:
    bushing = bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="-12 deg")
    sheet = sheet_of(make_setup(axle={"bushing": bushing}), wanted=AS_IT_IS)
    (said,) = [note for note in sheet.notes if "not tightened at this height" in note]
    assert said.endswith(": 14.0 N·m")


def test_the_vehicle_names_all_packs_that_it_rests_on() -> None:
    sheet = attrs.evolve(demo("firmer-bars"), vehicle="Truck", packs=("a 1", "b 2"))
    assert sheet.vehicle_with_packs == "Truck (a 1, b 2)"
    assert attrs.evolve(sheet, packs=()).vehicle_with_packs == "Truck"

"""Plans of re-indexing at a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.reindex.plan.plan import EndWork, Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.tolerance.shifted_answers import COVERAGE_TEXT
from barwright.report.drawing.bar_end_view import datum_of, viewer
from barwright.report.sheet.steps.adjustment import PlannedAdjustment, adjusted, stand
from barwright.report.text.clockings import clocking_tables
from barwright.report.text.layout.page import Page, Section, page_of
from barwright.report.text.layout.tables import Block, Grid, finding_lines, pairs, table
from barwright.units import is_unknown, shown

__all__ = ["plan_lines", "reindex_row", "reindex_text"]


def reindex_text(answer: Reindex) -> Page:
    """Show the plan to prefer, then what it rests on, and the other plans."""
    plans = tuple(enumerate((*answer.plans, *answer.rejected), start=1))
    first = [part for number, plan in plans[:1] for part in plan_lines(number, plan)]
    others = tuple(
        Section(f"Plan {number}", tuple(_plan_tables("", plan))) for number, plan in plans[1:]
    )
    return page_of(
        answer,
        *first,
        *clocking_tables(answer.clockings),
        *_removal(answer),
        _asked(answer),
        *([Section("Alternatives", others)] if others else ()),
        findings=finding_lines(_label(answer), answer.further_findings),
    )


def _asked(answer: Reindex) -> Grid:
    """Show what is wanted, and what there is to bring it about."""
    return pairs(
        *_wanted(answer),
        ("travel reaches", _reach(answer)),
        ("free angle of the arm", _with_tolerance(answer)),
        *_thread_left(answer),
        title="What is wanted and what is possible",
    )


def _reach(answer: Reindex) -> str:
    if is_unknown(answer.reachable_from):
        return "not known"
    return f"{shown(answer.reachable_from, 1)} to {shown(answer.reachable_to, 1)}"


def _wanted(answer: Reindex) -> Iterator[tuple[str, str]]:
    if answer.wanted_height is not None:
        yield "wanted, hub to arch", shown(answer.wanted_height, 1)


def _removal(answer: Reindex) -> Iterator[Grid]:
    if answer.removal:
        yield _assembly(answer.removal, "How the bar comes out as it is now")


def _label(answer: Answer) -> str:
    """Return the word before a finding: a reason, where the answer is no."""
    return "because" if answer.verdict.is_refusal else "note"


def _with_tolerance(answer: Reindex) -> str:
    if answer.free_angle is None or answer.free_angle_uncertainty is None:
        return "not known"
    return f"{shown(answer.free_angle, 2)} ± {shown(answer.free_angle_uncertainty, 2)}"


def _thread_left(answer: Reindex) -> Iterator[tuple[str, str]]:
    """Thread that counts as enough, and the height that costs no tooth."""
    if answer.enough_thread_reserve is not None:
        yield "thread to keep each way", shown(answer.enough_thread_reserve, 1)
    if answer.uncut_height is not None:
        yield "nearest with no tooth removed", shown(answer.uncut_height, 1)


def plan_lines(number: int, plan: Plan) -> Iterator[Block]:
    """Show a plan under its number."""
    yield from _plan_tables(f"Plan {number}", plan)


def _plan_tables(title: str, plan: Plan) -> Iterator[Block]:
    at = adjusted(plan)
    yield pairs(
        *_verdict(plan),
        ("teeth to remove", str(plan.cuts)),
        *(row for work in plan.ends for row in _end(work)),
        *(_turns(at) if at else ()),
        ("resulting hub to arch", shown(plan.height, 1)),
        *_left_open(plan),
        *(_rise(at) if at else ()),
        ("droop to spare", shown(plan.droop_left, 0)),
        ("bump to spare", shown(plan.bump_left, 0)),
        ("torque at full droop", shown(plan.droop.torque, 0)),
        *_cost(plan),
        title=title,
    )
    yield from finding_lines("note", plan.findings)
    yield _assembly(plan.fitting, "How the bar goes in")


def _verdict(plan: Plan) -> Iterator[tuple[str, str]]:
    """Say what becomes of a plan that cannot be carried out."""
    if plan.verdict is not Verdict.REACHED:
        yield "answer", plan.verdict.value


def _end(work: EndWork) -> Iterator[tuple[str, str]]:
    """Say what is done at an end of the bar."""
    end = work.end.value
    yield end, work.action.value
    if work.tooth:
        sense = f" {work.direction.value}" if work.direction else ""
        yield f"{end}, tooth from {datum_of(work)}", f"{work.tooth}{sense}"
        yield f"{end}, seen", viewer(work).removeprefix("seen ")
    yield f"{end}, on the key", work.on_key.value
    if work.missing_tooth_factor is not None and work.blank_count >= _SEVERAL:
        share = f"{work.missing_tooth_factor:.2f} times the even share"
        yield f"{end}, most loaded tooth", share


def _turns(at: PlannedAdjustment) -> Iterator[tuple[str, str]]:
    what = at.words.what
    yield f"{what} from mid-thread, clockwise positive", shown(at.turns, 2)
    yield f"{what}, measured to the {at.words.point}", shown(at.distance, 1)
    yield "turns to spare clockwise", shown(at.left_clockwise, 1)
    yield "turns to spare counter-clockwise", shown(at.left_counter_clockwise, 1)


def _rise(at: PlannedAdjustment) -> Iterator[tuple[str, str]]:
    rise = shown(at.height_per_turn, 2).removesuffix("/turn")
    yield f"one turn {at.raising_sense.value} raises by", rise


_SEVERAL = 2


def _left_open(plan: Plan) -> Iterator[tuple[str, str]]:
    """Show how near the height comes, by the adjuster's flats and by what is not known."""
    off = shown(plan.height_rounding, 1)
    yield ("to the nearest flat", f"± {off}") if adjusted(plan) else ("off the wanted height", off)
    if plan.height_uncertainty.magnitude != 0.0:
        open_by = f"± {shown(plan.height_uncertainty, 0)}"
        yield f"by the parts' tolerances, {COVERAGE_TEXT}", open_by


def _cost(plan: Plan) -> Iterator[tuple[str, str]]:
    """Show what the plan costs against the first."""
    cost = plan.cost
    if cost is None:
        return
    yield "teeth to remove compared with plan 1", f"{cost.teeth:+d}"
    yield "ends compared with plan 1", f"{cost.ends:+d}"
    if cost.thread_reserve is not None:
        yield "turns to spare compared with plan 1", _signed(shown(cost.thread_reserve, 1))


def _signed(text: str) -> str:
    return text if text.startswith("-") else f"+{text}"


def _assembly(ways: Sequence[Assembly], title: str) -> Grid:
    at = stand(ways[0])
    lift = f"free lift, {at.words.what} slack" if at else "lift that unloads it"
    turns = (f"{at.words.what} from mid-thread",) if at else ()
    rows = table("damper", "bar", *turns, lift, "torque, energy left", title=title)
    for way in ways:
        left = f"{shown(way.residual_torque, 0)}, {shown(way.residual_energy, 0)}"
        rows.add_row(
            "on" if way.damper_fitted else "off",
            "slides by hand" if way.slides else "stays twisted",
            *_turns_of(way),
            shown(way.lift, 0) if at or way.slides else "none does",
            "nothing" if way.slides else left,
        )
    return rows


def _turns_of(way: Assembly) -> Iterator[str]:
    at = stand(way)
    if at is not None:
        yield "anywhere" if way.anywhere else f"{shown(at.turns, 1)}{_or_slacker(way)}"


def _or_slacker(way: Assembly) -> str:
    return " or slacker" if way.slides else ""


def reindex_row(answer: Reindex) -> dict[str, str]:
    """Sum the first plan up in a row."""
    plan = answer.plans[0] if answer.plans else None
    at = None if plan is None else adjusted(plan)
    return {
        "answer": answer.verdict.value,
        "teeth to remove": "" if plan is None else str(plan.cuts),
        "ends": "" if plan is None else ", ".join(end.value for end in plan.disturbed) or "none",
        "nut from mid-thread": "" if at is None else shown(at.turns, 2),
        "hub to arch": "" if plan is None else shown(plan.height, 1),
    }

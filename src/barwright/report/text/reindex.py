"""Plans of re-indexing at a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from barwright.analysis.answer import Answer
from barwright.analysis.reindex.assembly import Assembly
from barwright.analysis.reindex.plan import EndWork, Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.report.drawing.bar_end_view import viewer
from barwright.report.sheet.adjustment import PlannedAdjustment, adjusted, stand
from barwright.report.sheet.rows import left_open
from barwright.report.text.tables import finding_lines, headline_text, marked, pairs, table
from barwright.units import shown

__all__ = ["plan_lines", "reindex_row", "reindex_text"]

_BLANK_LINE = ""


def reindex_text(answer: Reindex) -> RenderableType:
    """Show all plans."""
    parts: list[RenderableType] = [
        headline_text(answer),
        *finding_lines(_label(answer), answer.further_findings),
        pairs(
            ("wanted, hub to arch", shown(answer.wanted_height, 1)),
            (
                "travel reaches",
                f"{shown(answer.reachable_from, 1)} to {shown(answer.reachable_to, 1)}",
            ),
            ("free angle of the arm", _with_tolerance(answer)),
            *_thread_left(answer),
        ),
    ]
    for number, plan in enumerate((*answer.plans, *answer.rejected), start=1):
        parts += plan_lines(number, plan)
    if answer.removal:
        parts += ["The bar as it is now comes out:", _assembly(answer.removal)]
    return Group(*parts)


def _label(answer: Answer) -> str:
    """Return the word before a finding: a reason, where the answer is no."""
    return "because" if answer.verdict.is_refusal else "note"


def _with_tolerance(answer: Reindex) -> str:
    if answer.free_angle is None or answer.free_angle_uncertainty is None:
        return "none"
    return f"{shown(answer.free_angle, 2)} ± {shown(answer.free_angle_uncertainty, 2)}"


def _thread_left(answer: Reindex) -> Iterator[tuple[str, str]]:
    """Thread that counts as enough, and the height that costs no tooth."""
    if answer.enough_thread_reserve is not None:
        yield "thread to keep either way", shown(answer.enough_thread_reserve, 1)
    if answer.uncut_height is not None:
        yield "nearest without a cut", shown(answer.uncut_height, 1)


def plan_lines(number: int, plan: Plan) -> Iterator[RenderableType]:
    """Show a plan."""
    cuts = {0: "no tooth to remove", 1: "one tooth to remove"}.get(
        plan.cuts, f"{plan.cuts} teeth to remove"
    )
    yield _BLANK_LINE
    yield Text(f"Plan {number}: {cuts}; {plan.verdict.value}", style="bold")
    for work in plan.ends:
        sense = f" {work.direction.value} from the maker's blank" if work.direction else ""
        tooth = f"; tooth {work.tooth}{sense}, {viewer(work)}" if work.tooth else ""
        yield marked(
            "-",
            f"{work.end.value}: {work.action.value}{tooth}; on the key: {work.on_key.value}"
            f"{_most_loaded(work)}",
        )
    yield from finding_lines("note", plan.findings)
    at = adjusted(plan)
    yield pairs(
        *(_turns(at) if at else ()),
        ("hub to arch that results", f"{shown(plan.height, 1)}, {left_open(plan)}"),
        *(_rise(at) if at else ()),
        ("droop left; bump left", f"{shown(plan.droop_left, 0)}; {shown(plan.bump_left, 0)}"),
        ("torque left at full droop", shown(plan.droop.torque, 0)),
        *_cost(plan),
    )
    yield _assembly(plan.fitting)


def _turns(at: PlannedAdjustment) -> Iterator[tuple[str, str]]:
    yield f"{at.words.what} from the middle, clockwise positive", shown(at.turns, 2)
    left = f"{shown(at.left_clockwise, 1)}; {shown(at.left_counter_clockwise, 1)}"
    yield "turns left clockwise; counter-clockwise", left


def _rise(at: PlannedAdjustment) -> Iterator[tuple[str, str]]:
    rise = shown(at.height_per_turn, 2).removesuffix("/turn")
    yield f"one turn {at.raising_sense.value} raises by", rise


def _most_loaded(work: EndWork) -> str:
    """Say what the gaps of an end cost, where it has more than its blank."""
    if work.missing_tooth_factor is None or work.blank_count < _SEVERAL:
        return ""
    return f"; its most loaded tooth carries {work.missing_tooth_factor:.2f} times the even share"


_SEVERAL = 2


def _cost(plan: Plan) -> Iterator[tuple[str, str]]:
    """Show what the plan costs against the first."""
    cost = plan.cost
    if cost is None:
        return
    reserve = cost.thread_reserve
    turns = "" if reserve is None else f", {_signed(shown(reserve, 1))} left"
    yield "against plan 1", f"{cost.teeth:+d} teeth to remove, {cost.ends:+d} ends{turns}"


def _signed(text: str) -> str:
    return text if text.startswith("-") else f"+{text}"


def _assembly(ways: Sequence[Assembly]) -> Table:
    at = stand(ways[0])
    lift = f"lift with a slack {at.words.what}" if at else "lift that frees it"
    turns = (f"{at.words.what}, from the middle",) if at else ()
    rows = table("damper", "bar", *turns, lift, "left in it")
    for way in ways:
        left = f"{shown(way.residual_torque, 0)}, {shown(way.residual_energy, 0)}"
        rows.add_row(
            "on" if way.damper_fitted else "off",
            "slides by hand" if way.slides else "is held",
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
        "nut from the middle": "" if at is None else shown(at.turns, 2),
        "hub to arch": "" if plan is None else shown(plan.height, 1),
    }

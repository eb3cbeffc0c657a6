"""Answers for a person at a terminal, as rich renderables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from barwright.analysis.across.compare import Comparison
from barwright.analysis.across.donors import Donors
from barwright.analysis.answer import Answer
from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.rates.rates import RateFigures, Rates
from barwright.analysis.reindex.assembly import Assembly
from barwright.analysis.reindex.plan import EndWork, Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.parts.chassis import Chassis
from barwright.parts.record import Part
from barwright.registry.search.distinguish import built_text
from barwright.report.printable import one_line
from barwright.report.sheet.adjustment import Adjusted, adjusted, stand
from barwright.report.sheet.bar_ends import viewer
from barwright.report.sheet.settings import left_open
from barwright.report.text.tables import (
    finding_lines,
    headline_text,
    marked,
    or_none,
    pairs,
    table,
)
from barwright.units import Quantity, shown, unit_spelling

__all__ = [
    "comparison_text",
    "donors_row",
    "donors_text",
    "fit_row",
    "fit_text",
    "modulus_text",
    "parts_text",
    "plan_lines",
    "rate_text",
    "rates_row",
    "rates_text",
    "reindex_row",
    "reindex_text",
    "rows_text",
    "vehicles_text",
]

_BLANK_LINE = ""


def fit_text(fit: LengthFit) -> RenderableType:
    """Show a length fit."""
    rows = table("", "arm end", "anchor end")
    arm, anchor = fit.ends
    for name in ("engagement", "required", "protrusion", "bare_head"):
        label = {"protrusion": "sticks out", "bare_head": "bare head inside"}.get(name, name)
        rows.add_row(label, *(shown(getattr(end, name), 1) for end in (arm, anchor)))
    return Group(
        headline_text(fit),
        *finding_lines("because", fit.reasons[1:]),
        *finding_lines("change", fit.changes),
        rows,
        pairs(
            ("position of the bar", f"{shown(fit.position, 1)} ({_interval(fit)})"),
            ("between the engaged edges", or_none(fit.engaged_span, 1)),
            ("active length", or_none(fit.active_length, 1)),
            ("lever from its bolt", or_none(fit.lever_offset, 1)),
            ("cap from its holes", or_none(fit.cap_offset, 1)),
            ("largest body that passes", shown(fit.largest_body, 1)),
        ),
    )


def rates_text(answer: Rates) -> RenderableType:
    """Show rates."""
    if answer.figures is None:
        return Group(headline_text(answer), *finding_lines("because", answer.further_findings))
    figures = answer.figures
    return Group(
        headline_text(answer),
        *finding_lines("note", answer.further_findings),
        pairs(
            ("bar alone", rate_text(figures.bar_rate)),
            *_with_tube(figures),
            ("shear modulus of the bar", modulus_text(figures)),
            ("at the wheel, at ride height", shown(figures.ride.wheel_rate, 2)),
            ("ride frequency, tyre in series", or_none(figures.ride_frequency, 2)),
            *_damping(figures),
            *_bolt(figures),
        ),
        _states(figures),
        _curve(figures),
        _heads(figures),
    )


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


def vehicles_text(vehicles: Sequence[Chassis]) -> RenderableType:
    """Show vehicles."""
    rows = table("vehicle", "title", "built", "codes", "wheelbase", "axles")
    for chassis in vehicles:
        rows.add_row(
            chassis.id,
            chassis.title,
            built_text(chassis),
            ", ".join(chassis.codes),
            shown(chassis.wheelbase, 0),
            ", ".join(axle.place.value for axle in chassis.axles),
        )
    return rows


def parts_text(parts: Sequence[Part]) -> RenderableType:
    """Show parts, with the figures that tell bars, dampers and tubes apart."""
    rows = table("part", "title", "figures")
    for part in parts:
        named = [
            f"{name.replace('_', ' ')} {shown(value, 1)}"
            for name in _TELLING
            if (value := getattr(part, name, None)) is not None
        ]
        rows.add_row(part.id, part.title, ", ".join(named))
    return rows


_TELLING = (
    *("diameter", "bore", "length", "open_length", "closed_length"),
    *("outside_diameter", "socket_position", "radius"),
)


def donors_text(answer: Donors) -> RenderableType:
    """Show a fit, and the arms and tubes that would make the bar fit."""
    if not answer.fit.verdict.is_refusal:
        return fit_text(answer.fit)
    if not answer.combinations:
        return Group(fit_text(answer.fit), "No arm and tube of the installed packs makes it fit.")
    rows = table("arm", "tube", "changes", "cap, lever off", "rate", "free angle moves")
    rows.columns[0].no_wrap = rows.columns[1].no_wrap = True
    for donor in answer.combinations:
        rows.add_row(
            donor.arm_id,
            donor.tube_id,
            ", ".join(change.topic.value for change in donor.fit.changes),
            f"{or_none(donor.fit.cap_offset, 1)}, {or_none(donor.fit.lever_offset, 1)}",
            shown(donor.system_rate, 2),
            or_none(donor.free_angle_change, 1),
        )
    return Group(fit_text(answer.fit), _BLANK_LINE, Text("Donors, best first", style="bold"), rows)


def comparison_text(answer: Comparison) -> RenderableType:
    """Show two setups side by side."""
    rows = table("figure", "one", "other", "change", "percent")
    for row in answer.rows:
        percent = "" if row.percent is None else f"{row.percent:+.1f}"
        name = row.figure.replace("_", " ").replace(".", ": ")
        rows.add_row(name, *map(_any, (row.one, row.other, row.change)), percent)
    return Group(one_line(f"one:   {answer.one}"), one_line(f"other: {answer.other}"), rows)


def rows_text(answers: Sequence[dict[str, str]]) -> RenderableType:
    """Show answers as rows of one table; all have the same columns."""
    rows = table(*answers[0])
    # What tells the rows apart stays on one line.
    rows.columns[0].no_wrap = True
    for answer in answers:
        rows.add_row(*answer.values())
    return rows


def fit_row(fit: LengthFit) -> dict[str, str]:
    """Sum a length fit up in a row."""
    arm, anchor = fit.ends
    why = dict.fromkeys(finding.topic.value for finding in (*fit.reasons, *fit.changes))
    return {
        "verdict": fit.verdict.value,
        "arm end": shown(arm.engagement, 1),
        "anchor end": shown(anchor.engagement, 1),
        "active length": or_none(fit.active_length, 1),
        "because of": ", ".join(why),
    }


def donors_row(answer: Donors) -> dict[str, str]:
    """Sum the search for donors up in a row."""
    best = answer.combinations[0] if answer.combinations else None
    tried = answer.fit.verdict.is_refusal
    donor = f"{best.arm_id} and {best.tube_id}" if best else "none" if tried else ""
    return fit_row(answer.fit) | {"best donors": donor}


def rates_row(answer: Rates) -> dict[str, str]:
    """Sum rates up in a row."""
    figures = answer.figures
    return {
        "answer": answer.verdict.value,
        "bar and tube": "" if figures is None else shown(figures.system_rate, 2),
        "at the wheel": "" if figures is None else shown(figures.ride.wheel_rate, 2),
        "ride": "" if figures is None else or_none(figures.ride_frequency, 2),
        "stress at bump": "" if figures is None else shown(figures.bump.shear_stress, 0),
    }


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


def _any(value: Quantity | int | None) -> str:
    if value is None or isinstance(value, int):
        return "" if value is None else str(value)
    return shown(value, 2)


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


def _turns(at: Adjusted) -> Iterator[tuple[str, str]]:
    yield f"{at.words.what} from the middle, clockwise positive", shown(at.turns, 2)
    left = f"{shown(at.left_clockwise, 1)}; {shown(at.left_counter_clockwise, 1)}"
    yield "turns left clockwise; counter-clockwise", left


def _most_loaded(work: EndWork) -> str:
    """Say what the gaps of an end cost, where it has more than its blank."""
    if work.missing_tooth_factor is None or work.blanks < _SEVERAL:
        return ""
    return f"; its most loaded tooth carries {work.missing_tooth_factor:.2f} times the even share"


_SEVERAL = 2


def _cost(plan: Plan) -> Iterator[tuple[str, str]]:
    """Show what the plan costs against the first."""
    cost = plan.cost
    if cost is None:
        return
    turns = "" if cost.reserve is None else f", {_signed(shown(cost.reserve, 1))} left"
    yield "against plan 1", f"{cost.teeth:+d} teeth to remove, {cost.ends:+d} ends{turns}"


def _signed(text: str) -> str:
    return text if text.startswith("-") else f"+{text}"


def _thread_left(answer: Reindex) -> Iterator[tuple[str, str]]:
    """Thread that counts as enough, and the height that costs no tooth."""
    if answer.enough_reserve is not None:
        yield "thread to keep either way", shown(answer.enough_reserve, 1)
    if answer.uncut_height is not None:
        yield "nearest without a cut", shown(answer.uncut_height, 1)


def _rise(at: Adjusted) -> Iterator[tuple[str, str]]:
    rise = shown(at.height_per_turn, 2).removesuffix("/turn")
    yield f"one turn {at.raising_sense.value} raises by", rise


def _assembly(ways: Sequence[Assembly]) -> Table:
    at = stand(ways[0])
    lift = f"lift with a slack {at.words.what}" if at else "lift that frees it"
    turns = (f"{at.words.what}, from the middle",) if at else ()
    rows = table("damper", "bar", *turns, lift, "left in it")
    for way in ways:
        left = f"{shown(way.residual_torque, 0)}, {shown(way.residual_energy, 0)}"
        rows.add_row(
            "on" if way.damper_on else "off",
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


def _states(figures: RateFigures) -> Table:
    rows = table("", "full droop", "ride", "full bump")
    states = (figures.droop, figures.ride, figures.bump)
    for label, name, digits in _STATE_ROWS:
        rows.add_row(label, *(shown(getattr(state, name), digits) for state in states))
    return rows


_STATE_ROWS = (
    ("arm angle", "arm_angle", 1),
    ("hub to arch", "height", 1),
    ("twist", "twist", 1),
    ("torque", "torque", 0),
    ("shear stress of the body", "shear_stress", 0),
    ("load at the wheel", "wheel_load", 0),
    ("rate at the wheel", "wheel_rate", 2),
    ("damper stroke to closed", "stroke_to_closed", 1),
    ("damper stroke to open", "stroke_to_open", 1),
)


def _curve(figures: RateFigures) -> Table:
    """Show every fifth point of the curve."""
    rows = table("hub to arch", "arm angle", "load at the wheel", "rate at the wheel")
    curve = figures.curve
    for index in range(0, len(curve.height.magnitude), 5):
        rows.add_row(
            *(
                shown(column[index], digits)
                for column, digits in (
                    (curve.height, 1),
                    (curve.arm_angle, 1),
                    (curve.wheel_load, 0),
                    (curve.wheel_rate, 2),
                )
            )
        )
    return rows


def _heads(figures: RateFigures) -> RenderableType:
    columns = ("torque", "teeth", "factor", "under the roots", "in the teeth", "on the flanks")
    rows = table("head at its greatest torque", *columns)
    for head in figures.heads:
        stresses = (head.root_shear, head.tooth_shear, head.tooth_bearing)
        rows.add_row(
            *(head.end.value, shown(head.torque, 0), str(head.teeth_left)),
            f"{head.missing_tooth_factor:.3f}",
            *(shown(stress, 0) for stress in stresses),
        )
    methods = dict.fromkeys(head.method for head in figures.heads)
    notes = (f"Head stresses by {method}: to compare, not to judge by." for method in methods)
    return Group(rows, *notes)


def rate_text(value: Quantity) -> str:
    """Show a torsional rate."""
    return shown(value, 2)


def modulus_text(figures: RateFigures) -> str:
    """Show the shear modulus that a rate rests on."""
    value, known = figures.shear_modulus, figures.shear_modulus_tolerance
    digits = 1 if unit_spelling(value) == "GPa" else 0
    return shown(value, digits) + ("" if known is None else f" ± {shown(known, digits)}")


def _damping(figures: RateFigures) -> Iterator[tuple[str, str]]:
    if figures.damping_ratio is not None:
        yield "damping ratio", f"{figures.damping_ratio:.2f}"


def _with_tube(figures: RateFigures) -> Iterator[tuple[str, str]]:
    """Rates of the tube and of the whole, where there is a tube."""
    if figures.tube_rate is not None:
        yield "torque tube", rate_text(figures.tube_rate)
        yield "bar and tube in series", rate_text(figures.system_rate)


def _bolt(figures: RateFigures) -> Iterator[tuple[str, str]]:
    """Load of the bolt, where there is one."""
    bolt = figures.bolt
    if bolt is None:
        return
    stress = f"({shown(bolt.stress_at_bump, 0)} on the thread)"
    forces = f"{shown(bolt.at_ride, 0)}, {shown(bolt.at_bump, 0)}"
    yield "bolt at ride, at full bump", f"{forces} {stress}"
    if bolt.side_thrust_at_bump is not None:
        yield "side thrust on its end, at full bump", shown(bolt.side_thrust_at_bump, 0)


def _interval(fit: LengthFit) -> str:
    return f"free from {shown(fit.free_from, 1)} to {shown(fit.free_to, 1)}"


def _with_tolerance(answer: Reindex) -> str:
    if answer.free_angle is None or answer.free_angle_uncertainty is None:
        return "none"
    return f"{shown(answer.free_angle, 2)} ± {shown(answer.free_angle_uncertainty, 2)}"

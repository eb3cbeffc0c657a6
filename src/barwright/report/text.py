"""Answers for a person at a terminal, as rich renderables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from barwright.analysis.assembly import Assembly
from barwright.analysis.compare import Comparison
from barwright.analysis.donors import Donors
from barwright.analysis.finding import Finding, Outcome, Verdict
from barwright.analysis.fit import LengthFit
from barwright.analysis.plan import Plan
from barwright.analysis.rates import RateFigures, Rates
from barwright.analysis.reindex import Reindex
from barwright.analysis.ride import CornerState
from barwright.parts.chassis import Chassis
from barwright.parts.source import Part
from barwright.report.sheet import BenchSheet, CornerSheet
from barwright.report.steps import viewer
from barwright.units import Quantity, System, in_system, shown

__all__ = [
    "comparison_text",
    "donors_text",
    "fit_row",
    "fit_text",
    "parts_text",
    "rates_row",
    "rates_text",
    "reindex_row",
    "reindex_text",
    "rows_text",
    "sheet_text",
    "vehicles_text",
]

_BLANK_LINE = ""
_ROOM_TO_WRITE = "________"


def fit_text(fit: LengthFit) -> RenderableType:
    """Show a length fit."""
    table = _table("", "arm end", "anchor end")
    arm, anchor = fit.ends
    for name in ("engagement", "required", "protrusion", "bare_head"):
        label = {"protrusion": "sticks out", "bare_head": "bare head inside"}.get(name, name)
        table.add_row(label, *(shown(getattr(end, name), 1) for end in (arm, anchor)))
    return Group(
        _verdict(fit.verdict),
        *_findings("because", fit.reasons),
        *_findings("change", fit.changes),
        table,
        _pairs(
            ("position of the bar", f"{shown(fit.position, 1)} ({_interval(fit)})"),
            ("between the engaged edges", _or_none(fit.engaged_span, 1)),
            ("active length", _or_none(fit.active_length, 1)),
            ("lever from its bolt", shown(fit.lever_offset, 1)),
            ("cap from its holes", shown(fit.cap_offset, 1)),
            ("largest body that passes", shown(fit.largest_body, 1)),
        ),
    )


def rates_text(answer: Rates) -> RenderableType:
    """Show rates."""
    if answer.figures is None:
        return Group(_outcome(answer.outcome), *_findings("because", answer.findings))
    figures = answer.figures
    return Group(
        _outcome(answer.outcome),
        *_findings("note", answer.findings),
        _pairs(
            ("bar alone", _rate(figures.bar_rate)),
            ("torque tube", _rate(figures.tube_rate)),
            ("bar and tube in series", _rate(figures.system_rate)),
            ("shear modulus of the bar", _modulus(figures)),
            ("at the wheel, at ride height", shown(figures.ride.wheel_rate, 2)),
            ("ride frequency, tyre in series", _or_none(figures.ride_frequency, 2)),
            ("bolt at ride, at full bump", _bolt(figures)),
        ),
        _states(figures),
        _curve(figures),
        _heads(figures),
    )


def reindex_text(answer: Reindex) -> RenderableType:
    """Show all plans."""
    parts: list[RenderableType] = [
        _outcome(answer.outcome),
        *_findings("because", answer.findings),
        _pairs(
            ("wanted, hub to arch", shown(answer.wanted_height, 1)),
            (
                "travel reaches",
                f"{shown(answer.reachable_from, 1)} to {shown(answer.reachable_to, 1)}",
            ),
            ("free angle of the arm", _with_tolerance(answer)),
            ("plans count as equal within", _or_none(answer.equal_within, 1)),
        ),
    ]
    for number, plan in enumerate((*answer.plans, *answer.rejected), start=1):
        parts += _plan(number, plan)
    if answer.removal:
        parts += ["The bar as it is now comes out:", _assembly(answer.removal)]
    return Group(*parts)


def sheet_text(sheet: BenchSheet) -> RenderableType:
    """Show a bench sheet."""
    parts: list[RenderableType] = [
        Text(f"BENCH SHEET  {sheet.title}", style="bold"),
        f"{sheet.vehicle} ({sheet.vehicle_id})",
        f"Figures rest on: {', '.join(sheet.rests_on)}",
        _BLANK_LINE,
    ]
    if sheet.cautions:
        parts.append(Text("Cautions", style="bold"))
        parts += [_item("!", caution) for caution in sheet.cautions]
    for corner in sheet.corners:
        parts += _corner(corner)
    return Group(*parts)


def vehicles_text(vehicles: Sequence[Chassis], system: System = "metric") -> RenderableType:
    """Show vehicles."""
    table = _table("vehicle", "title", "wheelbase", "corners")
    for chassis in vehicles:
        corners = ", ".join(
            f"{axle.place.value} left, {axle.place.value} right" for axle in chassis.axles
        )
        wheelbase = in_system(chassis.wheelbase, system)
        table.add_row(chassis.id, chassis.title, shown(wheelbase, 0), corners)
    return table


def parts_text(parts: Sequence[Part], system: System = "metric") -> RenderableType:
    """Show parts, with the figures that tell bars, dampers and tubes apart."""
    table = _table("part", "title", "figures")
    for part in parts:
        named = [
            f"{name.replace('_', ' ')} {shown(in_system(value, system), 1)}"
            for name in _TELLING
            if (value := getattr(part, name, None)) is not None
        ]
        table.add_row(part.id, part.title, ", ".join(named))
    return table


_TELLING = (
    *("diameter", "bore", "length", "open_length", "closed_length"),
    *("outside_diameter", "socket_position", "radius"),
)


def donors_text(answer: Donors) -> RenderableType:
    """Show a fit, and the arms and tubes that would make the bar fit."""
    if answer.fit.verdict is not Verdict.DOES_NOT_FIT:
        return fit_text(answer.fit)
    if not answer.combinations:
        return Group(fit_text(answer.fit), "No arm and tube of the installed packs makes it fit.")
    table = _table("arm", "tube", "swap", "cap off its holes", "rate", "free angle moves")
    for donor in answer.combinations:
        table.add_row(
            donor.arm_id,
            donor.tube_id,
            " and ".join(donor.swapped),
            shown(donor.fit.cap_offset, 1),
            shown(donor.system_rate, 2),
            shown(donor.free_angle_change, 1),
        )
    return Group(fit_text(answer.fit), _BLANK_LINE, Text("Donors, best first", style="bold"), table)


def comparison_text(answer: Comparison) -> RenderableType:
    """Show two setups side by side."""
    table = _table("figure", "one", "other", "change", "percent")
    for row in answer.rows:
        percent = "" if row.percent is None else f"{row.percent:+.1f}"
        name = row.figure.replace("_", " ").replace(".", ": ")
        table.add_row(name, *map(_any, (row.one, row.other, row.change)), percent)
    return Group(f"one:   {answer.one}", f"other: {answer.other}", table)


def rows_text(rows: Sequence[dict[str, str]]) -> RenderableType:
    """Show answers as rows of one table; all have the same columns."""
    table = _table(*rows[0])
    for row in rows:
        table.add_row(*row.values())
    return table


def fit_row(fit: LengthFit) -> dict[str, str]:
    """Sum a length fit up in a row."""
    arm, anchor = fit.ends
    why = dict.fromkeys(finding.topic.value for finding in (*fit.reasons, *fit.changes))
    return {
        "verdict": fit.verdict.value,
        "arm end": shown(arm.engagement, 1),
        "anchor end": shown(anchor.engagement, 1),
        "active length": _or_none(fit.active_length, 1),
        "because of": ", ".join(why),
    }


def rates_row(answer: Rates) -> dict[str, str]:
    """Sum rates up in a row."""
    figures = answer.figures
    return {
        "answer": answer.outcome.value,
        "bar and tube": "" if figures is None else shown(figures.system_rate, 2),
        "at the wheel": "" if figures is None else shown(figures.ride.wheel_rate, 2),
        "ride": "" if figures is None else _or_none(figures.ride_frequency, 2),
        "stress at bump": "" if figures is None else shown(figures.bump.shear_stress, 0),
    }


def reindex_row(answer: Reindex) -> dict[str, str]:
    """Sum the first plan up in a row."""
    plan = answer.plans[0] if answer.plans else None
    return {
        "answer": answer.outcome.value,
        "teeth to remove": "" if plan is None else str(plan.cuts),
        "ends": "" if plan is None else ", ".join(end.value for end in plan.disturbed) or "none",
        "nut from the middle": "" if plan is None else shown(plan.nut_turns, 2),
        "hub to arch": "" if plan is None else shown(plan.height, 1),
    }


def _any(value: Quantity | int | None) -> str:
    if value is None or isinstance(value, int):
        return "" if value is None else str(value)
    return shown(value, 2)


def _corner(corner: CornerSheet) -> Iterator[RenderableType]:
    yield _BLANK_LINE
    yield Text(corner.corner.upper(), style="bold")
    yield _outcome(corner.outcome)
    yield from _findings("because", corner.reindex.findings)
    yield _parts(corner)
    yield from _figures_in_short(corner)
    if corner.plan is None:
        for number, rejected in enumerate(corner.reindex.rejected, start=1):
            yield from _plan(number, rejected)
        return
    yield from _findings("change", corner.fit.changes)
    yield from _findings("note", corner.plan.findings)
    yield Text("Steps", style="bold")
    for number, step in enumerate(corner.steps, start=1):
        yield _item(f"{number}.", f"STOP: {step.text}" if step.refused else step.text)
    yield Text("Figures to set", style="bold")
    yield _settings(corner)
    yield Text("Measure and note", style="bold")
    yield _measurements(corner)
    yield from _other_plans(corner)


def _parts(corner: CornerSheet) -> Table:
    table = _table("part", "", "id", "in the place of")
    for part in corner.parts:
        table.add_row(part.kind, part.title, part.id, part.replaces)
    table.add_row("load", f"{shown(corner.load, 1)} {corner.load_is}", "", "")
    return table


def _figures_in_short(corner: CornerSheet) -> Iterator[RenderableType]:
    figures = corner.rates.figures
    if figures is None:
        return
    yield _pairs(
        ("fit of the bar", corner.fit.verdict.value),
        ("bar alone; bar and tube", f"{_rate(figures.bar_rate)}; {_rate(figures.system_rate)}"),
        ("shear modulus of the bar", _modulus(figures)),
        ("at the wheel, at ride height", shown(figures.ride.wheel_rate, 1)),
        ("ride frequency", _or_none(figures.ride_frequency, 2)),
        (
            "shear stress at ride; at full bump",
            f"{shown(figures.ride.shear_stress, 0)}; {shown(figures.bump.shear_stress, 0)}",
        ),
    )


def _settings(corner: CornerSheet) -> Table:
    table = _table("what", "figure", "")
    for setting in corner.settings:
        digits = 2 if "turn" in setting.what or "nut" in setting.what else 1
        table.add_row(setting.what, shown(setting.value, digits), setting.note)
    return table


def _measurements(corner: CornerSheet) -> Table:
    table = _table("what", "where", "with", "expected", "found")
    for row in corner.measurements:
        expected = "" if row.expected is None else shown(row.expected, 1)
        table.add_row(row.what, row.where, row.tool, expected, _ROOM_TO_WRITE)
    return table


def _other_plans(corner: CornerSheet) -> Iterator[RenderableType]:
    others = (*corner.reindex.plans[1:], *corner.reindex.rejected)
    if others:
        yield Text("Other plans that none beats", style="bold")
    for number, plan in enumerate(others, start=2):
        yield from _plan(number, plan)


def _plan(number: int, plan: Plan) -> Iterator[RenderableType]:
    cuts = {0: "no tooth to remove", 1: "one tooth to remove"}.get(
        plan.cuts, f"{plan.cuts} teeth to remove"
    )
    yield _BLANK_LINE
    yield Text(f"Plan {number}: {cuts}; {plan.outcome.value}", style="bold")
    for work in plan.ends:
        sense = f" {work.direction.value} from the maker's blank" if work.direction else ""
        tooth = f"; tooth {work.tooth}{sense}, {viewer(work)}" if work.tooth else ""
        yield _item(
            "-", f"{work.end.value}: {work.action.value}{tooth}; on the key: {work.on_key.value}"
        )
    yield from _findings("note", plan.findings)
    yield _pairs(
        ("nut from the middle, clockwise positive", shown(plan.nut_turns, 2)),
        (
            "turns left clockwise; counter-clockwise",
            f"{shown(plan.turns_left_clockwise, 1)}; {shown(plan.turns_left_counter_clockwise, 1)}",
        ),
        (
            "hub to arch that results",
            f"{shown(plan.height, 1)} ± {shown(plan.height_tolerance, 1)}",
        ),
        (
            f"one turn {plan.raising_sense.value} raises by",
            shown(plan.height_per_turn, 2).removesuffix("/turn"),
        ),
        ("torque left at full droop", shown(plan.droop.torque, 0)),
    )
    yield _assembly(plan.fitting)


def _assembly(ways: Iterable[Assembly]) -> Table:
    table = _table("damper", "bar", "nut from the middle", "lift at the hub", "left in the bar")
    for way in ways:
        left = f"{shown(way.residual_torque, 0)}, {shown(way.residual_energy, 0)}"
        table.add_row(
            "on" if way.damper_on else "off",
            "slides by hand" if way.slides else "is held",
            shown(way.nut_turns, 1),
            shown(way.lift, 0),
            "nothing" if way.slides else left,
        )
    return table


def _states(figures: RateFigures) -> Table:
    table = _table("", "full droop", "ride", "full bump")
    states = (figures.droop, figures.ride, figures.bump)
    for label, name, digits in _STATE_ROWS:
        table.add_row(label, *(shown(getattr(state, name), digits) for state in states))
    return table


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
# The table above names the fields of CornerState; a slip would show at once.
_FIELDS_OF: type = CornerState


def _curve(figures: RateFigures) -> Table:
    """Show every fifth point of the curve."""
    table = _table("hub to arch", "arm angle", "load at the wheel", "rate at the wheel")
    curve = figures.curve
    for index in range(0, len(curve.height.magnitude), 5):
        table.add_row(
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
    return table


def _heads(figures: RateFigures) -> RenderableType:
    table = _table("head at full bump", "teeth", "under the roots", "in the teeth", "on the flanks")
    for head in figures.heads:
        stresses = (head.root_shear, head.tooth_shear, head.tooth_bearing)
        table.add_row(head.end.value, str(head.teeth_left), *(shown(s, 0) for s in stresses))
    note = "Head stresses by Dudley's spline formulas, all factors 1: to compare, not to judge by."
    return Group(table, note)


def _findings(label: str, findings: Iterable[Finding]) -> Iterator[RenderableType]:
    for finding in findings:
        end = f" ({finding.end.value})" if finding.end else ""
        yield _item("*", f"{label}: {finding.text}{end}{_against(finding)}")


def _against(finding: Finding) -> str:
    """Show what was found and what it was held against."""
    found = "" if finding.figure is None else f"; found {_limit(finding.figure)}"
    if finding.limit is None:
        return found
    to = "" if finding.upper is None else f" to {_limit(finding.upper)}"
    return f"{found}, limit {_limit(finding.limit)}{to}"


def _limit(value: Quantity | int | str) -> str:
    return str(value) if isinstance(value, int | str) else shown(value, 1)


def _verdict(verdict: Verdict) -> Text:
    style = {Verdict.FITS: "green", Verdict.FITS_WITH_CHANGES: "yellow"}.get(verdict, "red")
    return Text(verdict.value, style=f"bold {style}")


def _outcome(outcome: Outcome) -> Text:
    return Text(outcome.value, style="bold green" if outcome is Outcome.REACHED else "bold red")


def _rate(value: Quantity) -> str:
    return shown(value, 2)


def _modulus(figures: RateFigures) -> str:
    known = figures.shear_modulus_tolerance
    return shown(figures.shear_modulus, 1) + ("" if known is None else f" ± {shown(known, 1)}")


def _bolt(figures: RateFigures) -> str:
    bolt = figures.bolt
    return (
        f"{shown(bolt.at_ride, 0)}, {shown(bolt.at_bump, 0)} ({shown(bolt.stress_at_bump, 0)} "
        "on the thread)"
    )


def _interval(fit: LengthFit) -> str:
    return f"free from {shown(fit.free_from, 1)} to {shown(fit.free_to, 1)}"


def _with_tolerance(answer: Reindex) -> str:
    if answer.free_angle is None or answer.free_angle_tolerance is None:
        return "none"
    return f"{shown(answer.free_angle, 2)} ± {shown(answer.free_angle_tolerance, 2)}"


def _or_none(value: Quantity | None, digits: int) -> str:
    return "none" if value is None else shown(value, digits)


def _table(*columns: str) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    for column in columns:
        table.add_column(column, overflow="fold")
    return table


def _pairs(*rows: tuple[str, str]) -> Table:
    table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    table.add_column(style="dim")
    table.add_column(overflow="fold")
    for row in rows:
        table.add_row(*row)
    return table


def _item(mark: str, text: str) -> RenderableType:
    """Show a line with a hanging mark before it."""
    table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 1, 0, 0))
    table.add_column(width=4, justify="right")
    table.add_column(overflow="fold")
    table.add_row(mark, Text(text))
    return Padding(table, 0)

"""The bench sheet for a person at a terminal, as rich renderables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from barwright.analysis.rates.rates import RateFigures
from barwright.analysis.reindex.plan import Plan
from barwright.report.printable import one_line
from barwright.report.sheet.sheet import BenchSheet, CornerSheet
from barwright.report.sheet.step import SheetStep
from barwright.report.text.rates import modulus_text, rate_text
from barwright.report.text.reindex import plan_lines
from barwright.report.text.tables import (
    finding_lines,
    heading,
    headline_text,
    marked,
    or_none,
    pairs,
    table,
)
from barwright.units import (
    HEIGHT_PER_TURN,
    LENGTH,
    TORQUE,
    TURNS,
    Kind,
    Quantity,
    shown,
    unit_spelling,
)

__all__ = ["sheet_text"]

_BLANK_LINE = ""
_ROOM_TO_WRITE = "________"


def sheet_text(sheet: BenchSheet) -> RenderableType:
    """Show a bench sheet."""
    parts: list[RenderableType] = [
        heading(f"BENCH SHEET  {sheet.title}"),
        *(one_line(line) for line in sheet.headlines),
        _BLANK_LINE,
        one_line(f"{sheet.vehicle} ({sheet.vehicle_id})"),
        one_line(f"Figures rest on: {', '.join(sheet.sources)}"),
        _BLANK_LINE,
    ]
    if sheet.cautions:
        parts.append(Text("Cautions", style="bold"))
        parts += [marked("!", caution) for caution in sheet.cautions]
    parts += _common("First, for the whole vehicle", sheet.before)
    for corner in sheet.corners:
        parts += _corner(corner)
    parts += _common("Last, for the whole vehicle", sheet.after)
    return Group(*parts)


def _common(title: str, steps: Sequence[SheetStep]) -> Iterator[RenderableType]:
    """Show steps that all corners share."""
    if steps:
        yield _BLANK_LINE
        yield Text(title, style="bold")
        yield from _steps(steps)


def _steps(steps: Sequence[SheetStep]) -> Iterator[RenderableType]:
    for number, step in enumerate(steps, start=1):
        yield marked(f"{number}.", f"STOP: {step.text}" if step.refused else step.text)


def _corner(corner: CornerSheet) -> Iterator[RenderableType]:
    yield _BLANK_LINE
    yield Text(corner.corner.upper(), style="bold")
    yield headline_text(corner)
    yield from _plan_followed(corner)
    label = "because" if corner.verdict.is_refusal else "note"
    yield from finding_lines(label, corner.reindex.further_findings)
    yield _parts(corner)
    yield from _figures_in_short(corner)
    if corner.plan is None:
        yield from _steps(corner.steps)
        for number, plan in _numbered(corner):
            yield from plan_lines(number, plan)
        return
    yield from finding_lines("change", corner.fit.changes)
    yield from finding_lines("note", corner.plan.findings)
    yield Text("Steps", style="bold")
    yield from _steps(corner.steps)
    yield Text("Figures to set", style="bold")
    yield _settings(corner)
    yield Text("Measure and note", style="bold")
    yield _measurements(corner)
    yield from _other_plans(corner)


def _plan_followed(corner: CornerSheet) -> Iterator[RenderableType]:
    """Say which plan the steps follow."""
    if corner.plan is not None:
        yield Text(f"Plan {corner.plan_number} of {len(corner.reindex.plans)}", style="bold")


def _parts(corner: CornerSheet) -> Table:
    rows = table("part", "", "id", "replaces")
    for part in corner.parts:
        rows.add_row(part.kind, part.title, part.id, part.replaces)
    rows.add_row("load", f"{shown(corner.load, 1)} {corner.load_is}", "", "")
    return rows


def _figures_in_short(corner: CornerSheet) -> Iterator[RenderableType]:
    figures = corner.rates.figures
    if figures is None:
        return
    states = (figures.droop, figures.ride, figures.bump)
    yield pairs(
        ("fit of the bar", corner.fit.verdict.value),
        _bar_and_tube(figures),
        ("shear modulus of the bar", modulus_text(figures)),
        ("at the wheel, at ride height", shown(figures.ride.wheel_rate, 1)),
        ("ride frequency", or_none(figures.ride_frequency, 2)),
        (
            "shear stress at full droop; ride; full bump",
            "; ".join(shown(state.shear_stress, 0) for state in states),
        ),
    )


def _bar_and_tube(figures: RateFigures) -> tuple[str, str]:
    if figures.tube_rate is None:
        return "bar alone", rate_text(figures.bar_rate)
    rates = f"{rate_text(figures.bar_rate)}; {rate_text(figures.system_rate)}"
    return "bar alone; bar and tube", rates


def _settings(corner: CornerSheet) -> Table:
    rows = table("what", "figure", "")
    for setting in corner.settings:
        rows.add_row(setting.what, shown(setting.value, _digits(setting.value)), setting.note)
    return rows


_DIGITS: Mapping[Kind, int] = {TURNS: 2, HEIGHT_PER_TURN: 2, LENGTH: 1, TORQUE: 1}


def _digits(value: Quantity) -> int:
    """Digits behind the point of a figure that is set, by its kind."""
    unit = unit_spelling(value)
    return next(digits for kind, digits in _DIGITS.items() if unit in kind.units)


def _measurements(corner: CornerSheet) -> Table:
    rows = table("what", "where", "with", "expected", "found")
    for row in corner.measurements:
        expected = "" if row.expected is None else shown(row.expected, 1)
        rows.add_row(row.what, row.where, row.tool, expected, _ROOM_TO_WRITE)
    return rows


def _other_plans(corner: CornerSheet) -> Iterator[RenderableType]:
    others = [(number, plan) for number, plan in _numbered(corner) if plan is not corner.plan]
    if others:
        yield Text("Alternatives", style="bold")
    for number, plan in others:
        yield from plan_lines(number, plan)


def _numbered(corner: CornerSheet) -> Iterator[tuple[int, Plan]]:
    """All plans with their numbers, those that cannot be assembled last."""
    return enumerate((*corner.reindex.plans, *corner.reindex.rejected), start=1)

"""Strength and life for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.strength.fillet_stress import FilletStress
from barwright.analysis.strength.strength import Strength
from barwright.analysis.strength.strength_limits import StressLimit, WoehlerLine
from barwright.analysis.strength.stresses import FatigueLife, StrengthFigures, StressSwing
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, finding_lines, marked, pairs, table
from barwright.units import Quantity, shown

__all__ = ["strength_row", "strength_text"]


def strength_text(answer: Strength) -> Page:
    """Show what a bar is stressed to, and what it bears."""
    label = "note" if answer.is_answered else "because"
    findings = (
        *finding_lines(label, answer.further_findings),
        *(marked("!", caution.text) for caution in answer.cautions),
    )
    if answer.figures is None:
        return page_of(answer, findings=findings)
    figures = answer.figures
    return page_of(
        answer,
        *_stresses(figures),
        *_swing(figures.swing),
        *_life(figures.life),
        findings=findings,
    )


def strength_row(answer: Strength) -> dict[str, str]:
    """Sum strength up in a row."""
    figures = answer.figures
    swing, life = (figures.swing, figures.life) if figures else (None, None)
    return {
        "answer": answer.verdict.value,
        "stress at droop": shown(figures.droop.stress, 0) if figures else "",
        "stress at bump": shown(figures.bump.stress, 0) if figures else "",
        "least factor": _number(figures.least_factor) if figures else "",
        "Goodman's factor": _number(swing.goodman_factor) if swing else "",
        "runs until failure": _runs(life.repeats) if life else "",
    }


def _stresses(figures: StrengthFigures) -> Iterator[Grid]:
    checks = (figures.droop, figures.ride, figures.bump)
    rows = table("", "full droop", "ride", "full bump", title="At droop, ride and bump")
    rows.add_row("shear stress of the body", *(shown(check.stress, 0) for check in checks))
    rows.add_row("factor to the permissible stress", *(_number(c.factor) for c in checks))
    at_yield = (_number(figures.droop_at_yield.factor), "", _number(figures.at_yield.factor))
    rows.add_row("factor against yield", *at_yield)
    yield rows
    yield pairs(
        ("the bar is", "pre-set" if figures.preset else "not pre-set"),
        ("permissible shear stress", _limit(figures.bump.limit)),
        ("yield stress in shear", _limit(figures.at_yield.limit)),
        *_residual(figures.residual_stress),
        *(_fillet(fillet) for fillet in figures.fillets),
        title="Limits",
    )


def _residual(left: Quantity | None) -> Iterator[tuple[str, str]]:
    if left is not None:
        yield "left at the surface by pre-setting", shown(left, 0)


def _fillet(fillet: FilletStress) -> tuple[str, str]:
    times = f"{fillet.concentration:.2f} times that of the body"
    swing = "" if fillet.amplitude is None else f"; amplitude {shown(fillet.amplitude, 0)}"
    return (
        f"in the fillet at the {fillet.end.value}",
        f"at most {shown(fillet.greatest, 0)}, {times}{swing}",
    )


def _swing(swing: StressSwing | None) -> Iterator[Grid]:
    if swing is None:
        return
    yield pairs(
        ("mean ± amplitude", f"{shown(swing.mean, 0)} ± {shown(swing.amplitude, 0)}"),
        ("endurance limit, as an amplitude", _limit(swing.endurance)),
        ("ultimate stress in shear", _limit(swing.ultimate)),
        ("factor by Goodman's line", _number(swing.goodman_factor)),
        *_to_compare(swing),
        title=f"Wheel ± {shown(swing.travel, 0)} about ride height",
    )


def _to_compare(swing: StressSwing) -> Iterator[tuple[str, str]]:
    """Show what other lines give, where their limits are known; they decide nothing."""
    for label, factor in (
        ("by Gerber's parabola", swing.gerber_factor),
        ("by the elliptic curve", swing.elliptic_factor),
        ("by Soderberg's line", swing.soderberg_factor),
        ("of the greatest stress, against yield", swing.yield_factor),
    ):
        if factor is not None:
            yield label, _number(factor)


def _life(life: FatigueLife | None) -> Iterator[Grid]:
    if life is None:
        return
    damage = "none" if life.damage is None else f"{life.damage:.3g}"
    yield pairs(
        ("cycles, halves included", f"{sum(life.counts):g}"),
        ("largest cycle, mean ± amplitude", _largest(life)),
        ("line of lives", _line(life.woehler_line)),
        ("ultimate stress in shear", _limit(life.ultimate)),
        ("share of the life that one run uses", damage),
        ("runs until failure is expected", _runs(life.repeats)),
        title="The history of wheel travel",
    )


def _largest(life: FatigueLife) -> str:
    if not life.counts:
        return "none"
    largest = max(range(len(life.counts)), key=lambda place: life.ranges.magnitude[place])
    return f"{shown(life.means[largest], 0)} ± {shown(life.ranges[largest] / 2.0, 0)}"


def _line(line: WoehlerLine | None) -> str:
    if line is None:
        return "not known"
    ends = "" if line.endurance is None else f", unlimited life up to {shown(line.endurance, 0)}"
    point = f"{shown(line.at_stress, 0)} at {line.at_life:.3g} cycles"
    return f"{point}, exponent {line.exponent:g}{ends}; source: {line.source}"


def _limit(limit: StressLimit | None) -> str:
    return "not known" if limit is None else f"{shown(limit.stress, 0)}; source: {limit.source}"


def _number(value: float | None) -> str:
    return "none" if value is None else f"{value:.2f}"


def _runs(value: float | None) -> str:
    """Two digits of a figure that is uncertain by a factor of three."""
    return "none" if value is None else f"about {float(f'{value:.2g}'):g}"

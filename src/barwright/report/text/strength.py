"""Strength and life for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.rates.bolt_load import BoltLoad
from barwright.analysis.strength.fillet_stress import FilletStress
from barwright.analysis.strength.life import FatigueLife, LifeBand
from barwright.analysis.strength.life_lines import WoehlerBand, WoehlerLine
from barwright.analysis.strength.overstress import StressCheck
from barwright.analysis.strength.strength import Strength
from barwright.analysis.strength.strength_limits import StressLimit
from barwright.analysis.strength.stresses import StrengthFigures, StressSwing
from barwright.analysis.strength.thread_grip import ThreadGrip
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, finding_lines, marked, pairs, table
from barwright.units import Quantity, shown, unit_spelling

__all__ = ["runs_between", "strength_row", "strength_text"]


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
        *_bolt(figures.bolt, figures.grip),
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
        "runs until failure": runs_between(life.band) if life else "",
    }


def _stresses(figures: StrengthFigures) -> Iterator[Grid]:
    checks = (figures.droop, figures.ride, figures.bump)
    rows = table("", "full droop", "ride", "full bump", title="At droop, ride and bump")
    rows.add_row("shear stress of the body", *(shown(check.stress, 0) for check in checks))
    rows.add_row("factor to the permissible stress", *map(_factor, checks))
    at_yield = (_factor(figures.droop_at_yield), "", _factor(figures.at_yield))
    rows.add_row("factor against yield", *at_yield)
    yield rows
    yield pairs(
        ("the bar is", "pre-set" if figures.preset else "not pre-set"),
        ("permissible shear stress", _limit(figures.bump.limit)),
        ("yield stress in shear", _limit(figures.at_yield.limit)),
        *_residual(figures.residual_stress),
        *_kept(figures.kept_twist),
        *(_fillet(fillet) for fillet in figures.fillets),
        title="Limits",
    )


def _residual(left: Quantity | None) -> Iterator[tuple[str, str]]:
    if left is not None:
        yield "left at the surface by pre-setting", shown(left, 0)


def _kept(twist: Quantity | None) -> Iterator[tuple[str, str]]:
    if twist is not None:
        yield "twist that the first full stroke leaves for ever", f"at least {shown(twist, 1)}"


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
    yield pairs(
        ("cycles from", life.history_source),
        ("cycles, halves included", f"{sum(life.counts):g}"),
        ("largest cycle, mean ± amplitude", _largest(life)),
        *_lines(life.woehler_band),
        ("ultimate stress in shear", _limit(life.ultimate)),
        ("runs until failure", runs_between(life.band)),
        *_covered(life.band),
        title="Life under a history of wheel travel, as a band",
    )
    if life.band is not None:
        yield pairs(
            *((str(number), basis.value) for number, basis in enumerate(life.band.basis, 1)),
            title="What the ends of that band count",
        )


def _covered(band: LifeBand | None) -> Iterator[tuple[str, str]]:
    if band is None or band.shortest is None:
        return
    longest = None if band.longest is None else float(band.longest.magnitude)
    unit = unit_spelling(band.shortest)
    yield "that is", _between(float(band.shortest.magnitude), longest, unit=f" {unit}")


def _bolt(bolt: BoltLoad | None, grip: ThreadGrip | None) -> Iterator[Grid]:
    if bolt is None:
        return
    share = "not known: the property class of the bolt is missing, or none is known at its size"
    if bolt.proof_load is not None:
        share = f"{bolt.proof_share:.2f} of {shown(bolt.proof_load, 0)}; source: ISO 898-1"
    yield pairs(
        ("load, + pulled, - pushed", shown(bolt.at_bump, 0)),
        ("share of its proof load", share),
        *_grip(grip),
        title="Bolt of the adjuster at full bump",
    )


def _grip(grip: ThreadGrip | None) -> Iterator[tuple[str, str]]:
    if grip is None:
        return
    yield "shear in the thread of the bolt", shown(grip.bolt_thread_shear, 0)
    yield "shear in the thread of the nut", shown(grip.nut_thread_shear, 0)
    if grip.needed_height is not None:
        needed = f"the bolt's thread needs {shown(grip.needed_height, 1)} for its proof load"
        yield "height of the nut", f"{shown(grip.nut_height, 1)}; {needed}"


def _largest(life: FatigueLife) -> str:
    if not life.counts:
        return "none"
    largest = max(range(len(life.counts)), key=lambda place: life.ranges.magnitude[place])
    return f"{shown(life.means[largest], 0)} ± {shown(life.ranges[largest] / 2.0, 0)}"


def _lines(band: WoehlerBand | None) -> Iterator[tuple[str, str]]:
    if band is None:
        yield "line of lives", "not known: state the surface of the bar, or give a Wöhler line"
    elif band.lowest == band.highest:
        yield "line of lives", _line(band.lowest)
    else:
        yield "lower line of lives", _line(band.lowest)
        yield "upper line of lives", _line(band.highest)


def _line(line: WoehlerLine) -> str:
    ends = "" if line.endurance is None else f", unlimited life up to {shown(line.endurance, 0)}"
    point = f"{shown(line.at_stress, 0)} at {line.at_life:.3g} cycles"
    return f"{point}, exponent {line.exponent:.3g}{ends}; source: {line.source}"


def _limit(limit: StressLimit | None) -> str:
    return "not known" if limit is None else f"{shown(limit.stress, 0)}; source: {limit.source}"


def _factor(check: StressCheck) -> str:
    """Write a factor; an unstressed bar has none."""
    return "not known" if check.limit is None else _number(check.factor)


def _number(value: float | None) -> str:
    return "none" if value is None else f"{value:.2f}"


def runs_between(band: LifeBand | None) -> str:
    """Show between how many runs of its history a life lies."""
    return "not known" if band is None else _between(band.fewest_runs, band.most_runs)


def _between(low: float | None, high: float | None, *, unit: str = "") -> str:
    """Show both ends of a band; the upper one, or both, may be without a limit."""
    if low is None:
        return "without an end"
    if high is None:
        return f"{_rounded(low)}{unit} at least, without an upper end"
    return f"{_rounded(low)} to {_rounded(high)}{unit}"


def _rounded(number: float) -> str:
    """Write a number with two digits, in words that are read aloud.

    Examples
    --------
    >>> [_rounded(number) for number in (0.0312, 8.46, 1234.0, 17.49e6, 2e12)]
    ['0.031', '8.5', '1200', '17 million', '2e+12']
    """
    two = float(f"{number:.2g}")
    if _MILLION <= two < _MILLION**2:
        return f"{two / _MILLION:g} million"
    return f"{two:g}"


_MILLION = 1e6

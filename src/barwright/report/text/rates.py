"""Rates at a terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from barwright.analysis.bar_rate import BarRate
from barwright.analysis.fit.head_load import HeadLoad
from barwright.analysis.rates.rate_figures import PartRates, RateFigures
from barwright.analysis.rates.rates import Rates
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, Note, finding_lines, or_none, pairs, table
from barwright.units import Quantity, is_unknown, shown, unit_spelling

__all__ = ["modulus_text", "rate_text", "rates_row", "rates_text"]


def rates_text(answer: Rates) -> Page:
    """Show rates."""
    label = "note" if answer.is_answered else "because"
    findings = finding_lines(label, answer.further_findings)
    if answer.figures is None:
        return page_of(answer, *_by_part(answer), findings=findings)
    figures = answer.figures
    return page_of(
        answer,
        pairs(
            ("at the wheel, at ride height", shown(figures.ride.wheel_rate, 2)),
            ("ride frequency, tyre in series", or_none(figures.ride_frequency, 2)),
            *_damping(figures),
            ("wheel hop", _wheel_hop(figures)),
            ("bar alone", rate_text(figures.bar_rate)),
            *_with_tube(figures),
            ("shear modulus of the bar", modulus_text(figures)),
            *_bolt(figures),
            title="Rates",
        ),
        _states(figures),
        _curve(figures),
        _heads(figures),
        *_methods(figures),
        findings=findings,
    )


def _by_part(answer: Rates) -> Iterator[Grid]:
    """Show the rates of bar and tube where these are all that is known."""
    found = answer.by_part
    if found is not None:
        rows = ("bar alone", rate_text(found.bar_rate)), *_with_tube(found)
        yield pairs(*rows, title="Rates without the vehicle")


def _damping(figures: RateFigures) -> Iterator[tuple[str, str]]:
    if figures.damping_ratio is not None:
        yield "damping ratio", f"{figures.damping_ratio:.2f}"


def _wheel_hop(figures: RateFigures) -> str:
    ratio = figures.wheel_hop_damping
    damped = "" if ratio is None else f", damping ratio {ratio:.2f}"
    return f"{or_none(figures.wheel_hop_frequency, 1)}{damped}"


def _with_tube(figures: RateFigures | PartRates) -> Iterator[tuple[str, str]]:
    """Rates of the tube and of the whole, where there is a tube."""
    if figures.tube_rate is not None:
        yield "torque tube", rate_text(figures.tube_rate)
        yield "bar and tube in series", rate_text(figures.system_rate)


def _bolt(figures: RateFigures) -> Iterator[tuple[str, str]]:
    """Load of the bolt, where there is one."""
    bolt = figures.bolt
    if bolt is None:
        return
    yield "bolt, with the bar on its present teeth", "+ pulled, - pushed"
    yield "bolt, load at ride", shown(bolt.at_ride, 0)
    yield "bolt, load at full bump", shown(bolt.at_bump, 0)
    yield "bolt, stress on its thread at full bump", shown(bolt.stress_at_bump, 0)
    if bolt.proof_load is not None:
        yield (
            "bolt, share of its proof load",
            f"{bolt.proof_share:.2f} of {shown(bolt.proof_load, 0)}",
        )
    if bolt.side_thrust_at_bump is not None:
        yield "bolt, side thrust on its end at full bump", shown(bolt.side_thrust_at_bump, 0)


def rate_text(value: Quantity) -> str:
    """Show a torsional rate."""
    return shown(value, 2)


def modulus_text(figures: RateFigures | BarRate) -> str:
    """Show the shear modulus that a rate rests on."""
    value, known = figures.shear_modulus, figures.shear_modulus_tolerance
    if is_unknown(value):
        return shown(value)
    digits = 1 if unit_spelling(value) == "GPa" else 0
    return shown(value, digits) + ("" if known is None else f" ± {shown(known, digits)}")


def _states(figures: RateFigures) -> Grid:
    rows = table("", "full droop", "ride", "full bump", title="At droop, ride and bump")
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


def _curve(figures: RateFigures) -> Grid:
    """Show every fifth point of the curve."""
    columns = ("hub to arch", "arm angle", "load at the wheel", "rate at the wheel")
    rows = table(*columns, title="Over the travel")
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


def _heads(figures: RateFigures) -> Grid:
    ends = (head.end.value for head in figures.heads)
    rows = table("", *ends, title="Heads at their greatest torque")
    for name, cell in _HEAD_ROWS.items():
        rows.add_row(name, *map(cell, figures.heads))
    return rows


_HEAD_ROWS: Mapping[str, Callable[[HeadLoad], str]] = {
    "torque": lambda head: shown(head.torque, 0),
    "teeth that carry": lambda head: str(head.teeth_left),
    "factor for missing teeth": lambda head: f"{head.missing_tooth_factor:.3f}",
    "shear under the roots": lambda head: shown(head.root_shear, 0),
    "shear in the teeth": lambda head: shown(head.tooth_shear, 0),
    "pressure on the flanks": lambda head: shown(head.tooth_bearing, 0),
}


def _methods(figures: RateFigures) -> Iterator[Note]:
    methods = dict.fromkeys(head.method for head in figures.heads)
    for method in methods:
        yield Note(f"Head stresses by {method}. Use them to compare heads, not to judge strength.")


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

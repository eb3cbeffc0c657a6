"""Rates at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Group, RenderableType
from rich.table import Table

from barwright.analysis.rates.rates import RateFigures, Rates
from barwright.report.text.tables import finding_lines, headline_text, or_none, pairs, table
from barwright.units import Quantity, shown, unit_spelling

__all__ = ["modulus_text", "rate_text", "rates_row", "rates_text"]


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
            ("wheel hop", _wheel_hop(figures)),
            *_bolt(figures),
        ),
        _states(figures),
        _curve(figures),
        _heads(figures),
    )


def _damping(figures: RateFigures) -> Iterator[tuple[str, str]]:
    if figures.damping_ratio is not None:
        yield "damping ratio", f"{figures.damping_ratio:.2f}"


def _wheel_hop(figures: RateFigures) -> str:
    ratio = figures.wheel_hop_damping
    damped = "" if ratio is None else f", damping ratio {ratio:.2f}"
    return f"{or_none(figures.wheel_hop_frequency, 1)}{damped}"


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
    if bolt.proof_load is not None:
        yield (
            "share of the bolt's proof load",
            f"{bolt.proof_share:.2f} of {shown(bolt.proof_load, 0)}",
        )
    if bolt.side_thrust_at_bump is not None:
        yield "side thrust on its end, at full bump", shown(bolt.side_thrust_at_bump, 0)


def rate_text(value: Quantity) -> str:
    """Show a torsional rate."""
    return shown(value, 2)


def modulus_text(figures: RateFigures) -> str:
    """Show the shear modulus that a rate rests on."""
    value, known = figures.shear_modulus, figures.shear_modulus_tolerance
    digits = 1 if unit_spelling(value) == "GPa" else 0
    return shown(value, digits) + ("" if known is None else f" ± {shown(known, digits)}")


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

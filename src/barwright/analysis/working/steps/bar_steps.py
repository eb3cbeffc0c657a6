"""Steps from the sizes of bar and tube to their rates, and where the bar lies."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.corner.bar.fillets import Fillet, fillets_of
from barwright.analysis.corner.bar.seating import ROUNDING
from barwright.analysis.corner.suspension import metres
from barwright.analysis.working.expression import (
    PI,
    Expression,
    Symbol,
    arccos,
    arctan,
    larger,
    logarithm,
    sin,
    size,
    total,
)
from barwright.analysis.working.steps.seat_steps import (
    ENDS,
    OVERLAP,
    anchor_edge_step,
    arm_edge_step,
    bar_length_step,
    position_step,
    seat_steps,
)
from barwright.analysis.working.working_unit import (
    LENGTH_UNIT,
    NO_UNIT,
    SECOND_MOMENT,
    TORQUE_PER_ANGLE,
)
from barwright.analysis.working.worksheet import Worksheet
from barwright.mechanics.bar import fillets, torsion, transitions
from barwright.parts.spline import BarEnd
from barwright.units import LENGTH, TORSIONAL_RATE, Quantity

__all__ = ["fit_steps", "rate_steps", "second_moment"]


def fit_steps(sheet: Worksheet, *, named: bool = True) -> None:
    """Find where the bar lies in its sockets, what each end engages, and what twists.

    Parameters
    ----------
    sheet : Worksheet
        Where the steps are put down.
    named : bool
        Whether these are figures of the answer.
    """
    sheet.has_fit = named
    seat_steps(sheet)
    if sheet.corner.seated_length is not None:
        _active_length(sheet)


# -- What twists ---------------------------------------------------------------------


def _active_length(sheet: Worksheet) -> Symbol:
    """Length of body that twists as much as the bar between its engaged edges."""
    sheet.begin("Active length of the bar")
    length: Expression = bar_length_step(sheet)
    pieces: list[Expression] = []
    for name, field, end in ENDS:
        length = length - sheet.given(
            f"l_{name}", f"length of the spline at the {end}", f"bar.{field}_end.length"
        )
        for taken, added in _beyond_body(sheet, name, field, end):
            length = length if taken is None else length - taken
            pieces.append(added)
    return sheet.step(
        "L_b",
        "active length: body that twists as much as the bar between its engaged edges",
        total(length, *pieces),
        LENGTH_UNIT,
        "twists under one torque add",
        found=sheet.corner.seated_length,
        figure=sheet.of_fit("active_length"),
        kind=LENGTH,
    )


def _beyond_body(
    sheet: Worksheet, name: str, field: str, end: str
) -> Iterator[tuple[Expression | None, Expression]]:
    """Cone, fillet and bare head of an end: its own length, if of the body's, and what it adds."""
    record: BarEnd = getattr(sheet.setup.bar, f"{field}_end")
    if _is_there(record.taper):
        t = sheet.given(f"t_{name}", f"length of the cone at the {end}", f"bar.{field}_end.taper")
        yield t, _cone(sheet, name, field, end, t)
    fillet = next((one for one in fillets_of(sheet.setup.bar) if one.end.value == end), None)
    if fillet is not None and fillet.length:
        yield _fillet(sheet, name, field, end, fillet)
    if float(getattr(sheet.corner.seat, f"bare_{field}_head")) > ROUNDING:
        yield None, _bare_head(sheet, name, field, end)


def _cone(sheet: Worksheet, name: str, field: str, end: str, t: Symbol) -> Symbol:
    d, head = _body(sheet), _head(sheet, name, field, end)
    if not _is_there(sheet.setup.bar.bore):
        q = sheet.step(
            f"q_{name}", f"body over head, at the {end}", d / head, NO_UNIT, "definition"
        )
        equation = t / 3 * q * (1 + q + q**2)
    else:
        b = _bore(sheet)
        stretch = logarithm((head - b) * (d + b) / ((head + b) * (d - b)))
        arcs = arctan(head / b) - arctan(d / b)
        equation = t * (d**4 - b**4) / (4 * b**3 * (head - d)) * (stretch - 2 * arcs)
    bar, ends = sheet.setup.bar, getattr(sheet.setup.bar, f"{field}_end")
    return sheet.step(
        f"L_t{name}",
        f"length of body that twists as much as the cone at the {end}",
        equation,
        LENGTH_UNIT,
        transitions.taper_equivalent_length,
        found=transitions.taper_equivalent_length(
            metres(ends.taper),
            diameter=metres(bar.diameter),
            head_diameter=metres(ends.root_diameter),
            bore=metres(bar.bore),
        ),
    )


def _fillet(
    sheet: Worksheet, name: str, field: str, end: str, fillet: Fillet
) -> tuple[Expression, Expression]:
    d, head = _body(sheet), _head(sheet, name, field, end)
    r = sheet.given(
        f"r_{name}", f"radius of the fillet at the {end}", f"bar.{field}_end.fillet_radius"
    )
    length = sheet.step(
        f"t_{name}",
        f"axial length of the fillet at the {end}",
        r * sin(arccos(larger(0.0, 1 - (head - d) / (2 * r)))),
        LENGTH_UNIT,
        fillets.fillet_length,
        found=fillet.length,
    )
    equivalent = sheet.solved(
        f"L_t{name}",
        f"length of body that twists as much as the fillet at the {end}",
        fillet.equivalent_length,
        LENGTH_UNIT,
        "integrated along the fillet by the program, with a fitted term for its shoulder: "
        "no closed form",
    )
    return length, equivalent


def _bare_head(sheet: Worksheet, name: str, field: str, end: str) -> Symbol:
    d, head = _body(sheet), _head(sheet, name, field, end)
    edge = arm_edge_step(sheet) if name == "a" else anchor_edge_step(sheet)
    spline = Symbol(f"l_{name}")
    inner = (
        position_step(sheet) + spline
        if name == "a"
        else position_step(sheet) + bar_length_step(sheet)
    )
    u = sheet.step(
        f"u_{name}",
        f"head at the {end} that is free to twist",
        inner - edge if name == "a" else edge - (inner - spline),
        LENGTH_UNIT,
        OVERLAP,
        found=getattr(sheet.corner.seat, f"bare_{field}_head"),
        figure=sheet.of_fit(f"ends.{end}.bare_head"),
        kind=LENGTH,
    )
    bored = _is_there(sheet.setup.bar.bore)
    ratio = (d**4 - _bore(sheet) ** 4) / (head**4 - _bore(sheet) ** 4) if bored else d**4 / head**4
    return sheet.step(
        f"L_u{name}",
        f"length of body that twists as much as that head at the {end}",
        u * ratio,
        LENGTH_UNIT,
        transitions.equivalent_length,
    )


def _head(sheet: Worksheet, name: str, field: str, end: str) -> Symbol:
    path = f"bar.{field}_end.root_diameter"
    return sheet.given(f"D_{name}", f"root diameter of the head at the {end}", path)


def _body(sheet: Worksheet) -> Symbol:
    return sheet.given("d", "diameter of the bar's body", "bar.diameter")


def _bore(sheet: Worksheet) -> Symbol:
    return sheet.given("b", "bore of the bar", "bar.bore")


def _is_there(value: Quantity | None) -> bool:
    return value is not None and bool(metres(value))


# -- Rates ---------------------------------------------------------------------------


def rate_steps(sheet: Worksheet) -> Symbol:
    """Find the rates of bar and tube, and of both in series, which is returned."""
    rates = sheet.corner.torsional_rates
    bar = _bar_rate(sheet)
    if rates is None or rates.tube is None:
        return bar
    tube = _tube_rate(sheet)
    sheet.begin("Bar and tube in series")
    return sheet.step(
        "k",
        "torsional rate of bar and tube in series",
        1 / (1 / bar + 1 / tube),
        TORQUE_PER_ANGLE,
        torsion.series_rate,
        found=rates.system,
        figure="system_rate" * sheet.has_rates,
        kind=TORSIONAL_RATE,
    )


def _bar_rate(sheet: Worksheet) -> Symbol:
    words, rates = "torsional rate of the bar", sheet.corner.torsional_rates
    if sheet.setup.bar.measured_rate is not None:
        sheet.begin("Rate of the bar")
        return sheet.given("k_b", f"{words}, as it was measured", "bar.measured_rate")
    length = Symbol("L_b") if sheet.has("L_b") else _active_length(sheet)
    sheet.begin("Rate of the bar")
    modulus = sheet.given("G", "shear modulus of the bar's steel", "bar.material.shear_modulus")
    return sheet.step(
        "k_b",
        words,
        modulus * second_moment(sheet) / length,
        TORQUE_PER_ANGLE,
        torsion.torsional_rate,
        found=None if rates is None else rates.bar,
        figure="bar_rate" * sheet.has_rates,
        kind=TORSIONAL_RATE,
    )


def second_moment(sheet: Worksheet) -> Symbol:
    """Polar second moment of area of the bar's body."""
    d, bar = _body(sheet), sheet.setup.bar
    bored = d**4 - _bore(sheet) ** 4 if _is_there(bar.bore) else d**4
    return sheet.step(
        "J",
        "polar second moment of area of the bar's body",
        PI * bored / 32,
        SECOND_MOMENT,
        torsion.polar_second_moment,
        found=torsion.polar_second_moment(diameter=metres(bar.diameter), bore=metres(bar.bore)),
    )


def _tube_rate(sheet: Worksheet) -> Symbol:
    sheet.begin("Rate of the tube")
    d = sheet.given("d_t", "outside diameter of the tube", "anchor.outside_diameter")
    b = sheet.given("b_t", "bore of the tube", "anchor.bore")
    lever = sheet.given(
        "s_L", "lever on the anchor, from its end next to the arm", "anchor.lever_position"
    )
    socket = sheet.given("s_S", "socket on the anchor, from that end", "anchor.socket_position")
    modulus = sheet.given(
        "G_t", "shear modulus of the tube's steel", "anchor.material.shear_modulus"
    )
    moment = sheet.step(
        "J_t",
        "polar second moment of area of the tube",
        PI * (d**4 - b**4) / 32,
        SECOND_MOMENT,
        torsion.polar_second_moment,
    )
    length = sheet.step(
        "L_t", "tube between lever and socket", size(socket - lever), LENGTH_UNIT, "definition"
    )
    rates = sheet.corner.torsional_rates
    return sheet.step(
        "k_t",
        "torsional rate of the tube",
        modulus * moment / length,
        TORQUE_PER_ANGLE,
        torsion.torsional_rate,
        found=None if rates is None else rates.tube,
        figure="tube_rate" * sheet.has_rates,
        kind=TORSIONAL_RATE,
    )

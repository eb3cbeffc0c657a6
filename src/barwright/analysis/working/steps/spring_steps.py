"""Steps of what acts on a corner beside its bar: gas, rubber and coils."""

from __future__ import annotations

from collections.abc import Iterator

import attrs
import numpy as np

from barwright.analysis.corner.suspension import metres
from barwright.analysis.working.expression import Expression, Symbol
from barwright.analysis.working.steps.linkage_steps import LinkageSteps
from barwright.analysis.working.steps.suspension_steps import linkage_steps
from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    ANGLE_IN_RADIANS,
    FORCE_UNIT,
    LENGTH_UNIT,
    TORQUE_PER_ANGLE,
    TORQUE_UNIT,
    WHEEL_RATE_UNIT,
    WorkingUnit,
)
from barwright.analysis.working.worksheet import Worksheet, marked
from barwright.mechanics.corner import springs
from barwright.parts.suspension import BumpRubber
from barwright.units import GAS_SLOPE, si

__all__ = ["SpringHold", "arch_height", "spring_steps"]


@attrs.frozen
class SpringHold:
    """Torque of a spring about the bar axis, and its change with the arm angle."""

    torque: Symbol
    stiffness: Symbol


def spring_steps(state: LinkageSteps) -> tuple[SpringHold, ...]:
    """Put down what each spring beside the bar holds in a state.

    Parameters
    ----------
    state : LinkageSteps
        The corner there.

    Returns
    -------
    tuple of SpringHold
        Of those that act there.
    """
    return tuple(_holds(state))


def _holds(state: LinkageSteps) -> Iterator[SpringHold]:
    axle = state.sheet.setup.axle
    if state.sheet.setup.damper.gas is not None:
        yield _gas(state)
    if axle.bump_rubber is not None:
        yield from _rubber(state, axle.bump_rubber)
    if axle.bushing is not None and state.sheet.corner.bushing_angle is not None:
        yield _bushing(state)
    if axle.helper_coil is not None:
        yield from _coil(state)


def _gas(state: LinkageSteps) -> SpringHold:
    sheet, gas = state.sheet, state.sheet.setup.damper.gas
    force: Expression = sheet.given("F_0", "force of the damper's gas", "damper.gas.force")
    rate = None
    if gas is not None and si(gas.slope, GAS_SLOPE):
        at = sheet.given(
            "s_0", "damper length at which that force was read", "damper.gas.at_length"
        )
        rate = sheet.given(
            "F_s", "change of that force with the damper's length", "damper.gas.slope"
        )
        force = force + rate * (state.damper_length() - at)
    pushed = _step(
        state, "F_g", "force of the damper's gas", force, FORCE_UNIT, source=springs.GasForce
    )
    slope, curvature = state.damper_slope(), state.damper_curvature()
    stiffness: Expression = -(pushed * curvature)
    if rate is not None:
        stiffness = -(rate * slope**2) - pushed * curvature
    return _hold(
        state,
        "g",
        "of the gas",
        torque=-(pushed * slope),
        stiffness=stiffness,
        source=springs.GasForce,
    )


# -- Rubber that stops the arm -------------------------------------------------------


def _rubber(state: LinkageSteps, rubber: BumpRubber) -> Iterator[SpringHold]:
    sheet = state.sheet
    pressed = _pressed(state, rubber)
    compression = sheet.values[pressed.name]
    if compression <= 0.0:
        return  # it does not touch, and carries nothing
    start, end = _stretch(rubber, compression)
    f_1, c_1 = _point(sheet, end)
    words = "rate of the bump rubber there"
    if start is None:
        stiff = _step(state, "k_r", words, f_1 / c_1, WHEEL_RATE_UNIT, source=springs.BumpStop)
        force: Expression = stiff * pressed
    else:
        f_0, c_0 = _point(sheet, start)
        rate = (f_1 - f_0) / (c_1 - c_0)
        stiff = _step(state, "k_r", words, rate, WHEEL_RATE_UNIT, source=springs.BumpStop)
        force = f_0 + stiff * (pressed - c_0)
    push = _step(
        state, "F_r", "force of the bump rubber", force, FORCE_UNIT, source=springs.BumpStop
    )
    slope, curvature = _contact_slopes(state, rubber)
    stiffness = stiff * slope**2 if curvature is None else stiff * slope**2 + push * curvature
    yield _hold(
        state,
        "r",
        "of the bump rubber",
        torque=push * slope,
        stiffness=stiffness,
        source=springs.BumpStop,
    )


def _pressed(state: LinkageSteps, rubber: BumpRubber) -> Symbol:
    sheet, at = state.sheet, "axle.bump_rubber"
    if rubber.contact_length is not None:
        length = sheet.given(
            "s_r", "damper length at which the bump rubber touches", f"{at}.contact_length"
        )
        pressed: Expression = length - state.damper_length()
    elif rubber.contact_angle is not None:
        angle = sheet.given(
            "φ_r", "arm angle at which the bump rubber touches", f"{at}.contact_angle"
        )
        radius = sheet.given("R_r", "from the bar axis to the bump rubber", f"{at}.contact_radius")
        pressed = radius * _since(state, "φ_c", "beyond contact with the bump rubber", angle)
    else:
        height = sheet.given(
            "H_r", "height hub to arch at which the bump rubber touches", f"{at}.contact_height"
        )
        pressed = height - (arch_height(sheet) - state.hub_height())
    words = "compression of the bump rubber, which carries nothing unless it is above 0"
    return _step(state, "c_r", words, pressed, LENGTH_UNIT, source=springs.BumpStop)


def _contact_slopes(
    state: LinkageSteps, rubber: BumpRubber
) -> tuple[Expression, Expression | None]:
    """Change of the compression with the arm angle, and of that change."""
    if rubber.contact_length is not None:
        return -state.damper_slope(), -state.damper_curvature()
    if rubber.contact_angle is not None:
        return Symbol("R_r"), None
    return state.hub_slope(), state.hub_curvature()


def _stretch(rubber: BumpRubber, compression: float) -> tuple[int | None, int]:
    """Numbers of the points of the curve between which a compression lies; none for contact."""
    ends = [metres(point.compression) for point in rubber.curve]
    number = min(int(np.searchsorted(ends, compression, side="right")), len(ends) - 1)
    return (number - 1 if number else None), number


def _point(sheet: Worksheet, number: int) -> tuple[Symbol, Symbol]:
    at = f"axle.bump_rubber.curve.{number}"
    return (
        sheet.given(
            f"F_{number + 1}r", f"force of the bump rubber at point {number + 1}", f"{at}.force"
        ),
        sheet.given(f"c_{number + 1}r", f"compression at point {number + 1}", f"{at}.compression"),
    )


# -- Bushings and coils --------------------------------------------------------------


def _bushing(state: LinkageSteps) -> SpringHold:
    sheet = state.sheet
    rate = sheet.given("k_u", "torsional rate of the arm's bushings", "axle.bushing.rate")
    tightened = _tightened(state)
    wound = _since(state, "φ_u", "by which the bushings are wound up", tightened)
    return _hold(
        state,
        "u",
        "of the bushings",
        torque=rate * wound,
        stiffness=1 * rate,
        source=springs.Bushing,
    )


def _tightened(state: LinkageSteps) -> Symbol:
    sheet, words = state.sheet, "arm angle at which the bushings were tightened"
    bushing = sheet.setup.axle.bushing
    if bushing is not None and bushing.set_angle is not None:
        return sheet.given("φ_t", words, "axle.bushing.set_angle")
    if sheet.has("φ_t"):
        return Symbol("φ_t")
    found = sheet.solved(
        "φ_t",
        words,
        float(sheet.corner.bushing_angle or 0.0),
        ANGLE_IN_DEGREES,
        "solved for the standard height, with the standard arm; the next line puts it in",
    )
    there = attrs.evolve(
        state,
        angle=found,
        mark="t",
        where="where the bushings were tightened",
        linkage=sheet.corner.standard_linkage,
        is_standard=True,
    )
    height = sheet.given("H_0", "standard height, hub to arch", "axle.standard_height")
    sheet.balance(
        found,
        "height hub to arch where the bushings were tightened",
        left=arch_height(sheet) - there.hub_height(),
        right=height,
        unit=LENGTH_UNIT,
        source="definition",
    )
    return found


def _coil(state: LinkageSteps) -> Iterator[SpringHold]:
    sheet, at = state.sheet, "axle.helper_coil"
    rate = sheet.given("k_h", "rate of the helper coil", f"{at}.rate")
    free = sheet.given("l_h", "its length without load", f"{at}.free_length")
    seat = sheet.given("c_h", "what the damper has beyond the coil's seats", f"{at}.seat_offset")
    pressed = _step(
        state,
        "x_h",
        "compression of the helper coil, which is loose unless it is above 0",
        free + seat - state.damper_length(),
        LENGTH_UNIT,
        source=springs.HelperSpring,
    )
    if sheet.values[pressed.name] <= 0.0:
        return
    push = _step(
        state,
        "F_h",
        "force of the helper coil",
        rate * pressed,
        FORCE_UNIT,
        source=springs.HelperSpring,
    )
    slope = state.damper_slope()
    stiffness = rate * slope**2 - push * state.damper_curvature()
    yield _hold(
        state,
        "h",
        "of the helper coil",
        torque=-(push * slope),
        stiffness=stiffness,
        source=springs.HelperSpring,
    )


# -- Shared --------------------------------------------------------------------------


def _since(state: LinkageSteps, name: str, words: str, start: Symbol) -> Symbol:
    """Find the arm angle since another one."""
    return state.sheet.step(
        marked(name, state.mark),
        f"arm angle {words}, {state.where}",
        state.angle - start,
        ANGLE_IN_DEGREES,
        "definition",
        also=ANGLE_IN_RADIANS,
    )


def _hold(
    state: LinkageSteps,
    name: str,
    what: str,
    *,
    torque: Expression,
    stiffness: Expression,
    source: object,
) -> SpringHold:
    return SpringHold(
        _step(
            state,
            f"T_{name}",
            f"torque {what} about the bar axis",
            torque,
            TORQUE_UNIT,
            source=source,
        ),
        _step(
            state,
            f"T_{name}'",
            f"change of the torque {what} with the arm angle",
            stiffness,
            TORQUE_PER_ANGLE,
            source=source,
        ),
    )


def _step(
    state: LinkageSteps,
    name: str,
    words: str,
    equation: Expression,
    unit: WorkingUnit,
    *,
    source: object,
) -> Symbol:
    return state.sheet.step(
        marked(name, state.mark), f"{words}, {state.where}", equation, unit, source
    )


def arch_height(sheet: Worksheet) -> Symbol:
    """Height of the arch above the bar axis, from the chassis' measured pair.

    Parameters
    ----------
    sheet : Worksheet
        Where its steps are put down.

    Returns
    -------
    Symbol
    """
    if sheet.has("A"):
        return Symbol("A")
    angle = sheet.given("φ_m", "arm angle at the measured height", "axle.measured_angle")
    height = sheet.given("H_m", "measured height, hub to arch", "axle.measured_height")
    measured = linkage_steps(
        sheet, angle, mark="m", where="where the height was measured", is_standard=True
    )
    return sheet.step(
        "A",
        "height of the arch above the bar axis",
        height + measured.hub_height(),
        LENGTH_UNIT,
        "definition",
        found=sheet.corner.arch_height,
    )

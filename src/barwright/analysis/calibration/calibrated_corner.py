"""What readings of a corner say of its spring: the answer."""

from __future__ import annotations

import attrs

from barwright.analysis.answer import Answer, Outcome, Verdict
from barwright.analysis.finding import Finding
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity, shown

__all__ = ["CalibratedCorner", "CalibratedReading"]


@attrs.frozen(kw_only=True, repr=False)
class CalibratedReading(Summarised):
    """One reading beside what the spring that fits all of them best says of it.

    Parameters
    ----------
    sprung_mass : Quantity
        Mass that the corner then carried.
    nut_turns : Quantity
        Where the nut then stood, from the middle of its thread.
    height : Quantity
        Hub to arch.
    arm_angle : Quantity
        Of the arm above the horizontal.
    torque : Quantity
        Of the bar.
    residual_height : Quantity, optional
        How much higher the corner stood than that spring says; none where no spring was found.
    """

    sprung_mass: Quantity
    nut_turns: Quantity
    height: Quantity
    arm_angle: Quantity
    torque: Quantity
    residual_height: Quantity | None


@attrs.frozen(kw_only=True, repr=False)
class CalibratedCorner(Answer):
    """The spring of a corner as it was measured on the vehicle.

    Parameters
    ----------
    verdict : Verdict
        Calibrated, free angle alone, or why neither is known.
    findings : tuple of Finding
        What keeps the readings from saying more, and what to do.
    cautions : tuple of Caution
        None: to measure is no work on the spring.
    system_rate : Quantity, optional
        Torsional rate of bar and tube in series; none where the readings do not tell it.
    system_rate_standard_error : Quantity, optional
        Its standard error, from the readings and from the figures of the suspension.
    system_rate_uncertainty : Quantity, optional
        Half width of the interval that holds it with 95 %.
    expected_system_rate : Quantity
        Torsional rate that the figures of bar and tube give.
    bar_rate, bar_rate_uncertainty : Quantity, optional
        The same of the bar alone, with the tube as its figures have it.
    shear_modulus : Quantity, optional
        By which a bar of the listed sizes has that rate: far from that of steel, the bar is
        another one or a size is wrong.  None where the bar's rate is not told, or a size is
        unknown.
    free_angle : Quantity, optional
        Arm angle without torque, with the nut where the setup has it.
    free_angle_standard_error, free_angle_uncertainty : Quantity, optional
        Its standard error, and half width of the interval that holds it with 95 %; none where
        a single reading has no ±.
    degrees_of_freedom : int, optional
        Of the scatter that the interval comes from; none where it comes from the stated ±.
    coverage_factor : float
        Standard errors of the readings in half of the interval, by Student's t.
    readings : tuple of CalibratedReading
        The readings, in their order.
    """

    system_rate: Quantity | None = None
    system_rate_standard_error: Quantity | None = None
    system_rate_uncertainty: Quantity | None = None
    expected_system_rate: Quantity | None = None
    bar_rate: Quantity | None = None
    bar_rate_uncertainty: Quantity | None = None
    shear_modulus: Quantity | None = None
    free_angle: Quantity | None = None
    free_angle_standard_error: Quantity | None = None
    free_angle_uncertainty: Quantity | None = None
    degrees_of_freedom: int | None = None
    coverage_factor: float | None = None
    readings: tuple[CalibratedReading, ...] = ()

    @property
    def gives_no_spring(self) -> bool:
        """Whether the readings are refused, or there are none."""
        return self.free_angle is None or self.verdict is Verdict.CONTRADICTORY

    @property
    def further_findings(self) -> tuple[Finding, ...]:
        """Findings that the headline does not give."""
        return self.findings[1:] if self.gives_no_spring else self.findings

    @property
    def outcome(self) -> Outcome:
        """Outcome of the answer; a free angle alone is half of what was asked."""
        if self.verdict is Verdict.FREE_ANGLE_ALONE:
            return Outcome.NEEDS_FIGURES
        return super().outcome

    @property
    def headline(self) -> str:
        """The rate and the free angle, each with its ±."""
        if self.gives_no_spring:
            return self.refused()
        free = with_uncertainty(
            self._figure(self.free_angle, "a free angle"), self.free_angle_uncertainty, digits=2
        )
        if self.system_rate is None:
            return f"The free angle is {free}; the rate is not told by these readings."
        rate = with_uncertainty(self.system_rate, self.system_rate_uncertainty, digits=2)
        return f"The torsional rate of bar and tube is {rate}, the free angle {free}."


def with_uncertainty(value: Quantity, half: Quantity | None, *, digits: int) -> str:
    """Show a figure with its ±, if it has one.

    Parameters
    ----------
    value, half : Quantity
        The figure, and half of its interval.
    digits : int
        Digits after the point.

    Returns
    -------
    str
    """
    return shown(value, digits) + ("" if half is None else f" ± {shown(half, digits)}")

"""What readings say of a corner's spring, at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.calibration.calibrated_corner import CalibratedCorner, with_uncertainty
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, finding_lines, pairs, table
from barwright.units import Quantity, shown

__all__ = ["calibration_row", "calibration_text"]


def calibration_text(answer: CalibratedCorner) -> Page:
    """Show rate and free angle, and each reading beside them.

    Parameters
    ----------
    answer : CalibratedCorner
        The answer.

    Returns
    -------
    Page
    """
    label = "because" if answer.gives_no_spring else "note"
    findings = finding_lines(label, answer.further_findings)
    expected = answer.expected_system_rate
    parts = () if expected is None else (pairs(*_figures(answer, expected)), _readings(answer))
    return page_of(answer, *parts, findings=findings)


def _figures(answer: CalibratedCorner, expected: Quantity) -> Iterator[tuple[str, str]]:
    """Show what was found, each figure with its ± and its standard error."""
    rate, bar, free = answer.system_rate, answer.bar_rate, answer.free_angle
    if rate is not None:
        error = answer.system_rate_standard_error
        yield "bar and tube", _with_error(rate, answer.system_rate_uncertainty, error)
    yield "by their figures", shown(expected, 2)
    if bar is not None:
        yield "bar alone", with_uncertainty(bar, answer.bar_rate_uncertainty, digits=2)
    if answer.shear_modulus is not None:
        yield "shear modulus", shown(answer.shear_modulus, 1)
    if free is not None:
        error = answer.free_angle_standard_error
        yield "free angle", _with_error(free, answer.free_angle_uncertainty, error)
    if answer.coverage_factor is not None:
        yield "± covers", f"95 %: {_basis(answer)}, {answer.coverage_factor:.2f} standard errors"


def _with_error(value: Quantity, half: Quantity | None, error: Quantity | None) -> str:
    """Show a figure with its ± and its standard error, if these are known."""
    told = with_uncertainty(value, half, digits=2)
    return told if error is None else f"{told}, standard error {shown(error, 2)}"


def _basis(answer: CalibratedCorner) -> str:
    """Say what the ± comes from."""
    freedom = answer.degrees_of_freedom
    if freedom is None:
        return "from the ± of the readings"
    plural = "degree" if freedom == 1 else "degrees"
    return f"from their scatter, by Student's t with {freedom} {plural} of freedom"


def _readings(answer: CalibratedCorner) -> Grid:
    columns = ("", "sprung mass", "nut", "hub to arch", "arm angle", "bar torque", "residual")
    grid = table(*columns, title="Readings")
    for number, one in enumerate(answer.readings, 1):
        off = one.residual_height
        grid.add_row(
            str(number),
            shown(one.sprung_mass, 0),
            shown(one.nut_turns, 2),
            shown(one.height, 1),
            shown(one.arm_angle, 2),
            shown(one.torque, 0),
            "" if off is None else shown(off, 1),
        )
    return grid


def calibration_row(answer: CalibratedCorner) -> dict[str, str]:
    """Sum a calibration up in a row."""
    rate, free = answer.system_rate, answer.free_angle
    half, left_open = answer.system_rate_uncertainty, answer.free_angle_uncertainty
    return {
        "answer": answer.verdict.value,
        "bar and tube": "" if rate is None else with_uncertainty(rate, half, digits=2),
        "free angle": "" if free is None else with_uncertainty(free, left_open, digits=2),
    }

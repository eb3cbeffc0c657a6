"""Which steps a suspension takes."""

from __future__ import annotations

from collections.abc import Callable

from barwright.analysis.working.expression import Symbol
from barwright.analysis.working.steps.carrier_steps import StrutSteps, WishboneSteps
from barwright.analysis.working.steps.linkage_steps import LinkageSteps, SwingArmSteps
from barwright.analysis.working.worksheet import Worksheet
from barwright.parts.suspension import DoubleWishboneMounting, StrutMounting, SwingArmMounting

__all__ = ["linkage_steps"]

_STEPS: dict[type, type[LinkageSteps]] = {
    StrutMounting: StrutSteps,
    DoubleWishboneMounting: WishboneSteps,
    SwingArmMounting: SwingArmSteps,
}


def linkage_steps(
    sheet: Worksheet,
    angle: Symbol,
    *,
    mark: str = "",
    where: str,
    is_standard: bool = False,
    named: Callable[[str], str] = lambda _: "",
) -> LinkageSteps:
    """Return the steps of a corner's suspension at an arm angle.

    Parameters
    ----------
    sheet : Worksheet
        Where they are put down.
    angle : Symbol
        The arm angle, which is there already.
    mark : str
        Index of the symbols there.
    where : str
        That state in words.
    is_standard : bool
        Whether the arm is the one that the vehicle left the works with.
    named : callable
        From a field of the state to the figure of the answer that it is; empty if it is none.

    Returns
    -------
    LinkageSteps
    """
    corner = sheet.corner
    return _STEPS[type(sheet.setup.axle.suspension)](
        sheet=sheet,
        angle=angle,
        mark=mark,
        where=where,
        linkage=corner.standard_linkage if is_standard else corner.linkage,
        is_standard=is_standard,
        named=named,
    )

"""To which standard a spline may be made: the answer."""

from __future__ import annotations

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.identification.identification import AssumedError, NextReading, percent
from barwright.analysis.identification.standard_forms import SplineStandard
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity, shown

__all__ = ["SplineForm", "SplineIdentification"]


@attrs.frozen(kw_only=True, repr=False)
class SplineForm(Summarised):
    """A form of teeth that a spline may have, with its sizes.

    Parameters
    ----------
    standard : SplineStandard
        Where it is laid down.
    designation : str
        What the standard calls the size; empty for a serration.
    probability : float
        That it is this, from 0 to 1.
    teeth : int
        Teeth of the whole circle.
    module, pressure_angle : Quantity, optional
        Of its flanks; none of a serration, as all sizes below.
    pitch_diameter, base_diameter, tooth_thickness : Quantity, optional
        Of its flanks; the thickness is that along the pitch circle.
    tip_thickness : Quantity, optional
        Thickness of a tooth at its tip.
    major_diameter, root_diameter : Quantity, optional
        Greatest diameters over the teeth and at their roots.
    over_pins : Quantity, optional
        Greatest size over two pins of the diameter that the answer names; none if they touch
        no flanks.
    socket_major_diameter, socket_minor_diameter : Quantity, optional
        Of the socket that takes it, at the roots and inside the tips of its teeth; none where
        the standard was not read for it.
    tip_clearance : Quantity, optional
        Gap between the bar's tips and the socket's roots.
    contact_depth : Quantity, optional
        Depth over which the teeth of both meet.
    """

    standard: SplineStandard
    designation: str
    probability: float
    teeth: int
    module: Quantity | None = None
    pressure_angle: Quantity | None = None
    pitch_diameter: Quantity | None = None
    base_diameter: Quantity | None = None
    tooth_thickness: Quantity | None = None
    tip_thickness: Quantity | None = None
    major_diameter: Quantity | None = None
    root_diameter: Quantity | None = None
    over_pins: Quantity | None = None
    socket_major_diameter: Quantity | None = None
    socket_minor_diameter: Quantity | None = None
    tip_clearance: Quantity | None = None
    contact_depth: Quantity | None = None

    @property
    def named(self) -> str:
        """The standard, the size and the pressure angle."""
        angle = ""
        if self.pressure_angle is not None:
            angle = f"pressure angle {shown(self.pressure_angle, 1)}"
        return ", ".join(filter(None, (self.standard.value, self.designation, angle)))

    def _in_short(self) -> str:
        """Tell the form and how likely it is."""
        return f"{self.named}, {percent(self.probability)}"


@attrs.frozen(kw_only=True, repr=False)
class SplineIdentification(Answer):
    """Answer to :func:`~barwright.analysis.identification.identify_spline.identify_spline`.

    Parameters
    ----------
    verdict : Verdict
        Identified, not listed, or needs more figures.
    findings : tuple of Finding
        Whether the teeth should be counted again.
    cautions : tuple of Caution
        None, because the answer leads to no work.
    possible_forms : tuple of SplineForm
        What it may be, the likeliest first.
    unlisted : float
        Probability that it is of another form, from 0 to 1.
    pin_diameter : Quantity
        Of the pins that sizes over pins are for.
    next_readings : tuple of NextReading
        Sizes that are worth measuring, the one that tells most first.
    assumed : tuple of AssumedError
        The ± that are taken where none was stated.
    """

    possible_forms: tuple[SplineForm, ...]
    unlisted: float
    pin_diameter: Quantity
    next_readings: tuple[NextReading, ...]
    assumed: tuple[AssumedError, ...]

    @property
    def headline(self) -> str:
        """Which form it has or may have, and what would decide."""
        return " ".join(filter(None, (self._found, self._recount, self._next)))

    @property
    def _found(self) -> str:
        if self.verdict is Verdict.NOT_LISTED:
            return f"No standard form has these sizes ({percent(self.unlisted)})."
        likely = [f"{one.named} ({percent(one.probability)})" for one in self.possible_forms]
        if self.verdict is Verdict.IDENTIFIED:
            return f"{likely[0]}."
        rest = len(likely) > 2 or self.unlisted > _WORTH_NAMING  # noqa: PLR2004 - two are named
        other = "; or another form" if rest else ""
        return f"It may be {'; or '.join(likely[:2])}{other}."

    @property
    def _recount(self) -> str:
        return "".join(f"{one.text[0].upper()}{one.text[1:]}." for one in self.findings[:1])

    @property
    def _next(self) -> str:
        if self.verdict is not Verdict.NEEDS_FIGURES:
            return ""
        if not self.next_readings:
            return "No further size that a calliper measures tells them apart."
        first = self.next_readings[0]
        return (
            f"{first.asked[0].upper()}{first.asked[1:]} next: then {percent(first.certainty)} sure."
        )


_WORTH_NAMING = 0.05

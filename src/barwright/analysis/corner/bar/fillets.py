"""Fillets between a bar's body and its heads, and those that no model covers."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.corner.suspension import metres
from barwright.analysis.finding import Finding, Topic
from barwright.errors import QuantityError
from barwright.mechanics.bar import fillets as kernels
from barwright.parts.bar import Bar
from barwright.parts.chassis import BarEndName

__all__ = ["Fillet", "fillets_of", "twist_left_out", "unknown_concentrations"]


@attrs.frozen
class Fillet:
    """The fillet at one end of a bar, SI floats.

    Parameters
    ----------
    end : BarEndName
        Which end.
    diameter, head_diameter, bore : float
        Of body, head and bore [m].
    radius : float
        Of the fillet [m].
    """

    end: BarEndName
    diameter: float
    head_diameter: float
    bore: float
    radius: float

    @property
    def length(self) -> float:
        """Axial length [m]; 0 where a head thinner than the body leaves none."""
        return 0.0 if self._is_none else float(kernels.fillet_length(**self._sizes))

    @property
    def equivalent_length(self) -> float:
        """Length of body that twists as much [m]; of sections that stay plane without a model."""
        if self._is_none:
            return 0.0
        twist = kernels.fillet_plane_length if self.uncovered else kernels.fillet_equivalent_length
        return float(twist(**self._sizes, bore=self.bore))

    def mass(self, density: float) -> float:
        """Mass [kg] in a steel of a density [kg/m³]."""
        if self._is_none:
            return 0.0
        return float(kernels.fillet_mass(**self._sizes, density=density, bore=self.bore))

    @property
    def concentration(self) -> float | None:
        """Greatest shear stress over that of the body; none where no model covers it."""
        if self.uncovered:
            return None
        return float(kernels.fillet_stress_concentration(**self._sizes))

    @property
    def uncovered(self) -> QuantityError | None:
        """Which of its sizes lies outside the models of fillets; none where none does."""
        try:
            kernels.fillet_equivalent_length(**self._sizes, bore=self.bore)
        except QuantityError as error:
            return error
        return None

    @property
    def _is_none(self) -> bool:
        return self.head_diameter <= self.diameter

    @property
    def _sizes(self) -> dict[str, float]:
        return {
            "diameter": self.diameter,
            "head_diameter": self.head_diameter,
            "fillet_radius": self.radius,
        }


def fillets_of(bar: Bar) -> tuple[Fillet, ...]:
    """List the fillets of a bar; an end with a cone has none.

    Parameters
    ----------
    bar : Bar
        The bar.

    Returns
    -------
    tuple of Fillet
        From the arm end on.
    """
    ends = ((BarEndName.ARM, bar.arm_end), (BarEndName.ANCHOR, bar.anchor_end))
    return tuple(
        Fillet(
            end=name,
            diameter=metres(bar.diameter),
            head_diameter=metres(end.root_diameter),
            bore=metres(bar.bore),
            radius=metres(end.fillet_radius),
        )
        for name, end in ends
        if end.fillet_radius is not None
    )


def twist_left_out(bar: Bar) -> Iterator[Finding]:
    """Say at which ends the rates leave out a part of the twist, and why."""
    yield from _uncovered(
        bar,
        Topic.UNCERTAINTY,
        "no model covers a fillet of this {size}: the rates leave out its extra twist, "
        "and the bar is a little softer",
    )


def unknown_concentrations(bar: Bar) -> Iterator[Finding]:
    """Say in which fillets the stress is not known, and why."""
    yield from _uncovered(
        bar,
        Topic.STRESS,
        "the stress concentration in this fillet is not known: no model covers this {size}",
    )


def _uncovered(bar: Bar, topic: Topic, text: str) -> Iterator[Finding]:
    for fillet in fillets_of(bar):
        outside = fillet.uncovered
        if outside is not None:
            yield Finding(
                topic=topic,
                text=text.format(size=_SIZES[outside.key]),
                figure=outside.value,
                limit=outside.expected,
                end=fillet.end,
            )


_SIZES = {"fillet_radius": "radius", "head_diameter": "root diameter", "bore": "bore"}

"""A bar on no vehicle, with the torque tube that it lies in: its figures, as far as known."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

import attrs

from barwright.analysis.corner.bar.active_length import active_length
from barwright.analysis.corner.bar.bar_mass import mass_of
from barwright.analysis.corner.missing import missing_findings, path_of
from barwright.analysis.corner.suspension import metres
from barwright.analysis.finding import Finding
from barwright.analysis.rates.part_rates import (
    clocking_step,
    held_bar_rate,
    held_rates,
    held_tube_rate,
)
from barwright.mechanics.bar import torsion
from barwright.parts.bar import Bar
from barwright.parts.tube import Tube
from barwright.units import (
    ANGLE,
    DENSITY,
    LENGTH,
    MASS,
    STRESS,
    TORQUE,
    TORSIONAL_RATE,
    Quantity,
    is_unknown,
    quantity,
    si,
    unknown,
)

__all__ = ["HeldBar"]


@attrs.frozen(kw_only=True)
class HeldBar:
    """A bar, held over the whole length of its splines.

    What each figure rests on is listed here, so that all that is missing can be named at once.

    Parameters
    ----------
    bar : Bar
        The bar.
    tube : Tube, optional
        The tube that its anchor end lies in.
    """

    bar: Bar
    tube: Tube | None

    @property
    def bar_rate(self) -> Quantity:
        """Torsional rate of the bar."""
        return _as_far_as_known(self._of_bar, lambda: held_bar_rate(self.bar))

    @property
    def tube_rate(self) -> Quantity | None:
        """Torsional rate of the tube; none without one."""
        tube = self.tube
        if tube is None:
            return None
        return _as_far_as_known(self._of_tube, lambda: held_tube_rate(tube))

    @property
    def system_rate(self) -> Quantity:
        """Torsional rate of bar and tube in series; without a tube that of the bar."""
        return _as_far_as_known(self._of_both, lambda: quantity(self._system, TORSIONAL_RATE))

    @property
    def active_length(self) -> Quantity:
        """Active length of the bar."""
        return _as_far_as_known(self._of_length, lambda: quantity(active_length(self.bar), LENGTH))

    @property
    def mass(self) -> Quantity | None:
        """Mass of the bar; none where the density of its steel is not given."""
        density = self.bar.material.density
        if density is None:
            return None
        return _as_far_as_known(
            (*self._of_mass, density),
            lambda: quantity(mass_of(self.bar, density=si(density, DENSITY)), MASS),
        )

    @property
    def clocking_step(self) -> Quantity:
        """Smallest angle that the bar can be re-indexed by."""
        return _as_far_as_known(self._of_clocking, lambda: clocking_step(self.bar))

    def twist(self, torque: float) -> Quantity:
        """Twist of bar and tube under a torque [N·m]."""
        return _as_far_as_known(self._of_both, lambda: quantity(torque / self._system, ANGLE))

    def shear_stress(self, torque: float) -> Quantity:
        """Shear stress of the bar's body under a torque [N·m]."""
        return _as_far_as_known(
            self._of_section,
            lambda: quantity(float(torsion.shear_stress(torque, **self._section)), STRESS),
        )

    def torque_at(self, stress: Quantity) -> Quantity:
        """Torque at which the bar's body reaches a shear stress."""
        return _as_far_as_known(
            self._of_section,
            lambda: quantity(
                float(torsion.torque_at_stress(si(stress, STRESS), **self._section)), TORQUE
            ),
        )

    def needs(self) -> Iterator[Finding]:
        """Name the figures that are missing, by what they are needed for."""
        for what, figures in (
            ("the rate of the bar", self._of_bar),
            ("the rate of bar and tube", self._of_tube),
            ("the smallest clocking step", self._of_clocking),
        ):
            missing = [path_of(self, figure) for figure in figures if is_unknown(figure)]
            yield from missing_findings(self, missing, f"needed for {what}")

    @property
    def _system(self) -> float:
        return held_rates(self.bar, self.tube).system

    @property
    def _section(self) -> dict[str, float]:
        return {"diameter": metres(self.bar.diameter), "bore": metres(self.bar.bore)}

    # -- What each of them rests on ------------------------------------------------------

    @property
    def _of_section(self) -> tuple[object, ...]:
        return self.bar.diameter, self.bar.bore

    @property
    def _of_length(self) -> tuple[object, ...]:
        ends = (self.bar.arm_end, self.bar.anchor_end)
        heads = ((end.length, end.taper, end.root_diameter, end.fillet_radius) for end in ends)
        return *self._of_section, self.bar.length, *(size for head in heads for size in head)

    @property
    def _of_mass(self) -> tuple[object, ...]:
        ends = (self.bar.arm_end, self.bar.anchor_end)
        heads = ((end.major_diameter, end.nose, end.nose_diameter) for end in ends)
        return *self._of_length, *(size for head in heads for size in head)

    @property
    def _of_bar(self) -> tuple[object, ...]:
        if self.bar.measured_rate is not None:
            return (self.bar.measured_rate,)
        return *self._of_length, self.bar.material.shear_modulus

    @property
    def _of_tube(self) -> tuple[object, ...]:
        tube = self.tube
        if tube is None:
            return ()
        section = (tube.outside_diameter, tube.bore)
        return *section, tube.lever_position, tube.socket_position, tube.material.shear_modulus

    @property
    def _of_both(self) -> tuple[object, ...]:
        return *self._of_bar, *self._of_tube

    @property
    def _of_clocking(self) -> tuple[object, ...]:
        return self.bar.arm_end.teeth, self.bar.anchor_end.teeth


def _as_far_as_known(rests_on: Iterable[object], compute: Callable[[], Quantity]) -> Quantity:
    """Return a figure; unknown, where one that it rests on is."""
    return unknown() if any(map(is_unknown, rests_on)) else compute()

"""What a shop demands of every job beyond what the parts permit."""

from __future__ import annotations

import math

import attrs

from barwright.analysis.reindex.reindex import CornerTask, Reindex
from barwright.analysis.strength.overstress import strength_is_known
from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.parts.bar import Bar
from barwright.parts.common.fields import named, stress_or_none
from barwright.parts.common.record import evolved
from barwright.parts.common.source import Figure
from barwright.parts.setup import Setup
from barwright.registry.jobs.job import JobCorner
from barwright.units import STRESS, Quantity, is_unknown, si

__all__ = ["HouseRules"]

_PERMISSIBLE = ("permissible_shear", "preset_permissible_shear")


@attrs.frozen(kw_only=True, field_transformer=named)
class HouseRules:
    """What every job is held to.

    Parameters
    ----------
    strength_known : bool
        Whether the strength of each bar must be known.
    no_cuts : bool
        Whether no tooth may be removed and no key cleared.
    max_stress : Quantity, optional
        Shear stress that no bar may exceed; where its steel permits less, that counts.
    """

    strength_known: bool = False
    no_cuts: bool = False
    max_stress: Quantity | None = attrs.field(default=None, converter=stress_or_none)

    def task(self, corner: JobCorner) -> CornerTask:
        """Return the task of a corner of a job, with these rules as limits on the work."""
        wanted = attrs.evolve(corner.wanted, cuts=0) if self.no_cuts else corner.wanted
        setup = self._limited(corner.setup)
        # The one bar stays one on both, and the corner one if nothing is changed on it.
        same = corner.present is corner.setup
        return CornerTask(setup, setup if same else self._limited(corner.present), wanted)

    def lacks_strength(self, setup: Setup, answer: Reindex) -> bool:
        """Whether a plan must not be carried out because no limit of its bar is known."""
        if not self.strength_known or not answer.plans:
            return False
        return not strength_is_known(setup.bar, StrengthLimits())

    def _limited(self, setup: Setup) -> Setup:
        if self.max_stress is None:
            return setup
        return setup.with_parts(bar=_limited(setup.bar, self.max_stress))


def _limited(bar: Bar, most: Quantity) -> Bar:
    """Let the steel of a bar permit no more than a stress."""
    lower = [name for name in _PERMISSIBLE if si(most, STRESS) < _permitted(bar, name)]
    known = {name: Figure(value=most, source="limit of this check") for name in lower}
    steel = evolved(bar.material, dict.fromkeys(lower, most)).described(known)
    return attrs.evolve(bar, material=steel)


def _permitted(bar: Bar, name: str) -> float:
    """Stress that the steel of a bar permits [Pa]; without limit where none is known."""
    stress = getattr(bar.material, name)
    return math.inf if stress is None or is_unknown(stress) else si(stress, STRESS)

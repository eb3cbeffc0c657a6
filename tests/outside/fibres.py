"""A round bar as fibres that obey Hooke until they flow, summed up by quadrature.

Nothing is known here of an elastic core or of any closed form: a fibre has a strain in
proportion to its radius, and a stress that it cannot exceed either way.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import attrs
import scipy.integrate
import scipy.optimize

__all__ = ["Fibres"]


@attrs.frozen(kw_only=True)
class Fibres:
    """A solid bar.

    Parameters
    ----------
    diameter, active_length : float
        Diameter and twisting length [m].
    shear_modulus, shear_yield : float
        Shear modulus and yield stress in shear [Pa].
    """

    diameter: float
    active_length: float
    shear_modulus: float
    shear_yield: float

    @property
    def radius(self) -> float:
        """Half the diameter."""
        return self.diameter / 2.0

    @property
    def first_yield(self) -> float:
        """Twist at which the outermost fibre meets its yield stress."""
        return self._root(
            lambda twist: self.elastic(self.radius, twist) - self.shear_yield, 0.0, 1e3
        )

    def elastic(self, radius: float, twist: float) -> float:
        """Stress that Hooke's law gives."""
        return self.shear_modulus * radius * twist / self.active_length

    def held(self, radius: float, twist: float) -> float:
        """Stress in a fibre that is twisted from rest."""
        return min(self.elastic(radius, twist), self.shear_yield)

    def let_back(self, radius: float, most: float, twist: float) -> float:
        """Stress in a fibre that was twisted to ``most`` and back; it may flow the other way."""
        back = self.held(radius, most) - self.elastic(radius, most - twist)
        return max(back, -self.shear_yield)

    def core(self, twist: float) -> float:
        """Radius at which Hooke's law meets the yield stress, or that of the bar."""
        if self.elastic(self.radius, twist) <= self.shear_yield:
            return self.radius
        return self._root(
            lambda radius: self.elastic(radius, twist) - self.shear_yield, 0.0, self.radius
        )

    def moment(self, stress: Callable[[float], float], *, kink: float) -> float:
        """Torque of a stress over the section, in two parts that meet at a radius."""
        return sum(
            float(
                scipy.integrate.quad(
                    lambda radius: 2.0 * math.pi * radius**2 * stress(radius),
                    low,
                    high,
                    epsabs=1e-13 * self.shear_yield * self.radius**3,
                    epsrel=1e-12,
                )[0]
            )
            for low, high in ((0.0, kink), (kink, self.radius))
        )

    def torque(self, most: float, twist: float) -> float:
        """Torque of the bar that was twisted to ``most`` and is let back to a twist."""
        return self.moment(lambda radius: self.let_back(radius, most, twist), kink=self.core(most))

    def let_go(self, most: float) -> float:
        """Twist at which no torque is left on the way back from ``most``."""
        # The torque falls all the way back; two first yields further it is below zero.
        return self._root(
            lambda twist: self.torque(most, twist), most - 2.0 * self.first_yield, most
        )

    @staticmethod
    def _root(missing: Callable[[float], float], low: float, high: float) -> float:
        return float(scipy.optimize.brentq(missing, low, high, xtol=1e-16, rtol=1e-13))

"""Oscillations and roll from the raw physics: energies, equations of motion, a frame of beams.

Characteristic roots come from the Lagrangian of the masses in sympy, decays from Newton's
second law integrated in time by scipy, the anti-roll bar from a frame of beams whose
body and arms are round rods.
"""

from __future__ import annotations

import functools
import math

import attrs
import mpmath
import numpy as np
import sympy
from numpy.typing import NDArray
from Pynite import FEModel3D
from scipy.integrate import solve_ivp

# Steel of the frame.
YOUNGS, SHEAR = 207e9, 79e9


@attrs.frozen(kw_only=True)
class Decay:
    """Swing of a mass on a spring and a damper, let go from rest."""

    rate: float
    mass: float
    damping: float = 0.0

    def _turning_points(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Moments at which the mass stands still, and where it then is."""

        def moves(_: float, state: NDArray[np.float64]) -> list[float]:
            place, speed = state
            return [speed, -(self.rate * place + self.damping * speed) / self.mass]

        def stands(_: float, state: NDArray[np.float64]) -> float:
            return float(state[1])

        span = 12.0 * math.pi * math.sqrt(self.mass / self.rate)
        swing = solve_ivp(
            moves, (0.0, span), [1.0, 0.0], events=stands, method="DOP853", rtol=1e-12, atol=1e-14
        )
        return swing.t_events[0][1:], swing.y_events[0][1:, 0]

    def frequency(self) -> float:
        """Turns in a second, between the first and the last time that it stands."""
        moments, _ = self._turning_points()
        return float((moments.size - 1) / (2.0 * (moments[-1] - moments[0])))

    def ratio(self) -> float:
        """Damping ratio by the logarithmic decrement of two turning points in a row."""
        _, places = self._turning_points()
        decrement = math.log(-places[0] / places[1])
        return decrement / math.hypot(math.pi, decrement)


@functools.cache
def characteristic() -> tuple[sympy.Poly, tuple[sympy.Symbol, ...]]:
    """Characteristic polynomial of a quarter vehicle, from its energies."""
    t, s = sympy.symbols("t s")
    figures = sympy.symbols("m_s m_u k k_t c", positive=True)
    sprung, unsprung, wheel, tyre, damper = figures
    z = [sympy.Function(name)(t) for name in ("z_s", "z_u")]
    v = [place.diff(t) for place in z]
    kinetic = (sprung * v[0] ** 2 + unsprung * v[1] ** 2) / 2
    potential = (wheel * (z[0] - z[1]) ** 2 + tyre * z[1] ** 2) / 2
    lost = damper * (v[0] - v[1]) ** 2 / 2
    equations = [
        (kinetic - potential).diff(speed).diff(t)
        - (kinetic - potential).diff(place)
        + lost.diff(speed)
        for place, speed in zip(z, v, strict=True)
    ]
    a = sympy.symbols("a_s a_u")
    swing = dict(zip(z, (one * sympy.exp(s * t) for one in a), strict=True))
    linear = [sympy.expand(eq.subs(swing).doit() / sympy.exp(s * t)) for eq in equations]
    matrix = sympy.Matrix([[eq.coeff(one) for one in a] for eq in linear])
    return sympy.Poly(matrix.det(), s), figures


def roots(*figures: float) -> list[complex]:
    """Characteristic roots of a quarter vehicle in 30 digits, the slowest first."""
    polynomial, symbols = characteristic()
    values = dict(zip(symbols, map(sympy.Float, figures), strict=True))
    with mpmath.workdps(30):
        terms = [mpmath.mpf(str(term.subs(values))) for term in polynomial.all_coeffs()]
        found = mpmath.polyroots(terms, maxsteps=200, extraprec=200)
    return sorted((complex(root) for root in found), key=abs)


@attrs.frozen(kw_only=True)
class AntiRollFrame:
    """A U of round rods on two bearings that let the body turn and nothing else."""

    span: float
    arm: float
    body_diameter: float
    arm_diameter: float

    @property
    def torsional_rate(self) -> float:
        """Of the body, by its own frame: an end held, the other turned by a torque."""
        frame = self._steel()
        frame.add_node("held", 0.0, 0.0, 0.0)
        frame.add_node("turned", self.span, 0.0, 0.0)
        frame.add_member("body", "held", "turned", "steel", "body")
        frame.def_support("held", *(True,) * 6)
        frame.add_node_load("turned", "MX", 1.0)
        frame.analyze_linear()
        return 1.0 / float(frame.nodes["turned"].RX["Combo 1"])

    @property
    def arm_rate(self) -> float:
        """Of one arm, clamped in the body."""
        frame = self._steel()
        frame.add_node("clamped", 0.0, 0.0, 0.0)
        frame.add_node("link", 0.0, 0.0, self.arm)
        frame.add_member("arm", "clamped", "link", "steel", "arm")
        frame.def_support("clamped", *(True,) * 6)
        frame.add_node_load("link", "FY", 1.0)
        frame.analyze_linear()
        return 1.0 / float(frame.nodes["link"].DY["Combo 1"])

    def link_force(self, left: float, right: float) -> float:
        """Force at the left drop link with both links moved up by so much."""
        frame = self._steel()
        for name, x in (("left", 0.0), ("right", self.span)):
            frame.add_node(name, x, 0.0, 0.0)
            frame.add_node(f"{name} link", x, 0.0, self.arm)
            frame.add_member(f"{name} arm", name, f"{name} link", "steel", "arm")
            # A bearing lets the body turn about its axis, and bend freely out of line.
            frame.def_support(name, True, True, True, False, False, False)
            frame.def_support(f"{name} link", support_DY=True)
        frame.add_member("body", "left", "right", "steel", "body")
        frame.def_node_disp("left link", "DY", left)
        frame.def_node_disp("right link", "DY", right)
        frame.analyze_linear()
        return float(frame.nodes["left link"].RxnFY["Combo 1"])

    def _steel(self) -> FEModel3D:
        frame = FEModel3D()
        frame.add_material("steel", YOUNGS, SHEAR, YOUNGS / (2.0 * SHEAR) - 1.0, 0.0)
        for name, diameter in (("body", self.body_diameter), ("arm", self.arm_diameter)):
            second = math.pi * diameter**4 / 64.0
            area = math.pi * diameter**2 / 4.0
            frame.add_section(name, area, second, second, 2.0 * second)
        return frame

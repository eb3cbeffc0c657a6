"""Rows of `barwright.mechanics.bar.torsion`: printed examples, and engines that see the bar.

The examples were read in reproductions, but for those recalled.  The engines stand in
``outside.shafts``; what scipy integrates is the field of stress that Hooke's law gives.
"""

from __future__ import annotations

import math

import scipy.integrate
import scipy.optimize

from barwright.mechanics.bar.torsion import (
    bar_mass,
    polar_second_moment,
    series_rate,
    shear_stress,
    strain_energy,
    torque_at_stress,
    torsional_rate,
    twist_from_torque,
)
from outside.sections import ring
from outside.shafts import Piece, Round, chain_rate, cylinder_mass, folded_twist
from validation import Kind, Row

_SINGER = "Singer & Pytel, *Strength of Materials*, 4th ed., torsion problem 305"
_PHILPOT = "Philpot, *MecMovies*, example"
_BEER = "Beer & Johnston, *Mechanics of Materials*, torsion, example"
_MESHED = "scikit-fem: Prandtl's stress function of a ring"
_CHAIN = "opentorsion: chain of shafts"

_TUBE = {"diameter": 0.048, "bore": 0.041}
_BAR = {"diameter": 0.025, "active_length": 1.1, "shear_modulus": 78e9}


def moment_of_field(diameter: float, bore: float, *, strain: float) -> float:
    """Torque over shear modulus of strains that grow with the radius, summed over rings [m³]."""

    def ring_moment(radius: float) -> float:
        return 2.0 * math.pi * radius * radius * (strain * radius)

    return float(scipy.integrate.quad(ring_moment, bore / 2.0, diameter / 2.0, epsrel=1e-13)[0])


def polar_by_rings(diameter: float) -> float:
    """Second moment of a round section about its axis, summed over rings [m⁴]."""
    return moment_of_field(diameter, 0.0, strain=1.0)


def energy_of_field(diameter: float, *, length: float, modulus: float, twist: float) -> float:
    """Energy of the stresses in a twisted bar, summed over its volume [J]."""

    def density(radius: float) -> float:
        stress = modulus * radius * twist / length
        return stress**2 / (2.0 * modulus) * 2.0 * math.pi * radius

    over_section = scipy.integrate.quad(density, 0.0, diameter / 2.0, epsrel=1e-13)[0]
    return float(over_section * length)


def folded_rate() -> float:
    """Rate of a 25 mm bar that a tube of 48 × 3.5 mm holds, by a frame."""
    bar = Round(1.1, polar_by_rings(0.025))
    tube = Round(0.6, ring(**_TUBE).torsion_constant)
    return 1.0 / folded_twist(bar, tube, torque=1.0, shear_modulus=78e9)


ROWS = [
    Row(
        of="torsion.polar_second_moment",
        source=f"{_PHILPOT} M6.23",
        kind=Kind.READ,
        given="75 mm outside, 55 mm bore",
        unit="mm⁴",
        expected=2_207_951.0,
        got=lambda: float(polar_second_moment(diameter=0.075, bore=0.055) * 1e12),
        within=2.5e-7,
    ),
    Row(
        of="torsion.polar_second_moment",
        source=f"{_PHILPOT} M6.23",
        kind=Kind.READ,
        given="75 mm, solid",
        unit="mm⁴",
        expected=3_106_311.0,
        got=lambda: float(polar_second_moment(diameter=0.075) * 1e12),
        within=2.5e-7,
    ),
    Row(
        of="torsion.polar_second_moment",
        source=f"{_BEER} 3.01",
        given="60 mm outside, 40 mm bore",
        unit="m⁴",
        expected=1.021e-6,
        got=lambda: float(polar_second_moment(diameter=0.060, bore=0.040)),
        within=5e-4,
        why="printed to four digits",
        kind=Kind.RECALLED,
    ),
    Row(
        of="torsion.polar_second_moment",
        source=_MESHED,
        given="48 mm outside, 41 mm bore",
        unit="mm⁴",
        expected=lambda: ring(**_TUBE).torsion_constant * 1e12,
        got=lambda: float(polar_second_moment(**_TUBE) * 1e12),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="torsion.torsional_rate",
        source=_SINGER,
        kind=Kind.REPRODUCED,
        given="113.98 mm, 6 m, 83 GPa; torque at 3°",
        unit="kN·m",
        expected=12.0,
        got=lambda: (
            float(torsional_rate(diameter=0.11398, active_length=6.0, shear_modulus=83e9))
            * math.radians(3.0)
            / 1e3
        ),
        within=2e-4,
        why="diameter printed to 0.01 mm",
    ),
    Row(
        of="torsion.torsional_rate",
        source=_CHAIN,
        given="48 mm outside, 41 mm bore, 0.6 m, 78 GPa",
        unit="N·m/rad",
        expected=lambda: chain_rate([Piece(0.6, 0.048, 0.048, 0.041)], shear_modulus=78e9),
        got=lambda: float(torsional_rate(active_length=0.6, shear_modulus=78e9, **_TUBE)),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="torsion.twist_from_torque",
        source=_SINGER,
        kind=Kind.REPRODUCED,
        given="113.98 mm, 6 m, 83 GPa, 12 kN·m",
        unit="°",
        expected=3.0,
        got=lambda: math.degrees(
            twist_from_torque(12e3, diameter=0.11398, active_length=6.0, shear_modulus=83e9)
        ),
        within=2e-4,
        why="diameter printed to 0.01 mm",
    ),
    Row(
        of="torsion.twist_from_torque",
        source=_CHAIN,
        given="25 mm, 8 mm bore, 1.1 m, 78 GPa, 900 N·m",
        unit="rad",
        expected=lambda: 900.0 / chain_rate([Piece(1.1, 0.025, 0.025, 0.008)], shear_modulus=78e9),
        got=lambda: float(twist_from_torque(900.0, bore=0.008, **_BAR)),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="torsion.series_rate",
        source="PyNiteFEA: bar and tube in series, as a frame folded back on itself",
        given="bar 25 mm, 1.1 m; tube 48 × 3.5 mm, 0.6 m; 78 GPa",
        unit="N·m/rad",
        expected=folded_rate,
        got=lambda: float(
            series_rate(
                torsional_rate(**_BAR),
                torsional_rate(active_length=0.6, shear_modulus=78e9, **_TUBE),
            )
        ),
        within=1e-6,
        kind=Kind.ENGINE,
    ),
    Row(
        of="torsion.shear_stress",
        source=_SINGER,
        kind=Kind.REPRODUCED,
        given="12 kN·m, 113.98 mm",
        unit="MPa",
        expected=41.27,
        got=lambda: float(shear_stress(12e3, diameter=0.11398)) / 1e6,
        within=2e-4,
        why="printed to 0.01 MPa",
    ),
    Row(
        of="torsion.shear_stress",
        source="Singer & Pytel, *Strength of Materials*, 4th ed., torsion problem 310",
        kind=Kind.REPRODUCED,
        given="a torque that brings 50 mm solid to 75 MPa, with a bore of half the diameter",
        unit="MPa",
        expected=75.0 / (15.0 / 16.0),
        got=lambda: (
            float(shear_stress(torque_at_stress(75e6, diameter=0.050), diameter=0.050, bore=0.025))
            / 1e6
        ),
        within=1e-12,
    ),
    Row(
        of="torsion.shear_stress",
        source=f"{_MESHED}; greatest stress",
        given="900 N·m, 48 mm outside, 41 mm bore",
        unit="MPa",
        expected=lambda: 900.0 * ring(**_TUBE).stress / 1e6,
        got=lambda: float(shear_stress(900.0, **_TUBE)) / 1e6,
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="torsion.torque_at_stress",
        source=f"{_PHILPOT} M6.17",
        kind=Kind.READ,
        given="75 MPa, 30.660 mm",
        unit="N·m",
        expected=424.413,
        got=lambda: float(torque_at_stress(75e6, diameter=0.030660)),
        within=5e-5,
        why="diameter printed to 0.001 mm",
    ),
    Row(
        of="torsion.torque_at_stress",
        source=f"{_BEER} 3.01",
        given="120 MPa, 60 mm outside, 40 mm bore",
        unit="kN·m",
        expected=4.08,
        got=lambda: float(torque_at_stress(120e6, diameter=0.060, bore=0.040)) / 1e3,
        within=1.3e-3,
        why="printed to three digits",
        kind=Kind.RECALLED,
    ),
    Row(
        of="torsion.torque_at_stress",
        source=f"{_MESHED}; greatest stress",
        given="700 MPa, 48 mm outside, 41 mm bore",
        unit="N·m",
        expected=lambda: 700e6 / ring(**_TUBE).stress,
        got=lambda: float(torque_at_stress(700e6, **_TUBE)),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="torsion.strain_energy",
        source="scipy: stress squared over twice the modulus, integrated over the volume",
        given="25 mm, 1.1 m, 78 GPa, 0.4 rad",
        unit="J",
        expected=lambda: energy_of_field(0.025, length=1.1, modulus=78e9, twist=0.4),
        got=lambda: float(strain_energy(rate=torsional_rate(**_BAR), twist=0.4)),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="torsion.bar_mass",
        source="MuJoCo: a cylinder minus its bore",
        given="25 mm, 8 mm bore, 1.1 m, 7850 kg/m³",
        unit="kg",
        expected=lambda: (
            cylinder_mass(length=1.1, diameter=0.025, density=7850.0)
            - cylinder_mass(length=1.1, diameter=0.008, density=7850.0)
        ),
        got=lambda: float(bar_mass(length=1.1, diameter=0.025, bore=0.008, density=7850.0)),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
]

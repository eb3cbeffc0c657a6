"""Rows of `barwright.mechanics.bar.transitions`: chains of shafts, and solids of revolution."""

from __future__ import annotations

from barwright.mechanics.bar.transitions import (
    equivalent_length,
    taper_equivalent_length,
    taper_mass,
)
from outside.shafts import Piece, chain_rate, revolved
from validation import Kind, Row

_CHAIN = "opentorsion: chain of shafts, compared with a metre of body"
_STEPS = "opentorsion: cones as chains of 60 and 120 shafts, extrapolated to endlessly many"
_PAPPUS = "shapely: centroid and area of the half section, by Pappus's theorem"


def length_of_body(*pieces: Piece, diameter: float, bore: float = 0.0) -> float:
    """Length of a body that has the rate of a chain [m]."""
    body = chain_rate([Piece(1.0, diameter, diameter, bore)], shear_modulus=80e9)
    return body / chain_rate(pieces, shear_modulus=80e9)


def _outline(*pieces: Piece) -> list[tuple[float, float]]:
    """Surface of pieces end to end: along the axis, out from it."""
    place, points = 0.0, []
    for piece in pieces:
        points += [(place, piece.start / 2.0), (place + piece.length, piece.end / 2.0)]
        place += piece.length
    return points


ROWS = [
    Row(
        of="transitions.equivalent_length",
        source=_CHAIN,
        given="30 mm of a 34 mm head on a 25 mm body, 8 mm bore",
        unit="mm",
        expected=lambda: (
            length_of_body(Piece(0.030, 0.034, 0.034, 0.008), diameter=0.025, bore=0.008) * 1e3
        ),
        got=lambda: (
            float(equivalent_length(0.030, diameter=0.025, head_diameter=0.034, bore=0.008)) * 1e3
        ),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="transitions.taper_equivalent_length",
        source=_STEPS,
        given="solid cone of 40 mm from 25 to 34 mm",
        unit="mm",
        expected=lambda: length_of_body(Piece(0.040, 0.025, 0.034), diameter=0.025) * 1e3,
        got=lambda: (
            float(taper_equivalent_length(0.040, diameter=0.025, head_diameter=0.034)) * 1e3
        ),
        within=1e-8,
        kind=Kind.ENGINE,
    ),
    Row(
        of="transitions.taper_equivalent_length",
        source=_STEPS,
        given="cone of 40 mm from 25 to 34 mm, 18 mm bore",
        unit="mm",
        expected=lambda: (
            length_of_body(Piece(0.040, 0.025, 0.034, 0.018), diameter=0.025, bore=0.018) * 1e3
        ),
        got=lambda: (
            float(taper_equivalent_length(0.040, diameter=0.025, head_diameter=0.034, bore=0.018))
            * 1e3
        ),
        within=1e-8,
        kind=Kind.ENGINE,
    ),
    Row(
        of="transitions.taper_mass",
        source=_PAPPUS,
        given="cone of 40 mm from 25 to 34 mm, 8 mm bore, 7850 kg/m³",
        unit="g",
        expected=lambda: 7850e3 * revolved(_outline(Piece(0.040, 0.025, 0.034, 0.008)), bore=0.008),
        got=lambda: (
            float(
                taper_mass(0.040, diameter=0.025, head_diameter=0.034, bore=0.008, density=7850.0)
            )
            * 1e3
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
]

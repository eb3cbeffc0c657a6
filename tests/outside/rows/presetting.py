"""Rows of `presetting`: fibres summed over the section, and two recalled laws.

See ``outside.fibres`` for what a fibre obeys.
"""

from __future__ import annotations

from barwright.mechanics.bar.presetting import (
    elastic_core_radius,
    elastic_plastic_torque,
    permanent_twist,
    plastic_torque,
    residual_stress,
    yield_torque,
    yield_twist,
)
from outside.fibres import Fibres
from validation import Kind, Row

_BAR = {"diameter": 0.026, "active_length": 1.1, "shear_modulus": 78e9, "shear_yield": 850e6}
_SECTION = {"diameter": 0.026, "shear_yield": 850e6}
_FIBRES = Fibres(**_BAR)
_MOST = 1.7
_BEER = "Beer & Johnston, *Mechanics of Materials*, 3.10 to 3.11"
_SUMMED = "scipy: stresses of yielding fibres, integrated over the section"
_STEEL = "26 mm, 850 MPa"
_GIVEN = "26 mm, 1.1 m, 78 GPa, 850 MPa"


def _left(radius: float) -> float:
    """Stress that stays in a fibre [Pa]."""
    return _FIBRES.let_back(radius, _MOST, _FIBRES.let_go(_MOST))


ROWS = [
    Row(
        of="presetting.yield_torque",
        source=_SUMMED,
        given=f"{_GIVEN}; twisted until the outermost fibre yields",
        unit="N·m",
        expected=lambda: _FIBRES.torque(_FIBRES.first_yield, _FIBRES.first_yield),
        got=lambda: float(yield_torque(**_SECTION)),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="presetting.plastic_torque",
        source=_BEER,
        given="over the torque at first yield",
        unit="",
        expected=4.0 / 3.0,
        got=lambda: float(plastic_torque(**_SECTION) / yield_torque(**_SECTION)),
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="presetting.plastic_torque",
        source=_SUMMED,
        given=f"{_STEEL}; all fibres yield",
        unit="N·m",
        expected=lambda: _FIBRES.moment(lambda _: 850e6, kink=0.0),
        got=lambda: float(plastic_torque(**_SECTION)),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="presetting.yield_twist",
        source="scipy: twist at which the outermost fibre meets its yield stress, by a root search",
        given=_GIVEN,
        unit="rad",
        expected=lambda: _FIBRES.first_yield,
        got=lambda: float(yield_twist(**_BAR)),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="presetting.elastic_core_radius",
        source="scipy: radius at which Hooke's law meets the yield stress, by a root search",
        given=f"{_GIVEN}; at 1.7 rad",
        unit="mm",
        expected=lambda: _FIBRES.core(_MOST) * 1e3,
        got=lambda: float(elastic_core_radius(_MOST, **_BAR)) * 1e3,
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="presetting.elastic_plastic_torque",
        source=_SUMMED,
        given=f"{_GIVEN}; at 1.7 rad",
        unit="N·m",
        expected=lambda: _FIBRES.torque(_MOST, _MOST),
        got=lambda: float(elastic_plastic_torque(elastic_core_radius(_MOST, **_BAR), **_SECTION)),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="presetting.residual_stress",
        source=_BEER,
        given="at the surface after the whole section has yielded, over the yield stress",
        unit="",
        expected=-1.0 / 3.0,
        got=lambda: float(residual_stress(0.013, core_radius=0.0, **_SECTION)) / 850e6,
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="presetting.residual_stress",
        source=f"{_SUMMED}, then released",
        given=f"{_GIVEN}; at the surface, from 1.7 rad",
        unit="MPa",
        expected=lambda: _left(0.013) / 1e6,
        got=lambda: (
            float(
                residual_stress(0.013, core_radius=elastic_core_radius(_MOST, **_BAR), **_SECTION)
            )
            / 1e6
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="presetting.residual_stress",
        source=f"{_SUMMED}, then released",
        given=f"{_GIVEN}; 4 mm from the axis, from 1.7 rad",
        unit="MPa",
        expected=lambda: _left(0.004) / 1e6,
        got=lambda: (
            float(
                residual_stress(0.004, core_radius=elastic_core_radius(_MOST, **_BAR), **_SECTION)
            )
            / 1e6
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="presetting.permanent_twist",
        source=f"{_SUMMED}, then released",
        given=f"{_GIVEN}; from 1.7 rad",
        unit="rad",
        expected=lambda: _FIBRES.let_go(_MOST),
        got=lambda: float(permanent_twist(_MOST, **_BAR)),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
]

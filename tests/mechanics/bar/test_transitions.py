"""Laws of `barwright.mechanics.bar.transitions`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.bar import transitions
from barwright.mechanics.bar.torsion import bar_mass, series_rate, torsional_rate
from barwright.mechanics.bar.transitions import (
    equivalent_length,
    stepped_equivalent_length,
    stepped_mass,
    taper_equivalent_length,
    taper_mass,
)
from kernel_grids import COLUMN, ROW, Call, assert_a_grid_is_its_places

MODULUS = 78e9
D = 0.025
HEADS = st.floats(1.0, 2.0)
BORES = st.floats(0.0, 0.8)

# -- Heads and cones ------------------------------------------------------------------


@given(head=HEADS, bore=BORES)
def test_head_of_its_equivalent_length_twists_as_much_as_the_body(head: float, bore: float) -> None:
    b = D * bore
    length = equivalent_length(0.040, diameter=D, head_diameter=head * D, bore=b)
    body = torsional_rate(diameter=D, bore=b, active_length=length, shear_modulus=MODULUS)
    real = torsional_rate(diameter=head * D, bore=b, active_length=0.040, shear_modulus=MODULUS)

    assert body == pytest.approx(real, rel=1e-12)


@given(head=st.floats(1.01, 2.0), bore=BORES)
def test_taper_lies_between_its_head_and_its_body(head: float, bore: float) -> None:
    cone = {"diameter": D, "head_diameter": head * D, "bore": D * bore}

    assert equivalent_length(0.040, **cone) < taper_equivalent_length(0.040, **cone) < 0.040


def test_head_of_a_solid_bar_counts_by_the_fourth_power() -> None:
    assert equivalent_length(0.016, diameter=0.020, head_diameter=0.040) == pytest.approx(0.001)


def test_taper_without_slope_is_its_own_length() -> None:
    plain = taper_equivalent_length(0.040, diameter=D, head_diameter=D, bore=0.01)

    assert plain == pytest.approx(0.040, rel=1e-14)


@given(ratio=st.floats(0.01, 100.0))
def test_solid_cone_of_any_slope_is_its_closed_form(ratio: float) -> None:
    # Steeper than any bar's: the quadrature is exact, not only good enough.
    length = taper_equivalent_length(3.0, diameter=D * ratio, head_diameter=D)

    assert length == pytest.approx(ratio * (1.0 + ratio + ratio**2), rel=1e-13)


@given(head=HEADS, bore=BORES)
def test_cone_told_from_its_thick_end_is_the_same_cone(head: float, bore: float) -> None:
    b = D * bore
    thin = taper_equivalent_length(0.040, diameter=D, head_diameter=head * D, bore=b)
    thick = taper_equivalent_length(0.040, diameter=head * D, head_diameter=D, bore=b)
    told_in_body = equivalent_length(thick, diameter=D, head_diameter=head * D, bore=b)

    assert told_in_body == pytest.approx(thin, rel=1e-11)


@given(head=HEADS, bore=BORES, share=st.floats(0.1, 0.9))
def test_cone_cut_in_two_is_both_its_parts(head: float, bore: float, share: float) -> None:
    b, whole = D * bore, {"diameter": D, "bore": D * bore}
    middle = D * (1.0 + share * (head - 1.0))
    near = taper_equivalent_length(0.04 * share, head_diameter=middle, **whole)
    far = taper_equivalent_length(
        0.04 * (1.0 - share), diameter=middle, head_diameter=head * D, bore=b
    )
    far_in_body = equivalent_length(far, diameter=D, head_diameter=middle, bore=b)

    assert near + far_in_body == pytest.approx(
        float(taper_equivalent_length(0.04, head_diameter=head * D, **whole)), rel=1e-12
    )


# -- Masses ---------------------------------------------------------------------------


def test_cone_without_slope_weighs_what_the_bar_does() -> None:
    cone = taper_mass(0.4, diameter=D, head_diameter=D, density=7850.0, bore=0.01)
    bar = bar_mass(length=0.4, diameter=D, density=7850.0, bore=0.01)

    assert cone == pytest.approx(bar, rel=1e-14)


def test_cone_to_a_point_is_a_third_of_its_cylinder() -> None:
    point = taper_mass(3.0, diameter=0.0, head_diameter=2.0, density=1.0)

    assert point == pytest.approx(math.pi, rel=1e-15)


@given(head=HEADS, share=st.floats(0.1, 0.9))
def test_masses_of_the_parts_of_a_cone_add(head: float, share: float) -> None:
    middle = D * (1.0 + share * (head - 1.0))
    steel = {"density": 7850.0, "bore": 0.008}
    near = taper_mass(0.04 * share, diameter=D, head_diameter=middle, **steel)
    far = taper_mass(0.04 * (1.0 - share), diameter=middle, head_diameter=head * D, **steel)
    whole = taper_mass(0.04, diameter=D, head_diameter=head * D, **steel)

    assert near + far == pytest.approx(whole, rel=1e-12)


# -- Stepped bars ---------------------------------------------------------------------

LENGTHS = [0.012, 0.030, 0.900, 0.045, 0.015]
STARTS = [0.034, 0.034, 0.025, 0.025, 0.038]
ENDS = [0.034, 0.025, 0.025, 0.038, 0.038]
BORED = [0.010, 0.008, 0.008, 0.0, 0.012]


def test_stepped_bar_is_its_pieces_added_up() -> None:
    body = {"diameter": D, "bore": 0.008}
    added = (
        equivalent_length(0.012, head_diameter=0.034, **body)
        + taper_equivalent_length(0.030, head_diameter=0.034, **body)
        + 0.900
        + taper_equivalent_length(0.045, head_diameter=0.038, **body)
        + equivalent_length(0.015, head_diameter=0.038, **body)
    )
    whole = stepped_equivalent_length(
        lengths=LENGTHS, start_diameters=STARTS, end_diameters=ENDS, bores=0.008, **body
    )

    assert whole == pytest.approx(float(added), rel=1e-12)


def test_stepped_bar_of_cylinders_is_springs_in_series() -> None:
    lengths, diameters, bores = [0.4, 0.7, 0.2], [0.022, 0.026, 0.040], [0.0, 0.006, 0.020]
    length = stepped_equivalent_length(
        lengths=lengths, start_diameters=diameters, end_diameters=diameters, bores=bores, diameter=D
    )
    rates = [
        torsional_rate(diameter=out, bore=bore, active_length=piece, shear_modulus=MODULUS)
        for piece, out, bore in zip(lengths, diameters, bores, strict=True)
    ]

    assert torsional_rate(diameter=D, active_length=length, shear_modulus=MODULUS) == pytest.approx(
        float(series_rate(*rates)), rel=1e-13
    )


def test_pieces_and_body_are_solid_unless_told() -> None:
    pieces: dict[str, Any] = {
        "lengths": [1.0, 2.0],
        "start_diameters": [D, D],
        "end_diameters": [D, D],
    }
    bored = stepped_equivalent_length(bores=0.0, bore=0.0, diameter=2.0 * D, **pieces)

    assert stepped_equivalent_length(diameter=2.0 * D, **pieces) == bored
    assert bored == pytest.approx(48.0, rel=1e-14)
    assert stepped_mass(density=1.0, **pieces) == pytest.approx(
        3.0 * math.pi / 4.0 * D**2, rel=1e-14
    )


def test_mass_of_a_stepped_bar_is_that_of_its_pieces() -> None:
    added = sum(
        float(taper_mass(length, diameter=start, head_diameter=end, density=7850.0, bore=bore))
        for length, start, end, bore in zip(LENGTHS, STARTS, ENDS, BORED, strict=True)
    )
    whole = stepped_mass(
        lengths=LENGTHS, start_diameters=STARTS, end_diameters=ENDS, density=7850.0, bores=BORED
    )

    assert whole == pytest.approx(added, rel=1e-14)


def test_columns_of_stepped_bars_are_those_bars_one_by_one() -> None:
    longer = np.array(LENGTHS) + np.array([[0.0], [0.1]])  # two bars of five pieces
    shape: dict[str, Any] = {"start_diameters": STARTS, "end_diameters": ENDS, "bores": BORED}
    body = {"diameter": np.array([0.024, 0.025]), "bore": np.array([0.0, 0.008])}
    lengths = np.asarray(stepped_equivalent_length(lengths=longer, **shape, **body))
    masses = np.asarray(stepped_mass(lengths=longer, density=np.array([7850.0, 7800.0]), **shape))

    assert lengths.shape == masses.shape == (2,)
    assert lengths[1] == stepped_equivalent_length(
        lengths=longer[1], diameter=0.025, bore=0.008, **shape
    )
    assert masses[1] == stepped_mass(lengths=longer[1], density=7800.0, **shape)


# -- Columns --------------------------------------------------------------------------

CONE = {
    "length": 0.04 * ROW,
    "diameter": D * COLUMN,
    "head_diameter": 0.034 * ROW,
    "bore": 0.008 * COLUMN,
}
CALLS: dict[str, Call] = {
    "equivalent_length": (equivalent_length, CONE),
    "taper_equivalent_length": (taper_equivalent_length, CONE),
    "taper_mass": (taper_mass, {**CONE, "density": 7850.0 * ROW}),
}


@pytest.mark.parametrize("name", sorted(CALLS))
def test_a_grid_holds_what_its_places_give_alone(name: str) -> None:
    assert_a_grid_is_its_places(CALLS[name])


def test_a_head_is_solid_unless_told() -> None:
    cone = {"diameter": 1.0, "head_diameter": 2.0}

    assert equivalent_length(16.0, **cone) == pytest.approx(1.0, rel=1e-15)
    assert taper_equivalent_length(24.0, **cone) == pytest.approx(7.0, rel=1e-14)
    assert taper_mass(12.0, density=1.0, **cone) == pytest.approx(7.0 * math.pi, rel=1e-15)


@pytest.mark.parametrize("name", transitions.__all__)
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(transitions, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
    assert kinds.count(inspect.Parameter.KEYWORD_ONLY) >= 1

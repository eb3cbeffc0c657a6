"""Laws of `barwright.mechanics.bar.transitions`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.bar import transitions
from barwright.mechanics.bar.torsion import bar_mass, torsional_rate
from barwright.mechanics.bar.transitions import (
    equivalent_length,
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


def test_a_column_of_solid_cones_is_those_cones() -> None:
    heads = np.array([0.021, 0.026, 0.033])
    column = taper_equivalent_length(0.02, diameter=0.02, head_diameter=heads)

    for found, head in zip(np.asarray(column), heads, strict=True):
        alone = taper_equivalent_length(0.02, diameter=0.02, head_diameter=float(head))
        assert found == pytest.approx(alone, rel=1e-13)

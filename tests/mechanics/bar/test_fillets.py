"""Laws and refusals of `barwright.mechanics.bar.fillets`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.bar import fillets
from barwright.mechanics.bar.fillets import (
    fillet_equivalent_length,
    fillet_length,
    fillet_mass,
    fillet_plane_length,
    fillet_stress_concentration,
)
from barwright.mechanics.bar.torsion import bar_mass
from kernel_grids import COLUMN, ROW, Call, assert_a_grid_is_its_places

D = 0.025
HEADS = st.floats(1.02, 2.0)
RADII = st.floats(0.02, 2.0)


def shape(head: float, radius: float) -> dict[str, float]:
    return {"diameter": D, "head_diameter": head * D, "fillet_radius": radius * D}


# -- Shape ----------------------------------------------------------------------------


@given(head=HEADS, radius=RADII)
def test_fillet_ends_on_its_circle_at_the_head_or_at_its_own_radius(
    head: float, radius: float
) -> None:
    length, step = float(fillet_length(**shape(head, radius))), (head - 1.0) * D / 2.0
    r = radius * D
    out = r - math.sqrt(max(0.0, r**2 - length**2))  # of the circle, above the body

    assert out == pytest.approx(min(step, r), rel=1e-6)
    assert length <= r * (1.0 + 1e-15)


def test_fillet_up_to_the_height_of_the_step_is_a_quarter_of_a_circle() -> None:
    assert fillet_length(diameter=1.0, head_diameter=1.4, fillet_radius=0.1) == 0.1
    assert fillet_length(diameter=1.0, head_diameter=1.4, fillet_radius=0.2) == pytest.approx(0.2)
    assert fillet_length(diameter=1.0, head_diameter=1.4, fillet_radius=1.0) == pytest.approx(0.6)


def test_without_a_step_there_is_no_fillet() -> None:
    assert fillet_length(diameter=D, head_diameter=D, fillet_radius=0.01) == 0.0
    assert fillet_mass(diameter=D, head_diameter=D, fillet_radius=0.01, density=7850.0) == 0.0


def test_quarter_of_a_circle_weighs_what_guldin_says() -> None:
    # A square of the radius less the quarter disc, whose centroid is 4 r / 3π from its centre.
    r, base = 0.5, 1.0
    quarter = math.pi / 4.0 * r**2
    block = math.pi * (base / 2.0 + r) ** 2 * r
    hollow = 2.0 * math.pi * (base / 2.0 + r - 4.0 * r / (3.0 * math.pi)) * quarter
    mass = fillet_mass(diameter=base, head_diameter=2.0, fillet_radius=r, density=2.0)

    assert mass == pytest.approx(2.0 * (block - hollow), rel=1e-13)


@given(head=HEADS, radius=RADII, bore=st.floats(0.0, 1.0))
def test_mass_lies_between_those_of_body_and_head_and_loses_its_bore(
    head: float, radius: float, bore: float
) -> None:
    length = float(fillet_length(**shape(head, radius)))
    steel = {"density": 7850.0, "length": length}
    solid = float(fillet_mass(density=7850.0, **shape(head, radius)))
    bored = float(fillet_mass(density=7850.0, bore=bore * D, **shape(head, radius)))
    core = float(bar_mass(diameter=bore * D, **steel))

    assert bar_mass(diameter=D, **steel) <= solid <= bar_mass(diameter=head * D, **steel)
    assert bored + core == pytest.approx(solid, rel=1e-12)


# -- Twist and stress -----------------------------------------------------------------


@given(head=HEADS, radius=RADII, bore=st.floats(0.0, 0.5), scale=st.floats(0.1, 10.0))
def test_fillet_of_another_size_is_the_same_fillet(
    head: float, radius: float, bore: float, scale: float
) -> None:
    large = {key: scale * value for key, value in shape(head, radius).items()}
    length = fillet_equivalent_length(bore=bore * D, **shape(head, radius))

    assert fillet_equivalent_length(bore=scale * bore * D, **large) == pytest.approx(
        scale * float(length), rel=1e-11
    )
    assert fillet_stress_concentration(**large) == pytest.approx(
        float(fillet_stress_concentration(**shape(head, radius))), rel=1e-11
    )


@given(head=HEADS, sharp_radius=st.floats(0.02, 1.8), blunter=st.floats(1.1, 3.0))
def test_sharper_fillet_concentrates_more_stress(
    head: float, sharp_radius: float, blunter: float
) -> None:
    sharp, blunt = shape(head, sharp_radius), shape(head, min(2.0, sharp_radius * blunter))

    assert 1.0 < fillet_stress_concentration(**blunt) < fillet_stress_concentration(**sharp)


def slice_by_slice(head: float, radius: float, bore: float) -> float:
    """Equivalent length by plane sections, in 20 000 slices along the arc."""
    step = (head - 1.0) * D / 2.0
    angle = math.acos(max(0.0, 1.0 - step / (radius * D)))
    edges = np.linspace(0.0, angle, 20_001)
    middle = (edges[1:] + edges[:-1]) / 2.0
    local = D + 2.0 * radius * D * (1.0 - np.cos(middle))
    share = (1.0 - bore**4) * D**4 / (local**4 - (bore * D) ** 4)
    return float(np.sum(share * radius * D * np.diff(np.sin(edges))))


@pytest.mark.parametrize(("head", "radius"), [(1.36, 0.1), (1.2, 1.6), (1.8, 0.4), (1.3, 0.15)])
def test_bore_takes_its_share_from_what_plane_sections_leave_out(
    head: float, radius: float
) -> None:
    def left_out(bore: float) -> float:
        length = fillet_equivalent_length(bore=bore * D, **shape(head, radius))
        return float(length) - slice_by_slice(head, radius, bore)

    assert 0.0 < left_out(0.0) < 0.125 * D
    assert left_out(0.4) == pytest.approx(left_out(0.0) * (1.0 - 0.4**4), rel=1e-5)


def test_fit_gives_what_it_gave() -> None:
    # Worked out from the printed coefficients by hand: at a radius of 0.2 body diameters
    # and of the step's height all powers but the zeroth are gone.
    meeting = {"diameter": 1.0, "head_diameter": 1.4, "fillet_radius": 0.2}
    plane = float(fillet_equivalent_length(**meeting)) - math.exp(-3.15249)

    assert fillet_stress_concentration(**meeting) == pytest.approx(1.0 + math.exp(-1.50751))
    assert plane == pytest.approx(slice_by_slice(1.4, 0.2, 0.0) / D, rel=1e-7)


# -- Refusals -------------------------------------------------------------------------

REMEDY = "choose another fillet, or compute this one by finite elements"
SOLID = {"diameter": 1.0, "head_diameter": 1.4, "fillet_radius": 0.1}
BEYOND = [
    ("head_diameter", 1.01, "1.01", "1.02 to 2"),
    ("head_diameter", 2.01, "2.01", "1.02 to 2"),
    ("head_diameter", math.nan, "nan", "1.02 to 2"),
    ("fillet_radius", 0.019, "0.019", "0.02 to 2"),
    ("fillet_radius", 2.1, "2.1", "0.02 to 2"),
    ("fillet_radius", math.nan, "nan", "0.02 to 2"),
    ("fillet_radius", np.array([0.1, 0.01, 3.0]), "0.01", "0.02 to 2"),
]


@pytest.mark.parametrize(("key", "value", "shown", "limits"), BEYOND)
@pytest.mark.parametrize("kernel", [fillet_equivalent_length, fillet_stress_concentration])
def test_fillet_beyond_the_fit_is_refused(
    kernel: Callable[..., object], key: str, value: float, shown: str, limits: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        kernel(**(SOLID | {key: value}))

    assert str(caught.value) == (
        f'Q302: {key}: got "{shown} of the body\'s diameter", expected {limits} of it; {REMEDY}'
    )


@pytest.mark.parametrize(("bore", "shown"), [(0.51, "0.51"), (-0.1, "-0.1"), (math.nan, "nan")])
def test_bore_beyond_the_fit_is_refused(bore: float, shown: str) -> None:
    with pytest.raises(QuantityError) as caught:
        fillet_equivalent_length(bore=bore * D, **shape(1.4, 0.1))

    assert str(caught.value) == (
        f'Q302: bore: got "{shown} of the body\'s diameter", expected 0 to 0.5 of it; {REMEDY}'
    )


@pytest.mark.parametrize(
    ("key", "value", "shown", "expected"),
    [
        ("head_diameter", 0.9, "0.9", "1 or more"),
        ("head_diameter", math.nan, "nan", "1 or more"),
        ("fillet_radius", 0.0, "0", "more than 0"),
        ("fillet_radius", -0.2, "-0.2", "more than 0"),
        ("fillet_radius", math.nan, "nan", "more than 0"),
    ],
)
def test_what_is_no_fillet_is_refused(key: str, value: float, shown: str, expected: str) -> None:
    calls: list[Callable[..., object]] = [
        fillet_length,
        lambda **given: fillet_mass(density=7850.0, **given),
    ]
    for call in calls:
        with pytest.raises(QuantityError) as caught:
            call(**(SOLID | {key: value}))
        assert str(caught.value) == (
            f'Q302: {key}: got "{shown} of the body\'s diameter", expected {expected} of it; '
            f"{REMEDY}"
        )


@pytest.mark.parametrize("head", [1.02, 2.0])
@pytest.mark.parametrize("radius", [0.02, 2.0])
def test_limits_themselves_are_inside_in_spite_of_rounding(head: float, radius: float) -> None:
    for scale in (1.0, 0.017, 0.0233):
        sized = {
            "diameter": scale,
            "head_diameter": scale * head,
            "fillet_radius": radius * scale,
        }
        assert fillet_equivalent_length(bore=0.5 * scale, **sized) > 0.0
        assert fillet_stress_concentration(**sized) > 1.0


# -- Columns --------------------------------------------------------------------------

GRID = {"diameter": D * COLUMN, "head_diameter": 0.034 * COLUMN, "fillet_radius": 0.006 * ROW}
CALLS: dict[str, Call] = {
    "fillet_length": (fillet_length, GRID),
    "fillet_mass": (fillet_mass, {**GRID, "density": 7850.0 * ROW, "bore": 0.008 * COLUMN}),
    "fillet_plane_length": (fillet_plane_length, {**GRID, "bore": 0.008 * ROW}),
    "fillet_equivalent_length": (fillet_equivalent_length, {**GRID, "bore": 0.008 * ROW}),
    "fillet_stress_concentration": (fillet_stress_concentration, GRID),
}


@pytest.mark.parametrize("name", sorted(CALLS))
def test_a_grid_holds_what_its_places_give_alone(name: str) -> None:
    assert_a_grid_is_its_places(CALLS[name])


@pytest.mark.parametrize("name", fillets.__all__)
def test_all_arguments_go_by_name(name: str) -> None:
    assert name in CALLS
    kernel: Callable[..., object] = getattr(fillets, name)
    kinds = {parameter.kind for parameter in inspect.signature(kernel).parameters.values()}

    assert kinds == {inspect.Parameter.KEYWORD_ONLY}

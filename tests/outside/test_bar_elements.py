"""Bars, cones and fillets against engines: chains, frames, meshed fields, solids."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.bar.fillets import (
    fillet_equivalent_length,
    fillet_stress_concentration,
)
from barwright.mechanics.bar.torsion import polar_second_moment, series_rate, torsional_rate
from barwright.mechanics.bar.transitions import (
    equivalent_length,
    taper_equivalent_length,
)
from draws import draws
from outside.rows.fillets import concentration_by_pilkey
from outside.shafts import Round, folded_twist
from rare_cases import rarely_after
from shaft_fe import Fillet, coned_shaft, filleted_shaft, stressed_shaft

G = 78e9

# -- Chains and frames ----------------------------------------------------------------


@settings(max_examples=draws(10))
@given(bar=st.floats(0.018, 0.032), wall=st.floats(0.002, 0.006), share=st.floats(0.2, 1.0))
def test_bar_in_a_tube_that_runs_back_turns_as_the_frame_does(
    bar: float, wall: float, share: float
) -> None:
    tube = {"diameter": 0.048, "bore": 0.048 - 2.0 * wall}
    whole = series_rate(
        torsional_rate(diameter=bar, active_length=1.0, shear_modulus=G),
        torsional_rate(active_length=share, shear_modulus=G, **tube),
    )
    twist = folded_twist(
        Round(1.0, float(polar_second_moment(diameter=bar))),
        Round(share, float(polar_second_moment(**tube))),
        torque=800.0,
        shear_modulus=G,
    )

    assert 800.0 / whole == pytest.approx(twist, rel=1e-6)


# -- Cones ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("head", "length", "bore"),
    [(1.4, 1.2, 0.0), (1.4, 0.5, 0.0), (1.4, 0.2, 0.0), (2.0, 1.0, 0.0), (1.1, 0.3, 0.0)],
)
def test_cone_lies_between_its_two_bounds(head: float, length: float, bore: float) -> None:
    cone = taper_equivalent_length(length, diameter=1.0, head_diameter=head, bore=bore)
    plain = 1.5 + equivalent_length(1.5 * head, diameter=1.0, head_diameter=head, bore=bore)
    whole = coned_shaft(
        lengths=[1.5, length, 1.5 * head], diameters=[1.0, 1.0, head, head], bore=bore
    )
    slope = (head - 1.0) / 2.0 / length

    assert 1.0 < (whole - plain) / cone < 1.0 + 2.0 / 3.0 * slope**2


def test_cone_of_ten_degrees_is_two_percent_softer_at_most() -> None:
    assert 2.0 / 3.0 * math.tan(math.radians(10.0)) ** 2 == pytest.approx(0.02, abs=0.001)


def test_steps_half_a_diameter_apart_do_not_feel_each_other() -> None:
    def whole(gap: float) -> float:
        return coned_shaft(
            lengths=[2.0, 0.3, gap, 0.3, 2.0], diameters=[1.4, 1.4, 1.0, 1.0, 1.4, 1.4]
        )

    added = equivalent_length(2.5, diameter=1.4, head_diameter=1.0)
    assert whole(3.0) - whole(0.5) == pytest.approx(added, abs=1e-4)


def test_field_of_a_plain_tube_is_its_length() -> None:
    assert coned_shaft(lengths=[2.0], diameters=[1.0, 1.0], bore=0.4) == pytest.approx(2.0)


# -- Fillets --------------------------------------------------------------------------

# Head and radius in body diameters, none of them in the fit: the corners of its range,
# quarter circles up to the head, and what bars have.
FILLETS = [
    (1.02, 0.02),
    (1.02, 2.0),
    (2.0, 0.02),
    (2.0, 2.0),
    (1.05, 0.4),
    (1.13, 0.065),
    (1.221, 0.1253),
    (1.25, 1.4),
    (1.36, 0.1),
    (1.36, 0.18),
    (1.5, 0.03),
    (1.6, 0.7),
    (1.711, 0.4077),
    (1.9, 0.24),
]


@pytest.mark.parametrize(("head", "radius"), FILLETS)
def test_fillet_twists_as_its_field_does(head: float, radius: float) -> None:
    field = filleted_shaft(Fillet(diameter=1.0, head_diameter=head, radius=radius))
    shape = {"diameter": 1.0, "head_diameter": head, "fillet_radius": radius}

    assert fillet_equivalent_length(**shape) == pytest.approx(field.equivalent_length, abs=5e-4)
    assert fillet_stress_concentration(**shape) == pytest.approx(field.peak, rel=3e-3)


@pytest.mark.parametrize("bore", rarely_after(1, [0.25, 0.5]))
@pytest.mark.parametrize(("head", "radius"), FILLETS)
def test_bored_fillet_twists_as_its_field_does(head: float, radius: float, bore: float) -> None:
    field = filleted_shaft(Fillet(diameter=1.0, head_diameter=head, radius=radius, bore=bore))
    shape = {"diameter": 1.0, "head_diameter": head, "fillet_radius": radius}
    length = fillet_equivalent_length(bore=bore, **shape)

    assert length == pytest.approx(field.equivalent_length, abs=2e-3)
    assert 0.997 < fillet_stress_concentration(**shape) / field.peak < 1.03


def test_plane_sections_leave_out_a_third_of_a_sharp_fillet() -> None:
    # 25 to 34 mm, radius 2.5 mm: 2.15 mm by plane sections, 3.36 mm by finite elements.
    field = filleted_shaft(Fillet(diameter=25.0, head_diameter=34.0, radius=2.5))
    angle = (np.arange(4000) + 0.5) / 4000 * math.pi / 2.0
    local = 25.0 + 5.0 * (1.0 - np.cos(angle))
    advance = 2.5 * np.diff(np.sin(np.linspace(0.0, math.pi / 2.0, 4001)))
    plane = np.sum(equivalent_length(advance, diameter=25.0, head_diameter=local))

    assert plane == pytest.approx(2.15, abs=0.005)
    assert field.equivalent_length == pytest.approx(3.36, abs=0.005)


@pytest.mark.parametrize("bore", [0.0, 12.5])
@pytest.mark.parametrize(("head", "radius"), [(34.0, 2.5), (30.0, 40.0), (27.0, 1.0)])
def test_field_and_stress_function_close_in_on_the_same_shaft(
    head: float, radius: float, bore: float
) -> None:
    fillet = Fillet(diameter=25.0, head_diameter=head, radius=radius, bore=bore)
    below, above = filleted_shaft(fillet), stressed_shaft(fillet)

    assert below.equivalent_length < above.equivalent_length
    assert above.equivalent_length == pytest.approx(below.equivalent_length, abs=2e-4 * 25.0)
    assert above.peak == pytest.approx(below.peak, rel=1.5e-3)


def test_finer_mesh_changes_the_field_far_less_than_the_fit_is_off() -> None:
    fillet = Fillet(diameter=1.0, head_diameter=1.3, radius=0.05)
    coarse, fine = (filleted_shaft(fillet, cells=cells) for cells in (12, 48))

    assert coarse.equivalent_length == pytest.approx(fine.equivalent_length, abs=5e-6)
    assert coarse.peak == pytest.approx(fine.peak, rel=1e-3)
    assert coarse.equivalent_length < fine.equivalent_length


@settings(max_examples=draws(60))
@given(head=st.floats(1.02, 2.0), ratio=st.floats(0.25, 4.0))
def test_concentration_is_that_of_the_published_curve(head: float, ratio: float) -> None:
    # Pilkey's curve, from memory, holds for steps of 0.25 to 4 radii.
    step = (head - 1.0) / 2.0
    radius = min(max(step / ratio, 0.02), 2.0)
    if not 0.25 <= step / radius <= 4.0:
        return
    published = concentration_by_pilkey(step=step, radius=radius, head_diameter=head)
    ours = fillet_stress_concentration(diameter=1.0, head_diameter=head, fillet_radius=radius)

    assert ours == pytest.approx(published, rel=0.05)

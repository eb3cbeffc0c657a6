"""Involute splines against the formulas of three standards, and against rack and string.

The coefficients were read in a reproduction of ISO 4156 / ANSI B92.2M and ANSI B92.1.
It prints no worked sizes, so the lengths here are its formulas worked by hand; they hold
the coefficients, not the geometry.  DIN 5480 is from memory, with one designation.  What
geometry there is has a route of its own: the straight-sided rack that rolls on the pitch
circle, and the string that leaves the base circle.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
import scipy.optimize
import sympy
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import involute_inch as inch
from barwright.mechanics.spline import involute_reference as reference
from barwright.mechanics.spline.involute import (
    angular_pitch,
    base_diameter,
    circular_tooth_thickness,
    module_of,
    pitch_diameter,
    tooth_thickness_at,
)
from barwright.mechanics.spline.involute_metric import (
    RootForm,
    external_major_diameter,
    external_minor_diameter,
    internal_major_diameter,
)
from involute_string import polar_angle
from rare_cases import rarely_after
from spline_outlines import Rack, arc_inside, cut_spline, greatest_radius, least_radius

FORMS = list(RootForm)
TEETH = st.integers(20, 80)
MODULES = st.floats(0.25e-3, 5e-3)

# 40 teeth, module 0.5 mm: D_EI,min, D_EE,max, D_IE,max [mm], worked by hand.
METRIC = {
    "flat root, 30°": (20.75, 20.5, 19.25),
    "fillet root, 30°": (20.9, 20.5, 19.1),
    "fillet root, 37.5°": (20.7, 20.45, 19.3),
    "fillet root, 45°": (20.6, 20.4, 19.4),
}

# Teeth, diametral pitch, D_o, D_ri, D_i, D_re [in], worked by hand.
INCH = [
    (30, 10, 3.1, 3.18, 2.9, 2.82),
    (30, 12, 31 / 12, 2.65, 29 / 12, 2.35),
    (36, 16, 2.3125, 2.3625, 2.1875, 2.125),
    (40, 32, 1.28125, 1.30625, 1.21875, 1.1875),
]


def test_every_form_is_in_the_table() -> None:
    assert [form.value for form in FORMS] == list(METRIC)


@pytest.mark.parametrize("form", FORMS)
def test_metric_diameters_have_the_tabulated_coefficients(form: RootForm) -> None:
    spline = {"teeth": 40, "module": 0.5e-3}
    internal_major, external_major, external_minor = METRIC[form.value]

    assert internal_major_diameter(**spline, root_form=form) * 1e3 == pytest.approx(internal_major)
    assert external_major_diameter(**spline, root_form=form) * 1e3 == pytest.approx(external_major)
    assert external_minor_diameter(**spline, root_form=form) * 1e3 == pytest.approx(external_minor)


@pytest.mark.parametrize("row", INCH, ids=lambda row: f"{row[0]} teeth {row[1]}/{2 * row[1]}")
def test_inch_diameters_have_the_tabulated_coefficients(row: tuple[float, ...]) -> None:
    spline = {"teeth": row[0], "diametral_pitch": row[1] / 0.0254}

    assert inch.external_major_diameter(**spline) / 0.0254 == pytest.approx(row[2])
    assert inch.internal_major_diameter(**spline) / 0.0254 == pytest.approx(row[3])
    assert inch.internal_minor_diameter(**spline) / 0.0254 == pytest.approx(row[4])
    assert inch.external_minor_diameter(**spline) / 0.0254 == pytest.approx(row[5])


@given(teeth=TEETH, per_inch=st.floats(2.5, 12.0))
def test_inch_standard_and_metric_standard_agree_on_the_fillet_root(
    teeth: int, per_inch: float
) -> None:
    # Two tables, read apart: with m = 1/P they give the same three diameters.
    spline = {"teeth": teeth, "diametral_pitch": per_inch / 0.0254}
    form = RootForm.FILLET_30

    def metric(diameter: Callable[..., Real]) -> float:
        return float(diameter(teeth=teeth, module=0.0254 / per_inch, root_form=form))

    major = inch.external_major_diameter(**spline)
    socket_major = inch.internal_major_diameter(**spline)
    minor = inch.external_minor_diameter(**spline)
    assert major == pytest.approx(metric(external_major_diameter), rel=1e-13)
    assert socket_major == pytest.approx(metric(internal_major_diameter), rel=1e-13)
    assert minor == pytest.approx(metric(external_minor_diameter), rel=1e-13)


@pytest.mark.parametrize("form", FORMS)
@given(teeth=TEETH, module=MODULES)
def test_base_circle_touches_the_normal_to_the_flank_of_a_rack(
    form: RootForm, teeth: int, module: float
) -> None:
    # A rack's flank leans by the pressure angle; where it crosses the pitch line above the
    # centre, force runs along its normal, and that line touches the base circle.
    radius = float(pitch_diameter(teeth=teeth, module=module)) / 2.0
    flank = np.array([math.sin(form.pressure_angle), math.cos(form.pressure_angle)])
    normal = np.array([flank[1], -flank[0]])
    to_centre = np.array([0.0, -radius])
    distance = abs(normal[0] * to_centre[1] - normal[1] * to_centre[0])
    base = base_diameter(teeth=teeth, module=module, pressure_angle=form.pressure_angle)

    assert base / 2.0 == pytest.approx(distance, rel=1e-13)


@pytest.mark.parametrize("form", FORMS)
def test_string_off_the_base_circle_crosses_the_pitch_circle_at_the_pressure_angle(
    form: RootForm,
) -> None:
    # The end of a string unwound from the base circle; its direction by differentiation.
    teeth, module = 40, 0.75e-3
    base = base_diameter(teeth=teeth, module=module, pressure_angle=form.pressure_angle) / 2.0
    pitch = pitch_diameter(teeth=teeth, module=module) / 2.0
    t = sympy.Symbol("t", positive=True)
    on_circle = sympy.Matrix([sympy.cos(t), sympy.sin(t)])
    end = on_circle - t * on_circle.diff(t)
    place = sympy.lambdify(t, list(end))
    direction = sympy.lambdify(t, list(end.diff(t)))

    unwound = scipy.optimize.brentq(
        lambda at: float(base * np.hypot(*place(at)) - pitch), 0.0, 3.0, xtol=1e-15
    )
    along, radial = np.array(direction(unwound)), np.array(place(unwound))
    cosine = float(along @ radial / np.linalg.norm(along) / np.linalg.norm(radial))
    assert math.acos(cosine) == pytest.approx(form.pressure_angle, rel=1e-10)


@pytest.mark.parametrize("form", FORMS)
@given(teeth=TEETH, module=MODULES)
def test_arc_of_the_base_circle_from_tooth_to_tooth_is_the_racks_normal_pitch(
    form: RootForm, teeth: int, module: float
) -> None:
    # Square to its flanks, a rack's teeth of pitch 2t lie 2t cos α apart; so do involutes.
    base = base_diameter(teeth=teeth, module=module, pressure_angle=form.pressure_angle)
    rack_pitch = 2.0 * circular_tooth_thickness(module)

    assert base / 2.0 * angular_pitch(teeth) == pytest.approx(
        rack_pitch * math.cos(form.pressure_angle), rel=1e-13
    )


@given(teeth=TEETH, module=MODULES)
def test_teeth_and_equal_spaces_fill_the_pitch_circle(teeth: int, module: float) -> None:
    around = math.pi * pitch_diameter(teeth=teeth, module=module)

    assert 2 * teeth * circular_tooth_thickness(module) == pytest.approx(around, rel=1e-13)


@pytest.mark.parametrize("form", FORMS)
def test_flanks_do_not_meet_before_the_tabulated_tips_and_roots(form: RootForm) -> None:
    # The rack of module 1: half a tooth is π/4 at the pitch line and loses tan α a unit of depth.
    tip = (external_major_diameter(teeth=40, module=1.0, root_form=form) - 40.0) / 2.0
    root = (40.0 - external_minor_diameter(teeth=40, module=1.0, root_form=form)) / 2.0

    for depth in (tip, root):
        assert circular_tooth_thickness(1.0) / 2.0 > depth * math.tan(form.pressure_angle)


@pytest.mark.parametrize(("teeth", "degrees"), [(39, 9.231), (42, 8.571)])
def test_one_tooth_turns_by_an_even_share_of_the_circle(teeth: int, degrees: float) -> None:
    # Worked by hand.
    assert math.degrees(angular_pitch(teeth)) == pytest.approx(degrees, abs=0.0005)


def test_module_of_an_inch_pitch_spreads_the_teeth_over_the_same_circle() -> None:
    # 24 teeth to an inch of pitch diameter: one inch across. Definition, from memory.
    assert pitch_diameter(teeth=24, module=module_of(24 / 0.0254)) == pytest.approx(0.0254)


# -- Cut with a rolling rack -------------------------------------------------------------

# Depths of the racks in modules, of the tips that cut the roots, and the angle [deg].
REACH = {
    RootForm.FLAT_30: 0.75,
    RootForm.FILLET_30: 0.9,
    RootForm.FILLET_37_5: 0.7,
    RootForm.FILLET_45: 0.6,
}


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("teeth", rarely_after(1, [20, 33]))
def test_tooth_cut_with_a_rolling_rack_is_as_thick_as_the_involute_says(
    form: RootForm, teeth: int
) -> None:
    angle = form.pressure_angle
    rack = Rack(pressure_angle=math.degrees(angle), reach=REACH[form], addendum=0.4)
    outline = cut_spline(teeth, 1.0, rack)
    tooth = {"teeth": teeth, "module": 1.0, "pressure_angle": angle}

    # From half way to the roots up to the tips; deeper, the rack's corner leaves a fillet.
    for beyond in (-0.5, 0.0, 0.5, 0.79):
        circle = teeth + beyond
        found = tooth_thickness_at(circle, tooth_thickness=math.pi / 2.0, **tooth)
        assert found == pytest.approx(arc_inside(outline, circle) / teeth, rel=3e-6)


@pytest.mark.parametrize("form", FORMS)
def test_tooth_between_two_unwound_strings_is_as_thick_as_the_involute_says(
    form: RootForm,
) -> None:
    tooth = {"teeth": 40, "module": 0.75, "pressure_angle": form.pressure_angle}
    base = float(base_diameter(**tooth))
    at_pitch = polar_angle(30.0 / base)
    for circle in (29.2, 30.0, 30.7):
        expected = circle * (1.2 / 30.0 - (polar_angle(circle / base) - at_pitch))
        found = tooth_thickness_at(circle, tooth_thickness=1.2, **tooth)
        assert found == pytest.approx(expected, rel=1e-10)


# -- DIN 5480, from memory ---------------------------------------------------------------


def test_reference_spline_w_30_1_25_22() -> None:
    size = {"reference_diameter": 30.0, "module": 1.25}

    assert reference.external_major_diameter(**size) == pytest.approx(29.75, rel=1e-14)
    assert reference.internal_minor_diameter(**size) == pytest.approx(27.5, rel=1e-14)
    assert reference.external_minor_diameter(**size) == pytest.approx(27.25, rel=1e-14)
    assert reference.addendum_modification(teeth=22, **size) == pytest.approx(0.45, rel=1e-12)


@pytest.mark.parametrize(("circle", "module", "teeth"), [(30.0, 1.25, 22), (45.0, 2.0, 21)])
def test_rack_that_is_moved_out_cuts_the_reference_spline(
    circle: float, module: float, teeth: int
) -> None:
    size = {"reference_diameter": circle, "module": module}
    shift = float(reference.addendum_modification(teeth=teeth, **size))
    rack = Rack(pressure_angle=30.0, reach=0.55, addendum=0.45, shift=shift)
    outline = cut_spline(teeth, module, rack)
    tooth = {"teeth": teeth, "module": module, "pressure_angle": reference.PRESSURE_ANGLE}
    at_pitch = reference.pitch_tooth_thickness(teeth=teeth, **size)

    assert 2.0 * least_radius(outline) == pytest.approx(reference.external_minor_diameter(**size))
    assert 2.0 * greatest_radius(outline) == pytest.approx(
        reference.external_major_diameter(**size)
    )
    for inside in (1.6, 1.0, 0.3):
        here = circle - inside * module
        found = tooth_thickness_at(here, tooth_thickness=at_pitch, **tooth)
        assert found == pytest.approx(arc_inside(outline, here) / teeth, rel=3e-6)

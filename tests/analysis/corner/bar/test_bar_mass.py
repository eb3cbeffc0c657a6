"""The mass of a bar, by solids of revolution that are added up by hand."""

from __future__ import annotations

import math

import attrs
import pytest

import barwright as bw
from sample_records import known, make_bar, make_end

DENSITY = 7850.0


def cylinder(length: float, diameter: float, bore: float = 0.0) -> float:
    """Mass of a cylinder [kg], its sizes in millimetres."""
    return math.pi / 4.0 * (diameter**2 - bore**2) * length * 1e-9 * DENSITY


def weighed(bar: bw.parts.Bar) -> bw.Quantity | None:
    steel = attrs.evolve(bar.material, density="7850 kg/m**3")
    return bw.bar_rate(attrs.evolve(bar, material=steel)).mass


def test_a_bar_is_its_body_its_cones_and_its_heads() -> None:
    bar = make_bar(diameter="24 mm", bore="6 mm")
    total = 0.0
    for end in (bar.arm_end, bar.anchor_end):
        tips, root = end.major_diameter.m_as("mm"), end.root_diameter.m_as("mm")
        total += cylinder(37.0, (tips + root) / 2.0, 6.0)
        # A frustum is three cones' worth of its two circles and their mean.
        mean = math.sqrt((24.0**2 + 24.0 * root + root**2) / 3.0)
        total += cylinder(20.0, mean, 6.0)
    total += cylinder(904.0 - 2.0 * 57.0, 24.0, 6.0)

    assert known(weighed(bar)).m_as("kg") == pytest.approx(total, rel=1e-12)


def test_a_nose_counts_with_its_own_diameter_or_that_over_the_teeth() -> None:
    plain, thick, thin = (
        known(weighed(make_bar(arm_end=make_end(39, **nose)))).m_as("kg")
        for nose in ({}, {"nose": "12 mm"}, {"nose": "12 mm", "nose_diameter": "20 mm"})
    )

    assert thick - plain == pytest.approx(cylinder(12.0, 30.0))
    assert thin - plain == pytest.approx(cylinder(12.0, 20.0))


def test_a_fillet_weighs_less_than_a_cylinder_of_its_head() -> None:
    sharp, fillet = (
        known(weighed(make_bar(arm_end=make_end(39, taper="0 mm", **round_)))).m_as("kg")
        for round_ in ({}, {"fillet_radius": "6 mm"})
    )
    # A head that is thinner than the body leaves no fillet.
    none = weighed(make_bar(diameter="28.5 mm", arm_end=make_end(39, taper="0 mm")))
    bare = weighed(
        make_bar(diameter="28.5 mm", arm_end=make_end(39, taper="0 mm", fillet_radius="6 mm"))
    )

    assert 0.0 < fillet - sharp < cylinder(6.0, 28.125) - cylinder(6.0, 23.3)
    assert none == bare


def test_without_a_density_nothing_is_said_and_without_a_size_it_is_unknown() -> None:
    assert bw.bar_rate(make_bar()).mass is None
    assert str(weighed(make_bar(length="unknown"))) == "unknown"
    assert "mass" not in bw.text(bw.bar_rate(make_bar()))
    steel = attrs.evolve(make_bar().material, density="7850 kg/m**3")
    assert "mass" in bw.text(bw.bar_rate(make_bar(material=steel)))

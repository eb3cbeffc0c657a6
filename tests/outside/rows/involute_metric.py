"""Rows of `barwright.mechanics.involute_metric`: splines cut with the basic racks of the standard.

The reproduction of ISO 4156 / ANSI B92.2M that was read prints formulas and no sizes.
Their coefficients are twice the depths of a rack; what such a rack cuts is measured.
"""

from __future__ import annotations

import functools
import math

from shapely import Polygon

from barwright.mechanics.involute_metric import (
    RootForm,
    external_major_diameter,
    external_minor_diameter,
    internal_major_diameter,
)
from spline_outlines import Rack, cut_spline, greatest_radius, least_radius
from validation import Flag, Row

# Pressure angle [deg], and in modules from the pitch line to roots and to tips.
RACKS = {
    RootForm.FLAT_30: Rack(pressure_angle=30.0, reach=0.75, addendum=0.5),
    RootForm.FILLET_30: Rack(pressure_angle=30.0, reach=0.9, addendum=0.5),
    RootForm.FILLET_37_5: Rack(pressure_angle=37.5, reach=0.7, addendum=0.45),
    RootForm.FILLET_45: Rack(pressure_angle=45.0, reach=0.6, addendum=0.4),
}


@functools.cache
def bar(form: RootForm) -> Polygon:
    """Outline [mm] of a bar of 40 teeth, module 0.75 mm."""
    return cut_spline(40, 0.75, RACKS[form])


@functools.cache
def hole(form: RootForm) -> Polygon:
    """Outline [mm] of the spaces of its socket: teeth as long as its roots are deep."""
    rack = RACKS[form]
    angle, depth = rack.pressure_angle, rack.reach
    return cut_spline(40, 0.75, Rack(pressure_angle=angle, reach=rack.addendum, addendum=depth))


def rows_of(form: RootForm) -> list[Row]:
    """Three diameters and the angle of one form."""
    spline = {"teeth": 40.0, "module": 0.75}
    rack = RACKS[form]
    angle, tips, roots = rack.pressure_angle, rack.addendum, rack.reach
    depths = f"{tips:g} m to the tips, {roots:g} m to the roots"
    cut = f"shapely, cut with a rolling rack of {angle:g}°, {depths}"
    given = f"40 teeth, module 0.75 mm, {form.value}"
    return [
        Row(
            of="involute_metric.external_major_diameter",
            source=f"{cut}: over the bar",
            given=given,
            unit="mm",
            expected=lambda: 2.0 * greatest_radius(bar(form)),
            got=lambda: float(external_major_diameter(root_form=form, **spline)),
            within=1e-6,
            flag=Flag.ENGINE,
        ),
        Row(
            of="involute_metric.external_minor_diameter",
            source=f"{cut}: at the bar's roots",
            given=given,
            unit="mm",
            expected=lambda: 2.0 * least_radius(bar(form)),
            got=lambda: float(external_minor_diameter(root_form=form, **spline)),
            within=1e-6,
            flag=Flag.ENGINE,
        ),
        Row(
            of="involute_metric.internal_major_diameter",
            source=f"{cut}: at the socket's roots",
            given=given,
            unit="mm",
            expected=lambda: 2.0 * greatest_radius(hole(form)),
            got=lambda: float(internal_major_diameter(root_form=form, **spline)),
            within=1e-6,
            flag=Flag.ENGINE,
        ),
        Row(
            of="involute_metric.RootForm.pressure_angle",
            source="ISO 4156 / ANSI B92.2M, table of formulas, in a reproduction",
            given=form.value,
            unit="°",
            expected=angle,
            got=lambda: math.degrees(form.pressure_angle),
            within=1e-12,
        ),
    ]


ROWS = [row for form in RootForm for row in rows_of(form)]

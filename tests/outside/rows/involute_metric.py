"""Rows of `barwright.mechanics.spline.involute_metric`: the printed formulas, worked by hand.

The reproduction of ISO 4156 / ANSI B92.2M that was read prints formulas and no sizes: D = mZ for
the pitch diameter, and for each form how many modules lie between it and the others.  A row
shows that such a formula was copied right, and no more.
"""

from __future__ import annotations

import math

from barwright.mechanics.spline.involute_metric import (
    RootForm,
    external_major_diameter,
    external_minor_diameter,
    internal_major_diameter,
)
from validation import Kind, Row

TABLE = "ISO 4156 / ANSI B92.2M, table of formulas, in a reproduction"

# The angle [deg]; printed formulas of D_EE,max, D_IE,max and D_EI,min, and what they give for 40
# teeth of module 0.75 mm [mm], by hand.
PRINTED = {
    RootForm.FLAT_30: (
        30.0,
        ("m(Z + 1)", 30.75),
        ("m(Z − 1.5)", 28.875),
        ("m(Z + 1.5)", 31.125),
    ),
    RootForm.FILLET_30: (
        30.0,
        ("m(Z + 1)", 30.75),
        ("m(Z − 1.8)", 28.65),
        ("m(Z + 1.8)", 31.35),
    ),
    RootForm.FILLET_37_5: (
        37.5,
        ("m(Z + 0.9)", 30.675),
        ("m(Z − 1.4)", 28.95),
        ("m(Z + 1.4)", 31.05),
    ),
    RootForm.FILLET_45: (
        45.0,
        ("m(Z + 0.8)", 30.6),
        ("m(Z − 1.2)", 29.1),
        ("m(Z + 1.2)", 30.9),
    ),
}


def own(place: int, form: RootForm) -> float:
    """One of three diameters of a form [mm]."""
    kernel = (external_major_diameter, external_minor_diameter, internal_major_diameter)[place]
    return float(kernel(teeth=40.0, module=0.75, root_form=form))


def rows_of(form: RootForm) -> list[Row]:
    """Three diameters and the angle of one form."""
    angle, *diameters = PRINTED[form]
    names = ("external_major_diameter", "external_minor_diameter", "internal_major_diameter")
    return [
        *(
            Row(
                of=f"involute_metric.{name}",
                source=f"{TABLE}: {formula}, by hand",
                given=f"40 teeth, module 0.75 mm, {form.value}",
                unit="mm",
                expected=diameter,
                got=lambda place=place: own(place, form),  # type: ignore[misc]
                within=1e-9,
                kind=Kind.REPRODUCED,
            )
            for place, (name, (formula, diameter)) in enumerate(zip(names, diameters, strict=True))
        ),
        Row(
            of="involute_metric.RootForm.pressure_angle",
            source=TABLE,
            given=form.value,
            unit="°",
            expected=angle,
            got=lambda: math.degrees(form.pressure_angle),
            within=1e-12,
            kind=Kind.REPRODUCED,
        ),
    ]


ROWS = [row for form in RootForm for row in rows_of(form)]

"""Forms that the spline standards give teeth, with their sizes for a tooth count."""

from __future__ import annotations

import enum
import math
from collections.abc import Iterator

import attrs

from barwright.errors import QuantityError
from barwright.mechanics.spline import involute_inch, involute_metric, involute_reference
from barwright.mechanics.spline.involute import circular_tooth_thickness, module_of
from barwright.mechanics.spline.involute_metric import RootForm
from barwright.mechanics.spline.over_pins import size_over_pins

__all__ = ["SplineStandard", "StandardForm", "standard_forms"]


class SplineStandard(enum.Enum):
    """Where a form of teeth is laid down."""

    METRIC = "ISO 4156"
    REFERENCE = "DIN 5480"
    INCH = "ANSI B92.1"
    SERRATION = "serration with straight flanks of 60°"


@attrs.frozen(kw_only=True)
class StandardForm:
    """Teeth of a shaft to a standard [m, rad].

    Parameters
    ----------
    standard : SplineStandard
        The standard.
    designation : str
        What the standard calls the size.
    root_form : str
        Form of the roots, where the standard has several.
    teeth : int
        Teeth of the whole circle.
    module, pressure_angle, tooth_thickness : float
        Of the flanks; the thickness is that along the pitch circle.
    major_diameter, root_diameter : float
        Greatest diameters over the teeth and at their roots.
    socket_major_diameter : float
        Of the socket that takes it, at the roots of its teeth.
    socket_minor_diameter : float, optional
        Inside the tips of the socket's teeth; none where the standard was not read for it.
    """

    standard: SplineStandard
    designation: str
    root_form: str = ""
    teeth: int
    module: float
    pressure_angle: float
    tooth_thickness: float
    major_diameter: float
    root_diameter: float
    socket_major_diameter: float
    socket_minor_diameter: float | None = None

    def over_pins(self, pin_diameter: float) -> float:
        """Return the size over two pins [m]; not a number if they touch no flanks.

        They must clear the roots and stand out beyond the tips.

        Parameters
        ----------
        pin_diameter : float
            Diameter of the pins [m].

        Returns
        -------
        float
        """
        try:
            size = size_over_pins(
                teeth=self.teeth,
                module=self.module,
                pressure_angle=self.pressure_angle,
                tooth_thickness=self.tooth_thickness,
                pin_diameter=pin_diameter,
            )
        except QuantityError:
            return math.nan
        clears = size > self.major_diameter and size - 2.0 * pin_diameter > self.root_diameter
        return float(size) if clears else math.nan


# Modules of the metric standards [mm], and pitches of the inch standard [1/in], from memory.
_METRIC_MODULES = (0.5, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
_REFERENCE_MODULES = (0.5, 0.6, 0.75, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0)
_PITCHES = (2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 32.0, 40.0, 48.0)
_INCH = 0.0254
_MILLIMETRE = 1e-3
# Teeth on a reference diameter are moved outward by so many modules, from memory.
_LEAST_MOVED, _MOST_MOVED = -0.05 - 1e-9, 0.45 + 1e-9


def standard_forms(teeth: int) -> Iterator[StandardForm]:
    """List the involute forms of all standards for a tooth count.

    Parameters
    ----------
    teeth : int
        Teeth of the whole circle.

    Yields
    ------
    StandardForm
    """
    yield from _metric(teeth)
    yield from _reference(teeth)
    yield from _inch(teeth)


def _metric(teeth: int) -> Iterator[StandardForm]:
    for millimetres in _METRIC_MODULES:
        module = millimetres * _MILLIMETRE
        for root_form in RootForm:
            size = {"teeth": teeth, "module": module, "root_form": root_form}
            yield StandardForm(
                standard=SplineStandard.METRIC,
                designation=f"module {millimetres:g}",
                root_form=root_form.value.partition(",")[0],
                teeth=teeth,
                module=module,
                pressure_angle=root_form.pressure_angle,
                tooth_thickness=float(circular_tooth_thickness(module)),
                major_diameter=float(involute_metric.external_major_diameter(**size)),  # type: ignore[arg-type]
                root_diameter=float(involute_metric.external_minor_diameter(**size)),  # type: ignore[arg-type]
                socket_major_diameter=float(involute_metric.internal_major_diameter(**size)),  # type: ignore[arg-type]
            )


def _reference(teeth: int) -> Iterator[StandardForm]:
    """Give those whose reference diameter is a whole number of millimetres."""
    for millimetres in _REFERENCE_MODULES:
        module = millimetres * _MILLIMETRE
        for diameter in range(math.ceil(millimetres * teeth), math.ceil(millimetres * (teeth + 3))):
            joint = {"reference_diameter": diameter * _MILLIMETRE, "module": module}
            moved = involute_reference.addendum_modification(**joint, teeth=teeth)
            if not _LEAST_MOVED <= moved <= _MOST_MOVED:
                continue
            yield StandardForm(
                standard=SplineStandard.REFERENCE,
                designation=f"W {diameter} × {millimetres:g} × {teeth}",
                teeth=teeth,
                module=module,
                pressure_angle=involute_reference.PRESSURE_ANGLE,
                tooth_thickness=float(
                    involute_reference.pitch_tooth_thickness(**joint, teeth=teeth)
                ),
                major_diameter=float(involute_reference.external_major_diameter(**joint)),
                root_diameter=float(involute_reference.external_minor_diameter(**joint)),
                socket_major_diameter=joint["reference_diameter"],
                socket_minor_diameter=float(involute_reference.internal_minor_diameter(**joint)),
            )


def _inch(teeth: int) -> Iterator[StandardForm]:
    for per_inch in _PITCHES:
        size = {"teeth": teeth, "diametral_pitch": per_inch / _INCH}
        module = float(module_of(per_inch / _INCH))
        yield StandardForm(
            standard=SplineStandard.INCH,
            designation=f"pitch {per_inch:g}/{2.0 * per_inch:g}",
            teeth=teeth,
            module=module,
            pressure_angle=RootForm.FILLET_30.pressure_angle,
            tooth_thickness=float(circular_tooth_thickness(module)),
            major_diameter=float(involute_inch.external_major_diameter(**size)),
            root_diameter=float(involute_inch.external_minor_diameter(**size)),
            socket_major_diameter=float(involute_inch.internal_major_diameter(**size)),
            socket_minor_diameter=float(involute_inch.internal_minor_diameter(**size)),
        )

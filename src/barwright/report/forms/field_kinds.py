"""Kind of every figure of an answer, by the name of its field.

Records say themselves what their figures are; answers are made of figures that are known
to be right, and are asked for it only when one is read from a document.
"""

from __future__ import annotations

from collections.abc import Mapping

from barwright.units import (
    ANGLE,
    DAMPING_RATE,
    ENERGY,
    FORCE,
    FREQUENCY,
    HEIGHT_PER_TURN,
    KINDS,
    LENGTH,
    MASS,
    SHEAR_MODULUS,
    STRESS,
    TORQUE,
    TORSIONAL_RATE,
    TURNS,
    WHEEL_RATE,
    Kind,
    Quantity,
    unit_spelling,
)

__all__ = ["OF_ANY_KIND", "are_of_one_kind", "kind_of"]

_FIELDS: dict[Kind, tuple[str, ...]] = {
    LENGTH: (
        *("common_uncertainty", "deviation", "expected_height", "height_change", "largest"),
        *("own_uncertainty",),
        *("needed_height",),
        # Of a spline's form.
        *("base_diameter", "contact_depth", "module", "over_pins", "pin_diameter"),
        *("pitch_diameter", "socket_major_diameter", "socket_minor_diameter", "tip_clearance"),
        *("tip_thickness", "tooth_thickness"),
        *("active_length", "bare_head", "bump_left", "cap_offset", "damper_length"),
        *("droop_left", "drop", "engaged_span", "engagement", "free_from", "free_to", "height"),
        *(
            "height_offset",
            "height_rounding",
            "height_uncertainty",
            "largest_body",
            "lever_offset",
            "lift",
        ),
        *(
            "measured_height",
            "pin_distance",
            "pin_now",
            "pin_rounding",
            "pin_uncertainty",
            "position",
            "protrusion",
            "reachable_from",
            "reachable_to",
        ),
        *(
            "required",
            "residual_height",
            "stroke_to_closed",
            "stroke_to_open",
            "track_change",
            "travel",
            "wheelbase_change",
        ),
        *("close_enough", "uncut_height", "wanted_height"),
        # Of the drawings.
        *("cap_place", "diameter", "length", "lever_place", "major_diameter", "nose"),
        *("nose_diameter",),
        *("nut_height", "nut_start", "root_diameter", "socket_from", "socket_to"),
        *("unsafe_from", "unsafe_to"),
        *("spline_from", "spline_to", "taper", "thread_diameter", "thread_end", "thread_pitch"),
        *("thread_start", "tube_diameter", "tube_from"),
    ),
    ANGLE: (
        *(
            "arm_angle",
            "body_roll",
            "camber_change",
            "kept_twist",
            "unloading_reserve",
            "unloading_reserve_uncertainty",
            "free_angle",
            "free_angle_change",
        ),
        *("clocking_step", "free_angle_standard_error", "free_angle_uncertainty"),
        *("lever_angle_uncertainty", "key_angle", "datum_angle", "rotation"),
        *("pressure_angle", "twist", "twist_uncertainty"),
    ),
    TURNS: (
        *("correcting_turns", "enough_thread_reserve", "from_slack_end", "nut_turns"),
        *("left_to_lower", "left_to_raise", "thread_reserve"),
        *("turns_left_clockwise", "turns_left_counter_clockwise"),
    ),
    MASS: (
        *("front_transfer", "load", "rear_transfer", "scale_reading", "scale_uncertainty"),
        *("mass", "not_chased", "sprung_mass", "total"),
    ),
    FORCE: (
        "at_bump",
        "at_ride",
        "bolt_at_bump",
        "bolt_at_ride",
        "downward_force",
        "proof_load",
        "side_thrust_at_bump",
        "wheel_load",
    ),
    TORQUE: ("permissible_torque", "residual_torque", "torque"),
    ENERGY: ("energy", "residual_energy"),
    DAMPING_RATE: ("damper_rate",),
    WHEEL_RATE: ("present_rate", "standard_rate", "wheel_rate"),
    TORSIONAL_RATE: (
        *("bar_rate", "bar_rate_uncertainty", "expected_system_rate", "system_rate"),
        *("front_roll_rate", "rear_roll_rate"),
        *("system_rate_standard_error", "system_rate_uncertainty", "tube_rate"),
    ),
    STRESS: (
        "bump_stress",
        *("amplitude", "amplitudes", "greatest", "mean", "means", "ranges", "root_shear"),
        *(
            "residual_stress",
            "shear_stress",
            "stress",
            "stress_at_bump",
            "tooth_bearing",
            "tooth_shear",
            "bolt_thread_shear",
            "nut_thread_shear",
        ),
    ),
    SHEAR_MODULUS: ("shear_modulus", "shear_modulus_tolerance"),
    FREQUENCY: (
        *("bounce_frequency", "front_frequency", "pitch_frequency", "rear_frequency"),
        *("ride_frequency", "roll_frequency", "wheel_hop_frequency"),
    ),
    HEIGHT_PER_TURN: ("height_per_turn",),
}

_BY_NAME: Mapping[str, Kind] = {name: kind for kind, names in _FIELDS.items() for name in names}

OF_ANY_KIND = frozenset(
    (
        *("figure", "limit", "upper", "one", "other", "change", "nominal", "uncertainty"),
        *("low", "high", "value", "half_width", "effect", "step", "tolerance", "usual_error"),
        *("listed", "observed", "target", "within", "written"),
        # What a history covers is a distance or a time.
        *("covers", "longest", "shortest"),
    )
)
"""Fields of what is told of any figure; those of one object are of one kind, an effect left out."""


def kind_of(name: str) -> Kind | None:
    """Return the kind of a figure of an answer.

    Parameters
    ----------
    name : str
        Field of an answer, or of what it holds.

    Returns
    -------
    Kind or None
        None for what may be of any kind.
    """
    return _BY_NAME.get(name)


def are_of_one_kind(figures: list[Quantity]) -> bool:
    """Tell whether there is a kind of which all figures may be.

    Parameters
    ----------
    figures : list of Quantity
        Figures in listed units.

    Returns
    -------
    bool
    """
    units = {unit_spelling(figure) for figure in figures}
    return any(units <= {*kind.units} for kind in KINDS)

"""What pre-setting leaves in a bar, and how far it raises the stress at which the bar yields."""

from __future__ import annotations

from barwright.analysis.corner.bar.active_length import active_length
from barwright.analysis.corner.suspension import metres, radians
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    StressLimit,
    applied_shear_yield,
    pascals,
)
from barwright.mechanics.bar import presetting, torsion
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.parts.bar import Bar
from barwright.units import ANGLE, SHEAR_MODULUS, STRESS, Quantity, quantity, si

__all__ = ["kept_twist", "left_by_presetting", "residual_stress", "yield_limit"]


def residual_stress(bar: Bar, limits: StrengthLimits) -> Quantity | None:
    """Shear stress that pre-setting left at the surface of a bar's body, against its sense.

    Parameters
    ----------
    bar : Bar
        The bar.
    limits : StrengthLimits
        What is known of its strength.

    Returns
    -------
    Quantity, optional
        None unless the twist of pre-setting and the yield stress in shear are known.

    Notes
    -----
    The steel flows without hardening, and the twist is that between fully held heads.

    References
    ----------
    See :mod:`barwright.mechanics.bar.presetting`.
    """
    shear_yield = applied_shear_yield(bar, limits)
    if shear_yield is None:
        return None
    left = left_by_presetting(bar, shear_yield=pascals(shear_yield))
    return None if left is None else quantity(plain(left), STRESS)


def left_by_presetting(bar: Bar, *, shear_yield: Real) -> Real | None:
    """Shear stress [Pa] that pre-setting left at the surface of a bar's body.

    Parameters
    ----------
    bar : Bar
        The bar, or a column of bars.
    shear_yield : float or array
        Its yield stress in shear [Pa].

    Returns
    -------
    float or array, optional
        None unless the twist of pre-setting is known.
    """
    if bar.preset_twist is None:
        return None
    diameter = metres(bar.diameter)
    section: dict[str, Real] = {"diameter": diameter, "shear_yield": shear_yield}
    core = presetting.elastic_core_radius(
        radians(bar.preset_twist),
        active_length=active_length(bar),
        shear_modulus=si(bar.material.shear_modulus, SHEAR_MODULUS),
        **section,
    )
    return presetting.residual_stress(diameter / 2.0, core_radius=core, **section)


def kept_twist(bar: Bar, limits: StrengthLimits, *, torque: float) -> Quantity | None:
    """Twist that a bar keeps for ever after a torque that makes its body yield.

    Parameters
    ----------
    bar : Bar
        The bar.
    limits : StrengthLimits
        What is known of its strength.
    torque : float
        Torque that an elastic bar would carry at that stroke [N·m].

    Returns
    -------
    Quantity, optional
        Of the sign of the torque.  None if the body does not yield, if its yield stress in
        shear is not known, and for a bar that is pre-set or hollow.

    Notes
    -----
    The steel flows without hardening, and the stroke twists the bar as far as an elastic one:
    a torque tube in series, which untwists as the bar gives way, makes the set greater.

    References
    ----------
    See :mod:`barwright.mechanics.bar.presetting`.
    """
    shear_yield = applied_shear_yield(bar, limits)
    if shear_yield is None or bar.preset or bar.bore is not None:
        return None
    sizes = {
        "diameter": metres(bar.diameter),
        "active_length": active_length(bar),
        "shear_modulus": si(bar.material.shear_modulus, SHEAR_MODULUS),
    }
    twist = torsion.twist_from_torque(torque, **sizes)
    kept = presetting.permanent_twist(twist, **sizes, shear_yield=pascals(shear_yield))
    return quantity(float(kept), ANGLE) if float(kept) else None


def yield_limit(bar: Bar, limits: StrengthLimits, *, against: bool) -> StressLimit | None:
    """Shear stress under load at which the surface of a bar's body yields.

    Parameters
    ----------
    bar : Bar
        The bar.
    limits : StrengthLimits
        What is known of its strength.
    against : bool
        Whether the load twists the bar against the sense of its pre-setting.

    Returns
    -------
    StressLimit, optional
        That of the steel unless the twist of pre-setting is known: then higher in the
        sense of pre-setting, and lower against it, by the stress that is left.
    """
    shear_yield = applied_shear_yield(bar, limits)
    left = None if bar.preset_twist is None else residual_stress(bar, limits)
    if shear_yield is None or left is None:
        return shear_yield
    how = "lowered" if against else "raised"
    return StressLimit(
        stress=shear_yield.stress + left if against else shear_yield.stress - left,
        source=f"{shear_yield.source}, {how} by pre-setting",
    )

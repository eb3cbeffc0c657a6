"""The shear stress in the fillets between a bar's body and its heads."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.corner.suspension import metres
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.rates import RateFigures
from barwright.analysis.strength.strength_limits import StressLimit, pascals
from barwright.mechanics.bar import fillets
from barwright.parts.bar import Bar
from barwright.parts.chassis import BarEndName
from barwright.parts.spline import BarEnd
from barwright.units import STRESS, Quantity, quantity, si

__all__ = ["FilletStress", "fillet_findings", "fillet_stresses"]


@attrs.frozen(kw_only=True)
class FilletStress:
    """The greatest shear stress in the fillet between a bar's body and a head.

    How much of it a bar feels over its life depends on the steel, so no factor is made of
    it.

    Parameters
    ----------
    end : BarEndName
        Which end.
    concentration : float
        Greatest shear stress in the fillet, over that at the surface of the body.
    greatest : Quantity
        At the greatest torque of the travel, either way, as if the steel stayed elastic.
    amplitude : Quantity, optional
        The same of the swing about ride height; none unless a travel was given.
    """

    end: BarEndName
    concentration: float
    greatest: Quantity
    amplitude: Quantity | None


def fillet_stresses(
    bar: Bar, rated: RateFigures, *, amplitude: Quantity | None
) -> tuple[FilletStress, ...]:
    """Stresses in the fillets of a bar, of whose ends some may have a cone instead.

    Parameters
    ----------
    bar : Bar
        The bar.
    rated : RateFigures
        The corner, whose stresses at full droop and at full bump count.
    amplitude : Quantity, optional
        Of the shear stress of the body, if a travel was given.

    Returns
    -------
    tuple of FilletStress
    """
    greatest = max(abs(si(state.shear_stress, STRESS)) for state in (rated.droop, rated.bump))
    ends = ((BarEndName.ARM, bar.arm_end), (BarEndName.ANCHOR, bar.anchor_end))
    return tuple(
        FilletStress(
            end=name,
            concentration=factor,
            greatest=quantity(factor * greatest, STRESS),
            amplitude=None if amplitude is None else factor * amplitude,
        )
        for name, end in ends
        if end.fillet_radius is not None
        for factor in [_concentration(bar, end)]
    )


def _concentration(bar: Bar, end: BarEnd) -> float:
    factor = fillets.fillet_stress_concentration(
        diameter=metres(bar.diameter),
        head_diameter=metres(end.root_diameter),
        fillet_radius=metres(end.fillet_radius),
    )
    return float(factor)


def fillet_findings(
    stresses: tuple[FilletStress, ...], *, shear_yield: StressLimit | None
) -> Iterator[Finding]:
    """Say in which fillets the steel yields, which by itself does not fail a bar.

    Parameters
    ----------
    stresses : tuple of FilletStress
        Of the bar.
    shear_yield : StressLimit, optional
        Of its steel.

    Yields
    ------
    Finding
    """
    for one in stresses:
        if shear_yield and si(one.greatest, STRESS) > pascals(shear_yield):
            text = (
                f"the steel yields at the surface of the fillet at the {one.end.value} "
                f"({shear_yield.source}): the body around it holds, but cracks start there"
            )
            yield Finding(
                topic=Topic.STRESS,
                text=text,
                figure=one.greatest,
                limit=shear_yield.stress,
                end=one.end,
            )

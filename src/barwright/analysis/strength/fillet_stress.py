"""The shear stress in the fillets between a bar's body and its heads."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.corner.bar.fillets import fillets_of
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    applied_shear_yield,
    pascals,
)
from barwright.parts.bar import Bar
from barwright.parts.chassis import BarEndName
from barwright.parts.common.in_short import Summarised
from barwright.units import STRESS, Quantity, quantity

__all__ = ["FilletStress", "fillet_stresses", "yielding_fillets"]


@attrs.frozen(kw_only=True, repr=False)
class FilletStress(Summarised):
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
    bar: Bar, *, greatest: float, amplitude: float | None = None
) -> tuple[FilletStress, ...]:
    """Stresses in the fillets of a bar, as far as their concentration is known.

    Parameters
    ----------
    bar : Bar
        The bar.
    greatest : float
        Shear stress of the body [Pa], the greatest of the travel either way.
    amplitude : float, optional
        Of that stress about ride height [Pa], if a travel was given.

    Returns
    -------
    tuple of FilletStress
    """
    return tuple(
        FilletStress(
            end=fillet.end,
            concentration=factor,
            greatest=quantity(factor * greatest, STRESS),
            amplitude=None if amplitude is None else quantity(factor * amplitude, STRESS),
        )
        for fillet in fillets_of(bar)
        for factor in [fillet.concentration]
        if factor is not None
    )


def yielding_fillets(bar: Bar, limits: StrengthLimits, *, greatest: float) -> Iterator[Finding]:
    """Say in which fillets the steel yields; pre-setting has already made it do so.

    Parameters
    ----------
    bar : Bar
        The bar.
    limits : StrengthLimits
        What is known of its strength.
    greatest : float
        Shear stress of the body [Pa], the greatest of the travel either way.

    Yields
    ------
    Finding
    """
    shear_yield = applied_shear_yield(bar, limits)
    if bar.preset or shear_yield is None:
        return
    for one in fillet_stresses(bar, greatest=greatest):
        if one.concentration * greatest > pascals(shear_yield):
            yield Finding(
                topic=Topic.STRESS,
                text=f"the steel yields in the fillet ({shear_yield.source}): cracks start there",
                figure=one.greatest,
                limit=shear_yield.stress,
                end=one.end,
            )

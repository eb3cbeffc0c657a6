"""How a weighed vehicle stands after turns of its nuts, with the ± of each figure."""

from __future__ import annotations

import functools
from collections.abc import Sequence

import attrs

from barwright.analysis.balancing.balance_answer import WheelOnScale
from barwright.analysis.balancing.standing import StandingVehicle
from barwright.analysis.balancing.weighed_vehicle import WeighedVehicle
from barwright.analysis.tolerance.figures import toleranced_figures
from barwright.analysis.tolerance.shifted_answers import AskedQuestion, at_both_ends, uncertainty
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.balance import cross_weight
from barwright.mechanics.vehicle.vehicle import CORNERS, Array
from barwright.units import LENGTH, MASS, Quantity, quantity

__all__ = ["AfterTurning", "after_turning"]


@attrs.frozen(kw_only=True)
class _Four:
    """A figure of each wheel."""

    front_left: Quantity
    front_right: Quantity
    rear_left: Quantity
    rear_right: Quantity


@attrs.frozen(kw_only=True)
class _Stands:
    """How the vehicle stands after one set of turns.

    The cross weight is a share; it is held as a mass for the engine of ±, which takes quantities.
    """

    loads: _Four
    heights: _Four
    diagonal: Quantity


@attrs.frozen(kw_only=True)
class AfterTurning:
    """The vehicle after turns of its nuts.

    Parameters
    ----------
    scales : tuple of WheelOnScale
        All wheels.
    cross_weight, cross_uncertainty : float
        Share of the front right and rear left wheels, and its ±.
    """

    scales: tuple[WheelOnScale, ...]
    cross_weight: float
    cross_uncertainty: float


def after_turning(weighed: WeighedVehicle, turned: Sequence[Array]) -> list[AfterTurning]:
    """Say how a vehicle stands after turns of its nuts, and how surely.

    Parameters
    ----------
    weighed : WeighedVehicle
        The vehicle.
    turned : sequence of array
        Sets of turns from where the nuts are, of those that can be turned.

    Returns
    -------
    list of AfterTurning
        For each set of turns. Each ± is that of every figure in the records, by the one engine.
    """
    asked = AskedQuestion.of(functools.partial(_stands, turned=turned), weighed)
    changes, _ = at_both_ends(asked, toleranced_figures(weighed, {}))
    spread = dict(zip(asked.nominal, uncertainty(changes).tolist(), strict=True))
    return [
        AfterTurning(
            scales=tuple(
                _wheel(weighed, corner, asked.nominal, spread, after=f"after_{number}")
                for corner in CORNERS
            ),
            cross_weight=float(asked.nominal[f"after_{number}.diagonal"].m_as("kg")),
            cross_uncertainty=spread[f"after_{number}.diagonal"],
        )
        for number in range(len(turned))
    ]


def _wheel(
    weighed: WeighedVehicle,
    corner: str,
    nominal: dict[str, Quantity],
    spread: dict[str, float],
    *,
    after: str,
) -> WheelOnScale:
    name = corner.replace(" ", "_")
    known = weighed.wheel(corner).height is not None
    height, load = f"{after}.heights.{name}", f"{after}.loads.{name}"
    return WheelOnScale(
        corner=corner,
        scale_reading=nominal[load],
        scale_uncertainty=spread[load] * nominal[load].units,
        height=nominal[height] if known else None,
        height_uncertainty=spread[height] * nominal[height].units if known else None,
    )


def _stands(weighed: WeighedVehicle, *, turned: Sequence[Array]) -> attrs.AttrsInstance:
    """Find how the vehicle stands after each set of turns; its springs are made once."""
    standing = StandingVehicle(weighed)
    # Several aims often come to the same turns.
    different = {tuple(one.tolist()): one for one in turned}
    after = {turns: _after(standing, one) for turns, one in different.items()}
    stands = {f"after_{number}": after[tuple(one.tolist())] for number, one in enumerate(turned)}
    made: attrs.AttrsInstance = attrs.make_class("Stands", list(stands))(**stands)
    return made


def _after(standing: StandingVehicle, turned: Array) -> _Stands:
    stance = standing.rest(standing.turns + turned).stance
    masses = stance.loads / STANDARD_GRAVITY
    return _Stands(
        loads=_Four(**_named([quantity(float(one), MASS) for one in masses])),
        heights=_Four(**_named([quantity(float(one), LENGTH) for one in stance.heights])),
        diagonal=quantity(float(cross_weight(stance.loads)), MASS),
    )


def _named(figures: list[Quantity]) -> dict[str, Quantity]:
    return {corner.replace(" ", "_"): one for corner, one in zip(CORNERS, figures, strict=True)}

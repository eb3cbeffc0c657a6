"""A row of the matrix: one bar on one corner of one vehicle."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from typing import Any, TypeAlias

import attrs

from barwright.analysis.answer import Verdict
from barwright.parts.common.in_short import Summarised
from barwright.units import (
    FREQUENCY,
    LENGTH,
    STRESS,
    TORSIONAL_RATE,
    WHEEL_RATE,
    Kind,
    Quantity,
    quantity_of_unit,
    shown,
)

__all__ = ["COLUMNS", "FIGURES", "FITTING", "FamilyRow", "PlainRow", "blank_row", "row_of"]

PlainRow: TypeAlias = dict[str, Any]
"""A row as text, numbers and truth values: figures in the unit that answers use first."""

FITTING = frozenset({Verdict.FITS, Verdict.FITS_WITH_CHANGES})
"""Verdicts of a bar that goes in."""

_LIVING = frozenset({Verdict.HOLDS, Verdict.BELOW_YIELD})


@attrs.frozen(kw_only=True, repr=False)
class FamilyRow(Summarised):
    """One bar on one corner of one vehicle, with that corner's other parts as they are.

    Parameters
    ----------
    vehicle_id, vehicle_title : str
        The vehicle.
    corner : str
        Axle and side, as in "front left".
    bar_id, bar_title : str
        The bar.
    is_standard : bool
        Whether the corner has this bar in standard trim.
    fit : Verdict, optional
        Fits, fits with changes, does not fit, or needs more figures.
    changes : tuple of str
        What must be changed so that it fits.
    reason : str
        Why it does not fit, or what must be known to say whether it does.
    height : Quantity, optional
        Hub to arch, at which the rates hold.
    rates : Verdict, optional
        Rated, does not fit, cannot be reached, or needs more figures.
    bar_rate, system_rate : Quantity, optional
        Torsional rate of the bar, and of bar and tube in series.
    wheel_rate : Quantity, optional
        Rate at the wheel at that height.
    wheel_rate_change : float, optional
        Its change in per cent of the rate with the vehicle's standard bar.
    ride_frequency : Quantity, optional
        Of the sprung mass, with the tyre in series.
    bump_stress : Quantity, optional
        Shear stress of the body at full bump.
    strength : Verdict, optional
        Strong enough, below yield, overstressed, or not known; or why there are no stresses.
    clocking : Verdict, optional
        Whether a clocking brings the height, if that was asked for.
    arm_tooth, anchor_tooth : int, optional
        Teeth on the keys by the plan to prefer, in the bump sense from the maker's blank.
    cuts : int, optional
        Teeth that this plan removes.
    error_code, error_text : str
        With which error a question ended; empty if with none.
    """

    vehicle_id: str
    vehicle_title: str
    corner: str
    bar_id: str
    bar_title: str
    is_standard: bool = False
    fit: Verdict | None = None
    changes: tuple[str, ...] = ()
    reason: str = ""
    height: Quantity | None = None
    rates: Verdict | None = None
    bar_rate: Quantity | None = None
    system_rate: Quantity | None = None
    wheel_rate: Quantity | None = None
    wheel_rate_change: float | None = None
    ride_frequency: Quantity | None = None
    bump_stress: Quantity | None = None
    strength: Verdict | None = None
    clocking: Verdict | None = None
    arm_tooth: int | None = None
    anchor_tooth: int | None = None
    cuts: int | None = None
    error_code: str = ""
    error_text: str = ""

    @property
    def fits(self) -> bool:
        """Whether the bar goes in, with or without changes."""
        return self.fit in FITTING

    @property
    def is_offered(self) -> bool:
        """Whether the bar goes in and its stress at full bump stays below every known limit."""
        return self.fits and self.strength in _LIVING

    def _in_short(self) -> str:
        """Show the bar, the corner, and what becomes of them."""
        rate = "" if self.wheel_rate is None else f", {shown(self.wheel_rate, 1)} at the wheel"
        verdict = self.error_text if self.fit is None else self.fit.value
        return f"{self.bar_title} on {self.vehicle_title}, {self.corner}: {verdict}{rate}"


COLUMNS: tuple[str, ...] = tuple(field.name for field in attrs.fields(FamilyRow))
"""Names of the columns, in their order."""

FIGURES: Mapping[str, Kind] = {
    "height": LENGTH,
    "bar_rate": TORSIONAL_RATE,
    "system_rate": TORSIONAL_RATE,
    "wheel_rate": WHEEL_RATE,
    "ride_frequency": FREQUENCY,
    "bump_stress": STRESS,
}
"""Columns of figures with a unit, each with its kind."""

_VERDICTS = ("fit", "rates", "strength", "clocking")


def blank_row(**known: object) -> PlainRow:
    """Return a row of which only the given columns are known.

    Parameters
    ----------
    **known : object
        Plain values by the names of their columns.

    Returns
    -------
    dict
    """
    defaults = {
        field.name: _plain(None if field.default is attrs.NOTHING else field.default)
        for field in attrs.fields(FamilyRow)
    }
    return defaults | {name: _plain(value) for name, value in known.items()}


def _plain(value: object) -> object:
    """Return a value without its class: a number in the unit that answers use first."""
    if isinstance(value, enum.Enum):
        return value.value
    if isinstance(value, tuple):
        return list(value)
    return getattr(value, "magnitude", value)


def row_of(plain: Mapping[str, Any]) -> FamilyRow:
    """Return a row with quantities and verdicts.

    Parameters
    ----------
    plain : mapping of str to object
        The plain row.

    Returns
    -------
    FamilyRow
    """
    figures = {
        name: None if plain[name] is None else quantity_of_unit(plain[name], kind.units[0])
        for name, kind in FIGURES.items()
    }
    verdicts = {name: None if plain[name] is None else Verdict(plain[name]) for name in _VERDICTS}
    changes = {"changes": tuple(plain["changes"])}
    return FamilyRow(**{**plain, **figures, **verdicts, **changes})

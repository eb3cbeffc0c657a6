"""What a job file says was measured of a corner, as readings and as heights to count from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import attrs

from barwright.errors import BarwrightError, QuantityError, SchemaError
from barwright.parts.common.source import About, Figure
from barwright.parts.load import Load
from barwright.parts.setup import Reading, Setup
from barwright.registry.jobs.keys import WantedKeys
from barwright.units import LENGTH, Quantity, is_unknown, quantity, shown, si

__all__ = [
    "MOST_READINGS",
    "Measured",
    "as_read",
    "height_changed",
    "not_measured",
    "reading",
    "readings_of_no_side",
    "wrong_count",
]

MOST_READINGS = 12
"""Readings of one corner: every plan is computed anew for both ends of each ± in them."""


@attrs.frozen(kw_only=True)
class Measured:
    """What was measured of a corner at one time, and under what load if not that of the job."""

    figures: Mapping[str, Figure]
    load: Load | None
    key: str


def reading(now: Setup, measured: Measured) -> Reading:
    """Return what was measured of a corner as it is now."""
    load = now.load if measured.load is None else measured.load
    try:
        figures = {name: figure.value for name, figure in measured.figures.items()}
        there = attrs.evolve(now, load=load)
        return Reading(setup=there, about=About(measured.figures), **figures)
    except BarwrightError as error:
        error.key = "scale_reading" if error.key == "load.mass" else error.key
        raise error.within(key=measured.key) from None


def as_read(now: Setup) -> Setup:
    """Let the nut be where the one reading found it, unless the job says where it is."""
    read = now.reading
    is_said = not is_unknown(now.nut_turns) or now.pin_distance is not None
    if is_said or read is None or now.further_readings:
        return now
    there = read.corner
    return attrs.evolve(now, nut_turns=there.nut_turns, pin_distance=there.pin_distance)


def height_changed(measured: Figure, wish: WantedKeys) -> Quantity:
    """Return the height that is so much lower or higher than the one that was measured."""
    lowered, raised = (
        0.0 if change is None else si(change, LENGTH) for change in (wish.lower_by, wish.raise_by)
    )
    stood = si(measured.value, LENGTH)
    if lowered >= stood:
        raise QuantityError(
            "Q302",
            value=shown(quantity(lowered, LENGTH)),
            expected=f"less than the measured height of {shown(measured.value)}",
            remedy="check its unit; the height that is wanted goes into height",
            key="wanted.lower_by",
        )
    return quantity(stood - lowered + raised, LENGTH)


def not_measured(wish: WantedKeys, heights: Sequence[Figure | None]) -> SchemaError:
    """Return the refusal of a change where no height was measured that it counts from."""
    key = "raise_by" if wish.lower_by is None else "lower_by"
    return SchemaError(
        "S207",
        value=key,
        expected="one measured height to count from",
        remedy="write the wanted height itself, as height"
        if heights
        else "measure hub to arch as the vehicle stands, and write it as [measured] height",
        key=f"wanted.{key}",
    )


def readings_of_no_side() -> SchemaError:
    """Return the refusal of several readings that do not say of which side they are."""
    return SchemaError(
        "S203",
        value="several readings",
        expected="a table for one reading of each corner, or several readings of each side",
        remedy="write [[measured.left]] or [[measured.right]] above each reading",
        key="measured",
    )


def wrong_count(count: int, *, key: str) -> SchemaError:
    """Return the refusal of a list with no reading, or with too many."""
    return SchemaError(
        "S203",
        value=f"{count} readings",
        expected=f"1 to {MOST_READINGS} readings of a corner",
        remedy="keep those under the most different loads"
        if count
        else "write [[measured.left]] or [[measured.right]] above each reading",
        key=key,
    )

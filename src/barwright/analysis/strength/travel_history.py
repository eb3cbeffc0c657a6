"""What the wheel goes through: recorded travels, or a spectrum of strokes."""

from __future__ import annotations

from collections.abc import Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.corner import metres
from barwright.analysis.strength.numbers import above_zero, share
from barwright.errors import QuantityError, SchemaError
from barwright.mechanics.strength.spectra import straight_line_spectrum
from barwright.parts.common.fields import FigureLike, named
from barwright.parts.common.in_short import Summarised
from barwright.units import (
    DISTANCE,
    LENGTH,
    TIME,
    ArrayWithUnit,
    Quantity,
    is_quantity,
    to_kind,
)

__all__ = ["AskedHistory", "TravelSpectrum", "asked_history", "usual_travel"]


def _covered(value: FigureLike) -> Quantity:
    """Accept a distance, or else a time."""
    try:
        return to_kind(value, DISTANCE, key="", allowed="positive")
    except QuantityError as error:
        if error.code == "Q302":
            raise
        return to_kind(value, TIME, key="", allowed="positive")


def _shares(values: Sequence[float]) -> tuple[float, ...]:
    return tuple(share(value) for value in values)


def _counts(values: Sequence[float]) -> tuple[float, ...]:
    return tuple(above_zero(value) for value in values)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class TravelSpectrum(Summarised):
    """How often the wheel goes through strokes of which size, in no order.

    A stroke of a share goes from that share of the travel that is left to full droop to the
    same share of the travel that is left to full bump, and back.

    Parameters
    ----------
    stroke_shares : tuple of float
        Sizes of the strokes, above 0, at most 1.
    stroke_counts : tuple of float
        How many of each.
    covers : Quantity
        Distance or time in which they happen.
    source : str
        Where they come from.
    """

    stroke_shares: tuple[float, ...] = attrs.field(converter=_shares)
    stroke_counts: tuple[float, ...] = attrs.field(converter=_counts)
    covers: Quantity = attrs.field(converter=_covered)
    source: str

    def __attrs_post_init__(self) -> None:
        """Refuse strokes without a number, and numbers without a stroke."""
        if len(self.stroke_shares) != len(self.stroke_counts) or not self.stroke_shares:
            raise SchemaError(
                "S207",
                value=f"{len(self.stroke_counts)} counts of {len(self.stroke_shares)} strokes",
                expected="a count for each stroke",
                remedy="give as many counts as shares",
                key="stroke_counts",
            )


def usual_travel() -> TravelSpectrum:
    """Strokes of a usual road: a convention to compare bars by, which nobody has measured.

    Of 100 000 strokes in 1000 km one goes from full droop to full bump, and the number that
    reaches a size falls in a straight line in logarithms.

    Returns
    -------
    TravelSpectrum

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> road = usual_travel()
    >>> print(round(sum(road.stroke_counts)), "strokes in", road.covers)
    100000 strokes in 1000.0 kilometer
    """
    shares, counts = straight_line_spectrum(strokes=_STROKES, classes=_CLASSES)
    return TravelSpectrum(
        stroke_shares=shares.tolist(),
        stroke_counts=counts.tolist(),
        covers="1000 km",
        source=f"a usual road: of {_STROKES:.0f} strokes in 1000 km one goes from full droop to "
        "full bump (common practice, no source)",
    )


# Of 1000 km at some 60 km/h and 1.7 strokes a second.
_STROKES = 1e5
_CLASSES = 20


# -- What is asked ---------------------------------------------------------------------------


@attrs.frozen(eq=False)
class AskedHistory:
    """A history as :func:`~barwright.analysis.strength.strength.strength` is given it.

    Parameters
    ----------
    given : array or TravelSpectrum
        Travels of the hub from ride height [m], in the order of time, bump positive; or strokes.
    covers : Quantity, optional
        Distance or time of one run; none if that is not said.
    """

    given: NDArray[np.float64] | TravelSpectrum
    covers: Quantity | None

    @property
    def travels(self) -> list[float]:
        """Travels in the order of time [m]; no stroke of a spectrum goes beyond a stop."""
        return [] if isinstance(self.given, TravelSpectrum) else self.given.tolist()

    @property
    def source(self) -> str:
        """Where its cycles come from."""
        return self.given.source if isinstance(self.given, TravelSpectrum) else _COUNTED


_COUNTED = "travels in the order of time, counted by rainflow"


def asked_history(
    history: Sequence[FigureLike] | ArrayWithUnit | TravelSpectrum | None,
    covers: FigureLike | None,
) -> AskedHistory | None:
    """Read a history, and what one run of it covers.

    Parameters
    ----------
    history, covers
        As :func:`~barwright.analysis.strength.strength.strength` is given them.

    Returns
    -------
    AskedHistory, optional
        None without a history.

    Raises
    ------
    BarwrightError
        As there.
    """
    covered = None if covers is None else _read_covers(covers)
    if history is None or isinstance(history, TravelSpectrum):
        if covered is not None:
            raise SchemaError(
                "S207",
                value=str(covers),
                expected="a history of travels in the order of time, one run of which covers that",
                remedy="give such a history too, or leave it out"
                if history is None
                else "leave it out: a spectrum states what it covers",
                key="history_covers",
            )
        return None if history is None else AskedHistory(history, history.covers)
    return AskedHistory(_travels(history), covered)


def _read_covers(value: FigureLike) -> Quantity:
    try:
        return _covered(value)
    except QuantityError as error:
        raise QuantityError(
            error.code,
            value=str(value),
            expected="a distance on the road or a time in use, above zero",
            remedy="write '12 km', '8 mi', '0.5 h' or '1 year'",
            key="history_covers",
        ) from None


def _travels(history: Sequence[FigureLike] | ArrayWithUnit) -> NDArray[np.float64]:
    """Travels of a history [m]."""
    is_list = isinstance(history, Sequence) and not isinstance(history, str | bytes)
    if not (is_list or (is_quantity(history) and np.ndim(history.magnitude) == 1)):
        raise SchemaError(
            "S203",
            value=str(history),
            expected="wheel travels in the order of time",
            remedy="give a list like ['0 mm', '12 mm'], or an array with its unit",
            key="history",
        )
    if is_quantity(history):
        return _of_array(history)
    figures = (to_kind(x, LENGTH, key=f"history[{place}]") for place, x in enumerate(history))
    return np.array([metres(figure) for figure in figures], dtype=np.float64)


def _of_array(history: Quantity | ArrayWithUnit) -> NDArray[np.float64]:
    """Travels of an array [m]; its unit is checked once."""
    unit = to_kind(1.0 * history.units, LENGTH, key="history")
    if np.asarray(history.magnitude).dtype.kind not in "iuf":
        raise QuantityError(
            "Q104",
            value=str(history),
            expected="wheel travels that are real numbers",
            remedy="give an array of real numbers with its unit",
            key="history",
        )
    travels = np.asarray(history.magnitude, dtype=np.float64) * metres(unit)
    wrong = np.flatnonzero(~np.isfinite(travels))
    if wrong.size:
        raise QuantityError(
            "Q301",
            value=str(np.asarray(history.magnitude)[wrong[0]] * history.units),
            expected="a finite number",
            remedy="correct or remove the value there",
            key=f"history[{wrong[0]}]",
        )
    return travels

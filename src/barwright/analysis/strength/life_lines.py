"""Lines of lives: how many cycles of which stress a bar bears, as a caller gives them."""

from __future__ import annotations

import enum

import attrs

from barwright.analysis.strength.numbers import above_zero
from barwright.errors import SchemaError
from barwright.mechanics.strength import histories
from barwright.parts.common.fields import named, stress, stress_or_none
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import CALLER
from barwright.units import STRESS, Quantity, shown, si

__all__ = ["BarSurface", "WoehlerBand", "WoehlerLine"]


class BarSurface(enum.Enum):
    """Surface of a bar's body, from which its lives are estimated."""

    GROUND = "ground"
    MACHINED = "machined"
    HOT_ROLLED = "hot-rolled"
    AS_FORGED = "as-forged"
    ANY = "any"
    """Not stated: the band of lives reaches from the worst surface to the best."""


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class WoehlerLine(Summarised):
    """Life of a bar under fully reversed shear: a straight line in logarithms.

    Parameters
    ----------
    at_stress : Quantity
        Amplitude of a point on the line.
    at_life : float
        Cycles to failure of that point.
    exponent : float
        Slope of the line in logarithms.
    endurance : Quantity, optional
        Amplitude up to which nothing breaks; if left out, the line goes on for
        ever, as befits a history in which larger cycles have started a crack.
    source : str
        Where it comes from; "caller" if that was not said.
    """

    at_stress: Quantity = attrs.field(converter=stress)
    at_life: float = attrs.field(converter=above_zero)
    exponent: float = attrs.field(converter=above_zero)
    endurance: Quantity | None = attrs.field(default=None, converter=stress_or_none)
    source: str = CALLER

    def __attrs_post_init__(self) -> None:
        """Refuse an amplitude that breaks nothing above one that breaks the bar."""
        if self.endurance is not None and self.endurance > self.at_stress:
            raise SchemaError(
                "S207",
                value=shown(self.endurance),
                expected=f"at most the at_stress of {shown(self.at_stress)}",
                remedy="check whether the two were exchanged",
                key="endurance",
            )

    def life_at(self, amplitude: float) -> float:
        """Cycles to failure under one fully reversed amplitude [Pa], without its lower end."""
        life = histories.basquin_life(
            amplitude,
            at_stress=si(self.at_stress, STRESS),
            at_life=self.at_life,
            exponent=self.exponent,
        )
        return float(life)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class WoehlerBand(Summarised):
    """Lives of bars that are alike, as they scatter: of the weakest and of the strongest.

    Parameters
    ----------
    lowest, highest : WoehlerLine
        Lines of the two, such as those that 95 % and 5 % of the bars outlive.
    """

    lowest: WoehlerLine
    highest: WoehlerLine

    def __attrs_post_init__(self) -> None:
        """Refuse lines that were exchanged, by the lives at the point of either."""
        for line in (self.lowest, self.highest):
            amplitude = si(line.at_stress, STRESS)
            weak, strong = self.lowest.life_at(amplitude), self.highest.life_at(amplitude)
            if weak > strong * (1.0 + _ROUNDING):
                raise SchemaError(
                    "S207",
                    value=f"{weak:.3g} cycles at {shown(line.at_stress)}",
                    expected=f"at most the {strong:.3g} cycles of the highest line",
                    remedy="check whether the two lines were exchanged",
                    key="lowest",
                )


_ROUNDING = 1e-9

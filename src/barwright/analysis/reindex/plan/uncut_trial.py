"""The bar tried uncut before a tooth is removed: a turn back is free, a tooth is not."""

from __future__ import annotations

import attrs

from barwright.analysis.reindex.plan.plan import Plan
from barwright.parts.common.in_short import Summarised
from barwright.units import LENGTH, Quantity, quantity, shown, si

__all__ = ["CLOSE_ENOUGH", "UncutTrial", "worth_a_trial"]

CLOSE_ENOUGH = 3e-3
"""How far a height [m] may be off and is left as it is: common practice, no source."""


@attrs.frozen(kw_only=True, repr=False)
class UncutTrial(Summarised):
    """What is tried before a tooth is removed.

    The figures do not know the height so well that they could tell whether a tooth must go.
    The vehicle can: the bar is fitted, or left, uncut, and its height is measured.

    Parameters
    ----------
    plan : Plan
        The trial itself: no tooth is removed and no end moved, and the adjuster comes as near
        to the wanted height as its thread allows.
    wanted_height : Quantity
        Height, hub to arch, that the adjuster is then to bring.
    close_enough : Quantity
        How far the height may then be off and nothing is cut.

    References
    ----------
    Common practice, no source.
    """

    plan: Plan
    wanted_height: Quantity
    close_enough: Quantity

    def _in_short(self) -> str:
        """Tell it by what is done."""
        return self.lead

    @property
    def lead(self) -> str:
        """What is tried, as sentences that come before what is done if it fails."""
        tried = ", ".join(filter(None, ("First try it uncut", self.plan.place_in_words)))
        return f"{tried} ({self.plan.height_in_words} by the figures). {self.condition}:"

    @property
    def condition(self) -> str:
        """When a tooth is removed after all."""
        off, wanted = shown(self.close_enough, 0), shown(self.wanted_height, 0)
        return f"Only if more than {off} off {wanted}"

    @property
    def target(self) -> str:
        """How near to which height it must come."""
        return f"{shown(self.close_enough, 0)} of {shown(self.wanted_height, 0)}"


def worth_a_trial(plan: Plan, *, wanted_height: float, open_by: float) -> UncutTrial | None:
    """Tell whether an uncut bar may bring the wanted height, as far as the figures know it.

    Parameters
    ----------
    plan : Plan
        The bar uncut.
    wanted_height : float
        Wanted height [m].
    open_by : float
        What stands behind the ± of the height [m].

    Returns
    -------
    UncutTrial, optional
        None where it must not be carried out, or stays off by more than the ± and by more
        than a shop leaves.
    """
    missed = abs(si(plan.height, LENGTH) - wanted_height)
    if plan.verdict.is_refusal or missed > max(open_by, CLOSE_ENOUGH):
        return None
    return UncutTrial(
        plan=plan,
        wanted_height=quantity(wanted_height, LENGTH),
        close_enough=quantity(CLOSE_ENOUGH, LENGTH),
    )

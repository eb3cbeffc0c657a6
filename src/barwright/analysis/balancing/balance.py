"""Say how a whole vehicle stands on its scales, and which turns of the nuts balance it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from barwright.analysis.adjusting.nut_table import nut_table
from barwright.analysis.answer import Verdict
from barwright.analysis.balancing.after_turning import after_turning
from barwright.analysis.balancing.balance_answer import Balance, BalanceAim, WheelOnScale
from barwright.analysis.balancing.nut_search import NOT_WORTH_CHASING, Wish
from barwright.analysis.balancing.ride_and_roll import ride_and_roll, wanting_for_roll
from barwright.analysis.balancing.settings import aims_in_order, found_turns, nut_settings
from barwright.analysis.balancing.standing import StandingVehicle, loads_of, wanting
from barwright.analysis.balancing.weighed_vehicle import (
    PLACES,
    WeighedVehicle,
    contradictions,
    masses,
    weighed_vehicle,
)
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.finding import Caution, Finding, Topic
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.ride_height import wanted_height
from barwright.analysis.reindex.plan.uncut_trial import CLOSE_ENOUGH
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.balance import cross_weight, front_share, left_share
from barwright.mechanics.vehicle.vehicle import CORNERS
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.measurements.whole_vehicle import WholeVehicle
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted, refuse_uneven_wishes
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import LENGTH, MASS, quantity

__all__ = ["balance"]


@checks_arguments
def balance(
    setups: Sequence[Setup],
    *,
    vehicle: WholeVehicle,
    wanted: Sequence[Wanted] = (),
    aim: BalanceAim | None = None,
) -> Balance:
    """Say how a vehicle stands on its four scales, and which turns of the nuts balance it.

    It starts from what was read of the vehicle itself; figures say how it follows a turn.

    Parameters
    ----------
    setups : sequence of Setup
        Corners with torsion bars, both of an axle, with what is on them; their own readings
        count where ``vehicle`` has none.
    vehicle : WholeVehicle
        Scale readings, heights and nut places at the wheels, and what is known of both axles.
    wanted : sequence of Wanted, optional
        Wanted height of each corner; without it both sides of an axle are brought to the
        mean of their present heights.
    aim : BalanceAim, optional
        What the preferred settings are for.  Heights with two nuts, both with four, and both
        where ``vehicle`` names a wanted cross weight.

    Returns
    -------
    Balance

    Raises
    ------
    JobError
        S207 if the setups are not both corners of one or two axles of one vehicle, or there
        are more or fewer wishes than setups.
    QuantityError
        Q302 for a reading that no such vehicle gives.

    References
    ----------
    See :mod:`barwright.mechanics.vehicle.vehicle`; checked against a multibody engine.

    Examples
    --------
    >>> import barwright as bw
    >>> from barwright.parts import WeighedAxle, WeighedWheel, WholeVehicle
    >>> registry = bw.Registry.demo()
    >>> corners = [registry.setup("fells:chassis/short", corner=f"front {side}")
    ...            for side in ("left", "right")]
    >>> van = WholeVehicle(
    ...     front=WeighedAxle(track="1390 mm",
    ...                       left=WeighedWheel(scale_reading="306 kg", height="385 mm"),
    ...                       right=WeighedWheel(scale_reading="341 kg", height="403 mm")),
    ...     rear=WeighedAxle(wheel_rate="24 N/mm", left=WeighedWheel(scale_reading="268 kg"),
    ...                      right=WeighedWheel(scale_reading="230 kg")))
    >>> for move in balance(corners, vehicle=van).preferred.moves:
    ...     print(move.in_words)
    front right: 3.00 turns (18 flats) counter-clockwise
    front left: 3.00 turns (18 flats) clockwise
    """
    refuse_uneven_wishes(wanted, setups)
    weighed = weighed_vehicle(setups, vehicle)
    wishes = {setup.corner: wish for setup, wish in zip(setups, wanted, strict=False)}
    return _Balancing(weighed, wishes, aim).answer()


class _Balancing:
    """A weighed vehicle, and what is wanted of it."""

    def __init__(
        self, weighed: WeighedVehicle, wishes: dict[str, Wanted], aim: BalanceAim | None
    ) -> None:
        self._weighed = weighed
        self._wishes = wishes
        both = BalanceAim.BOTH if weighed.vehicle.wanted_cross_weight is not None else None
        self._aim = aim or both

    def answer(self) -> Balance:
        """Return the answer."""
        weighed, shown_now = self._weighed, self._now()
        if odd := tuple(contradictions(weighed)):
            return Balance(verdict=Verdict.CONTRADICTORY, findings=odd, **shown_now)
        unfit = [one for setup in weighed.setups for one in _unfit(setup)]
        if unfit:
            return Balance(verdict=Verdict.DOES_NOT_FIT, findings=tuple(unfit), **shown_now)
        if keys := wanting(weighed):
            return Balance(verdict=Verdict.NEEDS_FIGURES, findings=(_needed(keys),), **shown_now)
        standing, missing = self._standing()
        if standing is None:
            return Balance(verdict=Verdict.NEEDS_FIGURES, findings=missing, **shown_now)
        return self._balanced(standing, shown_now)

    def _standing(self) -> tuple[StandingVehicle | None, tuple[Finding, ...]]:
        """Set the vehicle on its springs; or say which figure of a corner is missing."""
        found: tuple[Finding, ...] = ()
        for setup in self._weighed.setups:
            missing = MissingFigures(setup)
            standing = missing.tried(lambda: StandingVehicle(self._weighed))
            if standing is not None:
                return standing, ()
            found = found or missing.findings("needed for turns of the nuts", AskedFor.NUT)
        return None, found

    def _balanced(self, standing: StandingVehicle, shown_now: dict[str, Any]) -> Balance:
        """Answer for a vehicle of which everything needed is known."""
        aims = aims_in_order(standing, first=self._aim) if standing.movable else []
        turns = [found_turns(standing, self._wish(standing, aim)) for aim in aims]
        held, *after = after_turning(
            self._weighed,
            [np.zeros(len(standing.movable)), *(one.turns - standing.turns for one in turns)],
        )
        further = {
            **shown_now,
            "cross_uncertainty": held.cross_uncertainty,
            "ride_and_roll": ride_and_roll(standing),
        }
        told = tuple(self._further(standing))
        if not standing.movable:
            return Balance(verdict=Verdict.NOTHING_TO_TURN, findings=(_fixed(), *told), **further)
        pairs = zip(turns, after, strict=True)
        found = tuple(nut_settings(standing, one, then) for one, then in pairs)
        first = found[0]
        return Balance(
            verdict=first.verdict,
            findings=(*first.findings, *told),
            cautions=() if first.verdict is Verdict.BALANCED else self._cautions(standing),
            settings=found,
            close_enough=quantity(CLOSE_ENOUGH, LENGTH),
            not_chased=quantity(NOT_WORTH_CHASING, MASS),
            **further,
        )

    # -- As it stands ----------------------------------------------------------------------

    def _now(self) -> dict[str, Any]:
        """Say how it stands by the scales alone."""
        weighed = self._weighed
        if any(mass is None for mass in masses(weighed)):
            return {}
        loads = loads_of(weighed)
        return {
            "scales": tuple(
                WheelOnScale(
                    corner=corner,
                    scale_reading=quantity(float(load) / STANDARD_GRAVITY, MASS),
                    height=weighed.wheel(corner).height,
                )
                for corner, load in zip(CORNERS, loads, strict=True)
            ),
            "total": quantity(float(np.sum(loads)) / STANDARD_GRAVITY, MASS),
            "cross_weight": float(cross_weight(loads)),
            "front_share": float(front_share(loads)),
            "left_share": float(left_share(loads)),
        }

    def _wish(self, standing: StandingVehicle, aim: BalanceAim) -> Wish:
        heights = np.full(len(CORNERS), np.nan)
        for number in standing.movable:
            heights[number] = self._height(standing, number)
        cross = self._weighed.vehicle.wanted_cross_weight
        return Wish(aim=aim, heights=heights, cross=_EVEN if cross is None else cross / 100.0)

    def _height(self, standing: StandingVehicle, number: int) -> float:
        """Wanted height of a corner [m]: its axle's, its own, or its axle's present mean."""
        given = self._weighed.axle(PLACES[number // 2]).wanted_height
        if given is not None:
            return metres(given)
        wish = self._wishes.get(CORNERS[number])
        if wish is not None:
            return metres(wanted_height(standing.laws[number].corner, wish))
        own = number - number % 2
        return float(np.mean(standing.heights[own : own + 2]))

    # -- What else to know -----------------------------------------------------------------

    def _further(self, standing: StandingVehicle) -> Iterator[Finding]:
        share = float(cross_weight(standing.loads))
        if abs(share - _EVEN) > _LOPSIDED:
            yield Finding(
                topic=Topic.BALANCE,
                text="the cross weight is far off. Check tyre pressures, a level floor and the "
                "scales before you turn a nut; barwright diagnose says what may be wrong",
                figure=f"{100.0 * share:.1f} %",
            )
        if assumed := list(self._assumed()):
            text = f"taken from the other axle, since the job does not say: {', '.join(assumed)}"
            yield Finding(topic=Topic.ASSUMED, text=text)
        if places := [CORNERS[n] for n in standing.movable if not self._is_read(CORNERS[n])]:
            text = f"taken to be at mid-thread, since the job does not say: {', '.join(places)} nut"
            yield Finding(topic=Topic.ASSUMED, text=text)
        if keys := wanting_for_roll(standing):
            text = f"roll and load transfer are not known without {', '.join(keys)}"
            yield Finding(topic=Topic.NEEDED, text=f"{text} in [balance]")

    def _is_read(self, corner: str) -> bool:
        """Whether the place of a nut was read: in the middle it was hardly left."""
        turns = self._weighed.wheel(corner).nut_turns
        return turns is None or bool(turns.magnitude)

    def _assumed(self) -> Iterator[str]:
        """Name the figures of an axle that the other one stands in for."""
        for place in PLACES:
            axle = self._weighed.axle(place)
            names = ["track"]
            if not self._weighed.on_bars(place):
                names += ["tyre_rate", "unsprung_mass"]
            for name in names:
                if getattr(axle, name) is None:
                    yield f"{place}.{name}"

    def _cautions(self, standing: StandingVehicle) -> tuple[Caution, ...]:
        own = [nut_table(standing.laws[number].corner.setup) for number in standing.movable]
        # A nut is turned beside a twisted bar, under a body on stands.
        given = {Caution.STORED_ENERGY, Caution.STANDS}
        given |= {caution for table in own for caution in table.cautions}
        return tuple(caution for caution in Caution if caution in given)


# Both diagonals carry the same.
_EVEN = 0.5
# A cross weight that is further off has a cause of its own.  Common practice, no source.
_LOPSIDED = 0.04


def _needed(keys: Sequence[str]) -> Finding:
    return Finding(
        topic=Topic.NEEDED, text=f"needed for turns of the nuts: {', '.join(keys)} in [balance]"
    )


def _fixed() -> Finding:
    return Finding(
        topic=Topic.CLOCKING,
        text="fixed sockets hold the bars, and only other teeth change a height: barwright "
        "reindex plans them",
    )


def _unfit(setup: Setup) -> tuple[Finding, ...]:
    """Say why a bar does not lie in its sockets, if it does not."""
    missing = MissingFigures(setup)
    fit = missing.tried(lambda: fit_of(Corner(setup)))
    if fit is None or fit.verdict is not Verdict.DOES_NOT_FIT:
        return ()
    return fit.reasons

"""Clockings from what is known, where a whole plan asks for more figures."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import cast

from barwright.analysis.answer import Verdict
from barwright.analysis.calibration.usual_error import usual_error
from barwright.analysis.corner.anchorage import TurnedPart, bolt_datum, turned
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.ride_height import wanted_angle, with_height
from barwright.analysis.reindex.clocking import Clocking, EndClocking
from barwright.analysis.reindex.clockings import Clockings
from barwright.analysis.reindex.lever_now import LeverNow
from barwright.analysis.reindex.lever_tolerance import LeverTolerance
from barwright.analysis.reindex.plan.end_work import (
    clocked_ends,
    disturbed_ends,
    end_action,
    from_present,
    seen,
    tooth_datum,
)
from barwright.analysis.reindex.plan.plan import EndAction, ToothDatum
from barwright.analysis.reindex.plan.plan_figures import height_per_angle
from barwright.analysis.reindex.preference import (
    FLATS,
    Candidate,
    least_flats_left,
    rank,
    unbeaten,
)
from barwright.errors import NeedsError
from barwright.mechanics.spline.clocking import centred
from barwright.mechanics.spline.clocking_search import ClockedEnd
from barwright.parts.adjuster import Adjuster
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import ANGLE, LENGTH, Quantity, quantity, shown

__all__ = ["clockings_as_known", "known_clockings"]


def clockings_as_known(
    corner: Corner, *, now: Corner, wanted: Wanted
) -> tuple[tuple[Clocking, ...], tuple[Finding, ...]]:
    """Give the clockings that are known, and what they leave open or wait for.

    Parameters
    ----------
    corner : Corner
        As it is to be.
    now : Corner
        As it is now.
    wanted : Wanted
        Where it is to stand.

    Returns
    -------
    (tuple of Clocking, tuple of Finding)
        None of a bar that does not fit.
    """
    if fit_of(corner).verdict is Verdict.DOES_NOT_FIT:
        return (), ()
    missing = MissingFigures(corner.setup)
    found = missing.tried(partial(known_clockings, corner, now=now, wanted=wanted)) or ()
    needed = missing.findings(_NEEDS_ONLY, AskedFor.CLOCKING) if wanted.same_height else ()
    if found:
        return found, (_left_open(), *_unstated_error(corner.setup, present=now.setup))
    is_unread = corner.setup.adjuster is not None and corner.setup.reading is None
    return (), (*needed, *([_unread()] if is_unread and not missing.paths else ()))


_NEEDS_ONLY = "needed for the teeth on the keys and the place of the nut alone"


def _left_open() -> Finding:
    """Say what clockings leave open."""
    return Finding(
        topic=Topic.ASSEMBLY,
        text="no steps are given: it is not known how the bar comes out safely, whether it goes "
        "slack at droop, or whether it is strong enough at bump",
    )


_NUT_PLACES = ("pin_distance", "nut_turns")


def _unstated_error(setup: Setup, *, present: Setup) -> Iterator[Finding]:
    """Say that the place of the nut now has no ±, if it has none."""
    read = setup.reading
    stated = (present.about,) if read is None else (read.about, read.setup.about)
    known = [about[name] for about in stated for name in _NUT_PLACES if name in about]
    if not any(figure.tolerance for figure in known):
        yield Finding(
            topic=Topic.UNCERTAINTY,
            text="the ± of the nut does not include that of its present place: write "
            f"pin_distance with its ±; usual is ± {shown(usual_error('pin_distance'), 1)}",
        )


def _unread() -> Finding:
    """Say what would give clockings without all figures."""
    return Finding(
        topic=Topic.MEASURED,
        text="measure the height and the nut as the vehicle stands ([measured]): which teeth go "
        "on the keys and where the nut goes then need fewer figures",
    )


def known_clockings(corner: Corner, *, now: Corner, wanted: Wanted) -> tuple[Clocking, ...]:
    """List the clockings that no other beats, the preferred one first.

    At the same height and load they rest on tooth counts, lever and thread alone; at another
    height also on the suspension between both and, weakly, on the rate of the bar.

    Parameters
    ----------
    corner : Corner
        As it is to be.
    now : Corner
        As it is now.
    wanted : Wanted
        Where it is to stand.

    Returns
    -------
    tuple of Clocking
        None with a fixed socket, or where the height must be measured first.

    Raises
    ------
    NeedsError
        N301 for a figure that even these need.
    QuantityError
        Q302 for a nut that is set beyond its thread, or a height at which no such corner stands.

    References
    ----------
    Derived in this project; checked against the whole plan on random corners.
    """
    tolerance = LeverTolerance.of(corner, present=now.setup, wanted=wanted)
    if tolerance is None:
        return ()
    per_angle = _height_per_angle(corner, now, wanted)
    return tuple(_Chooser(tolerance, now.setup, wanted, per_angle).chosen())


def _height_per_angle(corner: Corner, now: Corner, wanted: Wanted) -> float | None:
    """Fall of the car with the free angle [m/rad]; none where that is not known.

    The caller has checked that a height other than the present one is within the travel.
    """
    try:
        rates = corner.torsional_rates
        if rates is None:
            return None
        angle = cast("float", wanted_angle(corner, with_height(wanted, now=now)))
        return height_per_angle(corner, rates, corner.motion(angle))
    except NeedsError:
        return None


class _Chooser:
    """Chooses the clockings of one corner with an adjuster, and describes them."""

    def __init__(
        self,
        tolerance: LeverTolerance,
        present: Setup,
        wanted: Wanted,
        height_per_angle: float | None,
    ) -> None:
        self._tolerance = tolerance
        self._now = now = tolerance.now
        self._height_per_angle = height_per_angle
        self._corner = now.corner
        self._present = present
        self._ends = clocked_ends(now.corner, present=present)
        self._clockings = Clockings(now.corner, self._ends, offset=now.offset, wanted=wanted)

    def chosen(self) -> Iterator[Clocking]:
        """Give the clockings that no other beats, in the order of preference."""
        enough = self._clockings.enough(lever_uncertainty=self._tolerance.lever())
        found = unbeaten(self._clockings.found([self._corner.lever_span]), enough=enough.flats)
        least = least_flats_left([c.flats_left for c in found], enough=enough.flats)
        for candidate in sorted(found, key=lambda c: rank(c, least=least, has_findings=False)):
            yield self._clocking(candidate)

    def _clocking(self, candidate: Candidate) -> Clocking:
        corner, choice, steps = self._corner, candidate.choice, candidate.choice.clocking_steps
        off = abs(
            corner.turns_at_lever(candidate.lever)
            - self._clockings.flat_at(candidate.lever) / FLATS
        )
        open_by = self._tolerance.uncertainty(partial(_pin, steps=steps))
        return Clocking(
            turned_part=cast("TurnedPart", turned(corner.setup.adjuster)),
            bolt_datum=bolt_datum(cast("Adjuster", corner.setup.adjuster)),
            ends=tuple(
                map(self._end, BarEndName, self._ends, (choice.arm_tooth, choice.anchor_tooth))
            ),
            cuts=choice.cuts,
            disturbed=disturbed_ends(choice),
            arm_tooth=choice.arm_tooth,
            anchor_tooth=choice.anchor_tooth,
            rotation=quantity(
                math.remainder(steps * corner.step - self._now.rotation, math.tau), ANGLE
            ),
            **self._clockings.nut_fields(candidate),
            pin_uncertainty=quantity(open_by, LENGTH),
            pin_rounding=quantity(max(off, 0.5 / FLATS) * abs(corner.setting_per_turn), LENGTH),
            height_per_turn=self._height_per_turn(candidate.lever),
        )

    def _end(self, name: BarEndName, end: ClockedEnd, tooth: int) -> EndClocking:
        action = end_action(end, tooth)
        datum, counted = tooth_datum(self._corner.setup, name), tooth
        if end.in_place:
            datum, counted = ToothDatum.PRESENT, centred(tooth - end.current, teeth=end.teeth)
        elif datum is ToothDatum.PRESENT:
            counted = from_present(self._present, name, tooth)
        return EndClocking(
            end=name,
            action=action,
            tooth=abs(counted),
            direction=seen(self._corner, counted, name) if counted else None,
            seen_from=name,
            tooth_datum=datum,
            cuts=int(action is EndAction.REMOVE_TOOTH),
        )

    def _height_per_turn(self, lever: float) -> Quantity | None:
        """Rise of the car for a turn in the raising sense; none where that is not known."""
        per_angle = self._height_per_angle
        if per_angle is None:
            return None
        return self._clockings.height_per_turn(lever, height_per_angle=per_angle)


def _pin(now: LeverNow, *, steps: int) -> float:
    """Place of the pin [m] with a rotation in steps; NaN where the lever does not reach it."""
    corner = now.corner
    turns = corner.turns_at_lever(now.offset - steps * corner.step)
    return float(corner.setting_at_turns(turns)) if math.isfinite(turns) else math.nan

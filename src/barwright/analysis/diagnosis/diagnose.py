"""Say why a car sits wrong."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.corner.corner import Corner
from barwright.analysis.diagnosis.diagnosis import Cause, CauseKind, CornerDeviation, Diagnosis
from barwright.analysis.diagnosis.hypotheses import Hypothesis, hypotheses
from barwright.analysis.rates.ride import ride
from barwright.analysis.rates.ride_height import wanted_height
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.analysis.tolerance.tolerance import tolerance
from barwright.errors import JobError
from barwright.mechanics.uncertainty.hypotheses import deviations_density, posterior
from barwright.mechanics.uncertainty.propagation import rectangular_uncertainty
from barwright.parts.bar import Bar
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Reading, Setup
from barwright.parts.wanted import Wanted, refuse_uneven_wishes
from barwright.registry.registry import Registry
from barwright.registry.usual.catalogue import usual_error_of
from barwright.units import LENGTH, Quantity, quantity, si

__all__ = ["FOUND", "diagnose"]

FOUND = 0.8
"""Probability from which a cause counts as found.  Common practice, no source."""

# From this one on, corners stand as expected.  Common practice, no source.
_AS_EXPECTED = 0.5
# Less likely causes are not named.
_LEAST = 0.01
# Likelier ones come with a plan.
_PLANNED = 0.2
# Figures that both sides of an axle share: what moves one side by them moves the other alike.
_SHARED = ("axle.", "chassis.", "bar.material", "anchor.material")
_COVERAGE = 2.0


@checks_arguments
def diagnose(
    setups: Sequence[Setup], *, registry: Registry, wanted: Sequence[Wanted] = ()
) -> Diagnosis:
    """Say why corners stand otherwise than their figures, nuts and loads have it.

    Both sides of an axle tell more than one: what their figures share moves both alike.

    Parameters
    ----------
    setups : sequence of Setup
        Corners with what should be on them, each with a reading of its height.
    registry : Registry
        Bars that may be on them instead.
    wanted : sequence of Wanted, optional
        What is wanted of each corner, in their order.  Plans are made for the wanted height; if
        that is the height of now, or nothing is given, they are made for the expected height.

    Returns
    -------
    Diagnosis

    Raises
    ------
    JobError
        S207 if a corner has no reading of its height, none is given, or there are not as many
        wishes as corners.

    References
    ----------
    See :mod:`barwright.mechanics.uncertainty.hypotheses`.  How often each cause is found:
    common practice, no source.

    Examples
    --------
    >>> from barwright.parts.measurements.reading_of_texts import measured
    >>> registry = Registry.demo()
    >>> van = registry.setup("fells:chassis/short", corner="front left")
    >>> low = attrs.evolve(van, reading=measured(van, height="357 mm ± 2 mm"))
    >>> diagnose([low], registry=registry).causes[0].kind.value
    'anchor end on another tooth'
    """
    if not setups or any(_height(setup) is None for setup in setups):
        raise JobError(
            "S207",
            value="a corner without a measured height" if setups else "no corner",
            expected="corners with what was measured of each: hub to arch, nut and load",
            remedy="write [measured.left] and [measured.right] with height and pin_distance",
            key="measured",
        )
    refuse_uneven_wishes(wanted, setups)
    return _Diagnosing(
        setups, registry, wanted or [Wanted(same_height=True)] * len(setups)
    ).answer()


def _height(setup: Setup) -> Reading | None:
    """Return a reading of the height of a corner; none if it has none."""
    return next((one for one in setup.readings if one.height is not None), None)


@attrs.frozen(eq=False)
class _Diagnosing:
    """Corners as they should be, beside how they stand."""

    setups: Sequence[Setup]
    registry: Registry
    wanted: Sequence[Wanted]

    def answer(self) -> Diagnosis:
        """Return the answer."""
        readings = [cast("Reading", _height(setup)) for setup in self.setups]
        corners = [reading.corner for reading in readings]
        rests = [ride(corner) for corner in corners]
        for rest in rests:
            if rest.state is None:
                return Diagnosis(
                    verdict=rest.verdict, findings=rest.findings, corners=(), causes=()
                )
        expected = np.array([si(rest.height, LENGTH) for rest in rests])
        heights = [si(cast("Quantity", one.height), LENGTH) for one in readings]
        spreads = [_spread(corner, one) for corner, one in zip(corners, readings, strict=True)]
        own = np.array([one for one, _ in spreads])
        common = float(np.mean([one for _, one in spreads]))
        deviations = np.array(heights) - expected
        possible = hypotheses(corners, expected.tolist(), self._bars())
        effects = np.array([one.effects for one in possible])
        logs = deviations_density(deviations - effects, own=own, common=common)
        found = posterior(logs, prior=np.array([one.prior for one in possible]))
        causes = tuple(self._causes(possible, found, expected))
        return Diagnosis(
            verdict=_verdict(causes[0]),
            findings=(),
            cautions=causes[0].plan.cautions if causes[0].plan else (),
            corners=tuple(
                CornerDeviation(
                    corner=setup.corner,
                    height=quantity(heights[number], LENGTH),
                    expected_height=quantity(heights[number] - deviations[number], LENGTH),
                    own_uncertainty=quantity(float(own[number]), LENGTH),
                    common_uncertainty=quantity(common, LENGTH),
                    deviation=quantity(float(deviations[number]), LENGTH),
                    wanted_height=self._wanted_height(number),
                )
                for number, setup in enumerate(self.setups)
            ),
            causes=causes,
        )

    def _bars(self) -> list[Bar]:
        return [part for part in self.registry.parts() if isinstance(part, Bar)]

    def _causes(
        self,
        possible: Sequence[Hypothesis],
        found: NDArray[np.float64],
        expected: NDArray[np.float64],
    ) -> Iterator[Cause]:
        """Put hypotheses of one cause together, the likeliest first."""
        groups: dict[tuple[CauseKind, int | None, str], list[int]] = defaultdict(list)
        for number, one in enumerate(possible):
            named = "" if one.kind in _BY_DEGREE else one.named
            groups[one.kind, one.corner, named].append(number)
        shares = {key: float(np.sum(found[members])) for key, members in groups.items()}
        likely = [key for key in groups if shares[key] >= _LEAST]
        for key in sorted(likely, key=lambda key: -shares[key]):
            members = groups[key]
            likeliest = possible[members[int(np.argmax(found[members]))]]
            yield self._cause(likeliest, shares[key], expected)

    def _cause(self, likeliest: Hypothesis, share: float, expected: NDArray[np.float64]) -> Cause:
        corner = likeliest.corner
        about = "about " if likeliest.kind in _BY_DEGREE and likeliest.named else ""
        plans = self._plans(likeliest, expected) if share >= _PLANNED else None
        return Cause(
            kind=likeliest.kind,
            corner="" if corner is None else self.setups[corner].corner,
            named=f"{about}{likeliest.named}",
            probability=share,
            height_change=quantity(float(likeliest.effects[corner or 0]), LENGTH),
            plan=plans.preferred if plans and plans.plans else None,
            refusal=plans.headline if plans and not plans.plans else "",
        )

    def _plans(self, likeliest: Hypothesis, expected: NDArray[np.float64]) -> Reindex | None:
        """Plan how a corner comes to its height, if it is what is likeliest."""
        corner = likeliest.corner
        if corner is None or likeliest.kind in _WITHOUT_PLAN:
            return None
        # A corner with the parts and the teeth that were described: its reading counts.
        now = likeliest.changed or self.setups[corner]
        fits_other = likeliest.kind is CauseKind.OTHER_BAR
        meant = cast("Reading", _height(self.setups[corner])).corner if fits_other else now
        return reindex(meant, wanted=self._wish(corner, float(expected[corner])), present=now)

    def _wish(self, corner: int, expected: float) -> Wanted:
        """Return what is wanted; where that is the height of now, the expected one [m]."""
        wish = self.wanted[corner]
        if not wish.same_height:
            return wish
        return attrs.evolve(wish, height=quantity(expected, LENGTH), same_height=False)

    def _wanted_height(self, corner: int) -> Quantity | None:
        wish = self.wanted[corner]
        setup = cast("Reading", _height(self.setups[corner])).corner
        return None if wish.same_height else wanted_height(Corner(setup), wish)


_WITHOUT_PLAN = frozenset({CauseKind.NOTHING, CauseKind.READING, CauseKind.SPACER})
_BY_DEGREE = frozenset({CauseKind.SET, CauseKind.LOAD, CauseKind.READING})


def _verdict(first: Cause) -> Verdict:
    if first.kind is CauseKind.NOTHING and first.probability >= _AS_EXPECTED:
        return Verdict.AS_EXPECTED
    return Verdict.DIAGNOSED if first.probability >= FOUND else Verdict.NEEDS_FIGURES


def _spread(corner: Setup, reading: Reading) -> tuple[float, float]:
    """Return standard uncertainties of a height [m]: by its own figures, and by shared ones."""
    (row,) = (one for one in tolerance(ride, corner).rows if one.figure == "state.height")
    total = 0.0 if row.uncertainty is None else si(row.uncertainty, LENGTH) / _COVERAGE
    shared = sum(one.percent for one in row.shares if one.figure.startswith(_SHARED)) / 100.0
    known = reading.about.get("height")
    within = known.tolerance if known and known.tolerance else usual_error_of("tape").within
    read = float(rectangular_uncertainty(si(within, LENGTH)))
    own = math.hypot(total * math.sqrt(max(1.0 - shared, 0.0)), read)
    return own, total * math.sqrt(min(shared, 1.0))

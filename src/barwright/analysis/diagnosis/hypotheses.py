"""What may be wrong with corners, and what each does to their heights.

How often each is found is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.corner import Corner
from barwright.analysis.diagnosis.diagnosis import CauseKind
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.ride import ride
from barwright.errors import BarwrightError
from barwright.parts.bar import Bar, Side
from barwright.parts.load import LoadKind
from barwright.parts.setup import Setup
from barwright.units import ANGLE, LENGTH, quantity, shown, si

__all__ = ["Hypothesis", "hypotheses", "standing"]

PRIOR = {
    CauseKind.NOTHING: 0.40,
    CauseKind.READING: 0.06,
    CauseKind.LOAD: 0.10,
    CauseKind.ARM_TOOTH: 0.12,
    CauseKind.ANCHOR_TOOTH: 0.12,
    CauseKind.OTHER_BAR: 0.06,
    CauseKind.SWAPPED_SIDES: 0.04,
    CauseKind.SET: 0.08,
    CauseKind.SPACER: 0.02,
}
"""How often each cause is found, before anything is measured.  Common practice, no source."""

_TEETH = (-2, -1, 1, 2)
# Sizes at which a corner is settled, and steps between them that are tried: how far a bar has
# set [rad], and by how much of itself a load is off.
_SETS = (0.0, math.radians(2.0), math.radians(4.0), math.radians(6.0), math.radians(8.0))
_SET_STEP, _USUAL_SET = math.radians(0.25), math.radians(2.0)
_LOADS, _LOAD_STEP, _USUAL_LOAD = (-0.3, -0.15, 0.0, 0.15, 0.3), 0.01, 0.08
# The same of a corner that was weighed: scales that stand unevenly, or a body that sticks.
_USUAL_WEIGHED = 0.02
# A wrong reading may be off by anything up to this, and is off by so much at least [m].
_READ_WRONG, _READ_RIGHT = 0.09, 0.004
# A smaller effect is none that anybody sees [m].
_LEAST_EFFECT = 5e-4


@attrs.frozen(eq=False)
class Hypothesis:
    """Something that may be wrong, and what it does.

    Parameters
    ----------
    kind : CauseKind
        What.
    corner : int, optional
        Which corner; none for all.
    named : str
        The same in words.
    prior : float
        How often it is found.
    effects : array
        How much higher each corner stands by it [m].
    changed : Setup, optional
        The corner as it then is; none where it is the one that was described.
    """

    kind: CauseKind
    corner: int | None
    named: str
    prior: float
    effects: NDArray[np.float64]
    changed: Setup | None = None


def standing(setup: Setup) -> float | None:
    """Return the height at which a corner rests by its figures [m]; none if it does not."""
    try:
        return si(ride(setup).height, LENGTH)
    except BarwrightError:
        return None


def hypotheses(
    setups: Sequence[Setup], heights: Sequence[float], bars: Iterable[Bar]
) -> list[Hypothesis]:
    """List what may be wrong, with the height that each leads to.

    Parameters
    ----------
    setups : sequence of Setup
        The corners as they should be, with nut and load as they were read.
    heights : sequence of float
        At which they then rest [m].
    bars : iterable of Bar
        Bars that may be on one of them instead.

    Returns
    -------
    list of Hypothesis
        Their priors sum to 1.
    """
    count = len(setups)
    found = [Hypothesis(CauseKind.NOTHING, None, "", PRIOR[CauseKind.NOTHING], np.zeros(count))]
    others = list(bars)
    for number, (setup, height) in enumerate(zip(setups, heights, strict=True)):
        found += _of_corner(_At(number, count, height), setup, others)
    found += _exchanged(setups, heights)
    total = sum(one.prior for one in found)
    return [attrs.evolve(one, prior=one.prior / total) for one in found]


@attrs.frozen
class _At:
    """A corner among others, and the height at which it rests [m]."""

    number: int
    count: int
    height: float

    def effects(self, effect: float) -> NDArray[np.float64]:
        """Return what moves this corner alone."""
        found = np.zeros(self.count)
        found[self.number] = effect
        return found


def _of_corner(at: _At, setup: Setup, bars: list[Bar]) -> Iterator[Hypothesis]:
    """List what may be wrong with one corner."""
    for kind, changed in _changes(setup, bars):
        possible = [(named, other) for named, other in changed if other is not None]
        effects = [(named, other, _effect(other, at.height)) for named, other in possible]
        seen = [(named, other, one) for named, other, one in effects if one]
        for named, other, effect in seen:
            share = PRIOR[kind] / (at.count * len(seen))
            yield Hypothesis(kind, at.number, named, share, at.effects(effect), other)
    for kind, graded in _graded(setup, at.height):
        weights = sum(weight for _, weight, _ in graded)
        for named, weight, effect in graded:
            share = PRIOR[kind] * weight / (at.count * weights)
            yield Hypothesis(kind, at.number, named, share, at.effects(effect))


def _graded(
    setup: Setup, height: float
) -> Iterator[tuple[CauseKind, list[tuple[str, float, float]]]]:
    """List causes of any size: its name, how usual it is, and what it does."""
    turned = np.arange(_SET_STEP, _SETS[-1] + _SET_STEP / 2.0, _SET_STEP)
    moved = _between(_SETS, [_with_set(setup, one) for one in _SETS], turned, height)
    yield (
        CauseKind.SET,
        [
            (shown(quantity(size, ANGLE), 0), math.exp(-size / _USUAL_SET), effect)
            for size, effect in zip(turned.tolist(), moved, strict=True)
        ],
    )
    shares = np.arange(_LOADS[0], _LOADS[-1] + _LOAD_STEP / 2.0, _LOAD_STEP)
    moved = _between(_LOADS, [_loaded(setup, one) for one in _LOADS], shares, height)
    weighed = setup.load.kind is LoadKind.SCALE_READING
    usual = _USUAL_WEIGHED if weighed else _USUAL_LOAD
    yield (
        CauseKind.LOAD,
        [
            (f"{100.0 * size:+.0f} %", math.exp(-0.5 * (size / usual) ** 2), effect)
            for size, effect in zip(shares.tolist(), moved, strict=True)
            if abs(effect) >= _LEAST_EFFECT
        ],
    )
    steps = np.arange(-_READ_WRONG, _READ_WRONG + 5e-4, 1e-3).tolist()
    wrong = [("", 1.0, off) for off in steps if abs(off) >= _READ_RIGHT]
    yield CauseKind.READING, wrong


def _between(
    sizes: Sequence[float],
    setups: Sequence[Setup | None],
    asked: NDArray[np.float64],
    height: float,
) -> list[float]:
    """Return what sizes do to a height, between those that were settled."""
    heights = [None if one is None else standing(one) for one in setups]
    known = [(size, one - height) for size, one in zip(sizes, heights, strict=True) if one]
    found = np.interp(asked, [one for one, _ in known], [one for _, one in known])
    return [float(one) for one in found]


def _effect(setup: Setup, height: float) -> float:
    """Return how much higher a corner stands; 0 where nobody would see it."""
    found = standing(setup)
    return 0.0 if found is None or abs(found - height) < _LEAST_EFFECT else found - height


def _changes(
    setup: Setup, bars: list[Bar]
) -> Iterator[tuple[CauseKind, list[tuple[str, Setup | None]]]]:
    """Change a corner as each cause would."""
    ends = ((CauseKind.ARM_TOOTH, "arm_tooth"), (CauseKind.ANCHOR_TOOTH, "anchor_tooth"))
    for kind, field in ends:
        yield kind, [(_teeth(by), _clocked(setup, field, by)) for by in _TEETH]
    yield CauseKind.OTHER_BAR, [(bar.title, _with_bar(setup, bar)) for bar in bars]
    yield CauseKind.SPACER, [("", _without_spacer(setup))]


def _teeth(by: int) -> str:
    teeth = "1 tooth" if abs(by) == 1 else f"{abs(by)} teeth"
    return f"{teeth} in the {'bump' if by > 0 else 'droop'} sense"


def _clocked(setup: Setup, field: str, by: int) -> Setup:
    return attrs.evolve(setup, **{field: getattr(setup, field) + by})


def _with_bar(setup: Setup, bar: Bar) -> Setup | None:
    """Put another bar in, if it goes in as it is and is not the same but in name."""
    ends = ((bar.arm_end, setup.bar.arm_end), (bar.anchor_end, setup.bar.anchor_end))
    if bar.id == setup.bar.id or any(
        (one.teeth, one.form) != (own.teeth, own.form) for one, own in ends
    ):
        return None
    other = attrs.evolve(setup, bar=bar)
    return other if fit_of(Corner(other)).is_answered else None


def _with_set(setup: Setup, by: float) -> Setup:
    """Let the bar have taken a set [rad]: its arm end stays turned in the bump sense."""
    angle = si(setup.bar.blank_angle, ANGLE) + Corner(setup).sense * by
    bar = attrs.evolve(setup.bar, blank_angle=quantity(angle, ANGLE))
    return attrs.evolve(setup, bar=bar)


def _loaded(setup: Setup, by: float) -> Setup | None:
    """Load a corner by a share more; it is no corner where less than the wheel is left."""
    try:
        load = attrs.evolve(setup.load, mass=setup.load.mass * (1.0 + by))
        return attrs.evolve(setup, load=load)
    except BarwrightError:
        return None


def _without_spacer(setup: Setup) -> Setup | None:
    """Leave the spacer out, where turns of the nut say where it is."""
    adjuster = setup.adjuster
    if adjuster is None or not adjuster.spacer.magnitude or setup.pin_distance is not None:
        return None
    return attrs.evolve(setup, adjuster=attrs.evolve(adjuster, spacer="0 mm"))


def _exchanged(setups: Sequence[Setup], heights: Sequence[float]) -> Iterator[Hypothesis]:
    """Exchange the bars of both sides, where a bar is made for one side."""
    by_side = {setup.side: setup for setup in setups}
    if set(by_side) != {Side.LEFT, Side.RIGHT}:
        return
    others = {Side.LEFT: by_side[Side.RIGHT], Side.RIGHT: by_side[Side.LEFT]}
    swapped = [attrs.evolve(setup, bar=others[setup.side].bar) for setup in setups]
    effects = [_effect(one, height) for one, height in zip(swapped, heights, strict=True)]
    if any(effects):
        prior = PRIOR[CauseKind.SWAPPED_SIDES]
        yield Hypothesis(CauseKind.SWAPPED_SIDES, None, "", prior, np.array(effects))

"""What is set at an adjuster, in words: a nut on its bolt, or a bolt that is itself turned."""

from __future__ import annotations

from typing import cast

import attrs

from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.assembly.loose_bar import LooseBar
from barwright.analysis.corner.anchorage import TurnedPart, bolt_datum, measured_to, turned
from barwright.analysis.reindex.plan.plan import Plan, TurningSense
from barwright.parts.setup import Setup
from barwright.report.sheet.steps.step import CornerStep
from barwright.units import Quantity, shown

__all__ = [
    "AdjusterPosition",
    "AdjusterWords",
    "PlannedAdjustment",
    "adjusted",
    "datum",
    "slackened",
    "stand",
    "words_for",
    "words_of",
]


@attrs.frozen(kw_only=True)
class AdjusterWords:
    """What an adjuster's pieces are called.

    Parameters
    ----------
    what : str
        What is turned.
    seen_from : str
        End from which its sense is seen.
    point : str
        What distances along the bolt go to.
    flat : str
        What has the flats.
    """

    what: str
    seen_from: str
    point: str
    flat: str


_WORDS = {
    TurnedPart.NUT: AdjusterWords(
        what="nut",
        seen_from=TurnedPart.NUT.seen_from,
        point=measured_to(TurnedPart.NUT),
        flat="the nut",
    ),
    TurnedPart.BOLT: AdjusterWords(
        what="bolt",
        seen_from=TurnedPart.BOLT.seen_from,
        point=measured_to(TurnedPart.BOLT),
        flat="the bolt's head",
    ),
}


def words_for(setup: Setup) -> AdjusterWords | None:
    """Return the words for the adjuster of a setup; none where there is nothing to turn."""
    what = turned(setup.adjuster)
    return None if what is None else words_of(what)


def words_of(part: TurnedPart) -> AdjusterWords:
    """Return the words for an adjuster by what is turned there."""
    return _WORDS[part]


@attrs.frozen(kw_only=True)
class AdjusterPosition:
    """Where an adjuster stands.

    Parameters
    ----------
    words : AdjusterWords
        For its pieces.
    turns : Quantity
        From the middle of its thread, clockwise positive.
    distance : Quantity
        The same, measured.
    """

    words: AdjusterWords
    turns: Quantity
    distance: Quantity


def stand(way: Assembly) -> AdjusterPosition | None:
    """Where the adjuster unloads the bar; none where there is nothing to turn."""
    if way.turned is None or way.nut_turns is None or way.pin_distance is None:
        return None
    return AdjusterPosition(
        words=_WORDS[way.turned], turns=way.nut_turns, distance=way.pin_distance
    )


@attrs.frozen(kw_only=True)
class PlannedAdjustment(AdjusterPosition):
    """What a plan sets.

    Parameters
    ----------
    sense : TurningSense, optional
        Of its turns; none in the middle.
    left_clockwise, left_counter_clockwise : Quantity
        Turns that the thread then leaves.
    raising_sense : TurningSense
        Sense that raises the car.
    height_per_turn : Quantity
        By how much a turn does.
    """

    sense: TurningSense | None
    left_clockwise: Quantity
    left_counter_clockwise: Quantity
    raising_sense: TurningSense
    height_per_turn: Quantity

    @property
    def from_slack_end(self) -> Quantity:
        """Turns from the slack end of the thread: lowering slackens."""
        raises_clockwise = self.raising_sense is TurningSense.CLOCKWISE
        return self.left_counter_clockwise if raises_clockwise else self.left_clockwise


def adjusted(plan: Plan) -> PlannedAdjustment | None:
    """Return what a plan sets; none where there is nothing to turn."""
    what, raising = plan.fitting[0].turned, plan.raising_sense
    right, left = plan.turns_left_clockwise, plan.turns_left_counter_clockwise
    turns, distance, rise = plan.nut_turns, plan.pin_distance, plan.height_per_turn
    if (
        (what is None or raising is None)
        or (right is None or left is None)
        or (turns is None or distance is None or rise is None)
    ):
        return None
    return PlannedAdjustment(
        words=_WORDS[what],
        turns=turns,
        distance=distance,
        sense=plan.nut_sense,
        left_clockwise=right,
        left_counter_clockwise=left,
        raising_sense=raising,
        height_per_turn=rise,
    )


def datum(setup: Setup) -> str:
    """Say where distances along the bolt are counted from; nowhere with a fixed socket."""
    return "" if setup.adjuster is None else bolt_datum(setup.adjuster).value


def slackened(setup: Setup, words: AdjusterWords, loose: LooseBar) -> CornerStep:
    """Say how an adjuster is slackened to the end of its thread."""
    # Where there is an adjuster, the end of its thread is known.
    turns = float(cast("Quantity", loose.slack_end).magnitude)
    return CornerStep(
        "Turn the {what} {sense}, seen from {seen_from}, to its slack end: {distance} from the "
        "{datum} to the {point}.",
        what=words.what,
        sense="clockwise" if turns > 0.0 else "counter-clockwise",
        seen_from=words.seen_from,
        distance=shown(cast("Quantity", loose.slack_distance), 1),
        datum=datum(setup),
        point=words.point,
    )

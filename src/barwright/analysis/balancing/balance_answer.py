"""How a whole vehicle stands, and how it is balanced: the answer."""

from __future__ import annotations

import enum

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.anchorage import BoltDatum, TurnedPart
from barwright.analysis.finding import Finding
from barwright.mechanics.spline.clocking import TurningSense
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity, shown

__all__ = [
    "Balance",
    "BalanceAim",
    "NutMove",
    "NutSettings",
    "RideAndRoll",
    "WheelOnScale",
    "per_cent",
]


class BalanceAim(enum.Enum):
    """What the nuts are set for."""

    HEIGHTS = "heights"
    CROSS_WEIGHT = "cross weight"
    BOTH = "heights and cross weight"


@attrs.frozen(kw_only=True, repr=False)
class WheelOnScale(Summarised):
    """One wheel at one time.

    Parameters
    ----------
    corner : str
        Axle and side.
    scale_reading : Quantity
        Mass on its scale.
    scale_uncertainty : Quantity, optional
        The ± of it, about 95 %.
    height : Quantity, optional
        Hub to arch; none where it was not read.
    height_uncertainty : Quantity, optional
        The ± of it, about 95 %.
    """

    corner: str
    scale_reading: Quantity
    scale_uncertainty: Quantity | None = None
    height: Quantity | None = None
    height_uncertainty: Quantity | None = None


@attrs.frozen(kw_only=True, repr=False)
class NutMove(Summarised):
    """How one nut is turned.

    Parameters
    ----------
    corner : str
        Axle and side.
    turned_part : TurnedPart
        What is turned.
    bolt_datum : BoltDatum
        What distances along the bolt are measured from.
    correcting_turns : Quantity
        Turns to make from the present position, to a flat, clockwise positive.
    correcting_sense : TurningSense, optional
        Sense of these turns, seen from the bolt's free end, or from the head of a bolt that is
        itself turned; none if no turn is needed.
    is_raised : bool
        Whether the turn raises this corner.
    height_per_turn : Quantity
        How much one turn raises this corner while the other nuts stay.
    nut_turns : Quantity
        Position afterwards, from mid-thread.
    pin_distance : Quantity
        The same, measured.
    left_to_raise, left_to_lower : Quantity
        Turns that are then left on the thread.
    """

    corner: str
    turned_part: TurnedPart
    bolt_datum: BoltDatum
    correcting_turns: Quantity
    correcting_sense: TurningSense | None
    is_raised: bool
    height_per_turn: Quantity
    nut_turns: Quantity
    pin_distance: Quantity
    left_to_raise: Quantity
    left_to_lower: Quantity

    def _in_short(self) -> str:
        """Say which turn to make."""
        return self.in_words

    @property
    def in_words(self) -> str:
        """The turn to make."""
        if self.correcting_sense is None:
            return f"{self.corner}: leave the {self.turned_part.value}"
        turns = abs(float(self.correcting_turns.magnitude))
        flats = round(turns * _FLATS)
        return (
            f"{self.corner}: {turns:.2f} turn{'' if flats == _FLATS else 's'} "
            f"({flats} flat{'' if flats == 1 else 's'}) {self.correcting_sense.value}"
        )


_FLATS = 6
# Turns that nobody makes at once.  Common practice, no source.
_LARGE = 2.0


@attrs.frozen(kw_only=True, repr=False)
class NutSettings(Summarised):
    """Places of all nuts for one aim, and how the vehicle then stands.

    Parameters
    ----------
    aim : BalanceAim
        What they are set for.
    verdict : Verdict
        Balanced already; can or cannot be reached; as near as the nuts allow; not safe.
    findings : tuple of Finding
        Why it cannot be reached, or what else to know.
    moves : tuple of NutMove
        Turns in the order in which they are made; one for each nut.
    scales : tuple of WheelOnScale
        All wheels afterwards.
    cross_weight : float
        Share of the front right and rear left wheels afterwards, from 0 to 1.
    cross_uncertainty : float
        The ± of it, about 95 %.
    """

    aim: BalanceAim
    verdict: Verdict
    findings: tuple[Finding, ...]
    moves: tuple[NutMove, ...]
    scales: tuple[WheelOnScale, ...]
    cross_weight: float
    cross_uncertainty: float

    def _in_short(self) -> str:
        """Say what is reached."""
        return f"{self.aim.value}: {self.verdict.value}"

    @property
    def turned(self) -> tuple[NutMove, ...]:
        """Nuts that are turned at all."""
        return tuple(one for one in self.moves if one.correcting_sense is not None)

    @property
    def is_large(self) -> bool:
        """Whether a nut is turned so far that half of it is tried first."""
        return any(abs(float(one.correcting_turns.magnitude)) > _LARGE for one in self.moves)


@attrs.frozen(kw_only=True, repr=False)
class RideAndRoll(Summarised):
    """Natural frequencies of the body, and its roll in a steady turn, as it stands now.

    Parameters
    ----------
    front_frequency, rear_frequency : Quantity
        Ride frequency of each axle, tyres included.
    bounce_frequency, pitch_frequency, roll_frequency : Quantity, optional
        Of the whole body; none where its radius of gyration is not known.
    front_roll_rate, rear_roll_rate : Quantity
        Of each axle: springs, anti-roll bar and tyres.
    front_roll_share : float
        Share of the front axle in both, from 0 to 1.
    lateral_acceleration : float
        At which the figures below hold, in g.
    body_roll : Quantity, optional
        Roll angle; none where the height of the centre of gravity or of a roll centre is not
        known, like all below.
    front_transfer, rear_transfer : Quantity, optional
        Mass that goes from the inner to the outer scale of each axle.
    first_lift : float, optional
        Lateral acceleration at which the first wheel lifts, in g.
    """

    front_frequency: Quantity
    rear_frequency: Quantity
    bounce_frequency: Quantity | None
    pitch_frequency: Quantity | None
    roll_frequency: Quantity | None
    front_roll_rate: Quantity
    rear_roll_rate: Quantity
    front_roll_share: float
    lateral_acceleration: float
    body_roll: Quantity | None = None
    front_transfer: Quantity | None = None
    rear_transfer: Quantity | None = None
    first_lift: float | None = None


@attrs.frozen(kw_only=True, repr=False)
class Balance(Answer):
    """Answer to :func:`~barwright.analysis.balancing.balance.balance`.

    Parameters
    ----------
    verdict : Verdict
        Balanced; can or cannot be reached; as near as the nuts allow; needs more figures;
        nothing to turn; readings that contradict each other.
    findings : tuple of Finding
        Why it cannot be reached, what is missing, and what is assumed.
    cautions : tuple of Caution
        Cautions for turning the nuts.
    scales : tuple of WheelOnScale
        All wheels as read; empty where a reading is missing.
    total : Quantity, optional
        Sum of the four scales.
    cross_weight, front_share, left_share : float, optional
        Share of the front right and rear left, of the front and of the left wheels, from 0 to 1.
    cross_uncertainty : float, optional
        The ± of the cross weight, about 95 %.
    settings : tuple of NutSettings
        For each aim, the preferred one first.
    ride_and_roll : RideAndRoll, optional
        Frequencies, roll and load transfer.
    close_enough, not_chased : Quantity, optional
        Off a wanted height, and mass at a wheel, for which no nut is turned.
    """

    scales: tuple[WheelOnScale, ...] = ()
    total: Quantity | None = None
    cross_weight: float | None = None
    cross_uncertainty: float | None = None
    front_share: float | None = None
    left_share: float | None = None
    settings: tuple[NutSettings, ...] = ()
    ride_and_roll: RideAndRoll | None = None
    close_enough: Quantity | None = None
    not_chased: Quantity | None = None

    @property
    def preferred(self) -> NutSettings:
        """The preferred settings; raises N201 if there are none."""
        return self._figure(next(iter(self.settings), None), "settings of the nuts")

    @property
    def headline(self) -> str:
        """Which nuts to turn, and what that gives."""
        if not self.settings:
            return f"{self._now}{self.refused()}"
        found = self.preferred
        then = f"heights {_heights(found)}, cross weight {_cross(found)}"
        if self.verdict is Verdict.BALANCED:
            return f"Leave the nuts where they are: {then}."
        if self.verdict.is_refusal:
            return f"{self._now}{self.refused()}"
        turns = "; ".join(one.in_words for one in found.turned)
        seen = " or ".join(dict.fromkeys(one.turned_part.seen_from for one in found.turned))
        return f"{self._now}Turn {turns}, seen from {seen}. Then {then}."

    @property
    def _now(self) -> str:
        if self.cross_weight is None:
            return ""
        return f"Cross weight {per_cent(self.cross_weight)} now. "

    @property
    def has_conditions(self) -> bool:
        """Whether a nut is to be turned."""
        return self.verdict is not Verdict.BALANCED


def per_cent(share: float) -> str:
    """Show a share in per cent, to a tenth."""
    return f"{100.0 * share:.1f} %"


def _cross(found: NutSettings) -> str:
    return f"{100.0 * found.cross_weight:.1f} ± {per_cent(found.cross_uncertainty)}"


def _heights(found: NutSettings) -> str:
    corners = {one.corner for one in found.moves}
    heights = [w.height for w in found.scales if w.corner in corners and w.height is not None]
    return " and ".join(shown(one, 0) for one in heights)

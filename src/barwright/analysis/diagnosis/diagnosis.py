"""Why a car sits wrong: the answer."""

from __future__ import annotations

import enum

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.identification.identification import percent
from barwright.analysis.reindex.plan.plan import Plan
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity, shown

__all__ = ["Cause", "CauseKind", "CornerDeviation", "Diagnosis"]


class CauseKind(enum.Enum):
    """What may be wrong with a corner."""

    NOTHING = "nothing: the tolerances of the figures explain it"
    READING = "a wrong reading"
    LOAD = "another load than stated"
    ARM_TOOTH = "arm end on another tooth"
    ANCHOR_TOOTH = "anchor end on another tooth"
    OTHER_BAR = "another bar"
    SWAPPED_SIDES = "left and right bar exchanged"
    SET = "a bar that has taken a set"
    SPACER = "spacer of the adjuster left out"

    @property
    def check(self) -> str:
        """Check that confirms it.  Common practice, no source."""
        return _CHECKS[self]


_CHECKS = {
    CauseKind.NOTHING: "Leave the bars alone; for another height, ask for a plan.",
    CauseKind.READING: "Roll the vehicle. Measure each height again, and any nut or bolt.",
    CauseKind.LOAD: "Weigh both corners.",
    CauseKind.ARM_TOOTH: "Count the teeth from the blank to the key at the arm end.",
    CauseKind.ANCHOR_TOOTH: "Count the teeth from the blank to the key at the anchor end.",
    CauseKind.OTHER_BAR: "Measure the diameter of the bar's body.",
    CauseKind.SWAPPED_SIDES: "Look for the mark of the side on both bars.",
    CauseKind.SET: "Compare the angle between the blanks of the bar with its data.",
    CauseKind.SPACER: "Look for the spacer between nut and seat.",
}


@attrs.frozen(kw_only=True, repr=False)
class CornerDeviation(Summarised):
    """How a corner stands, beside how it should with the nut where it is.

    Parameters
    ----------
    corner : str
        Axle and side.
    height, expected_height : Quantity
        Hub to arch, as measured and as figures, nut and load have it.
    own_uncertainty, common_uncertainty : Quantity
        Standard uncertainty of the difference that this corner has for itself, and that all
        corners share.
    deviation : Quantity
        How much higher it stands than expected; lower if negative.
    wanted_height : Quantity, optional
        Height that is wanted, for which plans are made; if none, they are made for the expected
        one.
    """

    corner: str
    height: Quantity
    expected_height: Quantity
    own_uncertainty: Quantity
    common_uncertainty: Quantity
    deviation: Quantity
    wanted_height: Quantity | None = None

    @property
    def planned_height(self) -> Quantity:
        """Height for which plans are made: the wanted one, or else the expected one."""
        return self.expected_height if self.wanted_height is None else self.wanted_height


@attrs.frozen(kw_only=True, repr=False)
class Cause(Summarised):
    """Something that may be wrong.

    Parameters
    ----------
    kind : CauseKind
        What.
    corner : str
        Where; empty for all corners.
    named : str
        The same in words, such as ``2 teeth in the bump sense``.
    probability : float
        That it is this, from 0 to 1.
    height_change : Quantity
        How much higher the corner stands by it, or the first one; lower if negative.
    plan : Plan, optional
        How the corner comes to its planned height if it is this; none where nothing on the bar
        or the nut is to be done, the cause is unlikely, or no plan brings it there.
    refusal : str
        Why no plan brings it there; empty where one does, or none was made.
    """

    kind: CauseKind
    corner: str
    named: str
    probability: float
    height_change: Quantity
    plan: Plan | None = None
    refusal: str = ""

    def _in_short(self) -> str:
        """Tell where, what and how likely."""
        return f"{self.in_words}, {percent(self.probability)}"

    @property
    def in_words(self) -> str:
        """What is wrong, and where."""
        what = f"{self.kind.value}{f' ({self.named})' if self.named else ''}"
        return f"{self.corner}: {what}" if self.corner else what


@attrs.frozen(kw_only=True, repr=False)
class Diagnosis(Answer):
    """Answer to :func:`~barwright.analysis.diagnosis.diagnose.diagnose`.

    Parameters
    ----------
    verdict : Verdict
        Stands as expected, diagnosed, or needs more figures.
    findings : tuple of Finding
        What else must be known.
    cautions : tuple of Caution
        For the plans that set the corners right.
    corners : tuple of CornerDeviation
        How each corner stands.
    causes : tuple of Cause
        What may be wrong, the likeliest first.
    """

    corners: tuple[CornerDeviation, ...]
    causes: tuple[Cause, ...]

    @property
    def headline(self) -> str:
        """The likeliest cause, and the check that confirms it."""
        if not self.causes:
            return self.refused()
        stands = "; ".join(f"{one.corner} {_off(one)}" for one in self.corners)
        first = self.causes[0]
        likely = percent(first.probability)
        if self.verdict is Verdict.AS_EXPECTED:
            return f"Stands as expected: {stands} ({likely})."
        others = self.causes[1:2] if self.verdict is Verdict.NEEDS_FIGURES else ()
        second = "".join(f" or {one.in_words} ({percent(one.probability)})" for one in others)
        return f"{stands}. Likely {first.in_words} ({likely}){second}. {first.kind.check}"

    @property
    def has_conditions(self) -> bool:
        """Whether something is to be set right."""
        return self.verdict is Verdict.DIAGNOSED


def _off(one: CornerDeviation) -> str:
    off = one.deviation
    word = "low" if off.magnitude < 0.0 else "high"
    return f"{shown(abs(off), 0)} {word}"

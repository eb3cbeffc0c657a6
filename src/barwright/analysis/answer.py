"""What all answers have: outcome, verdict, headline, findings and cautions."""

from __future__ import annotations

import abc
import enum
from typing import TypeVar

import attrs

from barwright.analysis.finding import Caution, Finding
from barwright.errors import ExitCode, NoFigureError
from barwright.parts.common.in_short import Summarised

__all__ = ["Answer", "Outcome", "Verdict"]

T = TypeVar("T")


class Outcome(enum.Enum):
    """Outcome of an answer: one of four, the same for all questions."""

    FINE = "fine"
    FINE_WITH_CHANGES = "fine with changes"
    NO = "no"
    NEEDS_FIGURES = "needs more figures"

    @property
    def is_good(self) -> bool:
        """Whether the answer is yes, with or without changes."""
        return self in (Outcome.FINE, Outcome.FINE_WITH_CHANGES)

    @property
    def exit_code(self) -> ExitCode:
        """Exit code of a command that gives this answer."""
        return ExitCode.FINE if self.is_good else ExitCode.NO


class Verdict(enum.Enum):
    """The answer in the words of its question."""

    FITS = "fits"
    FITS_WITH_CHANGES = "fits with changes"
    DOES_NOT_FIT = "does not fit"
    REACHED = "can be reached"
    OUT_OF_REACH = "cannot be reached"
    CANNOT_BE_ASSEMBLED = "cannot be assembled"
    NO_SAFE_WAY = "no safe way known"
    NOT_SAFE = "not safe"
    NOTHING_TO_TURN = "nothing to turn"
    HOLDS = "strong enough"
    BELOW_YIELD = "below yield; permissible stress not known"
    OVERSTRESSED = "overstressed"
    STRENGTH_NOT_KNOWN = "strength not known"
    RATED = "rated"
    AT_REST = "at rest on its spring"
    ON_A_STOP = "rests on a stop"
    COMPARED = "compared"
    LISTED = "listed"
    CALIBRATED = "calibrated"
    CHOSEN = "chosen"
    NOTHING_SUITS = "nothing suits"
    DIAGNOSED = "cause found"
    AS_EXPECTED = "stands as expected"
    BALANCED = "balanced"
    NEAREST = "as near as the nuts allow"
    IDENTIFIED = "identified"
    NOT_LISTED = "not listed"
    FREE_ANGLE_ALONE = "free angle alone"
    CONTRADICTORY = "the readings contradict each other"
    NEEDS_FIGURES = "needs more figures"

    @property
    def is_refusal(self) -> bool:
        """Whether the answer is no."""
        return self in _REFUSALS


_REFUSALS = frozenset(
    {
        Verdict.DOES_NOT_FIT,
        Verdict.OUT_OF_REACH,
        Verdict.CANNOT_BE_ASSEMBLED,
        Verdict.NO_SAFE_WAY,
        Verdict.NOT_SAFE,
        Verdict.NOTHING_TO_TURN,
        Verdict.OVERSTRESSED,
        Verdict.CONTRADICTORY,
        Verdict.NOT_LISTED,
        Verdict.NOTHING_SUITS,
    }
)


@attrs.frozen(kw_only=True, repr=False)
class Answer(Summarised, abc.ABC):
    """Base of all answers.

    Parameters
    ----------
    verdict : Verdict
        The answer in the words of its question.
    findings : tuple of Finding
        Why the answer is no, or what else to know.
    cautions : tuple of Caution
        Cautions for the work that the answer leads to.
    """

    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...] = ()

    def _in_short(self) -> str:
        """Summarise the answer by its headline."""
        return self.headline

    @property
    def outcome(self) -> Outcome:
        """Outcome of the answer; exit codes and reports depend on it."""
        if self.verdict is Verdict.NEEDS_FIGURES:
            return Outcome.NEEDS_FIGURES
        if self.verdict.is_refusal:
            return Outcome.NO
        return Outcome.FINE_WITH_CHANGES if self.has_conditions else Outcome.FINE

    @property
    def is_answered(self) -> bool:
        """Whether the answer is neither a no nor *needs more figures*."""
        return not (self.verdict.is_refusal or self.verdict is Verdict.NEEDS_FIGURES)

    @property
    def has_conditions(self) -> bool:
        """Whether something must be changed or known for the answer to be yes."""
        return bool(self.findings)

    @property
    @abc.abstractmethod
    def headline(self) -> str:
        """The answer in one to three sentences, in the units of its figures."""

    @property
    def further_findings(self) -> tuple[Finding, ...]:
        """Findings that the headline does not give."""
        return self.findings if self.is_answered else self.findings[1:]

    def _figure(self, found: T | None, what: str, *, otherwise: str = "") -> T:
        """Return a figure of the answer, or raise the reason why it has none."""
        if found is None:
            reason = otherwise or f"read its findings: {self.findings[0].line}"
            raise NoFigureError(
                "N201",
                value=self.verdict.value,
                expected=f"an answer with {what}",
                remedy=reason,
            )
        return found

    def refused(self) -> str:
        """Say no, and the first reason."""
        verdict, reason = self.verdict.value, self.findings[0].line if self.findings else ""
        says_it = reason.startswith(verdict) or self.verdict is Verdict.NEEDS_FIGURES
        line = reason if says_it else ": ".join(filter(None, (verdict, reason)))
        return f"{line[0].upper()}{line[1:]}."

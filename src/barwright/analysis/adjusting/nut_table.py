"""A table of height, travel left and load by position of the adjuster's nut."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import attrs

from barwright.analysis.adjusting.measured_height import (
    far_off,
    may_be_on_stop,
    says_nothing,
    stood,
)
from barwright.analysis.adjusting.nut_rows import NutCurve, NutRow, nut_curve, nut_rows
from barwright.analysis.adjusting.resting_corner import RestingCorner
from barwright.analysis.adjusting.turn_for_height import NutCorrection, ThreadHeights
from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.anchorage import BoltDatum, TurnedPart, bolt_datum, turned
from barwright.analysis.corner.assumed import names_assumed
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.corner.raising import raising_sense
from barwright.analysis.finding import Caution, Finding, Topic
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.ride_height import wanted_height
from barwright.analysis.reindex.preference import FLATS
from barwright.analysis.reindex.reading_check import unstated_place
from barwright.mechanics.corner.statics import Support
from barwright.mechanics.spline.clocking import TurningSense
from barwright.parts.adjuster import Adjuster
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import LENGTH, TURNS, Quantity, quantity, shown, si, to_kind
from barwright.units.nothing import is_nothing

__all__ = ["NutTable", "nut_table", "nut_table_of"]


@attrs.frozen(kw_only=True, repr=False)
class NutTable(Answer):
    """Answer to :func:`nut_table`.

    Parameters
    ----------
    verdict : Verdict
        Listed; needs more figures; nothing to turn; does not fit; where a height was asked for,
        can or cannot be reached.
    findings : tuple of Finding
        Why there is no table, or what else to know about the present nut position.
    cautions : tuple of Caution
        Cautions for turning the nut.
    fit : LengthFit
        How the bar lies.
    turned_part : TurnedPart, optional
        What is turned; none with a fixed socket, and then there is no table.
    bolt_datum : BoltDatum, optional
        What distances along the bolt are measured from.
    raising_sense : TurningSense, optional
        Sense that raises the vehicle, seen from the bolt's free end, or from the head of a
        bolt that is itself turned.
    height_uncertainty : Quantity, optional
        The ± of the heights: expanded uncertainty, about 95 %, from the tolerances of the
        figures, at the present nut position.
    table_rows : tuple of NutRow
        Rows from the slack end of the thread to its other end, in whole turns from the present
        nut position.
    nut_curve : NutCurve, optional
        The same over the whole thread, its ends included.
    correction : NutCorrection, optional
        The turn that gives the wanted height, if one was requested and can be reached.
    """

    fit: LengthFit
    turned_part: TurnedPart | None = None
    bolt_datum: BoltDatum | None = None
    raising_sense: TurningSense | None = None
    height_uncertainty: Quantity | None = None
    table_rows: tuple[NutRow, ...] = ()
    nut_curve: NutCurve | None = None
    correction: NutCorrection | None = None

    @property
    def set_row(self) -> NutRow:
        """The row in which the nut is set; raises N201 if there is no table."""
        return self._figure(next((r for r in self.table_rows if r.is_set), None), "a table")

    @property
    def most_lowering(self) -> int | None:
        """Whole turns by which the nut may lower the vehicle; none if only the thread limits it.

        Where the nut is set at a place that is itself not safe, these count to the next place
        that is not, and both may be 0: the findings say why it must not stay there.
        """
        return self._most(self.table_rows[::-1], lambda row: row.raising_turns < 0)

    @property
    def most_raising(self) -> int | None:
        """Whole turns by which the nut may raise it, counted as in :attr:`most_lowering`."""
        return self._most(self.table_rows, lambda row: row.raising_turns > 0)

    @staticmethod
    def _most(rows: Sequence[NutRow], lies_there: Callable[[NutRow], bool]) -> int | None:
        """Count the rows before the first that is not safe; none where all are."""
        there = [row for row in rows if lies_there(row)]
        safe = [row.is_safe for row in there]
        return None if all(safe) else safe.index(False)

    def rows_near(self, turns: FigureLike | None = None, *, count: int = 5) -> tuple[NutRow, ...]:
        """Return the rows within some turns of a position of the nut.

        Parameters
        ----------
        turns : str or Quantity, optional
            The place, in turns from the middle of the thread; where the nut is set, if left
            out.
        count : int
            Turns to either side.

        Returns
        -------
        tuple of NutRow
            Fewer where the thread ends before; none where there is no table.

        Examples
        --------
        >>> from barwright.registry.registry import Registry
        >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
        >>> [row.raising_turns for row in nut_table(setup).rows_near(count=2)]
        [-2, -1, 0, 1, 2]
        """
        if not self.table_rows:
            return ()
        place = self.set_row.nut_turns if turns is None else to_kind(turns, TURNS, key="turns")
        middle, most = si(place, TURNS), count + _ROUNDING
        return tuple(r for r in self.table_rows if abs(si(r.nut_turns, TURNS) - middle) <= most)

    @property
    def headline(self) -> str:
        """Where the vehicle stands and what a turn changes, or which turn to make."""
        if self.verdict.is_refusal or self.turned_part is None or self.raising_sense is None:
            return self.refused()
        if self.correction is not None:
            turn = _corrected(self.turned_part, self.correction)
            far_off = [one for one in self.findings if one.topic is Topic.MEASURED]
            if not far_off:
                return turn
            turn = f"{turn[0].lower()}{turn[1:]}"
            return f"Turn nothing yet: {far_off[0].line}. If all is right: {turn}"
        here, curve = self.set_row, self._figure(self.nut_curve, "a curve")
        low, _ = shown(curve.height[0], 0).split(" ")
        return (
            f"With the {self.turned_part.value} {self._measured(here)} the corner "
            f"stands at {self._height(here)} hub to arch; one turn {self.raising_sense.value} "
            f"raises it by {shown(here.height_per_turn, 1).removesuffix('/turn')}. "
            f"The thread covers {low} to {shown(curve.height[-1], 0)}."
        )

    @property
    def further_findings(self) -> tuple[Finding, ...]:
        """Findings that the headline does not give."""
        further = super().further_findings
        if self.correction is None:
            return further
        return tuple(one for one in further if one.topic is not Topic.MEASURED)

    def _measured(self, row: NutRow) -> str:
        datum = self._figure(self.bolt_datum, "a datum")
        return f"{shown(row.pin_distance, 1)} from the {datum.value},"

    def _height(self, row: NutRow) -> str:
        known = self.height_uncertainty
        if known is None or is_nothing(known, digits=0):
            return shown(row.height, 0)
        height, _ = shown(row.height, 0).split(" ")
        return f"{height} ± {shown(known, 0)}"


@checks_arguments
@names_assumed()
def nut_table(
    setup: Setup, *, measured: FigureLike | None = None, wanted: Wanted | None = None
) -> NutTable:
    """Answer what each turn of the adjuster's nut changes, and which turn gives a height.

    A vehicle that was measured stands higher or lower than computed.  The table and the turn
    are then those of the bar's free angle at which it stands as measured, as
    :meth:`barwright.parts.Setup.with_reading` has it.

    Parameters
    ----------
    setup : Setup
        The corner; for a plan, as :func:`barwright.carry_out` returns it.
    measured : str or Quantity, optional
        Hub to arch at the present nut position; as computed, if left out.
    wanted : Wanted, optional
        The wanted height; the standard height, if only ``measured`` is given.

    Returns
    -------
    NutTable
        With the turn to make where ``measured`` or ``wanted`` is given.

    Raises
    ------
    QuantityError
        Q302 for a nut that is set beyond its thread.

    References
    ----------
    Equilibrium of :func:`barwright.mechanics.corner.statics.settle`, solved at each place;
    checked against a multibody engine.

    Examples
    --------
    >>> import barwright as bw
    >>> setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> table = nut_table(setup, measured="400 mm", wanted=bw.Wanted(height="410 mm"))
    >>> table.correction.correcting_sense.value, f"{table.correction.correcting_turns:.2f}"
    ('clockwise', '1.67 turn')
    """
    height = None
    if measured is not None:
        height = to_kind(measured, LENGTH, key="measured", allowed="positive")
    return nut_table_of(corner_of(setup), measured=height, wanted=wanted)


def nut_table_of(corner: Corner, *, measured: Quantity | None, wanted: Wanted | None) -> NutTable:
    """Answer :func:`nut_table` of a corner.

    Parameters
    ----------
    corner : Corner
        The corner.
    measured : Quantity, optional
        Hub to arch with the nut where it is set.
    wanted : Wanted, optional
        The wanted height.

    Returns
    -------
    NutTable
    """
    missing, fixed = MissingFigures(corner.setup), corner.setup.adjuster is None
    if found := missing.tried(lambda: _nut_table(corner, measured, wanted)):
        return found
    needed = missing.findings("needed for the table of the nut", AskedFor.NUT)
    return NutTable(
        verdict=Verdict.NOTHING_TO_TURN if fixed else Verdict.NEEDS_FIGURES,
        findings=(_fixed(),) if fixed else needed,
        fit=fit_of(corner),
    )


def _nut_table(corner: Corner, measured: Quantity | None, wanted: Wanted | None) -> NutTable:
    """Answer :func:`nut_table` for a corner with all figures it needs."""
    fit, spring = fit_of(corner), corner.torsional_rates
    if spring is None or not corner.lever_closes:
        return NutTable(verdict=Verdict.DOES_NOT_FIT, findings=fit.reasons, fit=fit)
    adjuster = corner.setup.adjuster
    if adjuster is None:
        return NutTable(verdict=Verdict.NOTHING_TO_TURN, findings=(_fixed(),), fit=fit)
    if fit.verdict is Verdict.DOES_NOT_FIT or measured is None:
        table = _listed(corner, spring, adjuster)
        if wanted is not None and fit.verdict is not Verdict.DOES_NOT_FIT:
            table = _towards(table, corner, ThreadHeights(corner, spring, offset=0.0), wanted)
        return attrs.evolve(table, findings=(*table.findings, *unstated_place(corner)))
    return _from_reading(corner, spring, adjuster, stood(corner, measured), wanted or Wanted())


def _listed(corner: Corner, spring: TorsionalRates, adjuster: Adjuster) -> NutTable:
    """List what each turn gives."""
    rows, now, fit = tuple(nut_rows(corner, spring)), RestingCorner(corner, spring), fit_of(corner)
    unfit = fit.verdict is Verdict.DOES_NOT_FIT
    return NutTable(
        verdict=Verdict.DOES_NOT_FIT if unfit else Verdict.LISTED,
        findings=tuple(dict.fromkeys((*fit.open_findings, *now.findings(), *_unsafe(now)))),
        cautions=_cautions(corner.setup, rows),
        fit=fit,
        turned_part=turned(adjuster),
        bolt_datum=bolt_datum(adjuster),
        raising_sense=raising_sense(corner),
        height_uncertainty=quantity(now.height_uncertainty(), LENGTH),
        table_rows=rows,
        nut_curve=nut_curve(corner, spring),
    )


def _unsafe(now: RestingCorner) -> Iterator[Finding]:
    """Say why the nut must not stay where it is set."""
    for _, finding in now.forbidden():
        yield finding


def _fixed() -> Finding:
    text = (
        "a fixed socket holds the bar, and only other teeth change the height. Plan again for the "
        "height you want"
    )
    return Finding(topic=Topic.CLOCKING, text=text)


# -- What must be known -----------------------------------------------------------------


def _cautions(setup: Setup, rows: tuple[NutRow, ...]) -> tuple[Caution, ...]:
    """List the cautions for turning the nut."""
    adjuster = setup.adjuster
    is_bolt = turned(adjuster) is TurnedPart.BOLT
    is_towed = setup.chassis.drive == "none"
    concerned = {
        Caution.BOTH_SIDES_BY_TURNS,
        Caution.FULL_BOLT if is_bolt else Caution.FULL_NUT,
        Caution.ON_ITS_COUPLING if is_towed else Caution.AFTER_HEIGHT_CHANGE,
    }
    if adjuster is not None and adjuster.spacer.magnitude:
        concerned.add(Caution.SPACER)
    if any(row.slack_at_droop for row in rows):
        concerned.add(Caution.SLACK_AT_DROOP)
    return tuple(caution for caution in Caution if caution in concerned)


# -- A turn to make ---------------------------------------------------------------------


def _from_reading(
    corner: Corner,
    spring: TorsionalRates,
    adjuster: Adjuster,
    measured: float,
    wanted: Wanted,
) -> NutTable:
    """Answer for a corner that is known by its measured height [m]."""
    computed = RestingCorner(corner, spring)
    if may_be_on_stop(corner, measured):
        return _refused(
            _listed(corner, spring, adjuster),
            Verdict.OUT_OF_REACH,
            says_nothing("on a stop, so its height says nothing about the spring", measured),
        )
    read = corner.beside(corner.setup.with_reading(height=quantity(measured, LENGTH)))
    table = _listed(read, spring, adjuster)
    if table.set_row.support is not Support.BAR:
        words = "on other springs, so its height says nothing about the bar"
        return _refused(table, Verdict.OUT_OF_REACH, says_nothing(words, measured))
    offset = measured - computed.height
    found = _towards(table, read, ThreadHeights(read, spring, offset=offset), wanted)
    if found.correction is None:
        return found
    unexplained = far_off(offset, left_open=computed.height_uncertainty())
    return attrs.evolve(found, findings=(*found.findings, *unexplained))


def _towards(table: NutTable, corner: Corner, thread: ThreadHeights, wanted: Wanted) -> NutTable:
    """Add the turn that gives the wanted height to a table, or say why there is none."""
    height = metres(wanted_height(corner, wanted))
    correction = thread.corrected(height)
    if correction is None:
        return _refused(table, Verdict.OUT_OF_REACH, thread.out_of_reach(height))
    setup = attrs.evolve(corner.setup, nut_turns=correction.nut_turns, pin_distance=None)
    there = RestingCorner(corner.beside(setup), thread.spring)
    for verdict, finding in there.forbidden():
        return _refused(table, verdict, finding)
    return attrs.evolve(
        table,
        verdict=Verdict.REACHED,
        findings=(*table.fit.reasons, *there.findings()),
        correction=correction,
    )


def _refused(table: NutTable, verdict: Verdict, reason: Finding) -> NutTable:
    findings = (reason, *(one for one in table.findings if one != reason))
    return attrs.evolve(table, verdict=verdict, findings=findings)


def _corrected(part: TurnedPart, found: NutCorrection) -> str:
    """Say which turn to make, and its result."""
    stands = f"{shown(found.height, 0)} hub to arch"
    if found.correcting_sense is None:
        return f"Leave the {part.value} where it is: the corner stands at {stands}."
    turns = abs(si(found.correcting_turns, TURNS))
    return (
        f"Turn the {part.value} {turns:.2f} turns ({round(turns * FLATS)} flats) "
        f"{found.correcting_sense.value}, seen from {part.seen_from}, to "
        f"{shown(found.pin_distance, 1)}: the corner then stands at {stands}."
    )


# Rounding of turns that were themselves found from others.
_ROUNDING = 1e-6

"""Ask what becomes of every bar on every vehicle of a registry."""

from __future__ import annotations

from collections import Counter

import attrs

from barwright.analysis.across.processes import done_by_processes
from barwright.analysis.answer import Answer
from barwright.family.count import Counted, FamilyCount
from barwright.family.family import Family
from barwright.family.row import FamilyRow, PlainRow, row_of
from barwright.family.vehicle import family_question
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.registry.files.user_cache import Progress
from barwright.registry.registry import Registry

__all__ = ["FamilyMatrix", "family_matrix", "rows_of_family"]

# Fewer stretches of vehicles than this for a process are done before it has begun.
_FEWEST = 2


@attrs.frozen(kw_only=True, repr=False)
class FamilyMatrix(Answer):
    """Answer to :func:`family_matrix`.

    Parameters
    ----------
    verdict : Verdict
        Listed where a bar fits; else does not fit, or needs more figures.
    findings : tuple of Finding
        None; what stands against a pair is in its row.
    cautions : tuple of Caution
        None, because the matrix leads to no work.
    count : FamilyCount
        How many pairs there are, and what became of them.
    rows : tuple of FamilyRow
        Those that spline keys and lengths do not exclude, by vehicle, axle, side and bar; all
        if these were asked for.
    """

    count: FamilyCount
    rows: tuple[FamilyRow, ...]

    @property
    def headline(self) -> str:
        """How many pairs there are, and how many of them fit and live."""
        return self.count.headline


@checks_arguments
def family_matrix(
    registry: Registry,
    *,
    bars: str = "",
    vehicles: str = "",
    height: FigureLike | None = None,
    clocking: bool = False,
    pruned: bool = False,
    processes: int | None = None,
    progress: Progress | None = None,
) -> FamilyMatrix:
    """Answer what becomes of every bar on every vehicle of a registry.

    Each corner keeps its other standard parts and its standard load.

    Parameters
    ----------
    registry : Registry
        Bars and vehicles.
    bars, vehicles : str
        Words that describe those to look at, as :meth:`Registry.parts` and
        :meth:`Registry.vehicles` take them; all if left out.
    height : str or Quantity, optional
        Hub to arch, at which all are rated; each axle's standard height if left out.
    clocking : bool
        Whether the teeth are looked for that bring this height, which takes longer.
    pruned : bool
        Whether the pairs that spline keys and lengths exclude are rows too.
    processes : int, optional
        The most processes to share the work; as for :func:`check_jobs`.
    progress : callable, optional
        Called with two counts as vehicles are done: of these, and of all.

    Returns
    -------
    FamilyMatrix

    References
    ----------
    The answers of ``length_fit``, ``rates``, ``strength`` and ``reindex`` to each pair.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> matrix = family_matrix(Registry.demo(), bars="firm", vehicles="fells short")
    >>> [f"{row.bar_id} {row.wheel_rate_change:+.1f} %" for row in matrix.rows if row.is_offered]
    ['fells:bar/short-firm +30.6 %', 'fells:bar/short-firm +30.6 %']
    """
    question = family_question(height=height, clocking=clocking, pruned=pruned)
    family = Family.of(registry, question, bars=bars, vehicles=vehicles)
    rows, counted = rows_of_family(family, processes=processes, progress=progress)
    count = FamilyCount.of(counted, vehicles=len(family.vehicle_ids), bars=len(family.bars))
    return FamilyMatrix(
        verdict=count.verdict, findings=(), count=count, rows=tuple(map(row_of, rows))
    )


def rows_of_family(
    family: Family, *, processes: int | None, progress: Progress | None
) -> tuple[list[PlainRow], Counted]:
    """Put every bar of a family on each of its vehicles, by several processes if it is worth it.

    Parameters
    ----------
    family : Family
        Bars and vehicles, and what is asked of each pair.
    processes : int, optional
        The most processes to share the work.
    progress : callable, optional
        Called with two counts as vehicles are done: of these, and of all.

    Returns
    -------
    list of dict, Counter
        The plain rows, and pairs by what became of them.
    """
    rows: list[PlainRow] = []
    counted: Counted = Counter()
    stretches, done = family.stretches(), 0
    found = done_by_processes(
        family.rows_of, stretches, processes=processes, fewest=_FEWEST, at_a_time=1
    )
    for vehicles, one in zip(stretches, found, strict=True):
        rows += one.rows
        counted += one.counted
        done += len(vehicles)
        if progress is not None:
            progress(done, len(family.vehicle_ids))
    return rows, counted

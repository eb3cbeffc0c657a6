"""Write the family matrix into a file, however large it is."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Mapping, Sequence
from os import PathLike
from pathlib import Path

import attrs

from barwright.analysis.answer import Answer
from barwright.computed_once import cached_property
from barwright.family.count import Counted, FamilyCount
from barwright.family.family import Family
from barwright.family.family_rows import table_of
from barwright.family.vehicle import FamilyQuestion, family_question
from barwright.parted.run import write_parted
from barwright.parted.work import ListedWork, PartTable
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.registry.files.user_cache import Progress
from barwright.registry.lock import lock_of, lock_text
from barwright.registry.registry import Registry
from barwright.units import LENGTH, si

__all__ = ["FamilyFile", "write_family_matrix"]

# Between group and word, neither of which holds it.
_MARK = "/"


@attrs.frozen(kw_only=True, repr=False)
class FamilyFile(Answer):
    """Answer to :func:`write_family_matrix`.

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
    file : str
        File with the rows.
    pieces : int
        In how many pieces they were computed.
    earlier : int
        How many of these were there before, from a run that was interrupted.
    """

    count: FamilyCount
    file: str
    pieces: int
    earlier: int

    @property
    def headline(self) -> str:
        """How many pairs there are, and how many of them fit and live."""
        return self.count.headline


@checks_arguments
def write_family_matrix(
    registry: Registry,
    output: str | PathLike[str],
    *,
    bars: str = "",
    vehicles: str = "",
    height: FigureLike | None = None,
    clocking: bool = False,
    pruned: bool = False,
    processes: int | None = None,
    client: object = None,
    progress: Progress | None = None,
) -> FamilyFile:
    """Write the rows of :func:`family_matrix` into a Parquet file, however many they are.

    The rows are computed in parts, each a file in the folder ``OUTPUT.parts``, until the whole
    is put together.  What was interrupted goes on where it was, if it is asked again.

    Parameters
    ----------
    registry : Registry
        Bars and vehicles.
    output : path
        The file; it appears whole or not at all.
    bars, vehicles : str
        Words that describe those to look at; all if left out.
    height : str or Quantity, optional
        Hub to arch, at which all are rated; each axle's standard height if left out.
    clocking : bool
        Whether the teeth are looked for that bring this height, which takes longer.
    pruned : bool
        Whether the pairs that spline keys and lengths exclude are rows too.
    processes : int, optional
        The most processes to share the work; as for :func:`check_jobs`.
    client : distributed.Client, optional
        A Dask cluster that does the work instead; its workers must see the same packs, and the
        output under the same name.
    progress : callable, optional
        Called with two counts after each part: of those that are done, and of all.

    Returns
    -------
    FamilyFile

    Raises
    ------
    FileError
        F110 for an output that is no Parquet file, F201 or F202 if it cannot be written, F203 for
        parts of another registry or question beside it.
    MissingExtraError
        X101 if ``pyarrow`` is not installed.
    ClusterError
        C101 if the cluster cannot do a part.

    References
    ----------
    The same rows as :func:`family_matrix` gives, held against them.
    """
    question = family_question(height=height, clocking=clocking, pruned=pruned)
    work = FamilyWork(registry, question, bars=bars, vehicles=vehicles)
    written = write_parted(
        work, Path(output), processes=processes, client=client, progress=progress
    )
    family = work.family
    counted: Counted = Counter({_unjoined(name): pairs for name, pairs in written.counted.items()})
    count = FamilyCount.of(counted, vehicles=len(family.vehicle_ids), bars=len(family.bars))
    return FamilyFile(
        verdict=count.verdict,
        findings=(),
        count=count,
        file=str(output),
        pieces=written.parts,
        earlier=written.earlier,
    )


@attrs.frozen(slots=False, eq=False)
class FamilyWork(ListedWork[Sequence[str]]):
    """The rows of a matrix as work in parts, some vehicles each.

    Parameters
    ----------
    registry : Registry
        Bars and vehicles; a worker opens the same packs again, or refuses others.
    asked : FamilyQuestion
        What is asked of each pair.
    bars, vehicles : str
        Words that describe them.
    at_a_time : int, optional
        Vehicles of a part; as many as is fast if left out.
    """

    registry: Registry
    asked: FamilyQuestion
    bars: str = attrs.field(kw_only=True)
    vehicles: str = attrs.field(kw_only=True)
    at_a_time: int | None = attrs.field(default=None, kw_only=True)

    @cached_property
    def family(self) -> Family:
        """The bars and vehicles."""
        return Family.of(self.registry, self.asked, bars=self.bars, vehicles=self.vehicles)

    @cached_property
    def question(self) -> Mapping[str, str | float | bool | None]:
        """What the rows depend on."""
        asked, lock = self.asked, lock_text(lock_of(self.registry))
        return {
            "registry": hashlib.sha256(lock.encode()).hexdigest(),
            "bars": self.bars,
            "vehicles": self.vehicles,
            "height": None if asked.height is None else si(asked.height, LENGTH),
            "clocking": asked.clocking,
            "pruned": asked.with_pruned,
        }

    @cached_property
    def pieces(self) -> Sequence[Sequence[str]]:
        """The vehicles, some at a time."""
        return self.family.stretches(at_a_time=self.at_a_time)

    def of_pieces(self, pieces: Sequence[Sequence[str]]) -> PartTable:
        """Compute the rows of some vehicles."""
        found = self.family.rows_of([one for piece in pieces for one in piece])
        joined = {_MARK.join(name): pairs for name, pairs in found.counted.items()}
        return PartTable(table_of(found.rows), joined)


def _unjoined(name: str) -> tuple[str, str]:
    group, _, word = name.partition(_MARK)
    return group, word

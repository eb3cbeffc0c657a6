"""From a job file to the setups of its corners: ids become records."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from os import PathLike
from pathlib import Path
from typing import Any

import attrs

from barwright.errors import BarwrightError, DocumentError, JobError, SchemaError
from barwright.parts.arguments import checks_arguments
from barwright.parts.bar import Side
from barwright.parts.fields import angle, mass, most_cuts, named, size, turns, turns_left
from barwright.parts.record import Part, Record
from barwright.parts.setup import PLACES, Load, LoadKind, Setup, Wanted
from barwright.parts.source import About, Figure
from barwright.registry.files.document import read_toml
from barwright.registry.files.key_lines import located
from barwright.registry.jobs.sides import SIDES, merged, replaced, unused_sides
from barwright.registry.jobs.variants import variants
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.pack import KINDS
from barwright.registry.packs.structure import Structurer, problems_of
from barwright.registry.registry import Registry
from barwright.units import Quantity

__all__ = ["Job", "JobCorner", "load_job", "load_jobs"]


@attrs.frozen(kw_only=True)
class JobCorner:
    """One corner of a job.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    present : Setup
        The corner as it is now.
    wanted : Wanted
        Where it is to stand.
    """

    setup: Setup
    present: Setup
    wanted: Wanted


@attrs.frozen(kw_only=True)
class Job:
    """A job: a vehicle, what is to be on it, and where it is to stand.

    Parameters
    ----------
    title : str
        What the shop calls it.
    corners : tuple of JobCorner
        The corners to work on.
    variant : str
        Which of several vehicles and parts it is; empty if the job names one.
    """

    title: str
    corners: tuple[JobCorner, ...]
    variant: str = ""


@attrs.frozen(kw_only=True)
class _PartNames:
    """Ids of the parts that differ from standard."""

    arm: str | None = None
    bar: str | None = None
    tube: str | None = None
    adjuster: str | None = None
    damper: str | None = None


@attrs.frozen(kw_only=True, field_transformer=named)
class _Present(_PartNames):
    """What is on the vehicle now, where it differs from standard."""

    arm_tooth: int = 0
    anchor_tooth: int = 0
    nut_turns: Quantity = attrs.field(default="0 turn", converter=turns)


@attrs.frozen(kw_only=True, field_transformer=named)
class _Load(Record):
    """What a corner carries: one of two figures."""

    scale_reading: Quantity | None = attrs.field(
        default=None, converter=attrs.converters.optional(mass)
    )
    sprung_mass: Quantity | None = attrs.field(
        default=None, converter=attrs.converters.optional(mass)
    )


@attrs.frozen(kw_only=True, field_transformer=named)
class _Wanted:
    """Where a corner is to stand: one of three wishes, and what must not be lost for it."""

    height: Quantity | None = attrs.field(default=None, converter=attrs.converters.optional(size))
    arm_angle: Quantity | None = attrs.field(
        default=None, converter=attrs.converters.optional(angle)
    )
    keep_standard: bool = False
    cuts: int | None = attrs.field(default=None, converter=attrs.converters.optional(most_cuts))
    reserve: Quantity | None = attrs.field(
        default=None, converter=attrs.converters.optional(turns_left)
    )


@attrs.frozen(kw_only=True)
class _JobFile:
    """The keys of a job file; its tables are read again for each side."""

    vehicle: str
    corners: tuple[str, ...]
    wanted: dict[str, Any]
    title: str = "Job"
    parts: dict[str, Any] = attrs.field(factory=dict)
    present: dict[str, Any] = attrs.field(factory=dict)
    load: dict[str, Any] = attrs.field(factory=dict)


@checks_arguments
def load_job(path: str | PathLike[str], registry: Registry) -> Job:
    r"""Read a job file that names one vehicle and one of each part.

    Parameters
    ----------
    path : path
        A TOML file; ``docs/job-file.md`` lists its keys.
    registry : Registry
        Where its vehicle and parts are looked up.

    Returns
    -------
    Job

    Raises
    ------
    FileError
        If it cannot be read or is not TOML.
    DocumentError
        D101, with every problem in it, or with J102 if it names several.

    Examples
    --------
    >>> import tempfile
    >>> from barwright.registry.registry import Registry
    >>> text = 'vehicle = "fells short 2014"\ncorners = ["front left"]\nwanted.height = "380 mm"'
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "job.toml"
    ...     _ = file.write_text(text, encoding="utf-8")
    ...     load_job(file, Registry.discover()).corners[0].setup.chassis.id
    'fells:chassis/short'
    """
    jobs = load_jobs(path, registry)
    if len(jobs) > 1:
        several = JobError(
            "J102",
            value=f"{len(jobs)} variants",
            expected="one vehicle and one of each part",
            remedy="name one of each, or write a job for each of them",
            file=str(path),
        )
        raise DocumentError("D101", problems=(several,), file=str(path))
    return jobs[0]


@checks_arguments
def load_jobs(path: str | PathLike[str], registry: Registry) -> tuple[Job, ...]:
    r"""Read a job file that may name several vehicles, or several of a part.

    Parameters
    ----------
    path : path
        A TOML file; ``docs/job-file.md`` lists its keys.
    registry : Registry
        Where its vehicles and parts are looked up.

    Returns
    -------
    tuple of Job
        One for each combination, in the order of the file.

    Raises
    ------
    FileError
        If it cannot be read or is not TOML.
    DocumentError
        D101, with every problem in it.

    Examples
    --------
    >>> import tempfile
    >>> from barwright.registry.registry import Registry
    >>> text = 'vehicle = ["fells:chassis/short", "fells:chassis/long"]\n'
    >>> text += 'corners = ["front left"]\nwanted.keep_standard = true'
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "job.toml"
    ...     _ = file.write_text(text, encoding="utf-8")
    ...     [job.variant for job in load_jobs(file, Registry.discover())]
    ['vehicle fells:chassis/short', 'vehicle fells:chassis/long']
    """
    table = read_toml(Path(path))
    jobs: list[Job] = []
    problems: list[BarwrightError] = []
    for variant, single in variants(table, str(path)):
        try:
            jobs.append(_Reader(str(path), registry, single).job(variant))
        except (BarwrightError, ExceptionGroup) as error:
            problems += problems_of(error)
    problems += () if problems else _twice(jobs)
    if problems:
        found = located([problem.within(file=str(path)) for problem in problems])
        # Sides and variants read the same tables: what they share is said once.
        once = {str(p): p for p in sorted(found, key=lambda p: p.line or math.inf)}
        raise DocumentError("D101", problems=tuple(once.values()), file=str(path))
    return tuple(jobs)


def _twice(jobs: Sequence[Job]) -> Iterator[BarwrightError]:
    """Refuse variants that name one vehicle with the same parts in two ways."""
    seen: dict[tuple[Any, ...], str] = {}
    for job in jobs:
        setups = [corner.setup for corner in job.corners]
        key = tuple((one.chassis.id, *(part.id for part in one.parts.values())) for one in setups)
        if key in seen:
            yield SchemaError(
                "S207",
                value=job.variant,
                expected=f"another vehicle, or other parts, than {seen[key]}",
                remedy="name each vehicle and each part once",
                key=job.variant.partition(" ")[0],
            )
        seen[key] = job.variant


@attrs.frozen(kw_only=True)
class _Tables:
    """The tables of a job file, as read for one side."""

    load: Load | None
    parts: dict[str, Any]
    wanted: Wanted
    now: dict[str, Any]


def _readable(table: Mapping[str, Any]) -> _JobFile:
    """Take what is of the right type from a job file whose own keys have problems."""
    # One that is missing or no table has been told already.
    idle: dict[str, Any] = {"parts": {}, "present": {}, "load": {}, "wanted": _KEEP}
    tables = {n: table[n] if isinstance(table.get(n), dict) else idle[n] for n in idle}
    return _JobFile(vehicle="", corners=(), **tables)


_KEEP = {"keep_standard": True}


class _Reader:
    """Reads one variant of a job file, all problems of all corners in one pass."""

    def __init__(self, file: str, registry: Registry, table: Mapping[str, Any]) -> None:
        self._registry = registry
        self._table = table
        self._structurer = Structurer(file=file)

    def job(self, variant: str) -> Job:
        """Make the job."""
        read = _Collected()
        head = read(self._head)
        if head is None:
            # What is wrong in the tables is told in the same run.
            head = _readable(self._table)
            read(self._idle_sides, head, set())
            read.raise_problems()
        corners = [read(self._corner, head, name, index) for index, name in enumerate(head.corners)]
        used = {name.rpartition(" ")[2] for name in head.corners}
        read(self._idle_sides, head, used)
        # A corner that is no corner is told already; its side may have been meant.
        read.problems += unused_sides(self._table, used) if used <= SIDES else ()
        read.raise_problems()
        return Job(title=head.title, corners=tuple(corners), variant=variant)

    def _head(self) -> _JobFile:
        head = self._structurer.structure(self._table, _JobFile)
        if not head.corners:
            raise SchemaError(
                "S202",
                value="no corner",
                expected="at least one",
                remedy="write corners = ['front left', 'front right']",
                key="corners",
            )
        if len(set(head.corners)) < len(head.corners):
            raise SchemaError(
                "S207",
                value=", ".join(head.corners),
                expected="each corner once",
                remedy="leave the repeated one out",
                key="corners",
            )
        return head

    def _idle_sides(self, head: _JobFile, used: set[str]) -> None:
        """Read the tables of sides that no corner uses, so that a slip in them is found."""
        read = _Collected()
        for side in Side:
            named = any(side.value in t for t in (head.load, head.parts, head.wanted, head.present))
            if side.value not in used and (named or not used):
                read(self._tables, head, side)
        read.raise_problems()

    def _tables(self, head: _JobFile, side: Side) -> _Tables:
        """Read all tables for one side, all problems in one pass."""
        read = _Collected()
        tables = _Tables(
            load=read(self._load, head.load, side),
            parts=read(self._changes, head.parts, side),
            wanted=read(self._wanted, head.wanted, side),
            now=read(self._now, head.present, side),
        )
        read.problems = [self._on_side(problem, side) for problem in read.problems]
        read.raise_problems()
        return tables

    def _on_side(self, problem: BarwrightError, side: Side) -> BarwrightError:
        """Point at the table of one side, where it is that one that holds the key."""
        table, _, rest = problem.key.partition(".")
        own = self._table.get(table)
        own = own.get(side.value) if isinstance(own, dict) else None
        if isinstance(own, dict) and re.split(r"[.\[]", rest)[0] in own:
            problem.key = f"{table}.{side.value}.{rest}"
        return problem

    def _corner(self, head: _JobFile, name: str, index: int) -> JobCorner:
        read = _Collected()
        standard = read(self._standard, head.vehicle, name, index)
        side = name.rpartition(" ")[2]
        tables: Any = read(self._tables, head, Side(side)) if side in SIDES else None
        read.raise_problems()
        present = read(self._present, standard, tables)
        read.raise_problems()
        setup = self._with_parts(_as_standard(present, standard), tables.parts)
        # A bar that stays keeps its clocking where its socket stays; else it goes
        # on by its blanks.
        if setup.bar == present.bar:
            kept = {
                "arm_tooth": setup.arm == present.arm,
                "anchor_tooth": setup.tube == present.tube,
            }
            teeth = {name: getattr(present, name) for name, stays in kept.items() if stays}
            setup = attrs.evolve(setup, **teeth)
        return JobCorner(setup=setup, present=present, wanted=tables.wanted)

    def _with_parts(self, standard: Setup, parts: Mapping[str, Any]) -> Setup:
        """Put on what is to be on the vehicle."""
        try:
            return standard.with_parts(**parts)
        except BarwrightError as error:
            raise error.within(key="parts") from None

    def _present(self, standard: Setup, tables: _Tables) -> Setup:
        """Put on the vehicle what is on it now."""
        load: dict[str, Any] = {} if tables.load is None else {"load": tables.load}
        try:
            parts = {name: part for name, part in tables.now.items() if name in PLACES}
            rest = {name: value for name, value in tables.now.items() if name not in PLACES}
            return attrs.evolve(standard.with_parts(**parts), **rest, **load)
        except BarwrightError as error:
            if error.key == "load.mass":
                error.key = "load.scale_reading"
                raise
            raise error.within(key="present") from None

    def _standard(self, vehicle: str, corner: str, index: int) -> Setup:
        try:
            return self._registry.setup(vehicle, corner=corner)
        except BarwrightError as error:
            error.key = f"corners[{index}]" if error.code == "L103" else "vehicle"
            raise

    def _changes(self, table: Mapping[str, Any], side: Side) -> dict[str, Any]:
        names = self._structurer.structure(merged(table, side), _PartNames, key="parts")
        return self._parts(names, "parts")

    def _now(self, table: Mapping[str, Any], side: Side) -> dict[str, Any]:
        """Read what is on the vehicle now, as fields of a setup."""
        now = self._structurer.structure(merged(table, side), _Present, key="present")
        return self._parts(now, "present") | {
            "arm_tooth": now.arm_tooth,
            "anchor_tooth": now.anchor_tooth,
            "nut_turns": now.nut_turns,
        }

    def _parts(self, names: _PartNames, key: str) -> dict[str, Any]:
        """Look up every part that is named, and refuse one of another kind."""
        read = _Collected()
        found: dict[str, Any] = {}
        for field in attrs.fields(_PartNames):
            name = getattr(names, field.name)
            if name is not None:
                found[field.name] = read(self._part, name, field.name, key)
        read.raise_problems()
        return found

    def _part(self, name: str, kind: str, key: str) -> Part:
        try:
            part = self._registry.part(name)
        except BarwrightError as error:
            near = [one for k in _kinds(kind) for one in self._registry.ids(k)]
            error.remedy = nearest(name, near)
            raise error.within(key=f"{key}.{kind}") from None
        if not isinstance(part, PLACES[kind]):
            raise JobError(
                "J101",
                value=name,
                expected=f"the id of a {' or a '.join(_kinds(kind)).replace('-', ' ')}",
                remedy=f"name one like '{part.id.partition(':')[0]}:{kind}/…'",
                key=f"{key}.{kind}",
            )
        return part

    def _load(self, table: Mapping[str, Any], side: Side) -> Load | None:
        own = replaced(table, side)
        if not own and side.value not in table:
            return None
        read = self._structurer.structure(own, _Load, key="load")
        key = _only_one("load", {"scale_reading", "sprung_mass"}, own)
        kind = LoadKind.SCALE_READING if key == "scale_reading" else LoadKind.SPRUNG
        figure: Figure = read.about[key]
        return Load(kind=kind, mass=figure.value, about=About({"mass": figure}))

    def _wanted(self, table: Mapping[str, Any], side: Side) -> Wanted:
        own = replaced(table, side)
        read = self._structurer.structure(own, _Wanted, key="wanted")
        key = _only_one("wanted", {"height", "arm_angle", "keep_standard"}, own)
        if key == "keep_standard" and not read.keep_standard:
            raise SchemaError(
                "S207",
                value=False,
                expected="true, or another wish",
                remedy="write keep_standard = true, or a height",
                key="wanted.keep_standard",
            )
        return Wanted(
            height=read.height, arm_angle=read.arm_angle, cuts=read.cuts, reserve=read.reserve
        )


class _Collected:
    """Calls readers one after the other and keeps their problems for the end."""

    def __init__(self) -> None:
        self.problems: list[BarwrightError] = []

    def __call__(self, reader: Any, *arguments: Any) -> Any:  # noqa: ANN401 - any reader
        """Return what a reader returns, or nothing if it has problems."""
        try:
            return reader(*arguments)
        except (BarwrightError, ExceptionGroup) as error:
            self.problems += problems_of(error)
            return None

    def raise_problems(self) -> None:
        """Raise everything at once."""
        if self.problems:
            raise ExceptionGroup("", self.problems)


def _kinds(place: str) -> list[str]:
    """Kinds of record that may stand in a place of a corner."""
    return [kind for kind, cls in KINDS.items() if cls in PLACES[place]]


def _as_standard(present: Setup, standard: Setup) -> Setup:
    """Take the load and the nut that are there, and the parts that left the works."""
    built: dict[str, Any] = {place: getattr(standard, place) for place in PLACES}
    if standard.adjuster is None:
        built["nut_turns"] = standard.nut_turns
    return attrs.evolve(present, **built, arm_tooth=0, anchor_tooth=0)


def _only_one(table: str, keys: set[str], given: Mapping[str, Any]) -> str:
    """Return the one of several keys that is given."""
    found = sorted(keys & set(given))
    if len(found) != 1:
        raise SchemaError(
            "S207" if found else "S202",
            value=" and ".join(found) or "none",
            expected=f"one of {', '.join(sorted(keys))}",
            remedy="leave all but one out" if found else "say one",
            key=table,
        )
    return found[0]

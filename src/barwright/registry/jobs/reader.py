"""From the tables of a job file to the setups of its corners: ids become records."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, TypeVar

import attrs

from barwright.errors import BarwrightError, JobError, SchemaError
from barwright.parts.bar import Side
from barwright.parts.common.record import Part
from barwright.parts.common.source import About, Figure
from barwright.parts.load import Load, LoadKind
from barwright.parts.measurements.whole_vehicle import WholeVehicle
from barwright.parts.setup import PLACES, Setup
from barwright.parts.wanted import Wanted
from barwright.registry.jobs.collector import Collector
from barwright.registry.jobs.head import read_head
from barwright.registry.jobs.inline.inline import InlineParts, refuse_unclear_vehicle
from barwright.registry.jobs.job import Job, JobCorner, WorkOrder
from barwright.registry.jobs.keys import (
    NUT,
    JobKeys,
    LoadKeys,
    MeasuredKeys,
    PartNames,
    PresentKeys,
    WantedKeys,
)
from barwright.registry.jobs.measured import (
    MOST_READINGS,
    Measured,
    as_read,
    height_changed,
    not_measured,
    reading,
    wrong_count,
)
from barwright.registry.jobs.sides import SIDES, TABLES, merged, replaced, unused_sides
from barwright.registry.lookup import absent_pack
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.format.keys import key_of, written_key
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.tables.structure import Structurer
from barwright.registry.registry import Registry
from barwright.registry.usual.fill import UsualFigures

__all__ = ["JobReader"]

R = TypeVar("R", Part, Setup)


@attrs.frozen(kw_only=True)
class _Tables:
    """The tables of a job file, as read for one side."""

    load: Load | None
    measured: tuple[Measured, ...]
    parts: dict[str, Any]
    wish: WantedKeys
    now: dict[str, Any]


def _only_load(measured: tuple[Measured, ...]) -> Load | None:
    """Return what a corner weighed when it was measured: nobody said that it is to carry more.

    None where there are several readings, with ballast or without.
    """
    return measured[0].load if len(measured) == 1 else None


class JobReader:
    """Reads one variant of a job file, all problems of all corners in one pass."""

    def __init__(self, file: str, registry: Registry, table: Mapping[str, Any]) -> None:
        self._file = file
        self._registry = registry
        self._table = table
        self._structurer = Structurer(file=file)
        # Sides with the same load share its record, and what is computed of it.
        self._loads: list[tuple[Mapping[str, Any], Load]] = []
        # Puts usual figures into records, where the job allows it.
        self._usual: UsualFigures | None = None

    def job(self, variant: str) -> Job:
        """Make the job."""
        read = Collector()
        head = read(read_head, self._table, self._structurer)
        if head is None:
            # What is wrong in the tables is told in the same run.
            head = _readable(self._table)
            read(self._idle_sides, head, set())
        whole = read(self._whole_vehicle, head)
        read(refuse_unclear_vehicle, head)
        read.raise_problems()
        order = read(self._order, head.order)
        self._usual = UsualFigures() if head.assume else None
        corners = [read(self._corner, head, name, index) for index, name in enumerate(head.corners)]
        used = {name.rpartition(" ")[2] for name in head.corners}
        read(self._idle_sides, head, used)
        # A corner that is no corner is told already; its side may have been meant.
        read.problems += unused_sides(self._table, used) if used <= SIDES else ()
        read.raise_problems()
        return Job(
            title=head.title,
            corners=tuple(corners),
            variant=variant,
            vehicle=whole,
            order=order,
        )

    def _whole_vehicle(self, head: JobKeys) -> WholeVehicle | None:
        if "balance" not in self._table:
            return None
        return self._structurer.structure(head.balance, WholeVehicle, key="balance")

    def _order(self, table: Mapping[str, Any]) -> WorkOrder:
        return self._structurer.structure(table, WorkOrder, key="order")

    def _idle_sides(self, head: JobKeys, used: set[str]) -> None:
        """Read the tables of sides that no corner uses, so that a slip in them is found."""
        read = Collector()
        for side in Side:
            tables = (head.load, head.measured, head.parts, head.wanted, head.present)
            named = any(side.value in table for table in tables)
            if side.value not in used and (named or not used):
                read(self._tables, head, side)
        read.raise_problems()

    def _tables(self, head: JobKeys, side: Side) -> _Tables:
        """Read all tables for one side, all problems in one pass."""
        read = Collector()
        tables = _Tables(
            load=read(self._load, head.load, side),
            measured=read(self._measured, head.measured, side),
            parts=read(self._changes, head.parts, side),
            wish=read(self._wish, head.wanted, side),
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

    def _corner(self, head: JobKeys, name: str, index: int) -> JobCorner:
        read = Collector()
        side = name.rpartition(" ")[2]
        standard = read(self._standard, head, name, index)
        tables: Any = None
        if side in SIDES:
            read.problems = [self._on_side(problem, Side(side)) for problem in read.problems]
            tables = read(self._tables, head, Side(side))
        read.raise_problems()
        present = read(self._present, standard, tables)
        wanted = read(self._wanted, tables, Side(side))
        read.raise_problems()
        setup = self._with_parts(_as_standard(present, standard), tables.parts)
        # A bar that stays keeps its clocking where its socket stays; else it goes
        # on by its blanks.
        if setup.bar == present.bar:
            kept = {
                "arm_tooth": setup.arm == present.arm,
                "anchor_tooth": setup.anchor == present.anchor,
            }
            teeth = {name: getattr(present, name) for name, stays in kept.items() if stays}
            setup = attrs.evolve(setup, **teeth)
        # Where nothing changes there is one setup, and whoever asks builds one corner.
        to_be = present if setup == present else setup
        return JobCorner(setup=to_be, present=present, wanted=wanted)

    def _with_parts(self, standard: Setup, parts: Mapping[str, Any]) -> Setup:
        """Put on what is to be on the vehicle."""
        try:
            return standard.with_parts(**parts)
        except BarwrightError as error:
            raise error.within(key="parts") from None

    def _present(self, standard: Setup, tables: _Tables) -> Setup:
        """Put on the vehicle what is on it now."""
        stated = tables.load or _only_load(tables.measured)
        load: dict[str, Any] = {} if stated is None else {"load": stated}
        try:
            parts = {name: part for name, part in tables.now.items() if name in PLACES}
            rest = {name: value for name, value in tables.now.items() if name not in PLACES}
            now = attrs.evolve(standard.with_parts(**parts), **rest, **load)
            return as_read(now.with_readings([reading(now, one) for one in tables.measured]))
        except BarwrightError as error:
            if error.key == "load.mass":
                error.key = "load.scale_reading"
            if error.key == "load.scale_reading" or error.key.startswith("measured"):
                raise
            raise error.within(key="present") from None

    def _standard(self, head: JobKeys, corner: str, index: int) -> Setup:
        """Look up the vehicle's corner, with the parts that the job describes itself."""
        inline = InlineParts(self._file, self._registry, head, self._table)
        try:
            if head.vehicle is None:
                return self._as_assumed(inline.corner(corner))
            standard = self._registry.setup(head.vehicle, corner=corner)
        except BarwrightError as error:
            error.key = f"corners[{index}]" if error.code == "L103" else "vehicle"
            raise
        return self._as_assumed(inline.put_on(standard))

    def _as_assumed(self, record: R) -> R:
        return self._usual.put_into(record) if self._usual else record

    def _changes(self, table: Mapping[str, Any], side: Side) -> dict[str, Any]:
        own = merged(table, side)
        return self._parts(self._structurer.structure(own, PartNames, key="parts"), own, "parts")

    def _now(self, table: Mapping[str, Any], side: Side) -> dict[str, Any]:
        """Read what is on the vehicle now, as fields of a setup."""
        own = merged(table, side)
        now = self._structurer.structure(own, PresentKeys, key="present")
        return self._parts(now, own, "present") | {
            "arm_tooth": now.arm_tooth,
            "anchor_tooth": now.anchor_tooth,
            **({name: getattr(now, name) for name in NUT} if NUT & own.keys() else {}),
            "about": now.about,
        }

    def _parts(self, names: PartNames, table: Mapping[str, Any], key: str) -> dict[str, Any]:
        """Look up every part that is named, and refuse one of another kind."""
        read = Collector()
        found: dict[str, Any] = {}
        for place in PLACES:
            name = getattr(names, place)
            if name is not None:
                own_key = f"{key}.{written_key(place, table)}"
                found[place] = read(self._part, name, place, own_key)
        read.raise_problems()
        return found

    def _part(self, name: str, place: str, key: str) -> Part:
        try:
            part = self._as_assumed(self._registry.part(name))
        except BarwrightError as error:
            near = [one for kind in _kinds(place) for one in self._registry.ids(kind)]
            error.remedy = absent_pack(self._registry.store, name) or nearest(name, near)
            raise error.within(key=key) from None
        if not isinstance(part, PLACES[place]):
            raise JobError(
                "J101",
                value=name,
                expected=f"the id of a {' or a '.join(_kinds(place)).replace('-', ' ')}",
                remedy=f"name one like '{part.id.partition(':')[0]}:{key_of(place)}/…'",
                key=key,
            )
        return part

    def _load(self, table: Mapping[str, Any], side: Side) -> Load | None:
        own = replaced(table, side)
        if not own and side.value not in table:
            return None
        known = next((load for given, load in self._loads if given == own), None)
        if known is None:
            read = self._structurer.structure(own, LoadKeys, key="load")
            known = _load_of(read, own, key="load")
            self._loads.append((own, known))
        return known

    def _measured(self, table: Mapping[str, Any], side: Side) -> tuple[Measured, ...]:
        """Read what was measured: a table for one reading, a list of them for several."""
        listed = table.get(side.value)
        if isinstance(listed, list):
            if not 0 < len(listed) <= MOST_READINGS:
                raise wrong_count(len(listed), key=f"measured.{side.value}")
            read = Collector()
            keys = (f"measured.{side.value}[{index}]" for index in range(len(listed)))
            found = [read(self._measured_once, *one) for one in zip(listed, keys, strict=True)]
            read.raise_problems()
            return tuple(found)
        own = replaced(table, side)
        if not own and side.value not in table:
            return ()
        return (self._measured_once(own, "measured"),)

    def _measured_once(self, own: Mapping[str, Any], key: str) -> Measured:
        read = self._structurer.structure(own, MeasuredKeys, key=key)
        _only_one(key, {"height", "arm_angle"}, own)
        load = _load_of(read, own, key=key) if _LOADS & set(own) else None
        figures = {name: read.about[name] for name in _MEASURED if name in read.about}
        return Measured(figures=figures, load=load, key=key)

    def _wish(self, table: Mapping[str, Any], side: Side) -> WantedKeys:
        own = replaced(table, side)
        read = self._structurer.structure(own, WantedKeys, key="wanted")
        key = _only_one("wanted", _WISHES, own)
        if getattr(read, key) is False:
            raise SchemaError(
                "S207",
                value=False,
                expected="true, or another key of [wanted]",
                remedy=f"write {key} = true, or a height",
                key=f"wanted.{key}",
            )
        return read

    def _wanted(self, tables: _Tables, side: Side) -> Wanted:
        wish = tables.wish
        height = wish.height
        if wish.lower_by is not None or wish.raise_by is not None:
            heights = [one.figures.get("height") for one in tables.measured]
            if len(heights) != 1 or heights[0] is None:
                raise self._on_side(not_measured(wish, heights), side)
            height = height_changed(heights[0], wish)
        return Wanted(
            height=height,
            arm_angle=wish.arm_angle,
            same_height=wish.same_height,
            cuts=wish.cuts,
            thread_reserve=wish.reserve,
        )


_WISHES = {"height", "arm_angle", "keep_standard", "same_height", "lower_by", "raise_by"}

_LOADS = {"scale_reading", "sprung_mass"}
_MEASURED = ("height", "arm_angle", "nut_turns", "pin_distance")


def _load_of(read: LoadKeys, given: Mapping[str, Any], *, key: str) -> Load:
    """Return the load that a table gives."""
    name = _only_one(key, _LOADS, given)
    kind = LoadKind.SCALE_READING if name == "scale_reading" else LoadKind.SPRUNG
    figure: Figure = read.about[name]
    return Load(kind=kind, mass=figure.value, about=About({"mass": figure}))


def _readable(table: Mapping[str, Any]) -> JobKeys:
    """Take what is of the right type from a job file whose own keys have problems."""
    # One that is missing or no table has been told already.
    own = {"anchor": table.get("tube"), **table}
    tables = {name: own[name] for name in TABLES if isinstance(own.get(name), dict)}
    return JobKeys(vehicle=table.get("vehicle"), corners=(), **{"wanted": _KEEP, **tables})


_KEEP = {"keep_standard": True}


def _kinds(place: str) -> list[str]:
    """Kinds of record that may stand in a place of a corner."""
    return [kind for kind, cls in KINDS.items() if cls in PLACES[place]]


def _as_standard(present: Setup, standard: Setup) -> Setup:
    """Take the load and the nut that are there, and the parts that left the works."""
    built: dict[str, Any] = {place: getattr(standard, place) for place in PLACES}
    if standard.adjuster is None:
        built |= {"nut_turns": standard.nut_turns, "pin_distance": None}
    return attrs.evolve(present, **built, arm_tooth=0, anchor_tooth=0)


def _only_one(table: str, keys: set[str], given: Mapping[str, Any]) -> str:
    """Return the one of several keys that is given."""
    found = sorted(keys & set(given))
    if len(found) != 1:
        raise SchemaError(
            "S207" if found else "S202",
            value=" and ".join(found) or "none",
            expected=f"one of {', '.join(sorted(keys))}",
            remedy="keep only one of them" if found else "add one of them",
            key=table,
        )
    return found[0]

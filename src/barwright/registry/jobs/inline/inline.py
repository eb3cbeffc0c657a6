"""Parts that a job file describes itself: they fill gaps of a pack, or are a whole vehicle."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import attrs

from barwright.errors import SchemaError, UnknownNameError
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Axle, AxlePlace, Chassis, StandardParts
from barwright.parts.common.record import Part, Record
from barwright.parts.damper import Damper, GasCharge
from barwright.parts.setup import PLACES, Setup
from barwright.registry.jobs.collector import Collector
from barwright.registry.jobs.inline.fill import filled
from barwright.registry.jobs.inline.inline_records import InlineRecords, id_of
from barwright.registry.jobs.inline.unknown_vehicle import asked, directed, drive_of
from barwright.registry.jobs.keys import CORNERS, NUT, JobKeys
from barwright.registry.jobs.sides import SIDES, merged
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.format.keys import KIND_WORDS, OTHER_KEYS
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.registry import Registry
from barwright.units import UNKNOWN, unknown

__all__ = ["InlineParts", "refuse_unclear_vehicle"]

_INLINE = (*PLACES, "axle")

_ANCHORS = {word: cls for word, cls in KINDS.items() if cls in PLACES["anchor"]}


def refuse_unclear_vehicle(head: JobKeys) -> None:
    """Refuse a job that neither names nor describes a vehicle, or describes two axles as one.

    Parameters
    ----------
    head : JobKeys
        Keys of the job.

    Raises
    ------
    SchemaError
        S202 or S207.
    """
    if not any(getattr(head, place) for place in _INLINE):
        if head.vehicle is None:
            raise SchemaError(
                "S202",
                value="nothing",
                expected="a vehicle, or tables that describe one",
                remedy="name one above all tables, like vehicle = 'pack:chassis/name'; describe "
                "one that no pack has in [axle], [bar], [arm], [anchor] and [adjuster]",
                key="vehicle",
            )
        return
    if len({name.partition(" ")[0] for name in head.corners}) > 1:
        raise SchemaError(
            "S207",
            value=", ".join(head.corners),
            expected="corners of one axle, because the job describes the parts of one",
            remedy="write a job for each axle",
            key="corners",
        )


@attrs.frozen
class InlineParts:
    """The parts that one variant of a job file describes itself.

    Parameters
    ----------
    file : str
        Name of the job file.
    registry : Registry
        Where steels are looked up.
    head : JobKeys
        Its keys.
    table : mapping
        The whole file, as parsed.
    """

    file: str
    registry: Registry
    head: JobKeys
    table: Mapping[str, Any]

    def put_on(self, standard: Setup) -> Setup:
        """Fill the gaps of a vehicle's standard corner.

        Parameters
        ----------
        standard : Setup
            The corner as its pack has it.

        Returns
        -------
        Setup
            The same where the job describes no part of it.

        Raises
        ------
        ExceptionGroup
            J105 for what contradicts the pack, and whatever is wrong in the tables.
        """
        side, axle = standard.side, standard.axle
        tables, read = self._tables(side), Collector()
        if not tables:
            return standard
        read.problems += self._named_twice(side)
        parts: dict[str, Any] = dict(standard.parts)
        for place in tables.keys() - {"axle"}:
            parts[place] = read(self._filled, place, tables[place], parts.get(place))
        if "axle" in tables:
            axle = read(self._filled_axle, tables["axle"], standard)
        read.raise_problems()
        own: dict[str, Any] = {side.value: StandardParts(**parts)}
        return _standard(standard.chassis, attrs.evolve(axle, **own), side)

    def _filled(self, place: str, table: Mapping[str, Any], part: Part | None) -> Part:
        key = self._key(place)
        if part is None:
            raise SchemaError(
                "S207",
                value=f"[{key}]",
                expected=f"none, because this vehicle has no {place}",
                remedy="leave it out",
                key=key,
            )
        own, cls = dict(table), type(part)
        if place == "anchor" and own.pop("kind", None) is not None:
            cls = self._anchor_class(table)
        whole = _with_kind(own, "mounting", getattr(part, "mounting", None))
        return filled(part, self._records.part(whole, cls, key=key), own, key=key)

    def _filled_axle(self, table: Mapping[str, Any], standard: Setup) -> Axle:
        axle = standard.axle
        whole = _with_kind(table, "suspension", axle.suspension)
        given = self._records.axle(whole, place=axle.place.value, parts=standard.parts)
        return filled(axle, given, table, key="axle")

    def corner(self, name: str) -> Setup:
        """Make the corner of a vehicle that no pack knows.

        Parameters
        ----------
        name : str
            Axle and side.

        Returns
        -------
        Setup
            With every figure that the job does not give unknown.

        Raises
        ------
        UnknownNameError
            L103 for another corner than four.
        ExceptionGroup
            What the job must still say, and whatever is wrong in the tables.
        """
        place, side = _corner(name)
        tables: dict[str, dict[str, Any]] = {one: {} for one in _INLINE} | self._tables(side)
        read, records = Collector(), self._records
        read.problems += self._named_twice(side)
        parts: dict[str, Any] = {
            "arm": read(lambda: records.part(tables["arm"], Arm, key="arm")),
            "bar": read(lambda: records.part(tables["bar"], Bar, key="bar")),
            "damper": read(self._damper, tables["damper"]),
        }
        anchor = read(self._anchor_class, tables["anchor"])
        read.problems += self._asked(tables, anchor, side)
        if anchor is not None:
            parts |= read(self._held, tables, anchor) or {}
        axle = read(directed, tables["axle"])
        drive = read(drive_of, tables["axle"])
        read.raise_problems()
        there = {name: part for name, part in parts.items() if part is not None}
        found = records.axle(axle, place=place.value, parts=there)
        setup = _standard(_chassis(found, drive), found, side)
        return setup if setup.adjuster is None else attrs.evolve(setup, nut_turns=UNKNOWN)

    def _held(
        self, tables: Mapping[str, Mapping[str, Any]], anchor: type[Part]
    ) -> dict[str, Part | None]:
        """Make what holds the bar's anchor end."""
        own = {key: value for key, value in tables["anchor"].items() if key != "kind"}
        held: dict[str, Part | None] = {
            "anchor": self._records.part(own, anchor, key=self._key("anchor")),
            "adjuster": None,
        }
        if tables["adjuster"] or anchor is not FixedSocket:
            usual = "key-bolt" if anchor is KeyLever else "swivelling"
            table = _with_kind(tables["adjuster"], "mounting", usual)
            held["adjuster"] = self._records.part(table, Adjuster, key="adjuster")
        return held

    def _damper(self, table: Mapping[str, Any]) -> Damper:
        damper = self._records.part(table, Damper, key="damper")
        # A damper of which nothing is said may have gas in it.
        gas = GasCharge(force=unknown(), at_length=unknown(), slope=unknown())
        return damper if table else attrs.evolve(damper, gas=gas)

    def _anchor_class(self, table: Mapping[str, Any]) -> type[Part]:
        kind = table.get("kind")
        if kind not in _ANCHORS:
            raise SchemaError(
                "S202" if kind is None else "S204",
                value=kind or "nothing",
                expected=" or ".join(f"kind = {word!r}" for word in _ANCHORS),
                remedy="say what holds the bar's anchor end",
                key=f"{self._key('anchor')}.kind",
            )
        return _ANCHORS[kind]

    def _asked(
        self, tables: Mapping[str, Mapping[str, Any]], anchor: type[Part] | None, side: Side
    ) -> Iterator[SchemaError]:
        """Ask for what the job must still say in words."""
        yield from asked(
            tables,
            anchor=anchor,
            anchor_key=self._key("anchor"),
            nut_is_said=self._says_nut(side),
            swapped=_named(self.head.parts, side) | _named(self.head.present, side),
        )

    def _says_nut(self, side: Side) -> bool:
        """Whether the job says where the nut is, or where it was when the corner was measured."""
        read = self.head.measured.get(side.value, self.head.measured)
        tables = [merged(self.head.present, side), *(read if isinstance(read, list) else [read])]
        return any(NUT & set(table) for table in tables if isinstance(table, dict))

    @property
    def _records(self) -> InlineRecords:
        return InlineRecords(self.file, self.registry)

    def _tables(self, side: Side) -> dict[str, dict[str, Any]]:
        """Inline tables of a corner on one side, by the place of their part."""
        found = {place: _for_side(getattr(self.head, place), side) for place in _INLINE}
        return {place: table for place, table in found.items() if table}

    def _key(self, place: str) -> str:
        """Key of an inline table, as the file has it."""
        return "tube" if place == "anchor" and "tube" in self.table else place

    def _named_twice(self, side: Side) -> Iterator[SchemaError]:
        """Refuse the inline table of a part that the job also names by its id."""
        for place in self._tables(side):
            for table in ("parts", "present"):
                if place in _named(getattr(self.head, table), side):
                    key = self._key(place)
                    yield SchemaError(
                        "S207",
                        value=f"[{key}], and {key} in [{table}]",
                        expected="a part that the job describes, or one that it names by its id",
                        remedy=f"leave one of the two out; [{key}] is the vehicle's standard part",
                        key=key,
                    )


def _for_side(table: Mapping[str, Any], side: Side) -> dict[str, Any]:
    """Keys for both sides, with those of one side on top, also in tables in tables."""
    own = table.get(side.value)
    shared = {key: value for key, value in table.items() if key not in SIDES}
    return _over(shared, own) if isinstance(own, dict) else merged(table, side)


def _over(shared: Mapping[str, Any], own: Mapping[str, Any]) -> dict[str, Any]:
    """Lay a table over another one; a figure with its source is laid over as a whole."""
    both = {
        key: _over(shared[key], value)
        for key, value in own.items()
        if isinstance(value, dict) and "is" not in value and isinstance(shared.get(key), dict)
    }
    return {**shared, **own, **both}


def _with_kind(table: Mapping[str, Any], key: str, kind: Record | str | None) -> dict[str, Any]:
    """Let a table in a table be of some kind, where it does not say which."""
    if kind is None:
        return dict(table)
    held = table.get(key, {})
    word = {"kind": kind if isinstance(kind, str) else KIND_WORDS[type(kind)]}
    return {**table, key: word | held if isinstance(held, dict) else held}


def _named(table: Mapping[str, Any], side: Side) -> set[str]:
    """Places for which a table of a job names parts."""
    found = merged(table, side)
    return {place for place in PLACES if place in found or OTHER_KEYS.get(place) in found}


def _corner(name: str) -> tuple[AxlePlace, Side]:
    if name not in CORNERS:
        raise UnknownNameError(
            "L103",
            value=name,
            expected="a corner of a vehicle",
            remedy=nearest(name, CORNERS),
        )
    return CORNERS[name]


def _standard(chassis: Chassis, axle: Axle, side: Side) -> Setup:
    """Return the standard corner of a chassis with this axle."""
    axles = tuple(axle if one.place is axle.place else one for one in chassis.axles)
    return Setup.standard(attrs.evolve(chassis, axles=axles), axle=axle, side=side)


def _chassis(axle: Axle, drive: str | None) -> Chassis:
    return Chassis(
        id=id_of(Chassis), title="This vehicle", wheelbase=UNKNOWN, axles=(axle,), drive=drive
    )

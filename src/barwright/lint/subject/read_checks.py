"""Reading a pack's checks and waivers, with all that is wrong with them."""

from __future__ import annotations

import bisect
import itertools
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any, TypeAlias, TypeVar

import attrs

from barwright.errors import BarwrightError, SchemaError, UnknownNameError
from barwright.lint.subject.other_packs import NO_OTHERS, OtherPacks
from barwright.lint.subject.place import PackPlace, short
from barwright.lint.subject.quantities import QUANTITIES, Computable
from barwright.lint.subject.stated import StatedCheck, StatedWaiver
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Chassis
from barwright.parts.common.record import Part
from barwright.parts.setup import Setup
from barwright.registry.files.file_limits import MOST_PROBLEMS
from barwright.registry.files.snapshot import HEADER
from barwright.registry.nearest_name import MOST_SUGGESTED, nearest
from barwright.registry.packs.checks import Check, Waiver
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.store import Store
from barwright.registry.packs.tables.refusals import not_a_list, problems_of
from barwright.registry.packs.tables.structure import Structurer
from barwright.units import read_figure

__all__ = ["read_checks", "read_waivers"]

P = TypeVar("P", bound=Part)

Unchecked: TypeAlias = tuple[PackPlace, str]

Tables = Mapping[str, Mapping[str, Any]]


def read_waivers(
    tables: Tables, names: Collection[str] = ()
) -> tuple[tuple[StatedWaiver, ...], list[BarwrightError]]:
    """Read the waivers of a pack's files.

    Parameters
    ----------
    tables : mapping
        What each file holds, by its name.
    names : collection of str
        Ids of all that a waiver may name, those of the pack without it.

    Returns
    -------
    tuple of StatedWaiver, list of BarwrightError
        Those that are good, and what is wrong with the others.
    """
    problems: list[BarwrightError] = []
    found = []
    known = sorted(names)
    for file, key, table in _tables(tables, "waiver", problems):
        try:
            waiver = Structurer(file=file).structure(table, Waiver, key=key)
        except ExceptionGroup as error:
            problems += problems_of(error)
            if len(problems) > MOST_PROBLEMS:
                break
        else:
            place = PackPlace(short(waiver.of), file, key)
            found.append(StatedWaiver(place, waiver, frozenset(_others(waiver.of, known))))
    return tuple(found), problems


def _others(of: str, names: Sequence[str]) -> Iterator[str]:
    """List the ids, sorted, that begin like one with or without its pack, as if they lay in it."""
    for beginning in {f"{meant}{mark}" for meant in (of, short(of)) for mark in ".["}:
        for place in range(bisect.bisect_left(names, beginning), len(names)):
            if not names[place].startswith(beginning):
                break
            yield names[place]


def read_checks(
    tables: Tables, pack: Pack, others: OtherPacks = NO_OTHERS, laid: Store | None = None
) -> tuple[tuple[StatedCheck, ...], tuple[Unchecked, ...], list[BarwrightError]]:
    """Read the checks of a pack's files.

    Parameters
    ----------
    tables : mapping
        What each file holds, by its name.
    pack : Pack
        The pack.
    others : OtherPacks
        Packs that a check may name a chassis of.
    laid : Store, optional
        Of an overlay: records of all packs with the overlay on top.

    Returns
    -------
    tuple of StatedCheck, tuple of pair, list of BarwrightError
        Those that are good; place and reason of each that rests on a pack that is not there;
        and what is wrong with the others.
    """
    problems: list[BarwrightError] = []
    found, unchecked = [], []
    records = _Records(pack, others, laid)
    data = {file: table for file, table in tables.items() if file != HEADER}
    for file, key, table in _tables(data, "check", problems):
        try:
            check = Structurer(file=file).structure(table, Check, key=key)
            if missing := records.missing(check.of):
                unchecked.append((PackPlace(check.of, file, f"{key}.of"), missing))
                continue
            found.append(_stated(check, PackPlace("", file, key), pack, records))
        except ExceptionGroup as error:
            problems += problems_of(error)
        except BarwrightError as error:
            problems.append(error.within(key=key, file=file))
        if len(problems) > MOST_PROBLEMS:
            break
    return tuple(found), tuple(unchecked), problems


def _tables(
    files: Tables, name: str, problems: list[BarwrightError]
) -> Iterator[tuple[str, str, Any]]:
    """Every table of a name: its file, its key and what it holds."""
    for file, tables in files.items():
        entries = tables.get(name, [])
        if isinstance(entries, list):
            yield from ((file, f"{name}[{i}]", table) for i, table in enumerate(entries))
            continue
        problems.append(not_a_list(name, file))


_CALLED: Mapping[type[Part], str] = {Part: "part", Bar: "bar"}


class _Records:
    """Records that a check may name: the pack's own, and those of other packs."""

    def __init__(self, pack: Pack, others: OtherPacks, laid: Store | None) -> None:
        self._pack = pack
        self._others = others
        self._laid = laid

    def missing(self, name: str) -> str:
        """Say why an id names nothing, where that is because its pack is not there."""
        is_own = ":" not in name or name.startswith(f"{self._pack.id}:")
        return "" if is_own or self._laid else self._others.missing(name)

    def named(self, name: str, key: str, cls: type[P]) -> P:
        """Return the record that an id names."""
        full = name if ":" in name else f"{self._pack.id}:{name}"
        own_part = self._pack.parts.get(full) or self._others.part(full)
        part = self._laid.part(full) if self._laid else own_part
        if isinstance(part, cls):
            return part
        own = (short(other) for other, of in self._pack.parts.items() if isinstance(of, cls))
        few = itertools.islice(own, MOST_SUGGESTED)
        further = self._laid.ids() if self._laid else self._others.ids()
        raise _to_nothing(name, f"the id of a {_CALLED[cls]} of the pack", key, [*few, *further])


def _stated(check: Check, place: PackPlace, pack: Pack, records: _Records) -> StatedCheck:
    if check.computes not in QUANTITIES:
        raise SchemaError(
            "S204",
            value=check.computes,
            expected="a figure that can be computed",
            remedy=nearest(check.computes, QUANTITIES),
            key="computes",
        )
    sources = [source.id for source in pack.header.source]
    if check.source not in sources:
        raise _to_nothing(check.source, "a [[source]] of the pack", "source", sources)
    quantity = QUANTITIES[check.computes]
    target = _target(check, quantity, records)
    stated = read_figure(check.is_, quantity.kind, key="is")
    concerns = f"{check.of.removeprefix(f'{pack.id}:')}.{check.computes}"
    return StatedCheck(attrs.evolve(place, of=concerns), check, quantity, target, stated)


def _target(check: Check, quantity: Computable, records: _Records) -> Setup | Part:
    """Return what a check is computed of."""
    part = records.named(check.of, "of", Part)
    kind = short(part.id).partition("/")[0]
    if kind not in quantity.ways:
        raise SchemaError(
            "S207",
            value=f"{check.computes} of {check.of}",
            expected=f"the id of a {' or a '.join(quantity.ways)}",
            remedy="name the record that the figure belongs to",
            key="of",
        )
    if isinstance(part, Chassis):
        return _setup(check, part, records)
    if check.corner or check.bar:
        raise SchemaError(
            "S207",
            value=check.corner or check.bar,
            expected="no corner or bar, because the figure belongs to a part",
            remedy="leave it out, or name a chassis in of",
            key="corner" if check.corner else "bar",
        )
    return part


def _setup(check: Check, chassis: Chassis, records: _Records) -> Setup:
    corners = {
        f"{axle.place.value} {side.value}": (axle, side) for axle in chassis.axles for side in Side
    }
    if check.corner not in corners:
        raise UnknownNameError(
            "L103",
            value=check.corner or "nothing",
            expected=f"a corner of {short(chassis.id)} with a torsion bar",
            remedy=nearest(check.corner, corners),
            key="corner",
        )
    axle, side = corners[check.corner]
    setup = Setup.standard(chassis, axle=axle, side=side)
    return setup.with_parts(bar=records.named(check.bar, "bar", Bar)) if check.bar else setup


def _to_nothing(value: str, expected: str, key: str, known: list[str]) -> SchemaError:
    return SchemaError(
        "S206", value=value, expected=expected, remedy=nearest(value, known), key=key
    )

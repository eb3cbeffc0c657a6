"""What a pack says its parts fit: reading it, and keeping it in an index."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

import attrs

from barwright.errors import BarwrightError, SchemaError
from barwright.parts.bar import Side
from barwright.parts.chassis import AxlePlace
from barwright.parts.claim import Claim, Claimed
from barwright.parts.common.source import Source
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.tables.refusals import not_a_list, problems_of
from barwright.registry.packs.tables.structure import Structurer

__all__ = ["CLAIMS", "Fits", "claim_of", "read_claims", "row_of"]

CLAIMS = "fits"
"""Name of their table."""

# Kinds of record that have a place on a corner.
_ON_A_CORNER = {"arm", "bar", "tube", "key-lever", "fixed-socket", "adjuster", "damper"}
_CHASSIS = re.compile(r"[a-z0-9][a-z0-9.-]*:chassis/[a-z0-9][a-z0-9.-]*")


@attrs.frozen(kw_only=True)
class Fits:
    """What some of a pack's parts fit.

    Parameters
    ----------
    parts : tuple of str
        Ids of parts of this pack. Those of one kind are alternatives; those of different kinds
        go on together.
    on : tuple of str
        Ids of the chassis, with their pack if it is another one.
    axle : AxlePlace
        Axle of the chassis. Without it: each axle that has torsion bars.
    side : Side
        Side of the axle. Without it: both.
    as_ : Claimed
        What is said of them.
    source : str
        Id of the source that says so.
    at : str
        Place in that source.
    """

    parts: tuple[str, ...]
    on: tuple[str, ...]
    axle: AxlePlace | None = None
    side: Side | None = None
    as_: Claimed
    source: str = ""
    at: str = ""


def read_claims(
    files: Mapping[str, Mapping[str, Any]],
    pack: str,
    sources: Sequence[Source],
    records: Collection[str],
) -> Iterator[Claim | BarwrightError]:
    """Read what a pack's files say its parts fit.

    Parameters
    ----------
    files : mapping
        What each file holds, by its name.
    pack : str
        Id of the pack.
    sources : sequence of Source
        Those that it lists.
    records : collection of str
        Full ids of its records.

    Yields
    ------
    Claim or BarwrightError
        Each that is good, and what is wrong with the others.
    """
    for file, tables in files.items():
        listed = tables.get(CLAIMS, [])
        if not isinstance(listed, list):
            yield not_a_list(CLAIMS, file)
            continue
        for index, table in enumerate(listed):
            key = f"{CLAIMS}[{index}]"
            try:
                fits = Structurer(file=file).structure(table, Fits, key=key)
                claim = _claim(fits, pack, file=file, key=key)
                _check(claim, fits, sources, records)
            except (BarwrightError, ExceptionGroup) as error:
                yield from _placed(problems_of(error), key, file)
            else:
                yield claim


def _placed(problems: list[BarwrightError], key: str, file: str) -> Iterator[BarwrightError]:
    for problem in problems:
        is_placed = problem.key.startswith(key)
        yield problem if is_placed else problem.within(key=key, file=file)


def _claim(fits: Fits, pack: str, *, file: str, key: str) -> Claim:
    def full(name: str) -> str:
        return name if ":" in name else f"{pack}:{name}"

    return Claim(
        pack=pack,
        parts=tuple(map(full, fits.parts)),
        on=tuple(map(full, fits.on)),
        axle=fits.axle,
        side=fits.side,
        claimed=fits.as_,
        source=full(fits.source) if fits.source else "",
        at=fits.at,
        file=file,
        key=key,
    )


def _check(claim: Claim, fits: Fits, sources: Sequence[Source], records: Collection[str]) -> None:
    """Refuse ids of what is not in the pack, or is no part and no chassis."""
    for key, ids in (("parts", fits.parts), ("on", fits.on)):
        if not ids or len(set(ids)) < len(ids):
            raise SchemaError(
                "S207",
                value=list(ids),
                expected="different ids, one at least",
                remedy="name each once",
                key=key,
            )
    for index, (name, part) in enumerate(zip(fits.parts, claim.parts, strict=True)):
        if part not in records or _kind(part) not in _ON_A_CORNER:
            known = [_short(one) for one in records if _kind(one) in _ON_A_CORNER]
            expected = "the id of a part of this pack that goes on a vehicle"
            raise _to_nothing(name, expected, f"parts[{index}]", known)
    for index, (name, chassis) in enumerate(zip(fits.on, claim.on, strict=True)):
        is_lost = chassis.startswith(f"{claim.pack}:") and chassis not in records
        if is_lost or not _CHASSIS.fullmatch(chassis):
            known = [_short(one) for one in records if _kind(one) == "chassis"]
            expected = "the id of a chassis, with its pack if that is another one"
            raise _to_nothing(name, expected, f"on[{index}]", known)
    listed = [source.id for source in sources]
    if fits.source and fits.source not in listed:
        raise _to_nothing(fits.source, "a [[source]] of the pack", "source", listed)


def _short(full_id: str) -> str:
    return full_id.partition(":")[2]


def _kind(full_id: str) -> str:
    return _short(full_id).partition("/")[0]


def _to_nothing(value: str, expected: str, key: str, known: list[str]) -> SchemaError:
    return SchemaError(
        "S206", value=value, expected=expected, remedy=nearest(value, sorted(known)), key=key
    )


# -- In an index -------------------------------------------------------------------------


def row_of(claim: Claim) -> list[Any]:
    """Return a claim as an index keeps it.

    Parameters
    ----------
    claim : Claim
        The claim.

    Returns
    -------
    list
    """
    axle, side = claim.axle, claim.side
    return [
        *(list(claim.parts), list(claim.on), axle and axle.value, side and side.value),
        *(claim.claimed.value, claim.source, claim.at, claim.file, claim.key),
    ]


def claim_of(row: Sequence[Any], *, pack: str) -> Claim:
    """Return the claim that :func:`row_of` has written.

    Parameters
    ----------
    row : sequence
        As it stands in the index.
    pack : str
        Id of its pack.

    Returns
    -------
    Claim
    """
    parts, on, axle, side, claimed, source, at, file, key = row
    return Claim(
        pack=pack,
        parts=tuple(parts),
        on=tuple(on),
        axle=None if axle is None else AxlePlace(axle),
        side=None if side is None else Side(side),
        claimed=Claimed(claimed),
        source=source,
        at=at,
        file=file,
        key=key,
    )

"""Which of several packs that claim one id is taken, as overlays or a call say."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

import attrs

from barwright.errors import BarwrightError, PackError, SchemaError
from barwright.registry.discovery.duplicate_ids import is_called
from barwright.registry.files.document import parse_toml
from barwright.registry.files.snapshot import HEADER, Snapshot
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.format.pack import PackHeader
from barwright.registry.packs.store import Store

__all__ = [
    "CALL",
    "OverlayHeader",
    "Preference",
    "clashing",
    "is_overlay",
    "stated_preferences",
    "wrong_preferences",
]

CALL = "the call"
"""Stands for the overlay of a preference that a call says; no id has a space in it."""

_TABLE = "prefer"
_MARK = "overlay"


@attrs.frozen(kw_only=True)
class OverlayHeader(PackHeader):
    """What ``pack.toml`` says of an overlay.

    Parameters
    ----------
    overlay : bool
        Whether it says that it is no pack by itself but an overlay.
    prefer : mapping of str to str
        Of packs that claim one id, which to take: the distribution, or the folder, by the id.
    """

    overlay: bool = False
    prefer: dict[str, str] = attrs.field(factory=dict)

    @prefer.validator
    def _holds_names(self, _: object, prefer: Mapping[str, object]) -> None:
        wrong = [_nameless(*item) for item in prefer.items() if not _is_a_name(item[1])]
        if wrong:
            raise ExceptionGroup(_TABLE, wrong)


@attrs.frozen
class Preference:
    """Which pack is taken of several that claim one id.

    Parameters
    ----------
    id : str
        That the packs claim.
    origin : str
        Distribution or folder of the pack to take.
    by : str
        Id of the overlay that says so, or ``the call``.
    """

    id: str
    origin: str
    by: str


def is_overlay(snapshot: Snapshot) -> bool:
    """Tell whether a folder's ``pack.toml`` says that it is an overlay.

    Parameters
    ----------
    snapshot : Snapshot
        Files of the folder.

    Returns
    -------
    bool
    """
    return _header(snapshot).get(_MARK) is True


def stated_preferences(snapshot: Snapshot) -> tuple[Preference, ...]:
    """Read what an overlay prefers, as far as it can be read.

    Parameters
    ----------
    snapshot : Snapshot
        Files of the overlay; what is wrong with them is told when it is laid on top.

    Returns
    -------
    tuple of Preference
    """
    header = _header(snapshot)
    table = header.get(_TABLE)
    stated = table.items() if isinstance(table, dict) else ()
    by = str(header.get("id", ""))
    return tuple(Preference(name, origin, by) for name, origin in stated if isinstance(origin, str))


def clashing(problems: Iterable[PackError]) -> Mapping[str, Sequence[str]]:
    """Return the origins of packs that are left out since others claim their ids, by id.

    Parameters
    ----------
    problems : iterable of PackError
        Of packs.

    Returns
    -------
    mapping of str to list of str
    """
    found: dict[str, list[str]] = defaultdict(list)
    for error in problems:
        for problem in error.problems:
            if problem.code == "P301":
                found[problem.value].append(error.file)
    return dict(found)


def wrong_preferences(
    preferences: Sequence[Preference], store: Store, problems: Iterable[PackError]
) -> Iterator[SchemaError]:
    """Tell preferences that name what is not there, not even as a pack that is left out.

    Parameters
    ----------
    preferences : sequence of Preference
        Those of one overlay that no other one overrules, or those of a call.
    store : Store
        Packs that were kept with these preferences.
    problems : iterable of PackError
        Of packs that were left out.

    Yields
    ------
    SchemaError
        S206, with its key.
    """
    # To make the headers of a thousand packs takes a tenth of a second.
    if not preferences:
        return
    left_out = list(problems)
    kept = {pack.id: pack for pack in store.packs}
    others = clashing(left_out)
    # One that is broken is told as such, and must not stand in the way of all others.
    broken = {name for error in left_out for name in _names_of(error) if not clashing([error])}
    for one in preferences:
        if one.origin in broken:
            continue
        if one.id in others:
            yield _unknown(one, one.origin, others[one.id], "one of the packs that claim the id")
        elif one.id not in kept:
            yield _unknown(one, one.id, [*kept, *others], "the id of a pack")
        elif not is_called(kept[one.id], one.origin):
            yield _unknown(one, one.origin, [kept[one.id].origin], "a pack that claims the id")


def _names_of(error: PackError) -> tuple[str, str]:
    """Return what a preference may call a pack that is left out: with its version, or without."""
    return error.file, error.file.rpartition(" ")[0]


def _is_a_name(origin: object) -> bool:
    return isinstance(origin, str) and bool(origin.strip())


def _nameless(name: str, origin: object) -> SchemaError:
    return SchemaError(
        "S203",
        value=origin,
        expected="the name of a distribution in quotes",
        remedy='write it like fells = "barwright-pack-fells"',
        key=f"{_TABLE}.{name}",
    )


def _unknown(one: Preference, value: str, known: Sequence[str], expected: str) -> SchemaError:
    return SchemaError(
        "S206",
        value=value,
        expected=expected,
        remedy=nearest(value, known),
        key=f"{_TABLE}.{one.id}",
        file="" if one.by == CALL else HEADER,
    )


def _header(snapshot: Snapshot) -> dict[str, object]:
    """Read ``pack.toml``; an empty table where it cannot be read."""
    content = snapshot.files[HEADER]
    try:
        return parse_toml(content, shown_as=HEADER) if isinstance(content, bytes) else {}
    except BarwrightError:
        return {}

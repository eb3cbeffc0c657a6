"""A vehicle that no pack knows: what a job must say of it in words, and what is asked for."""

from __future__ import annotations

import enum
import typing
from collections.abc import Collection, Iterator, Mapping
from typing import Any

from barwright.errors import SchemaError
from barwright.parts.adjuster import ContactSide, LeverSide
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.chassis import Axle, BarEndName, LoadPoint
from barwright.parts.common.record import Part
from barwright.registry.packs.format.keys import kinds_of
from barwright.registry.packs.tables.values import word

__all__ = ["WORDS_OF_AN_AXLE", "AnchorLies", "WheelLies", "asked", "directed", "drive_of"]


class AnchorLies(enum.Enum):
    """Where the bar's anchor end lies, as seen from its arm end."""

    BEHIND = "behind"
    AHEAD = "ahead"
    INBOARD = "inboard"
    OUTBOARD = "outboard"


class WheelLies(enum.Enum):
    """Where the wheel lies, as seen from the bar."""

    OUTBOARD = "outboard"
    BEHIND = "behind"
    AHEAD = "ahead"


class Drive(enum.Enum):
    """Which wheels of the vehicle are driven; none of a trailer's."""

    FRONT = "front"
    REAR = "rear"
    ALL = "all"
    NONE = "none"


# Directions of the left corner: x forward, y left, z up.
_BAR_AXES = {
    AnchorLies.BEHIND: [1.0, 0.0, 0.0],
    AnchorLies.AHEAD: [-1.0, 0.0, 0.0],
    AnchorLies.INBOARD: [0.0, 1.0, 0.0],
    AnchorLies.OUTBOARD: [0.0, -1.0, 0.0],
}
_ARM_DIRECTIONS = {
    WheelLies.OUTBOARD: [0.0, 1.0, 0.0],
    WheelLies.BEHIND: [-1.0, 0.0, 0.0],
    WheelLies.AHEAD: [1.0, 0.0, 0.0],
}
_ACROSS = (AnchorLies.INBOARD, AnchorLies.OUTBOARD)
_VECTORS = {"bar_axis", "arm_direction"}

WORDS_OF_AN_AXLE: Mapping[str, type[enum.Enum]] = {
    "anchor_lies": AnchorLies,
    "wheel_lies": WheelLies,
    "drive": Drive,
}
"""What only the axle of a job has: words that its pack says otherwise, or of the vehicle."""

# What an axle says without any figure.
_WORDS = {"entry", *WORDS_OF_AN_AXLE, *_VECTORS}
_SUSPENSIONS = kinds_of(typing.get_type_hints(Axle)["suspension"])


def directed(axle: Mapping[str, Any]) -> dict[str, Any]:
    """Return the table of an axle with directions in the place of words for them.

    Parameters
    ----------
    axle : mapping
        The table, as parsed.

    Returns
    -------
    dict

    Raises
    ------
    SchemaError
        S204 for another word, S207 for directions beside words, or words that give no plane,
        S202 where the job does not say how the bar lies.
    """
    own = {key: value for key, value in axle.items() if key not in WORDS_OF_AN_AXLE}
    if "anchor_lies" not in axle:
        if own.keys() >= _VECTORS:
            return own
        raise _missing("axle.anchor_lies", AnchorLies, "where the bar's anchor end lies")
    if twice := sorted(_VECTORS & own.keys()):
        raise SchemaError(
            "S207",
            value=f"anchor_lies and {' and '.join(twice)}",
            expected="words or directions for how the bar lies, not both",
            remedy=f"leave {' and '.join(twice)} out",
            key="axle.anchor_lies",
        )
    anchor = _word(axle, "anchor_lies", AnchorLies)
    wheel = _wheel(axle, is_across=anchor in _ACROSS)
    return own | {"bar_axis": _BAR_AXES[anchor], "arm_direction": _ARM_DIRECTIONS[wheel]}


def _wheel(axle: Mapping[str, Any], *, is_across: bool) -> WheelLies:
    """Say where the wheel lies: beside a bar that lies along the vehicle, that is outboard."""
    if "wheel_lies" not in axle:
        if is_across:
            raise _missing("axle.wheel_lies", WheelLies, "where the wheel lies, seen from the bar")
        return WheelLies.OUTBOARD
    wheel: WheelLies = _word(axle, "wheel_lies", WheelLies)
    if is_across is (wheel is WheelLies.OUTBOARD):
        raise SchemaError(
            "S207",
            value=f"anchor_lies {axle['anchor_lies']!r} and wheel_lies {wheel.value!r}",
            expected="a wheel that lies beside the bar, not in line with it",
            remedy="say how both lie, seen from the arm's socket; or give bar_axis and "
            "arm_direction",
            key="axle.wheel_lies",
        )
    return wheel


def _word(table: Mapping[str, Any], key: str, words: type[Any]) -> Any:  # noqa: ANN401 - a word
    try:
        return word(table[key], words)
    except SchemaError as error:
        raise error.within(key=f"axle.{key}") from None


def drive_of(axle: Mapping[str, Any]) -> str | None:
    """Return the word for the driven wheels; none where the job does not say it.

    Parameters
    ----------
    axle : mapping
        The table, as parsed.

    Returns
    -------
    str, optional

    Raises
    ------
    SchemaError
        S204 for another word.
    """
    if "drive" not in axle:
        return None
    drive: Drive = _word(axle, "drive", Drive)
    return drive.value


def asked(
    tables: Mapping[str, Mapping[str, Any]],
    *,
    anchor: type[Part] | None,
    anchor_key: str,
    nut_is_said: bool,
    swapped: Collection[str],
) -> Iterator[SchemaError]:
    """Ask for the words that an answer rests on, and that no figure can stand for.

    Parameters
    ----------
    tables : mapping
        The inline tables of a corner, by the place of their part.
    anchor : type, optional
        Class of the anchor; none where the job does not say it.
    anchor_key : str
        Key of its table.
    nut_is_said : bool
        Whether the job says where the nut is now.
    swapped : collection of str
        Places for which the job names a part of a pack.

    Yields
    ------
    SchemaError
        S202.
    """
    axle = tables["axle"]
    if axle.keys() - _WORDS:
        if "suspension" not in axle:
            kinds = " or ".join(f"kind = {kind!r}" for kind in _SUSPENSIONS)
            yield _needed("axle.suspension", f"what guides the wheel: {kinds}", "say which kind")
        if "load_at" not in axle:
            yield _missing("axle.load_at", LoadPoint, "where the wheel load acts")
        if "drive" not in axle:
            yield _missing("axle.drive", Drive, "which wheels are driven")
    if "entry" not in axle and _says(tables, ("major_diameter", "minor_diameter")):
        yield _missing("axle.entry", BarEndName, "at which end the bar goes in")
    yield from _of_sockets(tables, anchor_key, swapped)
    if anchor not in (None, FixedSocket):
        yield from _of_adjuster(tables, anchor, swapped)
        if not nut_is_said:
            yield _needed(
                "present.pin_distance",
                "where the nut is now",
                "measure it and write pin_distance = '138 mm', or \"unknown\"",
            )


def _of_sockets(
    tables: Mapping[str, Mapping[str, Any]], anchor_key: str, swapped: Collection[str]
) -> Iterator[SchemaError]:
    """Ask whether the sockets have keys, which teeth are gone and how all teeth are formed."""
    is_new = bool({"arm", "bar", "anchor"} & set(swapped))
    for place, key in (("arm", "arm"), ("anchor", anchor_key)):
        if place in swapped:
            continue
        socket = _inner(tables[place], "socket")
        if "keyed" not in socket:
            text = "true or false: whether the socket has a key, a filled groove"
            yield _needed(f"{key}.socket.keyed", text, "write socket = { keyed = true }")
        if is_new and "form" not in socket:
            yield _form(f"{key}.socket.form")
    for end in () if "bar" in swapped else ("arm_end", "anchor_end"):
        head = _inner(tables["bar"], end)
        if "blanks" not in head:
            text = "the teeth that are missing, counted from the one on the key"
            yield _needed(f"bar.{end}.blanks", text, "write [0] if only that one is, [] if none")
        if is_new and "form" not in head:
            yield _form(f"bar.{end}.form")


def _of_adjuster(
    tables: Mapping[str, Mapping[str, Any]], anchor: type[Part] | None, swapped: Collection[str]
) -> Iterator[SchemaError]:
    """Ask how the bolt is held, and on which side of it the lever lies."""
    if "adjuster" in swapped:
        return
    adjuster = tables["adjuster"]
    mounting = _inner(adjuster, "mounting")
    if "kind" not in mounting:
        kinds = "'key-bolt'" if anchor is KeyLever else "'swivelling' or 'fixed-line'"
        yield _needed(
            "adjuster.mounting.kind", f"how the bolt is held: {kinds}", "say which kind it is"
        )
    if anchor is KeyLever:
        if "stretch" not in mounting:
            text = "on which side of the bolt's foot its end works"
            yield _missing("adjuster.mounting.stretch", ContactSide, text)
    elif "lever_lies" not in adjuster:
        text = "on which side of its bolt the lever lies"
        yield _missing("adjuster.lever_lies", LeverSide, text)


def _inner(table: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    """Return a table in a table; an empty one where there is none."""
    held = table.get(key)
    return held if isinstance(held, dict) else {}


def _says(value: object, keys: Collection[str]) -> bool:
    """Whether any of some keys stands anywhere in tables."""
    if not isinstance(value, Mapping):
        return False
    return any(key in keys or _says(inner, keys) for key, inner in value.items())


def _form(key: str) -> SchemaError:
    text = "the tooth form, because another part goes on"
    return _needed(key, text, "write the form as the other part's pack has it")


def _missing(key: str, words: type[enum.Enum], what: str) -> SchemaError:
    said = " or ".join(repr(one.value) for one in words)
    return _needed(key, f"{what}: {said}", "write one of these words")


def _needed(key: str, expected: str, remedy: str) -> SchemaError:
    return SchemaError("S202", value="nothing", expected=expected, remedy=remedy, key=key)

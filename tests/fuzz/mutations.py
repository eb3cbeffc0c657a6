"""How an input is spoilt: bytes, tables and words, by chance that can be repeated."""

from __future__ import annotations

import copy
from collections.abc import Callable, Sequence
from random import Random
from typing import Any, TypeAlias

from fuzz.seeds import TEXTS, TOKENS, VALUES

__all__ = ["chance_of", "spoilt_bytes", "spoilt_table", "spoilt_text"]

# How many changes; one alone comes furthest before it is refused.
_CHANGES = (1, 1, 1, 2, 4)
_MOST_REPEATED = 2000
_LARGEST = 40_000

OfBytes: TypeAlias = Callable[[Random, bytes, Sequence[bytes]], bytes]


def chance_of(seed: object, number: int) -> Random:
    """Return the chance that one input of a run is made by, the same every time."""
    return Random(f"{seed} {number}")  # noqa: S311 - nothing is to be kept secret


def spoilt_bytes(chance: Random, data: bytes, others: Sequence[bytes]) -> bytes:
    """Change bytes in one to four ways; others are what they may be spliced with."""
    for _ in range(chance.choice(_CHANGES)):
        data = chance.choice(_OF_BYTES)(chance, data, others)[:_LARGEST]
    return data


def spoilt_text(chance: Random, text: str, others: Sequence[str]) -> str:
    """Change text in one to four ways; what is no longer UTF-8 is escaped."""
    data = spoilt_bytes(chance, text.encode(), [other.encode() for other in others])
    return data.decode("utf-8", "surrogateescape")


def spoilt_table(chance: Random, table: dict[str, Any], others: Sequence[Any]) -> dict[str, Any]:
    """Change one to four things inside a table; others are what may be put in their place."""
    table = copy.deepcopy(table)
    for _ in range(chance.choice(_CHANGES)):
        places = list(_places(table))
        if places:
            holder, key = chance.choice(places)
            chance.choice(_OF_TABLES)(chance, holder, key, others)
    return table


# -- Bytes -------------------------------------------------------------------------------


def _span(chance: Random, data: bytes) -> tuple[int, int]:
    start = chance.randrange(len(data) + 1)
    return start, min(len(data), start + chance.choice((1, 1, 2, 5, 20, 100)))


def _flipped(chance: Random, data: bytes, _: Sequence[bytes]) -> bytes:
    start, end = _span(chance, data)
    changed = bytes(byte ^ (1 << chance.randrange(8)) for byte in data[start:end][:2])
    return data[:start] + changed + data[start + len(changed) :]


def _cut(chance: Random, data: bytes, _: Sequence[bytes]) -> bytes:
    start, end = _span(chance, data)
    return data[:start] + data[end:]


def _inserted(chance: Random, data: bytes, _: Sequence[bytes]) -> bytes:
    start, _end = _span(chance, data)
    return data[:start] + chance.choice(TOKENS) + data[start:]


def _replaced(chance: Random, data: bytes, _: Sequence[bytes]) -> bytes:
    start, end = _span(chance, data)
    return data[:start] + chance.choice(TOKENS) + data[end:]


def _repeated(chance: Random, data: bytes, _: Sequence[bytes]) -> bytes:
    start, end = _span(chance, data)
    times = chance.choice((2, 2, 3, 20, _MOST_REPEATED))
    return data[:start] + data[start:end] * times + data[end:]


def _lines_changed(chance: Random, data: bytes, _: Sequence[bytes]) -> bytes:
    lines = data.split(b"\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    if chance.random() < 0.5:
        lines.insert(one, lines[other])
    else:
        lines[one], lines[other] = lines[other], lines[one]
    return b"\n".join(lines)


def _words_changed(chance: Random, data: bytes, others: Sequence[bytes]) -> bytes:
    words = data.split(b" ")
    source = words if chance.random() < 0.5 else chance.choice(others).split(b" ")
    words[chance.randrange(len(words))] = chance.choice(source)
    return b" ".join(words)


def _digit_changed(chance: Random, data: bytes, _: Sequence[bytes]) -> bytes:
    places = [index for index, byte in enumerate(data) if 0x30 <= byte <= 0x39]
    if not places:
        return data
    place = chance.choice(places)
    digits = chance.choice((b"0", b"9", b"-1", b"1e9", b"0.0000001", b"99999", b""))
    return data[:place] + digits + data[place + 1 :]


def _spliced(chance: Random, data: bytes, others: Sequence[bytes]) -> bytes:
    other = chance.choice(others)
    return data[: chance.randrange(len(data) + 1)] + other[chance.randrange(len(other) + 1) :]


_OF_BYTES: tuple[OfBytes, ...] = (
    *(_flipped, _cut, _inserted, _replaced, _repeated),
    *(_lines_changed, _words_changed, _digit_changed, _digit_changed, _spliced),
)


# -- Tables ------------------------------------------------------------------------------


def _places(value: Any) -> Any:
    """Every place inside a value: what holds it, and the key or index there."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield value, key
            yield from _places(inner)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield value, index
            yield from _places(inner)


def _put_value(chance: Random, holder: Any, key: Any, _: Sequence[Any]) -> None:
    holder[key] = copy.deepcopy(chance.choice(VALUES))


def _put_text(chance: Random, holder: Any, key: Any, _: Sequence[Any]) -> None:
    holder[key] = chance.choice(TEXTS)


def _put_other(chance: Random, holder: Any, key: Any, others: Sequence[Any]) -> None:
    places = list(_places(chance.choice(others)))
    inner, name = chance.choice(places)
    holder[key] = copy.deepcopy(inner[name])


def _text_changed(chance: Random, holder: Any, key: Any, _: Sequence[Any]) -> None:
    """Change figures most of all: a digit, a sign, a unit."""
    text = holder[key]
    if isinstance(text, str):
        changed = spoilt_bytes(chance, text.encode(), [t.encode() for t in TEXTS])
        holder[key] = changed[:200].decode("utf-8", "replace")
    elif isinstance(text, int):
        holder[key] = text + chance.choice((-1, 1, 3, -text))


def _dropped(_: Random, holder: Any, key: Any, others: Sequence[Any]) -> None:  # noqa: ARG001
    del holder[key]


def _doubled(chance: Random, holder: Any, key: Any, _: Sequence[Any]) -> None:
    value = holder[key]
    if isinstance(value, list) and value:
        value += copy.deepcopy(value) * chance.choice((1, 1, 30))
    elif isinstance(holder, dict):
        holder[f"{key}{chance.choice(('', '_', '2', '.'))}"] = copy.deepcopy(value)


def _renamed(chance: Random, holder: Any, key: Any, _: Sequence[Any]) -> None:
    if isinstance(holder, dict):
        holder[chance.choice((*TEXTS, *_KEYS))] = holder.pop(key)


def _wrapped(chance: Random, holder: Any, key: Any, _: Sequence[Any]) -> None:
    value = holder[key]
    holder[key] = [value] if chance.random() < 0.5 else {chance.choice(_KEYS): value}


def _unwrapped(_: Random, holder: Any, key: Any, others: Sequence[Any]) -> None:  # noqa: ARG001
    value = holder[key]
    if isinstance(value, dict) and value:
        holder[key] = next(iter(value.values()))
    elif isinstance(value, list) and value:
        holder[key] = value[0]


_KEYS = ("is", "source", "at", "id", "kind", "about", "title", "left", "right", "axles", "key_")
_OF_TABLES = (
    *(_put_value, _put_text, _put_other, _text_changed, _text_changed, _text_changed),
    *(_dropped, _doubled, _renamed, _wrapped, _unwrapped),
)

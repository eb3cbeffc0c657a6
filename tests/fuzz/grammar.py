"""Documents by the grammar of TOML, odd in every way that it allows and some that it does not."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

__all__ = ["a_document"]

_PIECES = ("a", " ", "'", '"', "\\", "#", "=", ".", ",", "[", "]", "{", "}", "é", "\t", "\n")
_LONGEST = (0, 1, 2, 5, 5, 40, 1000)
_KINDS = ("bar", "arm", "tube", "chassis", "source", "check", "x")
_DEEPEST = 9


def a_document(chance: Random) -> bytes:
    """Make a document of statements, most of them right."""
    count = chance.choice((1, 3, 10, 40))
    return "".join(_statement(chance) for _ in range(count)).encode()


def _statement(chance: Random) -> str:
    made = chance.choices(_STATEMENTS, weights=(6, 2, 2, 1, 1))[0]
    end = chance.choice(("\n", "\n", "\r\n", " # ]\"'\n", "\n\n"))
    return f"{made(chance)}{end}"


def _pair(chance: Random) -> str:
    blank = chance.choice(("", " ", "\t"))
    return f"{blank}{_key(chance)}{blank}={blank}{_value(chance, 0)}"


def _table(chance: Random) -> str:
    return f"[{_key(chance)}]"


def _record(chance: Random) -> str:
    return f"[[{chance.choice(_KINDS)}]]"


def _comment(chance: Random) -> str:
    return "#" + _characters(chance, without="\n")


def _nonsense(chance: Random) -> str:
    return _characters(chance, without="")


_STATEMENTS = (_pair, _table, _record, _comment, _nonsense)


def _key(chance: Random) -> str:
    count = chance.choices((1, 2, 3, 8, 9), weights=(60, 20, 10, 5, 1))[0]
    parts = (_part(chance) for _ in range(count))
    return chance.choice((".", ".", " . ")).join(parts)


def _part(chance: Random) -> str:
    if chance.random() < 0.7:
        return chance.choice(("id", "title", "a-b", "0", "_")) + str(chance.randrange(1000))
    return chance.choice((_basic, _literal))(chance)


def _value(chance: Random, depth: int) -> str:
    if depth < _DEEPEST and chance.random() < 0.3:
        return chance.choice((_list, _inline))(chance, depth + 1)
    return chance.choice(_VALUES)(chance)


def _list(chance: Random, depth: int) -> str:
    gap = chance.choice((" ", "\n", " # ]\n"))
    items = [_value(chance, depth) for _ in range(chance.choice((0, 1, 3)))]
    return "[" + gap + f",{gap}".join(items) + gap + "]"


def _inline(chance: Random, depth: int) -> str:
    pairs = [f"{_key(chance)} = {_value(chance, depth)}" for _ in range(chance.choice((0, 1, 3)))]
    return "{ " + ", ".join(pairs) + " }"


def _characters(chance: Random, *, without: str) -> str:
    known = [piece for piece in _PIECES if piece not in without]
    # A few pieces over and over hurt more than many kinds.
    few = chance.choices(known, k=chance.choice((1, 2, 3, len(known))))
    return "".join(chance.choices(few, k=chance.choice(_LONGEST)))


def _basic(chance: Random) -> str:
    text = _characters(chance, without='\n\\"')
    return '"' + text + chance.choice(("", '\\"', "\\\\", "\\u00e9")) + '"'


def _literal(chance: Random) -> str:
    return "'" + _characters(chance, without="\n'") + "'"


def _basic_lines(chance: Random) -> str:
    text = _characters(chance, without="\\").replace('"""', '""')
    return '"""' + text + chance.choice(("", "\\\n  ", '\\"""', '"', '""')) + '"""'


def _literal_lines(chance: Random) -> str:
    return "'''" + _characters(chance, without="").replace("'''", "''") + "'''"


def _plain(chance: Random) -> str:
    return chance.choice(
        ("1", "-0", "1.5e3", "0xff", "inf", "true", "2031-01-02", "10:00:00", "1_000", '"1 mm"')
    )


_VALUES: tuple[Callable[[Random], str], ...] = (
    *(_plain, _plain, _basic, _literal, _basic_lines, _literal_lines),
)

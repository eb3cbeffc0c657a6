"""Tests of `toml_limits`: what it lets through, the parser can take, and no less."""

from __future__ import annotations

import importlib
import tomllib
from collections.abc import Callable
from typing import Any

import attrs
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.files import file_limits as limits
from barwright.registry.files.file_limits import (
    DEEPEST,
    LONGEST_LINE,
    LONGEST_TEXT,
    LONGEST_WORD,
    MOST_PARTS,
)
from barwright.registry.files.toml_limits import check_records, check_table, check_text
from each_case import each_case
from rare_cases import rarely_after

# -- Documents within the limits ------------------------------------------------------

WORDS = st.text("abzAZ019_-", min_size=1, max_size=LONGEST_WORD)
# What looks like TOML inside a text, and is none.
TEXT = st.text("ab .#=[]{}'\"\\,\tµ\u202e", max_size=30)
BASIC = TEXT.map(lambda text: text.replace("\\", "\\\\").replace('"', '\\"').replace("\t", "\\t"))
LITERAL = TEXT.map(lambda text: text.replace("'", ""))
ONE_LINE = st.one_of(BASIC.map('"{}"'.format), LITERAL.map("'{}'".format))
OVER_LINES = st.one_of(
    st.lists(BASIC, max_size=3).map(lambda lines: '"""' + '\n""'.join(lines) + '"""'),
    st.lists(LITERAL, max_size=3).map(lambda lines: "'''" + "\n''".join(lines) + "'''"),
    BASIC.map('"""{}\\\n   """""'.format),
    LITERAL.map("'''{}'''''".format),
)
SCALARS = st.one_of(
    ONE_LINE,
    OVER_LINES,
    st.integers(-(2**63), 2**63 - 1).map(str),
    st.floats(allow_nan=False).map(str),
    st.datetimes().map(lambda time: time.isoformat()),
    st.sampled_from(["true", "false", "+1.5e-3", "0xf", "1_000", "inf"]),
)
SPACE = st.sampled_from(["", " ", "\t", "\n", " # a ] comment [ 'a.b.c'\n"])
POINT = st.sampled_from([".", " . ", "\t."])


def key(first: str, parts: int) -> st.SearchStrategy[str]:
    """A key that no other has, of so many parts."""
    part = st.one_of(WORDS, ONE_LINE)
    more = st.lists(st.tuples(POINT, part).map("".join), min_size=parts - 1, max_size=parts - 1)
    return more.map(lambda found: first + "".join(found))


@st.composite
def values(draw: st.DrawFn, room: int) -> str:
    """A value of no more than so many tables and lists in each other."""
    kind = draw(st.sampled_from(["scalar", "list", "table"] if room else ["scalar"]))
    if kind == "scalar":
        return str(draw(SCALARS))
    items = [draw(values(room - 1)) for _ in range(draw(st.integers(0, 2)))]
    if kind == "list":
        spaces = [draw(SPACE) for _ in range(2)]
        return f"[{spaces[0]}{f',{spaces[1]}'.join(items)}{spaces[1]}]"
    return "{" + ", ".join(f"k{n} = {item}" for n, item in enumerate(items)) + "}"


@st.composite
def statements(draw: st.DrawFn) -> list[str]:
    """Statements of a document within the limits, each on lines of its own."""
    found = []
    room = DEEPEST
    for number in range(draw(st.integers(0, 5))):
        kind = draw(st.sampled_from(["key", "key", "table", "list"]))
        if kind == "key" and room:
            parts = draw(st.integers(1, min(room, MOST_PARTS)))
            name = draw(key(f"k{number}", parts))
            found.append(f"{name} = {draw(values(room - parts + 1))}")
        elif kind == "table":
            parts = draw(st.integers(1, DEEPEST))
            room = DEEPEST - parts
            found.append(f"[{draw(key(f't{number}', parts))}]")
        else:
            parts = draw(st.integers(1, DEEPEST - 1))
            room = DEEPEST - parts - 1
            found.append(f"[[{draw(key(f'l{number}', parts))}]] # {draw(LITERAL)}")
    return found


@given(statements(), st.sampled_from(["\n", "\n\n", "\r\n"]))
def test_a_document_within_the_limits_is_let_through(lines: list[str], end: str) -> None:
    text = end.join(lines)

    check_text(text, shown_as="x.toml")
    check_table(tomllib.loads(text), shown_as="x.toml")


BROKEN: dict[str, tuple[str, str]] = {
    "parts": ("F104", "z" + ".a" * MOST_PARTS + " = 1"),
    "quoted parts": ("F104", "z" + " . 'a.b'" * MOST_PARTS + " = 1"),
    "parts of a table": ("F104", "[z" + ' ."\\"."' * MOST_PARTS + "]"),
    "parts in an inline table": ("F104", "z = { b" + ".a" * MOST_PARTS + " = 1 }"),
    "brackets": ("F104", f"z = {'[ ' * (DEEPEST + 1)}{'] ' * (DEEPEST + 1)}"),
    "braces": ("F104", f"z = {'{a=' * (DEEPEST + 1)}1{'}' * (DEEPEST + 1)}"),
    "line": ("F104", "z = 1" + " " * LONGEST_LINE),
    "comment": ("F104", "#" * (LONGEST_LINE + 1)),
    "word": ("F106", "z" * (LONGEST_WORD + 1) + " = 1"),
    "part": ("F106", "z." + "a" * (LONGEST_WORD + 1) + " = 1"),
    "table": ("F106", "[" + "z" * (LONGEST_WORD + 1) + "]"),
    "number": ("F106", "z = 0." + "1" * (LONGEST_WORD + 1)),
    "text": ("F106", 'z = "' + "a" * (LONGEST_TEXT + 1) + '"'),
    "text of escapes": ("F106", 'z = "a' + '\\"' * (LONGEST_TEXT // 2) + '"'),
    "literal text": ("F106", "z = '" + "a" * (LONGEST_TEXT + 1) + "'"),
    "text over lines": ("F106", 'z = """' + "ab \n" * (LONGEST_TEXT // 4) + 'a"""'),
    "text over lines that ends in quotes": ("F106", 'z = """' + "a" * (LONGEST_TEXT - 1) + '"""""'),
    "literal text over lines": ("F106", "z = '''" + "ab \n" * (LONGEST_TEXT // 4) + "a'''"),
}


@each_case("kind", [kind for kind, (code, _) in BROKEN.items() if code == "F106"])
def test_what_is_too_long_is_called_what_it_is(kind: str) -> None:
    with pytest.raises(bw.FileError) as caught:
        check_text(BROKEN[kind][1], shown_as="x.toml")

    if "text" in kind:
        assert caught.value.expected == "a text of at most 4096 characters"
        assert caught.value.remedy == "shorten it, and check that its quotes are closed"
    else:
        assert caught.value.expected == "a key or a number of at most 64 characters"
        assert caught.value.remedy == "shorten it, or put text in quotes"


@pytest.mark.parametrize(("code", "broken"), rarely_after(6, BROKEN.values()), ids=BROKEN)
@given(lines=statements(), place=st.integers(0, 5))
def test_a_document_that_breaks_one_limit_is_refused_with_its_line(
    code: str, broken: str, lines: list[str], place: int
) -> None:
    before, after = lines[:place], lines[place:]
    text = "\n".join([*before, broken, *after])

    with pytest.raises(bw.FileError) as caught:
        check_text(text, shown_as="x.toml")

    line = "\n".join([*before, ""]).count("\n") + 1
    assert (caught.value.code, caught.value.file, caught.value.line) == (code, "x.toml", line)
    assert caught.value.remedy


# -- Anything at all --------------------------------------------------------------------


@attrs.define
class Met:
    """The most that the parser has met of each."""

    parts: int = 0
    depth: int = 0
    now: int = 0


@pytest.fixture(scope="module")
def met() -> Any:
    """What the parser of the standard library meets, until it stops."""
    parser: Any = importlib.import_module("tomllib._parser")
    seen = Met()

    def parse_key(*arguments: Any) -> Any:
        position, parts = read_key(*arguments)
        seen.parts = max(seen.parts, len(parts))
        return position, parts

    def deeper(read: Callable[..., Any]) -> Callable[..., Any]:
        def parse(*arguments: Any) -> Any:
            seen.now += 1
            seen.depth = max(seen.depth, seen.now)
            result = read(*arguments)
            seen.now -= 1
            return result

        return parse

    read_key = parser.parse_key
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(parser, "parse_key", parse_key)
        for name in ("parse_array", "parse_inline_table"):
            patch.setattr(parser, name, deeper(getattr(parser, name)))
        yield seen


PIECES = (
    *(
        '"""',
        "'''",
        '""',
        "''",
        '"',
        "'",
        "\\",
        "\n",
        "\r\n",
        "#",
        "[",
        "]",
        "{",
        "}",
        ".",
        "=",
        ",",
    ),
    *("a", "1", " ", "\t", "µ", "\0", "\n[[a]]\n", "\n[b]\n", "\nc=", "\nd.e=", "[[[[", "]]]]"),
    *("a.b.c.d.", "'x'.\"y\".", "{a={a=", "'''\n", '"""\\\n', "1.5", "1]", "1}", ".a = 1"),
)


@given(st.lists(st.sampled_from(PIECES), max_size=40).map("".join))
@example("a.b.c.d.a.b.c.d.e = 1")
@example("a = [[[[ [[[[ [ ]]]] ]]]] ]")
@example('a = """x\\""" b.c.d.e.f.g.h.i.j """')
@example("a = '''x''''\nb.c.d.e.f.g.h.i.j = 1")
@example('a = """x""""\nb.c.d.e.f.g.h.i.j = 1')
@example("a = ''''''''\nb.c.d.e.f.g.h.i.j = 1")
@example('a = "\\\\"\nb.c.d.e.f.g.h.i.j = 1')
@example("a = '\\'\nb.c.d.e.f.g.h.i.j = 1")
@example("#'\na.b.c.d.e.f.g.h.i = 1")
@example("a = ''' ' '' '''\nb.c.d.e.f.g.h.i.j = 1")
def test_the_parser_meets_nothing_beyond_the_limits(met: Met, text: str) -> None:
    met.parts = met.depth = met.now = 0
    try:
        tomllib.loads(text)
        is_toml = True
    except tomllib.TOMLDecodeError:
        is_toml = False
    is_beyond = met.parts > MOST_PARTS or met.depth > DEEPEST
    try:
        check_text(text, shown_as="")
        is_refused = False
    except bw.FileError:
        is_refused = True

    # Of what is no TOML, more may be refused.
    assert is_refused == is_beyond if is_toml else is_refused >= is_beyond


# -- What the parser made ----------------------------------------------------------------


def refused(table: dict[str, Any]) -> tuple[str, str, str]:
    """Code, key and value that a table is refused with."""
    with pytest.raises(bw.FileError) as caught:
        check_table(table, shown_as="x.toml")
    assert caught.value.file == "x.toml"
    return caught.value.code, caught.value.key, caught.value.value


def nested(depth: int) -> dict[str, Any]:
    """Tables in each other."""
    table: dict[str, Any] = {}
    for _ in range(depth):
        table = {"a": table}
    return table


@pytest.mark.parametrize(
    "table",
    [
        {},
        nested(8),
        {"a" * 64: [2**63 - 1, -(2**63), True, 1.5, "x"]},
        dict.fromkeys(map(str, range(1000)), 1),
        {"a": [1] * 1000, "b": [{}] * 20_000, "c": []},
    ],
)
def test_a_table_within_the_limits(table: dict[str, Any]) -> None:
    check_table(table, shown_as="x.toml")


@pytest.mark.parametrize(
    ("table", "problem"),
    [
        (nested(9), ("F104", "a" + ".a" * 8, "a deeper table or list")),
        ({"a": {"b" * 65: 1}}, ("F106", "a", "b" * 65)),
        ({"a": [{"b": 2**63}]}, ("F106", "a[0].b", str(2**63))),
        ({"a": [1, [-(2**63) - 1]]}, ("F106", "a[1][0]", str(-(2**63) - 1))),
        (dict.fromkeys(map(str, range(1001)), 1), ("F104", "", "1001 keys")),
        ({"a": {"b": dict.fromkeys(map(str, range(1001)))}}, ("F104", "a.b", "1001 keys")),
        ({"a": [1] * 1001}, ("F104", "a", "1001 items")),
        ({"a": {"b": [{}] * 1001}}, ("F104", "a.b", "1001 items")),
        ({"a": [{}] * 20_001}, ("F104", "a", "20001 items")),
    ],
)
def test_a_table_beyond_the_limits_is_refused_with_its_key(
    table: dict[str, Any], problem: tuple[str, str, str]
) -> None:
    assert refused(table) == problem


@pytest.mark.parametrize(
    ("table", "expected"),
    [
        (nested(9), "at most 8 levels of tables and lists"),
        ({"b" * 65: 1}, "a key or a number of at most 64 characters"),
        ({"a": 2**63}, "a whole number of at most 18 digits"),
        (dict.fromkeys(map(str, range(1001)), 1), "at most 1000 in one table"),
        ({"a": [1] * 1001}, "at most 1000 in one list"),
        ({"a": [{}] * 20_001}, "at most 20000 in one list"),
    ],
)
def test_a_table_beyond_the_limits_says_what_is_allowed(
    table: dict[str, Any], expected: str
) -> None:
    with pytest.raises(bw.FileError) as caught:
        check_table(table, shown_as="x.toml")
    assert caught.value.expected == expected


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("[a]\n" * (limits.MOST_TABLES + 1), limits.MOST_TABLES + 1),
        ("a.a = 1.5\n" * (limits.MOST_TABLES // 2) + "\n[a]", limits.MOST_TABLES // 2 + 2),
    ],
)
def test_what_could_make_too_many_tables_is_refused(text: str, line: int) -> None:
    with pytest.raises(bw.FileError) as caught:
        check_text(text, shown_as="")

    assert (caught.value.code, caught.value.line) == ("F104", line)
    assert caught.value.value == f"more than {limits.MOST_TABLES} brackets and points"


@pytest.mark.parametrize("word", ["1", "''", '""""""', "true"])
def test_more_words_than_any_data_has_are_refused(word: str) -> None:
    lines = f"{word},\n" * (limits.MOST_WORDS - 1)
    check_text(f"a = [\n{lines}]\n" + 'b = "text"\n' * 1000, shown_as="")

    with pytest.raises(bw.FileError) as caught:
        check_text(f"a = [\n{lines}{word}]", shown_as="")

    assert (caught.value.code, caught.value.line) == ("F104", limits.MOST_WORDS + 1)
    assert caught.value.value == f"more than {limits.MOST_WORDS} keys, numbers and texts"


def test_tables_are_counted_and_texts_are_not() -> None:
    check_text("[a]\n" * limits.MOST_TABLES + "b = '[.[.'\n" * 1000, shown_as="")


# -- Records of a pack --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("counts", "problem"),
    [
        ({"chassis": 10_000, "bar": 9_000, "source": 1_000}, None),
        ({"chassis": 10_001}, "more than 10000 chassis"),
        ({"source": 1_001}, "more than 1000 sources"),
        ({"chassis": 5_000, "waiver": 15_001}, "more than 20000 records"),
    ],
)
def test_records_of_all_files_are_counted_together(
    counts: dict[str, int], problem: str | None
) -> None:
    first: dict[str, Any] = {kind: [{}] * (count // 2) for kind, count in counts.items()}
    second: dict[str, Any] = {kind: [{}] * (count - count // 2) for kind, count in counts.items()}
    tables = {"pack.toml": {"id": "x", "bar": 1}, "a.toml": first, "b.toml": second}
    if problem is None:
        check_records(tables)
        return

    with pytest.raises(bw.FileError) as caught:
        check_records(tables)

    assert (caught.value.code, caught.value.file, caught.value.value) == ("F107", "b.toml", problem)

"""TOML that is read without the parser is what the parser reads; all else is left to it."""

from __future__ import annotations

import tomllib
from pathlib import Path

import hypothesis
import pytest
from hypothesis import strategies as st

from barwright.errors import FileError
from barwright.registry.discovery.shipped import demo_folders
from barwright.registry.files.document import parse_toml
from barwright.registry.files.file_limits import MOST_ITEMS, MOST_RECORDS, MOST_TABLES, MOST_WORDS
from barwright.registry.files.ordinary_toml import ordinary_table
from barwright.registry.files.toml_limits import check_table, check_text
from each_case import each_case

_FILES = [path for folder in demo_folders() for path in sorted(folder.glob("*.toml"))]

_ORDINARY = (
    "",
    "a = 1",
    "a = 1 # a count\n  b\t=\t2\n\n# c = 3\r\nd = true",
    'a = "742.0 mm ± 0.4 mm" # "quoted"\n',
    "a = [1, -2.5, true]\nb = []\nc = {}",
    'a = { is = "1 mm", teeth = 39, at = "page = 3, {4}", keyed = false, 5 = 6 }',
    'a = { b = [{ c = "1" }, { c = "2" }] }',
    'a = { b.c = 1 }\nd = """e # f"""',
    'a = [\n    "One.",\n    "Two.",\n]\n',
    'a = \'literal\'\nb = 2031-04-05\nc = 1e3\nd = 0x1f\ne = ""\nf = "a \\"b\\""',
    "[a]\nb = 1\n[a.c]\nd = 2\n[[a.e]]\nf = 3\n[[a.e]]\nf = 4\n[a.e.g]\n[h]",
    "[[a]]\n[a.b]\n[[a.c]]\n[[a]]\n[a.b]\nd = 1\n[[a.c]]\n[[a.c]]",
)

_LEFT_TO_THE_PARSER = (
    "a.b = 1",
    '"a" = 1',
    "[a.b]",
    "[ a ]",
    "[a]\n[a]",
    "[a]\n[[a]]",
    "[[a]]\n[a]",
    "a = 1\na = 2",
    "a = 1\n[a]",
    "a = [1]\n[[a]]",
    "a = {}\n[a.b]",
    "[[a]]\nb = [1]\n[[a.b]]",
    "[[a]]\n[[a.b]]\n[[a]]\nb = [1]\n[[a.b]]",
    "[[a]]\n[a.b]\n[[a]]\n[a.b.c]",
    "[[a]\n",
    "a = { b = 1, b = 2 }",
    "a = [1, 2",
    "a = [NaN, null]",
    "a = 01",
    "a = 1 2",
    "a",
    "a =",
    'a = "b',
    'a = "b" c',
    'a = """b\n"""',
    'a = """b" # c"""',
    "a = '''b\nc'''",
    "a = [\n  1, # one\n]",
    "a = 1\rb = 2",
    'a = "\x00"',
    "# \x7f",
    "a = 'x # y'",
)


@each_case("path", _FILES)
def test_demo_packs_are_read_without_the_parser(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert repr(ordinary_table(text)) == repr(tomllib.loads(text))


@each_case("text", _ORDINARY)
def test_what_is_written_as_usual_is_read_without_the_parser(text: str) -> None:
    assert repr(ordinary_table(text)) == repr(tomllib.loads(text))


@each_case("text", _LEFT_TO_THE_PARSER)
def test_what_is_unusual_or_wrong_is_left_to_the_parser(text: str) -> None:
    assert ordinary_table(text) is None


# Pieces of lines, from which texts are drawn that are nearly right.
_PIECES = (
    *("a", "b", "1", " ", "  ", "\t", "=", " = ", "=", ".", ",", ", ", "#", "\n", "\n", "\r\n"),
    *("[", "]", "[[", "]]", "{", "}", '"', "'", '"""', "\\", "[a]", "[[a]]", "[a.b]", "[[a.b]]"),
    *('"x"', '"1 mm"', "''", '""', "39", "-1", "1.5", "01", "true", "false", "nan", "null", "inf"),
    *("a = 1\n", 'b = "c"\n', "a = [1, 2]\n", "b = { a = 1 }\n", "# c\n", "1e5", "2031-04-05"),
    *("\x00", "\x7f", "\u2028", "±", "\ufeff", ":", "-", "+", "_"),
)


@hypothesis.given(st.lists(st.sampled_from(_PIECES), max_size=30).map("".join))
def test_any_text_is_read_as_the_parser_reads_it(text: str) -> None:
    read = ordinary_table(text)
    if read is not None:
        assert repr(read) == repr(tomllib.loads(text))
        check_text(text, shown_as="x")
        check_table(read, shown_as="x")


_LONG = "x" * 64

_AT_A_LIMIT = {
    "word": (f"{_LONG} = 1", f"{_LONG}x = 1"),
    "text": (f'a = "{_LONG * 64}"', f'a = "{_LONG * 64}x"'),
    "text in a list": (f'a = ["{_LONG * 60}"]', f'a = ["{_LONG * 64}x"]'),
    "line": (f"a = 1 # {_LONG * 15}", f"a = 1 # {_LONG * 128}"),
    "number": ("a = 9223372036854775807", "a = 9223372036854775808"),
    "keys": (
        "".join(f"a{i} = 1\n" for i in range(MOST_ITEMS)),
        "".join(f"a{i} = 1\n" for i in range(MOST_ITEMS + 1)),
    ),
    "keys of a table": (
        "[b]\na = 1",
        "[b]\n" + "".join(f"a{i} = 1\n" for i in range(1001)) + "[c]",
    ),
    "items": (f"a = [{'1, ' * 900}1]", f"a = [{'1, ' * MOST_ITEMS}1]"),
    "tables in a table": ("[a]\n" + "[[a.b]]\n" * MOST_ITEMS, "[a]\n" + "[[a.b]]\n" * 1001),
    "records": ("[[a]]\n" * 8_000, "[[a]]\n" * (MOST_RECORDS + 1)),
    "depth": ("a = [[[1]]]", "a = [[[[[[[[[1]]]]]]]]]"),
    "depth of headers": ("[a]\n[a.b]\n[a.b.c]", "[a]\n[a.b]\n[a.b.c]\n[a.b.c.d]"),
    "tables": ("[[a]]\nb = {}\n" * 6_000, "[[a]]\nb = [{}, {}]\n" * (MOST_TABLES // 4 + 1)),
    "words": (
        "[[a]]\nb = [1, 2]\n" * 5_000,
        "[[a]]\nb = [1, 2, 3, 4, 5, 6, 7]\n" * (MOST_WORDS // 8),
    ),
}


@pytest.mark.parametrize("limit", _AT_A_LIMIT)
def test_what_is_beyond_a_limit_is_left_to_those_who_refuse_it(limit: str) -> None:
    within, beyond = _AT_A_LIMIT[limit]
    assert parse_toml(within.encode(), shown_as="x") == tomllib.loads(within)
    assert ordinary_table(beyond) is None


@each_case("limit", sorted(_AT_A_LIMIT.keys() - {"number", "line"}))
def test_what_is_within_the_limits_needs_no_parser(limit: str) -> None:
    assert ordinary_table(_AT_A_LIMIT[limit][0]) is not None


def test_an_error_is_the_parsers_own() -> None:
    with pytest.raises(FileError) as refused:
        parse_toml(b"a = 1\nb = [1,, 2]\n", shown_as="x.toml")
    assert (refused.value.code, refused.value.line) == ("F103", 2)

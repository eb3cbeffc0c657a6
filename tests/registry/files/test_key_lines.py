"""Lines of keys, which the TOML parser does not tell."""

from __future__ import annotations

import contextlib
import os
import tomllib
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import SchemaError
from barwright.registry.files.key_lines import (
    line_of,
    lines_of,
    located,
    nearest_line,
    text_of_file,
)
from each_case import each_case

TEXT = '''\
title = "a # b"
corners = [
  "front left",   # ]
  "front right",
]
"quoted key" = 1
[parts]
bar = "x"
damper.left = "y"
[[chassis]]
id = "a"
note = """
id = "not a key"
"""
[[chassis.axles]]
place = "front"
left = { arm = "b", bar = "c" }
[[chassis.axles]]
place = "rear"
[[chassis]]
id = "b"
[[chassis.axles]]
place = "front"
'''


@each_case(
    "key, line",
    [
        ("title", 1),
        ("corners", 2),
        ("corners[1]", 2),
        ("quoted key", 6),
        ("parts", 7),
        ("parts.bar", 8),
        ("parts.damper.left", 9),
        ("parts.tube", 7),
        ("chassis[0].id", 11),
        ("chassis[0].note", 12),
        ("chassis[0].axles[0].place", 16),
        ("chassis[0].axles[0].left.arm", 17),
        ("chassis[0].axles[1].place", 19),
        ("chassis[1].id", 21),
        ("chassis[1].axles[0].place", 23),
        ("nothing", 0),
        ("", 0),
    ],
)
def test_a_key_is_found_or_else_the_table_around_it(key: str, line: int) -> None:
    assert line_of(TEXT, key) == line


NAMES = st.text(st.sampled_from("abcdef-_"), min_size=1, max_size=6)
VALUES = (
    st.integers()
    | st.text(max_size=20)
    | st.text("'\"\\\n#[{=a", max_size=20)
    | st.lists(st.integers(), max_size=3)
)
TABLES = st.dictionaries(NAMES, VALUES, max_size=4)
DOCUMENTS = st.dictionaries(
    NAMES, VALUES | TABLES | st.lists(TABLES.filter(bool), min_size=1, max_size=3), max_size=5
)


def keys_of(table: dict[str, Any], path: str = "") -> list[str]:
    """Every key that holds a value, by its path."""
    found = []
    for name, value in table.items():
        key = f"{path}.{name}".strip(".")
        if isinstance(value, dict):
            found += keys_of(value, key)
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            for index, item in enumerate(value):
                found += keys_of(item, f"{key}[{index}]")
        else:
            found.append(key)
    return found


@given(DOCUMENTS)
def test_every_key_of_any_document_is_found_on_a_line_that_begins_with_it(
    document: dict[str, Any],
) -> None:
    text = tomli_w.dumps(document, multiline_strings=len(document) % 2 == 0)
    lines = text.split("\n")
    assert tomllib.loads(text) == document
    for key in keys_of(document):
        line = lines[line_of(text, key) - 1]
        name = key.rpartition(".")[2]
        # tomli-w writes short lists of tables inline, on the line of their key.
        outer = key.partition("[")[0].rpartition(".")[2]
        assert line.startswith((f"{name} =", f"{outer} =")), (key, line)


def test_problems_get_their_lines_once_and_keep_those_they_have() -> None:
    def problem(**place: Any) -> SchemaError:
        return SchemaError("S203", value=1, expected="text", remedy="quote it", **place)

    found = located(
        [
            problem(file="a.toml", key="parts.bar"),
            problem(file="a.toml", key="parts.bar", line=3),
            problem(file="missing.toml", key="parts.bar"),
            problem(file="a.toml"),
        ],
        lambda name: TEXT if name == "a.toml" else "",
    )
    assert [p.line for p in found] == [8, 3, 0, 0]


def test_a_file_is_read_again_where_it_can_be(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_bytes(b"\xef\xbb\xbfa = 1\n")
    (tmp_path / "no-text.toml").write_bytes(b"\xff")
    os.mkfifo(tmp_path / "pipe.toml")
    names = ("a.toml", "no-text.toml", "pipe.toml", "none.toml", "a\0b")
    assert [text_of_file(str(tmp_path / name)) for name in names] == ["a = 1\n", "", "", "", ""]


def test_a_text_that_is_never_closed_hides_what_follows() -> None:
    assert line_of('a = """\nb = 1\n', "b") == 0
    assert line_of("a = '''x'''\nb = 1\n", "b") == 2


def test_lines_of_a_file_are_had_once_for_many_keys() -> None:
    lines = lines_of(TEXT)

    assert [nearest_line(lines, key) for key in ("parts.bar", "parts.bar.x", "y")] == [8, 8, 0]
    assert all(nearest_line(lines, key) == line_of(TEXT, key) for key in lines)


@each_case(
    "value, is_closed",
    [
        (r'"a\"b"', True),
        (r'"\\"', True),
        ("'\\'", True),
        (r'"""a\"""b"""', True),
        ('"""a""b"""""', True),
        ("'''a''b'''''", True),
        ('""', True),
        ('[ # ]\n1, "]", [2]\n]', True),
        ("{ a = '}' } # {", True),
        ('"', False),
        ("'a\n", False),
        (r'"a\"', False),
        ('"""a""', False),
        (r'"""a\"""', False),
        ("'''a''", False),
        ("[", False),
    ],
)
def test_the_next_key_stands_behind_a_whole_value(value: str, *, is_closed: bool) -> None:
    text = f"a = {value}\nb = 1\n"
    line = text.count("\n") if is_closed else 0

    assert lines_of(text) == {"a": 1} | ({"b": line} if line else {})
    with contextlib.nullcontext() if is_closed else pytest.raises(tomllib.TOMLDecodeError):
        tomllib.loads(text)


@each_case("text", ["[", "[a", "[a\n]", "a", "a.", "= 1", "'", "a b = 1", "é = 1", "]"])
def test_what_is_no_toml_has_no_lines(text: str) -> None:
    assert lines_of(f"x = 1\n{text}\ny = 1") == {"x": 1}


def test_quotes_within_a_quoted_key_are_part_of_it() -> None:
    assert lines_of("[\"'a'\".b]\n'\"c\"' = 1") == {"'a'.b": 1, "'a'.b.\"c\"": 2}


def test_a_key_without_characters_does_not_hide_its_table() -> None:
    assert lines_of("[a]\n'' = 1\n[[b.\"\"]]\nc = 2") == {
        "a": 1,
        "a.": 2,
        "b.[0]": 3,
        "b.[0].c": 4,
    }


def test_a_key_of_more_parts_than_the_parser_sees_has_no_line() -> None:
    assert list(lines_of(".".join("abcdefgh") + " = 1")) == ["a.b.c.d.e.f.g.h"]
    assert lines_of("[" + "a." * 4000 + "a]") == {}

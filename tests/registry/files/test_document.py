"""Tests of `document`: a file of unknown origin is read, or refused at once."""

from __future__ import annotations

import os
import time
import tomllib
import tracemalloc
from pathlib import Path

import pytest

import barwright as bw
from barwright.registry.files.document import read_toml
from barwright.registry.files.file_limits import LARGEST_FILE
from each_case import each_case


def refusal(path: Path) -> bw.FileError:
    """The error that a file is refused with."""
    with pytest.raises(bw.FileError) as caught:
        read_toml(path, shown_as="x.toml")
    return caught.value


def written(folder: Path, data: str | bytes) -> Path:
    """A file that holds some text, or some bytes."""
    path = folder / "x.toml"
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return path


@pytest.mark.parametrize(
    ("data", "table"),
    [
        ("", {}),
        ("a = 1\n", {"a": 1}),
        ("\ufeffa = 1\n", {"a": 1}),
        ("a = 1\r\nb = 'µ'\r\n", {"a": 1, "b": "µ"}),
        ("a.b.c = 1\n", {"a": {"b": {"c": 1}}}),
        ("a = '1.2.3.4.5.6.7.8.9.10.11.12.13.14.15.16.17.18.19'\n", None),
        (f"a = '{'One sentence. ' * 100}'\n", None),
        (f"a = [{', '.join(['1.5'] * 500)}]\n", {"a": [1.5] * 500}),
        ("\n".join(f"[[r]]\nk{number} = '{number}.5 mm'" for number in range(15_000)), None),
        (f"a = {'[ ' * 8}{'] ' * 8}\n", None),
        ("a = 9223372036854775807\n", {"a": 2**63 - 1}),
    ],
)
def test_data_of_any_use_is_read(
    tmp_path: Path, data: str, table: dict[str, object] | None
) -> None:
    read = read_toml(written(tmp_path, data))

    assert read == table or (table is None and read)


DEEP = 1000
COSTLY = {
    "dotted key": ".".join(["a"] * 10_000) + " = 1",
    "dotted key with blanks": " . ".join(["a"] * 10_000) + " = 1",
    "dotted key in quotes": ".".join(['"a b"'] * 10_000) + " = 1",
    "dotted key of empty parts": ".".join(['""'] * 10_000) + " = 1",
    "dotted header": "[" + ".".join(["'a!'"] * 10_000) + "]\na = 1",
    "many dotted keys": "\n".join(f"k{n}." + ".".join(["a"] * 900) + " = 1" for n in range(500)),
    "dotted key behind a quote": "a = { b = '''\n' ''', " + ".".join(["b"] * 10_000) + " = 'x' }",
    "deep list": f"a = {'[' * DEEP}{']' * DEEP}",
    "deep list with blanks": f"a = {'[ ' * DEEP}{'] ' * DEEP}",
    "deep list over lines": "a = " + "[\n" * DEEP + "]\n" * DEEP,
    "deep list that is not closed": "a = " + "[" * 500_000,
    "deep table": f"a = {'{a = ' * 300}1{'}' * 300}",
    "a little too deep": f"a = {'[ ' * 9}{'] ' * 9}",
    "long word": "a" * 1_000_000,
    "long key": "a." + "b" * 900_000 + " = 1",
    "word and blanks": "a" + " " * 900_000 + "b",
    "words": "a " * 500_000,
    "words with hyphens": ("a" * 50 + "-") * 20_000,
    "too many bytes": "#\n" * 600_000,
}


@each_case("text", COSTLY.values())
def test_what_would_cost_the_parser_minutes_is_refused_at_once(tmp_path: Path, text: str) -> None:
    path = written(tmp_path, text)
    start = time.process_time()

    error = refusal(path)

    assert (error.code, error.file) == ("F104", "x.toml")
    assert time.process_time() - start < 2.0


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "1" * 5000,
        "a = [\n" + "1" * 4090 + ",\n" + "]",
        "a = 0x" + "f" * 4000,
        "a = 9223372036854775809",
    ],
)
def test_a_number_that_is_too_long(tmp_path: Path, text: str) -> None:
    assert refusal(written(tmp_path, text)).code == "F106"


@pytest.mark.parametrize("error", [RecursionError, MemoryError, ValueError])
def test_what_the_parser_cannot_take_for_other_reasons_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: type[Exception]
) -> None:
    """The program around it may have used up the stack."""

    def failing(_: str) -> None:
        raise error

    monkeypatch.setattr(tomllib, "loads", failing)

    assert refusal(written(tmp_path, "a.b = 1")).code == "F104"


def test_a_file_that_is_larger_than_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    small = written(tmp_path, b"").stat()
    path = written(tmp_path, b"#" * (LARGEST_FILE + 1))
    monkeypatch.setattr(os, "fstat", lambda _: small)

    assert refusal(path).code == "F104"


def test_a_file_that_says_that_it_is_too_large_is_not_read(tmp_path: Path) -> None:
    path = written(tmp_path, b"")
    os.truncate(path, 2**40)

    assert refusal(path).value == "more than 1048576 bytes"


def test_a_file_of_the_largest_size_is_read(tmp_path: Path) -> None:
    assert read_toml(written(tmp_path, b"#\n" * (LARGEST_FILE // 2))) == {}


def test_refusing_costs_no_memory(tmp_path: Path) -> None:
    path = written(tmp_path, COSTLY["many dotted keys"])
    tracemalloc.start()
    try:
        assert refusal(path).code == "F104"
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()

    assert peak < 50_000_000


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="a system without such a device")
def test_a_device_without_end_is_not_read_to_its_end() -> None:
    assert refusal(Path("/dev/zero")).code == "F104"


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    error = refusal(tmp_path / "none.toml")

    assert (error.code, error.value, error.line) == ("F101", "No such file or directory", 0)


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    assert refusal(tmp_path).code == "F101"


@pytest.mark.parametrize("name", ["a\0b", "a" * 5000, "a\udcff"])
def test_a_name_that_no_file_can_have(name: str) -> None:
    assert refusal(Path(name)).code == "F101"


def test_a_link_that_leads_to_itself(tmp_path: Path) -> None:
    (tmp_path / "x.toml").symlink_to(tmp_path / "x.toml")

    assert refusal(tmp_path / "x.toml").code == "F101"


@pytest.mark.parametrize(
    ("data", "line", "value"),
    [(b"a = 1\nb = '\xe9'\n", 2, "byte 0xe9"), ("a = 1".encode("utf-16"), 1, "byte 0xff")],
)
def test_bytes_that_are_not_utf_8(tmp_path: Path, data: bytes, line: int, value: str) -> None:
    error = refusal(written(tmp_path, data))

    assert (error.code, error.line, error.value) == ("F102", line, value)


@pytest.mark.parametrize(
    ("text", "line", "value"),
    [
        ("a = 1\nb = \nc = 2\n", 2, "b ="),
        ("a = 1\na = 2\n", 2, "a = 2"),
        ("a = 'x", 1, "a = 'x"),
        ("a = 1\r\nb = ?\r\n", 2, "b = ?"),
        ("a = '\u2028'\nb = ?\n", 2, "b = ?"),
        ("a = 2031-13-45", 1, "a = 2031-13-45"),
        ("\n\n[[a]\n", 3, "[[a]"),
        ("a = '\0'\n", 1, "a = '\0'"),
    ],
)
def test_text_that_is_not_toml_is_shown_with_its_line(
    tmp_path: Path, text: str, line: int, value: str
) -> None:
    error = refusal(written(tmp_path, text))

    assert (error.code, error.line, error.value) == ("F103", line, value)
    assert error.remedy.startswith("correct this line: ")


@pytest.mark.parametrize("line", ["title = “Low on the left”", "title = ‘Low’", "title = «Low»"])
def test_quotation_marks_of_a_word_processor_are_named(tmp_path: Path, line: str) -> None:
    error = refusal(written(tmp_path, f"{line}\n"))

    assert (error.code, error.remedy) == ("F103", 'write straight quotation marks, "')


def test_a_file_is_called_by_its_path_if_nothing_else_is_given(tmp_path: Path) -> None:
    with pytest.raises(bw.FileError) as caught:
        read_toml(tmp_path / "none.toml")

    assert caught.value.file == str(tmp_path / "none.toml")

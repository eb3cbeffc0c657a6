"""Tests of `barwright.registry.structure`: nothing is guessed, and all problems come at once."""

from __future__ import annotations

import enum
import time
from pathlib import Path
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.parts.source import Record
from barwright.registry.structure import Structurer, nearest, problems_of
from packing import GOOD_PACK, changed_pack, problems_in

BAR = 'diameter = "23.3 mm ± 0.05 mm"'
STEEL = 'shear_modulus = { is = "77 GPa ± 4 GPa", source = "bench", at = "sheet 2" }'

# File of the good pack, text in it, text in its place, and the problems that follow.
CHANGES: dict[str, tuple[str, str, str, list[str]]] = {
    "float for a count": ("parts.toml", "39", "39.0", ["S203 arm[0].socket.teeth"]),
    "text for a count": ("parts.toml", "39", '"39"', ["S203 arm[0].socket.teeth"]),
    "truth for a count": ("parts.toml", "39", "true", ["S203 arm[0].socket.teeth"]),
    "no count": ("parts.toml", "39", "0", ["S203 arm[0].socket.teeth"]),
    "negative count": ("parts.toml", "39", "-39", ["S203 arm[0].socket.teeth"]),
    "count beyond use": ("parts.toml", "39", "10000", ["S203 arm[0].socket.teeth"]),
    "number for text": ("parts.toml", '"Arm"', "5", ["S203 arm[0].title"]),
    "truth for text": ("parts.toml", '"Arm"', "true", ["S203 arm[0].title"]),
    "blank text": ("parts.toml", '"Arm"', '" "', ["S203 arm[0].title"]),
    "date for text": ("parts.toml", '"Arm"', "2031-01-02", ["S203 arm[0].title"]),
    "text for a truth": (
        "parts.toml",
        BAR,
        f'preset = "true"\n{BAR}',
        ["S203 bar[0].preset"],
    ),
    "number for a truth": ("parts.toml", BAR, f"preset = 1\n{BAR}", ["S203 bar[0].preset"]),
    "text for a number": (
        "vehicles.toml",
        "[1, 0, 0]",
        '[1, "0", true]',
        ["S203 chassis[0].axles[0].bar_axis[1]", "S203 chassis[0].axles[0].bar_axis[2]"],
    ),
    "not a number": (
        "vehicles.toml",
        "[1, 0, 0]",
        "[nan, inf, 0]",
        ["S203 chassis[0].axles[0].bar_axis[0]", "S203 chassis[0].axles[0].bar_axis[1]"],
    ),
    "two of three": ("vehicles.toml", "[1, 0, 0]", "[1, 0]", ["S203 chassis[0].axles[0].bar_axis"]),
    "text for a list": (
        "vehicles.toml",
        "[1, 0, 0]",
        '"100"',
        ["S203 chassis[0].axles[0].bar_axis"],
    ),
    "table for a list": (
        "vehicles.toml",
        "[[chassis.axles]]",
        "[chassis.axles]",
        ["S203 chassis[0].axles"],
    ),
    "list for a table": (
        "parts.toml",
        "gas = {",
        'gas = ["190 N"]\nx = {',
        ["S203 damper[0].gas", "S201 damper[0].x"],
    ),
    "text for a table": (
        "parts.toml",
        "gas = {",
        'gas = "190 N"\nx = {',
        ["S203 damper[0].gas", "S201 damper[0].x"],
    ),
    "misspelled key": (
        "parts.toml",
        "teeth = 39",
        "teth = 39",
        ["S202 arm[0].socket.teeth", "S201 arm[0].socket.teth"],
    ),
    "a record's own bookkeeping": (
        "parts.toml",
        BAR,
        f"about = {{}}\n{BAR}",
        ["S201 bar[0].about"],
    ),
    "wrong word": ("vehicles.toml", '"front"', '"Front"', ["S204 chassis[0].axles[0].place"]),
    "list for a word": (
        "vehicles.toml",
        '"front"',
        '["front"]',
        ["S204 chassis[0].axles[0].place"],
    ),
    "wrong kind of suspension": (
        "vehicles.toml",
        '"strut"',
        '"leaf"',
        ["S204 chassis[0].axles[0].suspension.kind"],
    ),
    "list for a kind of suspension": (
        "vehicles.toml",
        '"strut"',
        '["strut"]',
        ["S204 chassis[0].axles[0].suspension.kind"],
    ),
    "no kind of suspension": (
        "vehicles.toml",
        'kind = "strut", ',
        "",
        ["S204 chassis[0].axles[0].suspension.kind"],
    ),
    "key of the other suspension": (
        "vehicles.toml",
        "top_up =",
        "mount_up =",
        [
            "S202 chassis[0].axles[0].suspension.top_up",
            "S201 chassis[0].axles[0].suspension.mount_up",
        ],
    ),
    "bare figure": ("parts.toml", BAR, "diameter = 23.3", ["Q105 bar[0].diameter"]),
    "truth for a figure": ("parts.toml", BAR, "diameter = true", ["Q104 bar[0].diameter"]),
    "list for a figure": ("parts.toml", BAR, 'diameter = ["1 mm"]', ["Q104 bar[0].diameter"]),
    "figure with a comma": ("parts.toml", BAR, 'diameter = "23,3 mm"', ["Q101 bar[0].diameter"]),
    "figure of another kind": ("parts.toml", BAR, 'diameter = "23 kg"', ["Q202 bar[0].diameter"]),
    "negative figure": ("parts.toml", BAR, 'diameter = "-23 mm"', ["Q302 bar[0].diameter"]),
    "figure table with another key": (
        "steel.toml",
        "at =",
        "page =",
        ["S201 material[0].shear_modulus.page"],
    ),
    "figure table without a figure": (
        "steel.toml",
        'is = "77 GPa ± 4 GPa", ',
        "",
        ["S202 material[0].shear_modulus"],
    ),
    "figure table with a number": (
        "steel.toml",
        'is = "77 GPa ± 4 GPa"',
        "is = 77",
        ["Q105 material[0].shear_modulus"],
    ),
    "figure table in itself": (
        "steel.toml",
        'is = "77 GPa ± 4 GPa"',
        "is = {}",
        ["Q104 material[0].shear_modulus"],
    ),
    "unknown source of a figure": (
        "steel.toml",
        '"bench"',
        '"bensch"',
        ["S206 material[0].shear_modulus.source"],
    ),
    "source of a figure as list": (
        "steel.toml",
        '"bench"',
        '["bench"]',
        ["S203 material[0].shear_modulus.source"],
    ),
    "place of a figure as number": (
        "steel.toml",
        '"sheet 2"',
        "2",
        ["S203 material[0].shear_modulus.at"],
    ),
    "unknown source of a record": (
        "steel.toml",
        'source = "desk"',
        'source = "table"',
        ["S206 material[0].source"],
    ),
    "no source of a record": ("steel.toml", 'source = "desk"', "", ["S202 material[0].source"]),
    "list for the source of a record": (
        "steel.toml",
        'source = "desk"',
        'source = ["desk"]',
        ["S203 material[0].source"],
    ),
    "number for the place of a record": (
        "parts.toml",
        '"page 3"',
        "3",
        ["S203 bar[0].at"],
    ),
    "reference to nothing": (
        "parts.toml",
        '"material/steel"',
        '"material/stel"',
        ["S206 bar[0].material"],
    ),
    "reference to another kind": (
        "parts.toml",
        '"material/steel"',
        '"arm/one"',
        ["S206 bar[0].material"],
    ),
    "reference to another pack": (
        "parts.toml",
        '"material/steel"',
        '"other:material/steel"',
        ["S206 bar[0].material"],
    ),
    "record in place of a reference": (
        "parts.toml",
        '"material/steel"',
        '{ id = "x", title = "X", source = "desk", shear_modulus = "77 GPa" }',
        ["S203 bar[0].material"],
    ),
    "number for a reference": ("parts.toml", '"material/steel"', "5", ["S203 bar[0].material"]),
    "impossible dimensions": ("parts.toml", '"904 mm"', '"90 mm"', ["G103 bar[0].length"]),
    "teeth named twice": (
        "parts.toml",
        'form = "involute", length = "37 mm", major_diameter = "30 mm"',
        'form = "involute", length = "37 mm", blanks = [0, 39], major_diameter = "30 mm"',
        ["S207 bar[0].arm_end.blanks"],
    ),
    "number for a list of teeth": (
        "parts.toml",
        'form = "involute", length = "37 mm", major_diameter = "30 mm"',
        'form = "involute", length = "37 mm", blanks = 0, major_diameter = "30 mm"',
        ["S203 bar[0].arm_end.blanks"],
    ),
}


@pytest.mark.parametrize(("file", "old", "new", "problems"), CHANGES.values(), ids=CHANGES)
def test_each_slip_is_one_problem_with_its_path(
    tmp_path: Path, file: str, old: str, new: str, problems: list[str]
) -> None:
    """A record that is left out drags no complaints of others behind it."""
    assert problems_in(changed_pack(tmp_path, file, old, new)) == problems


def test_the_good_pack_has_no_problem() -> None:
    assert problems_in(GOOD_PACK) == []


def test_all_problems_of_a_record_come_at_once(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "parts.toml", BAR, 'diameter = "23,3 mm"\nbore = 5\nwidth = 1')
    text = (pack / "parts.toml").read_text(encoding="utf-8")
    text = text.replace("teeth = 39, form", "teeth = 39.0, form").replace('"904 mm"', '"904 kg"')
    (pack / "parts.toml").write_text(text, encoding="utf-8")

    assert problems_in(pack) == [
        "S203 arm[0].socket.teeth",
        "Q101 bar[0].diameter",
        "Q105 bar[0].bore",
        "Q202 bar[0].length",
        "S203 bar[0].arm_end.teeth",
        "S201 bar[0].width",
    ]


def test_what_is_known_of_a_figure_is_kept_beside_it() -> None:
    registry = bw.Registry.from_folders(GOOD_PACK)
    bar = registry.part("tiny:bar/one")
    assert isinstance(bar, bw.Bar)

    figure = bar.about["diameter"]
    assert (str(figure.value), str(figure.tolerance)) == ("23.3 millimeter", "0.05 millimeter")
    assert (figure.source, figure.source_kind) == ("tiny:desk", bw.SourceKind.INVENTED)
    assert (figure.at, figure.file, figure.key) == ("page 3", "parts.toml", "one.diameter")
    steel = bar.material.about["shear_modulus"]
    assert (steel.source, steel.source_kind) == ("tiny:bench", bw.SourceKind.MEASURED)
    assert (steel.at, steel.file) == ("sheet 2", "steel.toml")


def test_a_table_inside_a_record_inherits_its_source_and_place() -> None:
    bar = bw.Registry.from_folders(GOOD_PACK).part("tiny:bar/one")
    assert isinstance(bar, bw.Bar)

    figure = bar.arm_end.about["taper"]
    assert (figure.source, figure.at, figure.key) == ("tiny:desk", "page 3", "one.taper")


# -- The structurer alone ----------------------------------------------------------


class Word(enum.Enum):
    """Two words."""

    ONE = "one"
    TWO = "two"


@attrs.frozen(kw_only=True)
class Pair:
    """A record that holds one of each."""

    whole: int
    number: float
    text: str
    truth: bool
    word: Word
    several: tuple[int, ...] = ()


GOOD: dict[str, Any] = {"whole": 3, "number": 1.5, "text": "a", "truth": True, "word": "one"}


def codes(table: object, cls: type = Pair) -> list[str]:
    """Code and key of each problem of a table."""
    try:
        Structurer(file="x").structure(table, cls, key="t")
    except ExceptionGroup as group:
        return [f"{problem.code} {problem.key}" for problem in problems_of(group)]
    return []


def test_values_of_the_right_type_are_taken_as_they_are() -> None:
    pair = Structurer(file="x").structure(GOOD | {"number": 2, "several": [1, 2]}, Pair)

    assert pair == Pair(whole=3, number=2.0, text="a", truth=True, word=Word.ONE, several=(1, 2))
    assert type(pair.number) is float


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"whole": 3.0}, "S203 t.whole"),
        ({"whole": "3"}, "S203 t.whole"),
        ({"whole": True}, "S203 t.whole"),
        ({"whole": 16**5000}, "S203 t.whole"),
        ({"number": "1.5"}, "S203 t.number"),
        ({"number": True}, "S203 t.number"),
        ({"number": float("nan")}, "S203 t.number"),
        ({"text": 5}, "S203 t.text"),
        ({"text": ""}, "S203 t.text"),
        ({"truth": 1}, "S203 t.truth"),
        ({"truth": "false"}, "S203 t.truth"),
        ({"word": "three"}, "S204 t.word"),
        ({"word": {}}, "S204 t.word"),
        ({"several": "12"}, "S203 t.several"),
        ({"several": {"a": 1}}, "S203 t.several"),
        ({"several": [1, "2"]}, "S203 t.several[1]"),
        ({"other": 1}, "S201 t.other"),
    ],
    ids=lambda value: str(value)[:30] if isinstance(value, str) else None,
)
def test_values_of_another_type_are_refused(change: dict[str, Any], code: str) -> None:
    assert codes(GOOD | change) == [code]


@pytest.mark.parametrize("table", [5, "x", [], None, True])
def test_a_record_is_a_table(table: object) -> None:
    assert codes(table) == ["S203 t"]


def test_every_missing_key_is_named() -> None:
    assert codes({}) == [f"S202 t.{name}" for name in ("whole", "number", "text", "truth", "word")]


JSONLIKE = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=10,
)
KEYS = st.sampled_from([*GOOD, "several", "about", "kind", "source"])


@given(
    table=JSONLIKE | st.dictionaries(KEYS, JSONLIKE), cls=st.sampled_from([Pair, bw.Arm, bw.Damper])
)
def test_any_table_is_a_record_or_has_problems(table: object, cls: type) -> None:
    for code in codes(table, cls):
        assert code[0] in "QSG"


def test_problems_are_said_in_words_even_where_the_error_is_a_stranger() -> None:
    (problem,) = problems_of(TypeError("no such thing"))

    assert (problem.code, problem.value) == ("S203", "no such thing")


def test_records_without_sources_take_no_source_key() -> None:
    assert "S201 t.source" in codes({"id": "a", "title": "A", "source": "desk"}, bw.Material)
    assert issubclass(bw.Material, Record)


@pytest.mark.parametrize(
    ("name", "names", "remedy"),
    [
        ("ab", ["abc", "xyz"], "did you mean 'abc'?"),
        ("ab", [], "none is known"),
        ("zzz", ["abc", "aab"], "known: aab, abc"),
        ("zzz", [f"n{i}" for i in range(9)], "known: n0, n1, n2, n3, n4, n5, n6, n7, …"),
    ],
)
def test_nearest(name: str, names: list[str], remedy: str) -> None:
    assert nearest(name, names) == remedy


def test_a_name_of_any_length_is_compared_at_once() -> None:
    start = time.process_time()

    assert nearest("x" * 1_000_000, [f"fells:bar/{i}" for i in range(1000)]).startswith("known")
    assert time.process_time() - start < 1.0

"""Tests of `structure`: nothing is guessed, and all problems come at once."""

from __future__ import annotations

import enum
import tomllib
from pathlib import Path
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.parts.common.record import Record
from barwright.parts.common.source import JOB, JOB_SOURCES
from barwright.registry.packs.tables.refusals import problems_of
from barwright.registry.packs.tables.structure import Structurer
from pack_mistakes import BAR, CHANGES
from sample_packs import GOOD_PACK, changed_pack, problems_in


@pytest.mark.parametrize(("file", "old", "new", "problems"), CHANGES.values(), ids=CHANGES)
def test_each_slip_is_one_problem_with_its_path(
    tmp_path: Path, file: str, old: str, new: str, problems: list[str]
) -> None:
    """A record that is left out drags no complaints of others behind it."""
    assert problems_in(changed_pack(tmp_path, file, old, new)) == problems


def test_the_good_pack_has_no_problem() -> None:
    assert problems_in(GOOD_PACK) == []


def test_a_wishbone_and_what_stands_beside_the_bar_are_read(tmp_path: Path) -> None:
    vehicles = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    (strut,) = [line for line in vehicles.splitlines() if line.startswith("suspension")]
    text = (Path(__file__).parents[3] / "specimens" / "wishbone.toml").read_text(encoding="utf-8")
    registry = bw.Registry.from_folders(changed_pack(tmp_path, "vehicles.toml", strut, text))
    assert registry.problems == ()
    (axle,) = registry.chassis("chassis/one").axles

    assert axle.suspension == bw.parts.DoubleWishboneMounting(
        upper_outboard="85 mm",
        upper_up="215 mm",
        upper_radius="225 mm",
        upright="250 mm",
        upper_joint=bw.parts.JointSide.INBOARD,
        mount_outboard="215 mm",
        mount_up="420 mm",
        foot_along="265 mm",
    )
    assert axle.suspension.about["upright"].tolerance == bw.Quantity(1.0, "mm")
    assert axle.arm_axis == (-1.0, 0.0, 0.0)
    assert axle.bushing == bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="-5 deg")
    assert axle.bushing.about["rate"].at == "page 9"
    assert axle.helper_coil == bw.parts.HelperCoil(rate="8 N/mm", free_length="300 mm")
    point = bw.parts.BumpRubberForce(compression="10 mm", force="300 N")
    assert axle.bump_rubber == bw.parts.BumpRubber(
        curve=(point,), contact_angle="9 deg", contact_radius="250 mm"
    )


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
    assert isinstance(bar, bw.parts.Bar)

    figure = bar.about["diameter"]
    assert (str(figure.value), str(figure.tolerance)) == ("23.3 millimeter", "0.05 millimeter")
    assert (figure.source, figure.source_kind) == ("tiny:desk", bw.parts.SourceKind.INVENTED)
    assert (figure.at, figure.file, figure.key) == ("page 3", "parts.toml", "one.diameter")
    steel = bar.material.about["shear_modulus"]
    assert (steel.source, steel.source_kind) == ("tiny:bench", bw.parts.SourceKind.MEASURED)
    assert (steel.at, steel.file) == ("sheet 2", "steel.toml")


@pytest.mark.parametrize(
    ("text", "value", "tolerance"),
    [
        ("23.3 mm +0.1 mm 0", 23.35, 0.05),
        ("23 mm to 24 mm", 23.5, 0.5),
        ("23.3 mm ± 1 %", 23.3, 0.233),
    ],
)
def test_limits_are_kept_as_they_are_written(
    tmp_path: Path, text: str, value: float, tolerance: float
) -> None:
    pack = changed_pack(tmp_path, "parts.toml", BAR, f'diameter = "{text}"')
    bar: Any = bw.Registry.from_folders(pack).part("tiny:bar/one")

    known = bar.about["diameter"]
    assert bar.diameter == known.value == bw.Quantity(value, "mm")
    assert (known.tolerance, known.written) == (bw.Quantity(tolerance, "mm"), text)
    assert dict(bw.from_json(bw.to_json(bar)).about) == dict(bar.about)


def test_a_job_says_both_limits() -> None:
    table = {"source": "measured", "id": "d", "title": "D", "closed_length": "400 mm"}
    structurer = Structurer(file="x", pack=JOB, sources=JOB_SOURCES)
    with pytest.raises(ExceptionGroup) as caught:
        structurer.structure(table | {"open_length": "600 mm +9 mm"}, bw.parts.Damper)

    (error,) = problems_of(caught.value)
    assert (error.code, error.key) == ("Q303", "open_length")
    assert error.remedy == "write '600 mm +9 mm 0' if it is never less, or '600 mm ± 9 mm'"


def test_an_estimate_needs_both_of_its_limits() -> None:
    guess = bw.parts.Source(id="guess", kind=bw.parts.SourceKind.ESTIMATED, note="")
    table = {"id": "d", "title": "D", "source": "guess", "open_length": "600 mm ± 1 mm"}
    structurer = Structurer(file="x", pack="a", sources=[guess])
    with pytest.raises(ExceptionGroup) as caught:
        structurer.structure(table | {"closed_length": "400 mm +9 mm"}, bw.parts.Damper)

    assert [(e.code, e.key) for e in problems_of(caught.value)] == [("Q304", "closed_length")]
    good = structurer.structure(table | {"closed_length": "400 mm +9 mm 0"}, bw.parts.Damper)
    assert good.about["closed_length"].tolerance == bw.Quantity(4.5, "mm")


def test_a_table_inside_a_record_inherits_its_source_and_place() -> None:
    bar = bw.Registry.from_folders(GOOD_PACK).part("tiny:bar/one")
    assert isinstance(bar, bw.parts.Bar)

    figure = bar.arm_end.about["taper"]
    assert (figure.source, figure.at, figure.key) == ("tiny:desk", "page 3", "one.taper")


@pytest.mark.parametrize(
    ("own", "place"),
    [
        ("", ("a:book", "page 3")),
        (', source = "book"', ("a:book", "page 3")),
        (', at = "page 9"', ("a:book", "page 9")),
        (', source = "bench"', ("a:bench", "")),
        (', source = "bench", at = "sheet 2"', ("a:bench", "sheet 2")),
    ],
)
def test_a_place_belongs_to_its_source(own: str, place: tuple[str, str]) -> None:
    """Of a figure and of a table inside a record alike, and of the figures in that."""
    kind = bw.parts.SourceKind.MEASURED
    sources = [bw.parts.Source(id=name, kind=kind, note="") for name in ("book", "bench")]
    outer = 'id = "one"\ntitle = "One"\nsource = "book"\nat = "page 3"\nclosed_length = "400 mm"\n'

    def damper(open_length: str, gas: str) -> bw.parts.Damper:
        table = tomllib.loads(f"{outer}open_length = {open_length}\ngas = {gas}\n")
        structurer = Structurer(file="x", pack="a", sources=sources)
        return structurer.structure(table, bw.parts.Damper, key="damper")

    gas = 'force = "200 N", at_length = "500 mm"'
    found = damper(f'{{ is = "600 mm"{own} }}', f"{{ {gas} }}").about["open_length"]
    assert (found.source, found.at) == place
    inner = damper('"600 mm"', f"{{ {gas}{own} }}").gas
    assert inner is not None
    assert {(one.source, one.at) for one in inner.about.values() if one.key} == {place}


# -- Facts ---------------------------------------------------------------------------

SOURCES = [
    bw.parts.Source(id=name, kind=bw.parts.SourceKind.MEASURED, note="")
    for name in ("book", "bench")
]


def socket(text: str) -> bw.parts.Socket:
    """A socket of a table with a source and a place of its own."""
    whole = f"""source = "book"
at = "page 3"
length = "38 mm"
minor_diameter = "28.6 mm"
required_engagement = "24 mm"
key_angle = "0 deg"
{text}
"""
    structurer = Structurer(file="x", pack="a", sources=SOURCES)
    return structurer.structure(tomllib.loads(whole), bw.parts.Socket, key="socket")


@pytest.mark.parametrize(
    ("own", "place"),
    [
        ("", ("a:book", "page 3")),
        (', source = "book"', ("a:book", "page 3")),
        (', at = "page 9"', ("a:book", "page 9")),
        (', source = "bench"', ("a:bench", "")),
        (', source = "bench", at = "sheet 2"', ("a:bench", "sheet 2")),
    ],
)
def test_a_fact_may_be_a_table_with_a_source_of_its_own(own: str, place: tuple[str, str]) -> None:
    said = {"teeth": "39", "form": "'square'", "keyed": "false"}
    made = socket("\n".join(f"{key} = {{ is = {value}{own} }}" for key, value in said.items()))

    assert (made.teeth, made.form, made.keyed) == (39, "square", False)
    for name, value in (("teeth", 39), ("form", "square"), ("keyed", False)):
        known = made.about[name]
        assert isinstance(known, bw.parts.Fact)
        assert (known.value, known.source, known.at) == (value, *place)
        assert known.source_kind is bw.parts.SourceKind.MEASURED
    assert made.about["length"].at == "page 3"


def test_a_fact_that_is_left_out_or_has_no_source_has_no_entry() -> None:
    made = socket("teeth = 39\nform = 'square'")
    assert set(made.about) >= {"teeth", "form"}
    assert "keyed" not in made.about
    bare = Structurer(file="x").structure(
        {"teeth": 39, "form": "square"}, bw.parts.Socket, key="socket"
    )
    assert bare.teeth == 39
    assert "teeth" not in bare.about


@pytest.mark.parametrize("name", ["teeth", "length"])
def test_a_source_that_was_looked_at_in_vain_is_kept(name: str) -> None:
    said = {"teeth": "39", "form": "'square'"} | {
        name: "{ is = 'unknown', source = 'bench', at = 'sheet 2' }"
    }
    text = "\n".join(f"{key} = {value}" for key, value in said.items())
    table = tomllib.loads(f"source = 'book'\n{text}")
    made = Structurer(file="x", pack="a", sources=SOURCES).structure(
        table, bw.parts.Socket, key="socket"
    )

    assert bw.parts.is_unknown(getattr(made, name))
    known = made.about[name]
    assert isinstance(known, bw.parts.Fact)
    assert (known.value, known.source, known.at) == ("unknown", "a:bench", "sheet 2")
    changed: Any = {name: "37 mm" if name == "length" else 38}
    again = attrs.evolve(made, **changed).about.get(name)
    assert again is None or (again.value, again.source) == (bw.Quantity(37.0, "mm"), "caller")


ORIGINS = st.fixed_dictionaries(
    {}, optional={"source": st.sampled_from(["book", "bench"]), "at": st.sampled_from(["", "p. 9"])}
)


@given(
    own=st.fixed_dictionaries({name: st.none() | ORIGINS for name in ("teeth", "form", "length")})
)
def test_whatever_names_a_source_has_its_own_place_or_none(
    own: dict[str, dict[str, str] | None],
) -> None:
    """A count, a word and a figure alike; what they say is what plain values say."""
    values = {"teeth": 39, "form": "square", "length": "38 mm"}
    written = {n: v if own[n] is None else {"is": v, **(own[n] or {})} for n, v in values.items()}
    outer = {"source": "book", "at": "page 3"}

    def read(table: dict[str, Any]) -> bw.parts.Socket:
        structurer = Structurer(file="x", pack="a", sources=SOURCES)
        return structurer.structure(outer | table, bw.parts.Socket, key="socket")

    made = read(written)

    assert made == read(values)
    for name, place in own.items():
        source = (place or {}).get("source", "book")
        inherited = "page 3" if source == "book" else ""
        known = made.about[name]
        assert known.source == f"a:{source}"
        assert known.at == (place or {}).get("at", inherited)


def test_a_plain_unknown_says_nothing_of_a_source() -> None:
    table = tomllib.loads("source = 'book'\nteeth = 'unknown'\nlength = 'unknown'\nform = 'x'")
    made = Structurer(file="x", pack="a", sources=SOURCES).structure(table, bw.parts.Socket)

    assert bw.parts.is_unknown(made.length)
    assert set(made.about) == {"form"}


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("teeth = { is = '39' }", "S203 socket.teeth"),
        ("teeth = { its = 39 }", "S201 socket.teeth.its"),
        ("teeth = { source = 'bench' }", "S202 socket.teeth"),
        ("teeth = { is = 39, source = 'bank' }", "S206 socket.teeth.source"),
        ("teeth = { is = 39, at = 2 }", "S203 socket.teeth.at"),
    ],
)
def test_a_slip_in_the_table_of_a_fact_is_told_with_the_others(text: str, problem: str) -> None:
    with pytest.raises(ExceptionGroup) as caught:
        socket(f"{text}\nform = {{ is = 4 }}")

    found = [f"{error.code} {error.key}" for error in problems_of(caught.value)]
    assert found == [problem, "S203 socket.form"]


def test_a_table_around_a_fact_says_what_the_plain_value_says(tmp_path: Path) -> None:
    """In whole packs: records, their equality and their checks are the same."""
    text = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    assert 'entry = "anchor end"' in text
    tables = changed_pack(
        tmp_path,
        "vehicles.toml",
        'entry = "anchor end"',
        'entry = { is = "anchor end", source = "bench", at = "sheet 7" }',
    )

    plain, other = (
        bw.Registry.from_folders(pack).chassis("tiny:chassis/one") for pack in (GOOD_PACK, tables)
    )

    assert plain == other
    known = other.axles[0].about["entry"]
    assert (known.source, known.at) == ("tiny:bench", "sheet 7")


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
    table=JSONLIKE | st.dictionaries(KEYS, JSONLIKE),
    cls=st.sampled_from([Pair, bw.parts.Arm, bw.parts.Damper]),
)
def test_any_table_is_a_record_or_has_problems(table: object, cls: type) -> None:
    for code in codes(table, cls):
        assert code[0] in "QSG"


def test_problems_are_said_in_words_even_where_the_error_is_a_stranger() -> None:
    (problem,) = problems_of(TypeError("no such thing"))

    assert (problem.code, problem.value) == ("S203", "no such thing")


def test_records_without_sources_take_no_source_key() -> None:
    assert "S201 t.source" in codes({"id": "a", "title": "A", "source": "desk"}, bw.parts.Material)
    assert issubclass(bw.parts.Material, Record)

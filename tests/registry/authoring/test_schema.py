"""Tests of `schema`: it refuses nothing that is good, and most that is not."""

from __future__ import annotations

import copy
import enum
import re
import tomllib
import typing
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import attrs
import jsonschema
import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright import units
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.identity import Month, PartNumber
from barwright.parts.common.record import NOT_IN_FILES, Record
from barwright.parts.suspension import BumpRubberForce
from barwright.registry.authoring.schema import overlay_schema, pack_schema, schema_text
from barwright.registry.authoring.table_schemas import DIALECT
from barwright.registry.files.snapshot import HEADER as HEADER_FILE
from barwright.registry.overlays.preference import OverlayHeader
from barwright.registry.packs.format.keys import key_of, kinds_of
from barwright.registry.packs.format.migrate import migrated, version_of
from barwright.registry.packs.format.pack import KINDS, SCHEMA
from barwright.registry.packs.load import STANDARDS
from draws import draws
from each_case import each_case
from flawed_packs import ESTIMATED, added, small_pack
from pack_mistakes import CHANGES, HEADER, IDS, TABLES
from part_identity import NAMES
from sample_overlays import GOOD_OVERLAY, POOR_OVERLAY, correction, overlay
from sample_packs import GOOD_PACK, SPECIMENS, changed_pack
from setup_strategies import corners

ROOT = Path(__file__).parents[3]
WHOLE = pack_schema()
OVERLAY = overlay_schema()
VALIDATOR = jsonschema.Draft202012Validator(WHOLE)
OVERLAY_VALIDATOR = jsonschema.Draft202012Validator(OVERLAY)

PACKS = [
    STANDARDS,
    *(SPECIMENS / "packs" / name for name in ("good", "poor")),
    *sorted(header.parent for header in (ROOT / "plugins").rglob(HEADER_FILE)),
]


def of(name: str) -> jsonschema.Draft202012Validator:
    """What one definition of the schema asks for."""
    return jsonschema.Draft202012Validator({"$defs": WHOLE["$defs"], "$ref": f"#/$defs/{name}"})


PACK, RECORDS = of("pack"), of("records")


def tables(pack: Path) -> dict[str, dict[str, Any]]:
    """Every file of a pack by its name, as tables."""
    files = sorted(pack.rglob("*.toml"))
    return {f.name: tomllib.loads(f.read_text(encoding="utf-8")) for f in files}


def refused(held: Mapping[str, Mapping[str, Any]]) -> list[str]:
    """Path and reason of all that the schema refuses in a pack, brought up to date."""
    found = []
    for name, table in held.items():
        validator = PACK if name == HEADER_FILE else RECORDS
        found += [f"{error.json_path}: {error.message}" for error in validator.iter_errors(table)]
    return found


def slips(folder: Path) -> list[str]:
    """Problems of loading a pack, those of its checks and waivers among them."""
    return [f.code for f in bw.lint_pack(folder).findings if f.rule == "loads"]


# -- The document --------------------------------------------------------------------


@pytest.mark.parametrize("schema", [WHOLE, OVERLAY], ids=["pack", "overlay"])
def test_it_is_a_schema_of_its_dialect(schema: dict[str, Any]) -> None:
    assert schema["$schema"] == DIALECT
    jsonschema.Draft202012Validator.check_schema(schema)


def test_what_is_published_is_what_the_classes_say() -> None:
    published = (ROOT / "docs" / "pack.schema.json").read_text(encoding="utf-8")

    assert published == schema_text(), "run: barwright schema --output docs/pack.schema.json"


def test_what_is_published_of_overlays_is_what_the_classes_say() -> None:
    published = (ROOT / "docs" / "overlay.schema.json").read_text(encoding="utf-8")

    command = "barwright schema --overlay --output docs/overlay.schema.json"
    assert published == schema_text(overlay=True), f"run: {command}"


def nodes(value: Any) -> Iterator[dict[str, Any]]:
    if isinstance(value, dict):
        yield value
        for inner in value.values():
            yield from nodes(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from nodes(inner)


def test_every_table_is_closed_and_every_key_explained() -> None:
    closed = [node for node in nodes(WHOLE["$defs"]) if node.get("type") == "object"]

    assert len(closed) > len(KINDS)
    for node in closed:
        assert node["additionalProperties"] is False
        assert set(node.get("required", [])) <= set(node.get("properties", {}))
        for key, property_ in node.get("properties", {}).items():
            assert property_.get("description") or key == "kind", key


def classes() -> list[type[Any]]:
    """Every class that a file of records is read into."""
    found: list[type[Any]] = []
    waiting: list[Any] = list(KINDS.values())
    while waiting:
        cls = waiting.pop()
        waiting += typing.get_args(cls)
        is_table = isinstance(cls, type) and attrs.has(cls) and not hasattr(cls, "PATTERN")
        if is_table and cls not in (*found, PartNumber):
            found.append(cls)
            waiting += [
                hint for name, hint in typing.get_type_hints(cls).items() if name != "about"
            ]
    return found


def further_keys(cls: type[Any]) -> set[str]:
    """Keys that a class has besides the usual ones: what holds the anchor end has two."""
    return {"anchor"} if cls is bw.parts.StandardParts else set()


# Where the schema asks for what a table may only leave out if its record is like another one.
_ASKED_AT = {
    "axle": "chassis else properties axles items else",
    "standard-parts": "chassis else properties axles items else properties left",
    "bump-rubber": "chassis else properties axles items else properties bump_rubber",
    "bar-end": "bar else properties arm_end",
    "socket": "arm else properties socket",
}


def asked_of(name: str) -> dict[str, Any]:
    """What the schema asks for beyond what stands at a definition."""
    found: dict[str, Any] = WHOLE["$defs"]
    for step in _ASKED_AT.get(name, f"{name} else").split():
        found = found.get(step, {})
    return found


@pytest.mark.parametrize(
    ("keys", "is_valid"),
    [(["tube"], True), (["anchor"], True), (["tube", "anchor"], False), ([], False)],
)
def test_an_anchor_stands_under_one_of_its_two_keys(keys: list[str], *, is_valid: bool) -> None:
    parts = {"arm": "arm/one", "bar": "bar/one", "damper": "damper/one"}
    parts |= dict.fromkeys(keys, "tube/one")
    alone = WHOLE["$defs"]["standard-parts"]
    schema = {"allOf": [alone, asked_of("standard-parts")], "$defs": WHOLE["$defs"]}

    assert jsonschema.Draft202012Validator(schema).is_valid(parts) is is_valid


@each_case("cls", classes())
def test_a_definition_has_the_keys_of_its_class(cls: type[Any]) -> None:
    name = re.sub(r"(?<!^)([A-Z])", r"-\1", cls.__name__).lower()
    fields = {key_of(f.name): f for f in attrs.fields(cls) if f.name not in NOT_IN_FILES}
    properties = WHOLE["$defs"][name]["properties"]

    extra = {"source", "at"} if issubclass(cls, Record) else set()
    extra |= {"like", "without"} if cls in {*KINDS.values(), bw.parts.Axle} else set()
    assert set(properties) - {"kind"} == set(fields) | extra | further_keys(cls)
    # A figure that is left out is unknown, but for the points of a curve.
    gaps = set() if cls is BumpRubberForce else {*figure_fields(cls), "teeth"}
    required = {key for key, f in fields.items() if f.default is attrs.NOTHING} - gaps
    asked = {"source"} if cls in KINDS.values() else set()
    required -= {"tube"} if further_keys(cls) else set()
    always = set(WHOLE["$defs"][name]["required"])
    asked_there = set(asked_of(name).get("required", ()))
    assert (always | asked_there) - {"kind"} == required | asked
    for key, (kind, allowed) in figure_fields(cls).items():
        assert f"figure-{kind.name}".replace(" ", "-") in properties[key]["$ref"]
        named = properties[key]["$ref"].removesuffix("-by-side")
        assert named.endswith(allowed.replace(" ", "-")) or allowed == "any"
        if isinstance(fields[key].default, str):
            assert properties[key]["default"] == fields[key].default


DIFFERENCE = {"id": "two", "title": "Two", "source": "desk", "like": "bar/one"}


@pytest.mark.parametrize(
    ("kind", "table", "is_valid"),
    [
        ("bar", DIFFERENCE, True),
        ("bar", {**DIFFERENCE, "arm_end": {"nose": "2 mm"}, "without": ["bore"]}, True),
        ("bar", {**DIFFERENCE, "arm_end": {"nose": 2}}, False),
        ("bar", {**DIFFERENCE, "like": "arm/one"}, False),
        ("bar", {**DIFFERENCE, "without": "bore"}, False),
        ("chassis", {**DIFFERENCE, "like": "chassis/one", "axles": [{"place": "front"}]}, True),
        ("chassis", {**DIFFERENCE, "like": "chassis/one", "axles": [{}]}, False),
    ],
)
def test_a_record_that_is_like_another_need_not_give_all(
    kind: str, table: dict[str, Any], *, is_valid: bool
) -> None:
    assert of(kind).is_valid(table) is is_valid


def test_a_shared_axle_need_not_give_all() -> None:
    own = {**DIFFERENCE, "wheelbase": "2 m"}
    del own["like"]

    def with_axle(**axle: str) -> dict[str, Any]:
        return {**own, "axles": [{"place": "front", **axle}]}

    assert of("chassis").is_valid(with_axle(like="chassis/one"))
    assert not of("chassis").is_valid(with_axle(tyre_rate="1 N/mm"))


def test_defaults_and_bounds_are_those_of_the_fields() -> None:
    end = WHOLE["$defs"]["bar-end"]["properties"]

    counted, unknown, table = end["teeth"]["anyOf"]
    assert (counted["minimum"], counted["maximum"]) == (1, 9999)
    assert unknown["const"] == "unknown"
    assert table["properties"]["is"]["anyOf"] == [counted, unknown]
    assert end["blanks"]["default"] == [0]
    assert end["blanks"]["anyOf"][0]["uniqueItems"] is True
    assert end["nose"]["default"] == "0 mm"
    assert WHOLE["$defs"]["socket"]["properties"]["keyed"]["default"] is True
    assert WHOLE["$defs"]["axle"]["properties"]["bar_axis"]["anyOf"][0]["minItems"] == 3


# -- What is good --------------------------------------------------------------------


def up_to_date(pack: Path) -> dict[str, Any]:
    """What the files of a pack hold, written for the present version."""
    held = tables(pack)
    version = version_of(held[HEADER_FILE])
    return {name: migrated(name, table, version=version) for name, table in held.items()}


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.name)
def test_a_good_pack_is_accepted_file_by_file(pack: Path) -> None:
    held = up_to_date(pack)

    assert refused(held) == []
    # An editor knows one schema only, whichever file it shows.
    assert [error.message for t in held.values() for error in VALIDATOR.iter_errors(t)] == []


def test_a_pack_of_an_older_version_is_accepted_once_it_is_up_to_date() -> None:
    pack = SPECIMENS / "old-packs" / "version-1"
    held = tables(pack)

    assert version_of(held[HEADER_FILE]) < SCHEMA
    assert [re.findall(r"^\$\.\w+", problem) for problem in refused(held)] == [["$.schema"]]
    assert refused(up_to_date(pack)) == []


# -- What is not ---------------------------------------------------------------------

STEEL = '[[material]]\nid = "s"\ntitle = "S"\nsource = "{}"\nshear_modulus = "77 GPa ± 1 GPa"\n'

# Slips that no schema of one file can refuse, and why.
UNSAYABLE = {
    "blanks without the maker's": "it relates two keys",
    "float for a count": "JSON knows no difference between 39 and 39.0",
    "not a number": "JSON knows no such numbers, and a validator takes them for numbers",
    "unknown source of a figure": "what it refers to stands in another file",
    "unknown source of a record": "what it refers to stands in another file",
    "reference to nothing": "what it refers to may stand in another file",
    "reference to another pack": "which packs may be referred to is not in the file",
    "impossible dimensions": "it relates several figures",
    "a fillet beside a cone": "it relates two keys",
    "a nose that is not there": "it relates two keys",
    "a nose as thick as the teeth": "it relates two figures",
    "twist of a bar that is not pre-set": "it relates two keys",
    "teeth named twice": "it relates a list to a count",
    "curve that falls": "it relates several figures",
    "two sources of one id": "it relates several tables",
    "not TOML": "there is no table at all",
    "brackets too deep": "there is no table at all",
}


def is_read(pack: Path) -> bool:
    try:
        tables(pack)
    except (tomllib.TOMLDecodeError, RecursionError):
        return False
    return True


def bad_packs() -> dict[str, tuple[str, str, str]]:
    found = {name: (file, old, new) for name, (file, old, new, _) in CHANGES.items()}
    found |= {name: (HEADER_FILE, old, new) for name, (old, new, _) in HEADER.items()}
    found |= {name: (file, "", text) for name, (file, text, _) in TABLES.items()}
    return found | {f"id: {name}": ("parts.toml", old, new) for name, (old, new) in IDS.items()}


@pytest.mark.parametrize(("name", "change"), bad_packs().items(), ids=bad_packs())
def test_a_bad_pack_is_refused_if_a_schema_can_say_why(
    tmp_path: Path, name: str, change: tuple[str, str, str]
) -> None:
    pack = changed_pack(tmp_path, *change)

    assert slips(pack)
    is_refused = is_read(pack) and bool(refused(tables(pack)))
    assert is_refused == (name not in UNSAYABLE)


PROOFS = {
    "check with another key": '[[check]]\ncomputes = "bar_rate"\nvalue = "1 mm"\n',
    "check without a place": (
        '[[check]]\ncomputes = "bar_rate"\nof = "bar/one"\nis = "1 N*m/deg"\nsource = "bench"\n'
    ),
    "waiver without a reason": '[[waiver]]\nrule = "placed"\nof = "bar/one"\n',
    "waiver with a blank reason": '[[waiver]]\nrule = "placed"\nof = "bar/one"\nwhy = " "\n',
    "check that is no list": '[check]\ncomputes = "bar_rate"\n',
}


@pytest.mark.parametrize("text", PROOFS.values(), ids=PROOFS)
def test_a_bad_check_or_waiver_is_refused(tmp_path: Path, text: str) -> None:
    pack = added(tmp_path, text)

    assert slips(pack)
    assert refused(tables(pack))


def test_a_waiver_may_stand_in_the_header_and_a_check_may_not(tmp_path: Path) -> None:
    waiver = '[[waiver]]\nrule = "placed"\nof = "source/measured"\nwhy = "For the tests."\n'
    check = waiver.replace("waiver", "check")

    assert refused(tables(small_pack(tmp_path, header=waiver))) == []
    assert refused(tables(small_pack(tmp_path, header=check)))


# -- Overlays ------------------------------------------------------------------------


def test_the_schema_of_overlays_has_all_of_packs_and_more() -> None:
    packs, overlays = WHOLE["$defs"], OVERLAY["$defs"]

    assert {name for name in overlays if overlays[name] != packs.get(name)} == {
        "pack",
        "records",
        "correction",
    }
    assert set(packs) <= set(overlays)
    own = {key_of(field.name) for field in attrs.fields(OverlayHeader)}
    assert set(overlays["pack"]["properties"]) == own | {"waiver"}
    assert overlays["pack"]["required"] == packs["pack"]["required"]
    assert set(overlays["records"]["properties"]) - set(packs["records"]["properties"]) == {
        "correction"
    }
    for key, property_ in overlays["correction"]["properties"].items():
        assert property_["description"], key


@pytest.mark.parametrize("made", [GOOD_OVERLAY, POOR_OVERLAY], ids=lambda made: made.name)
def test_an_overlay_is_accepted_file_by_file_and_is_no_pack(made: Path) -> None:
    held = tables(made)

    assert [
        e.message for table in held.values() for e in OVERLAY_VALIDATOR.iter_errors(table)
    ] == []
    assert all(any(VALIDATOR.iter_errors(table)) for table in held.values())


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.name)
def test_whatever_a_pack_holds_an_overlay_may_hold(pack: Path) -> None:
    held = up_to_date(pack).values()

    assert not any(any(OVERLAY_VALIDATOR.iter_errors(table)) for table in held)


BAD_OVERLAYS = {
    "prefer that is no table": ('prefer = "tiny"\n', ""),
    "preference for a number": ("[prefer]\ntiny = 5\n", ""),
    "preference for a blank": ('[prefer]\ntiny = " "\n', ""),
    "overlay as text": ("", ""),
    "correction with another key": ("", correction().replace("why", "wy")),
    "correction without a source": ("", correction().replace('source = "measured"\n', "")),
    "correction with a number": ("", correction().replace('"23.6 mm ± 0.02 mm"', "23.6")),
    "correction with a blank reason": ("", correction(why=" ")),
    "correction that is no list": ("", correction().replace("[[correction]]", "[correction]")),
}


@pytest.mark.parametrize(("header", "records"), BAD_OVERLAYS.values(), ids=BAD_OVERLAYS)
def test_a_bad_overlay_is_refused_as_the_loader_refuses_it(
    tmp_path: Path, header: str, records: str
) -> None:
    made = overlay(tmp_path, records, header="" if header.startswith("prefer") else header)
    file = made / "pack.toml"
    text = file.read_text(encoding="utf-8")
    if header.startswith("prefer"):
        text = text.replace("[[source]]", f"{header}[[source]]", 1)
    if not header and not records:
        text = text.replace("overlay = true", 'overlay = "true"')
    file.write_text(text, encoding="utf-8")

    assert bw.Registry.from_folders(GOOD_PACK, overlays=[made]).problems
    assert any(any(OVERLAY_VALIDATOR.iter_errors(table)) for table in tables(made).values())


def test_an_estimate_without_a_range_is_left_to_the_loader(tmp_path: Path) -> None:
    """The kind of a source stands in another file than the figures that name it."""
    steel = STEEL.format("estimated")
    (tmp_path / "exact").mkdir()
    pack = small_pack(tmp_path, steel, ESTIMATED)
    exact = small_pack(tmp_path / "exact", steel.replace(" ± 1 GPa", ""), ESTIMATED)

    assert refused(tables(pack)) == refused(tables(exact)) == []
    assert (slips(pack), slips(exact)) == ([], ["Q304"])


# -- Figures -------------------------------------------------------------------------

DIGITS = st.text("0123456789", max_size=3)
SPELLINGS = sorted({spelling for kind in units.KINDS for spelling in kind.units})
NUMBERS = st.builds(
    "{}{}{}{}{}".format,
    st.sampled_from(["", "+", "-", "--"]),
    DIGITS,
    st.sampled_from(["", ".", ","]),
    DIGITS,
    st.sampled_from(["", "e3", "E-2", "e-400", "e", "e+1234"]),
)
ONE = st.builds(
    "{}{}{}".format,
    NUMBERS,
    st.sampled_from(["", " ", "\t"]),
    st.sampled_from([*SPELLINGS, "N·m", "kg/m·*3", "°", "MM", ""]),
)
LIMIT = ONE | st.sampled_from(["0", "-0.0", "+0 mm", "5 %", "+.5%"])
TEXTS = st.one_of(
    ONE,
    st.builds("{}{}{}".format, ONE, st.sampled_from([" ± ", "+/-", " to ", " "]), LIMIT),
    st.builds("{} {} {}".format, ONE, LIMIT, LIMIT),
)
RANGES = st.sampled_from(typing.get_args(units.Range))


@given(text=TEXTS, kind=st.sampled_from(units.KINDS), allowed=RANGES)
def test_a_pattern_refuses_no_figure_that_is_read(
    text: str, kind: units.Kind, allowed: units.Range
) -> None:
    try:
        units.read_figure(text, kind, key="", allowed=allowed, one_limit=True)
    except bw.QuantityError:
        return
    assert re.search(units.pattern_of(kind, allowed), text)


PATTERNS: list[tuple[str, units.Range, bool]] = [
    ("12.5 mm", "any", True),
    ("-12.5mm", "any", True),
    ("  .5 in ", "positive", True),
    ("+3e-2 m ± 1e-3 m", "positive", True),
    ("12.5 mm +/- 0.1 mm", "any", True),
    ("0.0 mm", "positive", False),
    ("00 mm", "positive", False),
    ("-1 mm", "positive", False),
    ("0.01 mm", "positive", True),
    ("0 mm", "zero or more", True),
    ("-0.0 mm", "zero or more", True),
    ("-0.1 mm", "zero or more", False),
    ("0.1 mm", "zero or less", False),
    ("-0.1 mm", "zero or less", True),
    ("+0 mm", "zero or less", True),
    ("12.5", "any", False),
    ("12,5 mm", "any", False),
    ("12.5 kg", "any", False),
    ("12.5 mm ± 0 mm", "any", False),
    ("12.5 mm ± -1 mm", "any", False),
    ("12.5 ± 1 mm", "any", False),
    ("12.5 mm ± 5 %", "positive", True),
    ("12.5 mm ± 5 %", "any", False),
    ("12.5 mm +0.4 mm -0.1 mm", "any", True),
    ("12.5 mm+0.4 mm 0", "any", True),
    ("12.5 mm 0 -0.1 mm", "any", True),
    ("12.5 mm +0.4 mm", "any", True),
    ("12.5 mm +0.4/-0.1", "any", False),
    ("12.5 mm +0.4 -0.1 mm", "any", False),
    ("12.5 mm 0.4 mm", "any", False),
    ("11 mm to 12 mm", "positive", True),
    ("-1 mm to 12 mm", "positive", False),
    ("11 mm to -12 mm", "positive", False),
    ("11 mm to 12", "any", False),
    ("11 mm to 12 kg", "any", False),
    ("12.5 mm x", "any", False),
    ("1/2 in", "any", False),
]


@each_case("text, allowed, good", PATTERNS)
def test_a_pattern_is_as_strict_as_a_pattern_can_be(
    text: str, allowed: units.Range, *, good: bool
) -> None:
    assert bool(re.search(units.pattern_of(units.LENGTH, allowed), text)) is good


def test_a_unit_of_several_signs_is_read_with_either_dot() -> None:
    density = units.pattern_of(units.DENSITY)

    assert re.search(density, "7850 kg/m**3")
    assert not re.search(density, "7850 kg/m3")
    assert re.search(units.pattern_of(units.TORSIONAL_RATE), "48 N·m/deg")


# -- Drawn records -------------------------------------------------------------------


def table_of(record: Any) -> dict[str, Any]:
    """Write a record as a file would hold it."""
    figures = figure_fields(type(record))
    table: dict[str, Any] = {}
    for field in attrs.fields(type(record)):
        value = getattr(record, field.name)
        if value is None or field.name in NAMES:
            continue
        if field.name in figures:
            table[key_of(field.name)] = f"{value.magnitude!r} {units.unit_spelling(value)}"
        else:
            table[key_of(field.name)] = plain(value)
    return table


def plain(value: Any) -> Any:
    if isinstance(value, enum.Enum):
        return value.value
    if isinstance(value, bw.parts.Part):
        return value.id.partition(":")[2]
    if isinstance(value, tuple):
        return [plain(item) for item in value]
    if attrs.has(type(value)):
        table = table_of(value)
        word = {cls: word for word, cls in kinds_of_any().items()}.get(type(value))
        return table if word is None else {"kind": word} | table
    return value


def kinds_of_any() -> dict[str, type[Any]]:
    """Every class that a word tells apart from others."""
    found: dict[str, type[Any]] = {}
    for cls in classes():
        for name, hint in typing.get_type_hints(cls).items():
            found |= kinds_of(hint) if name != "about" else {}
    return found


def files_of(setup: bw.Setup) -> dict[str, dict[str, Any]]:
    """A pack that holds all of a corner."""
    held: dict[str, list[dict[str, Any]]] = {}
    records = [setup.bar.material, *setup.parts.values(), setup.chassis]
    for record in records:
        (kind,) = [kind for kind, cls in KINDS.items() if type(record) is cls]
        table = table_of(record) | {"id": record.id.rpartition("/")[2], "source": "desk"}
        held.setdefault(kind, []).append(table)
    header = {
        "schema": SCHEMA,
        "id": "t",
        "title": "T",
        "licence": "CC0-1.0",
        "source": [{"id": "desk", "kind": "invented", "note": "Drawn."}],
    }
    return {HEADER_FILE: header, "records.toml": dict(held)}


def written(folder: Path, held: Mapping[str, Mapping[str, Any]]) -> Path:
    for name, table in held.items():
        (folder / name).write_text(tomli_w.dumps(table), encoding="utf-8")
    return folder


@pytest.mark.rare
@settings(max_examples=draws(25), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(drawn=corners())
def test_schema_and_loader_accept_every_drawn_corner(
    tmp_path: Path, drawn: tuple[bw.Setup, str]
) -> None:
    held = files_of(drawn[0])

    assert refused(held) == []
    assert bw.Registry.from_folders(written(tmp_path, held), cache=False).problems == ()


def places(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Path of everything in a table."""
    inner: Any = ()
    if isinstance(value, dict):
        inner = value.items()
    elif isinstance(value, list):
        inner = enumerate(value)
    for key, item in inner:
        yield (*path, key)
        yield from places(item, (*path, key))


ODD = st.one_of(
    st.sampled_from([True, 0, -1, 39, 10_000, 1.5, "", " ", "one", "left", "25 mm", "-25 mm"]),
    st.sampled_from(["0 deg", "arm/one", "material/steel", [], [0], [1, 0, 0], {}, {"is": "1 mm"}]),
    st.sampled_from(["unknown", attrs.NOTHING]),
)
GOOD = tables(GOOD_PACK)
SPOTS = [(name, path) for name, table in GOOD.items() for path in places(table)]


@settings(max_examples=draws(150), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(spot=st.sampled_from(SPOTS), odd=ODD, extra=st.booleans())
def test_what_the_schema_refuses_the_loader_refuses_too(
    tmp_path: Path, spot: tuple[str, tuple[Any, ...]], odd: Any, *, extra: bool
) -> None:
    held = copy.deepcopy(GOOD)
    name, (*path, last) = spot
    around: Any = held[name]
    for key in path:
        around = around[key]
    if extra and isinstance(around, dict):
        last = f"{last}-x"
    if odd is attrs.NOTHING:
        around.pop(last, None) if isinstance(around, dict) else around.pop(last)
    else:
        around[last] = odd

    if refused(held):
        assert slips(written(tmp_path, held))


def test_a_class_that_is_read_from_text_gives_its_pattern() -> None:
    first_built = WHOLE["$defs"]["chassis"]["properties"]["first_built"]

    text, table = first_built["anyOf"]
    assert (text["pattern"], text["type"]) == (f"^(?:{Month.PATTERN})$", "string")
    assert table["properties"]["is"]["pattern"] == text["pattern"]


# -- What an editor shows on hover -------------------------------------------------------------


@pytest.mark.parametrize("schema", [pack_schema(), overlay_schema()], ids=["pack", "overlay"])
def test_every_key_has_a_text_of_its_own(schema: dict[str, Any]) -> None:
    for name, definition in schema["$defs"].items():
        properties = definition.get("properties", {})
        texts = {key: held.get("description", "") for key, held in properties.items()}
        # One part may be called tube or anchor.
        texts.pop("anchor", None)
        assert all(text.endswith(".") for text in texts.values()), (name, texts)
        assert len(set(texts.values())) == len(texts), name

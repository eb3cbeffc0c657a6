"""The reference pages list every name, key and unit of the source, and no other."""

from __future__ import annotations

import enum
import importlib
import inspect
import pkgutil
import re
import tomllib
import typing
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright import mechanics, units
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.registry.discovery.entry_points import GROUP
from barwright.registry.packs.checks import PROOFS
from barwright.registry.packs.format.keys import key_of
from barwright.registry.packs.format.pack import KINDS, PackHeader
from barwright.units import slips
from each_case import each_case

DOCS = Path(__file__).parents[2] / "docs"


def read(name: str) -> str:
    return (DOCS / name).read_text(encoding="utf-8")


def rows(text: str) -> Iterator[list[str]]:
    """Cells of every row of every table, headings left out."""
    for line in text.splitlines():
        if line.startswith("| ") and not line.startswith("| ---"):
            yield [cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1]]


# -- Nomenclature --------------------------------------------------------------------


def parameters(function: Any, *, skip: int = 0) -> set[str]:
    return set(list(inspect.signature(function).parameters)[skip:])


def names_of(thing: Any) -> set[str]:
    """Fields of a class and arguments of its methods, or arguments of a function."""
    if inspect.isfunction(thing):
        return parameters(thing)
    if not (inspect.isclass(thing) and attrs.has(thing)):
        return set()
    return {field.name for field in attrs.fields(thing)}


def public_names() -> set[str]:
    found: set[str] = set()
    for room in (bw, bw.parts, bw.answers):
        for name in room.__all__:
            found |= names_of(getattr(room, name))
    for info in pkgutil.walk_packages(mechanics.__path__, "barwright.mechanics."):
        module = importlib.import_module(info.name)
        for name in getattr(module, "__all__", ()):
            thing = getattr(module, name)
            found |= names_of(thing)
            if inspect.isclass(thing) and attrs.has(thing):
                for method, function in vars(thing).items():
                    if inspect.isfunction(function) and not method.startswith("_"):
                        found |= parameters(function, skip=1)
    return found


def test_nomenclature_lists_every_public_name_once_and_no_other() -> None:
    table = read("nomenclature.md").partition("## Names")[2]
    listed = [cells[0].strip("`") for cells in rows(table) if cells[0].startswith("`")]
    assert len(listed) == len(set(listed))
    assert set(listed) - public_names() == set()
    assert public_names() - set(listed) == set()
    assert listed == sorted(listed)


def test_every_name_has_one_meaning() -> None:
    table = read("nomenclature.md").partition("## Names")[2]
    named = [cells for cells in rows(table) if cells[0].startswith("`")]

    assert named
    assert [cells[0] for cells in named if ";" in cells[1]] == []


def test_nomenclature_names_no_source_beyond_the_agreed_ones() -> None:
    agreed = {
        "–",
        "axes: ISO 8855",
        "ISO 724",
        "thread: ISO 724",
        "stress area: ISO 898-1",
        "external major diameter: ISO 4156, ANSI B92.1",
        "internal minor diameter: ISO 4156, ANSI B92.1",
        "first order: JCGM 100:2008",
    }
    dudley = re.compile(r"(\w+: )?Dudley \(1957\), as reprinted in \*Machinery's Handbook\*")
    for cells in rows(read("nomenclature.md").partition("## Names")[2]):
        if cells[0].startswith("`"):
            assert cells[3] in agreed or dudley.fullmatch(cells[3]), cells
            assert cells[1], cells
            assert cells[2], cells


# -- Packs ---------------------------------------------------------------------------


def record_classes() -> list[type[Any]]:
    """Every record class, and those that stand in their fields."""
    found: list[type[Any]] = []
    waiting: list[Any] = [PackHeader, *KINDS.values(), *PROOFS.values()]
    while waiting:
        cls = waiting.pop(0)
        waiting += typing.get_args(cls)
        if inspect.isclass(cls) and attrs.has(cls) and cls not in found:
            found.append(cls)
            waiting += typing.get_type_hints(cls).values()
    # These are written as text, or as a table of texts.
    others = (bw.parts.Figure, bw.parts.Month, bw.parts.PartNumber)
    return [cls for cls in found if cls not in others]


def tables() -> list[dict[str, list[str]]]:
    """Tables of keys of the page: rows by key."""
    return [
        {cells[0].strip("`"): cells for cells in rows(text) if cells[0].startswith("`")}
        for text in re.findall(r"(?:^\|.*\n)+", read("pack-file.md"), re.MULTILINE)
        if text.startswith("| field | required | value | meaning |")
    ]


def own_fields(cls: type[Any]) -> dict[str, Any]:
    """Fields that a table of the page must list; those of all records stand apart."""
    common = {
        f.name for f in attrs.fields(Part if cls in KINDS.values() else Record)
    } | NOT_IN_FILES
    return {key_of(f.name): f for f in attrs.fields(cls) if f.name not in common}


@each_case("cls", record_classes())
def test_a_table_lists_exactly_the_keys_of_a_record(cls: type[Any]) -> None:
    assert list(own_fields(cls)) in [list(table) for table in tables()]


@each_case("cls", record_classes())
def test_a_table_says_what_is_required_and_of_what_kind(cls: type[Any]) -> None:
    fields = own_fields(cls)
    (table, *_) = [table for table in tables() if list(table) == list(fields)]
    hints = typing.get_type_hints(cls)
    figures = figure_fields(cls)
    for name, field in fields.items():
        _, required, value, meaning = table[name]
        assert (required == "yes") == (field.default is attrs.NOTHING), name
        assert meaning
        if name in figures:
            kind, allowed = figures[name]
            assert value == (kind.name if allowed == "any" else f"{kind.name}, {allowed}"), name
        hint = hints[field.name]
        words = [t for t in (hint, *typing.get_args(hint)) if is_enum(t)]
        for word in (member.value for enumeration in words for member in enumeration):
            assert f'`"{word}"`' in value, name
        if isinstance(field.default, str) and field.default:
            assert required == f'no: `"{field.default}"`', name


def is_enum(cls: Any) -> bool:
    return isinstance(cls, type) and issubclass(cls, enum.Enum)


def test_every_record_kind_has_its_heading_and_every_kind_of_mounting_its_word() -> None:
    page = read("pack-file.md")
    for kind in KINDS:
        assert f"### `[[{kind}]]`" in page
    for cls in record_classes():
        if cls.__name__.endswith("Mounting"):
            word = re.sub(r"(?<!^)([A-Z])", r"-\1", cls.__name__.removesuffix("Mounting")).lower()
            assert f'`kind = "{word}"`' in page, word


def test_what_all_records_have_is_listed() -> None:
    keys = {"id", "title", "source", "at", "numbers", "replaces", "paint", "remarks"}
    assert keys in [set(table) for table in tables()]
    assert {"is", "source", "at"} in [set(table) for table in tables()]
    assert {f.name for f in attrs.fields(Part)} - NOT_IN_FILES == keys - {"source", "at"}
    assert issubclass(bw.parts.BarEnd, Record)


def test_the_packaging_on_the_page_is_that_of_the_demo_pack() -> None:
    blocks = re.findall(r"^```toml\n(.*?)^```$", read("pack-file.md"), re.MULTILINE | re.DOTALL)
    (shown,) = [table for table in map(tomllib.loads, blocks) if "project" in table]
    demo = DOCS.parent / "plugins/barwright-pack-fells/pyproject.toml"
    real = tomllib.loads(demo.read_text(encoding="utf-8"))
    for table in (shown, real):
        ((_, package),) = table["project"]["entry-points"][GROUP].items()
        assert table["tool"]["hatch"]["build"]["targets"]["wheel"] == {
            "packages": [f"src/{package}"]
        }
    assert shown["build-system"] == real["build-system"]


def test_the_pack_on_the_page_loads(tmp_path: Path) -> None:
    blocks = re.findall(r"^```toml\n(.*?)^```$", read("pack-file.md"), re.MULTILINE | re.DOTALL)
    (header,) = [text for text in blocks if "schema =" in text]
    sources = [text for text in blocks if text.startswith("[[source]]")]
    records = [text for text in blocks if text.startswith(("[[material]]", "[[damper]]"))]
    (tmp_path / "pack.toml").write_text("\n".join([header, *sources]), encoding="utf-8")
    (tmp_path / "parts.toml").write_text("\n".join(records), encoding="utf-8")
    registry = bw.Registry.from_folders(tmp_path)
    assert registry.problems == ()
    steel = registry.part("material/spring-steel")
    assert steel.about["shear_modulus"].at == "sheet 2"
    estimate = registry.part("damper/old").about["closed_length"]
    assert estimate.source_kind is bw.parts.SourceKind.ESTIMATED


# -- Units ---------------------------------------------------------------------------


def units_table(heading: str) -> list[list[str]]:
    """Rows of the page of units whose table has a heading; the heading's row is left out."""
    found = [
        list(rows(text))[1:]
        for text in re.findall(r"(?:^\|.*\n)+", read("units.md"), re.MULTILINE)
        if text.startswith(f"| {heading} |")
    ]
    (table,) = found
    return table


def kind_called(name: str) -> units.Kind:
    (kind,) = [kind for kind in units.KINDS if kind.name == name]
    return kind


def code(cell: str) -> str:
    """Content of a cell in backticks."""
    assert cell.startswith("`"), cell
    assert cell.endswith("`"), cell
    return cell[1:-1]


def test_the_table_of_units_is_the_list_of_the_reader() -> None:
    listed = {
        name: tuple(re.findall(r"`([^`]+)`", spelled))
        for name, spelled in units_table("kind | spellings")
    }
    assert listed == {kind.name: kind.units for kind in units.KINDS}


def test_every_spelling_has_its_meaning_and_its_factor() -> None:
    table = {code(cells[0]): cells[1:] for cells in units_table("spelling | what it is | in SI")}
    of_kind = {spelling: kind for kind in units.KINDS for spelling in kind.units}
    assert set(table) == set(of_kind)
    for spelling, (meaning, in_si) in table.items():
        number, _, _ = in_si.partition(" ")
        one = units.to_kind(f"1 {spelling}", of_kind[spelling], key="")
        assert number == f"{units.si(one, of_kind[spelling]):.7g}", spelling
        assert meaning


def test_ways_to_write_a_tolerance_are_read_so() -> None:
    table = units_table("written | read as | tolerance")
    assert len(table) >= 4
    for written, value, tolerance in table:
        (kind,) = [
            k for k in (units.LENGTH, units.SHEAR_MODULUS) if code(value)[-3:].strip() in k.units
        ]
        reading = units.read_figure(code(written), kind, key="")
        assert reading.value == units.to_kind(code(value), kind, key="")
        assert reading.tolerance == units.to_kind(code(tolerance), kind, key="")


REFUSED = units_table("written | for a | code | the program says")


@each_case("cells", REFUSED)
def test_what_shops_write_is_answered_with_what_to_write_instead(cells: list[str]) -> None:
    written, name, refused_as, remedy = cells
    kind = kind_called(name)
    with pytest.raises(bw.QuantityError) as caught:
        units.read_figure(code(written), kind, key="")
    assert (caught.value.code, caught.value.remedy) == (refused_as, remedy)
    # What the program tells to write is read.
    for better in re.findall(r"^write '([^'…]+)'(?! for )", remedy):
        assert units.unit_spelling(units.read_figure(better, kind, key="").value) in kind.units


def test_the_table_covers_every_spelling_that_the_program_knows_the_meaning_of() -> None:
    said = " ".join(code(cells[0]).lower() for cells in REFUSED)
    # The table of the program has no public name, since it is only advice.
    assert [word for word in slips.MEANT if word not in said] == []


def test_the_table_of_answers_is_what_a_reader_of_either_system_is_given() -> None:
    table = units_table("kind | metric | inch")
    assert [cells[0] for cells in table] == [kind.name for kind in units.KINDS]
    for name, metric, inch in table:
        one = units.quantity(1.0, kind_called(name))
        assert units.unit_spelling(units.in_system(one, "metric")) == code(metric)
        assert units.unit_spelling(units.in_system(one, "inch")) == code(inch)

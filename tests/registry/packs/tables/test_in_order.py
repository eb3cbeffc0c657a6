"""Records of tables in order are those that the thorough way makes; of others, none is made."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import hypothesis
import pytest
from hypothesis import strategies as st

import barwright as bw
from barwright.parts.common.record import Part
from barwright.parts.common.source import About
from barwright.registry.discovery.shipped import demo_folders
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.packs.load import Loaded, load_partly
from barwright.registry.packs.tables.in_order import RecordsInOrder
from barwright.units import is_quantity, is_unknown
from flawed_packs import small_pack
from sound_packs import FAMILIES_BY_TURNS, sound_pack, written

_PACKS = sorted(
    header.parent for header in (Path(__file__).parents[3] / "specimens").rglob("pack.toml")
)


def everything(value: Any) -> Any:
    """All that a record holds, what is known of its figures included, in order."""
    if is_unknown(value):
        return type(value).__name__
    if is_quantity(value):
        return repr(value), vars(value).get("_lies_in", "")
    if isinstance(value, About):
        return [(name, type(one), everything(one)) for name, one in value.items()]
    if attrs.has(type(value)):
        fields = [field.name for field in attrs.fields(type(value))]
        return type(value), [(name, everything(getattr(value, name))) for name in fields]
    if isinstance(value, tuple):
        return tuple(map(everything, value))
    return type(value), value


def loaded(folder: Path) -> Loaded:
    """Read a pack."""
    return load_partly(snapshot_of(folder), origin="x")


def told(found: Loaded) -> Any:
    """All records of a pack, and all problems."""
    parts = found.pack.parts if found.pack else {}
    problems = [(type(p), p.fields, str(p)) for p in found.problems]
    return {full: everything(part) for full, part in parts.items()}, problems


def thoroughly(folder: Path) -> Any:
    """All records of a pack, each made as if something could be wrong with it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(RecordsInOrder, "record", lambda *_: None)
        return told(loaded(folder))


@pytest.fixture(name="passed_over")
def _passed_over(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Ids of the tables of which no record was made at once."""
    found: list[object] = []
    at_once = RecordsInOrder.record

    def noting(self: RecordsInOrder, table: Any, cls: type[Part]) -> Part | None:
        made = at_once(self, table, cls)
        found.extend([] if made else [table["id"]])
        return made

    monkeypatch.setattr(RecordsInOrder, "record", noting)
    return found


@pytest.mark.parametrize("folder", _PACKS, ids=lambda path: str(path.name))
def test_records_of_specimens_are_as_made_thoroughly(folder: Path) -> None:
    assert told(loaded(folder)) == thoroughly(folder)


@pytest.mark.parametrize("folder", demo_folders(), ids=lambda path: str(path.name))
def test_all_records_of_a_demo_pack_are_made_at_once(
    folder: Path, passed_over: list[object]
) -> None:
    assert told(loaded(folder)) == thoroughly(folder)
    assert not passed_over


@pytest.mark.parametrize("family", FAMILIES_BY_TURNS)
def test_all_records_of_a_sound_pack_are_made_at_once(
    family: str, tmp_path: Path, passed_over: list[object]
) -> None:
    folder = written(sound_pack(7, family), tmp_path)
    assert told(loaded(folder)) == thoroughly(folder)
    assert not passed_over


# -- Slips -------------------------------------------------------------------------------

_VALUES: tuple[Any, ...] = (
    *("", " ", "unknown", "742 mm", "742.0 mm ± 0.4 mm", "-3 mm", "12 kg", "3 deg ± 5 %", "x"),
    *("741 mm to 743 mm", "742 mm +0.4 mm", "front", "bar/none", "2031-13", "9" * 70 + " mm"),
    *(0, 1, 39, -1, 10**6, 1.5, float("nan"), True, [], [0, 1], [1, 0, 0], [-1.0, 0, 0], {}),
    *({"is": "742 mm"}, {"is": 39, "source": "desk"}, {"is": "unknown", "source": "desk"}),
    *({"is": "742 mm", "source": "desk", "at": "page 3"}, {"is": "1 mm", "source": "none"}),
    *({"is": "742 mm", "source": 3}, {"is": "742 mm", "at": 3}, {"is": "742 mm", "by": "x"}),
    *({"left": "742 mm", "right": "743 mm"}, {"kind": "strut"}, {"kind": "none"}),
    *({"works": "71-20 455"}, {"works": ["1", "2"]}, {"works": 3}, [{"place": "front"}]),
)
_KEYS = (
    *("id", "source", "at", "like", "without", "tube", "anchor", "kind", "numbers", "remarks"),
    *("bore", "mark", "blanks", "nose", "nose_diameter", "fillet_radius", "blank_angle"),
    *("preset", "made_for", "key_angle", "keyed", "teeth", "radius", "first_built", "codes"),
    *("arm_axis", "bump_rubber", "right", "gas", "property_class", "none", "wheelbase"),
)


def _tables(value: Any) -> Iterator[Any]:
    """Every table and list in a value."""
    if isinstance(value, dict | list):
        yield value
        for inner in value.values() if isinstance(value, dict) else value:
            yield from _tables(inner)


@st.composite
def slipped_packs(draw: st.DrawFn) -> dict[str, Any]:
    """Tables of a sound pack with some slips in its records."""
    pack = copy.deepcopy(_SOUND[draw(st.sampled_from(FAMILIES_BY_TURNS))])
    kinds = {kind: held for kind, held in pack.items() if kind != "source" and held}
    for _ in range(draw(st.integers(1, 3))):
        records = kinds[draw(st.sampled_from(sorted(kinds)))]
        holder = draw(st.sampled_from([t for record in records for t in _tables(record)]))
        value = copy.deepcopy(draw(st.sampled_from(_VALUES)))
        if isinstance(holder, list):
            holder[draw(st.integers(0, len(holder))) :] = [value]
            continue
        key = draw(st.sampled_from(sorted({*holder, *_KEYS})))
        if draw(st.booleans()):
            holder.pop(key, None)
        else:
            holder[key] = value
    return pack


_SOUND = {family: sound_pack(3, family) for family in FAMILIES_BY_TURNS}


@hypothesis.given(slipped_packs())
def test_a_slip_is_told_and_any_other_change_read_as_ever(
    tmp_path_factory: pytest.TempPathFactory, pack: dict[str, Any]
) -> None:
    folder = written(pack, tmp_path_factory.mktemp("slipped"))
    assert told(loaded(folder)) == thoroughly(folder)


def _changed(kind: str, path: tuple[str | int, ...], value: Any) -> dict[str, Any]:
    """Tables of a sound pack in which something else stands in one place."""
    pack = copy.deepcopy(_SOUND["van"])
    holder = pack[kind][0]
    for step in path[:-1]:
        holder = holder[step]
    holder[path[-1]] = value
    return pack


_BUMP_RUBBER = {"contact_angle": "7 deg", "contact_radius": "295 mm"}
_SURE = [
    ("chassis", ("axles", 0, "left", "anchor"), "tube/standard", 1),
    ("chassis", ("axles", 0, "tyre_rate"), "unknown", 0),
    ("arm", ("socket", "teeth"), "unknown", 0),
    ("bar", ("arm_end", "nose"), "unknown", 0),
    *[
        ("chassis", ("axles", 0, "bump_rubber"), _BUMP_RUBBER | {"curve": [point]}, wrong)
        for point, wrong in (
            ({"compression": "10 mm", "force": "900 N"}, 0),
            ({"compression": "unknown", "force": "900 N"}, 1),
        )
    ],
]


@pytest.mark.parametrize(("kind", "path", "value", "wrong"), _SURE)
def test_what_few_files_hold_is_read_as_ever(
    tmp_path: Path, kind: str, path: tuple[str | int, ...], value: Any, wrong: int
) -> None:
    folder = written(_changed(kind, path, value), tmp_path)
    assert len(loaded(folder).problems) == wrong
    assert told(loaded(folder)) == thoroughly(folder)


def test_an_estimate_without_its_range_is_told(tmp_path: Path) -> None:
    header = '[[source]]\nid = "guess"\nkind = "estimated"\nnote = "A guess."\n'
    text = '[[damper]]\nid = "a"\ntitle = "A"\nsource = "guess"\nopen_length = "1 m"\n'
    folder = small_pack(tmp_path, text, header)
    assert [problem.code for problem in loaded(folder).problems] == ["Q304"]
    assert told(loaded(folder)) == thoroughly(folder)


def test_what_is_known_of_a_figure_is_the_same_each_time_it_is_asked_for() -> None:
    arm = bw.Registry.demo(cache=False).arm("fells:arm/standard")
    assert arm.about["radius"] is arm.about["radius"]
    assert arm.about["radius"].value is arm.radius

"""Tests of `barwright.registry.registry`: looking things up by id."""

from __future__ import annotations

import inspect
import pickle
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import attrs
import pytest

import barwright as bw
from barwright.units import is_unknown
from sample_packs import GOOD_PACK, changed_pack

FELLS = (
    Path(__file__).parents[2] / "plugins" / "barwright-pack-fells" / "src" / "barwright_pack_fells"
)


@pytest.fixture(scope="module")
def registry() -> bw.Registry:
    return bw.Registry.from_folders(GOOD_PACK)


@pytest.fixture(scope="module")
def fells() -> bw.Registry:
    """The vans alone, whatever else is installed."""
    return bw.Registry.from_folders(FELLS)


def two_packs(tmp_path: Path) -> bw.Registry:
    """The good pack, and another with the same names under another id."""
    other = changed_pack(tmp_path, "pack.toml", '"tiny"', '"other"')
    parts = (other / "parts.toml").read_text(encoding="utf-8")
    (other / "parts.toml").write_text(parts.replace("tiny:", "other:"), encoding="utf-8")
    return bw.Registry.from_folders(GOOD_PACK, other)


def test_parts_and_vehicles_are_listed_by_id(registry: bw.Registry) -> None:
    ids = [part.id for part in registry.parts()]

    assert ids == sorted(ids)
    assert "tiny:bar/one" in ids
    assert [chassis.id for chassis in registry.vehicles()] == ["tiny:chassis/one"]
    assert not set(ids) & {"tiny:chassis/one"}


@pytest.mark.parametrize("name", ["tiny:bar/one", "bar/one"])
def test_the_pack_may_be_left_out(registry: bw.Registry, name: str) -> None:
    assert registry.part(name).id == "tiny:bar/one"


@pytest.mark.parametrize(
    ("name", "remedy"),
    [
        ("tiny:bar/oen", "did you mean 'tiny:bar/one'"),
        ("bar/onee", "did you mean 'tiny:bar/one'"),
        ("one", "known: standards:material/51crv4, "),
        ("", "known: standards:material/51crv4, "),
        ("tiny:chassis/one", "did you mean"),
        ("tinny:bar/one", "did you mean 'tiny:bar/one'"),
        ("other:bar/one", "no pack 'other' is read, only: tiny; install it, or name its folder"),
        ("standards:material/51crv5", "did you mean 'standards:material/51crv4'"),
    ],
)
def test_an_unknown_part_names_the_nearest(registry: bw.Registry, name: str, remedy: str) -> None:
    with pytest.raises(bw.UnknownNameError) as caught:
        registry.part(name)

    assert (caught.value.code, caught.value.value) == ("L102", name)
    assert caught.value.remedy.startswith(remedy)


@pytest.mark.parametrize("name", ["tiny:chassis/oen", "tiny:bar/one", "tinny:chassis/one"])
def test_an_unknown_vehicle(registry: bw.Registry, name: str) -> None:
    with pytest.raises(bw.UnknownNameError) as caught:
        registry.chassis(name)

    assert (caught.value.code, caught.value.remedy) == ("L101", "did you mean 'tiny:chassis/one'?")


def test_a_vehicle_is_found_by_its_id_its_words_or_its_attributes(fells: bw.Registry) -> None:
    for said in ("fells:chassis/short", "chassis/short", "fells short", "FLV-21 2014-05"):
        assert fells.resolve(said) is fells.chassis("fells:chassis/short")
    attributes = [
        {"maker": "Fells", "trim": "heavy duty"},
        {"model": "carrier", "body": "box van", "drive": "front"},
        {"code": "FLV-32", "built": bw.parts.Month(2019, 11)},
        {"market": "export", "year": 2019},
    ]
    for attribute in attributes:
        assert fells.resolve(**attribute).id == "fells:chassis/long"  # type: ignore[arg-type]
    assert fells.resolve("fells:chassis/long", year=2019).id == "fells:chassis/long"
    assert fells.resolve("carrier", year=2014, market="export", body="panel van").markets == ()


@pytest.mark.parametrize(
    ("said", "attributes", "code"),
    [
        ("fells:chassis/lnog", {}, "L101"),
        ("fells:chassis/long", {"year": 2020}, "L101"),
        ("fells:arm/standard", {}, "L101"),
        ("fells lnog", {}, "L101"),
        ("", {}, "L101"),
        ("fells", {}, "L104"),
        ("", {"year": 2014}, "L104"),
    ],
)
def test_what_means_no_vehicle_or_several_is_refused(
    fells: bw.Registry, said: str, attributes: dict[str, Any], code: str
) -> None:
    with pytest.raises(bw.UnknownNameError) as caught:
        fells.resolve(said, **attributes)

    assert caught.value.code == code


def test_the_index_and_the_files_give_the_same_vehicle_and_the_same_error() -> None:
    indexed, read = bw.Registry.discover(), bw.Registry.discover(cache=False)
    assert type(indexed.store) is not type(read.store)

    def answer(registry: bw.Registry, words: str, market: str | None) -> object:
        try:
            return registry.resolve(words, market=market)
        except bw.UnknownNameError as error:
            return error.fields

    for words in (
        "fells short",
        "FLV-21",
        "FLV-21 2014-06",
        "fels",
        "short long",
        "van 2015",
        "2008",
    ):
        for market in (None, "home", "export", "hme"):
            assert answer(indexed, words, market) == answer(read, words, market)
        assert indexed.vehicles(words) == read.vehicles(words)


def test_vehicles_are_listed_by_words(registry: bw.Registry, fells: bw.Registry) -> None:
    assert [one.id for one in fells.vehicles("panel 2014")] == [
        "fells:chassis/middle",
        "fells:chassis/short",
    ]
    assert fells.vehicles("panel 2020") == fells.vehicles("!") == ()
    assert fells.vehicles("") == fells.vehicles()
    assert registry.vehicles("tiny") == registry.vehicles()


def test_a_corner_is_found_by_words_too(fells: bw.Registry) -> None:
    by_words = fells.setup("fells short 2014", corner="front left")
    assert by_words == fells.setup("fells:chassis/short", corner="front left")
    with pytest.raises(bw.UnknownNameError) as caught:
        fells.setup("fells", corner="front left")
    assert caught.value.code == "L104"


def test_a_name_of_two_packs_is_ambiguous_without_its_pack(tmp_path: Path) -> None:
    registry = two_packs(tmp_path)
    assert registry.problems == ()

    with pytest.raises(bw.UnknownNameError) as caught:
        registry.part("bar/one")

    assert caught.value.remedy == "did you mean 'tiny:bar/one' or 'other:bar/one'?"
    assert registry.part("other:bar/one").id == "other:bar/one"


def test_a_vehicle_of_two_packs_is_told_by_what_else_is_said(tmp_path: Path) -> None:
    registry = two_packs(tmp_path)
    vehicles = tmp_path / "pack" / "vehicles.toml"
    text = vehicles.read_text(encoding="utf-8")
    vehicles.write_text(text.replace('id = "one"', 'id = "one"\nmaker = "Yard"'), encoding="utf-8")
    registry = bw.Registry.from_folders(GOOD_PACK, tmp_path / "pack")

    assert registry.resolve("chassis/one", maker="Yard").id == "other:chassis/one"
    with pytest.raises(bw.UnknownNameError) as several:
        registry.resolve("chassis/one")
    assert several.value.code == "L104"
    assert "other:chassis/one, tiny:chassis/one" in several.value.expected
    with pytest.raises(bw.UnknownNameError) as none:
        registry.resolve("chassis/one", maker="Yards")
    assert none.value.code == "L101"


def test_packs_of_one_id_are_told_the_same_in_any_order(tmp_path: Path) -> None:
    folders = [tmp_path / name for name in "abc"]
    for folder in folders:
        shutil.copytree(GOOD_PACK, folder)
        (folder / "more.toml").write_text(f"# {folder.name}", encoding="utf-8")

    reported = {str(problem) for problem in bw.Registry.from_folders(*folders).problems}
    assert reported == {
        str(problem) for problem in bw.Registry.from_folders(*folders[::-1]).problems
    }


def test_two_packs_of_one_id_are_both_left_out(tmp_path: Path) -> None:
    copy = changed_pack(tmp_path, "more.toml", "", "# More.")

    registry = bw.Registry.from_folders(GOOD_PACK, copy)

    assert registry.packs == ()
    assert [p.problems[0].code for p in registry.problems] == ["P301", "P301"]
    assert [p.file for p in registry.problems] == [str(GOOD_PACK), str(copy)]
    assert str(copy) in registry.problems[0].problems[0].remedy
    assert str(GOOD_PACK) in registry.problems[1].problems[0].remedy


def test_a_folder_stands_for_all_packs_below_it(tmp_path: Path) -> None:
    shutil.copytree(GOOD_PACK, tmp_path / "shelf/own/src/tiny")
    shutil.copytree(FELLS, tmp_path / "shelf/fells")
    (tmp_path / "empty").mkdir()

    registry = bw.Registry.from_folders(tmp_path / "shelf", tmp_path / "empty")

    assert [pack.folder for pack in registry.packs] == [
        tmp_path / "shelf/fells",
        tmp_path / "shelf/own/src/tiny",
    ]
    assert [(p.file, p.problems[0].code) for p in registry.problems] == [
        (str(tmp_path / "empty"), "F101")
    ]


@pytest.mark.parametrize("turn", [1, -1])
def test_of_two_packs_with_the_same_content_one_is_taken(tmp_path: Path, turn: int) -> None:
    shutil.copytree(GOOD_PACK, tmp_path / "a")
    shutil.copytree(GOOD_PACK, tmp_path / "b")

    registry = bw.Registry.from_folders(*[tmp_path / "a", tmp_path / "b"][::turn])

    assert registry.problems == ()
    assert [pack.folder for pack in registry.packs] == [tmp_path / "a"]


@pytest.mark.parametrize("cache", [True, False])
@pytest.mark.parametrize("number", [0, 1])
def test_of_two_packs_of_one_id_the_preferred_one_is_taken(
    tmp_path: Path, number: int, *, cache: bool
) -> None:
    two = (GOOD_PACK, changed_pack(tmp_path, "parts.toml", '"Bar"', '"Other bar"'))

    registry = bw.Registry.from_folders(*two, prefer={"tiny": str(two[number])}, cache=cache)

    assert registry.problems == ()
    assert registry.part("tiny:bar/one").title == ("Bar", "Other bar")[number]


def test_a_preference_for_none_of_them_is_refused(tmp_path: Path) -> None:
    other = changed_pack(tmp_path, "more.toml", "", "# More.")

    with pytest.raises(bw.SchemaError) as caught:
        bw.Registry.from_folders(GOOD_PACK, other, prefer={"tiny": "elsewhere"})

    assert (caught.value.code, caught.value.key) == ("S206", "prefer.tiny")
    assert caught.value.expected == "one of the packs that claim the id"


def test_a_preference_without_need_changes_nothing() -> None:
    registry = bw.Registry.from_folders(GOOD_PACK, prefer={"tiny": str(GOOD_PACK)})

    assert [pack.id for pack in registry.packs] == ["tiny"]


def test_a_preferred_pack_cannot_be_the_standards(tmp_path: Path) -> None:
    usurper = changed_pack(tmp_path, "pack.toml", 'id = "tiny"', 'id = "standards"')
    parts = (usurper / "parts.toml").read_text(encoding="utf-8").replace("tiny:", "")
    (usurper / "parts.toml").write_text(parts, encoding="utf-8")

    registry = bw.Registry.from_folders(usurper)

    assert [p.problems[0].code for p in registry.problems] == ["P301"]
    with pytest.raises(bw.SchemaError, match="S206"):
        bw.Registry.from_folders(usurper, prefer={"standards": str(usurper)})


def test_a_preferred_pack_that_is_broken_hides_no_other(tmp_path: Path) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 99")

    registry = bw.Registry.from_folders(broken, GOOD_PACK, prefer={"tiny": str(broken)})

    assert [pack.folder for pack in registry.packs] == [GOOD_PACK]
    assert [p.problems[0].code for p in registry.problems] == ["P401"]


def test_a_broken_pack_is_told_and_the_other_works(tmp_path: Path) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 3")

    registry = bw.Registry.from_folders(broken, GOOD_PACK)

    assert [pack.id for pack in registry.packs] == ["tiny"]
    assert [p.problems[0].code for p in registry.problems] == ["P401"]


def test_no_pack_at_all_is_a_registry_that_knows_the_standards_only() -> None:
    registry = bw.Registry.from_folders()

    assert (registry.packs, registry.problems, registry.vehicles()) == ((), (), ())
    assert {part.id.partition("/")[0] for part in registry.parts()} == {"standards:material"}
    with pytest.raises(bw.UnknownNameError, match=r"Registry\.demo"):
        registry.chassis("chassis/one")
    with pytest.raises(bw.UnknownNameError, match=r"Registry\.demo"):
        registry.resolve("fells short")
    assert "Registry.demo" in repr(registry)


def test_a_registry_shows_its_packs_and_how_many_were_left_out(tmp_path: Path) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 3")

    assert repr(bw.Registry.from_folders(GOOD_PACK)) == "<Registry of tiny>"
    assert repr(bw.Registry.from_folders(GOOD_PACK, broken)) == "<Registry of tiny, 1 left out>"


def test_the_demo_data_is_opened_without_any_pack_installed() -> None:
    demo = bw.Registry.demo(cache=False)

    assert repr(demo) == "<Registry of fells, hodmule, trundlet>"
    assert all("invented" in {s.kind.value for s in p.header.source} for p in demo.packs)


def test_a_bar_may_be_of_a_steel_of_the_standards(tmp_path: Path) -> None:
    of_standard = changed_pack(
        tmp_path,
        "parts.toml",
        'material = "material/steel"',
        'material = "standards:material/51crv4"',
    )

    registry = bw.Registry.from_folders(of_standard)
    bar = registry.part("tiny:bar/one")

    assert registry.problems == ()
    assert isinstance(bar, bw.parts.Bar)
    assert bar.material is registry.part("standards:material/51crv4")
    assert bar.material.about["shear_modulus"].source == "standards:moduli"


def test_no_other_pack_can_be_the_standards(tmp_path: Path) -> None:
    header = (GOOD_PACK / "pack.toml").read_text(encoding="utf-8")
    usurping = header.replace('id = "tiny"', 'id = "standards"')
    (tmp_path / "pack.toml").write_text(usurping, encoding="utf-8")

    registry = bw.Registry.from_folders(tmp_path)

    assert registry.packs == ()
    assert [p.problems[0].code for p in registry.problems] == ["P301"]
    assert registry.part("standards:material/51crv4").title


@pytest.mark.parametrize("side", bw.parts.Side)
def test_a_corner_has_its_standard_parts_load_and_clocking(
    registry: bw.Registry, side: bw.parts.Side
) -> None:
    setup = registry.setup("chassis/one", corner=f"front {side.value}")

    assert (setup.side, setup.corner) == (side, f"front {side.value}")
    assert {place: part.id for place, part in setup.parts.items()} == {
        "arm": "tiny:arm/one",
        "bar": "tiny:bar/one",
        "anchor": "tiny:tube/one",
        "adjuster": "tiny:adjuster/one",
        "damper": "tiny:damper/one",
    }
    assert setup.load.kind is bw.parts.LoadKind.SPRUNG
    assert setup.load.mass == bw.Quantity(291.0, "kg")
    assert (setup.arm_tooth, setup.anchor_tooth, setup.nut_turns.magnitude) == (0, 0, 0.0)


@pytest.mark.parametrize("corner", ["rear left", "front", "left front", "Front left", ""])
def test_an_unknown_corner(registry: bw.Registry, corner: str) -> None:
    with pytest.raises(bw.UnknownNameError) as caught:
        registry.setup("chassis/one", corner=corner)

    assert (caught.value.code, caught.value.key) == ("L103", "corner")
    assert "front left" in caught.value.remedy


def test_a_right_corner_can_have_standard_parts_of_its_own(tmp_path: Path) -> None:
    left = 'left = { arm = "arm/one", bar = "bar/one",'
    right = (
        'right = { arm = "arm/one", bar = "bar/two", tube = "tube/one", '
        'adjuster = "adjuster/one", damper = "damper/one" }\n'
    )
    pack = changed_pack(tmp_path, "vehicles.toml", left, right + left)
    parts = (pack / "parts.toml").read_text(encoding="utf-8")
    bar = parts[parts.index("[[bar]]") : parts.index("[[tube]]")]
    more = bar.replace('"one"', '"two"')
    (pack / "more.toml").write_text(more, encoding="utf-8")

    registry = bw.Registry.from_folders(pack)

    assert registry.setup("chassis/one", corner="front left").bar.id == "tiny:bar/one"
    assert registry.setup("chassis/one", corner="front right").bar.id == "tiny:bar/two"


def test_a_registry_cannot_be_changed(registry: bw.Registry) -> None:
    with pytest.raises(attrs.exceptions.FrozenInstanceError):
        registry.packs = ()  # type: ignore[misc]
    with pytest.raises(attrs.exceptions.FrozenInstanceError):
        registry.part("bar/one").title = "x"  # type: ignore[misc]


def test_a_registry_survives_pickling(registry: bw.Registry) -> None:
    again = pickle.loads(pickle.dumps(registry))  # noqa: S301 - our own bytes

    assert again.parts() == registry.parts()


@pytest.mark.parametrize("assume", [None, "usual"])
def test_a_setup_takes_usual_figures_if_asked_to(
    tmp_path: Path, assume: Literal["usual"] | None
) -> None:
    pack = changed_pack(tmp_path, "vehicles.toml", 'tyre_rate = "185 N/mm"', "")
    registry = bw.Registry.from_folders(pack)
    axle = registry.setup("tiny:chassis/one", corner="front left", assume=assume).axle

    assert is_unknown(axle.tyre_rate) is (assume is None)
    known = axle.about.get("tyre_rate")
    source = registry.source(known.source) if known else None
    assert (source.note if source else "").startswith("Tyres of cars" if assume else "")


def test_the_standard_load_keeps_its_source() -> None:
    setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")

    assert setup.load.about["mass"] == setup.axle.about["standard_mass"]
    assert setup.load.about["mass"].source == "fells:drawing-board"


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("adjuster", "fells:adjuster/standard"),
        ("arm", "fells:arm/standard"),
        ("bar", "fells:bar/short-firm"),
        ("damper", "fells:damper/short"),
        ("fixed-socket", "trundlet:fixed-socket/beam"),
        ("key-lever", "hodmule:key-lever/standard"),
        ("material", "standards:material/51crv4"),
        ("tube", "fells:tube/short"),
    ],
)
def test_each_kind_of_part_has_a_method_of_its_own(kind: str, name: str) -> None:
    registry = bw.Registry.discover()
    method = getattr(registry, kind.replace("-", "_"))

    assert method(name) == registry.part(name)
    with pytest.raises(bw.UnknownNameError) as caught:
        method("fells:chassis/short")
    assert caught.value.code == "L102"
    article = "an" if kind in {"adjuster", "arm"} else "a"
    assert caught.value.expected == f"the id of {article} {kind.replace('-', ' ')}"


def test_a_part_of_another_kind_is_none_of_this_kind() -> None:
    with pytest.raises(bw.UnknownNameError) as caught:
        bw.Registry.discover().bar("fells:damper/short")

    assert caught.value.expected == "the id of a bar"
    assert "fells:bar/" in caught.value.remedy


@pytest.mark.parametrize(
    ("look_up", "said"),
    [
        (bw.Registry.bar, ("Return a bar", "``pack:bar/name``", "\nBar\n", "L102")),
        (bw.Registry.key_lever, ("a key lever", "``pack:key-lever/name``", "KeyLever\n", "L102")),
        (bw.Registry.chassis, ("a chassis", "``pack:chassis/name``", "\nChassis\n", "L101")),
    ],
)
def test_each_look_up_by_id_says_what_it_takes_and_returns(
    look_up: Callable[..., object], said: tuple[str, ...]
) -> None:
    text = inspect.getdoc(look_up) or ""

    assert [words for words in said if words not in text] == []
    assert "\nParameters\n----------\nname : str\n" in text

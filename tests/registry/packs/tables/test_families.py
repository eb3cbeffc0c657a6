"""Tests of `like`: records that are another one of their pack with differences."""

from __future__ import annotations

import copy
import itertools
import tomllib
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.files.file_limits import MOST_BASES
from barwright.registry.packs import record_loader
from barwright.report.forms.json import plain, plain_part
from draws import draws
from flawed_packs import added
from sample_packs import GOOD_PACK, problems_in

LATE = """
[[chassis]]
id = "late"
title = "Vehicle, late"
source = "bench"
at = "page 9"
like = "chassis/one"
first_built = "2031-05"
wheelbase = "2405 mm ± 1 mm"

[[chassis.axles]]
place = "front"
tyre_rate = "190 N/mm ± 4 N/mm"
suspension = { kind = "strut", top_up = "615 mm" }
left = { bar = "bar/thick" }
"""

THICK = """
[[bar]]
id = "thick"
title = "Thick bar"
source = "bench"
at = "page 8"
like = "bar/one"
diameter = "24.1 mm ± 0.05 mm"
arm_end = { nose = "3 mm ± 0.1 mm" }
"""


def opened(pack: Path) -> bw.Registry:
    """The one pack, read whole."""
    registry = bw.Registry.from_folders(pack, cache=False)
    assert registry.problems == ()
    return registry


def errors_in(pack: Path) -> list[str]:
    """Code, file, key and value of what is wrong with a pack."""
    registry = bw.Registry.from_folders(pack, cache=False)
    return [f"{p.code} {p.file} {p.key}: {p.value}" for e in registry.problems for p in e.problems]


def test_a_record_has_what_it_states_and_all_else_of_the_other(tmp_path: Path) -> None:
    registry = opened(added(tmp_path, LATE, THICK))
    one, late = registry.chassis("chassis/one"), registry.chassis("chassis/late")
    (before,), (axle,) = one.axles, late.axles
    bar = registry.bar("bar/thick")

    assert (late.title, str(late.first_built)) == ("Vehicle, late", "2031-05")
    assert (axle.tyre_rate.magnitude, axle.tyre_radius) == (190.0, before.tyre_radius)
    assert (axle.left.bar, axle.left.damper) == (bar, before.left.damper)
    (changed, kept) = (plain_part(one.suspension) for one in (axle, before))
    assert changed["top_up"]["value"] == 615.0
    assert changed["offset"] == kept["offset"]
    assert (bar.diameter.magnitude, bar.arm_end.nose.magnitude) == (24.1, 3.0)
    assert (bar.arm_end.teeth, bar.anchor_end) == (39, registry.bar("bar/one").anchor_end)


def test_each_figure_keeps_source_place_file_and_key_of_the_record_that_states_it(
    tmp_path: Path,
) -> None:
    bar = opened(added(tmp_path, LATE, THICK)).bar("bar/thick")

    def said(figure: bw.parts.Figure) -> tuple[str, str, str, str]:
        return figure.source, figure.at, figure.file, figure.key

    assert said(bar.about["length"]) == ("tiny:desk", "page 3", "parts.toml", "one.length")
    assert said(bar.about["diameter"]) == (
        *("tiny:bench", "page 8", "more.toml", "thick.diameter"),
    )
    ends = bar.arm_end.about
    assert said(ends["nose"]) == ("tiny:bench", "page 8", "more.toml", "thick.nose")
    assert said(ends["length"]) == ("tiny:desk", "page 3", "parts.toml", "one.length")


def test_a_table_of_the_other_record_keeps_its_own_source(tmp_path: Path) -> None:
    base = '[[damper]]\nid = "two"\ntitle = "D"\nsource = "desk"\nat = "p1"\nopen_length = "6 m"\n'
    gas = 'gas = { force = "1 N", at_length = { is = "5 m", source = "desk" }, source = "bench" }\n'
    like = (
        '[[damper]]\nid = "three"\ntitle = "E"\nsource = "desk"\nat = "p2"\nlike = "damper/two"\n'
    )
    own = '[damper.gas]\nslope = "-1 N/m"\n'
    damper = opened(added(tmp_path, base, gas, like, own)).damper("damper/three")

    assert damper.gas
    said = {name: (one.source, one.at, one.key) for name, one in damper.gas.about.items()}
    assert said == {
        "force": ("tiny:bench", "", "two.force"),
        "at_length": ("tiny:desk", "", "two.at_length"),
        "slope": ("tiny:desk", "p2", "three.slope"),
    }


def test_a_record_can_be_like_one_that_is_like_another_and_stands_later(tmp_path: Path) -> None:
    third = THICK.replace('"thick"', '"third"').replace("bar/one", "bar/thick")
    third = third.replace('diameter = "24.1 mm ± 0.05 mm"\n', "").replace(
        "3 mm ± 0.1", "4 mm ± 0.1"
    )
    third = third.replace("Thick bar", "Third bar")
    bar = opened(added(tmp_path, third, THICK)).bar("bar/third")

    assert (bar.diameter.magnitude, bar.arm_end.nose.magnitude) == (24.1, 4.0)
    assert bar.about["diameter"].key == "thick.diameter"
    assert bar.about["length"].key == "one.length"


SHARED = """
[[chassis]]
id = "other"
title = "Another vehicle"
source = "bench"
at = "page 9"
wheelbase = "2600 mm ± 1 mm"
axles = [{ place = "front", like = "chassis/one", standard_mass = "300 kg ± 2 kg" }]
"""


def test_an_axle_can_be_shared_alone(tmp_path: Path) -> None:
    registry = opened(added(tmp_path, SHARED))
    (before,), (axle,) = (registry.chassis(f"chassis/{n}").axles for n in ("one", "other"))

    assert axle.standard_mass.magnitude == 300.0
    assert axle.about["standard_mass"].key == "other.standard_mass"
    assert (axle.tyre_rate, axle.left, axle.suspension) == (
        *(before.tyre_rate, before.left, before.suspension),
    )
    assert axle.suspension.about["top_up"].key == "one.top_up"


def test_own_axles_stand_before_those_that_are_taken(tmp_path: Path) -> None:
    rear = '[[chassis.axles]]\nplace = "rear"\nlike = "chassis/{}"\n'
    table = tomllib.loads((GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8"))
    table["chassis"][0]["axles"].append({**table["chassis"][0]["axles"][0], "place": "rear"})
    head = '[[chassis]]\nid = "{0}"\ntitle = "{0}"\nsource = "desk"\nlike = "chassis/one"\n'
    pack = added(tmp_path, head.format("two"), rear.format("one"), head.format("three"))
    (pack / "vehicles.toml").write_text(tomli_w.dumps(table), encoding="utf-8")
    registry = opened(pack)

    def places(name: str) -> list[str]:
        return [axle.place.value for axle in registry.chassis(f"chassis/{name}").axles]

    assert places("two") == ["rear", "front"]
    assert places("three") == ["front", "rear"]


def test_what_the_other_has_can_be_left_out(tmp_path: Path) -> None:
    text = LATE.replace("wheelbase", 'without = ["axles.front.tyre_radius"]\nwheelbase')
    axle = text.replace("tyre_rate", 'without = ["left.adjuster", "cap_allowance"]\ntyre_rate')
    fixed = """
[[fixed-socket]]
id = "one"
title = "Fixed socket"
source = "desk"
anchor_angle = "3 deg"
socket = { form = "involute" }
"""
    axle = axle.replace('bar = "bar/thick"', 'tube = "fixed-socket/one"')
    made = opened(added(tmp_path, axle, THICK, fixed)).chassis("chassis/late").axles[0]

    assert made.left.adjuster is None
    assert made.cap_allowance is None
    with pytest.raises(bw.NeedsError):
        made.tyre_radius.to("m")


def test_an_axle_and_what_one_of_two_has_can_be_left_out(tmp_path: Path) -> None:
    table = tomllib.loads((GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8"))
    table["chassis"][0]["axles"].append({**table["chassis"][0]["axles"][0], "place": "rear"})
    head = '[[chassis]]\nid = "{0}"\ntitle = "{0}"\nsource = "desk"\nlike = "chassis/one"\n'
    single = head.format("two") + 'without = ["axles.rear"]\n'
    lighter = head.format("three") + 'without = ["axles.rear.tyre_rate"]\n'
    pack = added(tmp_path, single, lighter)
    (pack / "vehicles.toml").write_text(tomli_w.dumps(table), encoding="utf-8")
    registry = opened(pack)

    assert [axle.place.value for axle in registry.chassis("chassis/two").axles] == ["front"]
    front, rear = registry.chassis("chassis/three").axles
    assert front.tyre_rate.magnitude == 185.0
    with pytest.raises(bw.NeedsError):
        rear.tyre_rate.to("N/m")


def test_a_record_without_an_id_is_like_nothing_and_nothing_is_like_it(tmp_path: Path) -> None:
    nameless = '[[damper]]\ntitle = "D"\nsource = "desk"\nopen_length = "1 m"\n'

    found = errors_in(added(tmp_path, nameless, damper("two", "one")))

    assert found == ["S202 more.toml damper[0].id: nothing"]


def test_an_anchor_takes_the_place_of_a_tube(tmp_path: Path) -> None:
    tube = '[[tube]]\nid = "two"\ntitle = "Second"\nsource = "desk"\nlike = "tube/one"\n'
    text = LATE.replace('bar = "bar/thick"', 'anchor = "tube/two"')

    axle = opened(added(tmp_path, tube, text)).chassis("chassis/late").axles[0]

    assert axle.left.anchor.id == "tiny:tube/two"


def test_a_table_of_another_kind_takes_the_place_of_all(tmp_path: Path) -> None:
    text = LATE.replace('kind = "strut", top_up', 'kind = "swing-arm", mount_up')

    axle = opened(added(tmp_path, text, THICK)).chassis("chassis/late").axles[0]

    assert isinstance(axle.suspension, bw.parts.SwingArmMounting)


def test_the_index_makes_the_same_records(tmp_path: Path) -> None:
    pack = added(tmp_path, LATE, THICK, SHARED, "# " + 9000 * "x" + "\n" * 2)
    text = (pack / "more.toml").read_text(encoding="utf-8").replace(9000 * "x", 200 * "x\n# ")
    (pack / "more.toml").write_text(text + "# x\n" * 2000, encoding="utf-8")
    whole, indexed = opened(pack), bw.Registry.from_folders(pack)

    assert type(whole.store) is not type(indexed.store)
    for name in whole.ids():
        one, other = whole.store.part(name), indexed.store.part(name)
        assert plain(one) == plain(other) if one and "tiny" in name else True
    assert [v.id for v in indexed.vehicles("late 2032")] == ["tiny:chassis/late"]


# -- What is refused -----------------------------------------------------------------

REFUSED = {
    "of nothing": (LATE, "chassis/one", "chassis/on", "S206", "like", "chassis/on"),
    "of another kind": (LATE, "chassis/one", "bar/one", "S206", "like", "bar/one"),
    "of another pack": (THICK, "bar/one", "fells:bar/one", "S206", "like", "fells:bar/one"),
    "no text": (LATE, '"chassis/one"', "5", "S203", "like", "5"),
    "of no id": (LATE, "chassis/one", "chassis/", "S206", "like", "chassis/"),
    "left out what is not there": (
        *(LATE, "first_built", 'without = ["codes"]\nfirst_built'),
        *("S206", "without", "codes"),
    ),
    "left out beyond a figure": (
        *(LATE, "first_built", 'without = ["wheelbase.x"]\nfirst_built'),
        *("S206", "without", "wheelbase.x"),
    ),
    "left out an axle that is not there": (
        *(LATE, "first_built", 'without = ["axles.rear"]\nfirst_built'),
        *("S206", "without", "axles.rear"),
    ),
    "left out no list": (
        *(LATE, "first_built", 'without = "wheelbase"\nfirst_built'),
        *("S203", "without", "wheelbase"),
    ),
    "without, and no like": (
        *(LATE, 'like = "chassis/one"', 'without = ["codes"]'),
        *("S207", "without", "without, and no like"),
    ),
    "an axle in another place": (
        *(SHARED, 'place = "front"', 'place = "rear"'),
        *("S206", "axles[0].like", "the rear axle of chassis/one"),
    ),
    "an axle of nothing": (
        *(SHARED, "chassis/one", "chassis/on"),
        *("S206", "axles[0].like", "chassis/on"),
    ),
    "an axle without, and no like": (
        *(SHARED, 'like = "chassis/one"', 'without = ["left"]'),
        *("S207", "axles[0].without", "without, and no like"),
    ),
}


@pytest.mark.parametrize("slip", REFUSED.values(), ids=REFUSED)
def test_what_no_record_can_be_like(tmp_path: Path, slip: tuple[str, ...]) -> None:
    text, old, new, code, key, value = slip
    assert old in text
    kind = "bar" if text is THICK else "chassis"
    others = THICK if text is LATE else ""
    pack = added(tmp_path, text.replace(old, new, 1), others)

    assert errors_in(pack) == [f"{code} more.toml {kind}[0].{key}: {value}"]


def damper(name: str, like: str) -> str:
    return f'[[damper]]\nid = "{name}"\ntitle = "{name}"\nsource = "desk"\nlike = "damper/{like}"\n'


def test_a_circle_is_told_of_each_in_it_and_of_no_other(tmp_path: Path) -> None:
    pack = added(tmp_path, damper("a", "b"), damper("b", "c"), damper("c", "b"), damper("d", "d"))

    assert errors_in(pack) == [
        "S207 more.toml damper[1].like: damper/b like damper/c like damper/b",
        "S207 more.toml damper[2].like: damper/c like damper/b like damper/c",
        "S207 more.toml damper[3].like: damper/d like damper/d",
    ]


@pytest.mark.parametrize("turned", [False, True])
def test_a_chain_has_an_end(tmp_path: Path, *, turned: bool) -> None:
    names = ["one", *(f"d{number}" for number in range(MOST_BASES + 2))]
    chain = [damper(own, like) for like, own in itertools.pairwise(names)]
    pack = added(tmp_path, *(reversed(chain) if turned else chain))

    found = errors_in(pack)

    assert {one.partition(" ")[0] for one in found} == {"S207"}
    assert found[-1].endswith(f"damper/{names[MOST_BASES + 1]}")


def test_a_very_long_chain_in_any_order_is_refused_in_time(tmp_path: Path) -> None:
    chain = [damper(f"d{number}", f"d{number + 1}") for number in range(3000)]

    assert len(errors_in(added(tmp_path, *chain))) > 1000


def test_what_is_wrong_with_the_other_is_told_once(tmp_path: Path) -> None:
    thick = THICK.replace("24.1 mm ± 0.05 mm", "24.1")
    third = THICK.replace('"thick"', '"third"').replace("bar/one", "bar/thick")

    assert errors_in(added(tmp_path, third, thick, LATE)) == [
        "Q105 more.toml bar[1].diameter: 24.1"
    ]


def test_what_does_not_go_together_is_told_where_the_difference_stands(tmp_path: Path) -> None:
    text = LATE.replace("tyre_rate", 'droop_stop = "20 deg"\ntyre_rate')

    assert problems_in(added(tmp_path, text, THICK)) == ["G106 chassis[0].axles[0].droop_stop"]


def test_a_title_and_a_source_are_a_record_s_own(tmp_path: Path) -> None:
    bare = '[[damper]]\nid = "two"\nlike = "damper/one"\n'

    assert problems_in(added(tmp_path, bare)) == ["S202 damper[0].source"]
    sourced = bare + 'source = "desk"\n'
    (tmp_path / "second").mkdir()
    assert problems_in(added(tmp_path / "second", sourced)) == ["S202 damper[0].title"]


def test_axles_that_are_no_list_of_tables_are_refused_as_ever(tmp_path: Path) -> None:
    text = LATE.partition("[[chassis.axles]]")[0]

    assert problems_in(added(tmp_path, text + "axles = [5]\n")) == ["S203 chassis[0].axles[0]"]
    (tmp_path / "second").mkdir()
    assert problems_in(added(tmp_path / "second", text + "axles = 5\n")) == [
        "S203 chassis[0].axles"
    ]


def test_few_tables_cannot_become_very_many(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    head = '[[chassis]]\nid = "v{0}"\ntitle = "{0}"\nsource = "desk"\nlike = "chassis/one"\n'
    pack = added(tmp_path, *(head.format(number) for number in range(9)))
    assert errors_in(pack) == []

    monkeypatch.setattr(record_loader, "MOST_INHERITED", 9 * 40)

    assert [one.partition(": ")[::2] for one in errors_in(pack)] == [
        ("F107 more.toml ", "more than 360 values in records that are like others")
    ]


# -- Written out ---------------------------------------------------------------------

OWN = {"id": "late", "title": "Vehicle, late", "source": "bench", "at": "page 9"}
FIGURES = {
    "hub_up": "{} mm",
    "tyre_rate": "{} N/mm",
    "unsprung_mass": "{} kg",
    "standard_height": "{} mm",
    "bump_stop": "{} deg",
    "tube_position": "{} mm",
    "space_behind": "{} mm",
}
BARE = tomllib.loads((GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8"))["chassis"][0]
PARTS = tomllib.loads((GOOD_PACK / "parts.toml").read_text(encoding="utf-8"))


@st.composite
def axle_differences(draw: st.DrawFn) -> dict[str, Any]:
    """Keys of an axle with other values than those of the good pack."""
    axle = BARE["axles"][0]
    names = draw(st.sets(st.sampled_from(sorted(FIGURES)), max_size=4))
    found: dict[str, Any] = {}
    for name in sorted(names):
        number = float(str(axle[name]).partition(" ")[0])
        changed = round(number * draw(st.floats(0.99, 1.01)), 3)
        found[name] = FIGURES[name].format(changed)
    if draw(st.booleans()):
        found["suspension"] = {"kind": "strut", "top_up": f"{draw(st.integers(609, 613))} mm"}
    if draw(st.booleans()):
        found["left"] = {"bar": "bar/thick"}
    if draw(st.booleans()):
        found["helper_coil"] = {"rate": "2 N/mm", "free_length": "600 mm"}
    return found


@st.composite
def bar_differences(draw: st.DrawFn) -> dict[str, Any]:
    found: dict[str, Any] = {"diameter": f"{draw(st.floats(22.5, 24.0)):.2f} mm"}
    if draw(st.booleans()):
        found["arm_end"] = {"nose": "2 mm", "taper": f"{draw(st.integers(18, 24))} mm"}
    if draw(st.booleans()):
        found["length"] = f"{draw(st.integers(902, 906))} mm"
    return found


def laid_over(base: dict[str, Any], own: dict[str, Any]) -> dict[str, Any]:
    """Two tables written out as one, by this test's own hand."""
    made = copy.deepcopy(base)
    for key, value in own.items():
        made[key] = laid_over(made[key], value) if isinstance(made.get(key), dict) else value
    return made


def answers(registry: bw.Registry) -> list[Any]:
    """What is answered of both corners, without where it comes from."""
    found: list[Any] = []
    for side in ("left", "right"):
        setup = registry.setup("tiny:chassis/late", corner=f"front {side}")
        asked = (bw.length_fit(setup), bw.rates(setup), bw.reindex(setup), bw.strength(setup))
        found += [unsourced(plain(answer)) for answer in asked]
    return found


def unsourced(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: unsourced(inner) for key, inner in value.items() if key != "about"}
    return [unsourced(inner) for inner in value] if isinstance(value, list) else value


def written(folder: Path, bar: dict[str, Any], *chassis: dict[str, Any]) -> bw.Registry:
    folder.mkdir(exist_ok=True)
    for file in GOOD_PACK.iterdir():
        (folder / file.name).write_bytes(file.read_bytes())
    text = tomli_w.dumps({"bar": [bar], "chassis": list(chassis)})
    (folder / "more.toml").write_text(text, encoding="utf-8")
    return opened(folder)


@pytest.mark.rare
@settings(max_examples=draws(12), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    axle=axle_differences(),
    further=axle_differences(),
    bar=bar_differences(),
    is_shared=st.booleans(),
    wheelbase=st.integers(2000, 3000),
)
def test_a_difference_answers_as_the_written_out_record_does(
    tmp_path: Path,
    *,
    axle: dict[str, Any],
    further: dict[str, Any],
    bar: dict[str, Any],
    is_shared: bool,
    wheelbase: int,
) -> None:
    thick = {**OWN, "id": "thick", "like": "bar/one", **bar}
    middle: dict[str, Any] = {**OWN, "id": "middle", "title": "Middle", "like": "chassis/one"}
    middle["axles"] = [{"place": "front", **further}]
    late: dict[str, Any] = {**OWN, "wheelbase": f"{wheelbase} mm"}
    late["axles"] = [{"place": "front", **axle}]
    if is_shared:
        late["axles"][0]["like"] = "chassis/middle"
    else:
        late["like"] = "chassis/middle"
    whole_bar = {**laid_over(PARTS["bar"][0], bar), **OWN, "id": "thick"}
    both = laid_over(laid_over(BARE["axles"][0], further), axle)
    whole = {**OWN, "wheelbase": f"{wheelbase} mm", "axles": [both]}

    short = written(tmp_path / "short", thick, middle, late)
    long = written(tmp_path / "long", whole_bar, whole)

    for name in ("bar/thick", "chassis/late"):
        one, other = (r.store.part(f"tiny:{name}") for r in (short, long))
        assert one == other
    assert answers(short) == answers(long)

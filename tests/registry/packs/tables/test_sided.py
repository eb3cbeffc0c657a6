"""Tests of figures that differ left and right: a corner has those of its own side."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

import attrs
import jsonschema
import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.lint.content import content
from barwright.parts.bar import Side
from barwright.registry.authoring.schema import pack_schema
from barwright.registry.packs.tables.sided import may_differ
from barwright.report.forms.json import plain
from draws import draws
from flawed_packs import added
from rare_cases import rarely_after
from sample_overlays import correction, overlay
from sample_packs import GOOD_PACK, changed_pack

WHEELBASE = 'wheelbase = "2400 mm"'
RIGHT = 'right = { is = "2372 mm ± 2 mm", source = "bench", at = "p 4" }'
BOTH = f'wheelbase = {{ left = "2402 mm ± 1 mm", {RIGHT} }}'
HEIGHT = 'standard_height = "404 mm"'
HEIGHTS = 'standard_height = { left = "404 mm", right = "409 mm" }'


def opened(folder: Path, *changes: tuple[str, str]) -> bw.Registry:
    registry = bw.Registry.from_folders(pack(folder, *changes), cache=False)
    assert registry.problems == ()
    return registry


def pack(folder: Path, *changes: tuple[str, str]) -> Path:
    """The good pack with some lines of its vehicle replaced."""
    made = changed_pack(folder, "vehicles.toml", "", "")
    path = made / "vehicles.toml"
    text = path.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    path.write_text(text, encoding="utf-8")
    return made


def corners(registry: bw.Registry) -> tuple[bw.Setup, bw.Setup]:
    return (
        registry.setup("tiny:chassis/one", corner="front left"),
        registry.setup("tiny:chassis/one", corner="front right"),
    )


def test_each_corner_has_the_figures_of_its_side(tmp_path: Path) -> None:
    left, right = corners(opened(tmp_path, (WHEELBASE, BOTH), (HEIGHT, HEIGHTS)))

    assert [s.chassis.wheelbase.magnitude for s in (left, right)] == [2402.0, 2372.0]
    assert [s.axle.standard_height.magnitude for s in (left, right)] == [404.0, 409.0]
    assert left.chassis.id == right.chassis.id == "tiny:chassis/one"
    known = [s.chassis.about["wheelbase"] for s in (left, right)]
    assert [(one.source, one.at, one.key) for one in known] == [
        ("tiny:desk", "", "one.wheelbase"),
        ("tiny:bench", "p 4", "one.wheelbase"),
    ]


def test_a_vehicle_whose_sides_are_the_same_has_no_second_one(tmp_path: Path) -> None:
    assert opened(tmp_path).chassis("chassis/one").right_side is None


def test_a_setup_turned_to_the_other_side_has_the_other_figures(tmp_path: Path) -> None:
    left, right = corners(opened(tmp_path, (HEIGHT, HEIGHTS)))

    turned = attrs.evolve(left, side=Side.RIGHT)
    assert turned.axle == right.axle
    tried = attrs.evolve(left.axle, standard_height="406 mm")
    assert attrs.evolve(left, side=Side.RIGHT, axle=tried).axle == tried


def test_the_trail_of_a_corner_lists_its_own_figures_alone(tmp_path: Path) -> None:
    for side, setup in zip(
        ("left", "right"),
        corners(opened(tmp_path, (WHEELBASE, BOTH), (HEIGHT, HEIGHTS))),
        strict=True,
    ):
        lines = {line.figure: line for line in bw.trail(setup).lines}
        assert lines["chassis.wheelbase"].at == ("" if side == "left" else "p 4")
        assert not [name for name in lines if "right" in name]


def test_the_load_of_standard_trim_is_that_of_the_side(tmp_path: Path) -> None:
    mass = 'standard_mass = "291 kg"'
    both = 'standard_mass = { left = "291 kg", right = "285 kg" }'
    left, right = corners(opened(tmp_path, (mass, both)))

    assert [s.load.mass.magnitude for s in (left, right)] == [291.0, 285.0]


def test_what_one_side_does_not_give_it_has_not(tmp_path: Path) -> None:
    left, right = corners(
        opened(
            tmp_path,
            (
                'space_behind = "44 mm"',
                'space_behind = { right = "44 mm" }\narm_stop = { left = "-4 mm" }',
            ),
        )
    )

    assert right.axle.arm_stop is None
    assert left.axle.arm_stop is not None
    with pytest.raises(bw.NeedsError):
        left.axle.space_behind.to("m")
    assert right.axle.space_behind.magnitude == 44.0


def test_a_table_and_a_fact_may_differ_inside_an_axle(tmp_path: Path) -> None:
    left, right = corners(
        opened(
            tmp_path,
            ('top_up = "611 mm"', 'top_up = { left = "611 mm", right = "613 mm" }'),
            ("bar_axis = [1, 0, 0]", "bar_axis = { left = [1, 0, 0], right = [1, 0, 0.001] }"),
        )
    )

    assert plain(left.chassis)["axles"][0]["suspension"]["top_up"]["value"] == 611.0
    assert plain(right.chassis)["axles"][0]["suspension"]["top_up"]["value"] == 613.0
    assert right.axle.bar_axis == (1.0, 0.0, 0.001)


def test_json_keeps_both_sides(tmp_path: Path) -> None:
    chassis = opened(tmp_path, (WHEELBASE, BOTH)).chassis("chassis/one")

    assert bw.from_json(bw.to_json(chassis)) == chassis
    assert bw.from_json(bw.to_json(chassis)).right_side.wheelbase == chassis.right_side.wheelbase  # type: ignore[union-attr]


def test_the_index_keeps_both_sides(tmp_path: Path) -> None:
    made = pack(tmp_path, (WHEELBASE, BOTH))
    (made / "more.toml").write_text("# x\n" * 3000, encoding="utf-8")

    indexed = bw.Registry.from_folders(made).chassis("chassis/one")

    whole = bw.Registry.from_folders(made, cache=False).chassis("chassis/one")
    assert (indexed, indexed.right_side) == (whole, whole.right_side)
    assert indexed.right_side is not None
    assert indexed.right_side.id == "tiny:chassis/one"


def test_figures_by_side_can_be_taken_and_one_of_them_changed(tmp_path: Path) -> None:
    like = """
[[chassis]]
id = "late"
title = "Late"
source = "bench"
at = "p 9"
like = "chassis/one"
wheelbase = { right = "2374 mm ± 1 mm" }
"""
    made = pack(tmp_path, (WHEELBASE, BOTH), (HEIGHT, HEIGHTS))
    (made / "more.toml").write_text(like, encoding="utf-8")
    late = bw.Registry.from_folders(made, cache=False).chassis("chassis/late")

    assert late.right_side
    assert [late.wheelbase.magnitude, late.right_side.wheelbase.magnitude] == [2402.0, 2374.0]
    assert [one.about["wheelbase"].key for one in (late, late.right_side)] == [
        "one.wheelbase",
        "late.wheelbase",
    ]
    assert late.right_side.axles[0].standard_height.magnitude == 409.0
    assert late.right_side.axles[0].about["standard_height"].key == "one.standard_height"


# -- What is refused -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "problems"),
    [
        (WHEELBASE, 'wheelbase = { left = "2402", right = "2372" }', ["Q105", "Q105"]),
        (WHEELBASE, 'wheelbase = { left = "2402 mm", right = "2372" }', ["Q105"]),
        (WHEELBASE, "wheelbase = {}", ["S202"]),
        (f"{WHEELBASE}\n\n[[chassis.axles]]", f"{BOTH}\n\n[chassis.axles]", ["S203"]),
        (WHEELBASE, 'wheelbase = { left = "1 m", middle = "1 m" }', ["S201"]),
        (WHEELBASE, f'{WHEELBASE}\nmodel = {{ left = "A", right = "B" }}', ["S201"]),
        ('place = "front"', 'place = { left = "front", right = "rear" }', ["S204"]),
        ("hub_up = ", 'hub_u = { left = "1 mm", right = "1 mm" }\nhub_up = ', ["S201"]),
    ],
)
def test_what_is_wrong_on_a_side_is_told_once(
    tmp_path: Path, old: str, new: str, problems: list[str]
) -> None:
    registry = bw.Registry.from_folders(pack(tmp_path, (old, new)), cache=False)

    (error,) = registry.problems
    assert [problem.code for problem in error.problems] == problems


def test_stops_are_looked_at_on_each_side(tmp_path: Path) -> None:
    stops = 'droop_stop = { left = "-24 deg", right = "24 deg" }'
    made = pack(tmp_path, ('droop_stop = "-24 deg"', stops))

    (error,) = bw.Registry.from_folders(made, cache=False).problems

    assert [(one.code, one.key) for one in error.problems] == [
        ("G106", "chassis[0].axles[0].droop_stop")
    ]


# -- Lint ----------------------------------------------------------------------------


def told(made: Path) -> list[tuple[str, str, str]]:
    return [(one.rule, one.of, one.message) for one in bw.lint_pack(made).findings]


def test_a_finding_of_the_right_side_says_so_and_one_of_both_is_told_once(tmp_path: Path) -> None:
    made = pack(
        tmp_path,
        (WHEELBASE, 'wheelbase = { left = "2402 mm", right = "237 mm" }'),
        ('tyre_radius = "283 mm"', 'tyre_radius = "83 mm"'),
        ('unsprung_mass = "34.5 kg"', 'unsprung_mass = { left = "34.5 kg" }'),
        ('hub_up = "48 mm"', 'hub_up = "unknown"'),
    )

    asked = {"unknown-figures", "plausible"}
    found = [(rule, of) for rule, of, _ in told(made) if rule in asked]

    assert found == [
        ("unknown-figures", "chassis/one"),
        ("plausible", "chassis/one.wheelbase.right"),
        ("plausible", "chassis/one.axles[0].tyre_radius"),
    ]
    (message,) = (message for rule, _, message in told(made) if rule == "unknown-figures")
    assert message == "unknown: axles[0].hub_up, axles[0].unsprung_mass.right"


def test_sides_that_differ_on_purpose_need_not_mirror_each_other(tmp_path: Path) -> None:
    both = 'hub_up = { left = "48 mm", right = "53 mm" }'

    assert "mirror" not in {rule for rule, _, _ in told(pack(tmp_path, ('hub_up = "48 mm"', both)))}


def test_vehicles_that_differ_on_the_right_alone_are_no_copies(tmp_path: Path) -> None:
    one = opened(tmp_path, (WHEELBASE, BOTH)).chassis("chassis/one")
    assert one.right_side
    other = attrs.evolve(one, right_side=attrs.evolve(one.right_side, wheelbase="2373 mm"))

    assert content(one) == content(attrs.evolve(one, id="tiny:chassis/two"))
    assert content(one) != content(other) != content(attrs.evolve(one, right_side=None))


# -- Corrections ---------------------------------------------------------------------


def corrected(folder: Path, made: Path, *corrections: str) -> bw.Registry:
    return bw.Registry.from_folders(made, overlays=[overlay(folder, *corrections)], cache=False)


HUB = "axles.front.hub_up"


def test_a_correction_can_be_of_one_side(tmp_path: Path) -> None:
    made = pack(tmp_path)
    registry = corrected(
        tmp_path, made, correction(f"{HUB}.right", "47 mm ± 1 mm", of="tiny:chassis/one")
    )

    left, right = corners(registry)
    assert [s.axle.hub_up.magnitude for s in (left, right)] == [48.0, 47.0]
    assert right.axle.about["hub_up"].why == "Measured on the van."


def test_a_correction_of_both_sides_reaches_both(tmp_path: Path) -> None:
    made = pack(tmp_path, (WHEELBASE, BOTH))
    registry = corrected(
        tmp_path,
        made,
        correction(HUB, "47 mm ± 1 mm", of="tiny:chassis/one"),
        correction("wheelbase.left", "2401 mm ± 1 mm", of="tiny:chassis/one"),
        correction("wheelbase.right", "2371 mm ± 1 mm", of="tiny:chassis/one"),
    )

    left, right = corners(registry)
    assert [s.axle.hub_up.magnitude for s in (left, right)] == [47.0, 47.0]
    assert [s.chassis.wheelbase.magnitude for s in (left, right)] == [2401.0, 2371.0]


@pytest.mark.parametrize(
    ("figure", "of", "code"),
    [
        ("wheelbase", "tiny:chassis/one", "S207"),
        ("axles.front.place.right", "tiny:chassis/one", "S206"),
        ("diameter.right", "tiny:bar/one", "S206"),
        ("wheelbase.middle", "tiny:chassis/one", "S206"),
        ("left", "tiny:chassis/one", "S206"),
    ],
)
def test_a_correction_says_which_side_it_is_of(
    tmp_path: Path, figure: str, of: str, code: str
) -> None:
    registry = corrected(
        tmp_path, pack(tmp_path, (WHEELBASE, BOTH)), correction(figure, "24 mm", of=of)
    )

    (error,) = registry.problems
    assert [(one.code, one.key) for one in error.problems] == [(code, "correction[0].figure")]


def test_a_correction_of_one_side_reaches_those_that_are_like_the_vehicle(tmp_path: Path) -> None:
    like = (
        '[[chassis]]\nid = "late"\ntitle = "L"\nsource = "bench"\nat = "1"\nlike = "chassis/one"\n'
    )
    registry = corrected(
        tmp_path,
        added(tmp_path, like),
        correction(f"{HUB}.right", "47 mm ± 1 mm", of="tiny:chassis/one"),
    )

    setup = registry.setup("tiny:chassis/late", corner="front right")
    assert setup.axle.hub_up.magnitude == 47.0
    assert registry.setup("tiny:chassis/late", corner="front left").axle.hub_up.magnitude == 48.0


# -- The schema ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "is_valid"),
    rarely_after(
        3,
        [
            ({"wheelbase": {"left": "2402 mm", "right": "2372 mm"}}, True),
            (
                {"wheelbase": {"left": "2402 mm", "right": {"is": "2372 mm", "source": "desk"}}},
                True,
            ),
            ({"wheelbase": {"right": "2372"}}, False),
            ({"wheelbase": {}}, False),
            ({"model": {"left": "A", "right": "B"}}, False),
        ],
    ),
)
def test_the_schema_takes_what_may_differ(change: dict[str, Any], *, is_valid: bool) -> None:
    whole = pack_schema()
    text = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    table["chassis"][0] |= change

    schema = {"$defs": whole["$defs"], "$ref": "#/$defs/records"}
    assert jsonschema.Draft202012Validator(schema).is_valid(table) is is_valid


def test_what_may_differ_is_of_a_corner() -> None:
    parts = bw.parts
    assert may_differ(parts.Chassis, "wheelbase")
    assert not may_differ(parts.Chassis, "model")
    assert may_differ(parts.Axle, "tyre_rate")
    assert not may_differ(parts.Axle, "left")
    assert not may_differ(parts.Bar, "diameter")


# -- Two vehicles --------------------------------------------------------------------

FIGURES = {"hub_up": 48, "tyre_rate": 185, "standard_height": 404, "tube_position": 96}
UNITS = {"tyre_rate": "N/mm"}


@pytest.mark.rare
@settings(max_examples=draws(8), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    sides=st.dictionaries(
        st.sampled_from(sorted(FIGURES)),
        st.tuples(st.floats(0.99, 1.01), st.floats(0.99, 1.01)),
        min_size=1,
    )
)
def test_each_corner_answers_as_that_of_a_vehicle_of_its_own(
    tmp_path: Path, sides: dict[str, tuple[float, float]]
) -> None:
    tables = tomllib.loads((GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8"))
    both, *single = (copy.deepcopy(tables) for _ in range(3))
    for name, shares in sides.items():
        unit = UNITS.get(name, "mm")
        texts = [f"{round(FIGURES[name] * share, 3)} {unit}" for share in shares]
        both["chassis"][0]["axles"][0][name] = dict(zip(("left", "right"), texts, strict=True))
        for table, text in zip(single, texts, strict=True):
            table["chassis"][0]["axles"][0][name] = text

    def answers(table: dict[str, Any], side: str) -> list[Any]:
        made = tmp_path / "made"
        made.mkdir(exist_ok=True)
        for file in GOOD_PACK.iterdir():
            (made / file.name).write_bytes(file.read_bytes())
        (made / "vehicles.toml").write_text(tomli_w.dumps(table), encoding="utf-8")
        registry = bw.Registry.from_folders(made, cache=False)
        setup = registry.setup("tiny:chassis/one", corner=f"front {side}")
        spread = bw.tolerance(bw.rates, setup)
        found = (bw.length_fit(setup), bw.rates(setup), bw.reindex(setup), spread)
        return [plain(answer) for answer in found]

    for side, table in zip(("left", "right"), single, strict=True):
        assert answers(both, side) == answers(table, side)

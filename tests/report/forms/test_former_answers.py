"""Tests of `barwright.report.forms.former_answers`: answers that an earlier version wrote."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.report.forms.former_answers import up_to_date
from flawed_packs import POOR_PACK
from sample_records import make_setup

SPECIMENS = Path(__file__).parents[2] / "specimens" / "answers"

# Written by the version that wrote schema 2.
WRITTEN = SPECIMENS / "schema-2"

JOB = Path(__file__).parents[3] / "docs" / "examples" / "loaded-trailer.toml"

FORMER: dict[str, Callable[[], object]] = {
    "Checked": lambda: bw.check_job(JOB, bw.Registry.discover()),
    "Linted": lambda: bw.lint_pack(POOR_PACK),
    "Tolerances": lambda: bw.tolerance(bw.ride, make_setup(), draws=100),
    "LengthFit": lambda: bw.length_fit(make_setup()),
}


def written(name: str) -> Any:
    return bw.from_json((WRITTEN / f"{name}.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", FORMER)
def test_what_schema_2_calls_otherwise_is_read(name: str) -> None:
    answer = FORMER[name]()
    document = json.loads(bw.to_json(answer)) | {"answer": name, "schema": 2}

    assert bw.from_json(json.dumps(document)) == answer


@pytest.mark.parametrize("name", ["Checked", "Linted", "Tolerances"])
def test_schema_3_does_not_know_the_former_names(name: str) -> None:
    document = json.loads(bw.to_json(FORMER[name]())) | {"answer": name}

    with pytest.raises(bw.SchemaError):
        bw.from_json(json.dumps(document))


def test_the_fixed_socket_of_a_former_chassis_is_its_anchor() -> None:
    anchor = written("chassis").axles[0].left.anchor

    assert isinstance(anchor, bw.parts.FixedSocket)
    assert anchor.id == "trundlet:fixed-socket/beam"


def test_a_former_donor_s_tube_is_its_anchor() -> None:
    answer = written("donors")
    (best, *_) = answer.combinations

    assert (best.anchor_id, best.anchor_title) == ("fells:tube/short", "Torque tube, short van")
    assert best.swapped == ("anchor",)
    assert [change.topic.value for change in best.fit.changes] == [
        "swapped anchor",
        "new cap holes",
    ]


def test_figures_of_a_former_tube_are_the_anchor_s() -> None:
    named = {given.figure for given in written("tolerance").inputs}

    assert {"anchor.bore", "anchor.socket.key_angle", "bar.diameter"} <= named
    assert not [name for name in named if name.startswith("tube.")]


def test_a_former_plan_has_its_ways_in_and_its_blanks() -> None:
    (corner, *_) = written("check").corners
    on, off = corner.plan.fitting

    assert (on.damper_fitted, off.damper_fitted) == (True, False)
    assert on.unloading_reserve.units == bw.Quantity(1, "degree").units
    assert {work.blank_count for work in corner.plan.ends} <= {1, 2}


def test_a_former_sheet_is_refused_and_written_anew_from_its_job() -> None:
    with pytest.raises(bw.SchemaError) as caught:
        written("sheet")

    assert caught.value.code == "S208"
    assert "a BenchSheet of schema 2" in caught.value.value
    assert caught.value.remedy == "write the sheet again from its job"
    assert (
        json.loads(bw.to_json(bw.bench_sheet(bw.load_job(JOB, bw.Registry.discover()))))["schema"]
        == 4
    )


def test_a_former_plan_s_thread_and_rounding_are_read() -> None:
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="395 mm"))
    former = {
        '"enough_thread_reserve"': '"enough_reserve"',
        '"thread_reserve"': '"reserve"',
        '"height_rounding"': '"height_tolerance"',
    }
    text = bw.to_json(answer)
    for new, old in former.items():
        assert new in text
        text = text.replace(new, old)

    assert len(answer.plans) > 1
    assert bw.from_json(json.dumps(json.loads(text) | {"schema": 2})) == answer


def test_a_former_check_names_the_id_of_its_vehicle() -> None:
    (corner, *_) = written("check").corners

    assert corner.vehicle_id == "trundlet:chassis/open"


@pytest.mark.parametrize("name", ["chassis", "check", "donors", "tolerance"])
def test_what_was_read_is_written_as_schema_4(name: str) -> None:
    answer = written(name)
    text = bw.to_json(answer)

    assert json.loads(text)["schema"] == 4
    assert bw.from_json(text) == answer


@pytest.mark.parametrize(
    ("field", "word", "now"),
    [
        ("verdict", "holds", "strong enough"),
        ("action", "put a blank that the bar has on the key", "put an existing blank on the key"),
        ("text", "holds", "holds"),
        ("figure", "tube.bore", "anchor.bore"),
        ("figure", "bar.length", "bar.length"),
        ("text", "tube.bore", "tube.bore"),
        ("swapped", ["bar", "tube"], ["bar", "anchor"]),
        ("swapped", "tube", "tube"),
        ("words", ["bar", "tube"], ["bar", "tube"]),
    ],
)
def test_former_words_are_read_where_they_are_words_of_an_answer(
    field: str, word: object, now: object
) -> None:
    assert up_to_date({"answer": "Strength", field: word})[field] == now


@pytest.mark.parametrize(("repeats", "lasts"), [(3e7, True), (None, True), (0.5, False)])
@pytest.mark.parametrize("has_line", [True, False])
def test_a_life_that_was_one_number_is_read_without_a_band(
    repeats: float | None,
    lasts: bool,  # noqa: FBT001 - a parameter of the test
    has_line: bool,  # noqa: FBT001 - a parameter of the test
) -> None:
    line = bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5) if has_line else None
    limits = bw.StrengthLimits(woehler_line=line)
    answer = bw.strength(make_setup(), limits=limits, history=["0 mm", "40 mm", "-20 mm"])
    assert answer.figures is not None
    document = json.loads(bw.to_json(answer)) | {"schema": 2}
    life = document["figures"]["life"]
    band = life.pop("woehler_band")
    for name in ("history_source", "covers", "band", "lasts_one_run"):
        del life[name]
    life |= {"woehler_line": band and band["lowest"], "damage": None, "repeats": repeats}

    read = bw.from_json(json.dumps(document))

    assert read == attrs.evolve(
        answer,
        figures=attrs.evolve(answer.figures, life=attrs.evolve(answer.life, lasts_one_run=lasts)),
    )


def test_a_former_setup_has_its_records_where_they_belong() -> None:
    written = (SPECIMENS / "schema-3" / "setup.json").read_text(encoding="utf-8")
    setup = bw.load_job(JOB, bw.Registry.discover()).corners[0].setup

    assert "records" not in json.loads(written)
    assert bw.from_json(written) == setup
    again, anew = (json.loads(bw.to_json(one)) for one in (bw.from_json(written), setup))
    assert again["records"] == anew["records"]

"""Tests of `barwright.analysis.trail_facts`: where counts, words and lists come from."""

from __future__ import annotations

from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.analysis.trail_facts import trail_facts, value_in_words
from barwright.registry.overlays.preference import Preference
from sample_packs import GOOD_PACK, SPECIMENS, changed_pack, discovered_once
from sample_records import make_setup

OWN = '{ is = "tyre contact", source = "bench", at = "sheet 7" }'


def facts(registry: bw.Registry) -> dict[str, bw.answers.TrailFact]:
    """Facts of a corner of the good pack by their names."""
    setup = registry.setup("tiny:chassis/one", corner="front left")
    return {fact.fact: fact for fact in trail_facts(setup, registry.source)}


def test_a_fact_stands_with_its_record_source_and_place() -> None:
    found = facts(bw.Registry.from_folders(GOOD_PACK))

    teeth = found["bar.arm_end.teeth"]
    assert (teeth.value, teeth.source, teeth.at) == ("39", "tiny:desk", "page 3")
    assert (teeth.file, teeth.key) == ("parts.toml", "bar/one: arm_end.teeth")
    assert teeth.note
    entry = found["axle.entry"]
    assert (entry.value, entry.key) == ("anchor end", "chassis/one: axles.front.entry")
    assert found["axle.bar_axis"].value == "[1.0, 0.0, 0.0]"


def test_a_fact_with_a_source_of_its_own_takes_no_place_of_its_record(tmp_path: Path) -> None:
    text = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    (line,) = [line for line in text.splitlines() if line.startswith("load_at")]
    for own, place in ((OWN, "sheet 7"), (OWN.replace(', at = "sheet 7"', ""), "")):
        folder = tmp_path / str(len(own))
        folder.mkdir()
        pack = changed_pack(folder, "vehicles.toml", line, f"load_at = {own}")
        found = facts(bw.Registry.from_folders(pack))
        assert (found["axle.load_at"].source, found["axle.load_at"].at) == ("tiny:bench", place)
        assert found["axle.entry"].source == "tiny:desk"


def test_each_fact_stands_once_although_the_vehicle_holds_its_parts_too() -> None:
    registry = discovered_once()
    setup = registry.setup("fells:chassis/short", corner="front left")

    found = [(one.file, one.key) for one in trail_facts(setup, None)]

    assert len(found) == len(set(found)) > 10
    assert {one.note for one in trail_facts(setup, None)} == {""}
    assert all(key.startswith(("arm/", "bar/", "tube/", "adj", "cha")) for _, key in found)


def test_a_setup_of_a_program_states_no_source() -> None:
    assert trail_facts(make_setup(), None) == ()


def test_a_source_that_was_searched_in_vain_is_listed(tmp_path: Path) -> None:
    own = 'teeth = { is = "unknown", source = "bench", at = "worn" }, form'
    pack = changed_pack(tmp_path, "parts.toml", "teeth = 39, form", own)

    found = facts(bw.Registry.from_folders(pack))["arm.socket.teeth"]

    assert (found.value, found.source, found.at) == ("unknown", "tiny:bench", "worn")


def test_facts_survive_json(tmp_path: Path) -> None:
    own = 'teeth = { is = "unknown", source = "bench", at = "worn" }, form'
    pack = changed_pack(tmp_path, "parts.toml", "teeth = 39, form", own)
    setup = bw.Registry.from_folders(pack).setup("tiny:chassis/one", corner="front left")

    answer = bw.trail(setup)

    assert bw.from_json(bw.to_json(answer)) == answer
    again = bw.from_json(bw.to_json(setup.arm))
    assert dict(again.socket.about) == dict(setup.arm.socket.about)


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (39, "39"),
        (True, "true"),
        ("anchor end", "anchor end"),
        (("a", "b"), "[a, b]"),
        ((), "[]"),
        (bw.Quantity(2.5, "mm"), "2.5 mm"),
    ],
)
def test_a_value_is_told_as_a_file_has_it(value: object, words: str) -> None:
    assert value_in_words(value) == words


def test_preferences_of_the_packs_of_facts_are_told_too() -> None:
    registry = discovered_once()
    setup = registry.setup("fells:chassis/short", corner="front left")
    fact = attrs.evolve(setup.bar.arm_end.about["teeth"], source="gnu:book", why="Counted.")
    end = setup.bar.arm_end.described({"teeth": fact})
    corrected = setup.with_parts(bar=attrs.evolve(setup.bar, arm_end=end))
    preference = Preference(id="gnu", origin="barwright-pack-gnu", by="shop")

    assert bw.trail(corrected, figure="bar_rate", preferences=[preference]).preferences == (
        preference,
    )


def test_a_job_that_describes_a_part_states_it_itself(tmp_path: Path) -> None:
    job = (SPECIMENS / "jobs" / "measured-alone.toml").read_text(encoding="utf-8")
    own = 'keyed = { is = true, source = "recalled", at = "by its owner" }'
    path = tmp_path / "job.toml"
    path.write_text(job.replace("keyed = true", own), encoding="utf-8")

    answer = bw.trail(bw.load_job(path, discovered_once()).corners[0].setup)

    (keyed,) = (fact for fact in answer.facts if fact.fact == "arm.socket.keyed")
    assert (keyed.source, keyed.at, keyed.key) == (
        *("job:recalled", "by its owner"),
        "arm/this: socket.keyed",
    )
    assert {fact.taken_by for fact in answer.facts} == {""}
    assert {line.taken_by for line in answer.lines} == {""}
    assert "unknown" not in {fact.value for fact in answer.facts}

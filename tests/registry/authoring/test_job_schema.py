"""Tests of `job_schema`: it refuses no job that is good, and each slip that it can see."""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import pytest
from jsonschema import Draft202012Validator

import barwright as bw
from barwright.parts.common.record import NOT_IN_FILES
from barwright.registry.authoring.job_schema import OF_ONE_SIDE, job_schema_text
from barwright.registry.jobs.keys import READ_INTO, JobKeys
from barwright.registry.packs.format.keys import key_of
from doc_pages import fenced, read
from each_case import each_case
from sample_packs import SPECIMENS, discovered_once

ROOT = Path(__file__).parents[3]
SCHEMA = bw.job_schema()
HELD = Draft202012Validator(SCHEMA)

Table = dict[str, Any]

JOBS = [
    *sorted((ROOT / "docs/examples").rglob("*.toml")),
    *sorted(SPECIMENS.glob("jobs/*.toml")),
    *(file for file in sorted(SPECIMENS.glob("twenty/*.toml")) if "-bad-" not in file.name),
]
BAD = [*sorted(SPECIMENS.glob("jobs/bad/*.toml")), *sorted(SPECIMENS.glob("twenty/*-bad-*.toml"))]

PAGES = ("job-file.md", "corner-weights.md", "write-a-pack.md")

# What only the loader can see: figures, words and names that do not go together, or are missing.
SEEN_BY_THE_LOADER = re.compile(r"J105|L10\d|Q30\d|S202|S207")


def tables_of(file: Path) -> Table:
    return tomllib.loads(file.read_text(encoding="utf-8"))


def refused(table: Table) -> list[str]:
    return [f"{error.json_path}: {error.message}"[:200] for error in HELD.iter_errors(table)]


def test_it_is_a_schema_whose_tables_are_closed_and_whose_keys_are_explained() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    tables = [SCHEMA, *SCHEMA["$defs"].values()]
    closed = [one for table in tables for one in table.get("anyOf", [table]) if "properties" in one]

    assert len(closed) > 2 * len(READ_INTO)
    for table in closed:
        if "is" not in table["properties"]:
            assert table["additionalProperties"] is False
            for key, said in table["properties"].items():
                assert said.get("description"), key


def test_what_is_published_is_what_the_classes_say() -> None:
    published = (ROOT / "docs" / "job.schema.json").read_text(encoding="utf-8")

    assert published == job_schema_text(), (
        "run: barwright schema --job --output docs/job.schema.json"
    )


@each_case("file", JOBS, called=lambda file: file.stem)
def test_every_good_job_is_held(file: Path) -> None:
    assert refused(tables_of(file)) == []


@each_case("page", PAGES)
def test_every_job_of_a_page_is_held(page: str) -> None:
    texts = [text for language, text in fenced(read(page)) if language == "toml"]
    jobs = [tomllib.loads(text) for text in texts if "corners =" in text]

    assert jobs
    assert [found for job in jobs if (found := refused(job))] == []


def problems(file: Path) -> list[str]:
    """Codes of what the loader finds wrong; none in a file that is no table of keys."""
    with pytest.raises(bw.BarwrightError) as caught:
        bw.load_jobs(file, discovered_once())
    return [problem.code for problem in getattr(caught.value, "problems", ())]


@each_case("file", BAD, called=lambda file: file.stem)
def test_every_slip_of_a_key_a_type_or_a_text_is_refused(file: Path) -> None:
    codes = problems(file)
    seen = [code for code in codes if not SEEN_BY_THE_LOADER.fullmatch(code)]

    assert not seen or refused(tables_of(file)), codes


WHOLE: Table = {
    "vehicle": "fells:chassis/short",
    "corners": ["front left"],
    "wanted": {"height": "360 mm"},
    "parts": {"bar": ["fells:bar/short-firm", "fells:bar/short-soft"]},
    "present": {"arm_tooth": 1, "nut_turns": "unknown", "left": {"damper": "damper/short"}},
    "load": {"scale_reading": "326 kg ± 1 kg"},
    "measured": {"left": [{"height": "391 mm"}, {"height": "380 mm", "sprung_mass": "350 kg"}]},
    "damper": {"damping_rate": {"is": "1.9 N*s/mm ± 0.2 N*s/mm", "source": "estimated"}},
    "anchor": {"kind": "tube", "socket": {"keyed": True}},
    "axle": {"anchor_lies": "behind", "suspension": {"kind": "strut"}, "right": {"drive": "all"}},
    "bar": {"material": "unknown", "arm_end": {"teeth": 39, "blanks": [0]}},
    "balance": {"total": "1145 kg", "front": {"left": {"scale_reading": "306 kg"}}},
    "order": {"customer": "Kirkstone Mill"},
}

SLIPS: dict[str, object] = {
    "": {"vehicel": "fells:chassis/short"},
    "vehicle": 5,
    "corners": ["front left", "front left"],
    "corners.0": "left front",
    "wanted.height": 360,
    "wanted.cuts": 3,
    "wanted.keep_standard": "yes",
    "wanted.lower_by": "12",
    "parts.bar": "fells:arm/standard",
    "parts.left": {"bar": ["fells:bar/short-firm"]},
    "present.arm_tooth": 1.5,
    "present.lever": "fells:tube/short",
    "load.scale_reading": "unknown",
    "load.left": {"scale_reading": "326 mm"},
    "measured": [],
    "measured.left.0.hight": "391 mm",
    "damper.damping_rate.source": "guessed",
    "damper.id": "fells:damper/short",
    "damper.gas": "none",
    "anchor.kind": "lever",
    "anchor.lever_offset": "4 mm",
    "tube": {},
    "axle.place": "front",
    "axle.anchor_lies": "back",
    "axle.suspension.kind": "leaf",
    "axle.right.right": {},
    "bar.like": "short-firm",
    "bar.arm_end.teeth": "39",
    "bar.material": "steel",
    "balance.front.left.hight": "380 mm",
    "balance.left": {},
    "order.customer": "",
    "order.left": {},
    "assume": "all",
}


def with_slip(path: str, value: Any) -> Table:
    """The whole job with another value at a place, or with other keys at the top."""
    table: Any = copy.deepcopy(WHOLE)
    if not path:
        return {**table, **value}
    *above, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    at = table
    for step in above:
        at = at[step] if isinstance(step, int) else at.setdefault(step, {})
    at[last] = value
    found: Table = table
    return found


@each_case("path", SLIPS)
def test_a_planted_slip_is_refused(path: str) -> None:
    assert refused(WHOLE) == []
    assert refused(with_slip(path, SLIPS[path])), path


def keys_of(table: str) -> Iterator[set[str]]:
    """Keys of each kind of a table in the schema."""
    found = SCHEMA["$defs"][table]
    for one in found.get("anyOf", [found]):
        yield set(one["properties"])


def test_the_tables_have_the_keys_of_their_classes_and_both_sides() -> None:
    assert READ_INTO.keys() < attrs.fields_dict(JobKeys).keys()
    for table, classes in READ_INTO.items():
        for keys, cls in zip(keys_of(key_of(table)), classes, strict=True):
            fields = {key_of(one.name) for one in attrs.fields(cls)} - NOT_IN_FILES
            assert fields - {"id", "place", "left", "right", "replaces"} <= keys, table
            assert {"left", "right"} <= keys or table in {"balance", "order"}
        if f"{key_of(table)}{OF_ONE_SIDE}" in SCHEMA["$defs"]:
            for keys in keys_of(f"{key_of(table)}{OF_ONE_SIDE}"):
                assert not {"left", "right"} & keys


def test_what_a_job_leaves_out_of_a_part_is_unknown_and_has_no_default() -> None:
    assert "default" not in SCHEMA["$defs"]["adjuster"]["properties"]["spacer"]
    assert SCHEMA["$defs"]["present"]["properties"]["nut_turns"]["default"] == "0 turn"

"""Tests of jobs that come as text or tables instead of a file, and of whose they are."""

from __future__ import annotations

import contextlib
import io
import json
import tomllib
from collections.abc import Mapping
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.cli.command import run
from each_case import each_case
from sample_packs import SPECIMENS, discovered_once

JOBS = SPECIMENS / "jobs"
GOOD = sorted(path for path in JOBS.glob("*.toml"))
BAD = sorted((JOBS / "bad").glob("*.toml"))
LEAST = (JOBS / "least.toml").read_text(encoding="utf-8")

ORDER = """
[order]
customer = "Kirkstone Mill"
registration = "FLV 214"
date = "2031-04-02"
odometer = "182,400 km"
notes = "Clunk at the front left."
"""


def problems(call: Any) -> list[tuple[str, str, int]]:
    """Code, key and line of all that is wrong."""
    with pytest.raises(bw.BarwrightError) as caught:
        call()
    found = getattr(caught.value, "problems", (caught.value,))
    return [(one.code, one.key, one.line) for one in found]


@pytest.mark.parametrize("path", GOOD, ids=[path.stem for path in GOOD])
def test_a_text_and_its_tables_are_the_jobs_of_the_file(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    jobs = bw.load_jobs(path, discovered_once())

    assert bw.jobs_of(text, discovered_once()) == jobs
    assert bw.jobs_of(tomllib.loads(text), discovered_once()) == jobs


@each_case("path", BAD)
def test_a_bad_text_is_refused_as_its_file_is_and_at_the_same_lines(path: Path) -> None:
    text = path.read_bytes().decode("utf-8", "surrogateescape")

    found = problems(lambda: bw.job_of(text, discovered_once()))

    assert [one[:2] for one in found] == [
        one[:2] for one in problems(lambda: bw.load_job(path, discovered_once()))
    ]
    assert sorted(found) == sorted(problems(lambda: bw.load_job(path, discovered_once())))


def test_a_table_of_json_is_a_job() -> None:
    request = json.loads(json.dumps(tomllib.loads(LEAST)))

    assert bw.job_of(request, discovered_once()) == bw.job_of(LEAST, discovered_once())


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"title": None}, "title"),
        ({"title": b"x"}, "title"),
        ({"wanted": {"height": bw.Quantity(1.0, "m")}}, "wanted.height"),
        ({"corners": {"front left"}}, "corners"),
        ({"parts": {3: "x"}}, "parts"),
        ({"title": object()}, "title"),
    ],
)
def test_a_table_with_what_no_file_holds_is_refused(changed: dict[Any, Any], key: str) -> None:
    table = tomllib.loads(LEAST) | changed

    (found,) = problems(lambda: bw.job_of(table, discovered_once()))

    assert found[:2] == ("S203", key)


def nested(depth: int) -> dict[str, Any]:
    """A table in a table in a table."""
    return {"a": nested(depth - 1)} if depth else {}


@pytest.mark.parametrize("depth", [9, 10, 100, 900])
def test_a_table_that_nests_too_deep_is_refused(depth: int) -> None:
    (found,) = problems(lambda: bw.job_of({"parts": nested(depth)}, discovered_once()))
    assert found[0] in {"F104", "S203"}


def test_a_text_that_is_too_long_is_refused() -> None:
    (found,) = problems(lambda: bw.job_of("#" * 1_048_577, discovered_once()))
    assert found[0] == "F104"


def test_half_a_letter_is_no_text() -> None:
    (found,) = problems(lambda: bw.job_of('title = "\udc80"', discovered_once()))
    assert found[0] == "F102"


_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=9),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner),
    max_leaves=9,
)


@given(
    st.dictionaries(
        st.sampled_from(["vehicle", "corners", "wanted", "load", "order", "x"]), _VALUES
    )
)
def test_any_table_is_a_job_or_refused(table: Mapping[str, Any]) -> None:
    # An error of the tree is an answer; any other fails the test.
    with contextlib.suppress(bw.BarwrightError):
        bw.jobs_of(table, discovered_once())


def test_whose_the_vehicle_is_comes_with_the_job_and_stands_on_the_sheet() -> None:
    job = bw.job_of(LEAST + ORDER, discovered_once())

    assert job.order == bw.WorkOrder(
        customer="Kirkstone Mill",
        registration="FLV 214",
        date="2031-04-02",
        odometer="182,400 km",
        notes="Clunk at the front left.",
    )
    sheet = bw.bench_sheet(job)
    text, page, marked = bw.text(sheet), bw.sheet_html(sheet), bw.sheet_markdown(sheet)
    assert "Kirkstone Mill · FLV 214 · 2031-04-02 · 182,400 km\n" in text
    for form in (text, page, marked):
        for said in ("Kirkstone Mill", "FLV 214", "2031-04-02", "182,400 km"):
            assert said in form
        assert "Noted: Clunk at the front left." in form
    assert bw.from_json(bw.to_json(sheet)).order == bw.from_json(bw.to_json(job)).order == job.order


def test_an_order_changes_no_answer() -> None:
    with_order, without = (bw.job_of(text, discovered_once()) for text in (LEAST + ORDER, LEAST))

    assert with_order.corners == without.corners
    assert bw.text(bw.bench_sheet(without)) == bw.text(bw.bench_sheet(with_order)).replace(
        "Kirkstone Mill · FLV 214 · 2031-04-02 · 182,400 km\n", ""
    ).replace("   * Noted: Clunk at the front left.\n", "")


def test_what_an_order_says_in_part_is_shown_in_part() -> None:
    assert bw.WorkOrder(date="today").whose == ("today",)
    assert bw.WorkOrder(notes="x").whose == ()
    assert bw.WorkOrder().noted == ()


@pytest.mark.parametrize("line", ["odometer = 182400", "date = 2031-04-02", "phone = '1'"])
def test_a_slip_in_an_order_is_named(line: str) -> None:
    found = problems(lambda: bw.job_of(f"{LEAST}\n[order]\n{line}", discovered_once()))

    assert [one[1] for one in found] == [f"order.{line.partition(' ')[0]}"]


def sent(data: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", SimpleNamespace(buffer=io.BytesIO(data)))


@pytest.mark.parametrize("command", ["fit", "sheet"])
def test_a_command_takes_the_job_from_standard_input(
    command: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run([command, str(JOBS / "least.toml")]) == 0
    from_file = capsys.readouterr().out
    sent(LEAST.encode(), monkeypatch)

    assert run([command, "-"]) == 0
    assert capsys.readouterr().out == from_file


@pytest.mark.parametrize("data", [b"vehicle = 3", b"\xff", b"#" * 1_048_577])
def test_a_bad_job_from_standard_input_is_told_like_a_file(
    data: bytes, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    sent(data, monkeypatch)

    assert run(["fit", "-"]) == 2
    assert ": standard input" in capsys.readouterr().err


def test_what_is_missing_of_an_empty_job_is_shown_as_it_is_written() -> None:
    with pytest.raises(bw.DocumentError) as caught:
        bw.job_of("", discovered_once())

    remedies = {one.key: one.remedy for one in caught.value.problems}
    assert list(remedies) == ["corners", "wanted", "vehicle"]
    corners = remedies["corners"].partition("like ")[2]
    wish = remedies["wanted"].partition("below it ")[2].partition(",")[0]
    vehicle = remedies["vehicle"].partition("like ")[2].partition(";")[0]
    vehicle = vehicle.replace("pack:chassis/name", "fells:chassis/short")
    job = f"{vehicle}\n{corners}\n[wanted]\n{wish}"
    assert len(bw.job_of(job, discovered_once()).corners) == 2

"""The endpoint of the examples: the answers of the library, and whatever is sent is answered."""

from __future__ import annotations

import asyncio
import json
import os
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import httpx
import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from openapi_spec_validator import validate
from schemathesis.core.result import Ok
from schemathesis.specs.openapi.checks import positive_data_acceptance

import barwright as bw
from barwright.cli.command import run
from draws import draws
from examples.endpoint import endpoint
from sample_packs import discovered_once

JOB = Path(__file__).parents[2] / "docs/examples/shorter-dampers.toml"
PLUGINS = Path(__file__).parents[2] / "plugins"
READ = endpoint.registry
TABLES = tomllib.loads(JOB.read_text("utf-8"))


@pytest.fixture(autouse=True)
def _own_database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SHOP_DATABASE", str(tmp_path / "shop.sqlite"))
    monkeypatch.setattr(endpoint, "registry", discovered_once)


async def _asked(requests: Sequence[tuple[str, str, dict[str, Any]]]) -> list[httpx.Response]:
    # An error of the program is to fail the test, and not to become an answer.
    transport = httpx.ASGITransport(app=endpoint.app)
    async with httpx.AsyncClient(transport=transport, base_url="http://shop") as client:
        return list(
            await asyncio.gather(
                *(client.request(method, path, **rest) for method, path, rest in requests)
            )
        )


def asked(method: str, path: str, **rest: Any) -> httpx.Response:
    """What the endpoint answers."""
    (response,) = asyncio.run(_asked([(method, path, rest)]))
    return response


def test_a_job_is_kept_and_planned_as_the_command_plans_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    sent = asked("POST", "/jobs", json=TABLES)
    number = sent.json()["job"]
    again = asked("GET", f"/jobs/{number}")

    assert (sent.status_code, again.status_code) == (201, 200)
    assert sent.json() == again.json()
    assert run(["reindex", "--json", str(JOB)]) == 0
    command = [one["answer"] for one in json.loads(capsys.readouterr().out)["answers"]]
    assert again.json()["answers"] == command


def test_a_sheet_is_the_page_of_the_library() -> None:
    number = asked("POST", "/jobs", json=TABLES).json()["job"]

    page = asked("GET", f"/jobs/{number}/sheet")

    job = bw.job_of(TABLES, discovered_once())
    assert page.text == bw.sheet_html(bw.bench_sheet(job))
    assert page.headers["content-type"] == "text/html; charset=utf-8"


def test_its_own_page_is_served_at_two_places() -> None:
    page = asked("GET", "/docs")

    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert page.text == asked("GET", "/").text


def test_vehicles_are_listed_with_the_corners_that_a_job_may_name() -> None:
    listed = asked("GET", "/vehicles").json()

    assert listed["left_out"] == []
    for vehicle in listed["vehicles"]:
        job = {"vehicle": vehicle["id"], "corners": vehicle["corners"]}
        planned = asked("POST", "/jobs", json=job | {"wanted": {"keep_standard": True}})
        assert len(planned.json()["answers"]) == len(vehicle["corners"]) == 2


def test_packs_of_named_folders_are_read_and_what_is_wrong_with_one_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(endpoint, "registry", READ.__wrapped__)
    monkeypatch.setenv("SHOP_PACKS", os.pathsep.join([str(PLUGINS), str(tmp_path)]))

    listed = asyncio.run(_started())

    assert {one["id"].partition(":")[0] for one in listed["vehicles"]} == {
        "fells",
        "hodmule",
        "trundlet",
    }
    (left_out,) = listed["left_out"]
    assert left_out.startswith(f"pack {str(tmp_path)!r} is left out: F101: ")
    assert capsys.readouterr().err == left_out + "\n"


async def _started() -> Any:
    """Vehicles of the endpoint, after it has started as a server starts it."""
    async with endpoint.with_packs(endpoint.app):
        return endpoint.vehicles()


def test_all_installed_packs_are_read_if_no_folder_is_named(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delenv("SHOP_PACKS", raising=False)

    assert READ.__wrapped__().packs == bw.Registry.discover().packs


def test_a_bad_job_is_told_with_codes_and_not_kept() -> None:
    bad = asked("POST", "/jobs", json=TABLES | {"wanted": {"height": "13 3/4 in"}, "x": 1})

    assert bad.status_code == 422
    found = {(problem["code"], problem["key"]) for problem in bad.json()["problems"]}
    assert found == {("S201", "x"), ("Q102", "wanted.height")}
    assert asked("GET", "/jobs/1").status_code == 404


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"", 400),
        (b"[]", 400),
        (b"\xff", 400),
        (b"[" * 60_000, 400),
        (b" " * 65_537, 413),
        (b"{}", 422),
        (json.dumps({"vehicle": {"a": {"b": {"c": {"d": {}}}}}}).encode(), 422),
        (json.dumps(TABLES | {"title": None}).encode(), 422),
        (b'{"title": NaN}', 422),
    ],
)
def test_a_body_that_is_no_job_is_refused(body: bytes, status: int) -> None:
    refused = asked("POST", "/jobs", content=body)

    assert refused.status_code == status
    assert refused.json().keys() <= {"detail", "problems"}


@pytest.mark.parametrize("path", ["/jobs/9", f"/jobs/{10**30}", "/jobs/x", "/nothing"])
def test_what_is_not_there_is_not_found(path: str) -> None:
    assert asked("GET", path).status_code == 404


def test_what_it_says_of_itself_is_valid() -> None:
    validate(asked("GET", "/openapi.json").json())


@pytest.mark.slow
def test_fifty_clients_at_once_get_the_answers_of_one() -> None:
    requests = [("POST", "/jobs", {"json": TABLES})] * 50
    alone = asked("POST", "/jobs", json=TABLES).json()["answers"]

    responses = asyncio.run(_asked(requests))

    assert [response.status_code for response in responses] == [201] * 50
    assert len({response.json()["job"] for response in responses}) == 50
    assert all(response.json()["answers"] == alone for response in responses)


@pytest.mark.slow
@pytest.mark.parametrize("number", range(4))
def test_whatever_is_sent_is_answered_as_it_says(number: int) -> None:
    schema = schemathesis.openapi.from_dict(endpoint.openapi())
    schema.app = endpoint.app
    operation = [found.ok() for found in schema.get_all_operations() if isinstance(found, Ok)][
        number
    ]

    @settings(max_examples=draws(25), deadline=None, suppress_health_check=list(HealthCheck))
    @given(operation.as_strategy())
    def answered(case: Any) -> None:
        # Tables alone are no job: 422 then says what is missing.
        case.call_and_validate(excluded_checks=[positive_data_acceptance])

    answered()

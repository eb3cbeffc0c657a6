"""The endpoint of the examples: the answers of the library, and whatever is sent is answered."""

from __future__ import annotations

import asyncio
import json
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
@pytest.mark.parametrize("number", range(3))
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

"""A small web endpoint of a shop: jobs are sent as JSON, kept, planned and printed.

    pip install 'barwright[report]' starlette uvicorn
    SHOP_PACKS=my-packs uvicorn --app-dir docs/examples/endpoint endpoint:app

`GET /vehicles` lists the vehicles of all packs. `POST /jobs` takes the tables of a job file as
JSON; `GET /jobs/1` returns its plans, `GET /jobs/1/sheet` the bench sheet. `GET /openapi.json`
says what all of them take and return, `GET /docs` shows that to a person and sends a job.
SHOP_PACKS names folders of packs, with a colon between them (a semicolon on Windows); without
it, all installed packs are read. SHOP_DATABASE names the file of the database. Nobody is asked
for a password: put this behind the log-in of the shop.
"""

from __future__ import annotations

import json
import os
import sqlite3
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, closing
from functools import cache
from http import HTTPStatus
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.routing import Route

import barwright as bw

LARGEST_BODY = 65_536  # bytes; a job is a page of text

_NEW_TABLE = "CREATE TABLE IF NOT EXISTS job (id INTEGER PRIMARY KEY, tables TEXT NOT NULL)"


@cache
def registry() -> bw.Registry:
    """All packs, read once: questions do not change them, and threads may share them."""
    folders = [name for name in os.environ.get("SHOP_PACKS", "").split(os.pathsep) if name]
    return bw.Registry.from_folders(*folders) if folders else bw.Registry.discover()


def left_out() -> list[str]:
    """Say which packs cannot be used, and why."""
    return [f"pack {problem.file!r} is left out: {problem}" for problem in registry().problems]


@asynccontextmanager
async def with_packs(_: Starlette) -> AsyncIterator[None]:
    """Read the packs before the first request, and say which cannot be used."""
    for told in left_out():
        print(told, file=sys.stderr)
    yield


# -- Jobs are kept as they were sent -------------------------------------------------


def database() -> sqlite3.Connection:
    """Open the database; a connection belongs to the thread that opened it."""
    connection = sqlite3.connect(os.environ.get("SHOP_DATABASE", "shop.sqlite"), timeout=30.0)
    connection.execute(_NEW_TABLE)
    return connection


def keep(tables: dict[str, Any]) -> int:
    """Keep a job and return its number."""
    with closing(database()) as connection, connection:
        stored = connection.execute("INSERT INTO job (tables) VALUES (?)", [json.dumps(tables)])
        return int(stored.lastrowid or 0)


def kept(number: int) -> dict[str, Any]:
    """Return the tables of a job, or say that there is none."""
    with closing(database()) as connection:
        row = connection.execute("SELECT tables FROM job WHERE id = ?", [number]).fetchone()
    if row is None:
        raise HTTPException(HTTPStatus.NOT_FOUND, f"no job {number}")
    tables: dict[str, Any] = json.loads(row[0])
    return tables


# -- What is asked -------------------------------------------------------------------


def plans(tables: dict[str, Any], name: str) -> list[Any]:
    """Return an answer for each corner, as JSON has it."""
    job = bw.job_of(tables, registry(), name=name)
    return [json.loads(bw.to_json(answer)) for answer in bw.reindex_job(job)]


def accept(tables: dict[str, Any]) -> dict[str, Any]:
    """Plan a job, and keep it if it can be read."""
    answers = plans(tables, "job")
    return {"job": keep(tables), "answers": answers}


def planned(number: int) -> dict[str, Any]:
    """Plan a job that was kept, with the packs of today."""
    return {"job": number, "answers": plans(kept(number), f"job {number}")}


def sheet(number: int) -> str:
    """Return the bench sheet as a page."""
    job = bw.job_of(kept(number), registry(), name=f"job {number}")
    return bw.sheet_html(bw.bench_sheet(job))


def vehicles() -> dict[str, Any]:
    """List what a job may name: vehicles, and the corners of each."""
    listed = [{"id": v.id, "title": v.title, "corners": corners(v)} for v in registry().vehicles()]
    return {"vehicles": listed, "left_out": left_out()}


def corners(vehicle: bw.parts.Chassis) -> list[str]:
    """Name the corners of a vehicle."""
    sides = [side.value for side in bw.parts.Side]
    return [f"{axle.place.value} {side}" for axle in vehicle.axles for side in sides]


# -- How it is asked -----------------------------------------------------------------


async def post_job(request: Request) -> Response:
    """Take a job; questions take milliseconds of processor time, so they get a thread."""
    tables = tables_of(await body_of(request))
    return JSONResponse(await run_in_threadpool(accept, tables), HTTPStatus.CREATED)


async def get_job(request: Request) -> Response:
    """Return the plans of a job."""
    return JSONResponse(await run_in_threadpool(planned, number_in(request)))


async def get_sheet(request: Request) -> Response:
    """Return the bench sheet of a job."""
    return HTMLResponse(await run_in_threadpool(sheet, number_in(request)))


async def get_vehicles(_: Request) -> Response:
    """Return the vehicles of all packs."""
    return JSONResponse(await run_in_threadpool(vehicles))


async def get_openapi(_: Request) -> Response:
    """Return what the endpoint takes and returns."""
    return JSONResponse(openapi())


async def get_docs(_: Request) -> Response:
    """Return a page that shows the same to a person."""
    return HTMLResponse(Path(__file__).with_name("docs.html").read_text("utf-8"))


def number_in(request: Request) -> int:
    """Return the number of a job, as far as a database can have it."""
    return min(int(request.path_params["number"]), 2**63 - 1)


async def body_of(request: Request) -> bytes:
    """Read a body, and stop where it is too large to be a job."""
    body = bytearray()
    async for piece in request.stream():
        body += piece
        if len(body) > LARGEST_BODY:
            raise HTTPException(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, "too large to be a job")
    return bytes(body)


def tables_of(body: bytes) -> dict[str, Any]:
    """Read the tables of a job."""
    try:
        tables = json.loads(body)
    except (ValueError, RecursionError):
        raise HTTPException(HTTPStatus.BAD_REQUEST, "not JSON") from None
    if not isinstance(tables, dict):
        raise HTTPException(HTTPStatus.BAD_REQUEST, "not the tables of a job")
    return tables


async def bad_input(_: Request, error: Any) -> Response:
    """Say all that is wrong with a job: code, key, what was expected and what to do."""
    problems = getattr(error, "problems", (error,))
    told = {"problems": [problem.fields for problem in problems]}
    return JSONResponse(told, HTTPStatus.UNPROCESSABLE_ENTITY)


async def refused(_: Request, error: Any) -> Response:
    """Say in JSON what else is refused."""
    return JSONResponse({"detail": error.detail}, error.status_code, error.headers)


async def gone(_: Request, __: Any) -> Response:
    """Answer nobody: whoever sent the job has hung up."""
    return Response(status_code=HTTPStatus.BAD_REQUEST)


# -- What it says of itself ----------------------------------------------------------


@cache
def openapi() -> dict[str, Any]:
    """Describe the endpoint; it takes `bw.job_schema()` and returns `bw.answer_schema()`."""
    schemas = _components(bw.answer_schema(), of="answer") | _components(bw.job_schema(), of="job")
    schemas["Plans"] = {
        "type": "object",
        "properties": {
            "job": {"type": "integer"},
            "answers": {"type": "array", "items": {"$ref": f"{_SCHEMAS}answer.Reindex"}},
        },
        "required": ["job", "answers"],
    }
    schemas["Vehicles"] = {
        "type": "object",
        "properties": {
            "vehicles": {"type": "array", "items": _VEHICLE},
            "left_out": {"type": "array", "items": {"type": "string"}},
        },
        "required": ["vehicles", "left_out"],
    }
    schemas["Problems"] = {
        "type": "object",
        "properties": {"problems": {"type": "array", "items": {"type": "object"}}},
        "required": ["problems"],
    }
    number = {
        "name": "number",
        "in": "path",
        "required": True,
        "schema": {"type": "integer", "minimum": 0},
    }
    bad = {"422": _json("What is wrong with the job.", {"$ref": f"{_SCHEMAS}Problems"})}
    refusal = {
        "type": "object",
        "properties": {"detail": {"type": "string"}},
        "required": ["detail"],
    }
    none = {"404": _json("No such job.", refusal)}
    listed = _json("Vehicles, and the corners of each.", {"$ref": f"{_SCHEMAS}Vehicles"})
    plans = _json("Plans for each corner.", {"$ref": f"{_SCHEMAS}Plans"})
    page = {"description": "The bench sheet.", "content": {"text/html": {}}}
    tables = {"content": {"application/json": _JOB}, "required": True}
    refusals = {
        "400": _json("Not JSON, or no tables.", refusal),
        "413": _json("Too large to be a job.", refusal),
    }
    return {
        "openapi": "3.1.0",
        "info": {"title": "A shop's jobs", "version": "1"},
        "paths": {
            "/vehicles": {
                "get": {"summary": "List the vehicles of all packs", "responses": {"200": listed}}
            },
            "/jobs": {
                "post": {
                    "summary": "Plan a job, and keep it",
                    "requestBody": tables,
                    "responses": {"201": plans} | refusals | bad,
                }
            },
            "/jobs/{number}": {
                "get": {
                    "summary": "Plan a job again that was kept",
                    "parameters": [number],
                    "responses": {"200": plans} | none | bad,
                }
            },
            "/jobs/{number}/sheet": {
                "get": {
                    "summary": "Print its bench sheet",
                    "parameters": [number],
                    "responses": {"200": page} | none | bad,
                }
            },
        },
        "components": {"schemas": schemas},
    }


def _json(description: str, schema: dict[str, Any]) -> dict[str, Any]:
    return {"description": description, "content": {"application/json": {"schema": schema}}}


_SCHEMAS = "#/components/schemas/"
_VEHICLE = {
    "type": "object",
    "properties": {
        "id": {"type": "string"},
        "title": {"type": "string"},
        "corners": {"type": "array", "items": {"type": "string"}},
    },
    "required": ["id", "title", "corners"],
}


def _components(schema: dict[str, Any], of: str) -> dict[str, Any]:
    """Return the parts of a schema under names of their own, and the whole under its name."""
    named = json.loads(json.dumps(schema).replace("#/$defs/", f"{_SCHEMAS}{of}."))
    parts = {f"{of}.{name}": part for name, part in named.pop("$defs").items()}
    return parts | {of: named}


_JOB = {
    "schema": {"$ref": f"{_SCHEMAS}job"},
    "example": {
        "vehicle": "fells:chassis/short",
        "corners": ["front left", "front right"],
        "wanted": {"keep_standard": True},
        "order": {"customer": "Kirkstone Mill"},
    },
}

app = Starlette(
    routes=[
        Route("/", get_docs),
        Route("/docs", get_docs),
        Route("/vehicles", get_vehicles),
        Route("/jobs", post_job, methods=["POST"]),
        Route("/jobs/{number:int}", get_job),
        Route("/jobs/{number:int}/sheet", get_sheet),
        Route("/openapi.json", get_openapi),
    ],
    exception_handlers={
        bw.BarwrightError: bad_input,
        HTTPException: refused,
        ClientDisconnect: gone,
    },
    lifespan=with_packs,
)

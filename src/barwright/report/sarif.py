"""Checked jobs as SARIF 2.1.0 (OASIS), for tools that gather results."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from pathlib import PurePath
from typing import Any

from barwright.analysis.check import Checked
from barwright.errors import CODES

__all__ = ["to_sarif"]

_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)


def to_sarif(results: Iterable[Checked], *, version: str) -> str:
    """Write what became of job files as a SARIF log.

    Parameters
    ----------
    results : iterable of Checked
        What became of each file.
    version : str
        Version of this library.

    Returns
    -------
    str
        JSON; a rule for each code or outcome that occurs, a result for each
        problem and for each corner whose answer is no.
    """
    found = [result for checked in results for result in _results(checked)]
    rules = sorted({result["ruleId"] for result in found})
    driver = {
        "name": "barwright",
        "version": version,
        "rules": [{"id": rule, "shortDescription": {"text": _meaning(rule)}} for rule in rules],
    }
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": found}
    return json.dumps(
        {"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}, ensure_ascii=False, indent=2
    )


def _meaning(rule: str) -> str:
    return CODES.get(rule, rule.replace("-", " "))


def _results(checked: Checked) -> Iterator[dict[str, Any]]:
    for problem in checked.problems:
        yield _result(problem.code, "error", problem.text, problem.file, problem.line, problem.key)
    for corner, reason in zip(checked.refused, checked.reasons, strict=True):
        rule = corner.outcome.value.replace(" ", "-")
        place = f"{corner.corner} {corner.variant}"
        yield _result(rule, "warning", reason, checked.file, 0, place)


def _result(  # noqa: PLR0917 - a private constructor
    rule: str, level: str, text: str, file: str, line: int, key: str
) -> dict[str, Any]:
    location: dict[str, Any] = {"artifactLocation": {"uri": _uri(file)}}
    if line:
        location["region"] = {"startLine": line}
    # Stays the same when lines move, so that a result is known again.
    print_of = hashlib.sha256("\0".join((rule, _uri(file), key, text)).encode()).hexdigest()
    return {
        "ruleId": rule,
        "level": level,
        "message": {"text": text},
        "locations": [{"physicalLocation": location}],
        "partialFingerprints": {"barwright/v1": print_of[:32]},
    }


def _uri(file: str) -> str:
    from urllib.parse import quote  # noqa: PLC0415 - only this form needs it

    return quote(PurePath(file).as_posix())

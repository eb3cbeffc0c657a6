"""Checked jobs and packs as SARIF 2.1.0 (OASIS), for tools that gather results."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from pathlib import PurePath
from typing import Any

from barwright.first_use import FIRST_USE
from barwright.report.forms.notices import Notice, Result, meaning, notices
from barwright.report.safe_text import escaped_json

__all__ = ["to_sarif"]

_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)


def to_sarif(results: Iterable[Result], *, version: str) -> str:
    """Write what became of job files or packs as a SARIF log.

    Parameters
    ----------
    results : iterable of JobCheck or PackLint
        What became of each.
    version : str
        Version of this library.

    Returns
    -------
    str
        JSON; a rule for each code or outcome that occurs, a result for each
        problem, finding, and corner whose answer is no.
    """
    found = [_result(notice) for result in results for notice in notices(result)]
    rules = sorted({result["ruleId"] for result in found})
    driver = {
        "name": "barwright",
        "version": version,
        "rules": [{"id": rule, "shortDescription": {"text": meaning(rule)}} for rule in rules],
    }
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": found}
    log = {"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}
    return escaped_json(json.dumps(log, ensure_ascii=False, indent=2))


def _result(notice: Notice) -> dict[str, Any]:
    uri = _uri(notice.file)
    location: dict[str, Any] = {"artifactLocation": {"uri": uri}}
    if notice.line:
        location["region"] = {"startLine": notice.line}
    # Stays the same when lines move, so that a result is known again.
    said = f"{notice.rule}\0{uri}\0{notice.key}\0{notice.text}"
    return {
        "ruleId": notice.rule,
        "level": notice.severity.value,
        "message": {"text": notice.text},
        "locations": [{"physicalLocation": location}],
        "partialFingerprints": {
            "barwright/v1": hashlib.sha256(said.encode(errors="surrogatepass")).hexdigest()[:32]
        },
    }


def _uri(file: str) -> str:
    with FIRST_USE:
        from urllib.parse import quote  # noqa: PLC0415 - only this form needs it

    # A name that is no text may hold halves of characters.
    return quote(PurePath(file).as_posix(), errors="backslashreplace")

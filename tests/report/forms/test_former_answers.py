"""Tests of `barwright.report.forms.former_answers`: answers that an earlier version wrote."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

import barwright as bw
from flawed_packs import POOR_PACK
from sample_records import make_setup

FORMER: dict[str, Callable[[], object]] = {
    "Linted": lambda: bw.lint_pack(POOR_PACK),
    "Tolerances": lambda: bw.tolerance(bw.ride, make_setup(), draws=100),
    "LengthFit": lambda: bw.length_fit(make_setup()),
}


@pytest.mark.parametrize("name", FORMER)
def test_what_schema_2_calls_otherwise_is_read(name: str) -> None:
    answer = FORMER[name]()
    document = json.loads(bw.to_json(answer)) | {"answer": name, "schema": 2}

    assert bw.from_json(json.dumps(document)) == answer


@pytest.mark.parametrize("name", ["Linted", "Tolerances"])
def test_schema_3_does_not_know_the_former_names(name: str) -> None:
    document = json.loads(bw.to_json(FORMER[name]())) | {"answer": name}

    with pytest.raises(bw.SchemaError):
        bw.from_json(json.dumps(document))

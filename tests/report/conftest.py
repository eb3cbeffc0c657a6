"""Tests of what is written of answers share the answers."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from asked_once import asked_once

QUESTIONS = (
    *("balance", "bench_sheet", "calibrate", "choose", "compare", "diagnose", "donors"),
    *("family_chart", "family_matrix", "identify", "needs", "nut_table", "rates", "reindex"),
    *("reindex_job", "strength", "tolerance", "trail", "working"),
)


@pytest.fixture(scope="module", autouse=True)
def _asked_once() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        asked_once(patch, "barwright", *QUESTIONS)
        yield

"""Tests of new packs share the text of their schema, which takes longer than all the rest."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from asked_once import asked_once


@pytest.fixture(scope="module", autouse=True)
def _schema_once() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        asked_once(patch, "barwright.registry.authoring.scaffold", "schema_text")
        yield

"""Names of the schemas' definitions, to which others may refer."""

from __future__ import annotations

import json
from pathlib import Path

from barwright.registry.authoring.definition_names import DEFINITION_NAMES

DOCS = Path(__file__).parents[3] / "docs"


def published(name: str) -> set[str]:
    """Names of the definitions in a schema as it lies in the docs."""
    return {*json.loads((DOCS / f"{name}.schema.json").read_text(encoding="utf-8"))["$defs"]}


def test_every_class_has_a_name_of_its_own_and_no_name_stands_for_nothing() -> None:
    written = (published("pack") | published("overlay")) - {"pack", "overlay", "records"}
    names = list(DEFINITION_NAMES.values())

    assert sorted(names) == sorted(name for name in written if not name.startswith("figure-"))

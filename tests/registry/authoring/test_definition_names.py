"""Names of the schemas' definitions, to which others may refer."""

from __future__ import annotations

from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.registry.authoring.schema import overlay_schema, pack_schema


def test_every_class_has_a_name_of_its_own_and_no_name_stands_for_nothing() -> None:
    written = {*pack_schema()["$defs"], *overlay_schema()["$defs"]} - {"pack", "overlay", "records"}
    names = list(DEFINITION_NAMES.values())

    assert sorted(names) == sorted(name for name in written if not name.startswith("figure-"))

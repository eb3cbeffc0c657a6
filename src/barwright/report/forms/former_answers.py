"""Documents of earlier forms of answers, brought up to date."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from barwright.errors import SchemaError

__all__ = ["FORMER_SCHEMAS", "up_to_date"]

_OLDEST, _WITH_ALL_RECORDS = FORMER_SCHEMAS = (2, 3)
"""The earlier versions that are still read.  The later one has every record wherever it belongs."""

_CLASSES: Mapping[str, str] = {
    "Checked": "JobCheck",
    "Linted": "PackLint",
    "Tolerances": "Tolerance",
}

# Fields that tell a table, and what became of some of them.
_FIELDS: tuple[tuple[frozenset[str], Mapping[str, str]], ...] = (
    # Setups, and parts that left the works.
    (frozenset({"arm", "bar", "tube", "damper"}), {"tube": "anchor"}),
    # Work at an end, what a parted joint lets go, and how a bar goes in.
    (frozenset({"end", "action", "blanks"}), {"blanks": "blank_count"}),
    (frozenset({"torque", "energy", "force", "drop"}), {"force": "downward_force"}),
    (
        frozenset({"damper_on", "slides", "reserve"}),
        {
            "damper_on": "damper_fitted",
            "reserve": "unloading_reserve",
            "uncertainty": "unloading_reserve_uncertainty",
        },
    ),
    # The thread that is left, in turns, and a height to a flat of the nut.
    (
        frozenset({"made_for", "height_tolerance", "reserve"}),
        {"height_tolerance": "height_rounding", "reserve": "thread_reserve"},
    ),
    (frozenset({"teeth", "ends", "reserve"}), {"reserve": "thread_reserve"}),
    (frozenset({"enough_reserve", "plans"}), {"enough_reserve": "enough_thread_reserve"}),
    # Checked corners.
    (frozenset({"vehicle", "corner", "variant", "plan"}), {"vehicle": "vehicle_id"}),
    # Donors.
    (frozenset({"arm_id", "tube_id"}), {"tube_id": "anchor_id", "tube_title": "anchor_title"}),
)


def up_to_date(document: Mapping[str, Any], *, schema: int = _OLDEST) -> dict[str, Any]:
    """Update a document from an earlier version.

    Parameters
    ----------
    document : mapping
        The answer as it was written, with the name of its class.
    schema : int
        Its version.

    Returns
    -------
    dict

    Raises
    ------
    SchemaError
        S208 for a bench sheet: one for the whole job cannot be made of one for each corner.

    Examples
    --------
    >>> up_to_date({"answer": "Linted", "pack": "fells"})
    {'answer': 'PackLint', 'pack': 'fells'}
    """
    name = document["answer"]
    if schema == _WITH_ALL_RECORDS:
        return dict(document)  # a record is also read where it belongs
    if name == "BenchSheet":
        raise SchemaError(
            "S208",
            value=f"a BenchSheet of schema {_OLDEST}",
            expected="a sheet with its stages",
            remedy="write the sheet again from its job",
        )
    fields: dict[str, Any] = _renamed({key: document[key] for key in document if key != "answer"})
    return {"answer": _CLASSES.get(name, name), **fields}


def _renamed(value: Any) -> Any:  # noqa: ANN401 - whatever a document holds
    """Give fields and words that were renamed their present names."""
    if isinstance(value, list):
        return [_renamed(item) for item in value]
    if not isinstance(value, dict):
        return value
    if value.keys() >= {"ranges", "counts", "repeats"}:
        return _renamed(_life_as_a_band(value))
    new = next((new for keys, new in _FIELDS if keys <= value.keys()), {})
    return {new.get(name, name): _renamed(_word(name, item)) for name, item in value.items()}


def _life_as_a_band(life: Mapping[str, Any]) -> dict[str, Any]:
    """Give a life that was one number its present form; no band can be made of that number."""
    line, repeats = life["woehler_line"], life["repeats"]
    return {
        **{name: life[name] for name in ("ranges", "means", "counts", "ultimate")},
        "history_source": "travels in the order of time, counted by rainflow",
        "covers": None,
        "woehler_band": None if line is None else {"lowest": line, "highest": line},
        "band": None,
        "lasts_one_run": repeats is None or repeats >= 1.0,
    }


def _word(field: str, value: Any) -> Any:  # noqa: ANN401 - whatever a document holds
    """Give a word that was renamed its present name."""
    if field == "figure" and isinstance(value, str) and value.startswith("tube."):
        return f"anchor{value.removeprefix('tube')}"
    if field == "swapped" and isinstance(value, list):
        return ["anchor" if place == "tube" else place for place in value]
    return _WORDS.get((field, value), value) if isinstance(value, str) else value


_WORDS = {
    ("topic", "swapped tube"): "swapped anchor",
    ("verdict", "holds"): "strong enough",
    (
        "action",
        "put a blank that the bar has on the key",
    ): "put an existing blank on the key",
}

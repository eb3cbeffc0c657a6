"""Documents of the form of answers before this one, brought up to date."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

__all__ = ["FORMER_SCHEMA", "up_to_date"]

FORMER_SCHEMA = 2
"""The earlier version that is still read."""

_CLASSES: Mapping[str, str] = {
    "Checked": "JobCheck",
    "Linted": "PackLint",
    "Tolerances": "Tolerance",
}


def up_to_date(document: Mapping[str, Any]) -> dict[str, Any]:
    """Bring a document of the version before to this one.

    Parameters
    ----------
    document : mapping
        The answer as it was written, with the name of its class.

    Returns
    -------
    dict

    Examples
    --------
    >>> up_to_date({"answer": "Linted", "pack": "fells"})
    {'answer': 'PackLint', 'pack': 'fells'}
    """
    name = document["answer"]
    return {**document, "answer": _CLASSES.get(name, name)}

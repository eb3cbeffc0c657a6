"""What a stranger sends costs little: two seconds and a hundred megabytes a megabyte at most.

Slow, and left out unless it is asked for: `pytest -m slow`.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import pytest

from hostile.specimens import SPECIMENS

MEGABYTE = 1024 * 1024
SECONDS = 2.0
"""Of processor time, for each megabyte that was begun."""

SECONDS_OF_LINT = 4.0
"""The same where thirty rules put their questions to what was read."""

MEMORY = 100 * MEGABYTE
"""For each megabyte that was begun."""

AGAIN = 3


def test_there_are_some_hundred_specimens_with_names_of_their_own() -> None:
    names = {(specimen.door, specimen.name) for specimen in SPECIMENS}

    assert len(names) == len(SPECIMENS) > 300
    assert len({specimen.door for specimen in SPECIMENS}) == 10


@pytest.mark.slow
def test_no_specimen_costs_more_than_its_size_allows() -> None:
    reported = _measured()

    assert len(reported) == len(SPECIMENS)
    assert not [one for one in reported if one["code"] or one["outcome"].startswith("UNTYPED")]
    assert not [one for one in reported if one["bytes"] > MEMORY * _megabytes(one)]
    # What else runs on the machine can make a specimen dearer, and never cheaper.
    dear = [one for one in reported if all(map(_is_dear, (one, *_again(one))))]
    assert dear == []


def _measured(*arguments: str) -> list[dict[str, Any]]:
    done = subprocess.run(
        [sys.executable, "-m", "hostile.budget", *arguments],
        capture_output=True,
        text=True,
        check=True,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)},
    )
    return [json.loads(line) for line in done.stdout.splitlines()]


def _again(one: dict[str, Any]) -> Iterator[dict[str, Any]]:
    if _is_dear(one):
        for _ in range(AGAIN):
            yield from _measured("--name", one["name"])


def _is_dear(one: dict[str, Any]) -> bool:
    most = SECONDS_OF_LINT if one["name"].startswith("lint:") else SECONDS
    return bool(one["seconds"] > most * _megabytes(one))


def _megabytes(one: dict[str, Any]) -> int:
    return -(-int(one["size"]) // MEGABYTE)

"""Lets atheris make the inputs, guided by which code they reach; it need not be installed.

    cd tests && python -m fuzz.guided --target bytes [--inputs 100000] [--findings FOLDER]

The first input that ends in anything but an answer or an error of barwright's own, or takes
longer than two seconds, stops it with a traceback, and is written into the folder.
"""

from __future__ import annotations

import argparse
import contextlib
import importlib
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

__all__ = ["main"]

_REACHED = ["tomllib", "barwright.errors", "barwright.parts", "barwright.registry"]
_REACHED += [
    "barwright.units.reader",
    "barwright.units.slips",
    "barwright.lint.subject.read_checks",
]
_LONGEST = 4096
_SECONDS = 2
_SEEDS = 50


def main() -> None:
    """Run one target."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--target", default="bytes")
    parser.add_argument("--inputs", type=int, default=100_000)
    parser.add_argument("--findings", type=Path, default=Path("fuzz-findings"))
    given = parser.parse_args()
    atheris: Any = importlib.import_module("atheris")
    with atheris.instrument_imports(include=_REACHED, enable_loader_override=False):
        ask = _asking(given.target)
    given.findings.mkdir(parents=True, exist_ok=True)
    arguments = [f"-runs={given.inputs}", f"-max_len={_LONGEST}", f"-timeout={_SECONDS}"]
    arguments += [f"-artifact_prefix={given.findings}/", "-seed=1", _begun_with(given.target)]
    atheris.Setup([sys.argv[0], *arguments], ask)
    atheris.Fuzz()


def _asking(name: str) -> Callable[[bytes], None]:
    """Return what puts an input to a target, and lets only what is no error of ours leave."""
    # Imported here, so that atheris sees which of their lines are reached.
    targets = importlib.import_module("fuzz.targets")
    refused = importlib.import_module("barwright.errors").BarwrightError
    target = targets.TARGETS[name]

    def ask(data: bytes) -> None:
        with contextlib.suppress(refused):
            target.ask(data)

    return ask


def _begun_with(name: str) -> str:
    """Return a folder of spoilt inputs to begin with."""
    target = importlib.import_module("fuzz.targets").TARGETS[name]
    chance_of = importlib.import_module("fuzz.mutations").chance_of
    folder = tempfile.mkdtemp(prefix="barwright-guided-")
    for number in range(_SEEDS):
        (Path(folder) / str(number)).write_bytes(target.draw(chance_of(0, number)))
    return folder


if __name__ == "__main__":
    main()

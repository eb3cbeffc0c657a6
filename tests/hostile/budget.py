"""Measures what each hostile specimen costs, every one in a process of its own.

    cd tests && python -m hostile.budget [--name NAME]

Prints a line of JSON for each: processor time and memory beyond what the library needs by
itself, and the bytes that were read.
"""

from __future__ import annotations

import argparse
import gc
import hashlib
import json
import os
import resource
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path

import barwright as bw
from barwright.errors import BarwrightError
from barwright.registry.files.cache_files import read_sealed
from barwright.registry.lock import read_lock
from fuzz.targets import TARGETS
from hostile.specimens import SPECIMENS, Specimen

__all__ = ["main"]

# What runs away is stopped: seconds, and bytes of addresses.
_MOST_TIME = 120
_MOST_MEMORY = 4 * 1024**3

_KNOWN = bw.Registry.discover(cache=False)


def _ask_a_pack(folder: Path) -> object:
    return bw.Registry.from_folders(folder, cache=False).problems


def _ask_an_overlay(folder: Path) -> object:
    return bw.Registry.discover(overlays=[folder], cache=False).problems


def _ask_a_note(folder: Path) -> object:
    """Read it with a right seal, as one who forges it would write it."""
    text = (folder / "note").read_bytes()
    seal = hashlib.sha256(text).hexdigest().encode()
    (folder / "note").write_bytes(b"barwright cache 1\n" + seal + b"\n" + text)
    return read_sealed(folder / "note")


def _ask_metadata(folder: Path) -> object:
    """Discover what a distribution that is first on the path declares."""
    files = list(folder.iterdir())
    info = folder / "odd-1.dist-info"
    info.mkdir()
    for path in files:
        path.rename(info / path.name)
    sys.path.insert(0, str(folder))
    return bw.Registry.discover(cache=False).problems


def _ask_words(folder: Path) -> object:
    return _KNOWN.resolve((folder / "words").read_text(encoding="utf-8"))


def _ask_a_target(folder: Path) -> object:
    """Put an input of fuzzing to the target that it is named after."""
    (path,) = folder.iterdir()
    return TARGETS[path.name].ask(path.read_bytes())


_DOORS: Mapping[str, Callable[[Path], object]] = {
    "pack": _ask_a_pack,
    "lint": bw.lint_pack,
    "overlay": _ask_an_overlay,
    "job": lambda folder: bw.load_jobs(folder / "job.toml", _KNOWN),
    "lock": lambda folder: read_lock(folder / "barwright.lock"),
    "history": lambda folder: bw.load_history(folder / "history.txt"),
    "note": _ask_a_note,
    "metadata": _ask_metadata,
    "words": _ask_words,
    "fuzz": _ask_a_target,
}


def main() -> None:
    """Measure all specimens, or the one of a name."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--name", help="such as 'pack: comments'")
    name: str | None = parser.parse_args().name
    for specimen in SPECIMENS:
        if name in (None, f"{specimen.door}: {specimen.name}"):
            print(json.dumps(_measured(specimen)), flush=True)  # noqa: T201 - for who asks


def _measured(specimen: Specimen) -> dict[str, object]:
    """What a specimen costs a process of its own, and how that ended."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for file, data in specimen.files().items():
            (folder / file).write_bytes(data)
        size = sum(path.stat().st_size for path in folder.iterdir())
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(reading)
            _ask(specimen, folder, writing)
        os.close(writing)
        with os.fdopen(reading) as pipe:
            reported = pipe.read()
        code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    result = (
        json.loads(reported) if reported else {"outcome": "stopped", "seconds": None, "bytes": None}
    )
    return {"name": f"{specimen.door}: {specimen.name}", "size": size, "code": code, **result}


def _ask(specimen: Specimen, folder: Path, pipe: int) -> None:
    """Put a specimen to its door, tell what that cost, and end the process."""
    resource.setrlimit(resource.RLIMIT_CPU, (_MOST_TIME, _MOST_TIME))
    resource.setrlimit(resource.RLIMIT_AS, (_MOST_MEMORY, _MOST_MEMORY))
    gc.freeze()
    before, start = _peak(), time.process_time()
    try:
        _DOORS[specimen.door](folder)
        outcome = "read"
    except BarwrightError as error:
        outcome = error.code
    except BaseException as error:  # noqa: BLE001 - whatever leaves is told
        outcome = f"UNTYPED {error!r}"
    spent = {"seconds": time.process_time() - start, "bytes": _peak() - before}
    os.write(pipe, json.dumps({"outcome": outcome, **spent}).encode())
    os._exit(0)


def _peak() -> int:
    """Most memory that the process has had, in bytes."""
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak if sys.platform == "darwin" else peak * 1024


if __name__ == "__main__":
    main()

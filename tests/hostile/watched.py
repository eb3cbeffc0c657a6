"""What a program that works with hostile packs does to the machine: run by test_nothing_runs.

    python watched.py WORKSHOP

Everything is done that barwright does with packs, and each audit event that the
interpreter raises meanwhile is written to standard output as JSON.
"""

from __future__ import annotations

import contextlib
import importlib
import io
import json
import os
import sys
from pathlib import Path
from types import CodeType
from typing import Any

EVENTS: list[tuple[str, list[str]]] = []
_WATCHING = [True]
_LONGEST = 2000


def watch(event: str, arguments: tuple[Any, ...]) -> None:
    """Note an event, code by its file."""
    if _WATCHING[0]:
        EVENTS.append((event, [_text(argument)[:_LONGEST] for argument in arguments[:3]]))


def _text(argument: object) -> str:
    if isinstance(argument, bytes):
        return os.fsdecode(argument)
    if isinstance(argument, CodeType):
        return argument.co_filename
    # Asking anything else could raise events in its turn.
    return str(argument) if isinstance(argument, str | int) else type(argument).__name__


def work(workshop: Path) -> None:
    """Do with packs all that there is to do."""
    import barwright as bw  # noqa: PLC0415 - the events of its import count
    from barwright.cli.command import run  # noqa: PLC0415 - as above

    registry = bw.Registry.discover()
    assert {"fells", "trap", "quiet"} <= {pack.id for pack in registry.packs}
    assert len(registry.problems) == 1, registry.problems
    bw.Registry.from_folders(workshop / "site" / "barwright_pack_trap").parts()
    job, out = str(workshop / "job.toml"), workshop / "out"
    commands = [
        ["vehicles"],
        ["parts"],
        ["family", "--form", "csv"],
        *(
            [question, job]
            for question in ("fit", "nut", "rates", "reindex", "strength", "tolerance")
        ),
        ["fit", "--donors", job],
        ["trail", job],
        ["sheet", job],
        ["sheet", "--json", job],
        ["chart", job],
        ["chart", "--svg", str(out / "chart.svg"), job],
        ["compare", job, job],
        ["check", "--form", "sarif", "--output", str(out / "check.json"), job],
        ["check", "--form", "junit", job],
        ["lint", str(workshop / "site" / "barwright_pack_trap")],
        ["lint", "--form", "github", str(workshop / "site" / "barwright_pack_broken")],
        ["lock", "--output", str(out / "packs.lock.toml")],
        ["check", "--locked", str(out / "packs.lock.toml"), job],
        ["new-pack", str(out / "new"), "--id", "moor"],
        ["schema"],
    ]
    for command in commands:
        with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
            code = run(command)
        assert code in (0, 1, 2) or command[0] == "lock", (command, code)


def main() -> None:
    """Load what others wrote, then watch."""
    for name in ("numpy", "pint", "cattrs", "click", "plotille", "sqlite3", "importlib_metadata"):
        importlib.import_module(name)
    for name in ("console", "table", "text", "padding"):
        importlib.import_module(f"rich.{name}")
    sys.addaudithook(watch)
    work(Path(sys.argv[1]))
    _WATCHING[0] = False
    loaded = [getattr(module, "__file__", None) or "" for module in list(sys.modules.values())]
    sys.stdout.write(json.dumps({"events": EVENTS, "loaded": loaded}))


if __name__ == "__main__":
    main()

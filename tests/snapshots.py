"""What every command prints, as files: ``python tests/snapshots.py`` writes them anew.

For each command there is a file for each width of a pipe, and one of a terminal that is 80 wide.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import sys
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from unittest import mock

import pytest

import barwright as bw
from asked_once import asked_once
from barwright.cli.command import run
from sample_packs import SPECIMENS, discovered_once
from table_packs import ROWS, carrier_map, write_files, written_table

__all__ = [
    "COMMANDS",
    "PLACE",
    "ROOT",
    "WIDTHS",
    "WRITING",
    "printed",
    "snapshot",
    "without_styles",
]

ROOT = SPECIMENS.parents[1]
PLACE = SPECIMENS / "terminal"
WIDTHS = (60, 80, 120)

_VAN = "docs/examples/shorter-dampers.toml"
_TRUCK = "docs/examples/firmer-bars.toml"
_TRAILER = "docs/examples/loaded-trailer.toml"
_TWENTY = "tests/specimens/twenty"

COMMANDS: Mapping[str, tuple[str, ...]] = {
    "fit": ("fit", _VAN),
    "fit-with-donors": ("fit", "--donors", f"{_TWENTY}/14-no-short-bar-in-long-van.toml"),
    "fit-of-three-bars": ("fit", f"{_TWENTY}/09-three-bars.toml"),
    "rate": ("rate", "fells:bar/short-firm", "--tube", "fells:tube/short"),
    "choose": ("choose", "fells", "short", "--stiffer", "30", "--miss", "3"),
    "balance": ("balance", "tests/specimens/jobs/corner-weights.toml"),
    "diagnose": ("diagnose", "tests/specimens/jobs/low-on-one-side.toml"),
    "spline": ("spline", "--teeth", "39", "--major-diameter", "29.92 mm"),
    "identify": ("identify", "--diameter", "25.0 mm", "--length", "874 mm", "--teeth", "39"),
    "rates": ("rates", _VAN),
    "rates-out-of-reach": ("rates", f"{_TWENTY}/15-no-out-of-travel.toml"),
    "chart": ("chart", _TRUCK),
    "strength": ("strength", _VAN, "--travel", "40 mm", "--ultimate-shear", "1005 MPa"),
    "reindex": ("reindex", _VAN),
    "reindex-trailer": ("reindex", _TRAILER),
    "reindex-without-pack": ("reindex", "tests/specimens/jobs/measured-alone.toml"),
    "nut": ("nut", _TRUCK),
    "calibrate": ("calibrate", "tests/specimens/jobs/weighed-four-times.toml"),
    "sheet": ("sheet", _VAN),
    "tolerance": ("tolerance", _TRAILER),
    "needs": ("needs", _TRAILER),
    "trail": ("trail", _TRAILER, "ride.wheel_rate"),
    "working": ("working", _TRAILER, "bar_rate"),
    "compare": ("compare", _VAN, _TRUCK),
    "batch": ("batch", "--vehicles", "fells", "--asked", "fit", "--output", "answers.csv"),
    "family": ("family", "--demo", "hodmule", "--stiffer", "5"),
    "matrix": ("matrix", "--demo", "--vehicles", "fells long"),
    "check": ("check", "docs/examples", f"{_TWENTY}/15-no-out-of-travel.toml"),
    "lint": ("lint", "tests/specimens/packs/poor"),
    "vehicles": ("vehicles",),
    "packs": ("packs",),
    "parts": ("parts", "short"),
    "explain": ("explain", "Q103"),
    "lock": ("lock",),
    "new-pack": ("new-pack", "moor", "--id", "moor"),
    "import-table": ("import-table", "vans.csv", "--map", "vans.map.toml", "--output", "moor"),
}
"""Commands by the names of their files."""

WRITING = frozenset({"batch", "lock", "new-pack", "import-table"})
"""Commands that write files, and print their names unbroken: they are run in a folder that holds
only the table and the map that one of them reads."""

# Questions that take long, put once for all widths, by the module that asks.
_LONG = {
    "cli.asking.choose": "choose",
    "cli.asking.grounds.tolerance": "tolerance",
    "cli.asking.grounds.trail": "trail",
    "cli.asking.grounds.working": "working",
    "cli.asking.measurements.balance": "balance",
    "cli.asking.measurements.calibrate": "calibrate",
    "cli.asking.measurements.diagnose": "diagnose",
    "cli.asking.measurements.needs": "needs",
    "cli.asking.nut": "nut_table",
    "cli.checking.lint": "lint_pack",
}

_STYLE = re.compile(r"\x1b\[[0-9;]*m")


def snapshot(name: str, width: int, *, terminal: bool = False) -> Path:
    """The file of a command."""
    return PLACE / f"{name}.{'terminal' if terminal else width}.txt"


def printed(name: str, width: int, *, terminal: bool = False) -> str:
    """What a command prints into a pipe, or to a terminal, that is so wide."""
    surroundings = {"COLUMNS": str(width), "TERM": "xterm-256color"}
    if terminal:
        surroundings["FORCE_COLOR"] = "1"
    left_out = ("NO_COLOR", "FORCE_COLOR", "COLORTERM", "TTY_COMPATIBLE", "TTY_INTERACTIVE")
    kept = {key: value for key, value in os.environ.items() if key not in left_out}
    out, registry = io.StringIO(), discovered_once()
    with (
        mock.patch.dict(os.environ, kept | surroundings, clear=True),
        mock.patch.object(bw.Registry, "discover", return_value=registry),
        pytest.MonkeyPatch.context() as patch,
        contextlib.redirect_stdout(out),
        tempfile.TemporaryDirectory() as made,
        contextlib.chdir(made if name in WRITING else ROOT),
    ):
        for module, question in _LONG.items():
            asked_once(patch, f"barwright.{module}", question)
        if name in WRITING:
            write_files(Path(made), written_table(*ROWS), carrier_map())
        run(COMMANDS[name])
    return out.getvalue()


def without_styles(text: str) -> str:
    """A text of a terminal as it is read."""
    return _STYLE.sub("", text)


def files() -> Iterator[tuple[Path, str]]:
    """Every file with what it is to hold."""
    for name in COMMANDS:
        for width in WIDTHS:
            yield snapshot(name, width), printed(name, width)
        yield snapshot(name, 80, terminal=True), printed(name, 80, terminal=True)


def main() -> None:
    """Write them all anew."""
    PLACE.mkdir(exist_ok=True)
    for old in PLACE.glob("*.txt"):
        old.unlink()
    for path, text in files():
        path.write_text(text, encoding="utf-8", newline="\n")
    sys.stdout.write(f"{len(list(PLACE.iterdir()))} files in {PLACE}\n")


if __name__ == "__main__":
    main()

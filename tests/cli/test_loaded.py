"""What a command loads: no room that it has nothing to do with, each of which costs a start."""

from __future__ import annotations

import subprocess
import sys

import pytest

LOADED = """
import contextlib, io, sys
from barwright.cli.command import run
with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):
    run({arguments!r})
print(*sorted(sys.modules))
"""


AS_A_PROCESS = """
import contextlib, io, sys
from barwright.cli import main
sys.argv[1:] = {arguments!r}
with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):
    main()
print(*sorted(sys.modules))
"""


def loaded(*arguments: str, program: str = LOADED) -> set[str]:
    """The modules that are there after a command."""
    program = program.format(arguments=list(arguments))
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=120
    )
    return set(done.stdout.split())


@pytest.mark.slow
@pytest.mark.parametrize("option", ["--help", "--version"])
def test_help_and_version_load_no_numbers(option: str) -> None:
    there = loaded(option)
    assert "barwright.cli.command" in there
    assert not there & {"numpy", "pint", "attr", "barwright.units", "importlib.metadata"}
    assert not there & {"difflib", "json", "pathlib"}


@pytest.mark.slow
def test_a_fit_for_a_program_loads_neither_plans_nor_pages() -> None:
    there = loaded("fit", "docs/examples/shorter-dampers.toml", "--json")
    assert "barwright.analysis.fit.length_fit" in there
    others = ("analysis.reindex", "analysis.strength", "analysis.adjusting", "lint", "report.sheet")
    assert not [name for name in there if name.startswith(tuple(f"barwright.{o}" for o in others))]
    assert not [name for name in there if name.partition(".")[0] == "rich"]


@pytest.mark.slow
def test_a_fit_for_a_reader_loads_no_plans_and_a_process_nothing_that_pint_meets() -> None:
    job = "docs/examples/shorter-dampers.toml"
    there = loaded("fit", job, program=AS_A_PROCESS)
    assert "barwright.report.text.fit" in there
    others = ("analysis.reindex", "analysis.strength", "analysis.adjusting", "report.drawing")
    assert not [name for name in there if name.startswith(tuple(f"barwright.{o}" for o in others))]
    assert not there & {"babel", "dask", "scipy", "uncertainties"}

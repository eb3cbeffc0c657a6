"""Plugin of pytest: a run fails for every statement and branch of the library that is not reached.

With ``.ci`` on the path, ``-p reached`` lets each process of the run count in ``build/reached``,
and tells at the end what is left.  SlipCover counts instead of coverage.py, which doubles the time
of the tests on the versions of Python that have no ``sys.monitoring``.
"""

from __future__ import annotations

import ast
import gc
import json
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import slipcover

ROOT = Path(__file__).parents[1]
SOURCE = ROOT / "src" / "barwright"
COUNTS = ROOT / "build" / "reached"
WORKER = os.environ.get("PYTEST_XDIST_WORKER", "")

# What a type checker alone is not to see has one way at run time.
ONE_WAY = "if not TYPE_CHECKING:"

# Line of docstrings and ellipses, which do nothing.
IDLE = 0

# It is a plugin of pytest too, of whose asserts nothing is to be said where tests run pytest.
slipcover.__doc__ = "PYTEST_DONT_REWRITE"

# Counting is taken out of code that has counted so often. That looks through every module that is
# loaded, which takes longer than some thousands of counts.
OFTEN = 2000

# To count in modules leaves much, and no garbage, until the tests are collected (conftest.py).
gc.disable()

# Modules count from their first line, so this stands before anything imports one.
COUNT = slipcover.Slipcover(branch=True, d_miss_threshold=OFTEN)
slipcover.ImportManager(COUNT, slipcover.FileMatcher(sources=[SOURCE])).__enter__()
if not WORKER:
    shutil.rmtree(COUNTS, ignore_errors=True)
    COUNTS.mkdir(parents=True)

LEFT: list[str] = []


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """Keep the count of this process; the first of a run puts those of the others to it."""
    counted = COUNT.get_coverage()
    if WORKER:
        (COUNTS / f"{WORKER}.json").write_text(json.dumps(counted), encoding="utf-8")
        return
    for path in COUNTS.glob("*.json"):
        slipcover.merge_coverage(counted, json.loads(path.read_text(encoding="utf-8")))
    names = sorted(str(path.relative_to(ROOT)) for path in SOURCE.rglob("*.py"))
    LEFT.extend(left for name in names for left in unreached(name, counted))
    if LEFT and session.exitstatus == pytest.ExitCode.OK:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Name what is left."""
    for line in LEFT:
        terminalreporter.write_line(line, red=True)
    terminalreporter.write_line(f"{len(LEFT)} statements and branches that no test reached")


def unreached(name: str, counted: dict[str, Any]) -> Iterator[str]:
    """Name each statement and each branch of a file that nothing reached."""
    text = (ROOT / name).read_text(encoding="utf-8")
    lines, first = text.splitlines(), first_lines(ast.parse(text))
    if name not in counted["files"]:
        yield from [f"{name}: never imported"] if any(first.values()) else []
        return
    found = counted["files"][name]
    reached = {first.get(line, line) for line in found["executed_lines"]}
    missing = {first.get(line, line) for line in found["missing_lines"]} - reached - {IDLE}
    yield from (f"{name}:{line}: {lines[line - 1].strip()}" for line in sorted(missing))
    for begin, end in found["missing_branches"]:
        if first.get(begin, begin) not in missing and ONE_WAY not in lines[begin - 1]:
            yield f"{name}:{begin}: never on to {f'line {end}' if end else 'the end'}"


def first_lines(module: ast.Module) -> dict[int, int]:
    """First line of the statement that each line belongs to; what it contains is not its own."""
    first: dict[int, int] = {}
    for node in ast.walk(module):
        if isinstance(node, ast.stmt):
            begin, end = own_lines(node)
            is_idle = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
            first |= dict.fromkeys(range(begin, end + 1), IDLE if is_idle else begin)
    return first


def own_lines(node: ast.stmt) -> tuple[int, int]:
    """First and last line of a statement, with its decorators and without its body."""
    begin = min([node.lineno, *(one.lineno for one in getattr(node, "decorator_list", []))])
    cases = [case.pattern for case in getattr(node, "cases", [])]
    inside = getattr(node, "body", []) or cases
    return begin, max(node.lineno, inside[0].lineno - 1) if inside else node.end_lineno or begin

"""Tests of `barwright.pytest_plugin`: what it costs, and what it gives when it is asked."""

from __future__ import annotations

import importlib.metadata
import shutil
import subprocess
import sys
from pathlib import Path

import importlib_metadata  # noqa: F401 - pytester would undo half of its first import
import pytest

# Kept, so that runs within this one do not load them anew.
import barwright.testing
from barwright.testing import CONTRACT
from flawed_packs import POOR_PACK
from sample_packs import GOOD_PACK

# By its module, whether or not its entry point is installed, and without those of others.
PLUGIN = (
    *("-p", "no:barwright", "-p", "barwright.pytest_plugin"),
    *("-p", "no:anyio", "-p", "no:cacheprovider", "-p", "no:hypothesispytest"),
    *("-p", "no:pytest_cov", "-p", "no:schemathesis", "-p", "no:xdist"),
)
LOADED = """
import sys
import pytest

class Seen:
    def pytest_sessionfinish(self):
        print("LOADED", sorted(name for name in sys.modules if name.startswith("barwright")))
        heavy = {"attrs", "cattrs", "click", "numpy", "pint", "rich", "sqlite3"}
        print("HEAVY", sorted(heavy & set(sys.modules)))

pytest.main(["-q", "-p", "barwright.pytest_plugin", "--rootdir", ".", "."], plugins=[Seen()])
"""


@pytest.fixture
def pack(pytester: pytest.Pytester) -> Path:
    """The good pack below the folder of a test run."""
    target = pytester.path / "src" / "pack"
    shutil.copytree(GOOD_PACK, target)
    return target


def test_pytest_loads_it_by_its_entry_point() -> None:
    (point,) = importlib.metadata.entry_points(group="pytest11", name="barwright")

    assert point.value == "barwright.pytest_plugin"


def test_a_run_that_asks_for_nothing_loads_nothing_of_the_library(tmp_path: Path) -> None:
    shutil.copytree(GOOD_PACK, tmp_path / "pack")
    (tmp_path / "test_one.py").write_text("def test_one(): pass\n", encoding="utf-8")

    run = subprocess.run(
        [sys.executable, "-c", LOADED],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
        env={"PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"},
    )

    assert "LOADED ['barwright', 'barwright.first_use', 'barwright.pytest_plugin']\n" in run.stdout
    assert "HEAVY []\n" in run.stdout
    assert "1 passed" in run.stdout


@pytest.mark.usefixtures("pack")
def test_a_pack_is_left_alone_where_nobody_asks(pytester: pytest.Pytester) -> None:
    result = pytester.runpytest_inprocess(*PLUGIN, "src")

    result.assert_outcomes()


def test_a_good_pack_passes_every_test_by_name(pytester: pytest.Pytester, pack: Path) -> None:
    result = pytester.runpytest_inprocess(*PLUGIN, "--barwright-packs", "-v", "src")

    result.assert_outcomes(passed=len(CONTRACT))
    place = pack.relative_to(pytester.path).as_posix()
    result.stdout.fnmatch_lines([f"{place}/pack.toml::{test} PASSED*" for test in CONTRACT])


def test_a_poor_pack_is_told_what_is_wrong_and_no_traceback(pytester: pytest.Pytester) -> None:
    shutil.copytree(POOR_PACK, pytester.path / "poor")

    result = pytester.runpytest_inprocess(*PLUGIN, "--barwright-packs", "poor/pack.toml")

    counts = result.parseoutcomes()
    assert counts["failed"] + counts["passed"] == len(CONTRACT)
    result.stdout.fnmatch_lines(["*poor: toleranced*", "*a shear modulus has no tolerance*"])
    result.stdout.no_fnmatch_line("*Traceback*")
    result.stdout.no_fnmatch_line("*complaints(*")


def test_other_files_are_no_packs(pytester: pytest.Pytester) -> None:
    (pytester.path / "parts.toml").write_text("x = 1\n", encoding="utf-8")

    result = pytester.runpytest_inprocess(*PLUGIN, "--barwright-packs", ".")

    result.assert_outcomes()


CONTRACTS = """
from barwright.testing import PackContract

class TestByFolder(PackContract):
    folder = {folder!r}

class TestByName(PackContract):
    package = {package!r}
"""


def contracts(pytester: pytest.Pytester, folder: Path | str, package: str) -> pytest.RunResult:
    pytester.makepyfile(CONTRACTS.format(folder=str(folder), package=package))
    return pytester.runpytest_inprocess(*PLUGIN)


def test_a_subclass_tests_its_pack_and_the_imported_class_none(
    pytester: pytest.Pytester, pack: Path
) -> None:
    result = contracts(pytester, pack, "barwright_pack_fells")

    result.assert_outcomes(passed=2 * len(CONTRACT))


@pytest.mark.parametrize("package", ["gone_pack", "dotted.pack", "", "json"])
def test_a_package_that_is_not_there_fails_and_says_so(
    pytester: pytest.Pytester, pack: Path, package: str
) -> None:
    result = contracts(pytester, pack, package)

    result.stdout.fnmatch_lines(["*no top-level package * with a pack.toml is installed*"])
    assert result.parseoutcomes()["passed"] >= len(CONTRACT)
    assert barwright.testing.CONTRACT is CONTRACT

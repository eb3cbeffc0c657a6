"""Tests for packs: one test for each rule.

A pack's author makes a subclass of :class:`PackContract` with the name of the package,
or calls pytest with ``--barwright-packs``, which tests every ``pack.toml`` that it meets.
"""

from __future__ import annotations

import ast
import functools
import importlib.util
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, ClassVar

import pytest

from barwright.lint.catalogue import LOADS, OVERLAY_RULES, RULES, WAIVER_RULES
from barwright.lint.finding import LintFinding, PackLint, Severity
from barwright.lint.linting import lint_pack
from barwright.registry.files.snapshot import HEADER, snapshot_of
from barwright.report.forms.notices import notices

__all__ = ["CONTRACT", "PackContract", "PackFile", "complaints"]

# Problems of loading by the test that tells them: what their codes begin with.
_LOADING: Mapping[str, tuple[str, ...]] = {
    "ids-unique": ("S205",),
    "references-resolve": ("S206",),
    "figures-possible": ("Q", "G"),
}


def complaints(folder: Path, test: str) -> list[str]:
    """Return what one test of the contract has against a pack.

    Parameters
    ----------
    folder : pathlib.Path
        The pack's folder.
    test : str
        One of :data:`CONTRACT`.

    Returns
    -------
    list of str
        A line each; empty where the test is passed.
    """
    return _TESTS[test](folder)


# -- One test at a time -----------------------------------------------------------------------


def _linted(folder: Path) -> PackLint:
    return _lint_of(folder, snapshot_of(folder).digest)


@functools.lru_cache(maxsize=8)
def _lint_of(folder: Path, digest: str) -> PackLint:  # noqa: ARG001 - another digest, another pack
    return lint_pack(folder)


def _lines(folder: Path, wanted: Callable[[LintFinding], bool]) -> list[str]:
    linted = _linted(folder)
    reported = zip(linted.findings, notices(linted), strict=True)
    return [notice.line_of_text for finding, notice in reported if wanted(finding)]


def _test_of_rule(rule: str) -> Callable[[Path], list[str]]:
    return lambda folder: _lines(folder, lambda finding: finding.rule == rule)


def _test_of_loading(name: str) -> Callable[[Path], list[str]]:
    return lambda folder: _lines(
        folder, lambda f: f.rule == LOADS and f.code.startswith(_LOADING[name])
    )


def _loads(folder: Path) -> list[str]:
    """Tell the problems of loading that have no test of their own."""
    others = tuple(code for codes in _LOADING.values() for code in codes)
    return _lines(folder, lambda f: f.rule == LOADS and not f.code.startswith(others))


def _runs_no_code(folder: Path) -> list[str]:
    """Tell the modules in which there is more than text."""
    return [
        f"{path}: holds code, and a pack holds data only; leave nothing but a docstring"
        for path in sorted(folder.rglob("*.py"))
        if path.is_file() and not _holds_text_only(path)
    ]


def _holds_text_only(path: Path) -> bool:
    """Tell a module of docstrings from code, and from what is none that can be read."""
    try:
        module = ast.parse(path.read_bytes())
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return False
    return all(map(_is_text, module.body))


def _is_text(statement: Any) -> bool:  # noqa: ANN401 - a node of the syntax tree
    return isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant)


_TESTS: Mapping[str, Callable[[Path], list[str]]] = {
    LOADS: _loads,
    **{name: _test_of_loading(name) for name in _LOADING},
    "runs-no-code": _runs_no_code,
    **{
        rule.name: _test_of_rule(rule.name)
        for rule in (*RULES, *OVERLAY_RULES, *WAIVER_RULES)
        if rule.severity is not Severity.NOTE
    },
}

CONTRACT: tuple[str, ...] = tuple(_TESTS)
"""Names of the tests: those of loading, and then one for each rule of the lint."""


# -- For pytest -----------------------------------------------------------------------


class PackContract:
    """Tests for a pack; a subclass names the pack.

    Attributes
    ----------
    package : str
        Name of the top-level package whose folder holds ``pack.toml``.
    folder : path
        That folder, in the place of a package.
    """

    __test__ = False
    package: ClassVar[str] = ""
    folder: ClassVar[str | Path] = ""

    def __init_subclass__(cls) -> None:
        """Let pytest collect what is not this class itself."""
        super().__init_subclass__()
        cls.__test__ = True

    @pytest.fixture
    def pack_folder(self) -> Path:
        """Return the pack's folder."""
        return Path(self.folder) if self.folder else _folder_of(self.package)

    @pytest.mark.parametrize("contract_test", CONTRACT)
    def test_pack(self, pack_folder: Path, contract_test: str) -> None:
        """Test the pack against one rule."""
        _fail_for(complaints(pack_folder, contract_test))


class PackFile(pytest.File):
    """A ``pack.toml`` that pytest met: its pack's tests."""

    def collect(self) -> Iterator[pytest.Item]:
        """List the tests."""
        for test in CONTRACT:
            yield _PackItem.from_parent(self, name=test)


class _PackItem(pytest.Item):
    """One test of a pack."""

    def runtest(self) -> None:
        """Hold the pack to it."""
        _fail_for(complaints(self.path.parent, self.name))

    def reportinfo(self) -> tuple[Path, int | None, str]:
        """Say where it is from."""
        return self.path, None, f"{self.path.parent.name}: {self.name}"


def _fail_for(lines: list[str]) -> None:
    if lines:
        pytest.fail("\n".join(lines), pytrace=False)


def _folder_of(package: str) -> Path:
    """Find a package by its import spec; nothing of it is imported."""
    spec = importlib.util.find_spec(package) if package.isidentifier() else None
    for folder in (spec.submodule_search_locations if spec else None) or ():
        if Path(folder, HEADER).is_file():
            return Path(folder)
    pytest.fail(f"no top-level package {package!r} with a {HEADER} is installed", pytrace=False)

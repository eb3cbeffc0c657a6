"""What users rely on stays, or the version says that it does not."""

from __future__ import annotations

import ast
import shutil
from pathlib import Path

import griffe
import pytest

import public_surface
from barwright.version import VERSION

STORED = public_surface.STORED


def breaks(before: Path, after: Path) -> list[str]:
    """What works with the one surface and not with the other, in words."""
    old, new = (griffe.load("barwright", search_paths=[folder]) for folder in (before, after))
    return [
        breakage.explain(griffe.ExplanationStyle.ONE_LINE)
        for breakage in griffe.find_breaking_changes(old, new)
    ]


@pytest.fixture(scope="module")
def now(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("surface")
    public_surface.written(folder)
    return folder


def what_a_break_raises(version: str) -> tuple[int, ...]:
    """The number before the first point, and before 1.0 the middle one."""
    first, middle, *_ = (int(number) for number in version.split("."))
    return (first, middle) if first == 0 else (first,)


def test_nothing_that_users_rely_on_is_broken_within_a_version(now: Path) -> None:
    stored = (STORED / "version.txt").read_text("utf-8").strip()

    if what_a_break_raises(VERSION) == what_a_break_raises(stored):
        assert breaks(STORED, now) == [], "docs/promises.md says how a name may go"


def test_every_line_of_the_surface_can_be_read(now: Path) -> None:
    for stub in (now / "barwright").iterdir():
        assert ast.parse(stub.read_text("utf-8")).body


SLIPS = {
    "a question": ("__init__", "def length_fit(", "def fit_of_length("),
    "an argument": ("__init__", "def length_fit(setup:", "def length_fit(corner:"),
    "an argument that had a default": (
        "__init__",
        "def load_job(path: str | PathLike[str],",
        "def load_job(path: str | PathLike[str], extra: str,",
    ),
    "a field of a record": ("parts", "    thread_pitch: Quantity", "    pitch: Quantity"),
    "a field of an answer": ("answers", "    verdict: Verdict", "    judgement: Verdict"),
    "a verdict": ("__init__", "    FITS = 'fits'", "    IT_FITS = 'fits'"),
    "what an error is also": (
        "errors",
        "class FileError(BarwrightError, OSError",
        "class FileError(BarwrightError",
    ),
    "a code": ("codes", "F101: str", "F901: str"),
    "a command": ("commands", "def fit(", "def goes_in("),
    "an option": ("commands", "def fit(job, *, donors = ...,", "def fit(job, *,"),
}


def changed(surface: Path, folder: Path, home: str, line: str, instead: str) -> Path:
    """The surface with one line otherwise."""
    shutil.copytree(surface, folder)
    stub = folder / "barwright" / f"{home}.pyi"
    text = stub.read_text("utf-8")
    assert line in text
    stub.write_text(text.replace(line, instead, 1), encoding="utf-8")
    return folder


@pytest.mark.slow
@pytest.mark.parametrize("slip", SLIPS)
def test_a_break_is_seen(slip: str, now: Path, tmp_path: Path) -> None:
    assert breaks(now, changed(now, tmp_path / "after", *SLIPS[slip]))


def test_an_addition_is_no_break(now: Path, tmp_path: Path) -> None:
    more = changed(now, tmp_path / "more", "codes", "F101: str", "F101: str\nF901: str")
    more = changed(
        more, tmp_path / "most", "commands", "def fit(job, *,", "def fit(job, *, more = ...,"
    )

    assert breaks(now, more) == []


def test_before_the_first_version_the_middle_number_says_that_something_broke() -> None:
    assert what_a_break_raises("0.1.9") == what_a_break_raises("0.1.0")
    assert what_a_break_raises("0.2.0") != what_a_break_raises("0.1.9")
    assert what_a_break_raises("1.2.0") == what_a_break_raises("1.1.0")
    assert what_a_break_raises("2.0.0") != what_a_break_raises("1.9.9")

"""The check of the built site finds what it looks for in files."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

from doc_pages import ROOT


@pytest.fixture(scope="module")
def check() -> ModuleType:
    spec = importlib.util.spec_from_file_location("site_check", ROOT / ".ci" / "site_check.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def faults(check: ModuleType, site: Path) -> list[str]:
    return [fault.rpartition("/")[2] for fault in check.faults_of_pages(check.read(site))]


@pytest.mark.parametrize(
    ("body", "fault"),
    [
        ('<a href="gone.html">x</a>', "a.html: leads nowhere: gone.html"),
        ('<a href="b.html#gone">x</a>', "a.html: no such place: b.html#gone"),
        ('<a href="#gone">x</a>', "a.html: no such place: #gone"),
        ('<img src="gone.svg" alt="a bar">', "a.html: leads nowhere: gone.svg"),
        ('<img src="here.svg" alt=" ">', "a.html: a picture without a text: here.svg"),
        ('<script src="https://x.invalid"></script>', "x.invalid"),
    ],
)
def test_a_fault_is_found(check: ModuleType, tmp_path: Path, body: str, fault: str) -> None:
    (tmp_path / "a.html").write_text(body, encoding="utf-8")
    (tmp_path / "b.html").write_text('<p id="here">', encoding="utf-8")
    (tmp_path / "here.svg").touch()

    assert faults(check, tmp_path) == [fault]


def test_what_leads_somewhere_is_no_fault(check: ModuleType, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(
        '<a href="b/b.html#h%C3%B6he">x</a><a id="c" href="#c">x</a><a href="b/b.html?q=1">x</a>'
        '<a href="https://example.invalid">x</a><img src="b/x.svg" alt="a bar">',
        encoding="utf-8",
    )
    (tmp_path / "b").mkdir()
    (tmp_path / "b" / "b.html").write_text('<p id="höhe"><a href="../a.html">', encoding="utf-8")
    (tmp_path / "b" / "x.svg").touch()

    assert faults(check, tmp_path) == []

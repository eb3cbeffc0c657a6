"""Tests of `pint_alone`."""

from __future__ import annotations

import importlib
import sys

import pytest

from barwright.cli.pint_alone import pint_alone


def test_what_pint_would_load_is_hidden_until_it_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("pint", "babel"):
        monkeypatch.delitem(sys.modules, name, raising=False)
    with pint_alone():
        with pytest.raises(ModuleNotFoundError):
            importlib.import_module("babel")
        importlib.import_module("json")
    assert "babel" not in sys.modules


def test_what_is_loaded_already_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(sys.modules, "pint")
    monkeypatch.setitem(sys.modules, "uncertainties", sys)
    with pint_alone():
        assert importlib.import_module("uncertainties") is sys


def test_nothing_is_hidden_from_a_program_that_has_loaded_pint() -> None:
    assert "pint" in sys.modules
    before = dict(sys.modules)
    with pint_alone():
        assert sys.modules == before

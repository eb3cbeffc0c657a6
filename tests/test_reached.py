"""Every kernel is reached by a question, a command or a rule."""

from __future__ import annotations

from pathlib import Path

import pytest

from reaching import read_code, unreached


def test_every_kernel_is_reached() -> None:
    assert unreached(read_code()) == set()


# -- The look itself ---------------------------------------------------------------------


@pytest.fixture
def package(tmp_path: Path) -> Path:
    """A package with kernels in `low`, and one question above them."""
    (tmp_path / "low").mkdir()
    (tmp_path / "low" / "kernels.py").write_text(
        '''
from small.low.inner import deep

def used(): return deep()
def unused(): return only_by_unused()
def only_by_unused(): ...
def only_annotated(): ...
def _private(): ...
TABLE = {"by constant": lambda: by_constant()}
def by_constant(): ...

class Base:
    def shared(self): ...

class Reached(Base):
    """A class that `Unreached` is not."""
    def __call__(self): return by_special()
    def asked(self): ...
    def not_asked(self): ...

class Unreached:
    def asked(self): ...

def by_special(): ...
'''
    )
    (tmp_path / "low" / "inner.py").write_text("def deep(): ...\ndef shallow(): ...\n")
    (tmp_path / "question.py").write_text(
        '''
from small.low import kernels
from small.low.kernels import Reached as Known, only_annotated, used

def question(value: only_annotated, other: int = used()) -> only_annotated:
    """unused()"""
    held: only_annotated = kernels.TABLE["by constant"]
    bare: only_annotated
    return Known().asked(), held().shared()
'''
    )
    return tmp_path


def test_what_is_named_is_followed_and_what_is_only_annotated_is_not(package: Path) -> None:
    assert unreached(read_code(package, "small"), below="small.low.") == {
        "inner.shallow",
        "kernels.Reached.not_asked",
        "kernels.Unreached",
        "kernels.only_annotated",
        "kernels.only_by_unused",
        "kernels.unused",
    }

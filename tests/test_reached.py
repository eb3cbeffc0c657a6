"""Every kernel is reached by a question, a command or a rule, or is on the list below."""

from __future__ import annotations

from pathlib import Path

import pytest

from reaching import read_code, unreached

# What no question reaches yet, by the subject that it waits for.  A subject that is built takes
# its names off; a kernel that waits for nothing goes.
WAITING = {
    # What an inclined bar does to loads and rates, and how the motion ratio changes: the linkages
    # have both in a form of their own.
    "inclined bars": {
        "common.bar_axes.BarPlane.load_in_plane",
        "common.bar_axes.BarPlane.vertical_rate",
        "common.bar_axes.BarPlane.vertical_travel",
        "linkage.arm_and_strut.Motion.motion_ratio_slope",
    },
}


def test_a_kernel_that_nothing_reaches_is_on_the_list_and_no_other_is() -> None:
    assert unreached(read_code()) == set().union(*WAITING.values())


def test_a_kernel_waits_for_one_subject() -> None:
    waiting = [name for names in WAITING.values() for name in names]

    assert sorted(set(waiting)) == sorted(waiting)


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

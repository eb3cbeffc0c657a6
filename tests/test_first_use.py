"""Tests of `barwright.first_use`: a process may fork whatever its other threads do at the time.

A child that waits for a thread that it has not is ended by its alarm.
"""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from barwright.computed_once import cached_property

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")

FORKED = """
import os, signal, sys, threading

# Pint would import it, and with it what a thread is to be the first to import.
sys.modules["dask"] = None

import barwright as bw

reached = threading.Event()

{program}

threading.Thread(target=call, daemon=True).start()
reached.wait()
number = os.fork()
if number == 0:
    signal.alarm(60)
    os._exit(call() != {right!r})
os._exit(os.waitpid(number, 0)[1] != 0)
"""


def ends_well(program: str, right: object) -> bool:
    """Whether a child can call what another thread was calling when its parent forked."""
    whole = FORKED.format(program=program, right=right)
    return subprocess.run([sys.executable, "-c", whole], check=False, timeout=120).returncode == 0


FIRST_QUANTITY = """
from pint.registry import LazyRegistry
from barwright.units import LENGTH, to_kind

def parse_units(self, *given, parse=LazyRegistry.__getattr__):
    reached.set()
    return parse(self, "parse_units")(*given)

LazyRegistry.parse_units = parse_units

def call():
    return to_kind("25 mm", LENGTH, key="").to("m").magnitude
"""


@pytest.mark.slow
def test_while_another_thread_makes_the_first_quantity() -> None:
    assert ends_well(FIRST_QUANTITY, 0.025)


FIRST_IMPORT = """
class Finder:
    def find_spec(self, name, path, target=None):
        if name == "{module}":
            reached.set()

sys.meta_path.insert(0, Finder())

def call():
    return {call}
"""
FIRST_CALLS = {
    "barwright.analysis.rates.rates": ("bw.rates.__name__", "rates"),
    "barwright.registry.index.shelf": ("len(bw.Registry.discover().problems)", 0),
    "importlib_metadata": ("len(bw.Registry.discover(cache=False).problems)", 0),
}


@pytest.mark.slow
@pytest.mark.parametrize("module", FIRST_CALLS)
def test_while_another_thread_is_the_first_to_import_a_module(module: str) -> None:
    call, right = FIRST_CALLS[module]

    assert ends_well(FIRST_IMPORT.replace("{module}", module).replace("{call}", call), right)


FIRST_PROPERTY = """
from barwright.analysis.corner.corner import Corner
from barwright.registry.packs.store import MemoryStore

never = threading.Event()
here = threading.current_thread()

class Blocked:
    def __getattr__(self, name):
        if threading.current_thread() is not here:
            reached.set()
            never.wait()
        raise KeyError(name)

def call():
    model = Corner(Blocked())
    try:
        return model.{name}
    except KeyError:
        return "computed"
"""


@pytest.mark.slow
@pytest.mark.parametrize("name", ["linkage", "anchorage"])
def test_while_another_thread_computes_a_property(name: str) -> None:
    assert ends_well(FIRST_PROPERTY.replace("{name}", name), "computed")


DAMAGED_INDEX = """
from barwright.registry import open_packs as opening
from barwright.registry.index import store as index_store
from barwright.registry.files.user_cache import DamagedIndexError

opening._WORTHWHILE = 0
registry = bw.Registry.discover()
right = registry.ids("bar")
load = index_store._from_folders

class Damaged(index_store.IndexStore):
    def __init__(self):
        pass

    def ids(self, kind=None):
        raise DamagedIndexError

def slow(packs):
    reached.set()
    return load(packs)

registry.store._store = Damaged()
index_store._from_folders = slow

def call():
    return registry.ids("bar") == right
"""


@pytest.mark.slow
def test_while_another_thread_makes_up_for_a_damaged_index() -> None:
    assert ends_well(DAMAGED_INDEX, right=True)


class Counted:
    """Something with a property."""

    calls = 0

    @cached_property
    def value(self) -> int:
        """How often it was computed."""
        self.calls += 1
        return self.calls


def test_a_property_is_computed_once_for_each_object() -> None:
    one, other = Counted(), Counted()

    assert (one.value, one.value, other.value) == (1, 1, 1)
    assert (one.calls, other.calls) == (1, 1)
    assert isinstance(Counted.value, cached_property)

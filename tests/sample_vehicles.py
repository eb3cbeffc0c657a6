"""Vehicles for tests of how they are named, and a store that holds them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import attrs

import barwright as bw
from barwright.registry.packs.format.pack import Pack, PackHeader, PackInfo
from barwright.registry.packs.store import MemoryStore
from sample_records import make_setup

__all__ = ["make_chassis", "store_of"]

_CHASSIS = make_setup().chassis


def make_chassis(name: str = "one", **change: Any) -> bw.parts.Chassis:
    """A vehicle of the pack `t`, of which nothing is stated that is not given."""
    usual = {"id": f"t:chassis/{name}", "title": "Van"}
    return attrs.evolve(_CHASSIS, **(usual | change))


def store_of(*vehicles: bw.parts.Chassis) -> MemoryStore:
    """A store of these vehicles and nothing else."""
    header = PackHeader(schema=2, id="t", title="t", licence="CC0-1.0", source=())
    pack = Pack(
        info=PackInfo(header=header, folder=Path(), origin="t"),
        table={},
        parts={vehicle.id: vehicle for vehicle in vehicles},
        entries={},
    )
    return MemoryStore(pack)

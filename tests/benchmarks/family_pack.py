"""Writes the pack of a family: very many chassis that differ little, and all of them sound.

They are the demo van in its three wheelbases, again and again. Either they share a few dozen
axles, as those of a real family do, or each carries a load of its own, so that no answer
serves two of them.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Mapping
from pathlib import Path

from barwright.registry.discovery.shipped import demo_folders

__all__ = ["SHARED_AXLES", "write_family"]

SHARED_AXLES = 48
"""How many axles a family shares."""

_A_FILE = 500
"""How many vehicles stand in a file, so that it stays within what is read of one."""

_SPREAD = 4.0
"""Between the lightest and the heaviest load of a wheelbase [kg]."""


def write_family(folder: Path, *, chassis: int, shared: bool) -> None:
    """Write the pack of a family.

    Parameters
    ----------
    folder : Path
        Its folder, which must not be there yet.
    chassis : int
        How many vehicles it has.
    shared : bool
        Whether they share their axles.
    """
    (demo,) = (found for found in demo_folders() if found.name.endswith("fells"))
    shutil.copytree(demo, folder)
    demo_vehicles = folder / "vans.toml"
    models = re.split(r"(?m)^(?=\[\[chassis\]\])", demo_vehicles.read_text(encoding="utf-8"))[1:]
    demo_vehicles.unlink()
    axles = SHARED_AXLES if shared else chassis
    for first in range(0, chassis, _A_FILE):
        indices = range(first, min(first + _A_FILE, chassis))
        texts = (_vehicle(models, index, axle=index % axles, axles=axles) for index in indices)
        (folder / f"vans-{first:05}.toml").write_text("".join(texts), encoding="utf-8")


def _vehicle(models: list[str], index: int, *, axle: int, axles: int) -> str:
    """Write one vehicle, with the load of one of the axles."""
    text = models[axle % len(models)]
    for key, written in _differences(text, index, heavier=_SPREAD * axle / axles).items():
        text = re.sub(rf'(?m)^{key} = ".*"$', f'{key} = "{written}"', text)
    return text.rstrip("\n") + "\n\n"


def _differences(text: str, index: int, *, heavier: float) -> Mapping[str, str]:
    """Say what a vehicle has of its own."""
    found = re.search(r'(?m)^standard_mass = "([\d.]+) kg"$', text)
    mass = float(found[1]) if found else 0.0
    return {
        "id": f"v{index}",
        "model": f"Carrier {index}",
        "title": f"Family carrier, variant {index}",
        "standard_mass": f"{mass - _SPREAD / 2.0 + heavier:.4f} kg",
    }

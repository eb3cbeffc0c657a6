"""Writes as many invented packs as one likes, installed in a folder of their own.

No two vehicles or parts have the same figures, so that nothing is gained by keeping
equal ones once.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

__all__ = ["write_pack", "write_packs"]

_PARTS_OF_A_KIND = 4
_BODIES = ("van", "box", "pick-up", "estate", "platform")
_MARKETS = ("home", "export")
_WHEELBASES = ("short", "middle", "long")


def write_packs(site: Path, *, packs: int, chassis: int) -> None:
    """Write packs as an installer would: packages, each with its metadata beside it.

    Parameters
    ----------
    site : Path
        Folder to put on the path.
    packs : int
        How many packs.
    chassis : int
        How many vehicles each pack has.
    """
    for number in range(packs):
        name = f"pack_{number:04}"
        write_pack(site / name, number=number, chassis=chassis)
        info = site / f"{name}-1.{number}.dist-info"
        info.mkdir(parents=True, exist_ok=True)
        metadata = f"Metadata-Version: 2.1\nName: pack-{number:04}\nVersion: 1.{number}\n"
        (info / "METADATA").write_text(metadata, encoding="utf-8")
        points = f"[barwright.packs]\np{number:04} = {name}\n"
        (info / "entry_points.txt").write_text(points, encoding="utf-8")


def write_pack(folder: Path, *, number: int, chassis: int) -> None:
    """Write one pack.

    Parameters
    ----------
    folder : Path
        Its folder.
    number : int
        What its id and all its figures follow from.
    chassis : int
        How many vehicles it has.
    """
    chance = random.Random(number)  # noqa: S311 - figures, not secrets
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "__init__.py").write_text("", encoding="utf-8")
    (folder / "pack.toml").write_text(_HEADER.format(number=number), encoding="utf-8")
    parts = "\n".join(_parts(chance))
    (folder / "parts.toml").write_text(parts, encoding="utf-8")
    vehicles = "\n".join(_vehicle(chance, number, index) for index in range(chassis))
    (folder / "vehicles.toml").write_text(vehicles, encoding="utf-8")


def _parts(chance: random.Random) -> Iterator[str]:
    """All parts of a pack."""
    yield _STEEL.format(modulus=_near(chance, 77.0))
    for index in range(_PARTS_OF_A_KIND):
        for text in (_ARM, _BAR, _TUBE, _ADJUSTER, _DAMPER):
            yield text.format(
                index=index,
                angle=_near(chance, 17.0),
                other_angle=-_near(chance, 180.0),
                radius=_near(chance, 338.0),
                diameter=_near(chance, 23.0),
                length=_near(chance, 904.0),
                lever=_near(chance, 118.0),
                distance=_near(chance, 142.0),
                open_length=_near(chance, 674.0),
                closed_length=_near(chance, 486.0),
            )


def _vehicle(chance: random.Random, number: int, index: int) -> str:
    """One vehicle, with parts of its pack."""
    kinds = ("arm", "bar", "tube", "adjuster", "damper")
    standard = ", ".join(f'{k} = "{k}/p{chance.randrange(_PARTS_OF_A_KIND)}"' for k in kinds)
    year = 1960 + chance.randrange(60)
    return _CHASSIS.format(
        index=index,
        maker=number % 40,
        model=number,
        body=_BODIES[index % len(_BODIES)],
        wheelbase=_WHEELBASES[index % len(_WHEELBASES)],
        market=_MARKETS[index % len(_MARKETS)],
        year=year,
        last_year=year + chance.randrange(12),
        length=_near(chance, 2400.0),
        top=_near(chance, 268.0),
        top_up=_near(chance, 611.0),
        hub=_near(chance, 92.0),
        tyre=_near(chance, 283.0),
        rate=_near(chance, 185.0),
        unsprung=_near(chance, 34.0),
        mass=_near(chance, 291.0),
        height=_near(chance, 404.0),
        tube=_near(chance, 96.0),
        bolt=_near(chance, 127.0),
        holes=_near(chance, 885.0),
        space=_near(chance, 44.0),
        standard=standard,
    )


def _near(chance: random.Random, value: float) -> float:
    """Return a figure within a tenth of a value, to four digits behind the point."""
    return round(value * chance.uniform(0.95, 1.05), 4)


_HEADER = """schema = 2
id = "p{number:04}"
title = "Invented pack {number}"
licence = "CC0-1.0"

[[source]]
id = "desk"
kind = "invented"
note = "Invented for the benchmark."
"""

_STEEL = """[[material]]
id = "steel"
title = "Steel"
source = "desk"
shear_modulus = "{modulus} GPa ± 4 GPa"
"""

_ARM = """[[arm]]
id = "p{index}"
title = "Arm {index}"
source = "desk"
radius = "{radius} mm ± 0.5 mm"

[arm.socket]
teeth = 39
form = "involute"
length = "38 mm"
minor_diameter = "28.6 mm"
required_engagement = "24 mm"
key_angle = "{angle} deg"
"""

_BAR = """[[bar]]
id = "p{index}"
title = "Bar {index}"
source = "desk"
material = "material/steel"
diameter = "{diameter} mm ± 0.05 mm"
length = "{length} mm"

[bar.arm_end]
teeth = 39
form = "involute"
length = "37 mm"
major_diameter = "30 mm"
root_diameter = "28.1 mm"
taper = "22 mm"

[bar.anchor_end]
teeth = 42
form = "involute"
length = "37 mm"
major_diameter = "32.2 mm"
root_diameter = "30.4 mm"
taper = "26 mm"
"""

_TUBE = """[[tube]]
id = "p{index}"
title = "Tube {index}"
source = "desk"
material = "material/steel"
outside_diameter = "46 mm"
bore = "38.4 mm"
lever_position = "31 mm"
lever_radius = "{lever} mm"
cap_position = "789 mm"
socket_position = "772 mm"

[tube.socket]
teeth = 42
form = "involute"
length = "38 mm"
minor_diameter = "31.1 mm"
required_engagement = "24 mm"
key_angle = "{other_angle} deg"
"""

_ADJUSTER = """[[adjuster]]
id = "p{index}"
title = "Adjuster {index}"
source = "desk"
lever_lies = "bumpward"
thread_diameter = "12 mm"
thread_pitch = "1.75 mm"
thread_start = "150 mm"
thread_end = "191.5 mm"
nut_height = "10.5 mm"

[adjuster.mounting]
kind = "swivelling"
pivot_distance = "{distance} mm"
pivot_angle = "97 deg"
"""

_DAMPER = """[[damper]]
id = "p{index}"
title = "Damper {index}"
source = "desk"
open_length = "{open_length} mm"
closed_length = "{closed_length} mm"
"""

_CHASSIS = """[[chassis]]
id = "v{index}"
title = "Maker{maker} model{model} {body}, {wheelbase}, {year}"
source = "desk"
maker = "Maker{maker}"
model = "Model{model}"
body = "{body}"
trim = "T{index}"
markets = ["{market}"]
first_built = "{year}-04"
last_built = "{last_year}-11"
wheelbase = "{length} mm"

[[chassis.axles]]
place = "front"
bar_axis = [1, 0, 0]
arm_direction = [0, 1, 0]
entry = "anchor end"
hub_outboard = "{hub} mm"
hub_up = "48 mm"
reference_angle = "-5 deg"
load_at = "tyre contact"
tyre_radius = "{tyre} mm"
tyre_rate = "{rate} N/mm"
unsprung_mass = "{unsprung} kg"
standard_mass = "{mass} kg"
standard_height = "{height} mm"
measured_height = "404 mm ± 3 mm"
measured_angle = "-5 deg ± 0.3 deg"
droop_stop = "-24 deg"
bump_stop = "17 deg"
tube_position = "{tube} mm"
bolt_position = "{bolt} mm"
cap_holes_position = "{holes} mm"
lever_allowance = "6 mm"
cap_allowance = "4 mm"
space_behind = "{space} mm"
left = {{ {standard} }}

[chassis.axles.suspension]
kind = "strut"
top_outboard = "{top} mm"
top_up = "{top_up} mm"
offset = "14 mm"
length_below = "-46 mm"
"""

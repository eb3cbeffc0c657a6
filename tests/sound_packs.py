"""Random packs that hold no slip: geometry drawn, figures rounded to what a garage writes.

Each is drawn from a seed. What must agree is computed: splines from their modules, axial figures
by adding them up, damper lengths from the stops, and the arm's key angle so that the works' height
stands near the middle of the adjuster.
"""

from __future__ import annotations

import copy
import math
import random
import tempfile
from pathlib import Path
from typing import Any, TypeAlias

import tomli_w

import barwright as bw
from barwright.analysis.corner.corner import Corner
from barwright.analysis.rates.ride_height import free_angle_for

__all__ = ["FAMILIES", "Tables", "sound_pack", "written"]

Tables: TypeAlias = dict[str, Any]
"""Records of a pack: lists of tables by the name of their kind."""

_HEADER = {
    "schema": 2,
    "id": "drawn",
    "title": "Drawn at random, invented",
    "licence": "CC0-1.0",
    "source": [{"id": "dice", "kind": "invented", "note": "Drawn at random for a test."}],
}
_NUTS = {10: (1.5, 8.4), 12: (1.75, 10.8), 14: (2.0, 12.8), 16: (2.0, 14.8)}
_SHEAR_MODULUS = 77.2e9
_GRAVITY = 9.80665


def written(tables: Tables, folder: Path) -> Path:
    """Write a pack into a folder, in one file of records."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pack.toml").write_text(tomli_w.dumps(tables.get("pack", _HEADER)), encoding="utf-8")
    records = {kind: of for kind, of in tables.items() if kind != "pack"}
    (folder / "data.toml").write_text(tomli_w.dumps(records), encoding="utf-8")
    return folder


def sound_pack(seed: int, family: str = "") -> Tables:
    """Draw a pack without a slip."""
    chance = random.Random(f"sound {seed}")  # noqa: S311 - no secret
    name = family or FAMILIES_BY_TURNS[seed % len(FAMILIES_BY_TURNS)]
    return _settled(FAMILIES[name](chance), chance)


# -- Figures -------------------------------------------------------------------------


def mm(value: float, tolerance: float = 0.0, step: float = 0.5) -> str:
    """Write a length in steps that a garage reads."""
    number = f"{round(value / step) * step:.6g}"
    return f"{number} mm ± {tolerance:g} mm" if tolerance else f"{number} mm"


def deg(value: float, tolerance: float = 0.0) -> str:
    """Write an angle to a tenth of a degree."""
    return f"{value:.1f} deg ± {tolerance:g} deg" if tolerance else f"{value:.1f} deg"


def number(figure: str) -> float:
    """Read the number of a figure."""
    return float(figure.split(maxsplit=1)[0])


def _record(id_: str, title: str, **figures: Any) -> dict[str, Any]:
    return {"id": id_, "title": f"{title}, invented", "source": "dice", **figures}


# -- Splines and bars ----------------------------------------------------------------


class _Spline:
    """Two splines of one form, the anchor end's the larger or the smaller by some teeth."""

    def __init__(self, chance: random.Random, diameter: float, more: int) -> None:
        module = chance.choice([0.6, 0.75, 0.8, 1.0])
        least = math.ceil(diameter / chance.uniform(0.78, 0.88) / module + 1.5)
        self.teeth = (least, least + more) if more >= 0 else (least - more, least)
        angle, self.over, self.under = chance.choice(
            [("30", 1.0, 1.5), ("37.5", 0.9, 1.4), ("45", 0.8, 1.2)]
        )
        self.form = f"involute {angle} deg, module {module:g}"
        self.module = module
        if chance.random() < 0.2:
            self.form = f"serrated, {angle} deg"
        self.chance = chance
        self.off = chance.uniform(0.0, 0.2), chance.uniform(-0.15, 0.15), chance.uniform(0.0, 0.25)
        self.length = round(self.major(0) * chance.uniform(1.0, 1.5))
        self.socket_length = self.length + chance.randint(1, 3)

    def major(self, end: int) -> float:
        return self.module * (self.teeth[end] + self.over - self.off[0])

    def end(self, end: int, **figures: Any) -> dict[str, Any]:
        root = self.module * (self.teeth[end] - self.under + self.off[1])
        return {
            "teeth": self.teeth[end],
            "form": self.form,
            "length": mm(self.length),
            "major_diameter": mm(self.major(end), step=0.1),
            "root_diameter": mm(root, step=0.1),
            "taper": mm(self.module * 25, step=1.0),
            **figures,
        }

    def socket(self, end: int, key_angle: float, **figures: Any) -> dict[str, Any]:
        inside = self.module * (self.teeth[end] - self.over + self.off[2])
        return {
            "teeth": self.teeth[end],
            "form": self.form,
            "length": mm(self.socket_length),
            "minor_diameter": mm(inside, step=0.1),
            "required_engagement": mm(self.socket_length * self.chance.uniform(0.6, 0.8), step=1.0),
            "key_angle": deg(key_angle, 0.2),
            **figures,
        }

    def bar_length(self, anchor_socket: float) -> float:
        """Length of a bar whose splines lie wholly in their sockets."""
        room = self.socket_length - self.length
        first, last = (self.chance.randint(0, room) for _ in range(2))
        return anchor_socket + last + self.length - first


def _diameter_for(torque: float, length: float, twist: float) -> float:
    """Body [mm] that a torque [N·m] twists by an angle [deg] over a length [mm]."""
    rate = torque / math.radians(twist)
    return 1000.0 * float((32.0 * rate * length / 1000.0 / (math.pi * _SHEAR_MODULUS)) ** 0.25)


def _bars(chance: random.Random, **standard: Any) -> list[dict[str, Any]]:
    """The standard bar, and others that go in its place."""
    bars = [_record("standard", "Standard bar", **standard)]
    diameter = number(standard["diameter"])
    for id_, factor in (("firm", 1.03), ("soft", 0.97))[: chance.randint(0, 2)]:
        thick = mm(diameter * factor, 0.05, step=0.1)
        bars.append(_record(id_, f"{id_.capitalize()} bar", **{**standard, "diameter": thick}))
    return copy.deepcopy(bars)


def _steel(chance: random.Random) -> str:
    steels = ("sae-4340", "51crv4", "sae-6150", "54sicr6")
    return f"standards:material/{chance.choice(steels)}"


# -- Families ------------------------------------------------------------------------


def _van(chance: random.Random) -> Tables:
    """A strut over a lower arm; a torque tube and a bolt that swivels or stays on a line."""
    radius, mass = chance.uniform(290, 380), chance.uniform(220, 420)
    tube_position, socket_position = chance.randint(80, 120), chance.randint(640, 980)
    start = tube_position + socket_position
    torque = mass * _GRAVITY * 1.05 * radius / 1000.0
    diameter = _diameter_for(torque, start - 25.0, chance.uniform(17, 22))
    spline = _Spline(chance, diameter, chance.randint(3, 5))
    bore = spline.major(1) * chance.uniform(1.1, 1.25)
    lever, position = chance.uniform(108, 128), chance.randint(28, 40)
    cap = socket_position + chance.randint(10, 20)
    nose = {"nose": mm(chance.randint(1, 4))} if chance.random() < 0.6 else {}
    thread = chance.choice([10, 12, 14])
    tables = {
        "arm": [
            _record("standard", "Lower arm", radius=mm(radius, 0.5), socket=spline.socket(0, 0.0))
        ],
        "bar": _bars(
            chance,
            material=_steel(chance),
            diameter=mm(diameter, 0.05, step=0.1),
            length=mm(spline.bar_length(start), 0.4),
            arm_end=spline.end(0, **nose),
            anchor_end=spline.end(1, **nose),
        ),
        "tube": [
            _record(
                "standard",
                "Torque tube",
                material="standards:material/sae-4340",
                outside_diameter=mm(bore + 2 * chance.uniform(3.5, 5.0), 0.1, step=0.1),
                bore=mm(bore, step=0.1),
                lever_position=mm(position),
                lever_radius=mm(lever, 0.3),
                cap_position=mm(cap),
                socket_position=mm(socket_position),
                socket=spline.socket(1, -181.0 + chance.uniform(-20, 20)),
            )
        ],
        "adjuster": [_bolt(chance, lever, thread)],
        "damper": [_record("standard", "Strut damper", **_gas(chance, 590.0))],
        "chassis": [
            _record("one", "Van", drive="front", wheelbase=mm(chance.uniform(2200, 3000), step=1))
        ],
    }
    tables["chassis"][0]["axles"] = [
        {
            "place": "front",
            "bar_axis": [1, 0, 0],
            "arm_direction": [0, 1, 0],
            "entry": "anchor end",
            "suspension": {
                "kind": "strut",
                "top_outboard": mm(radius * chance.uniform(0.75, 0.88)),
                "top_up": mm(chance.uniform(570, 650)),
                "offset": mm(chance.uniform(5, 20)),
                "length_below": mm(chance.uniform(-60, -20)),
            },
            "hub_outboard": mm(chance.uniform(70, 110)),
            "hub_up": mm(chance.uniform(30, 80)),
            "load_at": "tyre contact",
            **_wheel(chance, mass, (255, 320)),
            **_angles(chance, -5.0, -24.0, 13.0),
            "tube_position": mm(tube_position),
            "bolt_position": mm(tube_position + position + chance.randint(-1, 1)),
            "cap_holes_position": mm(tube_position + cap + chance.randint(-2, 2)),
            "lever_allowance": "6 mm",
            "cap_allowance": "4 mm",
            "space_behind": mm(chance.randint(20, 60)),
            "left": _parts("tube"),
        }
    ]
    return tables


def _bolt(chance: random.Random, lever: float, thread: int) -> dict[str, Any]:
    pitch, nut = _NUTS[thread]
    pivot = chance.uniform(128, 152)
    opening = math.radians(chance.uniform(70, 85))
    middle = math.sqrt(pivot**2 + lever**2 - 2 * pivot * lever * math.cos(opening))
    mounting = {
        "kind": "swivelling",
        "pivot_distance": mm(pivot, 0.3),
        "pivot_angle": deg(chance.uniform(88, 104)),
    }
    if chance.random() < 0.3:
        mounting = {
            "kind": "fixed-line",
            "line_distance": mm(lever * chance.uniform(0.84, 0.9), 0.3),
            "foot_angle": deg(chance.uniform(160, 185)),
            "foot_position": mm(middle),
        }
    return _record(
        "standard",
        "Adjuster bolt",
        mounting=mounting,
        lever_lies="bumpward",
        thread_diameter=f"{thread} mm",
        thread_pitch=f"{pitch:g} mm",
        thread_start=mm(middle - 20.0 - nut / 2),
        thread_end=mm(middle + 20.0 + nut / 2),
        nut_height=f"{nut:g} mm",
    )


def _near(chance: random.Random, value: float) -> float:
    return value * chance.uniform(0.97, 1.03)


def _truck(chance: random.Random) -> Tables:
    """Double wishbones and a key lever on a pushing bolt."""
    radius, mass = chance.uniform(395, 445), chance.uniform(420, 580)
    start = chance.randint(1100, 1320)
    diameter = _diameter_for(
        mass * _GRAVITY * 1.08 * radius / 1000.0, start, chance.uniform(25, 31)
    )
    spline = _Spline(chance, diameter, 0)
    bar = {
        "material": _steel(chance),
        "diameter": mm(diameter, 0.05, step=0.1),
        "length": mm(spline.bar_length(start), 0.5),
        "arm_end": spline.end(0, nose="4 mm"),
        "anchor_end": spline.end(1, nose="4 mm"),
    }
    position = chance.randint(20, 30)
    return {
        "arm": [
            _record("standard", "Lower arm", radius=mm(radius, 0.5), socket=spline.socket(0, 0.0))
        ],
        "bar": _bars(chance, **bar),
        "key-lever": [
            _record(
                "standard",
                "Key lever",
                lever_position=mm(position),
                face_offset=mm(_near(chance, 11.0), 0.2),
                face_start="66 mm",
                face_end="104 mm",
                socket=spline.socket(1, -160.7 + chance.uniform(-20, 20)),
            )
        ],
        "adjuster": [
            _record(
                "standard",
                "Pushing bolt",
                mounting={
                    "kind": "key-bolt",
                    "line_distance": mm(_near(chance, 86.0), 0.3),
                    "foot_angle": "180 deg",
                    "foot_position": mm(_near(chance, 38.0)),
                    "end_radius": "8.5 mm",
                },
                lever_lies="droopward",
                thread_diameter="18 mm",
                thread_pitch="2.5 mm",
                thread_start="24 mm",
                thread_end="69 mm",
            )
        ],
        "damper": [_record("standard", "Damper", **_gas(chance, 395.0))],
        "chassis": [
            _record(
                "one",
                "Truck",
                drive="rear",
                wheelbase=mm(chance.uniform(2650, 3300), step=1),
                axles=[
                    {
                        "place": "front",
                        "bar_axis": [1, 0, 0],
                        "arm_direction": [0, 1, 0],
                        "entry": "anchor end",
                        "suspension": {
                            "kind": "double-wishbone",
                            "upper_outboard": mm(radius * 0.266),
                            "upper_up": mm(_near(chance, 258.0)),
                            "upper_radius": mm(radius * 0.675),
                            "upright": mm(_near(chance, 291.0)),
                            "mount_outboard": mm(radius * 0.637),
                            "mount_up": mm(_near(chance, 412.0)),
                            "foot_along": mm(radius * 0.741),
                            "foot_above": mm(chance.uniform(10, 30)),
                        },
                        "hub_outboard": mm(chance.uniform(90, 120)),
                        "hub_up": mm(chance.uniform(90, 130)),
                        "load_at": "tyre contact",
                        **_wheel(chance, mass, (335, 385)),
                        **_angles(chance, -2.0, -19.0, 13.0),
                        "tube_position": mm(start),
                        "bolt_position": mm(start + position + chance.randint(-1, 1)),
                        "lever_allowance": "5 mm",
                        "space_behind": "70 mm",
                        **_bump_rubber(chance),
                        "left": _parts("key-lever"),
                    }
                ],
            )
        ],
    }


def _bump_rubber(chance: random.Random) -> Tables:
    if chance.random() < 0.5:
        return {}
    curve = [
        {"compression": "10 mm", "force": "900 N"},
        {"compression": "20 mm", "force": "2600 N"},
        {"compression": "30 mm", "force": "6800 N"},
    ]
    rubber = {"contact_angle": "7.5 deg", "contact_radius": "295 mm", "curve": curve}
    return {"bump_rubber": rubber}


def _trailer(chance: random.Random) -> Tables:
    """Trailing arms and a fixed socket, keyed or not."""
    radius, mass = chance.uniform(190, 340), chance.uniform(180, 420)
    start = chance.randint(600, 900)
    diameter = _diameter_for(mass * _GRAVITY * radius / 1000.0, start, chance.uniform(11, 16))
    spline = _Spline(chance, diameter, -chance.randint(3, 5))
    keyed = {} if chance.random() < 0.5 else {"keyed": False}
    axle = {
        "place": "rear",
        "bar_axis": [0, 1, 0],
        "arm_direction": [-1, 0, 0],
        "entry": "arm end",
        "suspension": {
            "kind": "swing-arm",
            "mount_outboard": mm(radius * chance.uniform(0.5, 0.65)),
            "mount_up": mm(chance.uniform(240, 300)),
            "foot_along": mm(radius * chance.uniform(0.72, 0.85)),
            "foot_above": mm(chance.uniform(0, 12)),
        },
        "hub_outboard": "0 mm",
        "hub_up": "0 mm",
        "load_at": "hub",
        **_wheel(chance, mass, (245, 310)),
        **_angles(chance, -8.0, -29.0, 7.0),
        "tube_position": mm(start),
        "space_behind": "12 mm",
        "left": {key: of for key, of in _parts("fixed-socket").items() if key != "adjuster"},
    }
    bar = {
        "material": _steel(chance),
        "diameter": mm(diameter, 0.05, step=0.1),
        "length": mm(spline.bar_length(start), 0.3),
        "arm_end": spline.end(0, nose="2 mm"),
        "anchor_end": spline.end(1, nose="2 mm"),
    }
    gas = _gas(chance, 280.0) if chance.random() < 0.3 else {}
    return {
        "arm": [
            _record(
                "standard",
                "Trailing arm",
                radius=mm(radius, 0.5),
                socket=spline.socket(0, 0.0, **keyed),
            )
        ],
        "bar": _bars(chance, **bar),
        "fixed-socket": [
            _record(
                "standard",
                "Socket in the beam",
                anchor_angle="90 deg",
                socket=spline.socket(1, -98.5 + chance.uniform(-30, 30), **keyed),
            )
        ],
        "damper": [_record("standard", "Damper", **gas)],
        "chassis": [
            _record(
                "one",
                "Trailer",
                drive="none",
                wheelbase=mm(chance.uniform(1900, 2600), step=1),
                axles=[axle],
            )
        ],
    }


def _wheel(chance: random.Random, mass: float, tyre: tuple[int, int]) -> Tables:
    unsprung = mass * chance.uniform(0.08, 0.15)
    rate = (mass + unsprung) * _GRAVITY / chance.uniform(14, 20)
    return {
        "tyre_radius": mm(chance.uniform(*tyre), step=1.0),
        "tyre_rate": f"{rate:.0f} N/mm",
        "unsprung_mass": f"{unsprung:.1f} kg",
        "standard_mass": f"{mass:.0f} kg",
    }


def _angles(chance: random.Random, rest: float, droop: float, bump: float) -> Tables:
    at = rest + chance.uniform(-1.5, 1.5)
    return {
        "reference_angle": deg(at),
        "measured_angle": deg(at + chance.choice([0.0, 0.0, 1.0]), 0.3),
        "droop_stop": deg(droop + chance.uniform(-2, 2)),
        "bump_stop": deg(bump + chance.uniform(-1.5, 2)),
    }


def _gas(chance: random.Random, length: float) -> Tables:
    if chance.random() < 0.25:
        return {}
    force = chance.uniform(120, 240)
    slope = -force / chance.uniform(350, 600)
    return {
        "gas": {
            "force": f"{force:.0f} N",
            "at_length": mm(length, step=5),
            "slope": f"{slope:.2f} N/mm",
        }
    }


def _parts(anchor: str) -> Tables:
    kinds = {"arm": "arm", "bar": "bar", "tube": anchor, "adjuster": "adjuster", "damper": "damper"}
    return {key: f"{kind}/standard" for key, kind in kinds.items()}


# -- What follows from the rest --------------------------------------------------------


def _settled(tables: Tables, chance: random.Random) -> Tables:
    """Give a pack its height, the damper's lengths and the arm's key angle."""
    axle, damper = tables["chassis"][0]["axles"][0], tables["damper"][0]
    radius, tyre = number(tables["arm"][0]["radius"]), number(axle["tyre_radius"])
    bump, rest = (math.radians(number(axle[name])) for name in ("bump_stop", "measured_angle"))
    height = tyre * chance.uniform(0.97, 1.12) + radius * (math.sin(bump) - math.sin(rest))
    axle["measured_height"] = mm(height, 3.0, step=1.0)
    axle["standard_height"] = mm(round(height) + chance.choice([0, 0, -5, 4]), step=1.0)
    damper |= {"open_length": "1100 mm", "closed_length": "90 mm"}
    gas = damper.pop("gas", None)
    corner = _corner(tables)
    shortest, longest = (1000.0 * length for length in corner.damper_span)
    stroke = longest - shortest
    opened = longest - stroke * chance.uniform(0.06, 0.15)
    closed = shortest + stroke * chance.uniform(-0.12, 0.05)
    damper |= {"open_length": mm(opened), "closed_length": mm(closed)}
    if gas:
        middle = opened - chance.uniform(0.3, 0.7) * (opened - closed)
        damper["gas"] = {**gas, "at_length": mm(middle, step=1.0)}
    corner = _corner(tables)
    off = math.degrees(_off_middle(corner))
    is_fixed = "adjuster" not in tables
    off += 0.0 if is_fixed else chance.uniform(-0.3, 0.3)
    tables["arm"][0]["socket"]["key_angle"] = deg((180.0 - off) % 360.0 - 180.0, 0.2)
    return tables


def _off_middle(corner: Corner) -> float:
    """What the standard height asks of the lever, from the middle of its thread [rad]."""
    axle = corner.setup.axle
    angle = corner.angle_at_height(axle.standard_height.m_as("m"))
    assert angle is not None
    assert corner.torsional_rates is not None
    free = free_angle_for(corner, corner.torsional_rates, angle)
    return free - corner.keyed_angle - corner.lever_middle


def _corner(tables: Tables) -> Corner:
    with tempfile.TemporaryDirectory() as folder:
        registry = bw.Registry.from_folders(written(tables, Path(folder)))
        return Corner(registry.setup("drawn:chassis/one", corner=_name(tables)))


def _name(tables: Tables) -> str:
    return f"{tables['chassis'][0]['axles'][0]['place']} left"


FAMILIES = {"van": _van, "truck": _truck, "trailer": _trailer}
"""A pack of each family, from a source of chance."""

FAMILIES_BY_TURNS = tuple(FAMILIES)

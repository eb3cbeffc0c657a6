"""What a tired person with a calliper, a photocopy and a spreadsheet writes wrong, kind by kind.

A slip is planted in the standard parts of a sound pack. ``untold`` says why nobody could tell it
from the data alone.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

import attrs

from sound_packs import Tables, number

__all__ = ["SLIPS", "Slip", "planted"]

Change: TypeAlias = Callable[[str], str]

_ANCHORS = ("tube", "key-lever", "fixed-socket")


@attrs.frozen
class Slip:
    """One kind of slip.

    Parameters
    ----------
    kind : str
        What is written wrong.
    change : callable
        Plants it in a pack; a pack that has no such figure is left as it is.
    keys : tuple of str
        Keys of which one must be named.
    untold : str
        Why nobody could tell it; empty if it can be told.
    """

    kind: str
    change: Callable[[Tables], object]
    keys: tuple[str, ...]
    untold: str = ""


def planted(slip: Slip, sound: Tables) -> Tables | None:
    """Plant a slip in a copy of a pack; none where it has nothing to be wrong."""
    pack = copy.deepcopy(sound)
    try:
        slip.change(pack)
    except (KeyError, StopIteration, IndexError):
        return None
    return None if pack == sound else pack


# -- Places --------------------------------------------------------------------------


def _holder(pack: Tables, path: str) -> tuple[dict[str, Any], str]:
    """Find the table and the key of a figure of the standard parts."""
    first, *rest = path.split(".")
    table: Any
    if first == "axle":
        table = pack["chassis"][0]["axles"][0]
    elif first == "anchor":
        table = next(pack[kind][0] for kind in _ANCHORS if kind in pack)
    else:
        table = pack[first][0]
    for name in rest[:-1]:
        table = table[name]
    _ = table[rest[-1]]
    return table, rest[-1]


def _one(path: str, change: Callable[[Any], Any]) -> Callable[[Tables], None]:
    def plant(pack: Tables) -> None:
        table, key = _holder(pack, path)
        table[key] = change(table[key])

    return plant


def _all(*changes: Callable[[Tables], object]) -> Callable[[Tables], None]:
    def plant(pack: Tables) -> None:
        for change in changes:
            change(pack)

    return plant


def _exchanged(one: str, other: str) -> Callable[[Tables], None]:
    def plant(pack: Tables) -> None:
        (first, a), (second, b) = _holder(pack, one), _holder(pack, other)
        first[a], second[b] = second[b], first[a]

    return plant


def _set(path: str, value: Any) -> Callable[[Tables], None]:
    return _one(path, lambda _: value)


def _given(path: str, value: Any) -> Callable[[Tables], None]:
    """Write a field that may have been left out."""

    def plant(pack: Tables) -> None:
        first, *rest = path.split(".")
        table, _ = _holder(pack, f"{first}.{'id' if first != 'axle' else 'place'}")
        for name in rest[:-1]:
            table = table[name]
        table[rest[-1]] = value

    return plant


# -- Slips of the pen ----------------------------------------------------------------


def _parts(figure: str) -> tuple[str, str, str]:
    """Sign and digits, unit, and tolerance with its sign."""
    found = re.fullmatch(r"(-?[\d.]+) ([^±]+?)( ± .+)?", figure)
    assert found
    return found[1], found[2], found[3] or ""


def swapped(figure: str) -> str:
    """Exchange the first two digits that differ; a figure of one digit stays as it is."""
    digits, unit, tolerance = _parts(figure)
    for first, second in ((m.start(), m.start() + 1) for m in re.finditer(r"\d(?=\d)", digits)):
        if digits[first] != digits[second] and digits[second] != "0":
            new = digits[:first] + digits[second] + digits[first] + digits[second + 1 :]
            return f"{new} {unit}{tolerance}"
    return figure


def last_swapped(figure: str) -> str:
    """Exchange the last two digits before the point."""
    digits, unit, tolerance = _parts(figure)
    whole, point, rest = digits.partition(".")
    new = whole[:-2] + whole[-1] + whole[-2]
    return f"{new}{point}{rest} {unit}{tolerance}"


def times(factor: float) -> Change:
    def change(figure: str) -> str:
        digits, unit, tolerance = _parts(figure)
        return f"{float(digits) * factor:.6g} {unit}{tolerance}"

    return change


def plus(more: float) -> Change:
    def change(figure: str) -> str:
        digits, unit, tolerance = _parts(figure)
        return f"{float(digits) + more:.6g} {unit}{tolerance}"

    return change


def unit(new: str) -> Change:
    def change(figure: str) -> str:
        digits, _, _tolerance = _parts(figure)
        return f"{digits} {new}"

    return change


def wide(tolerance: str) -> Change:
    return lambda figure: f"{figure.partition(' ± ')[0]} ± {tolerance}"


def _negative(figure: str) -> str:
    return times(-1.0)(figure)


def _more(teeth: int) -> Callable[[int], int]:
    return lambda count: count + teeth


def _scale_reading(pack: Tables) -> None:
    axle = pack["chassis"][0]["axles"][0]
    axle["standard_mass"] = (
        f"{number(axle['standard_mass']) + number(axle['unsprung_mass']):.0f} kg"
    )


def _from_ground(pack: Tables) -> None:
    axle = pack["chassis"][0]["axles"][0]
    for name in ("standard_height", "measured_height"):
        axle[name] = plus(number(axle["tyre_radius"]))(axle[name])


def _with_noses(pack: Tables) -> None:
    bar = pack["bar"][0]
    more = sum(number(bar[end]["nose"]) for end in ("arm_end", "anchor_end"))
    bar["length"] = plus(more)(bar["length"])


def _counted(end: str, holder: str, more: int) -> Callable[[Tables], None]:
    """Count one end wrong in bars and socket."""

    def plant(pack: Tables) -> None:
        for bar in pack["bar"]:
            bar[end]["teeth"] += more
        table, key = _holder(pack, f"{holder}.socket.teeth")
        table[key] += more

    return plant


def _counts_swapped(pack: Tables) -> None:
    for bar in pack["bar"]:
        one, other = bar["arm_end"], bar["anchor_end"]
        one["teeth"], other["teeth"] = other["teeth"], one["teeth"]
    _exchanged("arm.socket.teeth", "anchor.socket.teeth")(pack)


def _module(old_factor: float) -> Callable[[Tables], None]:
    def change(form: str) -> str:
        found = re.search(r"module ([\d.]+)", form)
        return (
            form if found is None else form.replace(found[1], f"{float(found[1]) * old_factor:g}")
        )

    def plant(pack: Tables) -> None:
        for bar in pack["bar"]:
            for end in ("arm_end", "anchor_end"):
                bar[end]["form"] = change(bar[end]["form"])
        for path in ("arm.socket.form", "anchor.socket.form"):
            _one(path, change)(pack)

    return plant


def _handed(sign: float) -> Callable[[Tables], None]:
    """Make the standard bars a handed pair, the keys set for it, with the blanks this way."""

    def plant(pack: Tables) -> None:
        left = pack["bar"][0]
        right = copy.deepcopy(left)
        right |= {"id": "standard-right", "title": "Right bar, invented", "made_for": "right"}
        left["made_for"] = "left"
        left["blank_angle"], right["blank_angle"] = f"{sign * 3:g} deg", f"{sign * -3:g} deg"
        pack["bar"].append(right)
        axle = pack["chassis"][0]["axles"][0]
        axle["right"] = {**axle["left"], "bar": "bar/standard-right"}
        key = pack["arm"][0]["socket"]
        sense = 1.0
        key["key_angle"] = plus(sense * 3.0)(key["key_angle"])

    return plant


def _sides_swapped(pack: Tables) -> None:
    _handed(1.0)(pack)
    axle = pack["chassis"][0]["axles"][0]
    axle["left"]["bar"], axle["right"]["bar"] = axle["right"]["bar"], axle["left"]["bar"]


def _one_sign(pack: Tables) -> None:
    _handed(1.0)(pack)
    pack["bar"][-1]["blank_angle"] = "3 deg"


def _kinds() -> Iterator[Slip]:
    """All kinds, those of the bar first."""
    yield from _of_bars()
    yield from _of_splines()
    yield from _of_anchors()
    yield from _of_adjusters()
    yield from _of_dampers()
    yield from _of_wheels()
    yield from _of_axles()
    yield from _of_suspensions()
    yield from _of_tolerances()


def _figure(kind: str, path: str, change: Callable[[Any], Any], untold: str = "") -> Slip:
    words = path.split(".")
    return Slip(f"{words[0]} {words[-1]}: {kind}", _one(path, change), (words[-1],), untold)


_NO_SCALE = "no other figure of a pack depends on it"
_NEAR = "lies within what tolerances explain"


def _steel(key: str, wrong: str) -> Callable[[Tables], None]:
    """Give the bars a steel of the pack's own, with one figure wrong."""

    def plant(pack: Tables) -> None:
        steel = {
            "id": "spring",
            "title": "Spring steel, invented",
            "source": pack["arm"][0]["source"],
            "shear_modulus": "77.2 GPa ± 3.9 GPa",
            "youngs_modulus": "206 GPa",
            "tensile_strength": "1550 MPa",
            "proof_strength": "1350 MPa",
        }
        pack["material"] = [{**steel, key: wrong}]
        for bar in pack["bar"]:
            bar["material"] = "material/spring"

    return plant


def _of_bars() -> Iterator[Slip]:
    yield _figure("digits swapped", "bar.diameter", swapped)
    yield _figure("2 mm more", "bar.diameter", plus(2.0))
    yield _figure("1 mm less", "bar.diameter", plus(-1.0))
    yield _figure("radius for diameter", "bar.diameter", times(0.5))
    yield _figure("inches as mm", "bar.diameter", times(1 / 25.4))
    yield _figure("cm for mm", "bar.diameter", unit("cm"))
    yield _figure("in for mm", "bar.diameter", unit("in"))
    yield _figure("15 mm short", "bar.length", plus(-15.0))
    yield _figure("10 mm long", "bar.length", plus(10.0))
    yield _figure("digits swapped", "bar.length", swapped)
    yield _figure("last digits swapped", "bar.length", last_swapped)
    yield _figure("point moved", "bar.length", times(0.1))
    yield Slip("bar length: with both noses", _with_noses, ("length", "nose"))
    yield Slip(
        "bar length: between the splines",
        lambda pack: _one("bar.length", plus(-2.0 * number(pack["bar"][0]["arm_end"]["length"])))(
            pack
        ),
        ("length",),
    )
    for key, wrong in (
        ("shear_modulus", "72.7 GPa ± 3.9 GPa"),
        ("shear_modulus", "77.2 MPa ± 3.9 MPa"),
        ("shear_modulus", "207 GPa ± 5 GPa"),
        ("shear_modulus", "11.2 GPa ± 0.5 GPa"),
        ("density", "7580 kg/m**3"),
        ("density", "785 kg/m**3"),
        ("youngs_modulus", "77.2 GPa"),
        ("tensile_strength", "155 MPa"),
        ("proof_strength", "1900 MPa"),
        ("permissible_shear", "80 MPa"),
    ):
        yield Slip(f"steel: {key} {wrong}", _steel(key, wrong), (key,))
    yield Slip(
        "bar ends swapped",
        _exchanged("bar.arm_end", "bar.anchor_end"),
        ("arm_end", "anchor_end", "teeth"),
    )
    yield Slip("handed bars: both signs of blank_angle wrong", _handed_wrong, ("blank_angle",))
    yield Slip("handed bars: one sign of blank_angle wrong", _one_sign, ("blank_angle",))
    yield Slip(
        "handed bars: left and right swapped",
        _sides_swapped,
        ("made_for", "left", "right", "blank_angle"),
    )
    yield Slip(
        "a blank angle on a bar for both sides",
        _given("bar.blank_angle", "3 deg"),
        ("blank_angle",),
    )
    yield Slip(
        "bar row shifted: the next bar's length", _one("bar.length", plus(86.0)), ("length",)
    )


def _handed_wrong(pack: Tables) -> None:
    _handed(1.0)(pack)
    for bar in pack["bar"]:
        if "blank_angle" in bar:
            bar["blank_angle"] = times(-1.0)(bar["blank_angle"])


def _of_splines() -> Iterator[Slip]:
    yield Slip("one tooth too few, arm end and socket", _counted("arm_end", "arm", -1), ("teeth",))
    yield Slip(
        "one tooth too many, anchor end and socket", _counted("anchor_end", "anchor", 1), ("teeth",)
    )
    yield Slip("counts of both ends swapped", _counts_swapped, ("teeth",))
    yield _figure("one too few in the bar alone", "bar.arm_end.teeth", _more(-1))
    yield _figure("one too many in the socket alone", "anchor.socket.teeth", _more(1))
    yield _figure("digits swapped", "bar.anchor_end.teeth", lambda count: int(str(count)[::-1]))
    yield Slip("module ten times", _module(10.0), ("form",))
    yield Slip("module a third more", _module(4 / 3), ("form",))
    yield _figure("misspelt", "bar.arm_end.form", lambda form: form.replace("deg", "degree"))
    for end in ("arm_end", "anchor_end"):
        yield _figure("digits swapped", f"bar.{end}.major_diameter", swapped)
        yield _figure("1.5 mm less", f"bar.{end}.root_diameter", plus(-1.5))
        yield _figure("2 mm more", f"bar.{end}.major_diameter", plus(2.0))
    yield Slip(
        "major and root diameter exchanged",
        _exchanged("bar.arm_end.major_diameter", "bar.arm_end.root_diameter"),
        ("root_diameter", "major_diameter"),
    )
    yield _figure("inside the bar's roots", "arm.socket.minor_diameter", plus(-1.8))
    yield _figure("the groove's diameter", "anchor.socket.minor_diameter", plus(2.2))
    yield _figure("radius for diameter", "arm.socket.minor_diameter", times(0.5))
    yield _figure("cm for mm", "bar.arm_end.length", unit("cm"))
    yield _figure("half of it", "bar.anchor_end.length", times(0.5))
    yield _figure("digits swapped", "arm.socket.length", swapped, "")
    yield _figure("ten times", "bar.arm_end.taper", times(10.0))
    yield _figure("that of the whole socket", "arm.socket.required_engagement", times(1.6))
    yield _figure("a tenth", "anchor.socket.required_engagement", times(0.1))
    yield _figure("sign", "arm.socket.key_angle", _negative)
    yield _figure("digits swapped", "anchor.socket.key_angle", swapped)
    yield _figure("one pitch off", "arm.socket.key_angle", plus(9.2))
    yield _figure("rad for deg", "arm.socket.key_angle", unit("rad"))
    yield _figure(
        "its complement", "anchor.socket.key_angle", lambda f: plus(-180.0)(times(-1.0)(f))
    )
    yield _figure("10 deg more", "anchor.socket.key_angle", plus(10.0))


def _of_anchors() -> Iterator[Slip]:
    yield _figure("digits swapped", "arm.radius", swapped)
    yield _figure("last digits swapped", "arm.radius", last_swapped)
    yield _figure("to the other side of the hub", "arm.radius", plus(60.0))
    yield _figure("inches as mm", "arm.radius", times(1 / 25.4))
    yield _figure("10 mm more", "arm.radius", plus(10.0), _NEAR)
    yield _figure("digits swapped", "tube.outside_diameter", swapped)
    yield _figure("10 mm more", "tube.outside_diameter", plus(10.0))
    yield _figure("radius for diameter", "tube.bore", times(0.5))
    yield _figure("digits swapped", "tube.bore", swapped)
    yield _figure("digits swapped", "tube.lever_radius", swapped)
    yield _figure("10 mm less", "tube.lever_radius", plus(-10.0))
    yield _figure("digits swapped", "tube.lever_position", swapped)
    yield _figure("10 mm less", "tube.cap_position", plus(-10.0))
    yield _figure("digits swapped", "tube.socket_position", swapped)
    yield _figure("to the far face", "tube.socket_position", plus(38.0))
    yield Slip(
        "cap and socket position exchanged",
        _exchanged("tube.cap_position", "tube.socket_position"),
        ("cap_position", "socket_position"),
    )
    yield _figure("sign", "fixed-socket.anchor_angle", _negative)
    yield _figure("from the vertical", "fixed-socket.anchor_angle", plus(-90.0))
    yield _figure("4 mm more", "key-lever.face_offset", plus(4.0))
    yield _figure("ten times", "key-lever.face_offset", times(10.0))
    yield _figure("before the bolt", "key-lever.face_end", plus(-22.0))
    yield _figure("digits swapped", "key-lever.lever_position", swapped)


def _of_adjusters() -> Iterator[Slip]:
    yield _figure("digits swapped", "adjuster.mounting.pivot_distance", swapped)
    yield _figure("5 mm more", "adjuster.mounting.pivot_distance", plus(5.0))
    yield _figure("10 deg less", "adjuster.mounting.pivot_angle", plus(-10.0))
    yield _figure("sign", "adjuster.mounting.pivot_angle", _negative)
    yield _figure("10 mm more", "adjuster.mounting.line_distance", plus(10.0))
    yield _figure("sign", "adjuster.mounting.foot_angle", plus(-20.0))
    yield _figure("15 mm less", "adjuster.mounting.foot_position", plus(-15.0))
    yield _figure(
        "the other side",
        "adjuster.lever_lies",
        lambda lies: {"bumpward": "droopward", "droopward": "bumpward"}[lies],
    )
    yield _figure("the next size", "adjuster.thread_diameter", plus(1.0))
    yield _figure("radius", "adjuster.thread_diameter", times(0.5))
    yield _figure(
        "digits swapped",
        "adjuster.thread_pitch",
        lambda f: "1.57 mm" if f != "2.5 mm" else "5.2 mm",
    )
    yield _figure("threads per inch", "adjuster.thread_pitch", lambda _: "14 mm")
    yield _figure("ten times", "adjuster.nut_height", times(10.0))
    yield _figure("half", "adjuster.nut_height", times(0.5))
    yield _figure("from the bracket", "adjuster.thread_start", plus(-30.0))
    yield _figure("digits swapped", "adjuster.thread_end", swapped)


def _of_dampers() -> Iterator[Slip]:
    yield Slip(
        "damper lengths exchanged",
        _exchanged("damper.open_length", "damper.closed_length"),
        ("open_length", "closed_length"),
    )
    yield _figure("90 mm more", "damper.open_length", plus(90.0))
    yield _figure("digits swapped", "damper.open_length", swapped)
    yield _figure("digits swapped", "damper.closed_length", swapped)
    yield _figure("60 mm less", "damper.closed_length", plus(-60.0))
    yield _figure("60 mm more", "damper.closed_length", plus(60.0))
    yield _figure("inches as mm", "damper.closed_length", times(1 / 25.4))
    yield _figure("kgf given as N", "damper.gas.force", times(1 / 9.80665))
    yield _figure("N given as kgf", "damper.gas.force", unit("kgf"))
    yield _figure("lbf given as N", "damper.gas.force", times(1 / 4.448))
    yield _figure("that of another vehicle", "damper.gas.at_length", plus(200.0))
    yield _figure("cm for mm", "damper.gas.slope", times(10.0))
    yield _figure("sign", "damper.gas.slope", _negative)
    yield _figure("point moved", "damper.damping_rate", times(10.0))


def _of_wheels() -> Iterator[Slip]:
    yield _figure("digits swapped", "chassis.wheelbase", swapped, _NO_SCALE)
    yield _figure("cm for mm", "chassis.wheelbase", unit("cm"))
    yield _figure("point moved", "chassis.wheelbase", times(0.1))
    yield _figure("diameter for radius", "axle.tyre_radius", times(2.0))
    yield _figure("rim size in inches as mm", "axle.tyre_radius", times(0.5))
    yield _figure("digits swapped", "axle.tyre_rate", times(10.0))
    yield _figure("lbf/in as N/mm", "axle.tyre_rate", times(5.71))
    yield _figure("kgf/mm as N/mm", "axle.tyre_rate", times(1 / 9.80665))
    yield _figure("a pair's", "axle.tyre_rate", times(2.0))
    yield _figure("point moved", "axle.unsprung_mass", times(0.1))
    yield _figure("lb as kg", "axle.unsprung_mass", times(2.2046))
    yield _figure("the axle's", "axle.unsprung_mass", times(2.0), _NEAR)
    yield Slip(
        "sprung and unsprung mass exchanged",
        _exchanged("axle.unsprung_mass", "axle.standard_mass"),
        ("unsprung_mass", "standard_mass"),
    )
    yield Slip("a scale reading as the sprung mass", _scale_reading, ("standard_mass",))
    yield _figure("digits swapped", "axle.standard_mass", swapped)
    yield _figure("the axle's", "axle.standard_mass", times(2.0))
    yield _figure("lb as kg", "axle.standard_mass", times(2.2046))
    yield _figure("N as kg", "axle.standard_mass", times(9.80665))


def _of_axles() -> Iterator[Slip]:
    yield _figure("digits swapped", "axle.standard_height", last_swapped)
    yield _figure("30 mm less", "axle.standard_height", plus(-30.0))
    yield Slip(
        "ground to arch for hub to arch, both", _from_ground, ("standard_height", "measured_height")
    )
    yield Slip(
        "ground to arch, standard height",
        lambda pack: _one(
            "axle.standard_height", plus(number(pack["chassis"][0]["axles"][0]["tyre_radius"]))
        )(pack),
        ("standard_height",),
    )
    yield _figure("digits swapped", "axle.measured_height", last_swapped)
    yield _figure("sign", "axle.measured_angle", _negative)
    yield _figure(
        "rad for deg", "axle.measured_angle", lambda f: f.partition(" ±")[0].replace("deg", "rad")
    )
    yield _figure("from the vertical", "axle.measured_angle", plus(-90.0))
    yield _figure("sign", "axle.reference_angle", _negative)
    yield _figure("sign", "axle.droop_stop", _negative)
    yield _figure("sign", "axle.bump_stop", _negative)
    yield Slip(
        "stops exchanged",
        _exchanged("axle.droop_stop", "axle.bump_stop"),
        ("droop_stop", "bump_stop"),
    )
    yield _figure("rad for deg", "axle.droop_stop", unit("rad"))
    yield _figure("twice", "axle.droop_stop", times(2.0))
    yield _figure("three times", "axle.bump_stop", times(3.0))
    yield _figure("inboard", "axle.hub_outboard", _negative)
    yield _figure("from the bar axis", "axle.hub_outboard", plus(330.0))
    yield _figure("below the joint", "axle.hub_up", _negative)
    yield _figure("from the ground", "axle.hub_up", plus(290.0))
    yield _figure(
        "the other point",
        "axle.load_at",
        lambda at: {"hub": "tyre contact", "tyre contact": "hub"}[at],
    )
    yield _figure(
        "the other end",
        "axle.entry",
        lambda at: {"arm end": "anchor end", "anchor end": "arm end"}[at],
    )
    yield _figure("the other axle", "axle.place", lambda at: {"front": "rear", "rear": "front"}[at])
    yield _figure("from arm end to anchor end", "axle.bar_axis", lambda axis: [-x for x in axis])
    yield _figure("that of the right wheel", "axle.arm_direction", lambda axis: [-x for x in axis])
    yield Slip(
        "bar and arm direction exchanged",
        _exchanged("axle.bar_axis", "axle.arm_direction"),
        ("bar_axis", "arm_direction"),
    )
    yield _figure("digits swapped", "axle.tube_position", swapped)
    yield _figure("20 mm more", "axle.tube_position", plus(20.0))
    yield _figure("digits swapped", "axle.bolt_position", swapped)
    yield _figure("digits swapped", "axle.cap_holes_position", swapped)
    yield _figure("ten times", "axle.lever_allowance", times(10.0))
    yield _figure("ten times", "axle.cap_allowance", times(10.0))
    yield _figure("ten times", "axle.space_behind", times(30.0))
    yield _figure("the other word", "chassis.drive", lambda _: "fwd")
    yield _figure(
        "kN for N",
        "axle.bump_rubber.curve",
        lambda curve: [{**p, "force": p["force"].replace("N", "kN")} for p in curve],
    )
    yield _figure("sign", "axle.bump_rubber.contact_angle", _negative)
    yield _figure("beyond the stop", "axle.bump_rubber.contact_angle", plus(15.0))


def _of_suspensions() -> Iterator[Slip]:
    yield _figure("beyond the wheel", "axle.suspension.top_outboard", plus(250.0))
    yield _figure("digits swapped", "axle.suspension.top_outboard", swapped)
    yield _figure("digits swapped", "axle.suspension.top_up", swapped)
    yield _figure("100 mm less", "axle.suspension.top_up", plus(-100.0))
    yield Slip(
        "strut top's figures exchanged",
        _exchanged("axle.suspension.top_outboard", "axle.suspension.top_up"),
        ("top_outboard", "top_up"),
    )
    yield _figure("sign", "axle.suspension.length_below", _negative)
    yield _figure(
        "sign",
        "axle.suspension.offset",
        _negative,
        "moves the strut by a few millimetres: " + _NEAR,
    )
    yield _figure("ten times", "axle.suspension.offset", times(10.0))
    yield _figure("sign", "axle.suspension.mount_outboard", _negative)
    yield Slip(
        "mount's figures exchanged",
        _exchanged("axle.suspension.mount_outboard", "axle.suspension.mount_up"),
        ("mount_outboard", "mount_up"),
    )
    yield _figure("100 mm more", "axle.suspension.mount_up", plus(100.0))
    yield _figure("half", "axle.suspension.foot_along", times(0.5))
    yield _figure("beyond the arm", "axle.suspension.foot_along", times(1.8))
    yield _figure("sign", "axle.suspension.upper_up", _negative)
    yield _figure("half", "axle.suspension.upper_radius", times(0.5))
    yield _figure("digits swapped", "axle.suspension.upper_radius", swapped)
    yield _figure("digits swapped", "axle.suspension.upright", swapped)
    yield _figure("50 mm more", "axle.suspension.upper_outboard", plus(50.0))


def _of_tolerances() -> Iterator[Slip]:
    yield _figure("± 5 mm for ± 0.05 mm", "bar.diameter", wide("5 mm"))
    yield _figure("± 0.05 in for ± 0.05 mm", "bar.diameter", wide("0.05 in"))
    yield _figure("± 0.5 mm for ± 0.05 mm", "bar.diameter", wide("0.5 mm"))
    yield _figure("± 5 mm for ± 0.5 mm", "arm.radius", wide("5 mm"))
    yield _figure("± 0.5 in for ± 0.5 mm", "arm.radius", wide("0.5 in"))
    yield _figure("± 2 deg for ± 0.2 deg", "arm.socket.key_angle", wide("2 deg"))
    yield _figure("± 0.2 rad for ± 0.2 deg", "anchor.socket.key_angle", wide("0.2 rad"))
    yield _figure("± 4 mm for ± 0.4 mm", "bar.length", wide("4 mm"))
    yield _figure("± 30 mm for ± 3 mm", "axle.measured_height", wide("30 mm"))
    yield _figure("± 3 deg for ± 0.3 deg", "axle.measured_angle", wide("3 deg"))
    yield _figure("± 3 mm for ± 0.3 mm", "tube.lever_radius", wide("3 mm"))
    yield _figure("± 3 mm for ± 0.3 mm", "adjuster.mounting.pivot_distance", wide("3 mm"))


SLIPS: tuple[Slip, ...] = tuple(_kinds())
"""All kinds."""

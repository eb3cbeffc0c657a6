"""Job files that describe a corner themselves, and the corner as the library has it elsewhere."""

from __future__ import annotations

import enum
import json
from typing import Any

import attrs

import barwright as bw
from barwright.parts.common.fields import figure_fields, known_or_not
from barwright.parts.common.record import Record
from barwright.registry.packs.format.keys import KIND_WORDS, key_of
from barwright.registry.packs.format.pack import KINDS
from barwright.units import unit_spelling
from gaps import with_only
from part_identity import NAMES

__all__ = ["as_known", "described", "figures_of"]

_STEEL = bw.parts.Material(id="job:material/this", title="Steel not known", shear_modulus="unknown")


def figures_of(setup: bw.Setup) -> list[str]:
    """Every figure of the parts and the axle of a corner, by the fields that lead to it."""
    holders = {**setup.parts, "axle": setup.axle}
    return sorted(path for name, one in holders.items() for path in _paths(one, name))


def _paths(record: Record, path: str) -> list[str]:
    found = []
    for field in attrs.fields(type(record)):
        value, below = getattr(record, field.name), f"{path}.{field.name}"
        if field.name in known_or_not(type(record)):
            found += [] if value is None else [below]
        elif isinstance(value, Record):
            found += (
                [f"{below}.shear_modulus"] if field.name == "material" else _paths(value, below)
            )
    return found


def as_known(setup: bw.Setup, keep: set[str]) -> bw.Setup:
    """The corner with only some figures known, also of the parts that left the works with it."""
    only = with_only(setup, keep)
    parts: dict[str, Any] = only.parts
    for name in ("bar", "anchor"):
        if hasattr(parts[name], "material"):
            is_known = f"{name}.material.shear_modulus" in keep
            steel = getattr(setup, name).material if is_known else _STEEL
            parts[name] = attrs.evolve(parts[name], material=steel)
    own = {name: attrs.evolve(part, id=_id(type(part))) for name, part in parts.items()}
    axle = attrs.evolve(only.axle, left=bw.parts.StandardParts(**own), right=None)
    chassis = bw.parts.Chassis(
        id="job:chassis/this",
        title="This vehicle",
        wheelbase="unknown",
        axles=(axle,),
        drive=setup.chassis.drive,
    )
    found = bw.Setup.standard(chassis, axle=axle, side=setup.side)
    return attrs.evolve(found, nut_turns=setup.nut_turns)


def _id(cls: type[bw.parts.Part]) -> str:
    return f"job:{next(word for word, one in KINDS.items() if one is cls)}/this"


def described(setup: bw.Setup, keep: set[str], *, vehicle: str = "", nut: str = "") -> str:
    """A job file that describes a corner, of a vehicle of a pack or of one that no pack knows."""
    lines = [f'vehicle = "{vehicle}"'] if vehicle else []
    lines += [f'corners = ["{setup.corner}"]', "wanted.same_height = true"]
    lines += [f'present.nut_turns = "{nut}"'] if nut else []
    for name, part in {**setup.parts, "axle": setup.axle}.items():
        table = _table(part, name, keep)
        if name == "axle" and not vehicle:
            table["drive"] = setup.chassis.drive
        if name == "anchor":
            table["kind"] = next(word for word, cls in KINDS.items() if cls is type(part))
        lines += [f"[{name}]", *(f"{key} = {_toml(value)}" for key, value in table.items())]
    return "\n".join(lines) + "\n"


def _table(record: Record, path: str, keep: set[str]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for field in attrs.fields(type(record)):
        value, below = getattr(record, field.name), f"{path}.{field.name}"
        if value is None or field.name in {"id", "place", "left", "right", *NAMES}:
            continue
        if field.name in known_or_not(type(record)):
            # Left out, it would say that there is none.
            if below in keep or field.default is None:
                figure = _figure(record, field.name) if below in keep else "unknown"
                found[key_of(field.name)] = figure
        elif field.name == "material":
            if f"{below}.shear_modulus" in keep:
                found["material"] = value.id
        else:
            found[key_of(field.name)] = _word(value, below, keep)
    return found


def _word(value: Any, path: str, keep: set[str]) -> Any:
    if isinstance(value, enum.Enum):
        return value.value
    if isinstance(value, tuple):
        return [_word(one, path, keep) for one in value]
    if not isinstance(value, Record):
        return value
    kept = keep if value.MAY_HAVE_GAPS else {f"{path}.{n}" for n in figure_fields(type(value))}
    kind = {"kind": KIND_WORDS[type(value)]} if type(value) in KIND_WORDS else {}
    return kind | _table(value, path, kept)


def _figure(record: Record, name: str) -> str | int:
    value = getattr(record, name)
    if name not in figure_fields(type(record)):
        return int(value)
    text = f"{value.magnitude!r} {unit_spelling(value)}"
    known = record.about[name].tolerance
    if known is None:
        return text
    return f"{text} ± {known.magnitude!r} {unit_spelling(known)}"


def _toml(value: Any) -> str:
    if isinstance(value, dict):
        inner = ", ".join(f"{key} = {_toml(one)}" for key, one in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_toml, value))}]"
    return json.dumps(value, ensure_ascii=False)

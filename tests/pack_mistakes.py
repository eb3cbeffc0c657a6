"""Slips that people make in packs: what to change in the good one, and what follows."""

from __future__ import annotations

__all__ = ["BAR", "CHANGES", "HEADER", "IDS", "TABLES"]

BAR = 'diameter = "23.3 mm ± 0.05 mm"'

SPACE = 'space_behind = "44 mm"'


def rubber(*points: str) -> str:
    """A bump rubber in the place of what it follows."""
    curve = f"[{', '.join(points)}]"
    return f'{SPACE}\nbump_rubber = {{ contact_length = "450 mm", curve = {curve} }}'


# File of the good pack, text in it, text in its place, and the problems that follow.
CHANGES: dict[str, tuple[str, str, str, list[str]]] = {
    "float for a count": ("parts.toml", "39", "39.0", ["S203 arm[0].socket.teeth"]),
    "text for a count": ("parts.toml", "39", '"39"', ["S203 arm[0].socket.teeth"]),
    "truth for a count": ("parts.toml", "39", "true", ["S203 arm[0].socket.teeth"]),
    "no count": ("parts.toml", "39", "0", ["S203 arm[0].socket.teeth"]),
    "negative count": ("parts.toml", "39", "-39", ["S203 arm[0].socket.teeth"]),
    "count beyond use": ("parts.toml", "39", "10000", ["S203 arm[0].socket.teeth"]),
    "number for text": ("parts.toml", '"Arm"', "5", ["S203 arm[0].title"]),
    "truth for text": ("parts.toml", '"Arm"', "true", ["S203 arm[0].title"]),
    "blank text": ("parts.toml", '"Arm"', '" "', ["S203 arm[0].title"]),
    "date for text": ("parts.toml", '"Arm"', "2031-01-02", ["S203 arm[0].title"]),
    "text for a truth": (
        "parts.toml",
        BAR,
        f'preset = "true"\n{BAR}',
        ["S203 bar[0].preset"],
    ),
    "number for a truth": ("parts.toml", BAR, f"preset = 1\n{BAR}", ["S203 bar[0].preset"]),
    "text for a number": (
        "vehicles.toml",
        "[1, 0, 0]",
        '[1, "0", true]',
        ["S203 chassis[0].axles[0].bar_axis[1]", "S203 chassis[0].axles[0].bar_axis[2]"],
    ),
    "not a number": (
        "vehicles.toml",
        "[1, 0, 0]",
        "[nan, inf, 0]",
        ["S203 chassis[0].axles[0].bar_axis[0]", "S203 chassis[0].axles[0].bar_axis[1]"],
    ),
    "two of three": ("vehicles.toml", "[1, 0, 0]", "[1, 0]", ["S203 chassis[0].axles[0].bar_axis"]),
    "text for a list": (
        "vehicles.toml",
        "[1, 0, 0]",
        '"100"',
        ["S203 chassis[0].axles[0].bar_axis"],
    ),
    "table for a list": (
        "vehicles.toml",
        "[[chassis.axles]]",
        "[chassis.axles]",
        ["S203 chassis[0].axles"],
    ),
    "list for a table": (
        "parts.toml",
        "gas = {",
        'gas = ["190 N"]\nx = {',
        ["S203 damper[0].gas", "S201 damper[0].x"],
    ),
    "text for a table": (
        "parts.toml",
        "gas = {",
        'gas = "190 N"\nx = {',
        ["S203 damper[0].gas", "S201 damper[0].x"],
    ),
    "misspelled key": (
        "parts.toml",
        "teeth = 39",
        "teth = 39",
        ["S201 arm[0].socket.teth"],
    ),
    "a record's own bookkeeping": (
        "parts.toml",
        BAR,
        f"about = {{}}\n{BAR}",
        ["S201 bar[0].about"],
    ),
    "wrong word": ("vehicles.toml", '"front"', '"Front"', ["S204 chassis[0].axles[0].place"]),
    "list for a word": (
        "vehicles.toml",
        '"front"',
        '["front"]',
        ["S204 chassis[0].axles[0].place"],
    ),
    "wrong kind of suspension": (
        "vehicles.toml",
        '"strut"',
        '"leaf"',
        ["S204 chassis[0].axles[0].suspension.kind"],
    ),
    "list for a kind of suspension": (
        "vehicles.toml",
        '"strut"',
        '["strut"]',
        ["S204 chassis[0].axles[0].suspension.kind"],
    ),
    "no kind of suspension": (
        "vehicles.toml",
        'kind = "strut", ',
        "",
        ["S204 chassis[0].axles[0].suspension.kind"],
    ),
    "key of the other suspension": (
        "vehicles.toml",
        "top_up =",
        "mount_up =",
        ["S201 chassis[0].axles[0].suspension.mount_up"],
    ),
    "bare figure in a curve": (
        "vehicles.toml",
        SPACE,
        rubber('{ compression = "10 mm", force = "300 N" }', '{ compression = 20, force = "1 N" }'),
        ["Q105 chassis[0].axles[0].bump_rubber.curve[1].compression"],
    ),
    "curve that falls": (
        "vehicles.toml",
        SPACE,
        rubber(
            '{ compression = "9 mm", force = "3 N" }', '{ compression = "20 mm", force = "1 N" }'
        ),
        ["S207 chassis[0].axles[0].bump_rubber.curve"],
    ),
    "numbers as a list": (
        "parts.toml",
        'open_length = "674 mm"',
        'numbers = ["1"]\nopen_length = "674 mm"',
        ["S203 damper[0].numbers"],
    ),
    "a bare part number": (
        "parts.toml",
        'open_length = "674 mm"',
        'numbers = { works = 7120455 }\nopen_length = "674 mm"',
        ["S203 damper[0].numbers.works"],
    ),
    "a bare part number in a list": (
        "parts.toml",
        'open_length = "674 mm"',
        'numbers = { works = ["1", 2] }\nopen_length = "674 mm"',
        ["S203 damper[0].numbers.works"],
    ),
    "a system with capitals": (
        "parts.toml",
        'open_length = "674 mm"',
        'numbers = { Works = "1" }\nopen_length = "674 mm"',
        ["S205 damper[0].numbers"],
    ),
    "a blank part number": (
        "parts.toml",
        'open_length = "674 mm"',
        'numbers = { works = " " }\nopen_length = "674 mm"',
        ["S204 damper[0].numbers.works"],
    ),
    "what replaces a part as text": (
        "parts.toml",
        'open_length = "674 mm"',
        'replaces = "damper/two"\nopen_length = "674 mm"',
        ["S203 damper[0].replaces"],
    ),
    "remarks as text": (
        "parts.toml",
        'open_length = "674 mm"',
        'remarks = "Rare."\nopen_length = "674 mm"',
        ["S203 damper[0].remarks"],
    ),
    "what supersedes it": (
        "parts.toml",
        'open_length = "674 mm"',
        'replaced_by = ["damper/two"]\nopen_length = "674 mm"',
        ["S201 damper[0].replaced_by"],
    ),
    "arm axis of two numbers": (
        "vehicles.toml",
        SPACE,
        f"{SPACE}\narm_axis = [1, 0]",
        ["S203 chassis[0].axles[0].arm_axis"],
    ),
    "bare figure": ("parts.toml", BAR, "diameter = 23.3", ["Q105 bar[0].diameter"]),
    "truth for a figure": ("parts.toml", BAR, "diameter = true", ["Q104 bar[0].diameter"]),
    "list for a figure": ("parts.toml", BAR, 'diameter = ["1 mm"]', ["Q104 bar[0].diameter"]),
    "figure with a comma": ("parts.toml", BAR, 'diameter = "23,3 mm"', ["Q101 bar[0].diameter"]),
    "figure of another kind": ("parts.toml", BAR, 'diameter = "23 kg"', ["Q202 bar[0].diameter"]),
    "negative figure": ("parts.toml", BAR, 'diameter = "-23 mm"', ["Q302 bar[0].diameter"]),
    "figure table with another key": (
        "steel.toml",
        "at =",
        "page =",
        ["S201 material[0].shear_modulus.page"],
    ),
    "figure table without a figure": (
        "steel.toml",
        'is = "77 GPa ± 4 GPa", ',
        "",
        ["S202 material[0].shear_modulus"],
    ),
    "figure table with a number": (
        "steel.toml",
        'is = "77 GPa ± 4 GPa"',
        "is = 77",
        ["Q105 material[0].shear_modulus"],
    ),
    "figure table in itself": (
        "steel.toml",
        'is = "77 GPa ± 4 GPa"',
        "is = {}",
        ["Q104 material[0].shear_modulus"],
    ),
    "unknown source of a figure": (
        "steel.toml",
        '"bench"',
        '"bensch"',
        ["S206 material[0].shear_modulus.source"],
    ),
    "source of a figure as list": (
        "steel.toml",
        '"bench"',
        '["bench"]',
        ["S203 material[0].shear_modulus.source"],
    ),
    "place of a figure as number": (
        "steel.toml",
        '"sheet 2"',
        "2",
        ["S203 material[0].shear_modulus.at"],
    ),
    "unknown source of a record": (
        "steel.toml",
        'source = "desk"',
        'source = "table"',
        ["S206 material[0].source"],
    ),
    "no source of a record": ("steel.toml", 'source = "desk"', "", ["S202 material[0].source"]),
    "list for the source of a record": (
        "steel.toml",
        'source = "desk"',
        'source = ["desk"]',
        ["S203 material[0].source"],
    ),
    "number for the place of a record": (
        "parts.toml",
        '"page 3"',
        "3",
        ["S203 bar[0].at"],
    ),
    "reference to nothing": (
        "parts.toml",
        '"material/steel"',
        '"material/stel"',
        ["S206 bar[0].material"],
    ),
    "reference to another kind": (
        "parts.toml",
        '"material/steel"',
        '"arm/one"',
        ["S206 bar[0].material"],
    ),
    "reference to another pack": (
        "parts.toml",
        '"material/steel"',
        '"other:material/steel"',
        ["S206 bar[0].material"],
    ),
    "record in place of a reference": (
        "parts.toml",
        '"material/steel"',
        '{ id = "x", title = "X", source = "desk", shear_modulus = "77 GPa" }',
        ["S203 bar[0].material"],
    ),
    "number for a reference": ("parts.toml", '"material/steel"', "5", ["S203 bar[0].material"]),
    "impossible dimensions": ("parts.toml", '"904 mm"', '"90 mm"', ["G103 bar[0].length"]),
    "a fillet beside a cone": (
        "parts.toml",
        'taper = "22 mm"',
        'taper = "22 mm", fillet_radius = "8 mm"',
        ["S207 bar[0].arm_end.fillet_radius"],
    ),
    "no fillet": (
        "parts.toml",
        'taper = "22 mm"',
        'taper = "0 mm", fillet_radius = "0 mm"',
        ["Q302 bar[0].arm_end.fillet_radius"],
    ),
    "a nose that is not there": (
        "parts.toml",
        'taper = "22 mm"',
        'taper = "22 mm", nose_diameter = "20 mm"',
        ["S207 bar[0].arm_end.nose_diameter"],
    ),
    "a nose as thick as the teeth": (
        "parts.toml",
        'taper = "22 mm"',
        'taper = "22 mm", nose = "3 mm", nose_diameter = "80 mm"',
        ["S207 bar[0].arm_end.nose_diameter"],
    ),
    "twist of a bar that is not pre-set": (
        "parts.toml",
        BAR,
        f'preset_twist = "90 deg"\n{BAR}',
        ["S207 bar[0].preset_twist"],
    ),
    "pre-set the other way round": (
        "parts.toml",
        BAR,
        f'preset = true\nmade_for = "left"\npreset_twist = "-90 deg"\n{BAR}',
        ["Q302 bar[0].preset_twist"],
    ),
    "bolt of no class": (
        "parts.toml",
        'thread_pitch = "1.75 mm"',
        'thread_pitch = "1.75 mm"\nproperty_class = "9.9"',
        ["S204 adjuster[0].property_class"],
    ),
    "number for a class": (
        "parts.toml",
        'thread_pitch = "1.75 mm"',
        'thread_pitch = "1.75 mm"\nproperty_class = 8.8',
        ["S204 adjuster[0].property_class"],
    ),
    "teeth named twice": (
        "parts.toml",
        'form = "involute", length = "37 mm", major_diameter = "30 mm"',
        'form = "involute", length = "37 mm", blanks = [0, 39], major_diameter = "30 mm"',
        ["S207 bar[0].arm_end.blanks"],
    ),
    # That one key rests on another, a schema of single keys cannot say.
    "blanks without the maker's": (
        "parts.toml",
        'form = "involute", length = "37 mm", major_diameter = "30 mm"',
        'form = "involute", length = "37 mm", blanks = [3], major_diameter = "30 mm"',
        ["S207 bar[0].arm_end.blanks"],
    ),
    "number for a mark": (
        "parts.toml",
        'form = "involute", length = "37 mm", major_diameter = "30 mm"',
        'form = "involute", length = "37 mm", blanks = [], mark = 3, major_diameter = "30 mm"',
        ["S203 bar[0].arm_end.mark"],
    ),
    "number for a list of teeth": (
        "parts.toml",
        'form = "involute", length = "37 mm", major_diameter = "30 mm"',
        'form = "involute", length = "37 mm", blanks = 0, major_diameter = "30 mm"',
        ["S203 bar[0].arm_end.blanks"],
    ),
}

# Text in the good pack's header, text in its place, and the first problem that follows.
HEADER = {
    "another version": ("schema = 2", "schema = 3", "P401 schema"),
    "an older version": ("schema = 2", "schema = 0", "P401 schema"),
    "version as text": ("schema = 2", 'schema = "1"', "S203 schema"),
    "version as truth": ("schema = 2", "schema = true", "S203 schema"),
    "no version": ("schema = 2", "", "S202 schema"),
    "capital in the id": ('"tiny"', '"Tiny"', "S205 id"),
    "blank in the id": ('"tiny"', '"ti ny"', "S205 id"),
    "colon in the id": ('"tiny"', '"ti:ny"', "S205 id"),
    "slash in the id": ('"tiny"', '"ti/ny"', "S205 id"),
    "dot first in the id": ('"tiny"', '"..tiny"', "S205 id"),
    "long id": ('"tiny"', f'"{"a" * 65}"', "S205 id"),
    "id as number": ('"tiny"', "5", "S203 id"),
    "two sources of one id": ('"bench"', '"desk"', "S205 source[1].id"),
    "source of no kind": ('"invented"', '"guessed"', "S204 source[0].kind"),
    "key that is unknown": ("title", "name", "S202 title"),
}

# A further file, what it holds, and the problems that follow.
TABLES = {
    "unknown table": ("x.toml", '[[barr]]\nid = "x"\n', ["S201 barr"]),
    "single brackets": ("x.toml", '[bar]\nid = "x"\n', ["S203 bar"]),
    "text for a kind": ("x.toml", 'bar = "x"\n', ["S203 bar"]),
    "entries that are no tables": (
        "x.toml",
        'bar = [1, "bar/one", []]\n',
        ["S203 bar[0]", "S203 bar[1]", "S203 bar[2]"],
    ),
    "not TOML": ("x.toml", "bar = \n", ["F103"]),
    "brackets too deep": ("x.toml", f"bar = {'[' * 500}{']' * 500}\n", ["F104"]),
}

# Text among the good pack's parts, and the id of a damper in its place.
IDS = {
    "blank": ('id = "one"\ntitle = "Damper"', 'id = "on e"\ntitle = "Damper"'),
    "capital": ('id = "one"\ntitle = "Damper"', 'id = "One"\ntitle = "Damper"'),
    "slash": ('id = "one"\ntitle = "Damper"', 'id = "a/one"\ntitle = "Damper"'),
    "path": ('id = "one"\ntitle = "Damper"', 'id = "../one"\ntitle = "Damper"'),
    "hyphen first": ('id = "one"\ntitle = "Damper"', 'id = "-"\ntitle = "Damper"'),
}

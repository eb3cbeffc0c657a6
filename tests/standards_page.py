"""The page of steels and usual figures that ship with us: ``python tests/standards_page.py``."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import barwright as bw
from barwright.parts.common.fields import figure_fields
from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.registry.packs.load import standards
from barwright.registry.usual.catalogue import UsualRange, usual_errors, usual_ranges

PAGE = Path(__file__).parents[1] / "docs" / "standards.md"

HEAD = """# The steels and usual figures that ship with the library

[Usual figures](#usual-figures) stand at the end of this page.

Every pack may refer to these steels by their ids; `barwright parts --kind material` lists them. A
strength belongs to the condition that the title names. A range is written as its middle ± half its
width; a proof strength is the least value. Every figure on this page was read in a source. Figures
that could not be read are left out. A steel without a proof strength gives no limit, so bars of it
are not judged. For the other steels the yield stress in shear is derived from the proof strength by
distortion energy.

Only the handbook can be looked up. The sheets and the table were read, but nobody noted their
authors. Before you rely on a strength, read the certificate of the bar's own heat. A shear modulus
is uncertain by about 5 %; if this matters, measure the rate. `python tests/standards_page.py`
writes this page.

The kinds of source are those of [the pack file](pack-file.md): *published* is a book or table,
*maker* a data sheet of a maker or merchant. None of these figures is *recalled*, that is, quoted
from memory.
"""

USUAL = """
## Usual figures

Nobody has measured every figure of every vehicle. For some figures the usual range is enough. If a
job or a call says `assume = "usual"`, a range of this table takes the place of such a figure where
the figure is unknown, and of no other. It is then an
[estimated figure](pack-file.md#estimated-figures): the ± of every answer includes its range, and
the answer names it.

Some ranges grow with another figure of the same part, which must be known. There is no usual range
of stops, open lengths, heights, key angles, teeth and the curve of a bump rubber: measure them.

"""

TOOLS = """
## Usual errors of tools

If you do not know how far a reading may be wrong, take the tool's usual error as its tolerance.

"""

_NAMES = {"youngs_modulus": "Young's modulus"}


def page() -> str:
    """Text of ``docs/standards.md``."""
    steels = "".join(map(_material, _materials()))
    return f"{HEAD}{steels}\n## Sources\n\n{_sources()}{USUAL}{_ranges()}{TOOLS}{_errors()}"


def _materials() -> Iterable[bw.parts.Material]:
    return [part for part in standards().parts.values() if isinstance(part, bw.parts.Material)]


def _material(material: bw.parts.Material) -> str:
    rows = [
        [_NAMES.get(name, name.replace("_", " ")), _figure(known), known.source or ""]
        for name in figure_fields(bw.parts.Material)
        if (known := material.about.get(name)) is not None
    ]
    rows = [[*row[:2], f"`{row[2].partition(':')[2]}`"] for row in rows]
    table = _lines([["figure", "value", "source"], ["---"] * 3, *rows])
    return f"\n## `{material.id}`\n\n{material.title}.\n\n{table}"


def _figure(known: bw.parts.Figure) -> str:
    spread = "" if known.tolerance is None else f" ± {known.tolerance:g~P}"
    return f"{known.value:g~P}{spread}"


def _sources() -> str:
    rows = [[f"`{s.id}`", s.kind.value, s.note] for s in standards().header.source]
    return _lines([["source", "kind", "note"], ["---"] * 3, *rows])


def _ranges() -> str:
    rows = [[f"`{one.source.id}`", *_usual(one), one.source.note] for one in usual_ranges()]
    return _lines([["name", "figure", "range", "note"], ["---"] * 4, *rows])


def _usual(one: UsualRange) -> tuple[str, str]:
    """Figure of a part and its range, which may grow with another figure."""
    part, figure = (
        name.replace("-", " ").replace("_", " ")
        for name in (DEFINITION_NAMES[one.holder], one.field)
    )
    if one.base_value is None:
        return f"{part}: {figure}", _figure(one.usual)
    base = one.base.replace("_", " ")
    return f"{part}: {figure}", f"{_figure(one.usual)} for each {one.base_value:g~P} of {base}"


def _errors() -> str:
    rows = [[one.title, f"± {one.within:g~P}", one.source.note] for one in usual_errors()]
    return _lines([["tool", "error", "note"], ["---"] * 3, *rows])


def _lines(rows: Iterable[Iterable[str]]) -> str:
    return "".join(f"| {' | '.join(row)} |\n" for row in rows)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")

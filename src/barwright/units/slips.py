"""What shops write in place of a figure, and what to write instead."""

from __future__ import annotations

import difflib
import re
from fractions import Fraction

from barwright.errors import QuantityError
from barwright.units.grammar import FIGURE, LIMITS, LONGEST_TEXT, NUMBER, PER_CENT, UNEQUAL, UNIT
from barwright.units.kinds import UNITS, Kind, a_kind, listed
from barwright.units.quantity import LARGEST

__all__ = ["MEANT", "bare", "misread", "wrong_unit"]

# What shops write, and what is meant.
MEANT = {
    "nm": "N*m",
    "n-m": "N*m",
    "n.m": "N*m",
    "nm/deg": "N*m/deg",
    "nm/rad": "N*m/rad",
    "lb/in": "lbf/in",
    "lbs/in": "lbf/in",
    "lb-in": "lbf*in",
    "in-lb": "lbf*in",
    "in-lbs": "lbf*in",
    "lb-ft": "lbf*ft",
    "ft-lb": "lbf*ft",
    "ft-lbs": "lbf*ft",
    "lb*in": "lbf*in",
    "lb*ft": "lbf*ft",
    "ft*lb": "lbf*ft",
    "lbf-ft": "lbf*ft",
    "lbf-in": "lbf*in",
    "ft-lb/deg": "lbf*ft/deg",
    "lb-ft/deg": "lbf*ft/deg",
    "lb/inch": "lbf/in",
    "lbs/inch": "lbf/in",
    "lbs": "lb",
    "kgs": "kg",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "foot": "ft",
    "feet": "ft",
    "°": "deg",
    "degree": "deg",
    "degrees": "deg",
    "n*m/°": "N*m/deg",
    "nm/°": "N*m/deg",
    "turns": "turn",
    "rev": "turn",
    "mm/rev": "mm/turn",
    "in/rev": "in/turn",
    "n/mm2": "MPa",
    "n/mm²": "MPa",
}

_BARE = re.compile(rf"\s*{NUMBER}\s*")
_COMMA = re.compile(r"\s*([+-]?[0-9]+),([0-9]+)(?![0-9,])\s*(.*)")
_FRACTION = re.compile(r"\s*(-?)(?:([0-9]{1,4})[ -]+)?([0-9]{1,4})/([0-9]{1,4})\s*(.*)")
_SHARED = re.compile(rf"\s*({NUMBER})\s*(?:±|\+/-)\s*({NUMBER})\s*({UNIT})\s*")
_LOOSE_SPREAD = re.compile(rf"\s*({NUMBER})\s*({UNIT})\s*(?:±|\+/?-)\s*({NUMBER})\s*({UNIT})?\s*")
_QUOTED = re.compile(rf"\s*({NUMBER})\s*(''|[\"″”'′’])\s*")
# These two are asked of texts with single spaces.
_WORD = r"[^\W\d_][^\s±+,;/-]*"
_SIGNED = rf"(?=[+-]){NUMBER}|0"
_LOOSE_DEVIATIONS = re.compile(
    rf"({NUMBER}) ?({_WORD})? ?({_SIGNED}) ?({_WORD})? ?[/;]? ?({_SIGNED}) ?({_WORD})?"
)
# A sign apart from its number, or behind a stroke.
_SPACED = re.compile(r" ?/?(?<!\+/) ?([+-]) ?(?=[0-9.])")
_LOOSE_RANGE = re.compile(
    rf"({NUMBER}) ?({_WORD})? ?(?:-|–|—|…|\.{{2,3}}|to) ?({NUMBER}) ?({_WORD})?"
)
_PER_CENT_WORDS = ("percent", "per-cent", "pct")
_SIDES = ("first", "second")
_THOUSANDS = 3
_FEET = "'′’"


def bare(value: object, kind: Kind, key: str) -> QuantityError:
    """Explain that a figure is a text with its unit."""
    code, remedy = "Q104", "write it as text"
    if isinstance(value, int | float) and not isinstance(value, bool):
        code, remedy = "Q301", "measure it, and write it as text"
        if abs(value) <= LARGEST:
            code, remedy = "Q105", f"write '{value:.15g} {kind.units[0]}'"
    return QuantityError(
        code,
        value=value,
        expected=f"{a_kind(kind)} with its unit, as text",
        remedy=f"{remedy}, in {listed(kind)}",
        key=key,
    )


def misread(text: str, kind: Kind, key: str) -> QuantityError:
    """Explain why a text is no figure, and what to write instead."""
    code, remedy = _advice(text, kind)
    return QuantityError(
        code,
        value=text,
        expected=f"{a_kind(kind)} as one decimal number and one unit",
        remedy=remedy,
        key=key,
    )


def _advice(text: str, kind: Kind) -> tuple[str, str]:
    """Code and remedy for a text that is no figure."""
    found = _slip(text, kind) if len(text) <= LONGEST_TEXT else None
    return found or ("Q104", f"write it like '12.5 {kind.units[0]}', in {listed(kind)}")


def _slip(text: str, kind: Kind) -> tuple[str, str] | None:
    """Code and remedy for what is often written in place of a figure."""
    return next(filter(None, (look(text, kind) for look in _SLIPS)), None)


def _comma(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _COMMA.fullmatch(text)
    if not found:
        return None
    whole, behind, rest = found.groups()
    if rest.startswith("."):
        # A comma between thousands, and a point after them.
        part, _, unit = rest.partition(" ")
        return "Q101", f"write {_rewritten(f'{whole}{behind}{part}', unit, kind)}"
    pointed = text.replace(",", ".").strip()
    if _reads(pointed, kind):
        thousands = f" or '{whole}{behind} …'" if len(behind) == _THOUSANDS else ""
        return "Q101", f"write '{pointed}'{thousands}"
    return "Q101", f"write {_rewritten(f'{whole}.{behind}', rest, kind)}"


def _fraction(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _FRACTION.fullmatch(text)
    if not found or not int(found[4]):
        return None
    number = int(found[2] or 0) + Fraction(int(found[3]), int(found[4]))
    return "Q102", f"write {_rewritten(f'{found[1]}{float(number):.15g}', found[5], kind)}"


def _shared(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _SHARED.fullmatch(text)
    if found and found[3] == PER_CENT:
        return "Q105", f"write '{found[1]} {kind.units[0]} ± {found[2]} %'"
    unit = _meant(found[3], kind) if found else ""
    return ("Q105", f"write '{found[1]} {unit} ± {found[2]} {unit}'") if found and unit else None


def _loose_spread(text: str, kind: Kind) -> tuple[str, str] | None:
    """Find a tolerance without its unit, or behind a sign of another spelling."""
    found = _LOOSE_SPREAD.fullmatch(text)
    unit = _meant(found[2], kind) if found else ""
    spread = _meant(found[4], kind) if found and found[4] else unit
    if not found or not unit or not spread:
        return None
    code = "Q104" if found[4] else "Q105"
    return code, f"write '{found[1]} {unit} ± {found[3]} {spread}'"


def _deviations(text: str, kind: Kind) -> tuple[str, str] | None:
    """Find what a figure may be above and below, spaced or parted otherwise or without units."""
    pointed = " ".join(text.replace("−", "-").replace(",", ".").split())
    plain = _SPACED.sub(r" \1", pointed).strip()
    if _reads(plain, kind):
        return "Q101" if "," in text else "Q104", f"write '{plain}'"
    found = _LOOSE_DEVIATIONS.fullmatch(plain)
    if not found:
        return None
    units = [_meant(unit, kind) for unit in found.group(2, 4, 6) if unit]
    if not all(units):
        return None
    unit = units[0] if units else kind.units[0]
    first, second = sorted(found.group(3, 5), key=float, reverse=True)
    return "Q105", f"write '{found[1]} {unit} {_deviation(first, unit)} {_deviation(second, unit)}'"


def _deviation(number: str, unit: str) -> str:
    return f"{number} {unit}" if float(number) else "0"


def _between(text: str, kind: Kind) -> tuple[str, str] | None:
    """Find limits that are joined in another way."""
    found = _LOOSE_RANGE.fullmatch(" ".join(text.split()))
    if not found or float(found[1]) >= float(found[3]):
        return None
    units = [_meant(unit, kind) for unit in found.group(2, 4) if unit]
    if not all(units):
        return None
    low, high = (units[0], units[-1]) if units else (kind.units[0], kind.units[0])
    return "Q105", f"write '{found[1]} {low} to {found[3]} {high}'"


def _quoted(text: str, kind: Kind) -> tuple[str, str] | None:
    found = _QUOTED.fullmatch(text)
    if not found or "in" not in kind.units:
        return None
    return "Q103", f"write '{found[1]} {'ft' if found[2] in _FEET else 'in'}'"


def _unfinished(text: str, kind: Kind) -> tuple[str, str] | None:
    if text.strip().lower().startswith(("nan", "inf", "-inf", "+inf")):
        return "Q301", "measure it"
    if _BARE.fullmatch(text):
        return "Q105", f"write '{text.strip()} {kind.units[0]}', in {listed(kind)}"
    return None


_SLIPS = (
    *(_comma, _fraction, _shared, _loose_spread, _between, _deviations),
    *(_quoted, _unfinished),
)


def _reads(text: str, kind: Kind) -> bool:
    """Whether the grammar takes a text for a figure of a kind."""
    found = FIGURE.fullmatch(text) or LIMITS.fullmatch(text) or UNEQUAL.fullmatch(text)
    if not found:
        return False
    groups = found.groupdict()
    deviations = [(groups[side], groups[f"{side}_unit"]) for side in _SIDES if side in groups]
    if any(number is None or (float(number) and not unit) for number, unit in deviations):
        return False
    units = [unit for name, unit in groups.items() if "unit" in name and unit]
    return all(unit.replace("·", "*") in (*kind.units, PER_CENT) for unit in units)


def _rewritten(number: str, rest: str, kind: Kind) -> str:
    """Return what to write for a number and what stood behind it, as the grammar reads it."""
    unit, _, spread = rest.replace("+/-", "±").partition("±")
    meant = _meant(unit.strip(" ."), kind) if unit.strip() else kind.units[0]
    if not meant:
        return f"{number} and one of {listed(kind)}"
    return f"'{number} {meant}'{', and its tolerance likewise' if spread else ''}"


def wrong_unit(text: str, number: str, unit: str, kind: Kind, key: str) -> QuantityError:
    """Explain a unit that is unknown, or known for something else."""
    if unit in UNITS and unit.lower() not in MEANT:
        return QuantityError(
            "Q202",
            value=text,
            expected=a_kind(kind),
            remedy=f"give it in {listed(kind)}",
            key=key,
        )
    return QuantityError(
        "Q201",
        value=text,
        expected=f"{a_kind(kind)} in {listed(kind)}",
        remedy=_unit_advice(text, number, unit, kind),
        key=key,
    )


def _unit_advice(text: str, number: str, unit: str, kind: Kind) -> str:
    """Say how a unit is spelled; one that only looks alike would be another figure."""
    if unit.lower() in _PER_CENT_WORDS:
        return f"write '%' for '{unit}'"
    meant = _meant(unit, kind)
    if not meant:
        return f"give it in {listed(kind)}"
    has_tolerance = "±" in text or "+/-" in text
    return f"write '{meant}' for '{unit}'" if has_tolerance else f"write '{number} {meant}'"


def _meant(unit: str, kind: Kind) -> str:
    """Return what the kind lists for a unit that is spelled otherwise; empty if nothing."""
    unit = unit.strip().replace("·", "*")
    meant = MEANT.get(unit.lower(), unit)
    by_lower = {spelling.lower(): spelling for spelling in kind.units}
    return by_lower.get(meant.lower(), "") or by_lower.get(_misspelt(unit).lower(), "")


def _misspelt(unit: str) -> str:
    """Return the sign of a unit that is written out with a slip; empty if it is none."""
    name = unit.lower()[:_LONGEST_UNIT].removesuffix("s")
    close = difflib.get_close_matches(name, _NAMES, 1, _ALIKE)
    return _NAMES[close[0]] if close else ""


# Written out, for what is close to them.
_NAMES = {
    "millimetre": "mm",
    "millimeter": "mm",
    "centimetre": "cm",
    "centimeter": "cm",
    "metre": "m",
    "meter": "m",
    "inche": "in",
    "kilogramme": "kg",
    "kilogram": "kg",
    "pound": "lb",
    "newton": "N",
    "degree": "deg",
    "radian": "rad",
    "hertz": "Hz",
}
_LONGEST_UNIT, _ALIKE = 40, 0.8

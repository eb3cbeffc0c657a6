"""A shear modulus is that of a steel."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.corners.slips import digits_exchanged
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.material import Material
from barwright.registry.packs.load import standards
from barwright.units import SHEAR_MODULUS, shown, si

__all__ = ["RULE"]

_CLOSE = 0.1e9
_STEELS = (75e9, 83e9)
"""Shear moduli of spring steels and tube steels [Pa], but for those that the standards list
beside them: Machinery's Handbook, moduli of spring materials (from memory)."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    return said_where_known(subject.records_of(Material), _odd)


def _odd(placed: tuple[PackPlace, Material]) -> Iterator[Remark]:
    place, steel = placed
    modulus = si(steel.shear_modulus, SHEAR_MODULUS)
    low, high = _STEELS
    published = _published()
    if low <= modulus <= high or any(abs(modulus - one) <= _CLOSE for one in published):
        return
    meant = [
        other
        for other in digits_exchanged(round(modulus / 1e9, 6))
        if any(abs(other * 1e9 - one) <= _CLOSE for one in published)
    ]
    found = f"shear_modulus {shown(steel.shear_modulus)} is unusual for a steel"
    if meant:
        message = f"{found}; {meant[0]:g} GPa is published for several: two digits may be exchanged"
        yield Remark(place.within("shear_modulus"), message)
    elif not _is_wide(steel, modulus):
        message = f"{found}; such figures lie from {low / 1e9:g} GPa to {high / 1e9:g} GPa"
        yield Remark(place.within("shear_modulus"), message)


def _is_wide(steel: Material, modulus: float) -> bool:
    """Whether the tolerance reaches the usual moduli."""
    about = steel.about.get("shear_modulus")
    width = 0.0 if about is None or about.tolerance is None else si(about.tolerance, SHEAR_MODULUS)
    low, high = _STEELS
    return modulus + width >= low and modulus - width <= high


def _published() -> tuple[float, ...]:
    steels = (part for part in standards().parts.values() if isinstance(part, Material))
    return tuple(si(steel.shear_modulus, SHEAR_MODULUS) for steel in steels)


RULE = Rule(
    name="usual-steel",
    code="R211",
    severity=Severity.WARNING,
    wants="the shear modulus of a bar or tube is that of a steel",
    tip="look it up again, or take a steel of the standards; if it is right, waive the finding",
    remarks=_remarks,
)

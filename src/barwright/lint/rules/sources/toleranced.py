"""A figure that cannot be exact has a tolerance."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.common.source import SourceKind

__all__ = ["RULE"]

_ONE_LIMIT = (
    "write both limits, like '742 mm +0.4 mm 0'; leave the one limit out if the other is not known"
)


def _remarks(subject: Subject) -> Iterator[Remark]:
    for figure in subject.figures:
        if figure.about.tolerance is not None:
            continue
        if figure.about.written:
            text = f"{figure.about.written!r} gives one limit only, and so no ±"
            yield Remark(figure.place, text, _ONE_LIMIT)
        elif figure.name == "shear_modulus":
            tip = "write it like '77.2 GPa ± 3.9 GPa': published moduli of bar steels spread by 5 %"
            yield Remark(figure.place, "a shear modulus has no tolerance", tip)
        elif figure.about.source_kind is SourceKind.MEASURED:
            yield Remark(figure.place, "a measured figure has no tolerance")


RULE = Rule(
    name="toleranced",
    code="R102",
    wants="a shear modulus and every measured figure have a tolerance, and each has two limits",
    tip="add the error of the instrument, like '742.0 mm ± 0.4 mm'",
    remarks=_remarks,
)

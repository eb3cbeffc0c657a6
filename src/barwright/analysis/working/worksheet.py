"""A working while it is being written: symbols, their values, and lines in order."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.working.expression import Expression, Symbol
from barwright.analysis.working.line import (
    GivenConstant,
    GivenFigure,
    Line,
    SolvedFigure,
    WorkingBalance,
    WorkingSection,
    WorkingStep,
)
from barwright.analysis.working.references import reference_of
from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    DAMPING,
    FORCE_UNIT,
    LENGTH_UNIT,
    MASS_UNIT,
    NO_UNIT,
    STRESS_UNIT,
    TORQUE_PER_ANGLE,
    TURNS_UNIT,
    WHEEL_RATE_UNIT,
    WorkingUnit,
)
from barwright.parts.common.fields import figure_fields
from barwright.parts.setup import Setup
from barwright.units import (
    ANGLE,
    DAMPING_RATE,
    FORCE,
    GAS_SLOPE,
    LENGTH,
    MASS,
    SHEAR_MODULUS,
    STRESS,
    TORSIONAL_RATE,
    TURNS,
    WHEEL_RATE,
    Kind,
    Quantity,
    si,
)

__all__ = ["Worksheet", "marked"]


def marked(name: str, mark: str) -> str:
    """Name a symbol of one state of the corner.

    Parameters
    ----------
    name : str
        The symbol without a state.
    mark : str
        The state; empty for the corner at rest.

    Returns
    -------
    str

    Examples
    --------
    >>> marked("z_B", "d"), marked("z'", "d"), marked("z'", ""), marked("φ_free", "d")
    ('z_Bd', "z'_d", "z'", 'φ_free_d')
    """
    if not mark:
        return name
    index = name.replace("'", "").partition("_")[2]
    return f"{name}{mark}" if len(index) == 1 else f"{name}_{mark}"


@attrs.define
class Worksheet:
    """Lines of a working, each symbol once.

    A symbol that is asked for again is the one that is there, so that a part of the working
    can ask for whatever it needs.

    Parameters
    ----------
    corner : Corner
        What is computed.
    fit : str
        Fields of the answer that lead to how the bar lies.
    has_rates : bool
        Whether the rates of bar and tube are figures of the answer.
    set_by : str
        Who sets nut and teeth; empty if they are as the job says.
    """

    corner: Corner
    fit: str = ""
    has_rates: bool = False
    set_by: str = ""
    has_fit: bool = attrs.field(default=True, init=False)
    values: dict[str, float] = attrs.field(factory=dict, init=False)
    paths: dict[str, str] = attrs.field(factory=dict, init=False)
    _lines: list[tuple[str, Line]] = attrs.field(factory=list, init=False)
    title: str = attrs.field(default="", init=False)

    @property
    def setup(self) -> Setup:
        """The corner's records."""
        return self.corner.setup

    def of_fit(self, figure: str) -> str:
        """Name a figure of how the bar lies; empty if the answer has none of them."""
        return f"{self.fit}{figure}" if self.has_fit else ""

    def begin(self, title: str) -> None:
        """Begin a section."""
        self.title = title

    def has(self, name: str) -> bool:
        """Whether a symbol is there."""
        return name in self.values

    # -- Lines ----------------------------------------------------------------------

    def given(self, name: str, words: str, path: str) -> Symbol:
        """Put down a figure of the setup; raises what an unknown one raises."""
        if not self.has(name):
            holder, _, field = path.rpartition(".")
            record = _at(self.setup, holder) if holder else self.setup
            written: Quantity = getattr(record, field)
            kind, _ = figure_fields(type(record))[field]
            by_plan = self.set_by if path in _SET else ""
            line = GivenFigure(
                symbol=name,
                meaning=words,
                si_value=float(si(written, kind)),
                unit=_UNIT_OF[kind.name],
                written=written,
                said_by=by_plan,
            )
            if not by_plan:
                self.paths[name] = path
            self._put(name, line.si_value, line)
        return Symbol(name)

    def count(self, name: str, words: str, path: str, value: float) -> Symbol:
        """Put down a count, a direction or a sign, which has no unit."""
        if not self.has(name):
            by_plan = self.set_by if path in _SET else ""
            line = GivenFigure(
                symbol=name,
                meaning=words,
                si_value=float(value),
                unit=NO_UNIT,
                said_by=by_plan,
            )
            if not by_plan:
                self.paths[name] = path
            self._put(name, line.si_value, line)
        return Symbol(name)

    def wished(
        self, name: str, words: str, written: Quantity, kind: Kind, *, said_by: str = "wanted"
    ) -> Symbol:
        """Put down a figure that is wanted, or that somebody says, and that no part has."""
        value = float(si(written, kind))
        line = GivenFigure(
            symbol=name,
            meaning=words,
            si_value=value,
            unit=_UNIT_OF[kind.name],
            written=written,
            said_by=said_by,
        )
        return self._put(name, value, line)

    def constant(
        self, name: str, words: str, value: float, unit: WorkingUnit, source: str
    ) -> Symbol:
        """Put down a constant."""
        line = GivenConstant(symbol=name, meaning=words, si_value=value, unit=unit, source=source)
        return self._put(name, value, line)

    def step(
        self,
        name: str,
        words: str,
        equation: Expression,
        unit: WorkingUnit,
        source: object,
        *,
        found: object = None,
        also: WorkingUnit | None = None,
        figure: str = "",
        kind: Kind | None = None,
    ) -> Symbol:
        """Put down what follows from figures that are there.

        Parameters
        ----------
        name, words : str
            Its symbol, and what it is.
        equation : Expression
            What it follows from.
        unit : WorkingUnit
            Unit that it is written in.
        source : str or kernel
            Where the equation comes from, or the kernel whose docstring says so.
        found : float, optional
            What the answer has for it, in SI units; what the equation comes to if left out.
        also : WorkingUnit, optional
            Another unit that later steps take it in.
        figure : str
            Figure of the answer that it is.
        kind : Kind, optional
            Of such a figure.

        Returns
        -------
        Symbol
        """
        if not self.has(name):
            value = equation.value(self.values) if found is None else float(found)  # type: ignore[arg-type]
            line = WorkingStep(
                symbol=name,
                meaning=words,
                equation=equation,
                si_value=value,
                unit=unit,
                source=source if isinstance(source, str) else reference_of(source),
                second_unit=also,
                figure=figure,
                kind=kind,
            )
            self._put(name, value, line)
        return Symbol(name)

    def solved(
        self,
        name: str,
        words: str,
        value: float,
        unit: WorkingUnit,
        how: str,
        *,
        shown_by: tuple[str, ...] = (),
        figure: str = "",
        kind: Kind | None = None,
    ) -> Symbol:
        """Put down what was solved for."""
        if not self.has(name):
            line = SolvedFigure(
                symbol=name,
                meaning=words,
                si_value=value,
                unit=unit,
                how=how,
                checked_by=shown_by,
                figure=figure,
                kind=kind,
            )
            self._put(name, value, line)
        return Symbol(name)

    def balance(
        self,
        solved: Symbol,
        words: str,
        *,
        left: Expression,
        right: Expression,
        unit: WorkingUnit,
        source: object,
    ) -> None:
        """Put a solved figure into the equation that it was solved from."""
        line = WorkingBalance(
            solved=solved.name,
            meaning=words,
            left_side=left,
            right_side=right,
            sides=(left.value(self.values), right.value(self.values)),
            unit=unit,
            source=source if isinstance(source, str) else reference_of(source),
        )
        self._lines.append((self.title, line))

    def _put(self, name: str, value: float, line: Line) -> Symbol:
        self.values[name] = value
        self._lines.append((self.title, line))
        return Symbol(name)

    # -- What it comes to ------------------------------------------------------------

    def sections(self, lines: Iterable[Line] | None = None) -> tuple[WorkingSection, ...]:
        """Return what is put down, all of it or some lines, by sections."""
        kept = None if lines is None else {id(line) for line in lines}
        found: dict[str, list[Line]] = {}
        for title, line in self._lines:
            if kept is None or id(line) in kept:
                found.setdefault(title, []).append(line)
        return tuple(WorkingSection(title=title, lines=tuple(own)) for title, own in found.items())

    @property
    def lines(self) -> tuple[Line, ...]:
        """All lines in order."""
        return tuple(line for _, line in self._lines)


# What a plan sets.
_SET = ("nut_turns", "arm_tooth", "anchor_tooth")

# Unit that the equations take a figure in, by its kind.
_UNIT_OF = {
    LENGTH.name: LENGTH_UNIT,
    ANGLE.name: ANGLE_IN_DEGREES,
    TURNS.name: TURNS_UNIT,
    MASS.name: MASS_UNIT,
    FORCE.name: FORCE_UNIT,
    STRESS.name: STRESS_UNIT,
    SHEAR_MODULUS.name: STRESS_UNIT,
    WHEEL_RATE.name: WHEEL_RATE_UNIT,
    GAS_SLOPE.name: WHEEL_RATE_UNIT,
    TORSIONAL_RATE.name: TORQUE_PER_ANGLE,
    DAMPING_RATE.name: DAMPING,
}


def _at(setup: Setup, path: str) -> Any:  # noqa: ANN401 - any record of a setup
    """Return the record at a place of a setup."""
    found: Any = setup
    for step in path.split("."):
        found = found[int(step)] if step.isdigit() else getattr(found, step)
    return found

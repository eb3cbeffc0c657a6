"""Lines of a working: figures that are given, steps, figures that were solved for, balances."""

from __future__ import annotations

from typing import TypeAlias

import attrs

from barwright.analysis.trail_facts import TrailFact
from barwright.analysis.trail_lines import TrailLine
from barwright.analysis.working.expression import Expression
from barwright.analysis.working.working_unit import WorkingUnit
from barwright.parts.common.in_short import Summarised
from barwright.units import Kind, Quantity

__all__ = [
    "GivenConstant",
    "GivenFigure",
    "Line",
    "SolvedFigure",
    "WorkingBalance",
    "WorkingSection",
    "WorkingStep",
]


@attrs.frozen(kw_only=True, repr=False)
class GivenFigure(Summarised):
    """A figure that a file, a job or a caller gives.

    Parameters
    ----------
    symbol : str
        What it is called in the equations.
    meaning : str
        What it is.
    si_value : float
        In SI units.
    unit : WorkingUnit
        Unit that the equations take it in.
    written : Quantity, optional
        As it is given; none for a count and for a direction.
    comes_from : TrailLine or TrailFact, optional
        Where it comes from; none if nothing is known of that.
    said_by : str
        Who says it, if it is no figure of a part.
    """

    symbol: str
    meaning: str
    si_value: float
    unit: WorkingUnit
    written: Quantity | None = None
    comes_from: TrailLine | TrailFact | None = None
    said_by: str = ""


@attrs.frozen(kw_only=True, repr=False)
class GivenConstant(Summarised):
    """A constant of nature or of a convention.

    Parameters
    ----------
    symbol, meaning : str
        What it is called, and what it is.
    si_value : float
        In SI units, exact.
    unit : WorkingUnit
        Unit that the equations take it in.
    source : str
        Who says so.
    """

    symbol: str
    meaning: str
    si_value: float
    unit: WorkingUnit
    source: str


@attrs.frozen(kw_only=True, repr=False)
class WorkingStep(Summarised):
    """A figure that follows from others by an equation.

    Parameters
    ----------
    symbol, meaning : str
        What it is called, and what it is.
    equation : Expression
        What it follows from.
    si_value : float
        What the answer's own kernels find, in SI units.
    unit : WorkingUnit
        Unit that it is written in.
    source : str
        Where the equation comes from.
    second_unit : WorkingUnit, optional
        Another unit that later steps take it in.
    figure : str
        Figure of the answer that it is, by the fields that lead to it; empty for one between.
    kind : Kind, optional
        What kind of figure of an answer it is.
    uncertainty : float, optional
        What stands behind its ±, in SI units.
    """

    symbol: str
    meaning: str
    equation: Expression
    si_value: float
    unit: WorkingUnit
    source: str
    second_unit: WorkingUnit | None = None
    figure: str = ""
    kind: Kind | None = None
    uncertainty: float | None = None


@attrs.frozen(kw_only=True, repr=False)
class SolvedFigure(Summarised):
    """A figure that no equation gives at once.

    Parameters
    ----------
    symbol, meaning : str
        What it is called, and what it is.
    si_value : float
        In SI units.
    unit : WorkingUnit
        Unit that it is written in.
    how : str
        How it was found, and what shows that it is right.
    checked_by : tuple of str
        Symbols of the steps that show it.
    figure : str
        Figure of the answer that it is; empty for one between.
    kind : Kind, optional
        What kind of figure of an answer it is.
    uncertainty : float, optional
        What stands behind its ±, in SI units.
    """

    symbol: str
    meaning: str
    si_value: float
    unit: WorkingUnit
    how: str
    checked_by: tuple[str, ...] = ()
    figure: str = ""
    kind: Kind | None = None
    uncertainty: float | None = None


@attrs.frozen(kw_only=True, repr=False)
class WorkingBalance(Summarised):
    """An equation that a solved figure is put into: both sides agree.

    Parameters
    ----------
    solved : str
        Symbol of that figure.
    meaning : str
        What the equation says.
    left_side, right_side : Expression
        Its sides.
    sides : (float, float)
        What they come to, in SI units.
    unit : WorkingUnit
        Unit that they are written in.
    source : str
        Where the equation comes from.
    """

    solved: str
    meaning: str
    left_side: Expression
    right_side: Expression
    sides: tuple[float, float]
    unit: WorkingUnit
    source: str


Line: TypeAlias = GivenFigure | GivenConstant | WorkingStep | SolvedFigure | WorkingBalance


@attrs.frozen(kw_only=True, repr=False)
class WorkingSection(Summarised):
    """Lines about one thing, in order.

    Parameters
    ----------
    title : str
        What they are about.
    lines : tuple of Line
        Figures that are given first used there, and what follows from them.
    """

    title: str
    lines: tuple[Line, ...]

"""The validation table: what each public computation gives, beside a figure from outside.

Rows stand in ``tests/outside/rows``, one module for each kernel module and one for answers.  A test
holds every row to its error, and ``docs/validation.md`` to the rows; to write the
page anew: ``python tests/validation.py``.
"""

from __future__ import annotations

import collections
import enum
import functools
import importlib
import inspect
import itertools
import pkgutil
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from types import ModuleType
from typing import TypeAlias

import attrs

import barwright.mechanics

PAGE = Path(__file__).parents[1] / "docs" / "validation.md"

# Two figures that agree this well differ by rounding, which is not the same on every machine.
ROUNDING = 1e-12
EXACT = 1e-6


class Kind(enum.Enum):
    """How an outside figure is known, and so how far it is independent of the code."""

    READ = "printed and read"
    REPRODUCED = "printed, read in a reproduction"
    ENGINE = "computed by an engine"
    FORMULATED = "computed by a mathematics library from our own formulation"
    RECALLED = "recalled"
    COMMON_PRACTICE = "common practice"


MEANINGS = {
    Kind.READ: "an example or a table, read in the source named",
    Kind.REPRODUCED: "the same, read in another book or page that reprints it; if only a formula "
    "is printed, the figure was worked by hand and shows that the formula was copied correctly",
    Kind.ENGINE: "by a program that knows the physics or the method, and was given the parts",
    Kind.FORMULATED: "by a program that knows no physics, from equations or outlines that "
    "were written in another way than in the code",
    Kind.RECALLED: "quoted from memory, not checked in the source",
    Kind.COMMON_PRACTICE: "a fact of the trade, without a source",
}

ENGINES = ("GTC", "MuJoCo", "PyNiteFEA", "opentorsion", "pylife", "rainflow")
LIBRARIES = ("SciPy", "mpmath", "numpy", "scikit-fem", "scipy", "shapely", "Shapely", "sympy")

# Section of the rows of answers, which of the questions give figures of their own, and which
# put these again, compare what they give, or list sources.
ANSWERS = "barwright"
FIGURED = (
    "bar_rate",
    "din_2091",
    "length_fit",
    "nut_table",
    "rates",
    "reindex",
    "ride",
    "strength",
    "tolerance",
)
WITHOUT_FIGURES = (
    "balance",
    "calibrate",
    "carry_out",
    "check_job",
    "check_jobs",
    "choose",
    "compare",
    "diagnose",
    "donors",
    "identify",
    "identify_spline",
    "needs",
    "overstress",
    "reindex_job",
    "rests_on",
    "trail",
    "usual_travel",
    "working",
)

# Kernel modules by their own names, wherever in the package they lie.
KERNELS = {
    entry.name.rpartition(".")[2]: entry.name
    for entry in pkgutil.walk_packages(barwright.mechanics.__path__, "barwright.mechanics.")
    if not entry.ispkg
}

# What computes the models of other kernels for many corners at once, or bounds of them: nothing
# there is new, and tests of its own hold it to those kernels.
FOR_MANY = frozenset(
    {
        "algebraic",
        "algebraic_linkage",
        "inclined",
        "interval",
        "kept_motions",
        "many",
        "settle_many",
        "single_root",
    }
)

# Computations whose only outside figures are coarser than a thousandth.
_PRINTED = "the outside figures are printed with few digits"
COARSE = {
    "fillets.fillet_equivalent_length": "a fit, good to a few thousandths",
    "fillets.fillet_stress_concentration": "a fit, good to a few thousandths",
    "estimated_lives.size_factor": _PRINTED,
    "estimated_lives.surface_factor": _PRINTED,
    "estimated_lives.survival_factor": _PRINTED,
    "shear_limits.corrected_endurance": "a product of factors, with one printed example",
    "sampling.draw_inputs": "random draws scatter",
    "threads.PropertyClass.proof_stress": _PRINTED,
    "threads.proof_load": _PRINTED,
    "threads.stress_area": _PRINTED,
    "threads.utilisation": _PRINTED,
}

# What a definition gives is no computation that a row could hold against anything.
DEFINITIONS = {
    "levers_without_pin.FixedAnchor.effort": "0, because nothing is turned",
    "levers_without_pin.FixedAnchor.lever_angle": "the angle given",
    "levers_without_pin.FixedAnchor.reach": "0, because nothing can be set",
    "levers_without_pin.FixedAnchor.setting": "0, because nothing can be set",
    "levers_without_pin.FixedAnchor.slope": "infinite, because no setting turns it",
}


@attrs.frozen(kw_only=True)
class Row:
    """One figure of a kernel, held against one from outside the project.

    Parameters
    ----------
    of : str
        The kernel: ``module.function`` or ``module.Class.method``; of an answer,
        ``barwright.function``.
    source : str
        Title, edition, table or example; of a library, what it solves.
    given : str
        Inputs, with units.
    unit : str
        Of both figures; empty for a number.
    expected : float or callable
        The outside figure, or what computes it.
    got : callable
        Computes the kernel's figure.
    within : float
        Relative error that is allowed.
    why : str
        Reason for an error above 1e-6: printed digits or discretisation.
    kind : Kind
        How the outside figure is known.
    """

    of: str
    source: str
    given: str
    unit: str
    expected: float | Callable[[], float]
    got: Callable[[], float]
    within: float
    kind: Kind
    why: str = ""

    def figures(self) -> tuple[float, float]:
        """Outside figure and the kernel's."""
        return self.outside(), float(self.got())

    def outside(self) -> float:
        """Outside figure."""
        expected = self.expected
        return float(expected if isinstance(expected, (int, float)) else expected())

    def kernel(self) -> object:
        """Object that the row speaks of; fails where there is none."""
        owner, name = self.place()
        return getattr(owner, name)

    def place(self) -> tuple[object, str]:
        """Module or class that holds the kernel, and its name there."""
        module, *path, name = self.of.split(".")
        inside = "barwright" if module == ANSWERS else KERNELS[module]
        owner: object = importlib.import_module(inside)
        for step in path:
            owner = getattr(owner, step)
        return owner, name


def relative_error(expected: float, got: float) -> float:
    """Of the kernel's figure, in the size of the outside one."""
    return abs(got - expected) / abs(expected)


def rows() -> list[Row]:
    """All rows, by kernel."""
    package = importlib.import_module("outside.rows")
    modules = (importlib.import_module(f"outside.rows.{m.name}") for m in _modules(package))
    return sorted((row for module in modules for row in module.ROWS), key=lambda row: row.of)


def computations() -> Iterator[str]:
    """Every public computation: of the answers, and of ``mechanics``, methods among them."""
    yield from (f"{ANSWERS}.{name}" for name in FIGURED)
    for kernel, path in sorted(KERNELS.items()):
        if kernel in FOR_MANY:
            continue
        module = importlib.import_module(path)
        for name in module.__all__:
            yield from _computations(kernel, name, getattr(module, name))


def _modules(package: ModuleType) -> Iterator[pkgutil.ModuleInfo]:
    return iter(sorted(pkgutil.iter_modules(package.__path__), key=lambda entry: entry.name))


def _computations(module: str, name: str, found: object) -> Iterator[str]:
    if inspect.isfunction(found):
        yield f"{module}.{name}"
    elif inspect.isclass(found) and not inspect.isabstract(found):
        # A listing of an enumeration leaves out what its members compute.
        for own in sorted({*dir(found), *vars(found)}):
            if not own.startswith("_") and _computes(inspect.getattr_static(found, own)):
                yield f"{module}.{name}.{own}"


def _computes(member: object) -> bool:
    return isinstance(member, (property, functools.cached_property, classmethod)) or (
        inspect.isfunction(member)
    )


# -- The page ----------------------------------------------------------------

HEAD = """# Validation

This page compares every public computation of `barwright.mechanics` with a figure from outside the
project. It does the same for every answer that computes figures itself. Not every outside figure
is equally independent of the code. The column *known* says how each one was obtained:

{kinds}
The tests compute each row again. A test fails in any of these cases:

- The error is larger than allowed.
- An outside figure was computed with the project's own code.
- The result is changed by 0.1 % (or by three times the allowed error, if that is more), and the
  row still passes.
- A public computation has no row that detects a change of 0.1 %.

For these computations, no outside figure is precise enough to detect 0.1 %:

{coarse}
These results are definitions and have no row:

{definitions}
`python tests/validation.py` writes this page. It shows an error below 1e-12 as *rounding*. If the
allowed error is above 1e-6, the reason stands beside it: for example the number of printed digits,
or the mesh.
"""

COLUMNS = ("computation", "outside source", "given", "expected", "got", "error", "allowed", "known")

Figures: TypeAlias = Callable[["Row"], tuple[float, float]]


def page(figures: Figures = Row.figures) -> str:
    """Text of ``docs/validation.md``."""
    held = rows()
    by_module = itertools.groupby(held, key=lambda row: row.of.partition(".")[0])
    return _head(held) + "".join(_section(module, list(of), figures) for module, of in by_module)


def _head(held: list[Row]) -> str:
    counts = collections.Counter(row.kind.value for row in held)
    kinds = _line(("known", "rows", "meaning")) + _line(["---"] * 3)
    kinds += "".join(_line((k.value, str(counts[k.value]), MEANINGS[k])) for k in Kind)
    kinds += _line(("all", str(len(held)), ""))
    coarse = "".join(f"- `{name}`: {why}\n" for name, why in COARSE.items())
    definitions = "".join(f"- `{name}`: {why}\n" for name, why in DEFINITIONS.items())
    return HEAD.format(kinds=kinds, coarse=coarse, definitions=definitions)


def _section(module: str, held: list[Row], figures: Figures) -> str:
    name = "The answers" if module == ANSWERS else module
    head = f"\n## {name}\n\n{_line(COLUMNS)}{_line(['---'] * len(COLUMNS))}"
    return head + "".join(_line(_cells(row, *figures(row))) for row in held)


def _line(texts: Iterable[str]) -> str:
    return "| " + " | ".join(texts) + " |\n"


def _cells(row: Row, outside: float, own: float) -> list[str]:
    unit = f" {row.unit}" if row.unit else ""
    return [
        f"`{row.of.partition('.')[2]}`",
        row.source,
        row.given,
        f"{outside:.6g}{unit}",
        f"{own:.6g}{unit}",
        _shown_error(relative_error(outside, own)),
        f"{row.within:.1g}" + (f": {row.why}" if row.why else ""),
        row.kind.value,
    ]


def _shown_error(error: float) -> str:
    return "rounding" if error < ROUNDING else f"{error:.0e}"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")

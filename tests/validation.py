"""The validation table: what each public computation gives, beside a figure from outside.

Rows stand in ``tests/outside/rows``, one module for each kernel module.  A test
holds every row to its error, and ``docs/validation.md`` to the rows; to write the
page anew: ``python tests/validation.py``.
"""

from __future__ import annotations

import enum
import functools
import importlib
import inspect
import itertools
import pkgutil
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from types import ModuleType

import attrs

import barwright.mechanics

PAGE = Path(__file__).parents[1] / "docs" / "validation.md"

# Two figures that agree this well differ by rounding, which is not the same on every machine.
ROUNDING = 1e-12
EXACT = 1e-6


class Flag(enum.Enum):
    """How the outside figure is known."""

    READ = ""
    ENGINE = "computed"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice, no source"


@attrs.frozen(kw_only=True)
class Row:
    """One figure of a kernel, held against one from outside the project.

    Parameters
    ----------
    of : str
        The kernel: ``module.function`` or ``module.Class.method``.
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
    flag : Flag
        How the outside figure is known.
    """

    of: str
    source: str
    given: str
    unit: str
    expected: float | Callable[[], float]
    got: Callable[[], float]
    within: float
    why: str = ""
    flag: Flag = Flag.READ

    def figures(self) -> tuple[float, float]:
        """Outside figure and the kernel's."""
        outside = self.expected if isinstance(self.expected, (int, float)) else self.expected()
        return float(outside), float(self.got())

    def kernel(self) -> object:
        """Object that the row speaks of; fails where there is none."""
        module, *path = self.of.split(".")
        found: object = importlib.import_module(f"barwright.mechanics.{module}")
        for name in path:
            found = getattr(found, name)
        return found


def relative_error(expected: float, got: float) -> float:
    """Of the kernel's figure, in the size of the outside one."""
    return abs(got - expected) / abs(expected)


def rows() -> list[Row]:
    """All rows, by kernel."""
    package = importlib.import_module("outside.rows")
    modules = (importlib.import_module(f"outside.rows.{m.name}") for m in _modules(package))
    return sorted((row for module in modules for row in module.ROWS), key=lambda row: row.of)


def kernels() -> Iterator[str]:
    """Every public computation of ``mechanics``: functions, and what a public class computes."""
    for entry in _modules(barwright.mechanics):
        module = importlib.import_module(f"barwright.mechanics.{entry.name}")
        for name in module.__all__:
            yield from _computations(entry.name, name, getattr(module, name))


def _modules(package: ModuleType) -> Iterator[pkgutil.ModuleInfo]:
    return iter(sorted(pkgutil.iter_modules(package.__path__), key=lambda entry: entry.name))


def _computations(module: str, name: str, found: object) -> Iterator[str]:
    if inspect.isfunction(found):
        yield f"{module}.{name}"
    elif inspect.isclass(found) and not inspect.isabstract(found):
        for own in dir(found):
            if not own.startswith("_") and _computes(inspect.getattr_static(found, own)):
                yield f"{module}.{name}.{own}"


def _computes(member: object) -> bool:
    return isinstance(member, (property, functools.cached_property, classmethod)) or (
        inspect.isfunction(member)
    )


# -- The page ----------------------------------------------------------------

HEAD = """# Validation

What each public computation of `barwright.mechanics` gives, beside a figure from outside
the project: a published one, or one that a general-purpose library computes from the raw
physics. The tests compute each row anew, hold it to the error that is allowed, and fail
where a public computation has none. This page is written by `python tests/validation.py`.

An error under 1e-12 is rounding and shown as such. Where the error that is allowed is
above 1e-6, its reason stands beside it: the digits that were printed, or the mesh.
`computed` marks a library's figure, `from memory` one that was recalled and not read in
its source, and `common practice, no source` a fact of the trade.
"""

COLUMNS = ("kernel", "outside source", "given", "expected", "got", "error", "allowed", "known")


def page() -> str:
    """Text of ``docs/validation.md``."""
    by_module = itertools.groupby(rows(), key=lambda row: row.of.partition(".")[0])
    return HEAD + "".join(_section(module, list(held)) for module, held in by_module)


def _section(module: str, held: list[Row]) -> str:
    head = f"\n## {module}\n\n{_line(COLUMNS)}{_line(['---'] * len(COLUMNS))}"
    return head + "".join(_line(cells(row)) for row in held)


def _line(texts: Iterable[str]) -> str:
    return "| " + " | ".join(texts) + " |\n"


def cells(row: Row) -> list[str]:
    """Cells of a row's line."""
    outside, own = row.figures()
    unit = f" {row.unit}" if row.unit else ""
    return [
        f"`{row.of.partition('.')[2]}`",
        row.source,
        row.given,
        f"{outside:.6g}{unit}",
        f"{own:.6g}{unit}",
        _shown_error(relative_error(outside, own)),
        f"{row.within:.1g}" + (f": {row.why}" if row.why else ""),
        row.flag.value,
    ]


def _shown_error(error: float) -> str:
    return "rounding" if error < ROUNDING else f"{error:.0e}"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")

"""Every kernel has a page that shows its docstrings and a figure that its functions draw."""

from __future__ import annotations

import importlib
import pkgutil
import re
from pathlib import Path

import barwright.mechanics
import kernel_figures
import validation
from each_case import each_case

DOCS = Path(__file__).parents[2] / "docs"
PAGES = DOCS / "kernels"
# What a kernel accepts and returns, how it takes one number or many, and what it refuses: nothing
# there is computed, so that there is nothing to be drawn.  Nor is there anything new in what
# computes the models of other kernels for many corners at once, or bounds of them.
WITHOUT_A_MODEL = {"interface", "one_or_many", "requirements", "types", *validation.FOR_MANY}
MODULES = {
    entry.name.rpartition(".")[2]: entry.name
    for entry in pkgutil.walk_packages(barwright.mechanics.__path__, "barwright.mechanics.")
    if not entry.ispkg
}
KERNELS = MODULES.keys() - WITHOUT_A_MODEL


def test_every_kernel_has_a_page_and_a_figure_and_no_other_has() -> None:
    assert {path.stem for path in PAGES.glob("*.md")} == KERNELS
    assert {path.stem for path in PAGES.glob("*.svg")} == KERNELS
    assert set(kernel_figures.FIGURES) == KERNELS


@each_case("kernel", sorted(KERNELS))
def test_a_page_shows_its_figure_and_its_docstrings(kernel: str) -> None:
    page = (PAGES / f"{kernel}.md").read_text(encoding="utf-8")

    ((words, file),) = re.findall(r"!\[([^\]]*)\]\(([^)]+)\)", page)
    assert file == f"{kernel}.svg"
    assert len(words) > 40
    assert f".. automodule:: {MODULES[kernel]}\n" in page


@each_case("kernel", sorted(KERNELS))
def test_a_kernel_says_what_it_assumes_and_where_it_ends(kernel: str) -> None:
    """About ten lines, in the module's own docstring, which the page shows."""
    module = importlib.import_module(MODULES[kernel])

    assert 6 <= len([line for line in (module.__doc__ or "").splitlines() if line.strip()]) <= 24


def test_the_committed_figures_are_what_the_script_draws(tmp_path: Path) -> None:
    kernel_figures.main([str(tmp_path)])
    drawn = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    kept = {path.name: path.read_bytes() for path in PAGES.glob("*.svg")}

    stale = sorted(name for name in drawn.keys() | kept.keys() if drawn.get(name) != kept.get(name))
    assert stale == [], "run: python docs/kernel_figures.py"

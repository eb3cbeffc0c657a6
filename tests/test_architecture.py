"""Rules of the house that no import contract can keep; `pyproject.toml` has the contracts."""

from __future__ import annotations

import ast
import functools
from collections.abc import Iterator, Mapping
from pathlib import Path

import barwright
from each_case import each_case

SOURCE = Path(barwright.__file__).parent
MODULES = {
    ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__"): path
    for path in SOURCE.rglob("*.py")
}


@functools.cache
def trees() -> Mapping[str, ast.Module]:
    """Syntax of every module, by its name within the package."""
    return {name: ast.parse(path.read_text(encoding="utf-8")) for name, path in MODULES.items()}


def test_a_pack_holds_data_and_no_code() -> None:
    plugins = SOURCE.parents[1] / "plugins"
    for path in plugins.rglob("*.py"):
        statements = ast.parse(path.read_text(encoding="utf-8")).body
        assert all(
            isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
            for node in statements
        ), path


# What a reader takes in at one sitting.
MOST_LINES = 400


def test_no_module_is_long() -> None:
    lines = {
        path.relative_to(SOURCE).as_posix(): len(path.read_text(encoding="utf-8").splitlines())
        for path in SOURCE.rglob("*.py")
    }

    assert {name: count for name, count in lines.items() if count > MOST_LINES} == {}


# -- Figures ------------------------------------------------------------------------------

FIGURES = {"Real", "Whole", "float", "int", "Quantity", "FigureLike"}


def test_no_two_figures_are_told_apart_by_their_order() -> None:
    unnamed = [
        (module, node.name)
        for module, tree in trees().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
        if len(figures_in_a_row(node)) > 1
    ]

    assert unnamed == []


def figures_in_a_row(function: ast.FunctionDef) -> list[str]:
    """Parameters that are figures, and that a call may give by their place."""
    by_place = (*function.args.posonlyargs, *function.args.args)
    return [a.arg for a in by_place if a.annotation and ast.unparse(a.annotation) in FIGURES]


def test_only_units_turns_one_unit_into_another() -> None:
    # A constant of the trade may stand in degrees, and a message may be read in them.
    turned = [
        (module, ast.unparse(call))
        for module, tree in trees().items()
        if not module.startswith("units")
        for call in ast.walk(tree)
        if isinstance(call, ast.Call) and ast.unparse(call.func).endswith((".radians", "deg2rad"))
        if not isinstance(call.args[0], ast.Constant)
    ]

    assert turned == []


# -- A process may fork at any time -----------------------------------------------------

# A lock of its own, with a hook at fork.
LOCKED = {"first_use", "registry.index.file"}
# Of the command line and of pytest, which have one thread.
OF_ONE_THREAD = ("cli", "pytest_plugin")


@each_case("module", sorted(MODULES.keys() - {"first_use"}))
def test_nothing_can_be_left_locked_by_a_fork(module: str) -> None:
    used = {
        ast.unparse(node) for node in ast.walk(trees()[module]) if isinstance(node, ast.Attribute)
    }

    assert "functools.cached_property" not in used or module == "computed_once"
    assert module in LOCKED or not used & {"threading.Lock", "threading.RLock"}


@each_case("module", sorted(m for m in MODULES if not m.startswith(OF_ONE_THREAD)))
def test_what_is_imported_on_first_use_is_imported_under_the_lock(module: str) -> None:
    tree = trees()[module]
    functions = (n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef))
    late = {node for function in functions for node in importing(function)}
    under = {
        node
        for block in ast.walk(tree)
        if isinstance(block, ast.With) and ast.unparse(block.items[0].context_expr) == "FIRST_USE"
        for node in importing(block)
    }

    assert late <= under


def importing(tree: ast.AST) -> Iterator[ast.AST]:
    """Import statements anywhere in a syntax tree."""
    return (node for node in ast.walk(tree) if isinstance(node, ast.Import | ast.ImportFrom))

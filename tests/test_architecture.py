"""Rules of the house that no import contract can keep; `pyproject.toml` has the contracts."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator

from each_case import each_case
from source_trees import MODULES, SOURCE, nodes


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
        for module in MODULES
        for node in nodes(module)
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
        for module in MODULES
        if not module.startswith("units")
        for call in nodes(module)
        if isinstance(call, ast.Call) and turns(call.func)
        if not isinstance(call.args[0], ast.Constant)
    ]

    assert turned == []


def turns(function: ast.expr) -> bool:
    """Whether an expression is a function of a library that turns degrees into radians."""
    is_radians = isinstance(function, ast.Attribute) and function.attr == "radians"
    return is_radians or "deg2rad" in {getattr(function, "attr", ""), getattr(function, "id", "")}


# -- A process may fork at any time -----------------------------------------------------

# A lock of its own, with a hook at fork.
LOCKED = {"first_use", "registry.index.file"}
# Of the command line and of pytest, which have one thread.
OF_ONE_THREAD = ("cli", "pytest_plugin")


@each_case("module", sorted(MODULES.keys() - {"first_use"}))
def test_nothing_can_be_left_locked_by_a_fork(module: str) -> None:
    used = {
        ast.unparse(node)
        for node in nodes(module)
        if isinstance(node, ast.Attribute) and node.attr in {"cached_property", "Lock", "RLock"}
    }

    assert "functools.cached_property" not in used or module == "computed_once"
    assert module in LOCKED or not used & {"threading.Lock", "threading.RLock"}


@each_case("module", sorted(m for m in MODULES if not m.startswith(OF_ONE_THREAD)))
def test_what_is_imported_on_first_use_is_imported_under_the_lock(module: str) -> None:
    if not any(node.col_offset for node in imports(nodes(module))):
        return  # all stand at the margin
    functions = (n for n in nodes(module) if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef))
    late = {node for function in functions for node in imports(ast.walk(function))}
    under = {
        node
        for block in nodes(module)
        if isinstance(block, ast.With) and ast.unparse(block.items[0].context_expr) == "FIRST_USE"
        for node in imports(ast.walk(block))
    }

    assert late <= under


def imports(among: Iterable[ast.AST]) -> Iterator[ast.Import | ast.ImportFrom]:
    """Import statements among the nodes of a syntax tree."""
    return (node for node in among if isinstance(node, ast.Import | ast.ImportFrom))

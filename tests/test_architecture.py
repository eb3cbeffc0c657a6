"""The rules of the house: which part of the program may know which other."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest

import barwright

SOURCE = Path(barwright.__file__).parent
LAYERS = [
    *("first_use", "errors", "units", "parts", "registry", "analysis", "lint", "report", "cli"),
    *("testing", "pytest_plugin", "__main__"),
]
MAY_IMPORT = {
    **{layer: set(LAYERS[: place + 1]) for place, layer in enumerate(LAYERS)},
    "mechanics": {"first_use", "errors", "mechanics"},
}
MAY_IMPORT["analysis"] |= {"mechanics"}

# Where a library may be imported, as module names or the beginnings of them.
HOMES = {
    "pint": ["units.kept", "units.quantity"],
    "click": ["cli"],
    "rich": ["cli", "report.sheet_text", "report.tables", "report.text"],
    "importlib_metadata": ["registry.distributions"],
    "cattrs": ["registry.structure", "report.json"],
    "sqlite3": ["registry.cached", "registry.index_build", "registry.index_file"],
    "tomllib": ["registry.document"],
    "scipy": [],
    "numpy": ["analysis", "mechanics", "report", "units"],
    "plotille": ["report.chart"],
    "pytest": ["pytest_plugin", "testing"],
    "rainflow": ["mechanics.histories"],
}


def modules() -> Iterator[tuple[str, ast.Module]]:
    """Every module's name within the package, and its syntax."""
    for path in SOURCE.rglob("*.py"):
        name = ".".join(path.relative_to(SOURCE).with_suffix("").parts)
        yield name.removesuffix(".__init__"), ast.parse(path.read_text(encoding="utf-8"))


def imports(tree: ast.AST) -> Iterator[str]:
    """Full name of every module that a syntax tree imports, wherever it does so."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute"
            inner = (f"barwright.{alias.name}" for alias in node.names)
            yield from inner if node.module == "barwright" else [node.module or ""]


IMPORTS = {name: set(imports(tree)) for name, tree in modules() if name != "__init__"}


def test_every_module_belongs_to_a_layer() -> None:
    assert {name.partition(".")[0] for name in IMPORTS} == set(MAY_IMPORT)


@pytest.mark.parametrize("module", sorted(IMPORTS))
def test_imports_run_down_only(module: str) -> None:
    own = [name.split(".") for name in IMPORTS[module] if name.split(".")[0] == "barwright"]

    assert {parts[1] for parts in own} <= MAY_IMPORT[module.partition(".")[0]]


@pytest.mark.parametrize("library", HOMES)
def test_a_library_is_met_at_its_home_only(library: str) -> None:
    met = {name for name, used in IMPORTS.items() if library in {u.partition(".")[0] for u in used}}

    homes = tuple(f"{home}." for home in HOMES[library])
    assert [name for name in met if not f"{name}.".startswith(homes)] == []


def test_no_module_imports_itself_in_a_circle() -> None:
    """Counted over whole modules, imports inside functions included."""
    graph = {
        name: {used.removeprefix("barwright.") for used in uses if used.startswith("barwright.")}
        for name, uses in IMPORTS.items()
    }
    reached: dict[str, set[str]] = defaultdict(set)
    for start, first in graph.items():
        waiting = set(first)
        while waiting:
            step = waiting.pop()
            if step not in reached[start]:
                reached[start].add(step)
                waiting |= graph.get(step, set())

    assert [name for name in graph if name in reached[name]] == []


def test_a_pack_holds_data_and_no_code() -> None:
    plugins = SOURCE.parents[1] / "plugins"
    for path in plugins.rglob("*.py"):
        statements = ast.parse(path.read_text(encoding="utf-8")).body
        assert all(
            isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
            for node in statements
        ), path


def test_the_rules_here_see_a_breach() -> None:
    breach = ast.parse("def f():\n    import scipy.optimize\n    from barwright.cli import main\n")

    assert set(imports(breach)) == {"scipy.optimize", "barwright.cli"}


# -- A process may fork at any time -----------------------------------------------------

TREES = dict(modules())
# A lock of its own, with a hook at fork.
LOCKED = {"first_use", "registry.index_file"}
# Of the command line and of pytest, which have one thread.
OF_ONE_THREAD = ("cli", "pytest_plugin")


@pytest.mark.parametrize("module", sorted(TREES.keys() - {"first_use"}))
def test_nothing_can_be_left_locked_by_a_fork(module: str) -> None:
    used = {
        ast.unparse(node) for node in ast.walk(TREES[module]) if isinstance(node, ast.Attribute)
    }

    assert "functools.cached_property" not in used
    assert module in LOCKED or not used & {"threading.Lock", "threading.RLock"}


@pytest.mark.parametrize("module", sorted(m for m in TREES if not m.startswith(OF_ONE_THREAD)))
def test_what_is_imported_on_first_use_is_imported_under_the_lock(module: str) -> None:
    tree = TREES[module]
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

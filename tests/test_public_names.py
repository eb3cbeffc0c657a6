"""The public names of `barwright`: where they live, what they say, what importing them costs."""

from __future__ import annotations

import ast
import dataclasses
import inspect
import subprocess
import sys
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw

HEAVY = {
    "numpy",
    "pint",
    "attr",
    "attrs",
    "cattrs",
    "click",
    "rich",
    "importlib_metadata",
    "scipy",
    "sqlite3",
}
CALLABLE = [name for name in bw.__all__ if inspect.isroutine(getattr(bw, name))]
CLASSES = [
    name
    for name in bw.__all__
    if inspect.isclass(getattr(bw, name)) and getattr(bw, name).__module__.startswith("barwright")
]


def in_a_fresh_interpreter(code: str) -> str:
    """What a program prints."""
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert run.stderr == ""
    return run.stdout.strip()


def test_the_homes_agree_with_what_a_type_checker_reads() -> None:
    tree = ast.parse(Path(bw.__file__).read_text(encoding="utf-8"))
    read = {
        (node.module, alias.name, alias.asname)
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("barwright.")
        for alias in node.names
        if alias.asname
    }

    homes = {
        (f"barwright.{module}", name, name)
        for module, names in bw._HOMES.items()  # noqa: SLF001
        for name in names
    }
    assert read == homes


def test_no_name_has_two_homes() -> None:
    names = [name for names in bw._HOMES.values() for name in names]  # noqa: SLF001

    assert len(names) == len(set(names))
    assert bw.__all__ == sorted(names)


@pytest.mark.parametrize("name", bw.__all__)
def test_every_public_name_is_what_its_home_calls_so(name: str) -> None:
    home = sys.modules[f"barwright.{bw._HOME_OF[name]}"] if hasattr(bw, name) else None  # noqa: SLF001

    assert home is not None
    assert getattr(home, name) is getattr(bw, name)
    assert name in home.__all__


@pytest.mark.parametrize("name", [*CALLABLE, *CLASSES])
def test_every_public_name_says_what_it_is(name: str) -> None:
    text = inspect.getdoc(getattr(bw, name))

    assert text
    first = text.splitlines()[0]
    assert first.endswith((".", ".)"))
    assert not first.startswith(f"{name}(")


@pytest.mark.parametrize("name", CALLABLE)
def test_every_public_function_says_what_it_takes_and_gives(name: str) -> None:
    function = getattr(bw, name)
    signature = inspect.signature(function)
    text = inspect.getdoc(function) or ""

    assert signature.return_annotation is not inspect.Signature.empty
    for parameter in signature.parameters.values():
        assert parameter.annotation is not inspect.Parameter.empty
        assert parameter.name in text
    assert "Returns\n-------" in text


@pytest.mark.parametrize("name", CLASSES)
def test_every_field_of_a_public_class_is_explained(name: str) -> None:
    cls: Any = getattr(bw, name)
    if not attrs.has(cls):
        return
    own = [field.name for field in attrs.fields(cls) if not field.inherited]
    text = inspect.getdoc(cls) or ""

    assert not dataclasses.is_dataclass(cls)
    assert [field for field in own if field not in text] == []


@pytest.mark.parametrize("name", CLASSES)
def test_every_public_method_is_annotated_and_explained(name: str) -> None:
    for method_name, method in vars(getattr(bw, name)).items():
        function = getattr(method, "__func__", method)
        is_ours = inspect.isfunction(function) and function.__module__.startswith("barwright.")
        if not is_ours or method_name.startswith("_"):
            continue
        assert function.__doc__, f"{name}.{method_name}"
        assert "return" in function.__annotations__, f"{name}.{method_name}"


def test_importing_the_package_loads_nothing_heavy() -> None:
    code = "import sys; import barwright; print(*{m.partition('.')[0] for m in sys.modules})"

    assert not set(in_a_fresh_interpreter(code).split()) & HEAVY


def test_an_error_class_costs_nothing_heavy_either() -> None:
    code = (
        "import sys; import barwright as bw; bw.QuantityError; "
        "print(*{m.partition('.')[0] for m in sys.modules})"
    )

    assert not set(in_a_fresh_interpreter(code).split()) & HEAVY


def test_names_are_listed_before_they_are_loaded() -> None:
    code = "import barwright; print(*dir(barwright)); print('units' in vars(barwright))"

    listed, loaded = in_a_fresh_interpreter(code).splitlines()
    assert listed.split() == bw.__all__
    assert loaded == "False"


def test_a_name_is_looked_up_once() -> None:
    assert bw.Bar is bw.Bar
    assert "Bar" in vars(bw)


def test_an_unknown_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="module 'barwright' has no attribute 'Spoke'"):
        bw.Spoke  # noqa: B018


def test_a_star_import_gives_the_public_names() -> None:
    code = "from barwright import *; print(*(n for n in dir() if not n.startswith('_')))"

    assert in_a_fresh_interpreter(code).split() == bw.__all__

"""The public names of `barwright`: where they live, what they say, what importing them costs."""

from __future__ import annotations

import ast
import dataclasses
import inspect
import pkgutil
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright import answers, parts
from each_case import each_case

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
ROOMS: dict[str, Any] = {"barwright": bw, "barwright.parts": parts, "barwright.answers": answers}
MODULES = {"answers", "errors", "parts"}
NAMES = [(room, name) for room in ROOMS for name in ROOMS[room].__all__ if name not in MODULES]
FOUND = {f"{room}.{name}": getattr(ROOMS[room], name) for room, name in NAMES}
CALLABLE = [name for name in FOUND if inspect.isroutine(FOUND[name])]
CLASSES = [
    name
    for name, found in FOUND.items()
    if inspect.isclass(found) and found.__module__.startswith("barwright")
]


def in_a_fresh_interpreter(code: str) -> str:
    """What a program prints."""
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert run.stderr == ""
    return run.stdout.strip()


def described(text: str, section: str) -> set[str]:
    """Names that a section of a docstring describes, each with words below it."""
    parts = re.split(r"^(\w[\w ]*)\n-+$\n", text, flags=re.MULTILINE)
    sections = dict(zip(parts[1::2], parts[2::2], strict=True))
    entries = re.findall(r"^(\S.*?) : .*\n +\S", sections.get(section, ""), re.MULTILINE)
    return {name.strip().lstrip("*") for entry in entries for name in entry.split(",")}


def test_a_name_is_described_by_its_own_entry_alone() -> None:
    taken = "Parameters\n----------\n*a, b : int\n    Of c : d.\ne : int\n\n"
    text = f"Take x.\n\n{taken}Returns\n-------\nf : int\n    G.\n"

    assert described(text, "Parameters") == {"a", "b"}
    assert described(text, "Returns") == {"f"}
    assert described(text, "Attributes") == set()


@pytest.mark.parametrize("room", ROOMS)
def test_the_homes_agree_with_what_a_type_checker_reads(room: str) -> None:
    tree = ast.parse(Path(ROOMS[room].__file__).read_text(encoding="utf-8"))
    read = {
        (node.module, alias.name, alias.asname)
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("barwright.")
        for alias in node.names
        if alias.asname
    }

    homes = {
        (f"barwright.{module}", name, name)
        for module, names in ROOMS[room]._HOMES.items()  # noqa: SLF001
        for name in names
    }
    assert read == homes


def test_no_name_has_two_homes() -> None:
    names = [
        name
        for module in ROOMS.values()
        for names in module._HOMES.values()  # noqa: SLF001
        for name in names
    ]

    assert len(names) == len(set(names))
    assert sorted(names) == sorted(name for _, name in NAMES)
    assert all(module.__all__ == sorted(module.__all__) for module in ROOMS.values())


@pytest.mark.parametrize("name", sorted(MODULES))
def test_a_room_is_loaded_when_it_is_asked_for(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    room = sys.modules[f"barwright.{name}"]
    monkeypatch.delattr(bw, name)

    assert getattr(bw, name) is room


@each_case("room, name", NAMES)
def test_every_public_name_is_what_its_home_calls_so(room: str, name: str) -> None:
    home = sys.modules[f"barwright.{ROOMS[room]._HOME_OF[name]}"]  # noqa: SLF001

    assert getattr(home, name) is FOUND[f"{room}.{name}"]
    assert name in home.__all__


@each_case("name", [*CALLABLE, *CLASSES])
def test_every_public_name_says_what_it_is(name: str) -> None:
    text = inspect.getdoc(FOUND[name])

    assert text
    first = text.splitlines()[0]
    assert first.endswith((".", ".)"))
    assert not first.startswith(f"{name.rpartition('.')[2]}(")


@each_case("name", CALLABLE)
def test_every_public_function_says_what_it_takes_and_gives(name: str) -> None:
    function = FOUND[name]
    signature = inspect.signature(function)
    text = inspect.getdoc(function) or ""

    assert signature.return_annotation is not inspect.Signature.empty
    for parameter in signature.parameters.values():
        assert parameter.annotation is not inspect.Parameter.empty
    taken = set(signature.parameters) - {"self", "cls"}
    assert taken - described(text, "Parameters") == set()
    assert "Returns\n-------" in text


@each_case("name", CLASSES)
def test_every_field_of_a_public_class_is_explained(name: str) -> None:
    cls: Any = FOUND[name]
    if not attrs.has(cls):
        return
    own = {field.name for field in attrs.fields(cls) if not field.inherited}
    text = inspect.getdoc(cls) or ""

    assert not dataclasses.is_dataclass(cls)
    assert own - described(text, "Parameters") - described(text, "Attributes") == set()


@each_case("name", CLASSES)
def test_every_public_method_is_annotated_and_explained(name: str) -> None:
    for method_name, method in vars(FOUND[name]).items():
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


@pytest.mark.parametrize("room", ROOMS)
def test_names_are_listed_before_they_are_loaded(room: str) -> None:
    code = f"import {room} as m, sys; print(*dir(m)); print('barwright.units' in sys.modules)"

    listed, loaded = in_a_fresh_interpreter(code).splitlines()
    assert listed.split() == ROOMS[room].__all__
    assert loaded == "False"


@pytest.mark.parametrize(("room", "name"), [(parts, "Bar"), (answers, "Plan"), (bw, "Setup")])
def test_a_name_is_looked_up_once(room: Any, name: str) -> None:
    assert getattr(room, name) is getattr(room, name)
    assert name in vars(room)


@pytest.mark.parametrize("room", ROOMS)
def test_an_unknown_name_is_an_attribute_error(room: str) -> None:
    with pytest.raises(AttributeError, match=rf"^module '{room}' has no attribute 'Spoke'$"):
        getattr(ROOMS[room], "Spoke")  # noqa: B009 - a type checker would refuse it


@pytest.mark.parametrize(
    ("name", "place"),
    [("Bar", "parts.Bar"), ("LengthFit", "answers.LengthFit")],
)
def test_a_name_of_another_room_is_found_by_its_message(name: str, place: str) -> None:
    with pytest.raises(AttributeError, match=rf"no attribute '{name}': it is barwright\.{place}$"):
        getattr(bw, name)


def test_errors_are_in_the_package_and_in_their_own_module() -> None:
    assert bw.errors.QuantityError is bw.QuantityError


@pytest.mark.slow
def test_a_star_import_gives_the_public_names() -> None:
    code = "from barwright import *; print(*(n for n in dir() if not n.startswith('_')))"

    assert in_a_fresh_interpreter(code).split() == bw.__all__


def test_no_public_name_is_that_of_a_module_beside_it() -> None:
    # To import the module would put it in the place of what has the name.
    assert {one.name for one in pkgutil.iter_modules(parts.__path__)}.isdisjoint(parts.__all__)

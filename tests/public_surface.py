"""Writes what users may rely on as stubs, so that a change that breaks it can be found.

python tests/public_surface.py

writes `tests/specimens/surface`: the names of `barwright` and of its public modules, commands with
their options, the codes of errors. docs/promises.md says when it is written anew.
"""

from __future__ import annotations

import enum
import importlib
import inspect
import keyword
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs
import click

from barwright.cli.command import barwright as commands
from barwright.errors import CODES
from barwright.version import VERSION

STORED = Path(__file__).parent / "specimens" / "surface"
# A name that two homes have is described in the first.
HOMES = (
    "barwright.errors",
    "barwright.parts",
    "barwright.answers",
    "barwright.testing",
    "barwright",
)
# Only questions make answers, so that users read their fields and never call the class.
_NEVER_CALLED = {"barwright.answers"}
_STARS: dict[object, str] = {
    inspect.Parameter.VAR_POSITIONAL: "*",
    inspect.Parameter.VAR_KEYWORD: "**",
}


def written(folder: Path) -> None:
    """Write the stubs of this version into a folder, as the package `barwright`."""
    package = folder / "barwright"
    package.mkdir(parents=True)
    described: dict[int, str] = {}
    for home in HOMES:
        name = home.partition(".")[2] or "__init__"
        (package / f"{name}.pyi").write_text(_stub(home, described), encoding="utf-8")
    (package / "commands.pyi").write_text("\n".join(_commands()), encoding="utf-8")
    (package / "codes.pyi").write_text("\n".join(_codes()), encoding="utf-8")
    (folder / "version.txt").write_text(f"{VERSION}\n", encoding="utf-8")


def _stub(home: str, described: dict[int, str]) -> str:
    """Stub of a home; `described` has the home of what has been described before."""
    module = importlib.import_module(home)
    lines = []
    for name in sorted(module.__all__):
        found = getattr(module, name)
        elsewhere = described.setdefault(id(found), home)
        if elsewhere != home:
            lines.append(f"from {elsewhere} import {name} as {name}")
        else:
            lines += _lines(name, found, called=home not in _NEVER_CALLED)
    return "\n".join([*lines, ""])


def _lines(name: str, found: Any, *, called: bool) -> Iterator[str]:
    """Lines of the stub of one public name."""
    if inspect.isclass(found) and issubclass(found, enum.Enum):
        yield f"class {name}:"
        yield from (f"    {member.name} = {member.value!r}" for member in found)
    elif inspect.isclass(found) and found.__module__.startswith("barwright"):
        bases = ", ".join(_bases(found))
        yield f"class {name}({bases}):" if bases else f"class {name}:"
        yield from (f"    {line}" for line in _of_class(found, called=called))
        yield "    ..."
    elif inspect.isfunction(found):
        yield _function(name, found)
    elif not inspect.ismodule(found):
        yield f"{name}: {type(found).__name__}"


def _of_class(found: type[Any], *, called: bool) -> Iterator[str]:
    if called and "__init__" in vars(found):
        yield _function("__init__", found.__init__)
    if attrs.has(found):
        # As written: attrs' own note of a type changes when cattrs resolves it.
        annotated = {
            k: v
            for home in reversed(found.__mro__)
            for k, v in inspect.get_annotations(home).items()
        }
        for field in attrs.fields(found):
            if not field.name.startswith("_"):
                yield f"{field.name}: {_annotation(annotated[field.name])}"
    for name, member in sorted(_members(found)):
        if isinstance(member, property):
            yield "@property"
            yield _function(name, member.fget)
        elif isinstance(member, classmethod | staticmethod):
            yield f"@{type(member).__name__}"
            yield _function(name, member.__func__)
        elif inspect.isfunction(member):
            yield _function(name, member)


def _bases(found: type[Any]) -> Iterator[str]:
    """What a user may take it for: public classes, and those of Python."""
    public = vars(importlib.import_module("barwright.errors"))
    for base in found.__mro__[1:-1]:
        of_python = base.__module__ == "builtins" and base not in {Exception, BaseException}
        if of_python or base.__name__ in public:
            yield base.__name__


def _members(found: type[Any]) -> Iterator[tuple[str, Any]]:
    """Public members of a class and of those that it is made of, each once."""
    seen: set[str] = set()
    for home in found.__mro__:
        if home.__module__.startswith("barwright"):
            for name, member in vars(home).items():
                if not name.startswith("_") and name not in seen:
                    seen.add(name)
                    yield name, member


def _function(name: str, function: Any) -> str:
    signature = inspect.signature(function)
    parameters = _parameters(signature)
    return f"def {name}({', '.join(parameters)}) -> {_annotation(signature.return_annotation)}: ..."


def _parameters(signature: inspect.Signature) -> Iterator[str]:
    """Parameters as they are written, with a star before those that are named only."""
    starred = False
    for parameter in signature.parameters.values():
        named_only = parameter.kind is inspect.Parameter.KEYWORD_ONLY
        if named_only and not starred:
            starred = True
            yield "*"
        starred = starred or parameter.kind is inspect.Parameter.VAR_POSITIONAL
        has_default = parameter.default is not inspect.Parameter.empty
        default = f" = {_default(parameter.default)}" if has_default else ""
        star = _STARS.get(parameter.kind, "")
        if parameter.name in {"self", "cls"}:
            yield parameter.name
        else:
            yield f"{star}{parameter.name}: {_annotation(parameter.annotation)}{default}"


def _annotation(annotation: Any) -> str:
    if annotation is inspect.Parameter.empty:
        return "Any"
    return annotation if isinstance(annotation, str) else inspect.formatannotation(annotation)


def _default(value: object) -> str:
    plain = value is None or isinstance(value, bool | int | float | str | tuple)
    return repr(value) if plain and "object at" not in repr(value) else "..."


def _commands() -> Iterator[str]:
    """Each command as a function of its arguments and options."""
    context = click.Context(commands)
    for name in sorted(commands.list_commands(context)):
        command = commands.get_command(context, name)
        assert command is not None
        places = [p for p in command.params if isinstance(p, click.Argument)]
        options = [p for p in command.params if isinstance(p, click.Option)]
        named = [
            f"{_word(spelling)} = {_default_of(option)}"
            for option in options
            for spelling in option.opts + option.secondary_opts
        ]
        listed = [*(_word(place.name) for place in places), *(["*"] if named else []), *named]
        yield f"def {_word(name)}({', '.join(listed)}): ..."


def _default_of(option: click.Option) -> str:
    """Default of an option; releases of click differ in how they say that there is none."""
    return repr(option.default) if isinstance(option.default, str | int | float) else "..."


def _word(spelling: str | None) -> str:
    word = (spelling or "").lstrip("-").replace("-", "_")
    return f"{word}_" if keyword.iskeyword(word) else word


def _codes() -> Iterator[str]:
    yield from (f"{code}: str" for code in sorted(CODES))


if __name__ == "__main__":
    shutil.rmtree(STORED, ignore_errors=True)
    written(STORED)

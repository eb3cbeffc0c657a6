"""Which packs a command reads: those installed, folders that it is given, or the demo data."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

from barwright.cli.output import LIMITS, say
from barwright.errors import BarwrightError, FileError, SchemaError
from barwright.registry.discovery.in_folders import packs_in
from barwright.registry.discovery.shipped import WAYS_TO_DATA, demo_folders
from barwright.registry.files.snapshot import HEADER
from barwright.registry.registry import Registry

__all__ = ["ProgressBar", "installed", "naming_options", "registry_options", "say_limits"]

C = TypeVar("C", bound=Callable[..., Any])

_META = "barwright."

# Fewer packs than this are read before a progress bar could be.
_MANY_PACKS = 8


def installed(*, warns: bool = True) -> Registry:
    """Open the registry, and say which packs were left out, and of which there are two versions.

    A bar is shown on a terminal while more packs are read than can be read in a moment.
    ``warns`` is false for a command that tells all this itself.
    """
    # Spelled as problems name them: "shop/" is told as "shop".
    overlays = [str(Path(folder)) for folder in _given("overlays")]
    for folder in overlays:
        _refuse_without_header(folder, "--overlay", ", here or in BARWRIGHT_OVERLAYS")
    for folder in _given("packs"):
        if not packs_in(Path(folder)):
            _refuse_without_header(folder, "--pack", where="in it or below it")
    registry = _opened(overlays, dict(map(_preference, _given("prefer"))))
    for problem in registry.problems:
        if problem.file in overlays:
            # Without its corrections every answer could be another one.
            say(f"overlay {problem.file!r} cannot be used", err=True)
            raise problem
    _keep_limits(registry)
    if warns:
        _warn(registry)
    if not (registry.packs or registry.problems):
        say(f"no pack is installed: {WAYS_TO_DATA}", err=True)
    return registry


def _keep_limits(registry: Registry) -> None:
    """Keep for whoever finds nothing that other packs may be installed, and are not read."""
    options = [name for name, given in (("--pack", "packs"), ("--demo", "demo")) if _given(given)]
    context = click.get_current_context(silent=True)
    if options and context:
        ids = sorted(info.id for info in registry.packs)
        named = ", ".join(ids[:_MANY_PACKS]) + ", …" * (len(ids) > _MANY_PACKS)
        context.meta[LIMITS] = (
            f"looked in: {named or 'no pack'}; with {' and '.join(options)}, "
            "the installed packs are not read"
        )


def say_limits() -> None:
    """Say which packs alone were looked in, if an option limits them."""
    context = click.get_current_context(silent=True)
    if context and LIMITS in context.meta:
        say(context.meta[LIMITS], err=True)


def _warn(registry: Registry) -> None:
    for problem in registry.problems:
        for line in str(problem).splitlines():
            say(f"warning: pack {problem.file!r} is left out: {line}", err=True)
    for info in registry.packs:
        if info.hidden_versions:
            others = ", ".join(info.hidden_versions)
            say(f"warning: {info.origin} counts; {others} is installed too: remove one", err=True)


def _refuse_without_header(
    folder: str, option: str, also: str = "", *, where: str = "in it"
) -> None:
    """Refuse what is no pack at all: a slip of the pen, and no fault of data."""
    if not os.path.lexists(Path(folder, HEADER)):
        raise FileError(
            "F101",
            value=folder,
            expected=f"a folder with a {HEADER} {where}",
            remedy=f"unpack it and name its folder{also}"
            if Path(folder).is_file()
            else f"check its name{also}",
            key=option,
        )


def _opened(overlays: Sequence[str], prefer: Mapping[str, str]) -> Registry:
    """Open the packs of the folders that the call names, or those that are installed."""
    folders = [*_given("packs"), *(demo_folders() if _given("demo") else ())]
    try:
        with contextlib.ExitStack() as stack:
            bar = ProgressBar(stack)
            if not folders:
                return Registry.discover(overlays=overlays, prefer=prefer, progress=bar)
            return Registry.from_folders(*folders, overlays=overlays, prefer=prefer, progress=bar)
    except SchemaError as error:
        error.key = "--prefer"
        raise


def _given(name: str) -> Any:  # noqa: ANN401 - texts, or whether a flag is there
    """Return what an option of :func:`registry_options` says in this call."""
    context = click.get_current_context(silent=True)
    return context.meta.get(_META + name, ()) if context else ()


def _keep(context: click.Context, parameter: click.Parameter, value: object) -> None:
    """Keep what an option says until the registry is opened."""
    context.meta[_META + str(parameter.name)] = value


def _kept(*names: str, **settings: Any) -> Callable[[C], C]:  # noqa: ANN401 - as click takes
    """Make an option whose value is kept until the registry is opened."""
    return click.option(*names, expose_value=False, callback=_keep, **settings)


def registry_options(command: C) -> C:
    """Add the options that say what the registry is made of, for :func:`installed`."""
    overlay = _kept(
        "--overlay",
        "overlays",
        multiple=True,
        type=click.Path(),
        metavar="FOLDER",
        envvar="BARWRIGHT_OVERLAYS",
        help="Lay an overlay folder on top of the packs; may be repeated.",
    )
    prefer = _kept(
        "--prefer",
        multiple=True,
        metavar="ID=DISTRIBUTION",
        help="Use this pack if several claim the id; may be repeated.",
    )
    pack = _kept(
        "--pack",
        "packs",
        multiple=True,
        type=click.Path(),
        metavar="FOLDER",
        help="Read the packs in this folder, not those installed; may be repeated.",
    )
    demo = _kept(
        "--demo",
        is_flag=True,
        help="Read the invented demo packs instead of the installed ones.",
    )
    return overlay(prefer(pack(demo(command))))


def _preference(text: str) -> tuple[str, str]:
    name, mark, origin = text.partition("=")
    if not (name and mark and origin):
        message = f"--prefer takes ID=DISTRIBUTION, and not {text!r}"
        raise click.UsageError(message)
    return name, origin


class ProgressBar:
    """A progress bar that appears on a terminal once there is something to wait for.

    What is counted from the start again gets another bar.
    """

    def __init__(self, stack: contextlib.ExitStack, *, label: str = "reading packs") -> None:
        self._stack = stack
        self._label = label
        self._bar: Any = None

    def __call__(self, done: int, length: int) -> None:
        """Show how many are done."""
        if length < _MANY_PACKS or not sys.stderr.isatty():
            return
        if self._bar is None or done < self._bar.pos:
            bar = click.progressbar(length=length, label=self._label, file=sys.stderr)
            self._stack.close()
            self._bar = self._stack.enter_context(bar)
        self._bar.update(done - self._bar.pos)


@contextlib.contextmanager
def naming_options() -> Iterator[None]:
    """Let an error of what was measured name the option that it comes from."""
    try:
        yield
    except BarwrightError as error:
        error.key = "--end" if error.key == "ends" else f"--{error.key.replace('_', '-')}"
        raise

"""Output: files that appear whole or not at all, and what a terminal may be sent."""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from barwright.errors import FileError
from barwright.report.printable import escaped_json, printable

if TYPE_CHECKING:
    from rich.console import Console, ConsoleOptions
    from rich.segment import Segment

__all__ = ["say", "say_json", "show", "shown_text", "write_whole"]

_WIDTH_OF_A_PIPE = 110

# What a build server obeys in a log, where a folded text happens to begin a line with it.
_COMMAND = re.compile(r"^( *):(?=:)")
_MARKED = "\\1\ufffd"

# What packs say is text, whatever it looks like.
_AS_IT_IS: dict[str, Any] = {"highlight": False, "markup": False, "emoji": False}


def say(text: str = "", *, err: bool = False, nl: bool = True) -> None:
    """Print text, with marks for what would steer the terminal."""
    click.echo(printable(text), err=err, nl=nl)


def say_json(text: str) -> None:
    """Print a JSON document, with escapes for what would steer the terminal."""
    click.echo(escaped_json(text))


def show(renderable: Any) -> None:  # noqa: ANN401 - anything that rich shows
    """Print a renderable to the terminal, or at a fixed width into a pipe."""
    from rich.console import Console  # noqa: PLC0415 - costs 45 ms, and JSON needs none of it

    console = Console(**_AS_IT_IS)
    if console.is_terminal:
        console.print(_Printable(renderable))
        return
    say(shown_text(renderable))


def shown_text(renderable: Any) -> str:  # noqa: ANN401 - anything that rich shows
    """Return what :func:`show` prints into a pipe."""
    from rich.console import Console  # noqa: PLC0415 - as above

    console = Console(**_AS_IT_IS, width=_WIDTH_OF_A_PIPE, color_system=None)
    with console.capture() as captured:
        console.print(_Printable(renderable))
    lines = (_COMMAND.sub(_MARKED, line.rstrip()) for line in captured.get().split("\n"))
    return "\n".join(lines).removesuffix("\n")


class _Printable:
    """A renderable whose text is printable, while its styles reach the terminal."""

    def __init__(self, renderable: Any) -> None:  # noqa: ANN401 - anything that rich shows
        self._renderable = renderable

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> Iterator[Segment]:
        """Render it, and change the text of each piece."""
        for segment in console.render(self._renderable, options):
            yield segment if segment.control else segment._replace(text=printable(segment.text))


def write_whole(path: Path, text: str) -> None:
    """Write a file beside its place, and put it there when it is complete.

    Parameters
    ----------
    path : Path
        Where it is to be: a link is followed, and a device or a pipe is written to.
    text : str
        All of it.

    Raises
    ------
    FileError
        F201; what was there before is then still there.
    """
    try:
        place = Path(os.path.realpath(path))
        if place.exists() and not (place.is_file() or place.is_dir()):
            with place.open("w", encoding="utf-8") as stream:
                stream.write(text)
        else:
            _put(place, text)
    except (OSError, ValueError) as error:
        raise FileError(
            "F201",
            value=getattr(error, "strerror", None) or type(error).__name__,
            expected="a place that can be written to",
            remedy="check the folder, its permissions and the space left",
            file=str(path),
        ) from None


def _put(place: Path, text: str) -> None:
    """Put a file in its place whole; made like any new one, it has the mode that those have."""
    part = place.with_name(f".{place.name}.{os.getpid()}.part")
    try:
        with part.open("x", encoding="utf-8") as file:
            file.write(text)
        part.replace(place)
    except OSError:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
        raise

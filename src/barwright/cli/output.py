"""Output: what a terminal may be sent."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, TextIO

import click

from barwright.registry.files.unwritable import refuse_unwritable
from barwright.report.safe_text import escaped_json, in_ascii, in_ascii_json, printable

if TYPE_CHECKING:
    from rich.console import Console, ConsoleOptions
    from rich.segment import Segment

__all__ = [
    "LIMITS",
    "say",
    "say_bytes",
    "say_json",
    "show",
    "shown_text",
    "text_width",
]

LIMITS = "barwright.limits"
"""Key under which a call keeps what it tells of the folders that it is limited to."""

_WIDTH_OF_A_PIPE = 110
# In less, hardly a figure stands beside its name.
_LEAST_WIDTH = 40

# What a build server obeys in a log, where a folded text happens to begin a line with it.
_COMMAND = re.compile(r"^( *):(?=:)")
_MARKED = "\\1\ufffd"

# What packs say is text, whatever it looks like.
_AS_IT_IS: dict[str, Any] = {"highlight": False, "markup": False, "emoji": False}


def say(text: str = "", *, err: bool = False, nl: bool = True) -> None:
    """Print text, with marks for what would steer the terminal."""
    _send(_spelled(printable(text), sys.stderr if err else sys.stdout), err=err, nl=nl)


def say_json(text: str) -> None:
    """Print a JSON document, with escapes for what would steer the terminal."""
    escaped = escaped_json(text)
    _send(in_ascii_json(escaped) if _shows_ascii_only(sys.stdout) else escaped)


def say_bytes(content: bytes) -> None:
    """Send what is no text into a pipe."""
    _send(content, nl=False)


def show(renderable: Any, *, pipe_width: int = _WIDTH_OF_A_PIPE) -> None:  # noqa: ANN401 - anything that rich shows
    """Print a renderable to the terminal, or at a fixed width into a pipe.

    The width of either is what COLUMNS says, if it says any.
    """
    from rich.console import Console  # noqa: PLC0415 - costs 45 ms, and JSON needs none of it

    console = Console(**_AS_IT_IS, width=text_width(pipe_width))
    if console.is_terminal:
        with console.capture() as captured:
            console.print(_Printable(renderable), crop=False)
        _send(captured.get(), nl=False, color=True)
        return
    say(shown_text(renderable, pipe_width=pipe_width))


def shown_text(renderable: Any, *, pipe_width: int = _WIDTH_OF_A_PIPE) -> str:  # noqa: ANN401 - anything that rich shows
    """Return what :func:`show` prints into a pipe."""
    from rich.console import Console  # noqa: PLC0415 - as above

    console = Console(**_AS_IT_IS, width=text_width(pipe_width), color_system=None)
    with console.capture() as captured:
        console.print(_Printable(renderable), crop=False)
    lines = (_COMMAND.sub(_MARKED, line.rstrip()) for line in captured.get().split("\n"))
    return "\n".join(lines).removesuffix("\n")


def text_width(pipe_width: int = _WIDTH_OF_A_PIPE) -> int:
    """Return the width of lines: what COLUMNS says, that of the terminal, or that of a pipe."""
    said = os.environ.get("COLUMNS", "")
    if re.fullmatch("0*[1-9][0-9]{0,3}", said):
        return max(int(said), _LEAST_WIDTH)
    if sys.stdout.isatty():
        from shutil import get_terminal_size  # noqa: PLC0415 - help needs none of it

        return max(get_terminal_size().columns, _LEAST_WIDTH)
    return pipe_width


def _shows_ascii_only(stream: TextIO) -> bool:
    """Whether a stream cannot take all letters, nor the signs of units with them."""
    return not (getattr(stream, "encoding", None) or "utf-8").lower().startswith("utf")


def _spelled(text: str, stream: TextIO) -> str:
    """Spell a text with the letters that a stream can take."""
    if not _shows_ascii_only(stream):
        return text
    return in_ascii(text).encode(stream.encoding, "backslashreplace").decode(stream.encoding)


class _Printable:
    """A renderable whose text is printable, while its styles reach the terminal."""

    def __init__(self, renderable: Any) -> None:  # noqa: ANN401 - anything that rich shows
        self._renderable = renderable

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> Iterator[Segment]:
        """Render it, and change the text of each piece."""
        for segment in console.render(self._renderable, options):
            yield segment if segment.control else segment._replace(text=printable(segment.text))


def _send(
    text: str | bytes, *, err: bool = False, nl: bool = True, color: bool | None = None
) -> None:
    """Write to a standard stream; a reader that has gone away misses the rest."""
    try:
        click.echo(text, err=err, nl=nl, color=color)
    except OSError as error:
        _silence(sys.stderr if err else sys.stdout)
        # There is nowhere left to say what became of standard error.
        if not (err or isinstance(error, BrokenPipeError)):
            raise refuse_unwritable(error) from None


def _silence(stream: TextIO) -> None:
    """Send all that follows nowhere, and what the stream still holds when the program ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)

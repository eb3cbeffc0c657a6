"""Files that appear whole or not at all, and never over what is read."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import BinaryIO

from barwright.errors import BarwrightError, FileError
from barwright.registry.files.find_files import is_file
from barwright.registry.files.unwritable import refuse_unwritable

__all__ = ["refuse_input", "whole_file", "write_whole"]

# Files that hold jobs, packs and overlays; of all outputs, only a lock is such a file.
_DATA = ".toml"


def refuse_input(
    path: Path, inputs: Iterable[Path], *, renews: Callable[[Path], bool] | None = None
) -> None:
    """Refuse to write an output over what this call reads, or over any file of data.

    Parameters
    ----------
    path : Path
        Where the output is to be, however it is spelled and whatever links lead there.
    inputs : iterable of Path
        What the call reads beside packs.
    renews : callable, optional
        Tells whether a file of data is an earlier output of the same kind.

    Raises
    ------
    FileError
        F202.
    """
    place = Path(os.path.realpath(path))
    # A device or a terminal may well be read and written.
    if not is_file(place):
        return
    is_data = place.suffix.lower() == _DATA and not (renews and renews(place))
    if is_data or any(_is_same(place, one) for one in inputs):
        raise FileError(
            "F202",
            value=path.name,
            expected="a new file or an earlier output",
            remedy="name another file: this one is an input, for example a job or a pack's file",
            file=str(path),
        )


def _is_same(place: Path, other: Path) -> bool:
    try:
        return place.samefile(other)
    except OSError:
        return False


def write_whole(
    path: Path,
    content: str | bytes,
    *,
    inputs: Iterable[Path],
    renews: Callable[[Path], bool] | None = None,
) -> None:
    """Write a file beside its place, and put it there when it is complete.

    Parameters
    ----------
    path : Path
        Where it is to be: a link is followed, and a device or a pipe is written to.
    content : str or bytes
        All of it.
    inputs, renews
        As for :func:`refuse_input`.

    Raises
    ------
    FileError
        F201 or F202; what was there before is then still there.
    """
    with whole_file(path, inputs=inputs, renews=renews) as stream:
        stream.write(content.encode() if isinstance(content, str) else content)


@contextlib.contextmanager
def whole_file(
    path: Path, *, inputs: Iterable[Path], renews: Callable[[Path], bool] | None = None
) -> Iterator[BinaryIO]:
    """Open a file beside its place, and put it there at the end; after an error, remove it.

    Parameters
    ----------
    path : Path
        Where it is to be: a link is followed, and a device or a pipe is written to.
    inputs, renews
        As for :func:`refuse_input`.

    Yields
    ------
    BinaryIO
        To write to.

    Raises
    ------
    FileError
        F201 or F202; what was there before is then still there.
    """
    try:
        refuse_input(path, inputs, renews=renews)
        place = Path(os.path.realpath(path))
        is_device = place.exists() and not (place.is_file() or place.is_dir())
        with _device(place) if is_device else _part(place) as stream:
            yield stream
    except BarwrightError:
        raise  # of what is being written
    except (OSError, ValueError) as error:
        raise refuse_unwritable(error, str(path)) from None


@contextlib.contextmanager
def _device(place: Path) -> Iterator[BinaryIO]:
    """Write into a device or a pipe; a reader that has gone away misses the rest."""
    with contextlib.suppress(BrokenPipeError), place.open("wb") as stream:
        yield stream


@contextlib.contextmanager
def _part(place: Path) -> Iterator[BinaryIO]:
    """Put a file in its place whole; made like any new one, it has the mode that those have."""
    # Of a name that no other writer has, and that is left over from none.
    part = place.with_name(f".barwright-{os.urandom(8).hex()}.part")
    try:
        with part.open("xb") as stream:
            yield stream
            stream.flush()
            # Else a power cut could leave the name and nothing behind it.
            os.fsync(stream.fileno())
        part.replace(place)
    except BaseException:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
        raise

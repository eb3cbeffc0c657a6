"""Faults of the file system: every operation on files of one folder can be made to fail.

Operations are counted as they come: opening, reading, writing, syncing, renaming and
removing files, making and listing folders, and all that SQLite is asked to do.
"""

from __future__ import annotations

import builtins
import contextlib
import io
import os
import sqlite3
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

__all__ = ["Fault", "counted", "failing", "injected", "killed_at"]

_EVENTS = {
    "open",
    "os.mkdir",
    "os.remove",
    "os.rename",
    "os.scandir",
    "shutil.copyfile",
    "sqlite3.connect",
    "tempfile.mkstemp",
}


class Fault:
    """Calls something at one operation on a folder, and counts all of them.

    Parameters
    ----------
    folder : Path
        The folder.
    at : int
        Which operation, the first being 1; none if 0.
    effect : callable
        What happens then.
    """

    def __init__(self, folder: Path, at: int, effect: Callable[[], object]) -> None:
        self.count = 0
        self._folder = str(folder)
        self._at = at
        self._effect = effect

    def operation(self, where: object) -> None:
        """Count an operation, or let it end otherwise."""
        if self._folder in str(where):
            self.count += 1
            if self.count == self._at:
                self._effect()


_armed: list[Fault] = []
_is_hooked: list[bool] = []


def _hook(event: str, arguments: tuple[Any, ...]) -> None:
    if _armed and event in _EVENTS:
        where = arguments[1] if event == "os.rename" else arguments[0]
        _armed[-1].operation(where)


class _File(io.FileIO):
    """A file whose reading and writing are operations."""

    def __init__(self, path: Any, mode: str, opener: Any) -> None:
        super().__init__(path, mode, opener=opener)
        self._path = path

    def readinto(self, buffer: Any) -> Any:
        _armed[-1].operation(self._path)
        return super().readinto(buffer)

    def readall(self) -> bytes:
        _armed[-1].operation(self._path)
        return super().readall()

    def write(self, data: Any) -> Any:
        """Write half of it before the operation fails."""
        super().write(bytes(data)[: len(data) // 2])
        self.seek(-(len(data) // 2), os.SEEK_CUR)
        _armed[-1].operation(self._path)
        return super().write(data)


def _text(
    whole: Any, buffering: int = -1, encoding: str | None = None, *rest: Any, **options: Any
) -> io.TextIOWrapper:
    assert buffering == -1
    return io.TextIOWrapper(whole, encoding, *rest, **options)


class _Connection(sqlite3.Connection):
    """A connection whose statements are operations."""

    def __init__(self, database: Any, *arguments: Any, **options: Any) -> None:
        super().__init__(database, *arguments, **options)
        self._path = database

    def execute(self, *arguments: Any) -> Any:
        _statement(self._path)
        return super().execute(*arguments)

    def executescript(self, script: Any) -> Any:
        _statement(self._path)
        return super().executescript(script)


def _statement(path: object) -> None:
    try:
        for fault in _armed:
            fault.operation(path)
    except OSError as error:
        raise sqlite3.OperationalError(str(error)) from None


@contextlib.contextmanager
def injected(folder: Path, at: int, effect: Callable[[], object]) -> Iterator[Fault]:
    """Let something happen at one operation on a folder."""
    if not _is_hooked:
        sys.addaudithook(_hook)
        _is_hooked.append(True)
    really_open, really_connect, really_sync = io.open, sqlite3.connect, os.fsync
    fault = Fault(folder, at, effect)

    def opening(file: Any, mode: str = "r", *arguments: Any, **options: Any) -> Any:
        if str(folder) not in str(file):
            return really_open(file, mode, *arguments, **options)
        raw = _File(file, mode.strip("bt"), options.pop("opener", None))
        whole = io.BufferedReader(raw) if raw.readable() else io.BufferedWriter(raw)
        return whole if "b" in mode else _text(whole, *arguments, **options)

    def syncing(handle: int) -> None:
        fault.operation(folder)
        really_sync(handle)

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(io, "open", opening)
        patched.setattr(builtins, "open", opening)
        patched.setattr(os, "fsync", syncing)
        patched.setattr(
            sqlite3,
            "connect",
            lambda *arguments, **options: really_connect(
                *arguments, **({"factory": _Connection} | options)
            ),
        )
        _armed.append(fault)
        try:
            yield fault
        finally:
            _armed.pop()


def counted(folder: Path, call: Callable[[], object]) -> int:
    """How many operations on a folder a call takes."""
    with injected(folder, 0, lambda: None) as fault:
        call()
    return fault.count


def failing(number: int) -> Callable[[], object]:
    """An effect: the operation fails with an error of the system."""

    def effect() -> None:
        raise OSError(number, os.strerror(number))

    return effect


def killed_at(folder: Path, at: int, call: Callable[[], object]) -> int:
    """Exit code of a process of its own that is killed at one operation, if it comes to that."""
    child = os.fork()
    if child == 0:
        with injected(folder, at, _killing):
            call()
        os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _killing() -> None:
    """The process is gone, and nothing is tidied up."""
    os._exit(9)

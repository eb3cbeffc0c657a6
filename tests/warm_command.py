"""``barwright`` for scripts that start it dozens of times, in a process that has loaded it already.

A process forks for each call. To it, a call is what it is to a process of its own: arguments,
folder, environment, streams and exit code are those of the caller. What a process does before it
has loaded all that, is seen by tests that start one.
"""

from __future__ import annotations

import atexit
import contextlib
import functools
import json
import os
import signal
import socket
import subprocess
import sys
import tempfile
from pathlib import Path

from barwright.cli import main

__all__ = ["folder_of_the_command"]

# It starts in a hundredth of the time that the library takes to load.
_CALLER = """#!{python} -ISE
import json, os, socket, sys
with socket.socket(socket.AF_UNIX) as call:
    call.connect({place!r})
    socket.send_fds(call, [b"."], [0, 1, 2])
    with call.makefile("rw") as lines:
        lines.write(json.dumps([sys.argv[1:], os.getcwd(), dict(os.environ)]) + "\\n")
        lines.flush()
        code = int(lines.readline() or 1)
os._exit(code)
"""
_WARMED_BY = ["rates", str(Path(__file__).parent / "specimens" / "jobs" / "least.toml")]


@functools.cache
def folder_of_the_command(python: str = sys.executable) -> Path:
    """Folder for the path of a script, with a command that this process answers while it lives.

    It is the command of the environment that Python belongs to.
    """
    stack = contextlib.ExitStack()
    atexit.register(stack.close)
    folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="barwright-warm-")))
    place = str(folder / "calls")
    caller = folder / "barwright"
    caller.write_text(_CALLER.format(python=python, place=place), encoding="utf-8")
    caller.chmod(0o755)
    server = stack.enter_context(
        subprocess.Popen([python, "-P", __file__, place], stdout=subprocess.PIPE)
    )
    stack.callback(server.kill)
    assert server.stdout is not None
    assert server.stdout.readline() == b"ready\n"
    return folder


def _serve(place: str) -> None:
    """Answer each call in a process of its own."""
    with socket.socket(socket.AF_UNIX) as calls:
        calls.bind(place)
        calls.listen()
        _load()
        signal.signal(signal.SIGCHLD, signal.SIG_IGN)
        sys.stdout.write("ready\n")
        sys.stdout.flush()
        while True:
            call, _ = calls.accept()
            with call:
                if os.fork() == 0:
                    _answer(call)


def _load() -> None:
    """Put one question, so that all that most commands need is there."""
    sys.argv[1:] = _WARMED_BY
    with (
        Path(os.devnull).open("w", encoding="utf-8") as nowhere,
        contextlib.redirect_stdout(nowhere),
        contextlib.suppress(SystemExit),
    ):
        main()


def _answer(call: socket.socket) -> None:
    """Be the command, and tell its exit code."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    _, streams, _, _ = socket.recv_fds(call, 1, 3)
    for number, stream in enumerate(streams):
        os.dup2(stream, number)
        os.close(stream)
    code = 1
    try:
        with call.makefile("r", encoding="utf-8") as lines:
            sys.argv[1:], folder, environment = json.loads(lines.readline())
        os.chdir(folder)
        os.environ.clear()
        os.environ.update(environment)
        main()
    except SystemExit as ended:
        code = int(ended.code or 0)
    finally:
        with contextlib.suppress(OSError):
            sys.stdout.flush()
        call.sendall(f"{code}\n".encode())
        os._exit(code)


if __name__ == "__main__":
    _serve(sys.argv[1])

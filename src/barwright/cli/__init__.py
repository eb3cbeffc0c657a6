"""The command line: one file a command, each loaded when it is called."""

from __future__ import annotations

import io
import sys

from barwright.errors import ExitCode, MissingExtraError

__all__ = ["main"]


def main() -> None:
    """Run the command ``barwright``; what a console script calls."""
    try:
        sys.exit(_run())
    except KeyboardInterrupt:
        sys.exit(ExitCode.INTERRUPTED)


def _run() -> int:
    try:
        from barwright.cli.command import run  # noqa: PLC0415 - click is an optional dependency
    except ModuleNotFoundError as error:
        missing = MissingExtraError(
            "X101",
            value=error.name,
            expected="the packages that the command line needs",
            remedy="pip install 'barwright[cli]'",
        )
        sys.stderr.write(f"{missing}\n")
        return missing.exit_code
    if isinstance(sys.stdout, io.TextIOWrapper):
        # The name of a file may hold bytes that are no text.
        sys.stdout.reconfigure(errors="backslashreplace")
    return run()

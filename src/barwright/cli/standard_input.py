"""A job that another program sends instead of naming its file."""

from __future__ import annotations

import sys

from barwright.registry.files.file_limits import LARGEST_FILE

__all__ = ["SENDER", "STANDARD_INPUT", "sent"]

STANDARD_INPUT = "-"
"""In place of the name of a job file."""

SENDER = "standard input"
"""In messages, in place of the name."""


def sent() -> str:
    """Read all that is sent, but no more than a file may have.

    Returns
    -------
    str
        What is no text in it is refused when it is read as a job.
    """
    data: bytes = sys.stdin.buffer.read(LARGEST_FILE + 1)
    return data.decode("utf-8", "surrogateescape").removeprefix("\ufeff")

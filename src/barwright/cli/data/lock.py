"""``barwright lock``: a note of all packs and what is in them, to hold answers to."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.cli.jobs import installed, registry_options
from barwright.cli.output import say
from barwright.errors import BarwrightError, ExitCode
from barwright.registry.files.whole_file import write_whole
from barwright.registry.lock import LOCK_FILE, lock_of, lock_text, read_lock

__all__ = ["command"]


@click.command("lock")
@click.option(
    "--output",
    type=click.Path(path_type=Path),
    default=Path(LOCK_FILE),
    show_default=True,
    help="File to write.",
)
@registry_options
def command(output: Path) -> int:
    """Record the packs and their content in a lock, for check --locked.

    A pack that cannot be read is not in the lock, and the exit code is then 3.
    """
    registry = installed()
    lock = lock_of(registry)
    write_whole(output, lock_text(lock), inputs=[], renews=_is_lock)
    say(f"{output}: {len(lock.pack)} pack(s): {', '.join(lock.by_id)}")
    return ExitCode.FAULT if registry.problems else ExitCode.FINE


def _is_lock(path: Path) -> bool:
    """Tell a lock, which may be written anew, from other files."""
    try:
        read_lock(path)
    except BarwrightError:
        return False
    return True

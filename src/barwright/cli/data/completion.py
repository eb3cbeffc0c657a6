"""``barwright completion``: what a shell has to read to complete commands and options."""

from __future__ import annotations

import click
from click.shell_completion import BashComplete, FishComplete, ShellComplete, ZshComplete

from barwright.cli.output import say

__all__ = ["command"]

_SHELLS: dict[str, type[ShellComplete]] = {
    "bash": BashComplete,
    "fish": FishComplete,
    "zsh": ZshComplete,
}


@click.command("completion")
@click.argument("shell", type=click.Choice(list(_SHELLS)))
@click.pass_context
def command(context: click.Context, shell: str) -> int:
    """Print the completion script of a SHELL. Source it in the shell's start-up file."""
    root = context.find_root().command
    say(_SHELLS[shell](root, {}, "barwright", "_BARWRIGHT_COMPLETE").source())
    return 0

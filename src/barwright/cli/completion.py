"""``barwright completion``: what a shell has to read to complete commands and options."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class

__all__ = ["command"]


@click.command("completion")
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def command(context: click.Context, shell: str) -> int:
    """Print the completion script of a SHELL; source it in the shell's start-up file."""
    completion = get_completion_class(shell)
    if completion is None:
        message = f"no completion for {shell}"
        raise click.UsageError(message)
    root = context.find_root().command
    click.echo(completion(root, {}, "barwright", "_BARWRIGHT_COMPLETE").source())
    return 0

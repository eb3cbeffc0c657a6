"""``barwright new-pack``: a pack or an overlay that works, to put one's own figures into."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.cli.output import say
from barwright.registry.authoring.scaffold import (
    ANCHORAGES,
    LICENCES,
    SUSPENSIONS,
    new_overlay,
    new_pack,
)

__all__ = ["command"]


@click.command("new-pack")
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--id", "pack_id", required=True, help="First part of every id in the pack.")
@click.option("--title", default="", help="Name for people; made from the id if left out.")
@click.option("--suspension", type=click.Choice(SUSPENSIONS), help="What guides the wheel.")
@click.option("--anchorage", type=click.Choice(ANCHORAGES), help="What holds the anchor end.")
@click.option(
    "--licence",
    metavar="SPDX-ID",
    help=f"Licence of the data. Its text is written for {', '.join(LICENCES)}.",
)
@click.option("--unknown", is_flag=True, help='Write "unknown" for every figure.')
@click.option(
    "--overlay", is_flag=True, help="Write an overlay instead: corrections and parts of your own."
)
def command(
    folder: Path, *, pack_id: str, title: str, unknown: bool, overlay: bool, **choices: str | None
) -> int:
    """Write a pack with an invented vehicle into a new folder.

    The pack can be installed and passes the lint and its tests as it is.  With --unknown,
    it has no invented figures: write those that you have measured in their places.  With
    --overlay, write a folder for corrections and parts of your own instead, which is not
    installed.
    """
    chosen = {name: choice for name, choice in choices.items() if choice is not None}
    if overlay and (chosen or unknown):
        raise click.UsageError("--overlay goes with --id and --title only.")
    if overlay:
        written = new_overlay(folder, pack_id, title=title)
    else:
        written = new_pack(folder, pack_id, title=title, unknown=unknown, **chosen)
    for path in written:
        say(str(path))
    return 0

"""``barwright new-pack``: a pack or an overlay that works, to put one's own figures into."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.cli.output import say
from barwright.registry.authoring.scaffold import new_overlay, new_pack

__all__ = ["command"]


@click.command("new-pack")
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--id", "pack_id", required=True, help="First part of every id in the pack.")
@click.option("--title", default="", help="Name for people; made from the id if left out.")
@click.option(
    "--overlay", is_flag=True, help="Write an overlay instead: corrections and parts of your own."
)
def command(folder: Path, *, pack_id: str, title: str, overlay: bool) -> int:
    """Write a pack with an invented vehicle into a new folder.

    The pack can be installed and passes the lint and its tests as it is.  With --overlay,
    write a folder for corrections and parts of your own instead, which is not installed.
    """
    write = new_overlay if overlay else new_pack
    for path in write(folder, pack_id, title=title):
        say(str(path))
    return 0

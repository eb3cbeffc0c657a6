"""``barwright new-pack``: a pack that works, to put one's own figures into."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.registry.scaffold import new_pack

__all__ = ["command"]


@click.command("new-pack")
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--id", "pack_id", required=True, help="First part of every id in the pack.")
@click.option("--title", default="", help="What a person calls it; made of the id if left out.")
def command(folder: Path, *, pack_id: str, title: str) -> int:
    """Write a pack with an invented vehicle into a new folder.

    It can be installed, lints clean and passes its tests as it stands.
    """
    written = new_pack(folder, pack_id, title=title)
    for path in written:
        click.echo(path)
    return 0

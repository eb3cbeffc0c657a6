"""``barwright schema``: the JSON Schema of a pack's files, for editors and other programs."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.cli.output import write_whole
from barwright.registry.schema import schema_text

__all__ = ["command"]


@click.command("schema")
@click.option("--output", type=click.Path(path_type=Path), help="Write it to a file instead.")
def command(*, output: Path | None) -> int:
    """Print the JSON Schema that the files of a pack can be checked against."""
    if output is None:
        click.echo(schema_text(), nl=False)
    else:
        write_whole(output, schema_text())
    return 0

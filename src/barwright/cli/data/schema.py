"""``barwright schema``: the JSON Schema of a pack's files, for editors and other programs."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.cli.output import say
from barwright.registry.authoring.schema import schema_text
from barwright.registry.files.whole_file import write_whole

__all__ = ["command"]


@click.command("schema")
@click.option("--overlay", is_flag=True, help="Print the schema of an overlay instead.")
@click.option(
    "--output", type=click.Path(path_type=Path), help="Write to this file instead of the screen."
)
def command(*, overlay: bool, output: Path | None) -> int:
    """Print the JSON Schema of a pack's files."""
    text = schema_text(overlay=overlay)
    if output is None:
        say(text, nl=False)
    else:
        write_whole(output, text, inputs=[])
    return 0

"""``barwright import-table``: a pack made of a table."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.cli.output import say
from barwright.errors import ExitCode
from barwright.registry.importing.import_table import import_table
from barwright.report.safe_text import one_line

__all__ = ["command"]

_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@click.command("import-table")
@click.argument("table", type=_FILE)
@click.option(
    "--map", "mapping", required=True, type=_FILE, help="TOML file that says what each row gives."
)
@click.option(
    "--output", required=True, type=click.Path(path_type=Path), help="New folder for the pack."
)
@click.option(
    "--skip-bad-rows", is_flag=True, help="Leave out rows that cannot be used, and list them."
)
def command(table: Path, *, mapping: Path, output: Path, skip_bad_rows: bool) -> int:
    """Make a pack of a table, CSV or Parquet.

    The map has the records of a row as a pack has them, with the names of columns in braces:
    diameter = "{diameter} ± 0.05 mm".  Each record names its row as the place in the source.
    If a row cannot be used, nothing is written and all such rows are listed.

    Exit codes: 0 every row was used; 1 with --skip-bad-rows, rows were left out; 2 nothing
    was written.
    """
    made = import_table(table, mapping, output, skip_bad_rows=skip_bad_rows)
    for problem in made.problems:
        say(one_line(f"left out {problem}"), err=True)
    counted = ", ".join(f"{count} {kind}" for kind, count in made.counts.items())
    say(f"{made.rows} row(s) used, {len(made.left_out)} left out: {counted}")
    say(f"The pack is in {output}. Check it: barwright lint {output}")
    return ExitCode.NO if made.left_out else ExitCode.FINE

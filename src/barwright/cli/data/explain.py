"""``barwright explain``: what the code of an error or a rule means, and what to do."""

from __future__ import annotations

import click

from barwright.cli.output import say
from barwright.report.explain import code_lines, explanation

__all__ = ["command"]


@click.command("explain")
@click.argument("codes", metavar="CODE...", nargs=-1)
def command(codes: tuple[str, ...]) -> int:
    """Explain codes of errors, and codes or names of rules for packs; without any, list all.

    Pages on job files, packs, overlays, units and conventions are printed whole by their names.
    """
    say("\n\n".join(map(explanation, codes)) if codes else "\n".join(code_lines()))
    return 0

"""``barwright explain``: what the code of an error or a rule means, and what to do."""

from __future__ import annotations

import click

from barwright.cli.output import say
from barwright.report.explain import code_lines, explanation

__all__ = ["command"]


@click.command("explain")
@click.argument("codes", metavar="CODE...", nargs=-1)
def command(codes: tuple[str, ...]) -> int:
    """Explain codes of errors, and codes or names of rules. Without a code, list all.

    Also print a whole page: job-file, pack-file, overlays, units or conventions.
    """
    say("\n\n".join(map(explanation, codes)) if codes else "\n".join(code_lines()))
    return 0

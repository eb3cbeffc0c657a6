"""What commands share that print a page: its form, its paper, the file that it goes into."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from barwright.cli.output import say, say_bytes
from barwright.registry.files.whole_file import write_whole

__all__ = ["chosen_form", "form_option", "output_option", "paper_option", "put_out"]

form_option = click.option(
    "--form",
    type=click.Choice(["text", "html", "pdf", "markdown", "json"]),
    help="Default: text for the terminal. html and pdf are pages to print.",
)
paper_option = click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="Paper size of pdf. html prints on either.",
)
output_option = click.option(
    "--output",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write to this file instead of printing.",
)


def chosen_form(form: str | None, *, as_json: bool, output: Path | None) -> str:
    """Return the form that is meant by --form and --json together.

    Parameters
    ----------
    form : str, optional
        What --form says.
    as_json : bool
        Whether --json is given.
    output : Path, optional
        File that the page goes into.

    Returns
    -------
    str

    Raises
    ------
    click.UsageError
        For two forms, and for a pdf that a terminal would be sent.
    """
    if as_json and form not in (None, "json"):
        message = f"--json and --form {form} are two forms: leave one out"
        raise click.UsageError(message)
    if form == "pdf" and output is None and sys.stdout.isatty():
        message = "a terminal shows no pdf: write it to a file with --output FILE"
        raise click.UsageError(message)
    return "json" if as_json else form or "text"


def put_out(content: str | bytes, *, output: Path | None, title: str, job: str = "") -> None:
    """Print a page, or write it to a file and say so.

    Parameters
    ----------
    content : str or bytes
        The page.
    output : Path, optional
        The file.
    title : str
        What the page is.
    job : str
        The job file, which is never written over; empty for none.
    """
    if output is not None:
        write_whole(output, content, inputs=[Path(job)] if job else ())
        say(f"The {title} is in {output}.", err=True)
    elif isinstance(content, bytes):
        say_bytes(content)
    else:
        say(content, nl=False)

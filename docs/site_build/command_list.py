"""Every command with its arguments and options, as the command line itself has them."""

from __future__ import annotations

from collections.abc import Iterator

import click

from barwright.cli import command as entry

__all__ = ["markdown"]


def markdown() -> str:
    """Every command under a heading of its own, as Markdown."""
    group = entry.barwright
    context = click.Context(group, info_name="barwright")
    lines: list[str] = []
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        if command is not None:
            lines += _command(command, click.Context(command, info_name=name, parent=context))
    return "\n".join(lines)


def _command(command: click.Command, context: click.Context) -> Iterator[str]:
    usage = " ".join([context.command_path, *command.collect_usage_pieces(context)])
    yield from (f"## `{context.command_path}`", "", "```text", usage, "```", "")
    yield from (_plain(command.help or ""), "")
    rows = [row for one in command.get_params(context) if (row := one.get_help_record(context))]
    yield from ("| option | what it does |", "| --- | --- |")
    for option, meaning in filter(all, rows):  # what stands in the usage alone needs no row
        yield f"| {_code(option)} | {_cell(meaning)} |"
    yield ""


def _plain(text: str) -> str:
    """Keep the paragraphs of a help text, without the marks that click reads in it."""
    return text.replace("\b", "").replace("*", r"\*").replace("<", r"\<").strip()


def _code(text: str) -> str:
    bar = r"\|"  # or it would end the cell
    return f"`{text.replace('|', bar)}`"


def _cell(text: str) -> str:
    return _plain(" ".join(text.split())).replace("|", r"\|")

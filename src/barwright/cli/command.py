"""The command ``barwright``, its sub-commands and its exit codes."""

from __future__ import annotations

import contextlib
import gc
import importlib
import io
import sys
from collections.abc import Iterator, Sequence
from typing import Any

import click

from barwright.cli.output import LIMITS, say, say_json
from barwright.cli.pint_alone import pint_alone
from barwright.errors import BarwrightError, DocumentError, ExitCode
from barwright.registry.files.unwritable import refuse_unwritable
from barwright.report.safe_text import one_line
from barwright.version import VERSION

__all__ = ["run"]

_COMMANDS = {
    "asking": {
        "fit": "Does the bar fit its sockets, and what would make it fit?",
        "rates": "What rate does the bar give at the wheel?",
        "rate": "What rate does a bar give alone, and with a torque tube?",
        "chart": "Draw load and rate over the travel.",
        "strength": "Is the bar strong enough, and how long does it last on a history of travel?",
        "reindex": "Plan how to re-index the bar for a wanted height.",
        "nut": "List the height for each turn of the nut, or the turn to make.",
        "sheet": "Print the bench sheet: steps, figures and cautions.",
        "calibrate": "Find the rate that a vehicle's bar really has, from several readings.",
        "diagnose": "Why does it stand too low or too high, by heights that were measured?",
        "balance": "Which nuts to turn, by the scales under all wheels and the heights?",
        "choose": "Which bar brings a wanted rate or frequency, and survives?",
        "identify": "Which listed bar is a loose one, by what was measured of it?",
        "spline": "To which standard may a spline be made, by what was measured of it?",
        "tolerance": "How uncertain are the rates, and which figures cause it?",
        "needs": "List the figures that are missing or uncertain, and how to measure each.",
        "trail": "List the source of each figure, and the figures that affect a rate.",
        "working": "Show the calculation behind an answer, step by step, to check or sign.",
        "compare": "Compare two jobs side by side.",
        "batch": "Ask one question of the rows of a table, of many jobs, or of many vehicles.",
        "family": "Chart all bars by all wheelbases of a vehicle family, for a counter.",
        "matrix": "Put every bar on every vehicle: rows for a program, or a file of them.",
    },
    "checking": {
        "check": "Check many job files, one line for each.",
        "lint": "Check a pack, and say what to correct.",
    },
    "data": {
        "packs": "List the packs, what they hold and what is wrong with them.",
        "vehicles": "List the vehicles of all installed packs.",
        "parts": "List the parts of all installed packs.",
        "new-pack": "Write a working example pack, to put your figures into.",
        "import-table": "Make a pack of a table, with a map of its columns.",
        "lock": "Record the installed packs, for check --locked.",
        "schema": "Print the JSON Schema of a pack's files, of a job, or of answers.",
        "explain": "Explain the code of an error or a rule.",
        "completion": "Print the completion script of a shell.",
    },
}
_HEADINGS = {
    "asking": "Questions about a job, or about a bar",
    "checking": "Checks of many files",
    "data": "Vehicles, packs and pages",
}
# Where commands lie that have a room within the one under whose heading help lists them.
_ROOMS_WITHIN = {
    "asking.measurements": ("calibrate", "diagnose", "balance", "identify", "spline", "needs"),
    "asking.grounds": ("tolerance", "trail", "working"),
    "asking.across": ("compare", "batch", "family", "matrix"),
}
_ROOM_OF = {
    name: room for room, names in (*_COMMANDS.items(), *_ROOMS_WITHIN.items()) for name in names
}

_MANY_CODES = 8
# A vehicle or a part that no pack has.
_LOOKED_UP = frozenset({"L101", "L102"})


@contextlib.contextmanager
def _for_good() -> Iterator[None]:
    """Load what stays until the process ends, and never look through it for garbage.

    That would take a twentieth of the time of a short command.
    """
    gc.disable()
    try:
        with pint_alone():
            yield
    finally:
        gc.freeze()
        gc.enable()


class _Commands(click.Group):
    """Sub-commands, each imported when it is called for."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 - as click returns
        """Run a sub-command; of a name that is not known, note where it was looked for."""
        try:
            return super().invoke(ctx)
        except BarwrightError as error:
            if LIMITS in ctx.meta and _LOOKED_UP.intersection(_codes(_problems_of(error))):
                error.add_note(ctx.meta[LIMITS])
            raise

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Names of all sub-commands."""
        return list(_ROOM_OF)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import one sub-command."""
        if cmd_name not in _ROOM_OF:
            return None
        place = f"{_ROOM_OF[cmd_name]}.{cmd_name.replace('-', '_')}"
        with _for_good() if ctx.obj else contextlib.nullcontext():
            module = importlib.import_module(f"barwright.cli.{place}")
        command: click.Command = module.command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the sub-command; one that is not known is told with what was meant."""
        name = args[0]
        if name not in _ROOM_OF and not name.startswith("-"):
            from barwright.registry.nearest_name import nearest  # noqa: PLC0415 - for a slip alone

            ctx.fail(f"No such command {name!r}: {nearest(name, list(_ROOM_OF))}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """List them without importing any."""
        for room, names in _COMMANDS.items():
            with formatter.section(_HEADINGS[room]):
                formatter.write_dl(list(names.items()))


@click.group(cls=_Commands, epilog=f"Exit codes: {ExitCode.listed()}.")
@click.version_option(VERSION)
@click.pass_obj
def barwright(is_a_process: bool) -> None:  # noqa: FBT001 - click's object
    """Torsion-bar suspensions: what fits, its rate, and how to re-index the bar."""
    if is_a_process and "barwright.units" in sys.modules:
        from barwright.units.kept import use_short_definitions  # noqa: PLC0415 - help needs no units

        use_short_definitions()


def run(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit code; no error ends in a traceback.

    Parameters
    ----------
    arguments : sequence of str, optional
        Arguments after the command's name; those of the process if left out.

    Returns
    -------
    int
    """
    given = list(sys.argv[1:] if arguments is None else arguments)
    out = sys.stdout
    try:
        # In a program of somebody else, pint's registry is that program's.
        code = barwright.main(
            args=given, prog_name="barwright", standalone_mode=False, obj=arguments is None
        )
    except click.ClickException as error:
        reported = io.StringIO()
        error.show(reported)
        say(reported.getvalue(), err=True, nl=False)
        return error.exit_code
    except click.Abort:
        return ExitCode.INTERRUPTED
    except BarwrightError as error:
        return _refused(error, as_json="--json" in given)
    except SystemExit:
        # Where nobody reads what click prints itself, like help, it wraps the stream and ends so.
        if sys.stdout is out:
            raise
        return ExitCode.FINE
    except Exception as error:  # noqa: BLE001 - the last resort before a traceback
        return _failed(error)
    return code if isinstance(code, int) else ExitCode.FINE


def _refused(error: BarwrightError, *, as_json: bool) -> int:
    """Print all problems, and return the exit code."""
    problems = _problems_of(error)
    if as_json:
        import json  # noqa: PLC0415 - help needs none of it

        say_json(json.dumps({"problems": [p.fields for p in problems]}, ensure_ascii=False))
    for problem in problems:
        say(one_line(f"error {problem}"), err=True)
    for note in getattr(error, "__notes__", ()):
        say(one_line(note), err=True)
    if not as_json:
        say(f"for more: barwright explain {' '.join(_codes(problems))}", err=True)
    return error.exit_code


def _problems_of(error: BarwrightError) -> Sequence[BarwrightError]:
    return error.problems if isinstance(error, DocumentError) else (error,)


def _codes(problems: Sequence[BarwrightError]) -> list[str]:
    """List the codes of problems, each once; where there are many, one word for them."""
    codes = list(dict.fromkeys(problem.code for problem in problems))
    return codes if len(codes) <= _MANY_CODES else ["CODE"]


def _failed(error: Exception) -> int:
    """Report an unexpected error, and return the exit code."""
    if isinstance(error, OSError) and error.filename is None:
        # Of standard output, where there is no room for what click prints itself, like help.
        return _refused(refuse_unwritable(error), as_json=False)
    if isinstance(error, MemoryError):
        say(
            "barwright: too little memory is free. End other programs, or ask for less at once,\n"
            "then start it again.",
            err=True,
        )
        return ExitCode.FAULT
    say(
        f"barwright: a fault of the program: {type(error).__name__}: {error}\n"
        "Please report it with the job file and the version.",
        err=True,
    )
    return ExitCode.FAULT

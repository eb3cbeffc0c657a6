"""Checked jobs as workflow commands that GitHub shows beside the lines of a change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from barwright.analysis.check import Checked

__all__ = ["to_annotations"]

# More than this many of a kind in one step are not shown.
_MOST = 10


def to_annotations(results: Iterable[Checked]) -> str:
    """Write what became of job files as workflow commands.

    Parameters
    ----------
    results : iterable of Checked
        What became of each file.

    Returns
    -------
    str
        At most ten errors and ten warnings, and a notice that counts the rest.
    """
    found = [command for checked in results for command in _commands(checked)]
    lines = []
    for kind in ("error", "warning"):
        commands = [command for command in found if command.startswith(f"::{kind} ")]
        lines += commands[:_MOST]
        if commands[_MOST:]:
            lines.append(f"::notice::{len(commands) - _MOST} more of kind {kind} are not shown")
    return "\n".join(lines)


def _commands(checked: Checked) -> Iterator[str]:
    for problem in checked.problems:
        line = f",line={problem.line}" if problem.line else ""
        yield (
            f"::error file={_property(problem.file)}{line},title={_property(problem.code)}"
            f"::{_data(problem.text)}"
        )
    for corner, reason in zip(checked.refused, checked.reasons, strict=True):
        yield (
            f"::warning file={_property(checked.file)},title={_property(corner.outcome.value)}"
            f"::{_data(reason)}"
        )


def _data(text: str) -> str:
    """Escape a message."""
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    """Escape a property, where colon and comma part things too."""
    return _data(text).replace(":", "%3A").replace(",", "%2C")

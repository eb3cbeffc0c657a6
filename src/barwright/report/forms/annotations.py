"""Checked jobs and packs as workflow commands that GitHub shows beside the lines of a change."""

from __future__ import annotations

from collections.abc import Iterable

from barwright.lint.finding import Severity
from barwright.report.forms.notices import Notice, Result, notices
from barwright.report.safe_text import printable

__all__ = ["to_annotations"]

_KINDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "notice"}

# More than this many of a kind in one step are not shown.
_MOST = 10


def to_annotations(results: Iterable[Result]) -> str:
    """Write what became of job files or packs as workflow commands.

    Parameters
    ----------
    results : iterable of JobCheck or PackLint
        What became of each.

    Returns
    -------
    str
        At most ten errors, warnings and notices each, and a notice that counts the rest.
    """
    found = [_command(notice) for result in results for notice in notices(result)]
    lines = []
    for kind in _KINDS.values():
        commands = [command for command in found if command.startswith(f"::{kind} ")]
        lines += commands[:_MOST]
        if commands[_MOST:]:
            lines.append(f"::notice::{len(commands) - _MOST} more of kind {kind} are not shown")
    return "\n".join(lines)


def _command(notice: Notice) -> str:
    kind = _KINDS[notice.severity]
    line = f",line={notice.line}" if notice.line else ""
    return (
        f"::{kind} file={_property(notice.file)}{line},title={_property(notice.title)}"
        f"::{_data(notice.text)}"
    )


def _data(text: str) -> str:
    """Escape a message; what else steers a terminal has no escape here."""
    return printable(text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A"))


def _property(text: str) -> str:
    """Escape a property, where colon and comma part things too."""
    return _data(text).replace(":", "%3A").replace(",", "%2C")

"""What becomes of files and packs, in the one shape that all forms for programs are made of."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePath
from typing import TypeAlias

import attrs

from barwright.analysis.across.check import JobCheck
from barwright.errors import CODES
from barwright.lint.catalogue import LOADS, RULES, WAIVER_RULES
from barwright.lint.finding import PackLint, Severity
from barwright.report.safe_text import one_line

__all__ = ["Notice", "Result", "meaning", "name_of", "notices"]

Result: TypeAlias = JobCheck | PackLint
"""What became of a job file or of a pack."""

_MEANINGS = {rule.code: rule.wants for rule in (*RULES, *WAIVER_RULES)}


@attrs.frozen(kw_only=True)
class Notice:
    """One thing to be told of a file.

    Parameters
    ----------
    rule : str
        Stable code or word for what it is, without blanks.
    title : str
        The same for a reader.
    severity : Severity
        Whether it is wrong, unusual or no fault.
    file : str
        The file.
    line : int
        Line in it, 0 if not known.
    key : str
        What in the file it is about, whichever line that is on.
    text : str
        What is told.
    is_placed : bool
        Whether it lies in one place of the file, rather than in what the file asks for.
    """

    rule: str
    title: str
    severity: Severity
    file: str
    line: int
    key: str
    text: str
    is_placed: bool = True

    @property
    def line_of_text(self) -> str:
        """All of it in a line."""
        if not self.is_placed:
            return one_line(self.text)
        place = f"{self.file}:{self.line}" if self.line else self.file
        is_error = self.severity is Severity.ERROR
        title = self.title if is_error else f"{self.title} ({self.severity.value})"
        return one_line(f"{place}: {title} {self.text}")


def notices(result: Result) -> Iterator[Notice]:
    """List all that is to be told of a job file or of a pack.

    Parameters
    ----------
    result : JobCheck or PackLint
        What became of it.

    Yields
    ------
    Notice
    """
    return _of_pack(result) if isinstance(result, PackLint) else _of_job(result)


def name_of(result: Result) -> str:
    """Return the file or the folder that a result is about.

    Parameters
    ----------
    result : JobCheck or PackLint
        What became of it.

    Returns
    -------
    str
    """
    return result.folder if isinstance(result, PackLint) else result.file


def meaning(rule: str) -> str:
    """Say what a rule's code or word stands for.

    Parameters
    ----------
    rule : str
        As a :class:`Notice` has it.

    Returns
    -------
    str
    """
    return CODES.get(rule) or _MEANINGS.get(rule) or rule.replace("-", " ")


def _of_job(checked: JobCheck) -> Iterator[Notice]:
    for problem in checked.problems:
        yield Notice(
            rule=problem.code,
            title=problem.code,
            severity=Severity.ERROR,
            file=problem.file,
            line=problem.line,
            key=problem.key,
            text=problem.text,
        )
    for corner, reason in zip(checked.refused, checked.reasons, strict=True):
        yield Notice(
            rule=corner.verdict.value.replace(" ", "-"),
            title=corner.verdict.value,
            severity=Severity.WARNING,
            file=checked.file,
            line=0,
            key=f"{corner.corner} {corner.variant}",
            text=reason,
            is_placed=False,
        )


def _of_pack(linted: PackLint) -> Iterator[Notice]:
    for finding in linted.findings:
        yield Notice(
            rule=finding.code,
            title=finding.code if finding.rule == LOADS else f"{finding.code} {finding.rule}",
            severity=finding.severity,
            file=str(PurePath(linted.folder) / finding.file),
            line=finding.line,
            key=finding.key,
            text=finding.text,
        )

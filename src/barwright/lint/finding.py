"""Findings of the lint, and their severity."""

from __future__ import annotations

import enum

import attrs

from barwright.parts.common.in_short import Summarised

__all__ = ["LintFinding", "PackLint", "Severity"]


class Severity(enum.Enum):
    """What a finding is: an error is wrong, a warning is unusual, a note is no fault."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@attrs.frozen(kw_only=True, repr=False)
class LintFinding(Summarised):
    """One fault in a pack, found by a rule.

    Parameters
    ----------
    rule : str
        Name of the rule; ``barwright explain`` explains it.
    code : str
        Stable code of the rule or, where a file cannot be loaded, of the error.
    severity : Severity
        Whether it is wrong, unusual or no fault.
    pack : str
        Id of the pack; empty where it cannot be read.
    of : str
        What it concerns, as a waiver names it: ``bar/short.diameter``.
    file : str
        Name of the file within the pack's folder.
    line : int
        Line in it, 0 if not known.
    key : str
        Path of the key in that file.
    message : str
        What was found.
    remedy : str
        What to do about it.
    """

    rule: str
    code: str
    severity: Severity
    pack: str
    of: str
    file: str
    line: int
    key: str
    message: str
    remedy: str

    @property
    def is_flaw(self) -> bool:
        """Whether it tells against the pack."""
        return self.severity is not Severity.NOTE

    @property
    def text(self) -> str:
        """The finding in a sentence, without its place in the file."""
        concerns = f"{self.of}: " if self.of else ""
        return f"{concerns}{self.message}; {self.remedy}"


@attrs.frozen(kw_only=True, repr=False)
class PackLint(Summarised):
    """Result of checking one pack.

    Parameters
    ----------
    folder : str
        The folder as it was given.
    pack : str
        Id of the pack; empty where it cannot be read.
    exit_code : int
        0 nothing but notes, 1 other findings, 2 no pack that can be read, 3 a fault of the program.
    findings : tuple of LintFinding
        All of them, in the order of files and lines.
    waived : tuple of LintFinding
        Findings that the pack's waivers accept.
    """

    folder: str
    pack: str
    exit_code: int
    findings: tuple[LintFinding, ...] = ()
    waived: tuple[LintFinding, ...] = ()

    @property
    def mark(self) -> str:
        """The exit code in a word."""
        return ("good", "flaws", "bad", "fault")[self.exit_code]

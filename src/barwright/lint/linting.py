"""Is a pack good? All that is wrong with it, at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from os import PathLike
from pathlib import Path

import attrs

from barwright.errors import BarwrightError, FileError
from barwright.lint.catalogue import LOADS, RULES, WAIVER_RULES
from barwright.lint.finding import Linted, LintFinding, Severity
from barwright.lint.proofs import read_checks, read_waivers
from barwright.lint.rule import Rule
from barwright.lint.subject import Subject
from barwright.registry.load import Loaded, load_partly
from barwright.registry.locate import lines_of, located, nearest_line
from barwright.registry.pack import Pack
from barwright.registry.snapshot import HEADER, Snapshot, snapshot_of

__all__ = ["lint_pack"]

_UNREADABLE = 2
_FAULTY = 3

_FAULT = "U101"


def lint_pack(folder: str | PathLike[str]) -> Linted:
    """Answer whether a pack is good; never raise for what is in it.

    Parameters
    ----------
    folder : path
        With a ``pack.toml`` in it.

    Returns
    -------
    Linted

    Examples
    --------
    >>> lint_pack("no-such-pack").exit_code
    2
    """
    snapshot = snapshot_of(Path(folder))
    loaded = load_partly(snapshot, origin=str(folder))
    if isinstance(snapshot.files[HEADER], FileError):
        findings = tuple(_load_findings(loaded.problems, ""))
        return Linted(folder=str(folder), pack="", exit_code=_UNREADABLE, findings=findings)
    findings, waived = _findings(loaded, snapshot)
    is_faulty = any(finding.code == _FAULT for finding in findings)
    return Linted(
        folder=str(folder),
        pack=loaded.pack.id if loaded.pack else "",
        exit_code=_FAULTY if is_faulty else int(bool(findings)),
        findings=findings,
        waived=waived,
    )


def _findings(
    loaded: Loaded, snapshot: Snapshot
) -> tuple[tuple[LintFinding, ...], tuple[LintFinding, ...]]:
    """All findings that stand, and those that are waived."""
    if loaded.pack is None:
        return tuple(_load_findings(loaded.problems, "")), ()
    subject, problems = _subject(loaded, loaded.pack)
    lines = _Lines(snapshot)
    found = tuple(_asked(RULES, subject, lines))
    waived = {id(f) for f in found if any(waiver.covers(f) for waiver in subject.waivers)}
    standing = (
        *_load_findings(located(problems, snapshot.folder), loaded.pack.id),
        *(finding for finding in found if id(finding) not in waived),
        *_asked(WAIVER_RULES, attrs.evolve(subject, findings=found), lines),
    )
    return _ordered(standing), _ordered(f for f in found if id(f) in waived)


def _subject(loaded: Loaded, pack: Pack) -> tuple[Subject, list[BarwrightError]]:
    """Read the pack for all rules, and tell what cannot be read."""
    waivers, of_waivers = read_waivers(loaded.tables)
    checks, of_checks = read_checks(loaded.tables, pack)
    if loaded.problems:
        # What a check is of may be what could not be loaded.
        of_checks = [problem for problem in of_checks if problem.code != "S206"]
    problems = [*loaded.problems, *of_checks, *of_waivers]
    subject = Subject(
        pack=pack,
        tables=loaded.tables,
        is_whole=not problems,
        checks=checks,
        waivers=waivers,
        waivable=tuple(rule.name for rule in RULES),
    )
    return subject, problems


class _Lines:
    """Lines of keys, read once a file."""

    def __init__(self, snapshot: Snapshot) -> None:
        self._files = snapshot.files
        self._known: dict[str, Mapping[str, int]] = {}

    def of(self, file: str, key: str) -> int:
        """Return the line of a key."""
        if file not in self._known:
            content = self._files[file]
            text = content.decode("utf-8-sig") if isinstance(content, bytes) else ""
            self._known[file] = lines_of(text)
        return nearest_line(self._known[file], key)


def _asked(rules: Iterable[Rule], subject: Subject, lines: _Lines) -> Iterator[LintFinding]:
    """Ask rules, each of which says nothing where it needs what could not be loaded."""
    for rule in rules:
        if rule.needs_whole and not subject.is_whole:
            continue
        try:
            remarks = list(rule.remarks(subject))
        except Exception as error:  # noqa: BLE001 - one rule's fault must not stop the others
            yield _fault(error, rule, subject.pack.id)
            continue
        for remark in remarks:
            yield LintFinding(
                rule=rule.name,
                code=rule.code,
                severity=rule.severity,
                pack=subject.pack.id,
                of=remark.place.of,
                file=remark.place.file,
                line=lines.of(remark.place.file, remark.place.key),
                key=remark.place.key,
                message=remark.message,
                remedy=remark.remedy or rule.tip,
            )


def _fault(error: Exception, rule: Rule, pack: str) -> LintFinding:
    return LintFinding(
        rule=rule.name,
        code=_FAULT,
        severity=Severity.ERROR,
        pack=pack,
        of="",
        file=HEADER,
        line=0,
        key="",
        message=f"a fault of the program: {type(error).__name__}: {error}",
        remedy="report it with the pack and the version",
    )


def _load_findings(problems: Iterable[BarwrightError], pack: str) -> Iterator[LintFinding]:
    for problem in problems:
        yield LintFinding(
            rule=LOADS,
            code=problem.code,
            severity=Severity.ERROR,
            pack=pack,
            of=problem.key,
            file=problem.file,
            line=problem.line,
            key=problem.key,
            message=f"got {problem.value!r}, expected {problem.expected}",
            remedy=problem.remedy,
        )


def _ordered(findings: Iterable[LintFinding]) -> tuple[LintFinding, ...]:
    """Order findings as a reader of the files meets them."""
    return tuple(sorted(findings, key=lambda f: (f.file != HEADER, f.file, f.line, f.key, f.code)))

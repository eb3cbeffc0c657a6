"""Is a pack or an overlay good? All that is wrong with it, at once."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from os import PathLike
from pathlib import Path

import attrs

from barwright.errors import BarwrightError, DocumentError, FileError, PackError, SchemaError
from barwright.lint.catalogue import LOADS, OVERLAY_RULES, RULES, WAIVER_RULES
from barwright.lint.finding import LintFinding, PackLint, Severity
from barwright.lint.rule import Rule
from barwright.lint.subject.other_packs import OtherPacks, refers_to_others
from barwright.lint.subject.read_checks import read_checks, read_waivers
from barwright.lint.subject.read_overlays import ReadPack, beneath, read_with_packs
from barwright.lint.subject.subject import Progress, Subject
from barwright.lint.told_once import TellsOnce
from barwright.lint.waiving import covered
from barwright.parts.common.arguments import checks_arguments
from barwright.registry.files.key_lines import lines_of, located, nearest_line
from barwright.registry.files.snapshot import HEADER, Snapshot, snapshot_of
from barwright.registry.overlays.preference import is_overlay
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.load import Loaded, load_partly, standards
from barwright.registry.packs.store import Store

__all__ = ["lint_pack"]

_UNREADABLE = 2
_FAULTY = 3

_FAULT = "U101"


@checks_arguments
def lint_pack(
    folder: str | PathLike[str],
    *,
    over: Sequence[str | PathLike[str]] | None = None,
    progress: Progress | None = None,
) -> PackLint:
    """Answer whether a pack or an overlay is good. Bad content never raises an error.

    Parameters
    ----------
    folder : path
        With a ``pack.toml`` in it.
    over : sequence of path, optional
        Packs that an overlay lies on, and overlays between, or that a pack's claims and checks
        name; those that are installed if left out.
    progress : callable, optional
        Function called with the number of axles that a rule has looked at and the number in
        all, for each rule that looks at vehicles.

    Returns
    -------
    PackLint

    Examples
    --------
    >>> lint_pack("no-such-pack").exit_code
    2
    """
    snapshot = snapshot_of(Path(folder))
    as_overlay = is_overlay(snapshot)
    if as_overlay:
        read = read_with_packs(snapshot, over)
    else:
        read = _read_beside(snapshot, str(folder), over)
    loaded = read.loaded
    if isinstance(snapshot.files[HEADER], FileError):
        findings = tuple(_load_findings(loaded.problems, ""))
        return PackLint(folder=str(folder), pack="", exit_code=_UNREADABLE, findings=findings)
    rules = (*RULES, *OVERLAY_RULES) if as_overlay else RULES
    findings, waived = _findings(read, snapshot, rules, progress)
    is_faulty = any(finding.code == _FAULT for finding in findings)
    return PackLint(
        folder=str(folder),
        pack=loaded.pack.id if loaded.pack else "",
        exit_code=_FAULTY if is_faulty else int(any(f.is_flaw for f in findings)),
        findings=findings,
        waived=waived,
    )


def _read_beside(
    snapshot: Snapshot, origin: str, over: Sequence[str | PathLike[str]] | None
) -> ReadPack:
    """Read a pack and, only if its claims or checks name them, the packs beside it."""
    loaded = _read_alone(snapshot, origin)
    if loaded.pack is None or not refers_to_others(loaded.pack, loaded.tables):
        return ReadPack(loaded=loaded)
    return ReadPack(loaded=loaded, others=OtherPacks(beneath(over, {})))


def _read_alone(snapshot: Snapshot, origin: str) -> Loaded:
    """Read a pack; none may replace the standards."""
    loaded = load_partly(snapshot, origin=origin)
    pack, known = loaded.pack, standards()
    if pack is None or pack.id != known.id or pack.digest == known.digest:
        return loaded
    claimed = SchemaError(
        "P301",
        value=pack.id,
        expected="an id that no other pack claims",
        remedy="give the pack another id: the standards have this one",
        key="id",
        file=HEADER,
    )
    return attrs.evolve(loaded, problems=(*loaded.problems, *located([claimed], snapshot.text)))


def _findings(
    read: ReadPack, snapshot: Snapshot, rules: Sequence[Rule], progress: Progress | None
) -> tuple[tuple[LintFinding, ...], tuple[LintFinding, ...]]:
    """All findings that stand, and those that are waived."""
    pack = read.loaded.pack
    if pack is None:
        return tuple(_load_findings(read.loaded.problems, "")), ()
    subject, problems = _subject(read, pack, rules)
    if progress is not None:
        subject = attrs.evolve(subject, progress=progress)
    lines = _Lines(snapshot)
    found = tuple(TellsOnce(subject).findings(_asked(rules, subject, lines)))
    waived = {id(finding) for _, finding in covered(subject.waivers, found)}
    standing = (
        *_load_findings(located(problems, snapshot.text), pack.id),
        # What an overlay lacks may be in a pack that is left out.
        *(_left_out(error, pack.id) for error in read.left_out if problems),
        *(finding for finding in found if id(finding) not in waived),
        *_asked(WAIVER_RULES, attrs.evolve(subject, findings=found), lines),
    )
    return _ordered(standing), _ordered(f for f in found if id(f) in waived)


def _subject(
    read: ReadPack, pack: Pack, rules: Sequence[Rule]
) -> tuple[Subject, list[BarwrightError]]:
    """Read the pack for all rules, and tell what cannot be read."""
    loaded = read.loaded
    waivers, of_waivers = read_waivers(loaded.tables, _names(pack, read.laid))
    checks, unchecked, of_checks = read_checks(loaded.tables, pack, read.others, read.laid)
    if loaded.problems:
        # What a check is of may be what could not be loaded.
        of_checks = [problem for problem in of_checks if problem.code != "S206"]
    problems = list(_each(loaded.problems, of_checks, of_waivers))
    subject = Subject(
        pack=pack,
        tables=loaded.tables,
        is_whole=not problems,
        written_for=loaded.written_for,
        others=read.others,
        checks=checks,
        unchecked=unchecked,
        waivers=waivers,
        corrections=read.corrections,
        preferences=read.preferences,
        below=frozenset(read.laid.ids()) if read.laid else frozenset(),
        waivable=tuple(rule.name for rule in rules),
    )
    return subject, problems


def _names(pack: Pack, laid: Store | None) -> list[str]:
    """List all that a waiver may name: records, sources, and what an overlay corrects."""
    own = [entry.short for entry in pack.entries.values()]
    sources = [f"source/{source.id}" for source in pack.header.source]
    return [*own, *sources, *(laid.ids() if laid else ())]


def _each(*problems: Iterable[BarwrightError]) -> Iterator[BarwrightError]:
    """Tell problems one by one, those of a record that an overlay makes impossible too."""
    for problem in itertools.chain(*problems):
        yield from problem.problems if isinstance(problem, DocumentError) else (problem,)


class _Lines:
    """Lines of keys, read once a file."""

    def __init__(self, snapshot: Snapshot) -> None:
        self._text = snapshot.text
        self._known: dict[str, Mapping[str, int]] = {}

    def of(self, file: str, key: str) -> int:
        """Return the line of a key."""
        if file not in self._known:
            self._known[file] = lines_of(self._text(file))
        return nearest_line(self._known[file], key)


def _asked(rules: Iterable[Rule], subject: Subject, lines: _Lines) -> Iterator[LintFinding]:
    """Apply the rules; a rule is silent if its data could not be loaded."""
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
    return _of_the_pack(
        pack,
        rule=rule.name,
        code=_FAULT,
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


def _left_out(error: PackError, pack: str) -> LintFinding:
    return _of_the_pack(
        pack,
        rule=LOADS,
        code=error.code,
        message=f"the pack {error.file!r} below the overlay is left out: {error.problems[0]}",
        remedy="fix that pack first; it may hold the missing record",
    )


def _of_the_pack(pack: str, *, rule: str, code: str, message: str, remedy: str) -> LintFinding:
    """Find an error in a pack as a whole."""
    return LintFinding(
        rule=rule,
        code=code,
        severity=Severity.ERROR,
        pack=pack,
        of="",
        file=HEADER,
        line=0,
        key="",
        message=message,
        remedy=remedy,
    )


def _ordered(findings: Iterable[LintFinding]) -> tuple[LintFinding, ...]:
    """Order findings as a reader of the files meets them."""
    return tuple(sorted(findings, key=lambda f: (f.file != HEADER, f.file, f.line, f.key, f.code)))

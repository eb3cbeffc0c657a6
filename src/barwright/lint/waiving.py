"""Which waivers cover which findings; both may be very many."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from barwright.lint.finding import LintFinding
from barwright.lint.subject.place import holders, short
from barwright.lint.subject.stated import StatedWaiver

__all__ = ["covered"]


def covered(
    waivers: Iterable[StatedWaiver], findings: Iterable[LintFinding]
) -> Iterator[tuple[StatedWaiver, LintFinding]]:
    """List each finding with each waiver that lets it stand.

    Parameters
    ----------
    waivers : iterable of StatedWaiver
        As they stand in the pack.
    findings : iterable of LintFinding
        Of the pack.

    Yields
    ------
    tuple of StatedWaiver, LintFinding
    """
    by_name: dict[tuple[str, str, str], list[StatedWaiver]] = defaultdict(list)
    for waiver in waivers:
        by_name[waiver.place.file, waiver.waiver.rule, short(waiver.waiver.of)].append(waiver)
    for finding in findings:
        for name in holders(finding.of):
            near = by_name.get((finding.file, finding.rule, short(name)), ())
            yield from ((waiver, finding) for waiver in near if waiver.covers(finding))

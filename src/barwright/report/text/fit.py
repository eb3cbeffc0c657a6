"""Length fits and donors at a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from barwright.analysis.finding import Finding
from barwright.analysis.fit.length_fit import LengthFit
from barwright.report.text.layout.page import Page, Section, page_of
from barwright.report.text.layout.tables import Grid, Note, finding_lines, or_none, pairs, table
from barwright.units import Quantity, is_unknown, shown

if TYPE_CHECKING:
    from barwright.analysis.across.donors import Donors

__all__ = ["donors_row", "donors_text", "fit_row", "fit_text"]


def fit_text(fit: LengthFit) -> Page:
    """Show a length fit."""
    return page_of(fit, *_fit_tables(fit), findings=_fit_findings(fit, fit.reasons[1:]))


def _fit_findings(fit: LengthFit, reasons: Iterable[Finding]) -> Iterator[Note]:
    yield from finding_lines("because", reasons)
    yield from finding_lines("change", fit.changes)


def _fit_tables(fit: LengthFit) -> tuple[Grid, Grid]:
    rows = table("", "arm end", "anchor end", title="Ends of the bar")
    arm, anchor = fit.ends
    for name in ("engagement", "required", "protrusion", "bare_head"):
        label = {"protrusion": "sticks out", "bare_head": "bare head inside"}.get(name, name)
        rows.add_row(label, *(shown(getattr(end, name), 1) for end in (arm, anchor)))
    along = pairs(
        ("position of the bar", _position(fit)),
        ("between the engaged edges", _between(fit, fit.engaged_span)),
        ("active length", _between(fit, fit.active_length)),
        ("lever from its bolt", or_none(fit.lever_offset, 1)),
        ("cap from its holes", or_none(fit.cap_offset, 1)),
        ("largest body that passes", shown(fit.largest_body, 1)),
        title="Along the bar",
    )
    return rows, along


def _position(fit: LengthFit) -> str:
    if is_unknown(fit.position):
        return "not known"
    low, high = shown(fit.free_from, 1), shown(fit.free_to, 1)
    return f"{shown(fit.position, 1)} (free from {low} to {high})"


def _between(fit: LengthFit, length: Quantity | None) -> str:
    """Show a length between the sockets; there is none where the bar does not lie in both."""
    return "not known" if is_unknown(fit.position) else or_none(length, 1)


def fit_row(fit: LengthFit) -> dict[str, str]:
    """Sum a length fit up in a row."""
    arm, anchor = fit.ends
    why = dict.fromkeys(finding.topic.value for finding in (*fit.reasons, *fit.changes))
    return {
        "verdict": fit.verdict.value,
        "arm end": shown(arm.engagement, 1),
        "anchor end": shown(anchor.engagement, 1),
        "active length": or_none(fit.active_length, 1),
        "because of": ", ".join(why),
    }


def donors_text(answer: Donors) -> Page:
    """Show a fit, and the arms and anchors that would make the bar fit."""
    # Where other parts help, the headline names these, and not why the bar does not fit.
    reasons = answer.fit.reasons if answer.combinations else answer.fit.reasons[1:]
    return page_of(
        answer,
        *_combinations(answer),
        *_numbers(answer),
        *_fit_tables(answer.fit),
        findings=_fit_findings(answer.fit, reasons),
    )


def _combinations(answer: Donors) -> Iterator[Grid]:
    if not answer.combinations:
        return
    columns = ("arm", "anchor", "rate", "free angle moves", "cap off", "lever off", "changes")
    rows = table(*columns, title="Donors, best first")
    for donor in answer.combinations:
        rows.add_row(
            donor.arm_id,
            donor.anchor_id,
            shown(donor.system_rate, 2),
            or_none(donor.free_angle_change, 1),
            or_none(donor.fit.cap_offset, 1),
            or_none(donor.fit.lever_offset, 1),
            ", ".join(change.topic.value for change in donor.fit.changes),
        )
    yield rows


def _numbers(answer: Donors) -> Iterator[Section]:
    """List what the donors are ordered by, as far as that is known."""
    ordered = {donor.arm_id: donor.arm_numbers for donor in answer.combinations}
    ordered |= {donor.anchor_id: donor.anchor_numbers for donor in answer.combinations}
    known = {part: ", ".join(map(str, numbers)) for part, numbers in ordered.items() if numbers}
    if known:
        lines = (Note(f"{part}: {numbers}") for part, numbers in sorted(known.items()))
        yield Section("Part numbers", tuple(lines))


def donors_row(answer: Donors) -> dict[str, str]:
    """Sum the search for donors up in a row."""
    best = answer.combinations[0] if answer.combinations else None
    tried = answer.fit.verdict.is_refusal
    donor = f"{best.arm_id} and {best.anchor_id}" if best else "none" if tried else ""
    return fit_row(answer.fit) | {"best donors": donor}

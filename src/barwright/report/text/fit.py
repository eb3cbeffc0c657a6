"""Length fits and donors at a terminal."""

from __future__ import annotations

from rich.console import Group, RenderableType
from rich.text import Text

from barwright.analysis.across.donors import Donors
from barwright.analysis.fit.length_fit import LengthFit
from barwright.report.text.tables import finding_lines, headline_text, or_none, pairs, table
from barwright.units import shown

__all__ = ["donors_row", "donors_text", "fit_row", "fit_text"]

_BLANK_LINE = ""


def fit_text(fit: LengthFit) -> RenderableType:
    """Show a length fit."""
    rows = table("", "arm end", "anchor end")
    arm, anchor = fit.ends
    for name in ("engagement", "required", "protrusion", "bare_head"):
        label = {"protrusion": "sticks out", "bare_head": "bare head inside"}.get(name, name)
        rows.add_row(label, *(shown(getattr(end, name), 1) for end in (arm, anchor)))
    return Group(
        headline_text(fit),
        *finding_lines("because", fit.reasons[1:]),
        *finding_lines("change", fit.changes),
        rows,
        pairs(
            ("position of the bar", f"{shown(fit.position, 1)} ({_interval(fit)})"),
            ("between the engaged edges", or_none(fit.engaged_span, 1)),
            ("active length", or_none(fit.active_length, 1)),
            ("lever from its bolt", or_none(fit.lever_offset, 1)),
            ("cap from its holes", or_none(fit.cap_offset, 1)),
            ("largest body that passes", shown(fit.largest_body, 1)),
        ),
    )


def _interval(fit: LengthFit) -> str:
    return f"free from {shown(fit.free_from, 1)} to {shown(fit.free_to, 1)}"


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


def donors_text(answer: Donors) -> RenderableType:
    """Show a fit, and the arms and anchors that would make the bar fit."""
    if not answer.fit.verdict.is_refusal:
        return fit_text(answer.fit)
    if not answer.combinations:
        return Group(fit_text(answer.fit), "No arm and anchor of the installed packs makes it fit.")
    rows = table("arm", "anchor", "changes", "cap, lever off", "rate", "free angle moves")
    rows.columns[0].no_wrap = rows.columns[1].no_wrap = True
    for donor in answer.combinations:
        rows.add_row(
            donor.arm_id,
            donor.anchor_id,
            ", ".join(change.topic.value for change in donor.fit.changes),
            f"{or_none(donor.fit.cap_offset, 1)}, {or_none(donor.fit.lever_offset, 1)}",
            shown(donor.system_rate, 2),
            or_none(donor.free_angle_change, 1),
        )
    return Group(fit_text(answer.fit), _BLANK_LINE, Text("Donors, best first", style="bold"), rows)


def donors_row(answer: Donors) -> dict[str, str]:
    """Sum the search for donors up in a row."""
    best = answer.combinations[0] if answer.combinations else None
    tried = answer.fit.verdict.is_refusal
    donor = f"{best.arm_id} and {best.anchor_id}" if best else "none" if tried else ""
    return fit_row(answer.fit) | {"best donors": donor}

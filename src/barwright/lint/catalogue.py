"""All rules, in order."""

from __future__ import annotations

from barwright.lint.rule import Rule
from barwright.lint.rules.checks import check_copied, check_holds, check_source
from barwright.lint.rules.claims import claim_fits, claim_target, claim_unchecked, claim_works
from barwright.lint.rules.corrections import (
    correction_backed,
    correction_near,
    correction_needed,
    correction_reason,
    preference_needed,
)
from barwright.lint.rules.parts import (
    lone_side,
    metric_thread,
    spline_size,
    unmatched_spline,
    unused_material,
    usual_steel,
    weak_head,
)
from barwright.lint.rules.records import (
    empty_file,
    older_format,
    plain_text,
    plausible,
    proportion,
    same_content,
    same_number,
    same_title,
    supersession,
    unknown_figures,
)
from barwright.lint.rules.sources import (
    invented_unsaid,
    placed,
    thin_source,
    toleranced,
    undated_source,
    unused_source,
    usual_tolerance,
)
from barwright.lint.rules.vehicles import (
    built_later,
    damper_stops,
    drive_word,
    mirror,
    standard_fits,
    standard_holds,
    standard_middle,
    standard_seat,
    standard_stands,
    usual_directions,
    usual_places,
)
from barwright.lint.rules.waivers import waiver_needed, waiver_reason, waiver_rule

__all__ = ["LOADS", "OVERLAY_RULES", "RULES", "WAIVER_RULES"]

LOADS = "loads"
"""Name under which the problems are told that keep a pack from being loaded."""

RULES: tuple[Rule, ...] = (
    placed.RULE,
    toleranced.RULE,
    plausible.RULE,
    unknown_figures.RULE,
    usual_tolerance.RULE,
    proportion.RULE,
    unused_source.RULE,
    thin_source.RULE,
    undated_source.RULE,
    invented_unsaid.RULE,
    plain_text.RULE,
    same_title.RULE,
    same_content.RULE,
    same_number.RULE,
    empty_file.RULE,
    older_format.RULE,
    supersession.RULE,
    unused_material.RULE,
    unmatched_spline.RULE,
    weak_head.RULE,
    lone_side.RULE,
    drive_word.RULE,
    spline_size.RULE,
    metric_thread.RULE,
    usual_steel.RULE,
    standard_fits.RULE,
    standard_stands.RULE,
    standard_holds.RULE,
    mirror.RULE,
    standard_middle.RULE,
    standard_seat.RULE,
    damper_stops.RULE,
    usual_places.RULE,
    usual_directions.RULE,
    built_later.RULE,
    claim_target.RULE,
    claim_unchecked.RULE,
    claim_fits.RULE,
    claim_works.RULE,
    check_holds.RULE,
    check_source.RULE,
    check_copied.RULE,
)
"""Those whose findings can be waived."""

OVERLAY_RULES: tuple[Rule, ...] = (
    correction_needed.RULE,
    correction_near.RULE,
    correction_backed.RULE,
    correction_reason.RULE,
    preference_needed.RULE,
)
"""Those that overlays are held to beside these, whose findings can be waived too."""

WAIVER_RULES: tuple[Rule, ...] = (waiver_rule.RULE, waiver_needed.RULE, waiver_reason.RULE)
"""Those that waivers are held to, which cannot be waived."""

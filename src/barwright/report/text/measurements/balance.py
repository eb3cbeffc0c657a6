"""How a vehicle is balanced, for a person at the scales: figures, then a short sheet."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from barwright.analysis.balancing.balance_answer import (
    Balance,
    NutMove,
    NutSettings,
    RideAndRoll,
    WheelOnScale,
    per_cent,
)
from barwright.report.sheet.steps.adjustment import words_of
from barwright.report.text.layout.page import Page, Section, page_of
from barwright.report.text.layout.tables import (
    Block,
    Grid,
    finding_lines,
    marked,
    or_none,
    pairs,
    table,
)
from barwright.units import Quantity, shown

__all__ = ["balance_text"]


def balance_text(answer: Balance) -> Page:
    """Show how a vehicle stands, what each aim costs, and the sheet for the preferred one.

    Parameters
    ----------
    answer : Balance
        The answer.

    Returns
    -------
    Page
    """
    label = "note" if answer.is_answered else "because"
    findings = (
        *finding_lines(label, answer.further_findings),
        *(marked("!", caution.text) for caution in answer.cautions),
    )
    return page_of(
        answer,
        *_standing(answer),
        *_aims(answer),
        *_sheet(answer),
        *_ride_and_roll(answer.ride_and_roll),
        findings=findings,
    )


def _standing(answer: Balance) -> Iterator[Block]:
    if not answer.scales:
        return
    now = table("wheel", "scale", "hub to arch", title="As it stands")
    for one in answer.scales:
        now.add_row(one.corner, shown(one.scale_reading, 0), _or_blank(one.height))
    yield now
    shares = [
        ("together", or_none(answer.total, 0)),
        ("front", _share(answer.front_share)),
        ("left", _share(answer.left_share)),
        ("cross weight", f"{_share(answer.cross_weight)} (front right and rear left)"),
    ]
    yield pairs(*shares)


def _share(share: float | None) -> str:
    return "" if share is None else per_cent(share)


def _or_blank(value: Quantity | None) -> str:
    return "" if value is None else shown(value, 0)


def _aims(answer: Balance) -> Iterator[Block]:
    """Set the aims beside each other: who chooses one sees what the others give."""
    if not answer.settings:
        return
    columns = ("set for", "heights", "cross weight", "turns", "answer")
    found = table(*columns, title="What the nuts can give")
    for one in answer.settings:
        found.add_row(
            one.aim.value,
            ", ".join(_or_blank(wheel.height) for wheel in one.scales if wheel.height is not None),
            f"{100.0 * one.cross_weight:.1f} ± {per_cent(one.cross_uncertainty)}",
            ", ".join(_in_short(move) for move in one.turned) or "none",
            one.verdict.value,
        )
    yield found


def _in_short(move: NutMove) -> str:
    turns = abs(float(move.correcting_turns.magnitude))
    return f"{move.corner} {turns:.2f} {'up' if move.is_raised else 'down'}"


# -- The sheet -----------------------------------------------------------------------------


def _sheet(answer: Balance) -> Iterator[Block]:
    if not answer.settings or not answer.preferred.turned or answer.verdict.is_refusal:
        return
    found = answer.preferred
    numbered = itertools.count(1)
    for title, of in (
        ("Before you turn a nut", _before(answer)),
        ("Turn, in this order", _turning(found)),
        ("Read it again", _after(answer, found)),
    ):
        yield Section(title, tuple(marked(f"{next(numbered)}.", step) for step in of))
    yield _readings(answer)


def _before(answer: Balance) -> Iterator[str]:
    yield "Set the tyre pressures. Put fuel, driver and load on it as it is to be driven."
    yield "Set the scales on level ground, zero them, and point the wheels straight ahead."
    yield "Roll it onto the scales, brakes off. Rock it at both ends and let it settle."
    yield "Read all scales and heights."
    yield (
        f"Only if a scale is more than {or_none(answer.not_chased, 0)} or a height more than "
        f"{or_none(answer.close_enough, 0)} from the table above: write what you read into the "
        "job, and ask again."
    )


def _turning(found: NutSettings) -> Iterator[str]:
    places = dict.fromkeys(move.corner.split()[0] for move in found.turned)
    for place in places:
        own = [move for move in found.turned if move.corner.startswith(place)]
        yield (
            f"Chock the vehicle. Lift the body until both {place} wheels hang. Set it on stands."
        )
        for move in own:
            yield _turn(move)
        yield from ["Change sides after each whole turn, until both have their turns."] * (
            len(own) - 1
        )
    if found.is_large:
        yield (
            "Only if you have not done this before on this vehicle: make half of each turn, set "
            "it down, roll it, read it, and ask again."
        )


def _turn(move: NutMove) -> str:
    words = words_of(move.turned_part)
    does = "raises" if move.is_raised else "lowers"
    return (
        f"{_capital(move.in_words)}, seen from {words.seen_from}. This {does} the corner. Check: "
        f"{shown(move.pin_distance, 1)} from the {move.bolt_datum.value} to the {words.point}. "
        f"Thread left: {_turns(move.left_to_raise)} turns to raise, "
        f"{_turns(move.left_to_lower)} to lower."
    )


def _capital(sentence: str) -> str:
    return sentence[0].upper() + sentence[1:]


def _turns(value: Quantity) -> str:
    return shown(value, 1).removesuffix(" turn")


def _after(answer: Balance, found: NutSettings) -> Iterator[str]:
    yield "Set it down, roll it off and on again, rock it and let it settle. Read everything."
    yield (
        f"Expected: cross weight {100.0 * found.cross_weight:.1f} ± "
        f"{per_cent(found.cross_uncertainty)}, and the table below. Do not chase "
        f"{or_none(answer.not_chased, 0)} or {or_none(answer.close_enough, 0)}."
    )
    yield (
        "Only if it is further off: write the new readings and nut places into the job, and ask "
        "again. The second turn is small."
    )
    yield "Only if an anti-roll bar has a link to adjust: set it free of load as it stands."
    yield "Only if there is a locknut: hold the nut or bolt and tighten it."


def _readings(answer: Balance) -> Grid:
    """Show what is expected at each wheel, with room for what is then read."""
    columns = ("wheel", "scale", "expected", "read", "height", "expected", "read")
    found = table(*columns, title="Readings")
    for now, then in zip(answer.scales, answer.preferred.scales, strict=True):
        found.add_row(now.corner, *_row(now, then))
    return found


def _row(now: WheelOnScale, then: WheelOnScale) -> Iterator[str]:
    yield shown(now.scale_reading, 0)
    yield _with_spread(then.scale_reading, then.scale_uncertainty)
    yield _ROOM
    yield _or_blank(now.height)
    yield "" if then.height is None else _with_spread(then.height, then.height_uncertainty)
    yield _ROOM


_ROOM = "_____"


def _with_spread(value: Quantity, spread: Quantity | None) -> str:
    number, _ = shown(value, 0).split(" ")
    return f"{number} ± {or_none(spread, 0)}"


# -- Frequencies and roll ------------------------------------------------------------------


def _ride_and_roll(found: RideAndRoll | None) -> Iterator[Block]:
    if found is None:
        return
    own = f"front {shown(found.front_frequency, 2)}, rear {shown(found.rear_frequency, 2)}"
    rows = [("ride frequency", own)]
    body = {
        "bounce": found.bounce_frequency,
        "pitch": found.pitch_frequency,
        "roll": found.roll_frequency,
    }
    known = [f"{name} {shown(one, 2)}" for name, one in body.items() if one is not None]
    if known:
        rows.append(("of the body", ", ".join(known)))
    rates = f"front {shown(found.front_roll_rate, 0)}, rear {shown(found.rear_roll_rate, 0)}"
    rows.append(("roll rate", f"{rates}: {per_cent(found.front_roll_share)} front"))
    if found.first_lift is not None:
        rows += _transfer(found, found.first_lift)
    yield pairs(*rows, title="Ride and roll, as it stands")


def _transfer(found: RideAndRoll, first_lift: float) -> Iterator[tuple[str, str]]:
    bend = f"in a bend of {found.lateral_acceleration:g} g"
    yield "roll", f"{or_none(found.body_roll, 1)} {bend}"
    moved = (or_none(found.front_transfer, 0), or_none(found.rear_transfer, 0))
    yield "load transfer", f"front {moved[0]}, rear {moved[1]} {bend}"
    yield "first wheel lifts", f"at about {first_lift:.1f} g, grip permitting"

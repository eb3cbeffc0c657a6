"""How a vehicle is balanced, in steps and tables: the same at a terminal and on paper."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.balancing.balance_answer import (
    Balance,
    NutMove,
    NutSettings,
    RideAndRoll,
    WheelOnScale,
    per_cent,
)
from barwright.report.sheet.steps.adjustment import words_of
from barwright.units import Quantity, shown

__all__ = ["BalanceTable", "aims", "is_turned", "readings", "ride_and_roll", "stages", "turns"]


@attrs.frozen(kw_only=True)
class BalanceTable:
    """A table of the sheet.

    Parameters
    ----------
    title : str
        What it shows.
    columns : tuple of str
        Headings.
    rows : tuple of tuple of str
        Texts; empty where something is to be written.
    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def is_turned(answer: Balance) -> bool:
    """Tell whether any nut is turned: only then there is something to do."""
    return bool(answer.settings and answer.preferred.turned and not answer.verdict.is_refusal)


def turns(answer: Balance) -> Iterator[str]:
    """Say of each nut how far it is turned and which way, and from where that is seen.

    Parameters
    ----------
    answer : Balance
        An answer by which nuts are turned.

    Yields
    ------
    str
    """
    turned = answer.preferred.turned
    seen = [f"seen from {words_of(move.turned_part).seen_from}" for move in turned]
    is_shared = len(set(seen)) == 1
    for move, end in zip(turned, seen, strict=True):
        does = "Raise" if move.is_raised else "Lower"
        yield f"{does} {move.in_words}{'' if is_shared else f', {end}'}."
    if is_shared:
        yield f"{_capital(seen[0])}."


def stages(answer: Balance) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Say what is done before the nuts are turned, how they are turned, and what is read then.

    Parameters
    ----------
    answer : Balance
        The answer.

    Yields
    ------
    (str, tuple of str)
        A title and its steps.
    """
    if is_turned(answer):
        found = answer.preferred
        yield "Before you turn a nut", tuple(_before(answer))
        yield "Turn, in this order", tuple(_turning(found))
        yield "Read it again", tuple(_after(answer, found))


def _before(answer: Balance) -> Iterator[str]:
    yield "Set the tyre pressures. Put fuel, driver and load on it as it is to be driven."
    yield "Set the scales on level ground, zero them, and point the wheels straight ahead."
    yield "Roll it onto the scales, brakes off. Rock it at both ends and let it settle."
    yield "Read all scales and heights."
    yield (
        f"Only if a scale is more than {_or_none(answer.not_chased)} or a height more than "
        f"{_or_none(answer.close_enough)} from the readings above: write what you read into the "
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
        f"{_capital(move.in_words)}, seen from {words.seen_from}. This {does} the corner. "
        f"Check: {shown(move.pin_distance, 1)} from the {move.bolt_datum.value} to the "
        f"{words.point}. Thread left: {_turns(move.left_to_raise)} turns to raise, "
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
        f"{_or_none(answer.not_chased)} or {_or_none(answer.close_enough)}."
    )
    yield (
        "Only if it is further off: write the new readings and nut places into the job, and ask "
        "again. The second turn is small."
    )
    yield "Only if an anti-roll bar has a link to adjust: set it free of load as it stands."
    yield "Only if there is a locknut: hold the nut or bolt and tighten it."


# -- Tables --------------------------------------------------------------------------------


def readings(answer: Balance) -> BalanceTable:
    """Set what is expected at each wheel beside what was read, with room for what is then read.

    Parameters
    ----------
    answer : Balance
        An answer with settings.

    Returns
    -------
    BalanceTable
    """
    pairs = zip(answer.scales, answer.preferred.scales, strict=True)
    return BalanceTable(
        title="Readings",
        columns=("wheel", "scale", "expected", "read", "height", "expected", "read"),
        rows=tuple((now.corner, *_row(now, then)) for now, then in pairs),
    )


def _row(now: WheelOnScale, then: WheelOnScale) -> Iterator[str]:
    yield shown(now.scale_reading, 0)
    yield _with_spread(then.scale_reading, then.scale_uncertainty)
    yield ""
    yield _or_blank(now.height)
    yield "" if then.height is None else _with_spread(then.height, then.height_uncertainty)
    yield ""


def aims(answer: Balance) -> BalanceTable:
    """Set the aims beside each other: who chooses one sees what the others give.

    Parameters
    ----------
    answer : Balance
        The answer.

    Returns
    -------
    BalanceTable
        Without rows where there are no settings.
    """
    return BalanceTable(
        title="What the nuts can give",
        columns=("set for", "heights", "cross weight", "turns", "answer"),
        rows=tuple(tuple(_aim(one)) for one in answer.settings),
    )


def _aim(one: NutSettings) -> Iterator[str]:
    yield one.aim.value
    yield ", ".join(shown(wheel.height, 0) for wheel in one.scales if wheel.height is not None)
    yield f"{100.0 * one.cross_weight:.1f} ± {per_cent(one.cross_uncertainty)}"
    yield ", ".join(_in_short(move) for move in one.turned) or "none"
    yield one.verdict.value


def _in_short(move: NutMove) -> str:
    count = abs(float(move.correcting_turns.magnitude))
    return f"{move.corner} {count:.2f} {'up' if move.is_raised else 'down'}"


def ride_and_roll(found: RideAndRoll | None) -> BalanceTable:
    """Show frequencies, roll and load transfer.

    Parameters
    ----------
    found : RideAndRoll, optional
        What there is.

    Returns
    -------
    BalanceTable
        Without rows where there is nothing.
    """
    rows = () if found is None else tuple(_ride_rows(found))
    return BalanceTable(title="Ride and roll, as it stands", columns=("", ""), rows=rows)


def _ride_rows(found: RideAndRoll) -> Iterator[tuple[str, str]]:
    own = f"front {shown(found.front_frequency, 2)}, rear {shown(found.rear_frequency, 2)}"
    yield "ride frequency", own
    body = {
        "bounce": found.bounce_frequency,
        "pitch": found.pitch_frequency,
        "roll": found.roll_frequency,
    }
    known = [f"{name} {shown(one, 2)}" for name, one in body.items() if one is not None]
    if known:
        yield "of the body", ", ".join(known)
    rates = f"front {shown(found.front_roll_rate, 0)}, rear {shown(found.rear_roll_rate, 0)}"
    yield "roll rate", f"{rates}: {per_cent(found.front_roll_share)} front"
    if found.first_lift is not None:
        yield from _transfer(found, found.first_lift)


def _transfer(found: RideAndRoll, first_lift: float) -> Iterator[tuple[str, str]]:
    bend = f"in a bend of {found.lateral_acceleration:g} g"
    yield "roll", f"{_or_none(found.body_roll, 1)} {bend}"
    moved = (_or_none(found.front_transfer), _or_none(found.rear_transfer))
    yield "load transfer", f"front {moved[0]}, rear {moved[1]} {bend}"
    yield "first wheel lifts", f"at about {first_lift:.1f} g, grip permitting"


def _with_spread(value: Quantity, spread: Quantity | None) -> str:
    number, _ = shown(value, 0).split(" ")
    return f"{number} ± {_or_none(spread)}"


def _or_blank(value: Quantity | None) -> str:
    return "" if value is None else shown(value, 0)


def _or_none(value: Quantity | None, digits: int = 0) -> str:
    return "none" if value is None else shown(value, digits)

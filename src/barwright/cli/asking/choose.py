"""``barwright choose``: which bar brings a wanted rate, and survives."""

from __future__ import annotations

import json
from collections.abc import Iterator

import attrs
import click

from barwright.analysis.selection.choose import choose
from barwright.analysis.selection.selection import Selection
from barwright.cli.jobs import (
    installed,
    invented_packs,
    json_option,
    load_one,
    locating_errors,
    no_cut_option,
    registry_options,
    units_option,
    worst_exit_code,
)
from barwright.cli.output import say_json, show
from barwright.errors import JobError, QuantityError
from barwright.parts.chassis import AxlePlace
from barwright.parts.setup import Setup
from barwright.parts.wanted import Extreme, Goal, Wanted
from barwright.registry.registry import Registry
from barwright.report.forms.json import plain
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("choose")
@click.argument("vehicle", nargs=-1, required=True, metavar="VEHICLE | JOB.toml")
@click.option("--rate", metavar="FIGURE", help="Wanted rate at the wheel, like '27 N/mm'.")
@click.option("--stiffer", type=float, metavar="PER_CENT", help="So much stiffer than now.")
@click.option("--softer", type=float, metavar="PER_CENT", help="So much softer than now.")
@click.option("--frequency", metavar="FIGURE", help="Wanted ride frequency, like '1.4 Hz'.")
@click.option(
    "--front-to-rear", type=float, metavar="RATIO", help="Front over rear ride frequency."
)
@click.option("--lowest-stress", is_flag=True, help="The lowest stress that holds the height.")
@click.option("--largest", is_flag=True, help="The thickest bar that goes in and survives.")
@click.option("--height", metavar="FIGURE", help="Height to hold, hub to arch.")
@click.option(
    "--axle", type=click.Choice(["front", "rear"]), help="Of a vehicle with bars at both axles."
)
@click.option(
    "--miss",
    type=float,
    default=10.0,
    show_default=True,
    metavar="PER_CENT",
    help="How far a bar may miss the goal.",
)
@click.option("--dampers", is_flag=True, help="Try other dampers too.")
@no_cut_option
@units_option
@json_option
@registry_options
def command(
    vehicle: tuple[str, ...],
    *,
    rate: str | None,
    stiffer: float | None,
    softer: float | None,
    frequency: str | None,
    front_to_rear: float | None,
    lowest_stress: bool,
    largest: bool,
    height: str | None,
    axle: str | None,
    miss: float,
    dampers: bool,
    no_cut: bool,
    as_json: bool,
    system: System,
) -> int:
    """Choose a bar for a vehicle, or for the vehicle of a job, by one goal.

    For example: barwright choose fells short --stiffer 30

    To list every bar that fits: barwright matrix --vehicles 'fells short'
    """
    from barwright.report.text.selection import selection_text  # noqa: PLC0415 - rich is slow

    goal = _goal(
        wheel_rate=rate,
        rate_change=_change(stiffer, softer),
        ride_frequency=frequency,
        front_to_rear=front_to_rear,
        extreme=_extreme(lowest_stress=lowest_stress, largest=largest),
    )
    registry = installed()
    words = " ".join(vehicle)
    found = []
    with locating_errors(words, {"most_miss": "--miss"}):
        for setup, wanted in _corners(registry, words, axle):
            asked = _changed(wanted, height=height, no_cut=no_cut)
            answer = choose(
                setup,
                goal,
                parts=registry.parts(),
                wanted=asked,
                most_miss=miss,
                with_dampers=dampers,
            )
            found.append((setup, in_units(answer, system)))
    if as_json:
        answers = [{"corner": setup.corner, "answer": plain(answer)} for setup, answer in found]
        say_json(json.dumps({"answers": answers}, ensure_ascii=False))
    else:
        for corners, answer in _alike(found):
            named = [registry.bar(option.bar_id) for option in answer.options]
            show(selection_text(answer).of(corners, invented_packs(registry, named)))
    return worst_exit_code(answer.outcome for _, answer in found)


def _change(stiffer: float | None, softer: float | None) -> float | None:
    if stiffer is not None and softer is not None:
        raise _one_goal("--stiffer and --softer")
    return stiffer if softer is None else -softer


def _extreme(*, lowest_stress: bool, largest: bool) -> Extreme | None:
    if lowest_stress and largest:
        raise _one_goal("--lowest-stress and --largest")
    if lowest_stress:
        return Extreme.LOWEST_STRESS
    return Extreme.LARGEST_BAR if largest else None


def _one_goal(given: str) -> JobError:
    return JobError(
        "S207", value=given, expected="one goal", remedy="leave one of them out", key="goal"
    )


def _goal(**wishes: object) -> Goal:
    """Make the goal, naming options instead of fields where there is none."""
    try:
        return Goal(**wishes)  # type: ignore[arg-type]
    except QuantityError as error:
        error.key = f"--{_OPTIONS[error.key]}"
        raise
    except JobError:
        given = [name for name, wish in wishes.items() if wish is not None]
        raise JobError(
            "S207",
            value=" and ".join(f"--{_OPTIONS[name]}" for name in given) or "no goal",
            expected="one goal",
            remedy="give one of --rate, --stiffer, --softer, --frequency, --front-to-rear, "
            "--lowest-stress, --largest",
            key="goal",
        ) from None


_OPTIONS = {
    "wheel_rate": "rate",
    "rate_change": "stiffer",
    "ride_frequency": "frequency",
    "front_to_rear": "front-to-rear",
    "extreme": "lowest-stress",
}


def _corners(
    registry: Registry, words: str, axle: str | None
) -> Iterator[tuple[Setup, Wanted | None]]:
    """Corners of a job as they are now, or both of a vehicle as it left the works."""
    if words.endswith(".toml"):
        for corner in load_one(words, registry).corners:
            yield corner.present, corner.wanted
        return
    chassis = registry.resolve(words)
    places = [one.place for one in chassis.axles]
    place = AxlePlace(axle) if axle else places[0]
    for side in ("left", "right"):
        yield registry.setup(chassis.id, corner=f"{place.value} {side}"), None


def _changed(wanted: Wanted | None, *, height: str | None, no_cut: bool) -> Wanted:
    wish = Wanted(height=height) if height else wanted or Wanted()
    return attrs.evolve(wish, cuts=0) if no_cut else wish


def _alike(found: list[tuple[Setup, Selection]]) -> Iterator[tuple[str, Selection]]:
    """Put corners together whose answers name the same bars and the same work."""
    groups: dict[object, list[tuple[Setup, Selection]]] = {}
    for setup, answer in found:
        key = (
            answer.verdict,
            tuple((one.bar_id, one.swapped_titles, one.plan.cuts) for one in answer.options),
        )
        groups.setdefault(key, []).append((setup, answer))
    for members in groups.values():
        setup, answer = members[0]
        corners = ", ".join(one.corner for one, _ in members)
        yield f"{setup.chassis.title}, {corners}", answer

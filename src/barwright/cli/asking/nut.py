"""``barwright nut``: what each turn of the adjuster's nut gives."""

from __future__ import annotations

import functools
from collections.abc import Mapping, Sequence

import click

from barwright.analysis.adjusting.job_tables import (
    NutReading,
    planned_nut_tables,
    present_nut_tables,
)
from barwright.analysis.adjusting.nut_table import NutTable, nut_table
from barwright.analysis.reindex.axle import by_corner
from barwright.analysis.reindex.work_rests_on import work_rests_on
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource, rests_on
from barwright.cli.jobs import (
    ask_job,
    by_side,
    job_argument,
    json_option,
    no_cut_option,
    plan_numbers,
    plan_option,
    registry_options,
    units_option,
    without_cuts,
)
from barwright.parts.wanted import Wanted
from barwright.registry.jobs.job import Job, JobCorner
from barwright.units import LENGTH, TURNS, Kind, Quantity, Range, System, to_kind

__all__ = ["command"]

_OPTIONS = {"measured": "--measured", "wanted": "--wanted", "plan": "--plan"}


@click.command("nut")
@job_argument
@plan_option
@no_cut_option
@click.option("--as-it-is", is_flag=True, help="Take the vehicle as it is now, without a plan.")
@click.option(
    "--measured",
    multiple=True,
    metavar="[SIDE=]HEIGHT",
    help="Measured height, hub to arch: '341 mm', left='341 mm'; may be repeated.",
)
@click.option(
    "--wanted",
    multiple=True,
    metavar="[SIDE=]HEIGHT",
    help="Wanted height, if not that of the job; may be repeated.",
)
@click.option(
    "--at",
    multiple=True,
    metavar="[SIDE=]TURNS",
    help="Position of the nut, if not as planned: '2.5 turn' from the middle of its thread, "
    "clockwise positive; may be repeated.",
)
@click.option("--all", "whole_thread", is_flag=True, help="Show all turns of the thread.")
@units_option
@json_option
@registry_options
def command(
    job: str,
    *,
    plans: tuple[str, ...],
    no_cut: bool,
    as_it_is: bool,
    measured: tuple[str, ...],
    wanted: tuple[str, ...],
    at: tuple[str, ...],
    whole_thread: bool,
    as_json: bool,
    system: System,
) -> int:
    """List height, travel and load for each turn of the nut or adjusting bolt.

    It takes the preferred plan as carried out, and shows five turns either side of the nut.
    Given a measured height, it says how far to turn the nut to the wanted height.
    """
    from barwright.report.text.nut import nut_row, nut_text  # noqa: PLC0415 - rich is slow to load

    numbers = plan_numbers(plans)
    given = _Readings(measured=measured, wanted=wanted, at=at)

    def question(loaded: Job) -> Sequence[NutTable]:
        readings = given.of(loaded)
        if as_it_is:
            return present_nut_tables(loaded, readings)
        return planned_nut_tables(without_cuts(loaded) if no_cut else loaded, numbers, readings)

    def unmeasured(corner: JobCorner, _: NutTable) -> tuple[UnmeasuredSource, ...]:
        if as_it_is:
            return rests_on(corner.present, questions=[nut_table])
        return work_rests_on(corner)

    set_here = "set" if at else "now" if as_it_is else "planned"
    return ask_job(
        job,
        question,
        functools.partial(nut_text, whole_thread=whole_thread, set_here=set_here),
        nut_row,
        as_json=as_json,
        system=system,
        options=_OPTIONS | ({"nut_turns": "--at"} if at else {}),
        unmeasured=unmeasured,
    )


class _Readings:
    """What the options say of the corners.

    Parameters
    ----------
    measured, wanted, at : sequence of str
        Their texts.
    """

    def __init__(
        self, *, measured: Sequence[str], wanted: Sequence[str], at: Sequence[str]
    ) -> None:
        heights = {"--measured": measured, "--wanted": wanted}
        self._measured, self._wanted = (
            _figures(texts, option, LENGTH, of="height", allowed="positive")
            for option, texts in heights.items()
        )
        self._at = _figures(at, "--at", TURNS, of="turns")

    def of(self, job: Job) -> list[NutReading]:
        """Give them for each corner of a job."""
        names = [corner.setup.corner for corner in job.corners]
        columns = (
            by_corner(_named(given, names), names, otherwise=None, key=key)
            for key, given in (
                ("measured", self._measured),
                ("wanted", self._wanted),
                ("nut_turns", self._at),
            )
        )
        return [
            NutReading(
                measured=height,
                wanted=None if wish is None else Wanted(height=wish),
                nut_turns=turns,
            )
            for height, wish, turns in zip(*columns, strict=True)
        ]


def _named(given: Mapping[str, Quantity], names: Sequence[str]) -> dict[str, Quantity | None]:
    """Say of every corner what is said of all."""
    return dict.fromkeys(names, given[""]) if "" in given else {**given}


def _figures(
    given: Sequence[str], option: str, kind: Kind, *, of: str, allowed: Range = "any"
) -> dict[str, Quantity]:
    return by_side(
        given,
        option=option,
        of=of,
        read=lambda text: to_kind(text, kind, key=option, allowed=allowed),
    )

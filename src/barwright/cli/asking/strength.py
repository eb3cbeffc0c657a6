"""``barwright strength``: whether the bar holds, and its life."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import attrs
import click

from barwright.analysis.strength.life_lines import BarSurface, WoehlerBand, WoehlerLine
from barwright.analysis.strength.strength import Strength, strength
from barwright.analysis.strength.strength_limits import StrengthLimits, StressLimit, din_2091
from barwright.analysis.strength.travel_history import TravelSpectrum, usual_travel
from barwright.cli.jobs import (
    ask,
    job_argument,
    json_option,
    registry_options,
    units_option,
)
from barwright.registry.jobs.history import load_history
from barwright.registry.jobs.job import JobCorner
from barwright.units import LENGTH, STRESS, Quantity, QuantityArray, System, to_kind

__all__ = ["command"]

_BY_STANDARD = "din-2091"
_SOURCE = "the command line"
_USUAL = "usual"


@click.command("strength")
@job_argument
@click.option("--travel", help="Wheel travel above and below ride height, like '40 mm'.")
@click.option(
    "--history",
    type=click.Path(),
    metavar="FILE",
    help="Wheel travels from ride height in order of time, bump positive, one on each line; or "
    "'usual', a usual road by common practice, without a source.",
)
@click.option(
    "--history-covers", help="Distance or time of one run of FILE, like '12 km' or '1 year'."
)
@click.option(
    "--permissible-shear",
    help=f"Greatest stress of the bar at rest, like '700 MPa'; or {_BY_STANDARD}, from memory.",
)
@click.option("--shear-yield", help="Yield stress in shear.")
@click.option("--ultimate-shear", help="Ultimate stress in shear.")
@click.option(
    "--shear-ratio",
    type=click.FloatRange(min=0.0, max=1.0, min_open=True),
    help="Ultimate shear stress divided by the tensile strength of the steel.",
)
@click.option(
    "--endurance", help="Shear stress amplitude, about zero mean, that never breaks the bar."
)
@click.option(
    "--woehler-line",
    type=(str, float, float),
    metavar="STRESS CYCLES EXPONENT",
    help="Woehler (S-N) line: stress amplitude, cycles it survives, slope.",
)
@click.option(
    "--woehler-band",
    type=(str, str, float, float),
    metavar="LOW HIGH CYCLES EXPONENT",
    help="Woehler line of the weakest and of the strongest bars: two amplitudes, cycles, slope.",
)
@click.option(
    "--surface",
    type=click.Choice([surface.value for surface in BarSurface]),
    help="Estimate the lives from the tensile strength of the steel and this surface of the bar.",
)
@units_option
@json_option
@registry_options
def command(
    job: str,
    *,
    travel: str | None,
    history: str | None,
    history_covers: str | None,
    as_json: bool,
    system: System,
    **known: Any,  # noqa: ANN401 - click hands over what the options above say
) -> int:
    """Give the stresses in the bar, and compare them with known limits.

    Limits that are not given come from the bar's steel, if its pack states them.  Without a
    limit there is no verdict.  Full droop is checked as well as full bump.
    """
    from barwright.report.text.strength import (  # noqa: PLC0415 - rich is slow to load
        strength_row,
        strength_text,
    )

    reach = travel and to_kind(travel, LENGTH, key="--travel", allowed="positive")
    points = None if history is None else _history(history)
    by_standard = known["permissible_shear"] == _BY_STANDARD
    limits = _limits(known | ({"permissible_shear": None} if by_standard else {}))

    def question(corner: JobCorner) -> Strength:
        bar = corner.setup.bar
        of_bar = attrs.evolve(limits, permissible_shear=din_2091(bar)) if by_standard else limits
        return strength(
            corner.setup,
            limits=of_bar,
            travel=reach,
            history=points,
            history_covers=history_covers,
            wanted=corner.wanted,
        )

    return ask(
        job,
        question,
        strength_text,
        strength_row,
        as_json=as_json,
        system=system,
    )


def _limits(known: Mapping[str, Any]) -> StrengthLimits:
    """Limits of the options; each error names its option."""
    names = ("permissible_shear", "shear_yield", "ultimate_shear", "endurance")
    stresses: dict[str, Any] = {name: _limit(known[name], name) for name in names}
    return StrengthLimits(
        **stresses,
        shear_ratio=known["shear_ratio"],
        woehler_line=_line(known["woehler_line"]),
        woehler_band=_band(known["woehler_band"]),
        surface=known["surface"] and BarSurface(known["surface"]),
    )


def _history(given: str) -> QuantityArray | TravelSpectrum:
    return usual_travel() if given == _USUAL else load_history(given)


def _limit(text: str | None, name: str) -> StressLimit | None:
    if text is None:
        return None
    return StressLimit(stress=_stress(text, f"--{name.replace('_', '-')}"), source=_SOURCE)


def _line(given: tuple[str, float, float] | None) -> WoehlerLine | None:
    return None if given is None else _read_line(given[0], *given[1:], option="--woehler-line")


def _band(given: tuple[str, str, float, float] | None) -> WoehlerBand | None:
    if given is None:
        return None
    *stresses, life, exponent = given
    lowest, highest = (
        _read_line(str(stress), life, exponent, option="--woehler-band") for stress in stresses
    )
    return WoehlerBand(lowest=lowest, highest=highest)


def _read_line(stress: str, life: float, exponent: float, *, option: str) -> WoehlerLine:
    return WoehlerLine(
        at_stress=_stress(stress, option), at_life=life, exponent=exponent, source=_SOURCE
    )


def _stress(text: str, option: str) -> Quantity:
    return to_kind(text, STRESS, key=option, allowed="positive")

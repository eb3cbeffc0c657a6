"""Chart all bars by all wheelbases of a family, for a counter."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.finding import Finding, Topic
from barwright.family.chart_line import (
    ChartGroup,
    ChartLine,
    ChartWheelbase,
    NotOffered,
    by_wheelbase,
    change_of,
    lines_of,
)
from barwright.family.chart_wish import ChartGrouping, ChartOrder, ChartWish
from barwright.family.family import Family
from barwright.family.matrix import rows_of_family
from barwright.family.row import PlainRow, row_of
from barwright.family.vehicle import family_question
from barwright.parts.chassis import AxlePlace, Chassis
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.registry.files.user_cache import Progress
from barwright.registry.registry import Registry
from barwright.registry.search.parts import why_none
from barwright.units import LENGTH, Quantity, is_unknown, shown, si

__all__ = ["FamilyChart", "family_chart"]

# More wheelbases than this are read below the headline.
_MOST_NAMED = 3


@attrs.frozen(kw_only=True, repr=False)
class FamilyChart(Answer):
    """Answer to :func:`family_chart`.

    Parameters
    ----------
    verdict : Verdict
        Listed where a bar is offered; else nothing suits, or needs more figures.
    findings : tuple of Finding
        That the words describe no bar, if so; why a bar is not offered is said of it.
    cautions : tuple of Caution
        None, because the chart leads to no work.
    family : str
        What the vehicles have in common in their titles; empty if nothing.
    wheelbases : tuple of ChartWheelbase
        The axles of the vehicles, by wheelbase.
    grouped_by : {"wheelbase", "bar", "none"}
        What the lines are grouped by.
    groups : tuple of ChartGroup
        The bars that are offered, each on a wheelbase.
    not_offered : tuple of NotOffered
        The others, on each wheelbase where their splines match.
    other_splines : int
        Bars whose splines match nowhere on the chart.
    filtered : int
        Lines that would be offered, and that were not asked for.
    """

    family: str
    wheelbases: tuple[ChartWheelbase, ...]
    grouped_by: ChartGrouping
    groups: tuple[ChartGroup, ...]
    not_offered: tuple[NotOffered, ...]
    other_splines: int
    filtered: int

    @property
    def lines(self) -> tuple[ChartLine, ...]:
        """Lines of all groups."""
        return tuple(itertools.chain.from_iterable(group.lines for group in self.groups))

    def on(self, wheelbase: ChartWheelbase) -> tuple[ChartLine, ...]:
        """Return the lines of a wheelbase.

        Parameters
        ----------
        wheelbase : ChartWheelbase
            One of the chart.

        Returns
        -------
        tuple of ChartLine
        """
        return tuple(line for line in self.lines if line.key == wheelbase.key)

    @property
    def headline(self) -> str:
        """How many bars are offered, and the stiffest that need no change."""
        if self.findings:
            return self.refused()
        if not self.wheelbases:
            return (
                "No vehicle is described by these words. Give fewer words; "
                "barwright vehicles lists all vehicles."
            )
        number, family = len(self.wheelbases), self.family or "the packs"
        where = family if number == 1 else f"{number} wheelbases of {family}"
        bars = len({line.pair.bar_id for line in self.lines})
        if not bars:
            return f"No bar is offered for {where}."
        goes = f"{bars} bars go" if bars > 1 else "1 bar goes"
        said = f"{goes} on {where}, with a stress below every known limit."
        return " ".join((said, *self._standard(), self._stiffest()))

    def _standard(self) -> Iterator[str]:
        """Name the standard bar of the only wheelbase, and its rate."""
        first, *others = self.wheelbases
        if first.standard_rate is not None and not others:
            rate = shown(first.standard_rate, 1)
            yield f"Standard: {' and '.join(first.standard_bars)}, {rate} at the wheel."

    def _stiffest(self) -> str:
        """Say which bar is the stiffest that goes in as it is, on each wheelbase or on one."""
        on = by_wheelbase(self.lines)
        stiffest = [(one, _stiffest_on(on.get(one.key, ()))) for one in self.wheelbases]
        found = [
            (change, wheelbase.called if self.wheelbases[1:] else line.pair.bar_title)
            for wheelbase, line in stiffest
            if line and (change := change_of(line)) is not None
        ]
        if not found:
            return "None that needs no change is stiffer than the standard bar."
        told = found if len(found) <= _MOST_NAMED else [max(found)]
        each = (f"{change:+.0f} % ({named})" for change, named in told)
        return f"Stiffest without changes: {', '.join(each)}."


def _stiffest_on(lines: Iterable[ChartLine]) -> ChartLine | None:
    """Return the stiffest line without changes that is stiffer than the standard bar."""
    stiffer = [
        line
        for line in lines
        if line.is_without_changes and not line.pair.is_standard and (change_of(line) or 0.0) > 0.0
    ]
    return max(stiffer, key=lambda line: change_of(line) or 0.0, default=None)


@checks_arguments
def family_chart(
    registry: Registry,
    vehicles: str = "",
    *,
    bars: str = "",
    height: FigureLike | None = None,
    axle: AxlePlace | None = None,
    unchanged: bool = False,
    least_change: float | None = None,
    most_change: float | None = None,
    sort: ChartOrder = "rate",
    descending: bool = False,
    group: ChartGrouping = "wheelbase",
    processes: int | None = None,
    progress: Progress | None = None,
) -> FamilyChart:
    """Chart which bars go on which wheelbases of a family, and what each gives there.

    A bar is offered if it goes in and its stress at full bump stays below every known limit.
    Each corner keeps its other standard parts and its standard load.

    Parameters
    ----------
    registry : Registry
        Bars and vehicles.
    vehicles : str
        Words that describe the family, as :meth:`Registry.vehicles` takes them; all if left out.
    bars : str
        Words that describe the bars, as :meth:`Registry.parts` takes them; all if left out.  The
        standard bars are on the chart in any case.
    height : str or Quantity, optional
        Hub to arch, at which all are rated; each axle's standard height if left out.
    axle : AxlePlace, optional
        The only axle to look at.
    unchanged : bool
        Whether only bars are shown that need no change.
    least_change, most_change : float, optional
        Limits of the change of the rate at the wheel, in per cent of that with the standard bar.
    sort : {"rate", "change", "frequency", "stress", "bar"}
        What the lines are sorted by.
    descending : bool
        Whether the greatest comes first.
    group : {"wheelbase", "bar", "none"}
        What the lines are grouped by.
    processes : int, optional
        The most processes to share the work; as for :func:`check_jobs`.
    progress : callable, optional
        Called with two counts as vehicles are done: of these, and of all.

    Returns
    -------
    FamilyChart

    Raises
    ------
    QuantityError
        For a height that is no length above zero.
    SchemaError
        S207 for a least change above the greatest.

    References
    ----------
    The rows of :func:`family_matrix`.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> chart = family_chart(Registry.demo(), "fells", unchanged=True, least_change=28.0)
    >>> print(chart.groups[1].title)
    Fells carrier, middle wheelbase, front
    >>> for line in chart.groups[1].lines:
    ...     print(f"{line.pair.bar_title} {line.pair.wheel_rate_change:+.0f} %")
    Standard bar, middle van +0 %
    Firm bar, middle van +29 %
    """
    wish = ChartWish(
        unchanged=unchanged,
        least_change=least_change,
        most_change=most_change,
        sort=sort,
        descending=descending,
        group=group,
    )
    question = attrs.evolve(
        family_question(height=height, clocking=False, pruned=True), with_other_splines=False
    )
    family = Family.of(registry, question, bars=bars, vehicles=vehicles)
    undescribed = () if family.bars or not bars else (_no_bar(bars, registry),)
    if bars and not undescribed:
        family = family.with_standard_bars()
    rows, _ = rows_of_family(family, processes=processes, progress=progress)
    asked = [row for row in rows if axle is None or row["corner"].split()[0] == axle.value]
    lines = list(lines_of(map(row_of, asked)))
    wheelbases = _wheelbases(registry, asked, lines)
    offered = [line for line in lines if line.pair.is_offered]
    shown = wish.sorted([line for line in offered if wish.takes(line)])
    refused = [line for line in lines if not line.pair.is_offered]
    return FamilyChart(
        verdict=_verdict(shown, refused),
        findings=undescribed,
        family=_in_common(wheelbase.vehicle_title for wheelbase in wheelbases),
        wheelbases=wheelbases,
        grouped_by=group,
        groups=tuple(one for one in wish.grouped(shown, wheelbases) if one.lines),
        not_offered=tuple(_not_offered(refused, wheelbases)),
        other_splines=len(family.bars) - len({row["bar_id"] for row in asked}) if asked else 0,
        filtered=len(offered) - len(shown),
    )


def _no_bar(words: str, registry: Registry) -> Finding:
    """Say that no bar is described by some words, and which of them is in the way."""
    every = [registry.bar(full_id) for full_id in registry.ids("bar")]
    text = f"no bar is described by {words!r} ({why_none(words, every)})"
    return Finding(topic=Topic.NOTHING_LEFT, text=text)


def _verdict(offered: Sequence[ChartLine], refused: Sequence[ChartLine]) -> Verdict:
    if offered:
        return Verdict.LISTED
    unknown = any(
        Verdict.NEEDS_FIGURES in (line.pair.fit, line.pair.rates, line.pair.strength)
        for line in refused
    )
    return Verdict.NEEDS_FIGURES if unknown else Verdict.NOTHING_SUITS


# -- Wheelbases ---------------------------------------------------------------------------


def _wheelbases(
    registry: Registry, rows: Iterable[PlainRow], lines: Sequence[ChartLine]
) -> tuple[ChartWheelbase, ...]:
    """List the axles of the rows, the shortest vehicle of each model first."""
    keys = dict.fromkeys((row["vehicle_id"], row["corner"].split()[0]) for row in rows)
    vehicles = {vehicle: registry.chassis(vehicle) for vehicle, _ in keys}
    names = _told_apart({key: chassis.title for key, chassis in vehicles.items()})
    has_two, on = len({axle for _, axle in keys}) > 1, by_wheelbase(lines)
    found = []
    for vehicle, axle in sorted(keys, key=lambda key: (_by_length(vehicles[key[0]]), key[1])):
        called = names[vehicle]
        on_it = [line.pair for line in on.get((vehicle, axle), ())]
        standard = [pair for pair in on_it if pair.is_standard]
        found.append(
            ChartWheelbase(
                vehicle_id=vehicle,
                vehicle_title=vehicles[vehicle].title,
                place=AxlePlace(axle),
                called=f"{called}, {axle}" if has_two else called,
                height=_first(pair.height for pair in on_it),
                standard_bars=tuple(dict.fromkeys(pair.bar_title for pair in standard)),
                standard_rate=_first(pair.wheel_rate for pair in standard),
            )
        )
    return tuple(found)


def _by_length(chassis: Chassis) -> tuple[str, str, str, float, str]:
    """Sort vehicles by maker, model and wheelbase."""
    pack, wheelbase = chassis.id.partition(":")[0], chassis.wheelbase
    length = math.inf if is_unknown(wheelbase) else si(wheelbase, LENGTH)
    return pack, chassis.maker or "", chassis.model or "", length, chassis.id


def _first(figures: Iterable[Quantity | None]) -> Quantity | None:
    return next((figure for figure in figures if figure is not None), None)


def _in_common(titles: Iterable[str]) -> str:
    """Return the words with which all titles begin; all of them, if there is one title."""
    words = zip(*(title.split() for title in dict.fromkeys(titles)), strict=False)
    same = itertools.takewhile(lambda found: len({word.rstrip(",") for word in found}) == 1, words)
    return " ".join(found[0] for found in same).rstrip(",")


def _told_apart(titles: Mapping[str, str]) -> dict[str, str]:
    """Leave out of titles what they begin with and what they end with, if that is the same."""
    common = _in_common(titles.values())
    rests = {key: title.removeprefix(common).strip(", ") for key, title in titles.items()}
    ends = {rest.rpartition(", ")[2] for rest in rests.values() if ", " in rest}
    if len(ends) == 1 and all(", " in rest for rest in rests.values()):
        rests = {key: rest.rpartition(", ")[0] for key, rest in rests.items()}
    return {key: rest or titles[key] for key, rest in rests.items()}


# -- What is not offered ------------------------------------------------------------------


def _not_offered(
    lines: Iterable[ChartLine], wheelbases: Sequence[ChartWheelbase]
) -> Iterator[NotOffered]:
    """Say what is not offered, in as few lines as there are reasons and places."""
    order = {wheelbase.key: number for number, wheelbase in enumerate(wheelbases)}
    places: dict[tuple[str, str, str], list[str]] = {}
    for line in sorted(lines, key=lambda line: order[line.key]):
        key = (line.why_not, line.pair.bar_id, line.pair.bar_title)
        place = f"{wheelbases[order[line.key]].called} {line.side}".strip()
        places.setdefault(key, []).append(place)
    bars: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for (reason, _, title), where in places.items():
        bars.setdefault((reason, tuple(where)), []).append(title)
    for (reason, on), titles in bars.items():
        yield NotOffered(reason=reason, places=on, bars=tuple(titles))

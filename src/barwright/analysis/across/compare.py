"""Compare two setups: every figure, with its change."""

from __future__ import annotations

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.rates import rates_of
from barwright.analysis.tolerance.answer_figures import answer_figures
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource, sources_moving
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import Quantity

__all__ = ["Comparison", "ComparisonRow", "compare"]


@attrs.frozen(kw_only=True, repr=False)
class ComparisonRow(Summarised):
    """One figure of both setups.

    Parameters
    ----------
    figure : str
        Its name, by the fields that lead to it, like ``ride.wheel_rate``.
    one, other : Quantity, int or None
        Its value in each setup; none if a setup has no such figure.
    change : Quantity, int or None
        From the one to the other.
    percent : float, optional
        The change in percent of the first value; none if that is zero.
    """

    figure: str
    one: Quantity | int | None
    other: Quantity | int | None
    change: Quantity | int | None
    percent: float | None


@attrs.frozen(kw_only=True, repr=False)
class Comparison(Answer):
    """Answer to :func:`compare`.

    Parameters
    ----------
    verdict : Verdict
        Compared.
    findings : tuple of Finding
        None; the findings of each setup are in its own answers.
    cautions : tuple of Caution
        None, because comparing leads to no work.
    one, other : str
        What is compared: vehicle, corner and bar.
    rows : tuple of ComparisonRow
        Every figure of length fit and rates.
    rests_on : tuple of UnmeasuredSource
        Unmeasured and unpublished sources that they depend on.
    """

    one: str
    other: str
    rows: tuple[ComparisonRow, ...]
    rests_on: tuple[UnmeasuredSource, ...] = ()

    @property
    def headline(self) -> str:
        """How the wheel rate and the height change."""
        found = {row.figure: row for row in self.rows}
        reported = [
            f"{word} {percent:+.1f} %"
            for name, word in _HEADLINE.items()
            if name in found and (percent := found[name].percent) is not None
        ]
        if not reported:
            return "No rate to compare."
        return f"The second job compared with the first: {', '.join(reported)}."


# Figures that the headline gives, with their words.
_HEADLINE = {"ride.wheel_rate": "rate at the wheel", "bar_rate": "rate of the bar"}


@checks_arguments
def compare(
    setup: Setup,
    other: Setup,
    *,
    wanted: Wanted | None = None,
    other_wanted: Wanted | None = None,
) -> Comparison:
    """Compare two setups: every figure, with its change.

    Parameters
    ----------
    setup, other : Setup
        The two corners.
    wanted, other_wanted : Wanted, optional
        Height at which to rate each; as clocked and set, if left out.

    Returns
    -------
    Comparison

    References
    ----------
    Differences of the answers of ``length_fit`` and ``rates``.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> registry = Registry.discover()
    >>> van = registry.setup("fells:chassis/short", corner="front left")
    >>> firm = van.with_parts(bar=registry.part("fells:bar/short-firm"))
    >>> rows = {row.figure: row for row in compare(van, firm).rows}
    >>> f"{rows['bar_rate'].percent:+.1f} %"  # (25.2 / 23.3)⁴, on a longer body
    '+36.4 %'
    """
    figures = [_figures(setup, wanted), _figures(other, other_wanted)]
    names = list(dict.fromkeys([*figures[0], *figures[1]]))
    return Comparison(
        verdict=Verdict.COMPARED,
        findings=(),
        one=_name(setup),
        other=_name(other),
        rows=tuple(_row(name, figures[0].get(name), figures[1].get(name)) for name in names),
        rests_on=tuple(
            dict.fromkeys(
                [
                    *_unmeasured(setup, wanted, figures[0]),
                    *_unmeasured(other, other_wanted, figures[1]),
                ]
            )
        ),
    )


def _unmeasured(
    setup: Setup, wanted: Wanted | None, figures: dict[str, Quantity | int]
) -> tuple[UnmeasuredSource, ...]:
    """List the sources of a setup's figures that are neither measured nor published."""
    return sources_moving(
        [setup],
        figures,
        at=lambda moved: _figures(moved, wanted),
        questions=[lambda found: found],
    )


def _name(setup: Setup) -> str:
    return f"{setup.chassis.title}, {setup.corner}, {setup.bar.title}"


def _figures(setup: Setup, wanted: Wanted | None) -> dict[str, Quantity | int]:
    """All scalar figures of a setup by their names."""
    corner = corner_of(setup)
    found = dict(answer_figures(fit_of(corner), "fit"))
    answer = rates_of(corner, wanted)
    return found | dict(answer_figures(answer.figures, ""))


def _row(name: str, one: Quantity | int | None, other: Quantity | int | None) -> ComparisonRow:
    if one is None or other is None:
        return ComparisonRow(figure=name, one=one, other=other, change=None, percent=None)
    change = other - one
    base = float(getattr(one, "magnitude", one))
    part = float(getattr(change, "magnitude", change))
    return ComparisonRow(
        figure=name,
        one=one,
        other=other,
        change=change,
        percent=100.0 * part / abs(base) if base else None,
    )

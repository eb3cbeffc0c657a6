"""Steps from the stress in a bar's body and fillets to its limits and factors."""

from __future__ import annotations

from barwright.analysis.corner.bar.fillets import fillets_of
from barwright.analysis.strength.overstress import StressCheck
from barwright.analysis.strength.strength_limits import StressLimit
from barwright.analysis.strength.stresses import StrengthFigures
from barwright.analysis.working.expression import Number, Symbol, larger, root, size
from barwright.analysis.working.working_unit import NO_UNIT, STRESS_UNIT
from barwright.analysis.working.worksheet import Worksheet, marked
from barwright.mechanics.bar import fillets
from barwright.mechanics.strength import fatigue, shear_limits
from barwright.units import STRESS, si

__all__ = ["strength_steps"]

_PLACES = {"droop": "at full droop", "ride": "at rest", "bump": "at full bump"}


def strength_steps(sheet: Worksheet, figures: StrengthFigures) -> None:
    """Hold the stresses of the body against their limits, and give those in the fillets.

    Parameters
    ----------
    sheet : Worksheet
        Where the states of the corner are put down already.
    figures : StrengthFigures
        What the answer says, which knows the limits that apply.
    """
    sheet.begin("Against the limits")
    for place, check in (("droop", figures.droop), ("ride", figures.ride), ("bump", figures.bump)):
        _factor(sheet, check, place, "p", "permissible shear stress", figure=place)
    for place, check in (("droop", figures.droop_at_yield), ("bump", figures.at_yield)):
        figure = "at_yield" if place == "bump" else "droop_at_yield"
        _factor(
            sheet, check, place, "y", "shear stress at which the bar's body yields", figure=figure
        )
    _fillets(sheet)


def _factor(
    sheet: Worksheet, check: StressCheck, place: str, name: str, words: str, *, figure: str
) -> None:
    """Put down a limit and the factor to it, if one is known."""
    if check.limit is None or check.factor is None:
        return
    mark = "" if place == "ride" else place[0]
    limit = _limit(sheet, check.limit, name, words, against=check.stress.magnitude < 0.0)
    sheet.step(
        marked(f"S_{name}", mark),
        f"factor to the {words}, {_PLACES[place]}",
        limit / size(Symbol(marked("τ", mark))),
        NO_UNIT,
        fatigue.static_factor,
        found=check.factor,
        figure=f"{figure}.factor",
    )


def _limit(sheet: Worksheet, limit: StressLimit, name: str, words: str, *, against: bool) -> Symbol:
    """Put down a limit: from the steel's proof strength, or as it is known."""
    symbol = f"τ_{name}0" if against else f"τ_{name}"
    if sheet.has(symbol):
        return Symbol(symbol)
    proof, value = sheet.setup.bar.material.proof_strength, si(limit.stress, STRESS)
    if name == "y" and proof is not None and value == shear_limits.yield_shear(si(proof, STRESS)):
        strength = sheet.given(
            "R_p", "proof strength of the bar's steel", "bar.material.proof_strength"
        )
        return sheet.step(
            symbol,
            words,
            strength / root(Number(3.0, "3")),
            STRESS_UNIT,
            shear_limits.yield_shear,
            found=value,
        )
    return sheet.wished(symbol, words, limit.stress, STRESS, said_by=limit.source)


def _fillets(sheet: Worksheet) -> None:
    for fillet in fillets_of(sheet.setup.bar):
        factor = fillet.concentration
        if factor is None:
            continue
        end = fillet.end.value
        mark = "a" if end.startswith("arm") else "c"
        concentration = sheet.solved(
            f"K_{mark}",
            f"greatest stress in the fillet at the {end}, over that of the body",
            factor,
            NO_UNIT,
            "read off a fitted surface by the program, see fillet_stress_concentration",
        )
        sheet.step(
            f"τ_f{mark}",
            f"greatest shear stress in the fillet at the {end}",
            concentration * larger(size(Symbol("τ_d")), size(Symbol("τ_b"))),
            STRESS_UNIT,
            fillets.fillet_stress_concentration,
            figure=f"fillets.{end}.greatest",
            kind=STRESS,
        )

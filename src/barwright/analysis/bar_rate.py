"""The rate of a bar alone and with its torque tube, without a vehicle."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.bar.fillets import twist_left_out
from barwright.analysis.corner.suspension import metres
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.obstacle import findings_of
from barwright.analysis.fit.obstacles import unmatched_teeth
from barwright.analysis.rates.held_bar import HeldBar
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    StressLimit,
    applied_permissible_shear,
)
from barwright.analysis.tolerance.figures import toleranced_figures
from barwright.analysis.tolerance.shifted_answers import AskedQuestion, at_both_ends, uncertainty
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource, sources_moving
from barwright.errors import NeedsError
from barwright.parts.bar import Bar
from barwright.parts.chassis import BarEndName
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.material import Material
from barwright.parts.tube import Tube
from barwright.units import (
    TORQUE,
    Quantity,
    is_unknown,
    quantity,
    quantity_of_unit,
    shown,
    si,
    to_kind,
    unit_spelling,
)

__all__ = ["BarRate", "bar_rate", "bar_rests_on"]


@attrs.frozen(kw_only=True, repr=False)
class BarRate(Answer):
    """Answer to :func:`bar_rate`.

    Parameters
    ----------
    verdict : Verdict
        Rated; does not fit, if the bar cannot lie in the tube; or needs more figures.
    findings : tuple of Finding
        What else must be known.
    cautions : tuple of Caution
        None, because a rate leads to no work.
    bar_id : str
        The bar.
    tube_id : str, optional
        The tube; none if none was named.
    bar_rate : Quantity
        Torsional rate of the bar, held over the whole length of its splines.  Like every other
        figure, it is unknown if a figure that it rests on is.
    bar_rate_uncertainty : Quantity, optional
        What stands behind its ±: expanded uncertainty, about 95 %; none where no figure that
        moves it has a tolerance.
    tube_rate : Quantity, optional
        Torsional rate of the tube between its lever and its socket.
    system_rate : Quantity
        Torsional rate of bar and tube in series; without a tube, that of the bar.
    system_rate_uncertainty : Quantity, optional
        As for the bar.
    shear_modulus : Quantity
        That the bar's rate rests on.
    shear_modulus_tolerance : Quantity, optional
        Half width of the interval it lies in, if the pack gives one.
    active_length : Quantity
        Of the bar.
    mass : Quantity, optional
        Of the bar with its heads; none where the density of its steel is not given.
    clocking_step : Quantity
        Smallest angle that the bar can be re-indexed by, with both ends.
    torque : Quantity
        Torque for which twist and stress are given.
    twist : Quantity
        Of bar and tube together under that torque.
    twist_uncertainty : Quantity, optional
        As for the rates.
    shear_stress : Quantity
        At the surface of the bar's body under that torque.
    permissible_shear : StressLimit, optional
        Shear stress that the bar may reach at rest, if its steel says so.
    permissible_torque : Quantity, optional
        Torque at which the body reaches it.
    """

    bar_id: str
    tube_id: str | None
    bar_rate: Quantity
    bar_rate_uncertainty: Quantity | None = None
    tube_rate: Quantity | None
    system_rate: Quantity
    system_rate_uncertainty: Quantity | None = None
    shear_modulus: Quantity
    shear_modulus_tolerance: Quantity | None
    active_length: Quantity
    mass: Quantity | None = None
    clocking_step: Quantity
    torque: Quantity
    twist: Quantity
    twist_uncertainty: Quantity | None = None
    shear_stress: Quantity
    permissible_shear: StressLimit | None
    permissible_torque: Quantity | None

    @property
    def headline(self) -> str:
        """The rate of the bar, and with a tube that of both; what is needed, if anything is."""
        if self.verdict.is_refusal:
            return self.refused()
        needed = "" if self.is_answered else self.refused()
        return " ".join(filter(None, (self._known_rates, needed)))

    @property
    def _known_rates(self) -> str:
        """The rates that are known, in a sentence."""
        if is_unknown(self.bar_rate):
            return ""
        bar = _with_uncertainty(self.bar_rate, self.bar_rate_uncertainty)
        if self.tube_id is None or is_unknown(self.system_rate):
            return f"The bar alone gives {bar}."
        both = _with_uncertainty(self.system_rate, self.system_rate_uncertainty)
        return f"Bar and tube in series give {both}; the bar alone gives {bar}."


def _with_uncertainty(value: Quantity, known: Quantity | None) -> str:
    return shown(value, 1) + ("" if known is None else f" ± {shown(known, 1)}")


@checks_arguments
def bar_rate(bar: Bar, *, tube: Tube | None = None, torque: FigureLike = "1000 N*m") -> BarRate:
    """Answer what rate a bar has by itself, and with a torque tube in series.

    Parameters
    ----------
    bar : Bar
        The bar.
    tube : Tube, optional
        The tube that its anchor end lies in.
    torque : str or Quantity
        To tell twist and stress for.

    Returns
    -------
    BarRate

    Raises
    ------
    QuantityError
        If the torque is no torque, or not above zero.

    Notes
    -----
    The bar is taken as held over the whole length of its splines.  On a vehicle its sockets
    decide how much of them twists: :func:`~barwright.analysis.rates.rates.rates` counts that.

    References
    ----------
    See :mod:`barwright.mechanics.bar.torsion` and :mod:`barwright.mechanics.spline.clocking`.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> registry = Registry.discover()
    >>> bar, tube = registry.bar("fells:bar/short-firm"), registry.tube("fells:tube/short")
    >>> bar_rate(bar).headline
    'The bar alone gives 65.5 N·m/deg ± 3.7 N·m/deg.'
    >>> answer = bar_rate(bar, tube=tube)
    >>> answer.system_rate < answer.bar_rate
    True
    """
    held, load = HeldBar(bar=bar, tube=tube), _positive(torque)
    known = _uncertainties(held, load)
    return attrs.evolve(
        _rated(held, load),
        bar_rate_uncertainty=known.get("bar_rate"),
        system_rate_uncertainty=known.get("system_rate"),
        twist_uncertainty=known.get("twist"),
    )


def bar_rests_on(bar: Bar, *, tube: Tube | None = None) -> tuple[UnmeasuredSource, ...]:
    """List the sources of :func:`bar_rate` that are neither measured nor published.

    Parameters
    ----------
    bar : Bar
        The bar.
    tube : Tube, optional
        The tube.

    Returns
    -------
    tuple of UnmeasuredSource
        As :func:`~barwright.analysis.tolerance.unmeasured.rests_on` lists them.
    """
    held, load = HeldBar(bar=bar, tube=tube), 1.0
    question = [lambda moved: _rated(moved, load)]
    return sources_moving([held], held, at=lambda moved: moved, questions=question)


def _positive(torque: FigureLike) -> float:
    return si(to_kind(torque, TORQUE, key="torque", allowed="positive"), TORQUE)


def _uncertainties(held: HeldBar, torque: float) -> dict[str, Quantity]:
    """Work out the expanded uncertainty of each figure that a tolerance moves, by its name."""
    asked = AskedQuestion.of(lambda moved: _rated(moved, torque), held)
    changes, _ = at_both_ends(asked, toleranced_figures(held, {}))
    return {
        name: quantity_of_unit(expanded, unit_spelling(nominal))
        for (name, nominal), expanded in zip(
            asked.nominal.items(), uncertainty(changes).tolist(), strict=True
        )
        if expanded > 0.0
    }


def _rated(held: HeldBar, torque: float) -> BarRate:
    """Rate a bar, and tell its twist under a torque [N·m], with no ± as yet."""
    bar, tube = held.bar, held.tube
    permitted = applied_permissible_shear(bar, StrengthLimits())
    apart, needed = tuple(_apart(held)), tuple(held.needs())
    modulus = bar.material.about.get("shear_modulus")
    return BarRate(
        verdict=_verdict(apart, needed),
        findings=(*apart, *needed, *_found_by(partial(twist_left_out, bar)), *_untoleranced(held)),
        bar_id=bar.id,
        tube_id=tube.id if tube else None,
        bar_rate=held.bar_rate,
        tube_rate=held.tube_rate,
        system_rate=held.system_rate,
        shear_modulus=bar.material.shear_modulus,
        shear_modulus_tolerance=modulus.tolerance if modulus else None,
        active_length=held.active_length,
        mass=held.mass,
        clocking_step=held.clocking_step,
        torque=quantity(torque, TORQUE),
        twist=held.twist(torque),
        shear_stress=held.shear_stress(torque),
        permissible_shear=permitted,
        permissible_torque=None if permitted is None else held.torque_at(permitted.stress),
    )


def _verdict(apart: Sequence[Finding], needed: Sequence[Finding]) -> Verdict:
    if apart:
        return Verdict.DOES_NOT_FIT
    return Verdict.NEEDS_FIGURES if needed else Verdict.RATED


def _apart(held: HeldBar) -> Iterator[Finding]:
    """Say why a bar cannot lie in its tube, whatever the vehicle, as far as figures are known."""
    bar, tube = held.bar, held.tube
    if tube is None:
        return
    checks = unmatched_teeth(BarEndName.ANCHOR, bar.anchor_end, tube.socket)
    unmatched = (partial(findings_of, check) for check in checks)
    yield from _found_by(*unmatched, partial(_too_thick, bar, tube))


def _too_thick(bar: Bar, tube: Tube) -> Iterator[Finding]:
    if metres(bar.diameter) >= metres(tube.bore):
        text = "the bar's body does not pass the tube's bore"
        yield Finding(topic=Topic.WAY_IN, text=text, figure=bar.diameter, limit=tube.bore)


def _found_by(*checks: Callable[[], Iterable[Finding]]) -> Iterator[Finding]:
    """List what checks find, passing over those whose figures are missing: no rate needs these."""
    for check in checks:
        with contextlib.suppress(NeedsError):
            yield from tuple(check())


def _untoleranced(held: HeldBar) -> Iterator[Finding]:
    """Name the steels whose shear modulus has no tolerance, so that the ± leaves it out."""
    steels: dict[str, Material] = {
        part.material.id: part.material for part in (held.bar, held.tube) if part is not None
    }
    for steel in steels.values():
        known = steel.about.get("shear_modulus")
        if known is not None and known.tolerance is None:
            yield Finding(
                topic=Topic.UNCERTAINTY,
                text=f"no tolerance of the shear modulus is known, and the ± leaves it out: "
                f"give {steel.id} one",
                figure=steel.shear_modulus,
            )

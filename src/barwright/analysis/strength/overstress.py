"""Whether a bar is overstressed: decided here, once, for every answer that says so.

:func:`overstress` compares the shear stress of a bar's body at full droop, at ride and at
full bump with the limits that are known of the bar, whichever way it is twisted, and the
stress in its fillets with yield.
:func:`~barwright.analysis.strength.strength.strength` calls it with its caller's limits, and
what judges a plan calls it with those of the steel, so that all say the same.  It needs
the states of the corner and no curve.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import attrs

from barwright.analysis.corner.bar.fillets import unknown_concentrations
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.corner_state import CornerState
from barwright.analysis.strength.fillet_stress import yielding_fillets
from barwright.analysis.strength.presetting import yield_limit
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    StressLimit,
    applied_permissible_shear,
    pascals,
)
from barwright.mechanics.strength import fatigue
from barwright.parts.bar import Bar
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.in_short import Summarised
from barwright.units import STRESS, Quantity, quantity, si

__all__ = [
    "Overstress",
    "StressCheck",
    "checked_at_yield",
    "checked_permissible",
    "overstress",
    "overstress_at",
    "strength_is_known",
]


@attrs.frozen(kw_only=True, repr=False)
class StressCheck(Summarised):
    """A shear stress and its limit.

    Parameters
    ----------
    stress : Quantity
        At the surface of the bar's body; negative where a fixed socket twists the bar in
        the droop sense.
    limit : StressLimit, optional
        For the stress without its sign; none if none is known, and then there is no factor.
    factor : float, optional
        Safety factor, the limit over the stress; none for a bar without stress.
    """

    stress: Quantity
    limit: StressLimit | None
    factor: float | None

    @property
    def is_exceeded(self) -> bool:
        """Whether the stress lies beyond its limit; false where none is known."""
        return self.factor is not None and self.factor < 1.0


@attrs.frozen(kw_only=True, repr=False)
class Overstress(Summarised):
    """Whether a bar is stressed beyond its known limits.

    Parameters
    ----------
    is_judged : bool
        Whether any limit of the bar is known, and the stress in all its fillets; that
        does not count in a pre-set bar.
    exceeded : tuple of Finding
        One for each state and limit that its body exceeds, and for each fillet that yields.
    unknown : tuple of Finding
        What is not known of the bar's strength.
    """

    is_judged: bool
    exceeded: tuple[Finding, ...]
    unknown: tuple[Finding, ...]

    @property
    def is_overstressed(self) -> bool:
        """Whether a known limit is exceeded."""
        return bool(self.exceeded)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is exceeded, then what is not known."""
        return (*self.exceeded, *self.unknown)


@checks_arguments
def overstress(
    bar: Bar,
    *,
    droop: CornerState,
    bump: CornerState,
    ride: CornerState | None = None,
    limits: StrengthLimits | None = None,
) -> Overstress:
    """Compare the shear stress of a bar with the limits that are known.

    All states are compared with the permissible shear stress.  Full droop and full bump
    are compared with yield too, in the body and in the fillets of a bar that is not pre-set.

    Parameters
    ----------
    bar : Bar
        The bar, whose steel knows its limits.
    droop, bump : CornerState
        The corner at full droop and at full bump.
    ride : CornerState, optional
        The corner at rest, which lies between the two: no limit is exceeded there alone.
    limits : StrengthLimits, optional
        What the caller knows of the bar's strength; the rest is taken from its steel.

    Returns
    -------
    Overstress

    Examples
    --------
    >>> from barwright.analysis.rates.rates import rates
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> states = rates(setup).figures
    >>> mine = StrengthLimits(permissible_shear="650 MPa")
    >>> overstress(setup.bar, droop=states.droop, bump=states.bump, limits=mine).is_overstressed
    True
    """
    return overstress_at(
        bar,
        droop=si(droop.shear_stress, STRESS),
        bump=si(bump.shear_stress, STRESS),
        ride=None if ride is None else si(ride.shear_stress, STRESS),
        limits=limits,
    )


def overstress_at(
    bar: Bar,
    *,
    droop: float,
    bump: float,
    ride: float | None = None,
    limits: StrengthLimits | None = None,
) -> Overstress:
    """Answer :func:`overstress` for given stresses.

    Parameters
    ----------
    bar : Bar
        The bar.
    droop, bump : float
        Shear stress of its body at full droop and at full bump [Pa].
    ride : float, optional
        The same at rest [Pa].
    limits : StrengthLimits, optional
        What the caller knows of the bar's strength.

    Returns
    -------
    Overstress
    """
    limits = StrengthLimits() if limits is None else limits
    ends = {"full droop": droop, "full bump": bump}
    places = ends if ride is None else {"full droop": droop, "ride height": ride, "full bump": bump}
    has_limit, unknown_fillets = _has_limit(bar, limits), _unknown_fillets(bar)
    return Overstress(
        is_judged=has_limit and not unknown_fillets,
        exceeded=(
            *(
                finding
                for place, stress in places.items()
                for finding in _beyond(
                    checked_permissible(bar, stress, limits),
                    f"the shear stress at {place} is above the permissible one",
                )
            ),
            *(
                finding
                for place, stress in ends.items()
                for finding in _beyond(
                    checked_at_yield(bar, stress, limits),
                    f"the bar's body yields at {place}",
                )
            ),
            *yielding_fillets(bar, limits, greatest=max(abs(droop), abs(bump))),
        ),
        unknown=(
            *(() if has_limit else _unknown(bar)),
            *unknown_fillets,
            *_against_presetting(bar, ends, limits),
        ),
    )


def strength_is_known(bar: Bar, limits: StrengthLimits) -> bool:
    """Answer whether any limit of a bar is known, and the stress in all its fillets.

    Parameters
    ----------
    bar : Bar
        The bar.
    limits : StrengthLimits
        What the caller knows of its strength.

    Returns
    -------
    bool
    """
    return _has_limit(bar, limits) and not _unknown_fillets(bar)


def checked_permissible(bar: Bar, stress: float, limits: StrengthLimits) -> StressCheck:
    """Compare a stress [Pa] of a bar with the permissible shear stress that applies."""
    holds = limits.permissible_shear or not _is_against_presetting(bar, stress)
    return _checked(stress, applied_permissible_shear(bar, limits) if holds else None)


def checked_at_yield(bar: Bar, stress: float, limits: StrengthLimits) -> StressCheck:
    """Compare a stress [Pa] of a bar with the one at which its body yields."""
    against = _is_against_presetting(bar, stress)
    return _checked(stress, yield_limit(bar, limits, against=against))


def _checked(stress: float, limit: StressLimit | None) -> StressCheck:
    factor = math.inf
    if limit is not None:
        factor = float(fatigue.static_factor(stress, limit=pascals(limit)))
    return StressCheck(
        stress=quantity(stress, STRESS),
        limit=limit,
        factor=factor if math.isfinite(factor) else None,
    )


def _has_limit(bar: Bar, limits: StrengthLimits) -> bool:
    applied = applied_permissible_shear(bar, limits), yield_limit(bar, limits, against=False)
    return any(limit is not None for limit in applied)


def _unknown_fillets(bar: Bar) -> tuple[Finding, ...]:
    """Say in which fillets the stress is not known; it does not count in a pre-set bar."""
    return () if bar.preset else (*unknown_concentrations(bar),)


def _is_against_presetting(bar: Bar, stress: float) -> bool:
    """Whether a pre-set bar is twisted against the sense that it was pre-set in."""
    return bar.preset and stress < 0.0


# -- Findings ----------------------------------------------------------------


def _beyond(check: StressCheck, text: str) -> Iterator[Finding]:
    if check.limit and check.is_exceeded:
        yield Finding(
            topic=Topic.STRESS,
            text=f"{text} ({check.limit.source})",
            figure=abs(check.stress),
            limit=check.limit.stress,
        )


def _unknown(bar: Bar) -> Iterator[Finding]:
    permissible = "a permissible shear stress" + (" for pre-set bars" if bar.preset else "")
    text = (
        "the strength of the bar is not known: its steel has neither "
        f"{permissible} nor a proof strength; add one with its source to the steel's "
        "record, or give a limit"
    )
    yield Finding(topic=Topic.STRESS, text=text, figure=bar.material.title)


def _against_presetting(
    bar: Bar, ends: dict[str, float], limits: StrengthLimits
) -> Iterator[Finding]:
    """Report a twist against the pre-setting, for which a pre-set bar's limit does not apply."""
    for place, stress in ends.items():
        if _is_against_presetting(bar, stress) and not limits.permissible_shear:
            text = (
                f"at {place} the bar is twisted against the direction of its pre-setting: the "
                "permissible stress of a pre-set bar does not apply, and no other is known"
            )
            yield Finding(topic=Topic.STRESS, text=text, figure=quantity(stress, STRESS))

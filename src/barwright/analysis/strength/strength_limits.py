"""Limits of a bar's stresses, each with its source: as given, or of its steel."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.strength.life_lines import BarSurface, WoehlerBand, WoehlerLine
from barwright.analysis.strength.numbers import above_zero, share
from barwright.errors import SchemaError
from barwright.mechanics.common.types import Real
from barwright.mechanics.strength import shear_limits as kernels
from barwright.mechanics.strength.estimated_lives import ULTIMATE_SHEAR_RATIO
from barwright.parts.bar import Bar
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike, named, stress
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import CALLER
from barwright.parts.material import Material
from barwright.units import STRESS, Quantity, is_unknown, quantity, shown, si

__all__ = [
    "EnduranceFactors",
    "LimitsInPascals",
    "StrengthLimits",
    "StressLimit",
    "applied_endurance",
    "applied_permissible_shear",
    "applied_shear_yield",
    "applied_ultimate_shear",
    "din_2091",
    "limits_in_pascals",
    "pascals",
    "tensile_limit",
    "unused_limits",
]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class StressLimit(Summarised):
    """A limit of stress, and its source.

    Parameters
    ----------
    stress : Quantity
        The limit.
    source : str
        Where it comes from; "caller" if that was not said.
    """

    stress: Quantity = attrs.field(converter=stress)
    source: str = CALLER


def _limit(value: StressLimit | FigureLike) -> StressLimit:
    """Accept a limit, or a bare figure of the caller's."""
    return value if isinstance(value, StressLimit) else StressLimit(stress=value)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class EnduranceFactors(Summarised):
    """Factors from a specimen's endurance limit to a bar's.

    None has a value of its own: 1 is a choice, and one of the boldest.

    Parameters
    ----------
    surface_factor : float
        Share that remains with the bar's surface; above 1 if it is peened.
    size_factor : float
        Share that is left at the bar's size.
    loading_factor : float
        Limit in twist over limit in the specimen's own loading.
    temperature_factor : float
        Share that is left at the bar's temperature.
    reliability_factor : float
        Share that the stated percentage of bars reaches.
    notch_factor : float
        Share that a notch leaves, at most 1.
    """

    surface_factor: float = attrs.field(converter=above_zero)
    size_factor: float = attrs.field(converter=above_zero)
    loading_factor: float = attrs.field(converter=above_zero)
    temperature_factor: float = attrs.field(converter=above_zero)
    reliability_factor: float = attrs.field(converter=above_zero)
    notch_factor: float = attrs.field(converter=share)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class StrengthLimits(Summarised):
    """What is known of a bar's strength in shear; a limit that is left out is not checked.

    A limit is a figure like ``"700 MPa"``, or a :class:`StressLimit` that says where
    it comes from.

    Parameters
    ----------
    permissible_shear : StressLimit, optional
        Greatest shear stress of the bar at rest; if left out, that of its steel,
        pre-set or not.
    shear_yield : StressLimit, optional
        Yield stress in shear; if left out, from the proof strength of its steel, by
        distortion energy.
    ultimate_shear : StressLimit, optional
        Ultimate stress in shear; if left out, ``shear_ratio`` of the tensile
        strength of its steel.
    shear_ratio : float, optional
        Ultimate shear stress over tensile strength, at most 1.
    endurance : StressLimit, optional
        Amplitude of shear that is borne for ever, without a mean: of the bar, or of
        a specimen if there are ``endurance_factors``.
    endurance_factors : EnduranceFactors, optional
        From a specimen to the bar.
    woehler_line : WoehlerLine, optional
        Lives of the bar, surface and notches included.
    woehler_band : WoehlerBand, optional
        Lives of its weakest and its strongest specimens, in the place of one line.
    surface : BarSurface, optional
        Surface of the bar's body; with it, and without a line or band, its lives are estimated
        from the tensile strength of its steel, and without an ultimate shear stress or ratio
        that stress is too.
    """

    permissible_shear: StressLimit | None = attrs.field(
        default=None, converter=attrs.converters.optional(_limit)
    )
    shear_yield: StressLimit | None = attrs.field(
        default=None, converter=attrs.converters.optional(_limit)
    )
    ultimate_shear: StressLimit | None = attrs.field(
        default=None, converter=attrs.converters.optional(_limit)
    )
    shear_ratio: float | None = attrs.field(
        default=None, converter=attrs.converters.optional(share)
    )
    endurance: StressLimit | None = attrs.field(
        default=None, converter=attrs.converters.optional(_limit)
    )
    endurance_factors: EnduranceFactors | None = None
    woehler_line: WoehlerLine | None = None
    woehler_band: WoehlerBand | None = None
    surface: BarSurface | None = None

    def __attrs_post_init__(self) -> None:
        """Refuse a bar that would break before it yields, or bear more for ever than once."""
        if self.woehler_line and self.woehler_band:
            raise SchemaError(
                "S207",
                value="a line of lives and a band of them",
                expected="one of the two",
                remedy="leave out the line, which the band contains",
                key="woehler_band",
            )
        for key in ("shear_yield", "endurance"):
            limit: StressLimit | None = getattr(self, key)
            if limit and self.ultimate_shear:
                stresses = (limit.stress, self.ultimate_shear.stress)
                _refuse_above(*stresses, key=key, than="ultimate_shear")


def _refuse_above(stress: Quantity, limit: Quantity, *, key: str, than: str) -> None:
    if stress > limit:
        raise SchemaError(
            "S207",
            value=shown(stress),
            expected=f"at most the {than} of {shown(limit)}",
            remedy="check whether the two were exchanged",
            key=key,
        )


def unused_limits(
    limits: StrengthLimits, bar: Bar, *, has_travel: bool, has_history: bool
) -> Iterator[str]:
    """List the given limits that do not apply here, and why.

    Parameters
    ----------
    limits : StrengthLimits
        What is given.
    bar : Bar
        The bar, whose steel may be without a strength.
    has_travel, has_history : bool
        What else is given.

    Yields
    ------
    str
        A sentence for each.
    """
    if limits.endurance and not has_travel:
        yield "the endurance limit is not used: give a travel to compare it with"
    if limits.endurance_factors and not limits.endurance:
        yield "the endurance factors are not used: give an endurance limit"
    if (limits.woehler_line or limits.woehler_band) and not has_history:
        yield "the Woehler line is not used: give a history to compare it with"
    yield from _unused_surface(limits, bar, has_history=has_history)
    if limits.shear_ratio and limits.ultimate_shear:
        yield "the shear ratio is not used: the ultimate shear stress itself is given"
    elif limits.shear_ratio and bar.material.tensile_strength is None:
        yield "the shear ratio is not used: the tensile strength of the steel is not known"
    elif (limits.shear_ratio or limits.ultimate_shear) and not (has_travel or has_history):
        yield "the ultimate shear stress is not used: give a travel or a history"


def _unused_surface(limits: StrengthLimits, bar: Bar, *, has_history: bool) -> Iterator[str]:
    if limits.surface is None:
        return
    if limits.woehler_line or limits.woehler_band:
        yield "the surface is not used: a line of lives is given"
    elif tensile_limit(bar) is None:
        yield "the surface is not used: the tensile strength of the steel is not known"
    elif not has_history:
        yield "the surface is not used: give a history to find a life under"


@checks_arguments
def din_2091(bar: Bar) -> StressLimit:
    """Permissible shear stress of a bar by DIN 2091, from memory and unconfirmed.

    Parameters
    ----------
    bar : Bar
        Pre-set or not.

    Returns
    -------
    StressLimit
        To be passed on as ``permissible_shear``; its source says how it is known.

    References
    ----------
    See :data:`barwright.mechanics.strength.shear_limits.DIN_2091`.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> limit = din_2091(Registry.discover().part("fells:bar/short-standard"))
    >>> print(limit.stress, "by", limit.source)
    700.0 megapascal by DIN 2091 (1981-06), round figure from memory, unconfirmed
    """
    known = kernels.DIN_2091
    value = known.preset if bar.preset else known.not_preset
    return StressLimit(stress=quantity(value, STRESS), source=known.source)


def applied_permissible_shear(bar: Bar, limits: StrengthLimits) -> StressLimit | None:
    """Permissible shear: as given, else of the bar's steel, else none."""
    return limits.permissible_shear or _of_steel(bar.material, _permissible_field(bar))


def _permissible_field(bar: Bar) -> str:
    return "preset_permissible_shear" if bar.preset else "permissible_shear"


def applied_shear_yield(bar: Bar, limits: StrengthLimits) -> StressLimit | None:
    """Yield stress in shear: as given, else from the steel's proof strength, else none."""
    proof = _of_steel(bar.material, "proof_strength")
    if limits.shear_yield or proof is None:
        return limits.shear_yield
    return _derived(proof, kernels.yield_shear(pascals(proof)), "by distortion energy")


def applied_ultimate_shear(bar: Bar, limits: StrengthLimits) -> StressLimit | None:
    """Ultimate shear: as given, else a share of the steel's tensile strength, else none."""
    tensile, ratio = _of_steel(bar.material, "tensile_strength"), _shear_ratio(limits)
    if limits.ultimate_shear or tensile is None or ratio is None:
        return limits.ultimate_shear
    ultimate = kernels.ultimate_shear(pascals(tensile), shear_ratio=ratio)
    return _derived(tensile, ultimate, f"times {ratio:g}")


def _shear_ratio(limits: StrengthLimits) -> float | None:
    """Ultimate shear over tensile strength: as given, or Brown's where lives are estimated."""
    estimated = limits.surface is not None
    return limits.shear_ratio or (ULTIMATE_SHEAR_RATIO if estimated else None)


def tensile_limit(bar: Bar) -> StressLimit | None:
    """Tensile strength of a bar's steel with its source, if it is known."""
    return _of_steel(bar.material, "tensile_strength")


def applied_endurance(limits: StrengthLimits) -> StressLimit | None:
    """Endurance limit of the bar: as given, corrected by its factors if there are any."""
    limit, factors = limits.endurance, limits.endurance_factors
    if limit is None or factors is None:
        return limit
    corrected = kernels.corrected_endurance(pascals(limit), **attrs.asdict(factors, recurse=False))
    return _derived(limit, corrected, "with its factors")


def _of_steel(material: Material, field: str) -> StressLimit | None:
    """Strength of a steel with its source, and how that source came to it."""
    value: Quantity | None = getattr(material, field)
    if value is None or is_unknown(value):
        return None
    known = material.about[field]
    kind = f" ({known.source_kind.value})" if known.source_kind else ""
    return StressLimit(stress=value, source=f"{known.source}{kind}")


def _derived(limit: StressLimit, value: Real, how: str) -> StressLimit:
    return StressLimit(
        stress=quantity(float(value), STRESS),
        source=f"{limit.source}, {how}",
    )


def pascals(limit: StressLimit) -> float:
    """Return a limit in pascals."""
    return si(limit.stress, STRESS)


# -- Of many bars at once --------------------------------------------------------------


@attrs.frozen(kw_only=True)
class LimitsInPascals:
    """The limits that apply to a bar, or to a column of bars [Pa]; none where none is known."""

    permissible_shear: Real | None
    shear_yield: Real | None
    ultimate_shear: Real | None
    endurance: Real | None


def limits_in_pascals(bar: Bar, limits: StrengthLimits) -> LimitsInPascals:
    """Return the limits that apply, without their sources, of a column of bars too.

    Parameters
    ----------
    bar : Bar
        The bar, whose steel's strengths may be arrays.
    limits : StrengthLimits
        What is given.

    Returns
    -------
    LimitsInPascals
    """
    proof, tensile = (_steel(bar, name) for name in ("proof_strength", "tensile_strength"))
    ratio, endurance = _shear_ratio(limits), applied_endurance(limits)
    return LimitsInPascals(
        permissible_shear=_given(limits.permissible_shear, _steel(bar, _permissible_field(bar))),
        shear_yield=_given(
            limits.shear_yield, None if proof is None else kernels.yield_shear(proof)
        ),
        ultimate_shear=_given(
            limits.ultimate_shear,
            None
            if tensile is None or ratio is None
            else kernels.ultimate_shear(tensile, shear_ratio=ratio),
        ),
        endurance=_given(endurance, None),
    )


def _given(limit: StressLimit | None, other: Real | None) -> Real | None:
    return other if limit is None else pascals(limit)


def _steel(bar: Bar, field: str) -> Real | None:
    value: Quantity | None = getattr(bar.material, field)
    return None if value is None or is_unknown(value) else si(value, STRESS)

"""Whether the bar fits between its sockets and can be put in."""

from __future__ import annotations

from functools import partial

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.assumed import names_assumed
from barwright.analysis.corner.bar.seating import ends_and_sockets
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import fitting
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.changes import cap_offset, changes_for
from barwright.analysis.fit.obstacle import findings_of
from barwright.analysis.fit.obstacles import (
    checks_beside,
    checks_of,
    largest_body,
    lever_offset,
)
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline.seating import Seating
from barwright.parts.chassis import BarEndName
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import LENGTH, Quantity, quantity, shown, unknown

__all__ = ["EndFit", "LengthFit", "fit_of", "length_fit"]


@attrs.frozen(kw_only=True, repr=False)
class EndFit(Summarised):
    """How one end of the bar lies in its socket.

    Parameters
    ----------
    end : BarEndName
        Which end.
    engagement, required : Quantity
        Overlap of spline and socket, and the overlap that the socket requires.
    protrusion : Quantity
        What sticks out beyond the socket's outer face.
    bare_head : Quantity
        Length of head inside that is free to twist.
    """

    end: BarEndName
    engagement: Quantity
    required: Quantity
    protrusion: Quantity
    bare_head: Quantity


@attrs.frozen(kw_only=True, repr=False)
class LengthFit(Answer):
    """Whether a bar fits, where it lies, and how long its active part is.

    Parameters
    ----------
    verdict : Verdict
        Fits, fits with changes, does not fit, or needs more figures.
    findings : tuple of Finding
        Why it does not fit, then what has to be changed.
    cautions : tuple of Caution
        None, because a fit alone leads to no work.
    reasons : tuple of Finding
        Why it does not fit.
    changes : tuple of Finding
        What has to be changed so that it does.
    ends : tuple of EndFit
        Arm end and anchor end; both with no engagement if there is no overlap.
    position : Quantity
        Of the outer edge of the arm-end spline, from the arm socket's outer
        face toward the anchor; negative if it sticks out.
    free_from, free_to : Quantity
        Positions that are as good.
    active_length : Quantity, optional
        Length of bar body that twists as much as what lies between the engaged
        edges; none without overlap.
    engaged_span : Quantity, optional
        Between the engaged edges.
    lever_offset, cap_offset : Quantity, optional
        How far lever and cap lie from bolt and holes, positive toward the anchor; none
        where there is no lever or no cap.
    largest_body : Quantity
        Diameter of the thickest bar body that passes the way in.
    """

    reasons: tuple[Finding, ...]
    changes: tuple[Finding, ...]
    ends: tuple[EndFit, ...]
    position: Quantity
    free_from: Quantity
    free_to: Quantity
    active_length: Quantity | None
    engaged_span: Quantity | None
    lever_offset: Quantity | None
    cap_offset: Quantity | None
    largest_body: Quantity

    @property
    def open_findings(self) -> tuple[Finding, ...]:
        """Why the bar does not fit, or what is needed to say whether it does."""
        needed = (one for one in self.findings if one.topic is Topic.NEEDED)
        return (*self.reasons, *needed)

    @property
    def headline(self) -> str:
        """Whether the bar fits, and what must be changed."""
        if self.verdict.is_refusal:
            return f"The bar does not fit: {self.reasons[0].line}."
        if not self.is_answered:
            return self.refused()
        arm, anchor = (shown(end.engagement, 1) for end in self.ends)
        engaged = f"{arm} engaged at the arm end, {anchor} at the anchor end."
        if not self.changes:
            return f"The bar fits: {engaged}"
        topics = ", ".join(dict.fromkeys(change.topic.value for change in self.changes))
        return f"The bar fits with changes ({topics}): {engaged}"


@checks_arguments
@names_assumed(AskedFor.FIT)
def length_fit(setup: Setup) -> LengthFit:
    """Answer whether the bar of a setup fits, and its position.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    LengthFit

    Notes
    -----
    A bar longer than its sockets has their spacing as active span only where
    its splines cover both inner faces; otherwise the engaged edges govern.

    References
    ----------
    Geometry of overlapping intervals; the optimum is checked by a dense search.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> length_fit(setup).verdict.value
    'fits'
    """
    return fit_of(corner_of(setup))


@once_a_corner(fitting)
def fit_of(corner: Corner) -> LengthFit:
    """Answer :func:`length_fit` of a corner.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    LengthFit
    """
    setup = corner.setup
    # Whether it fits, and what else there is to say.
    missing, further = MissingFigures(setup), MissingFigures(setup)
    checks, beside = checks_of(corner), checks_beside(corner)
    reasons = (
        *missing.each(partial(findings_of, check) for check in checks),
        *further.each(partial(findings_of, check) for check in beside),
    )
    where = missing.tried(lambda: corner.seat)
    changes = tuple(further.each([partial(findings_of, partial(changes_for, setup))]))
    active = further.tried(lambda: corner.seated_length)
    span = None if where is None or active is None else where.inner_edges
    lever, cap = (further.tried(partial(offset, setup)) for offset in (lever_offset, cap_offset))
    needed = () if reasons else missing.findings("needed to say whether the bar fits", AskedFor.FIT)
    left_out = () if reasons else further.findings("left out of the fit for want of figures")
    return LengthFit(
        verdict=_verdict(reasons, needed, changes),
        findings=(*reasons, *needed, *changes, *left_out),
        reasons=reasons,
        changes=changes,
        ends=_ends(setup, where),
        position=_of(where, "position"),
        free_from=_of(where, "low"),
        free_to=_of(where, "high"),
        active_length=None if active is None else _mm(active),
        engaged_span=None if span is None else _mm(span[1] - span[0]),
        lever_offset=None if lever is None else _mm(lever),
        cap_offset=None if cap is None else _mm(cap),
        largest_body=further.figure(lambda: _mm(largest_body(setup))),
    )


def _verdict(
    reasons: tuple[Finding, ...], needed: tuple[Finding, ...], changes: tuple[Finding, ...]
) -> Verdict:
    if reasons:
        return Verdict.DOES_NOT_FIT
    if needed:
        return Verdict.NEEDS_FIGURES
    return Verdict.FITS_WITH_CHANGES if changes else Verdict.FITS


def _ends(setup: Setup, where: Seating | None) -> tuple[EndFit, ...]:
    return tuple(
        EndFit(
            end=name,
            engagement=_of(where, f"{end}_engagement"),
            required=socket.required_engagement,
            protrusion=_of(where, f"{end}_protrusion"),
            bare_head=_of(where, f"bare_{end}_head"),
        )
        for end, (name, _, socket) in zip(("arm", "anchor"), ends_and_sockets(setup), strict=True)
    )


def _of(where: Seating | None, field: str) -> Quantity:
    """Return a length of how the bar lies."""
    return unknown() if where is None else _mm(getattr(where, field))


def _mm(length: Real) -> Quantity:
    return quantity(float(length), LENGTH)

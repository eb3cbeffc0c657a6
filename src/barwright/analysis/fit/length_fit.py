"""Does the bar fit between its sockets, and can it be put in? (mechanics, section 4)."""

from __future__ import annotations

import math
from collections.abc import Iterator

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.once import once_a_corner
from barwright.analysis.corner.rests_on import fitting, seating
from barwright.analysis.finding import Finding, Limit, Topic
from barwright.errors import QuantityError
from barwright.mechanics.bar import fillets, transitions
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import insertion
from barwright.mechanics.spline.seating import AxialLayout, Seating, seat
from barwright.parts.anchor import Anchor, FixedSocket, KeyLever
from barwright.parts.arguments import checks_arguments
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.tube import Tube
from barwright.units import ANGLE, LENGTH, Quantity, quantity, shown

__all__ = [
    "EndFit",
    "LengthFit",
    "active_length",
    "fit_of",
    "length_fit",
    "seated_length",
    "seating_of",
]


@attrs.frozen(kw_only=True)
class EndFit:
    """How one end of the bar lies in its socket.

    Parameters
    ----------
    end : BarEndName
        Which end.
    engagement, required : Quantity
        Overlap of spline and socket, and what the socket asks for.
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


@attrs.frozen(kw_only=True)
class LengthFit(Answer):
    """Whether a bar fits, where it lies, and how long its active part is.

    Parameters
    ----------
    verdict : Verdict
        Fits, fits with changes, or does not fit.
    findings : tuple of Finding
        Why it does not fit, then what has to be changed.
    cautions : tuple of Caution
        None: a fit asks for no work by itself.
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
    def headline(self) -> str:
        """Whether the bar fits, and what must be changed."""
        if self.verdict.is_refusal:
            return f"The bar does not fit: {self.reasons[0].line}."
        arm, anchor = (shown(end.engagement, 1) for end in self.ends)
        engaged = f"{arm} engaged at the arm end, {anchor} at the anchor end."
        if not self.changes:
            return f"The bar fits: {engaged}"
        topics = ", ".join(dict.fromkeys(change.topic.value for change in self.changes))
        return f"The bar fits with changes ({topics}): {engaged}"


@checks_arguments
def length_fit(setup: Setup) -> LengthFit:
    """Answer whether the bar of a setup fits, and where it comes to lie.

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
    return fit_of(Corner(setup))


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
    setup, where = corner.setup, seating_of(corner)
    reasons = (
        *_mating(setup),
        *_axial(setup, where),
        *_around(setup, where),
        *_way_in(setup),
        *_linkage(corner),
    )
    changes = tuple(_changes(setup))
    active = seated_length(corner)
    lever, cap = _lever_offset(setup), _cap_offset(setup)
    return LengthFit(
        verdict=_verdict(reasons, changes),
        findings=(*reasons, *changes),
        reasons=reasons,
        changes=changes,
        ends=_ends(setup, where),
        position=_mm(where.position),
        free_from=_mm(where.low),
        free_to=_mm(where.high),
        active_length=None if active is None else _mm(active),
        engaged_span=(None if active is None else _mm(where.inner_edges[1] - where.inner_edges[0])),
        lever_offset=None if lever is None else _mm(lever),
        cap_offset=None if cap is None else _mm(cap),
        largest_body=_mm(_largest_body(setup)),
    )


@once_a_corner(seating)
def seating_of(corner: Corner) -> Seating:
    """Where the bar comes to lie.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    Seating
    """
    setup = corner.setup
    return seat(_layout(setup, with_stops=_stops_leave_room(setup)))


@once_a_corner(seating)
def seated_length(corner: Corner) -> float | None:
    """Active length [m] of the bar where it comes to lie; none if that is not in both sockets.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    float, optional
    """
    where = seating_of(corner)
    if not _overlaps(where):
        return None
    bare = {"bare_arm_head": where.bare_arm_head, "bare_anchor_head": where.bare_anchor_head}
    return active_length(corner.setup.bar, **bare)


def active_length(bar: Bar, *, bare_arm_head: Real = 0.0, bare_anchor_head: Real = 0.0) -> float:
    """Length of bar body [m] that twists as much as what lies between the engaged edges.

    Parameters
    ----------
    bar : Bar
        The bar.
    bare_arm_head, bare_anchor_head : float
        Lengths of head inside that are free to twist [m].

    Returns
    -------
    float

    Raises
    ------
    QuantityError
        Q302 for a fillet that is beyond what is known of fillets.
    """
    body = metres(bar.length)
    total = 0.0
    for name, bare in (("arm_end", bare_arm_head), ("anchor_end", bare_anchor_head)):
        end: BarEnd = getattr(bar, name)
        section = {
            "diameter": metres(bar.diameter),
            "head_diameter": metres(end.root_diameter),
            "bore": metres(bar.bore),
        }
        try:
            joint, twists_as = _joint(end, **section)
        except QuantityError as error:
            raise error.within(key=f"{bar.id}.{name}") from None
        body -= metres(end.length) + joint
        total += float(transitions.equivalent_length(bare, **section)) + twists_as
    return body + total


def _joint(
    end: BarEnd, *, diameter: float, head_diameter: float, bore: float
) -> tuple[float, float]:
    """Length of cone or fillet between head and body, and of body that twists as much [m]."""
    section = {"diameter": diameter, "head_diameter": head_diameter}
    if end.fillet_radius is None:
        taper = metres(end.taper)
        return taper, float(transitions.taper_equivalent_length(taper, **section, bore=bore))
    section["fillet_radius"] = metres(end.fillet_radius)
    twists_as = float(fillets.fillet_equivalent_length(**section, bore=bore))
    return float(fillets.fillet_length(**section)), twists_as


def _overlaps(where: Seating) -> bool:
    """Whether both ends lie in their sockets by more than rounding."""
    return min(float(where.arm_engagement), float(where.anchor_engagement)) > _ROUNDING


def _verdict(reasons: tuple[Finding, ...], changes: tuple[Finding, ...]) -> Verdict:
    if reasons:
        return Verdict.DOES_NOT_FIT
    return Verdict.FITS_WITH_CHANGES if changes else Verdict.FITS


def _layout(setup: Setup, *, with_stops: bool) -> AxialLayout:
    bar, arm, tube, axle = setup.bar, setup.arm.socket, setup.anchor.socket, setup.axle
    return AxialLayout(
        bar_length=metres(bar.length),
        arm_spline=metres(bar.arm_end.length),
        anchor_spline=metres(bar.anchor_end.length),
        arm_nose=metres(bar.arm_end.nose),
        anchor_nose=metres(bar.anchor_end.nose),
        arm_socket=metres(arm.length),
        anchor_socket=metres(tube.length),
        anchor_position=metres(axle.tube_position) + metres(setup.anchor.socket_position),
        arm_required=metres(arm.required_engagement),
        anchor_required=metres(tube.required_engagement),
        arm_stop=metres(axle.arm_stop) if with_stops and axle.arm_stop is not None else -math.inf,
        anchor_stop=(
            metres(axle.anchor_stop) if with_stops and axle.anchor_stop is not None else math.inf
        ),
    )


def _overall(setup: Setup) -> float:
    """Length of the bar over its noses [m]."""
    bar = setup.bar
    return metres(bar.length) + metres(bar.arm_end.nose) + metres(bar.anchor_end.nose)


def _room(setup: Setup) -> float:
    """Distance between the stops [m], infinite unless there are two."""
    axle = setup.axle
    if axle.arm_stop is None or axle.anchor_stop is None:
        return math.inf
    return metres(axle.anchor_stop) - metres(axle.arm_stop)


def _stops_leave_room(setup: Setup) -> bool:
    return _overall(setup) <= _room(setup)


def _sides(setup: Setup) -> tuple[tuple[BarEndName, BarEnd, Socket], ...]:
    return (
        (BarEndName.ARM, setup.bar.arm_end, setup.arm.socket),
        (BarEndName.ANCHOR, setup.bar.anchor_end, setup.anchor.socket),
    )


def _ends(setup: Setup, where: Seating) -> tuple[EndFit, ...]:
    engagements = (where.arm_engagement, where.anchor_engagement)
    protrusions = (where.arm_protrusion, where.anchor_protrusion)
    bare = (where.bare_arm_head, where.bare_anchor_head)
    return tuple(
        EndFit(
            end=name,
            engagement=_mm(engagement),
            required=socket.required_engagement,
            protrusion=_mm(protrusion),
            bare_head=_mm(head),
        )
        for (name, _, socket), engagement, protrusion, head in zip(
            _sides(setup), engagements, protrusions, bare, strict=True
        )
    )


def _mating(setup: Setup) -> Iterator[Finding]:
    """Reasons that lie in the splines and in the side that a part is made for."""
    for name, end, socket in _sides(setup):
        if end.teeth != socket.teeth:
            yield _reason(
                Topic.TOOTH_COUNT, "the tooth counts differ", end.teeth, socket.teeth, name
            )
        if metres(end.major_diameter) <= metres(socket.minor_diameter):
            text = "the bar's teeth do not reach into those of the socket"
            yield _reason(Topic.TOOTH_DEPTH, text, end.major_diameter, socket.minor_diameter, name)
        if metres(socket.minor_diameter) < metres(end.root_diameter):
            text = "the socket's teeth stand on the roots of the bar's"
            yield _reason(Topic.TOOTH_DEPTH, text, socket.minor_diameter, end.root_diameter, name)
        if end.form != socket.form:
            yield _reason(Topic.TOOTH_FORM, "the tooth forms differ", end.form, socket.form, name)
    sided: list[tuple[str, Side | None]] = [
        ("arm", setup.arm.made_for),
        (_ANCHORS[type(setup.anchor)], setup.anchor.made_for),
    ]
    if setup.bar.preset:
        sided.append(("pre-setting of the bar", setup.bar.made_for))
    for what, made_for in sided:
        if made_for not in (None, setup.side):
            text = f"the {what} is made for the other side"
            yield _reason(Topic.WRONG_SIDE, text, made_for.value, setup.side.value)


def _axial(setup: Setup, where: Seating) -> Iterator[Finding]:
    """Reasons that lie in the length of the bar."""
    if not _stops_leave_room(setup):
        text = "the bar is longer than the space between its stops"
        yield _reason(Topic.STOPS, text, _mm(_overall(setup)), _mm(_room(setup)))
    if not _overlaps(where):
        yield _no_overlap(setup)
        return
    engagements = (where.arm_engagement, where.anchor_engagement)
    for (name, _, socket), engagement in zip(_sides(setup), engagements, strict=True):
        required = metres(socket.required_engagement)
        if engagement < required - _ROUNDING:
            text = f"the {name.value} lies too short in its socket"
            yield _reason(Topic.ENGAGEMENT, text, _mm(engagement), socket.required_engagement, name)


def _no_overlap(setup: Setup) -> Finding:
    """Explain that the bar cannot lie in both sockets at once."""
    x = _layout(setup, with_stops=False)
    longest = x.anchor_position + x.anchor_socket + x.anchor_spline + x.arm_spline
    shortest = x.anchor_position - x.arm_socket
    if x.bar_length >= longest:
        text = "the bar is so long that its splines cannot lie in both sockets at once"
        return _reason(Topic.NO_OVERLAP, text, setup.bar.length, _mm(longest))
    if x.bar_length <= shortest:
        text = "the bar is so short that its splines cannot lie in both sockets at once"
        return _reason(Topic.NO_OVERLAP, text, setup.bar.length, _mm(shortest))
    text = "the stops keep the bar out of its sockets"
    return _reason(Topic.NO_OVERLAP, text, setup.bar.length, None)


def _around(setup: Setup, where: Seating) -> Iterator[Finding]:
    """Reasons that lie in what is around the bar: the space behind, the bolt."""
    behind = metres(setup.axle.space_behind)
    if where.anchor_protrusion > behind + _ROUNDING:
        text = "the bar sticks out further than the space behind the anchor allows"
        yield _reason(
            Topic.SPACE_BEHIND,
            text,
            _mm(where.anchor_protrusion),
            setup.axle.space_behind,
            BarEndName.ANCHOR,
        )
    lever = _lever_offset(setup)
    if lever is not None and abs(lever) > metres(setup.axle.lever_allowance) + _ROUNDING:
        whose = "tube's lever" if isinstance(setup.anchor, Tube) else _ANCHORS[type(setup.anchor)]
        text = f"the {whose} does not come to lie at the adjuster's bolt"
        yield _reason(Topic.LEVER_OFF_BOLT, text, _mm(lever), setup.axle.lever_allowance)


def _way_in(setup: Setup) -> Iterator[Finding]:
    """Reasons that lie in what the bar has to pass."""
    entry = setup.axle.entry
    by_name = {name: (end, socket) for name, end, socket in _sides(setup)}
    leading = BarEndName.ARM if entry is BarEndName.ANCHOR else BarEndName.ANCHOR
    head, socket = by_name[leading][0], by_name[entry][1]
    major = metres(head.major_diameter)
    if not _passes(head, socket):
        text = f"the {leading.value} does not pass the socket at the {entry.value}"
        yield _reason(Topic.WAY_IN, text, head.major_diameter, socket.minor_diameter, leading)
    if isinstance(setup.anchor, Tube) and major >= metres(setup.anchor.bore):
        text = f"the {leading.value} does not pass the tube's bore"
        yield _reason(Topic.WAY_IN, text, head.major_diameter, setup.anchor.bore, leading)
    if metres(setup.bar.diameter) >= _largest_body(setup):
        text = "the bar's body does not pass the way in"
        yield _reason(Topic.WAY_IN, text, setup.bar.diameter, _mm(_largest_body(setup)))


def _passes(head: BarEnd, socket: Socket) -> bool:
    """Whether an end goes through a socket: inside its teeth, or in mesh, a blank on its key."""
    diameters = {"major_diameter": head.major_diameter, "minor_diameter": socket.minor_diameter}
    if insertion.passes_freely(**{name: metres(value) for name, value in diameters.items()}):
        return True
    is_same = (head.teeth, head.form) == (socket.teeth, socket.form)
    meshed = insertion.passes_meshed(
        0.0, teeth=socket.teeth, blanks=head.blanks, keyed=socket.keyed
    )
    return is_same and bool(meshed)


def _linkage(model: Corner) -> Iterator[Finding]:
    """Reasons that lie in the damper and in the lever."""
    if not model.damper_fits:
        shortest, longest = map(_mm, model.damper_span)
        text = "the damper is open or closed outside what the arm's stops allow (open length)"
        yield Finding(
            topic=Topic.TRAVEL,
            text=text,
            figure=model.setup.damper.open_length,
            limit=shortest,
            upper=longest,
        )
    if not model.lever_closes:
        low, high = map(_mm, model.anchorage.reach)
        text = "the lever does not reach its pin over the whole thread (pin's least distance)"
        if isinstance(model.setup.anchor, KeyLever):
            text = "the bolt's end leaves the key lever's face within its thread (least distance)"
        yield Finding(
            topic=Topic.THREAD, text=text, figure=_mm(model.setting_span[0]), limit=low, upper=high
        )


def _largest_body(setup: Setup) -> float:
    """Diameter that the entry's socket and the tube let pass [m]."""
    is_arm = setup.axle.entry is BarEndName.ARM
    socket = setup.arm.socket if is_arm else setup.anchor.socket
    bore = metres(setup.anchor.bore) if isinstance(setup.anchor, Tube) else math.inf
    return min(metres(socket.minor_diameter), bore)


def _changes(setup: Setup) -> Iterator[Finding]:
    """List what differs from how the vehicle left the works, and what has to be made for it."""
    standard = setup.axle.standard(setup.side)
    swaps = ((Topic.SWAPPED_ARM, "arm"), (Topic.SWAPPED_ANCHOR, "anchor"))
    for topic, kind in swaps:
        part, usual = getattr(setup, kind), getattr(standard, kind)
        if part.id != usual.id:
            yield _reason(topic, f"{part.title} in the place of {usual.title}", part.id, usual.id)
    cap = _cap_offset(setup)
    if cap is not None and abs(cap) > metres(setup.axle.cap_allowance) + _ROUNDING:
        text = "the tube's cap needs new holes in the chassis"
        yield _reason(Topic.NEW_CAP_HOLES, text, _mm(cap), setup.axle.cap_allowance)
    bar = setup.bar
    if bar.made_for not in (None, setup.side) and not bar.preset:
        error = quantity(2.0 * _blank_angle(setup), ANGLE)
        text = "the bar's blanks are set for the other side: on their keys the free angle is off"
        yield _reason(Topic.WRONG_SIDE, text, error, None)


def _blank_angle(setup: Setup) -> float:
    return abs(float(setup.bar.blank_angle.m_as("radian")))


def _lever_offset(setup: Setup) -> float | None:
    """How far the lever comes to lie from its bolt [m]."""
    if isinstance(setup.anchor, FixedSocket):
        return None
    start = metres(setup.axle.tube_position)
    return start + metres(setup.anchor.lever_position) - metres(setup.axle.bolt_position)


def _cap_offset(setup: Setup) -> float | None:
    """How far the tube's cap comes to lie from its holes [m]."""
    if not isinstance(setup.anchor, Tube):
        return None
    start = metres(setup.axle.tube_position)
    return start + metres(setup.anchor.cap_position) - metres(setup.axle.cap_holes_position)


_ANCHORS: dict[type[Anchor], str] = {
    Tube: "tube",
    KeyLever: "key lever",
    FixedSocket: "fixed socket",
}


# Rounding of a length that is made of several others [m].
_ROUNDING = 1e-9


def _mm(length: Real) -> Quantity:
    return quantity(float(length), LENGTH)


def _reason(
    topic: Topic, text: str, figure: Limit, limit: Limit, end: BarEndName | None = None
) -> Finding:
    return Finding(topic=topic, text=text, figure=figure, limit=limit, end=end)

"""One end of a bar, what is to be drawn of it, and its words."""

from __future__ import annotations

import attrs

from barwright.analysis.reindex.clocking import EndClocking
from barwright.analysis.reindex.plan.plan import BlankTooth, EndAction, EndWork, Plan, ToothDatum
from barwright.analysis.reindex.plan.tooth_places import tooth_places
from barwright.parts.chassis import BarEndName
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.units import Quantity, is_unknown

__all__ = [
    "BarEndView",
    "bar_end_views",
    "counted",
    "datum_of",
    "described",
    "name_of",
    "place_before",
    "short_way",
    "viewer",
    "work_words",
]


@attrs.frozen(kw_only=True, repr=False)
class BarEndView(Summarised):
    """One end of a bar, as it is to be drawn.

    Parameters
    ----------
    corner : str
        Axle and side.
    work : EndWork
        What the plan requires there, and the end from which it is seen.
    teeth : int
        Tooth count of the whole circle.
    missing_teeth : tuple of int
        Places that have no tooth before the work, clockwise from the tooth or blank that
        the work counts from, which is 0, as it is seen.
    key_before : int, optional
        Place that faces the key now, counted likewise; none where another part is in.
    keyed : bool
        Whether a key of the socket will face the end.
    major_diameter, root_diameter : Quantity
        Over the teeth, and of the root circle.
    nose : Quantity
        Plain length beyond the spline.
    nose_diameter : Quantity, optional
        Of that length, where it is known.
    """

    corner: str
    work: EndWork
    teeth: int
    missing_teeth: tuple[int, ...]
    key_before: int | None
    keyed: bool
    major_diameter: Quantity
    root_diameter: Quantity
    nose: Quantity
    nose_diameter: Quantity | None


def bar_end_views(setup: Setup, plan: Plan, *, present: Setup) -> tuple[BarEndView, ...]:
    """Describe both ends of a corner's bar for their drawings.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    plan : Plan
        The plan that is followed.
    present : Setup
        The corner as it is now.

    Returns
    -------
    tuple of BarEndView
        In the order of the plan's ends.
    """
    return tuple(_view(setup, work, present) for work in plan.ends)


def _view(setup: Setup, work: EndWork, present: Setup) -> BarEndView:
    is_arm = work.end is BarEndName.ARM
    end = setup.bar.arm_end if is_arm else setup.bar.anchor_end
    socket = setup.arm.socket if is_arm else setup.anchor.socket
    places = tooth_places(setup, work, present=present)
    return BarEndView(
        corner=setup.corner,
        work=work,
        teeth=end.teeth,
        missing_teeth=places.missing_teeth,
        key_before=places.key_before,
        keyed=socket.keyed and work.on_key is not BlankTooth.NONE,
        major_diameter=end.major_diameter,
        root_diameter=end.root_diameter,
        nose=end.nose,
        nose_diameter=None if is_unknown(end.nose_diameter) else end.nose_diameter,
    )


# -- Places ------------------------------------------------------------------------------


def short_way(place: int, *, teeth: int) -> int:
    """Count a place the short way round."""
    return teeth // 2 - (teeth // 2 - place) % teeth


def place_before(view: BarEndView) -> int | None:
    """Return the place that faces the key now, the short way round; none where none does."""
    return None if view.key_before is None else short_way(view.key_before, teeth=view.teeth)


# -- Words -------------------------------------------------------------------------------


def viewer(work: EndWork | EndClocking) -> str:
    """Say where to look from."""
    other = BarEndName.ANCHOR if work.seen_from is BarEndName.ARM else BarEndName.ARM
    return f"seen from the {work.seen_from.value} toward the {other.value}"


def counted(work: EndWork) -> str:
    """Name the tooth that comes to lie on the key, with its count."""
    if work.direction is None:
        return datum_of(work)
    return f"tooth {work.tooth} {work.direction.value} from {datum_of(work)}"


def datum_of(work: EndWork) -> str:
    """Name what the teeth of an end are counted from."""
    return _DATUMS[work.tooth_datum]


_DATUMS = {
    ToothDatum.BLANK: "the maker's blank",
    ToothDatum.MARK: "the marked tooth",
    ToothDatum.PRESENT: "the painted tooth",
}


def work_words(work: EndWork) -> tuple[str, str]:
    """Say in two short lines what is to be done at an end."""
    if work.action is EndAction.STAYS:
        return ("Nothing to cut.", "This end goes back as it was.")
    if work.action is EndAction.REMOVE_TOOTH:
        return ("Remove the tooth that is crossed out:", f"{counted(work)}.")
    if work.action is EndAction.NO_KEY:
        if work.tooth_datum is ToothDatum.PRESENT and work.datum_angle is None:
            return ("Nothing to cut. To the paint on the socket goes", f"{counted(work)}.")
        return ("Nothing to cut. Where a key would be, put", f"{counted(work)}.")
    if work.on_key is BlankTooth.MAKERS:
        return ("Nothing to cut.", "The maker's blank goes on the key.")
    return ("Nothing to cut. Use the earlier blank,", f"{counted(work)}.")


def name_of(view: BarEndView) -> str:
    """Name an end by its corner."""
    return f"{view.corner.capitalize()}, {view.work.end.value}"


def described(view: BarEndView) -> str:
    """Say what the drawing shows, for who cannot see it."""
    blanks = len(view.missing_teeth)
    gaps = {0: "no blank", 1: "1 blank"}.get(blanks, f"{blanks} blanks")
    top = _TOPS.get(view.work.tooth_datum, f"{datum_of(view.work)} at the top")
    before = place_before(view)
    key = "" if before is None else f" {_facing(view)} {_place_words(view.work, before)}."
    return (
        f"{name_of(view)}, {viewer(view.work)}: "
        f"{view.teeth} places, {gaps}, {top}. {' '.join(work_words(view.work))}"
        f"{key}"
    )


_TOPS = {ToothDatum.BLANK: "the maker's at the top"}


def _facing(view: BarEndView) -> str:
    return "The key now faces" if view.keyed else "The socket has no key; its place now faces"


def _place_words(work: EndWork, place: int) -> str:
    if place == 0:
        return datum_of(work)
    return f"tooth {abs(place)} {'clockwise' if place > 0 else 'counter-clockwise'}"

"""Bar, arm and load of an axle point where vehicles have them."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.chassis import Axle, AxlePlace, Chassis, LoadPoint
from barwright.parts.suspension import SwingArmMounting

__all__ = ["RULE"]

# Share of a direction beyond which it lies along an axis; between, nothing is said.
_ALONG = 0.9


def _remarks(subject: Subject) -> Iterator[Remark]:
    for place, chassis in subject.records_of(Chassis):
        for index, axle in enumerate(chassis.axles):
            within = place.within(f"axles[{index}]")
            yield from _bar(within, axle)
            yield from _arm(within, axle)
            yield from _load(within, axle)
            if chassis.drive == "none" and [axle.place] == [AxlePlace.FRONT]:
                yield from _trailer(within, chassis)


def _trailer(place: PackPlace, chassis: Chassis) -> Iterator[Remark]:
    if len(chassis.axles) == 1:
        message = "a trailer (drive 'none') has its only axle at the front"
        yield Remark(place.within("place"), message, "the axle of a trailer is its rear axle")


def _bar(place: PackPlace, axle: Axle) -> Iterator[Remark]:
    """Look at where the anchor lies, seen from the arm."""
    along, across, _ = _unit(axle.bar_axis)
    within = place.within("bar_axis")
    if across < -_ALONG:
        message = "bar_axis has the arm end of the left corner's bar inboard of its anchor end"
        yield Remark(within, message)
    if axle.place is AxlePlace.FRONT and along < -_ALONG:
        message = "bar_axis has the anchor of a front axle ahead of it, where no chassis is"
        yield Remark(within, message, _PLACE)
    if axle.place is AxlePlace.REAR and along > _ALONG:
        message = "bar_axis has the anchor of a rear axle behind it, where no chassis is"
        yield Remark(within, message, _PLACE)


_PLACE = "bar_axis points from the anchor end to the arm end, x forward; or place is wrong"


def _arm(place: PackPlace, axle: Axle) -> Iterator[Remark]:
    along, across, _ = _unit(axle.arm_direction)
    within = place.within("arm_direction")
    if not isinstance(axle.suspension, SwingArmMounting) and abs(along) > _ALONG:
        message = "arm_direction has the arms along the vehicle, but a strut or two wishbones"
        yield Remark(within, f"{message} need them across it", _EXCHANGED)
    if axle.place is AxlePlace.REAR and along > _ALONG and abs(across) < _ALONG:
        message = "arm_direction has the wheels of a rear axle ahead of their bar"
        yield Remark(within, message, "the arms of a rear axle trail: x is negative")


_EXCHANGED = "compare arm_direction, from the bar axis to the wheel, with bar_axis"


def _load(place: PackPlace, axle: Axle) -> Iterator[Remark]:
    """Look at the load: a wheel rolls in the plane of an arm along the vehicle, else it tilts."""
    along, across, _ = _unit(axle.arm_direction)
    within = place.within("load_at")
    if abs(across) > _ALONG and axle.load_at is LoadPoint.HUB:
        message = "load_at is 'hub', but the wheel carrier tilts in the plane of this arm"
        yield Remark(within, message, "write 'tyre contact'")
    if abs(along) > _ALONG and axle.load_at is LoadPoint.CONTACT:
        message = "load_at is 'tyre contact', but the wheel rolls in the plane of this arm"
        yield Remark(within, message, "write 'hub'")


def _unit(direction: tuple[float, float, float]) -> tuple[float, float, float]:
    size = sum(part * part for part in direction) ** 0.5
    x, y, z = (part / size for part in direction)
    return x, y, z


RULE = Rule(
    name="usual-directions",
    code="R309",
    severity=Severity.WARNING,
    wants="bar, arm and load of an axle point where vehicles have them",
    tip="directions are those of the left corner, x forward, y left, from the anchor end to the "
    "arm end; if this one is right, waive the finding and give the reason",
    remarks=_remarks,
)

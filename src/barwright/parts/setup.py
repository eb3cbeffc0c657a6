"""A setup: one corner of a chassis with its parts, its load and its adjustment."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Self

import attrs

from barwright.errors import JobError, SchemaError
from barwright.parts.adjuster import Adjuster, refuse_misplaced_nut
from barwright.parts.anchor import Anchor, FixedSocket, KeyLever, refuse_unmatched
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import (
    FigureLike,
    angle_or_none,
    as_far_as_known,
    length_or_none,
    named,
    size,
    size_or_none,
    turns,
    turns_or_none,
)
from barwright.parts.common.record import Part, Record
from barwright.parts.common.source import About, Figure
from barwright.parts.damper import Damper
from barwright.parts.load import Load, LoadKind, refuse_too_light, standard_load
from barwright.parts.spline import BarEnd
from barwright.parts.tube import Tube
from barwright.units import Quantity

__all__ = ["PLACES", "Reading", "Setup"]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Setup(Record):
    """One corner of a chassis with all its parts.

    Parameters
    ----------
    chassis : Chassis
        The vehicle.
    axle : Axle
        One of its axles.
    side : Side
        The corner's side.
    arm, bar, anchor, adjuster, damper : record
        The parts on it.  The anchor is a torque tube, a key lever, or a fixed socket,
        which has no adjuster.
    load : Load
        What the corner carries.
    arm_tooth, anchor_tooth : int
        Tooth of the bar that lies on the key at each end, counted in the bump
        sense from the maker's blank; it is taken to be missing, or its key cleared.
    nut_turns : Quantity
        Of the adjuster from the middle of its thread, positive clockwise seen
        from the bolt's free end; of a bolt that is itself turned, from its head.
    pin_distance : Quantity, optional
        The same, measured: from the bolt's pivot or head to the lever's pin, or from the
        cross-member to the end of a bolt that is itself turned.  It takes the place of
        ``nut_turns``.
    reading : Reading, optional
        Measured height of the corner: where keys and blanks really are then
        follows from that, and not from their figures.
    further_readings : tuple of Reading
        Others of the same corner, under other loads or with the nut elsewhere: where keys
        and blanks are then follows from all of them together.
    """

    chassis: Chassis
    axle: Axle
    side: Side
    arm: Arm
    bar: Bar
    anchor: Anchor
    adjuster: Adjuster | None
    damper: Damper
    load: Load
    arm_tooth: int = 0
    anchor_tooth: int = 0
    nut_turns: Quantity = attrs.field(default="0 turn", converter=turns)
    pin_distance: Quantity | None = attrs.field(default=None, converter=length_or_none)
    reading: Reading | None = None
    further_readings: tuple[Reading, ...] = ()

    def _check(self) -> None:
        """Refuse load, teeth, anchor, adjuster and axle that do not go together."""
        super()._check()
        if self.chassis.right_side is not None:
            chassis, axle = self.chassis.corner(self.axle, self.side)
            object.__setattr__(self, "chassis", chassis)
            object.__setattr__(self, "axle", axle)
        self.chassis.refuse_other_axle(self.axle)
        self._check_reading()
        refuse_too_light(self.load, self.axle)
        self._check_anchor()
        for name, end in (("arm", self.bar.arm_end), ("anchor", self.bar.anchor_end)):
            self._check_tooth(name, end)

    @as_far_as_known
    def _check_tooth(self, name: str, end: BarEnd) -> None:
        tooth = getattr(self, f"{name}_tooth")
        if abs(tooth) >= end.teeth:
            raise SchemaError(
                "S207",
                value=tooth,
                expected=f"a tooth of the {end.teeth} that the {name} end has",
                remedy="count from the maker's blank, positive in the bump sense",
                key=f"{name}_tooth",
            )

    def _check_reading(self) -> None:
        if self.further_readings and self.reading is None:
            raise SchemaError(
                "S207",
                value="further readings without a first one",
                expected="a reading before them",
                remedy="give the first of them as the reading",
                key="further_readings",
            )
        for reading in self.readings:
            own, read = (f"{one.chassis.id} {one.corner}" for one in (self, reading.setup))
            if own != read:
                raise SchemaError(
                    "S207",
                    value=read,
                    expected=f"a reading of {own}",
                    remedy="give the height that was measured on this corner",
                    key="reading",
                )
            if reading.setup.spring != self.readings[0].setup.spring:
                raise SchemaError(
                    "S207",
                    value="readings with other parts or teeth",
                    expected="readings of the corner with one bar, in the same teeth",
                    remedy="take each spring by its own readings",
                    key="readings",
                )

    def _check_anchor(self) -> None:
        refuse_unmatched(self.anchor, self.adjuster)
        self.axle.refuse_without_place(self.anchor)
        refuse_misplaced_nut(
            self.adjuster, nut_turns=self.nut_turns, pin_distance=self.pin_distance
        )

    @classmethod
    @checks_arguments
    def standard(cls, chassis: Chassis, *, axle: Axle, side: Side) -> Self:
        """Return a corner with its standard parts, load and keyed clocking.

        Parameters
        ----------
        chassis : Chassis
            The vehicle.
        axle : Axle
            One of its axles.
        side : Side
            The corner's side.

        Returns
        -------
        Setup
        """
        chassis, axle = chassis.corner(axle, side)
        parts = axle.standard(side)
        return cls(
            chassis=chassis,
            axle=axle,
            side=side,
            arm=parts.arm,
            bar=parts.bar,
            anchor=parts.anchor,
            adjuster=parts.adjuster,
            damper=parts.damper,
            load=standard_load(axle),
        )

    def _in_short(self) -> str:
        """Show its vehicle, its corner and its bar."""
        return f"{self.chassis.title}, {self.corner}, {self.bar.title}"

    @property
    def corner(self) -> str:
        """Axle and side, as in "front left"."""
        return f"{self.axle.place.value} {self.side.value}"

    @property
    def readings(self) -> tuple[Reading, ...]:
        """All readings of the corner."""
        return () if self.reading is None else (self.reading, *self.further_readings)

    @property
    def parts(self) -> dict[str, Part]:
        """The parts by their place; without an adjuster where there is none."""
        found = {kind: getattr(self, kind) for kind in PLACES}
        return {kind: part for kind, part in found.items() if part is not None}

    @property
    def spring(self) -> tuple[object, ...]:
        """What decides which spring a corner has: its parts and the teeth that they lie in."""
        return (*self.parts.values(), self.arm_tooth, self.anchor_tooth)

    def with_parts(  # a setup's every part can be swapped
        self,
        *,
        arm: Arm | None = None,
        bar: Bar | None = None,
        anchor: Anchor | None = None,
        adjuster: Adjuster | None = None,
        damper: Damper | None = None,
    ) -> Setup:
        """Return the setup with other parts on it.

        Parameters
        ----------
        arm, bar, anchor, adjuster, damper : record, optional
            The part to fit; parts that are left out stay, except an adjuster, which
            goes off when a fixed socket goes on.

        Returns
        -------
        Setup

        Raises
        ------
        JobError
            J101 if a part is of another kind than its place.
        SchemaError
            S207 if they do not go together.

        Examples
        --------
        >>> import barwright as bw
        >>> registry = bw.Registry.discover()
        >>> van = registry.setup("fells:chassis/short", corner="front left")
        >>> van.with_parts(damper=registry.part("fells:damper/short")).damper.title
        'Short strut damper'
        """
        given = {"arm": arm, "bar": bar, "anchor": anchor, "adjuster": adjuster, "damper": damper}
        changed: dict[str, Any] = {kind: part for kind, part in given.items() if part is not None}
        for kind, part in changed.items():
            if not isinstance(part, PLACES[kind]):
                raise JobError(
                    "J101",
                    value=getattr(part, "id", part),
                    expected=f"a record of kind {_names(PLACES[kind])}",
                    remedy="get it from the registry with .part(id)",
                    key=kind,
                )
        if isinstance(anchor, FixedSocket) and adjuster is None:
            changed |= {"adjuster": None, "nut_turns": "0 turn", "pin_distance": None}
        return attrs.evolve(self, **changed)

    @checks_arguments
    def with_load(self, *, kind: LoadKind, mass: FigureLike) -> Setup:
        """Return the setup with another load on it.

        Parameters
        ----------
        kind : LoadKind
            What the figure is.
        mass : str or Quantity
            The figure.

        Returns
        -------
        Setup

        Examples
        --------
        >>> import barwright as bw
        >>> van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
        >>> van.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass="326 kg").load.kind.value
        'scale reading'
        """
        return attrs.evolve(self, load=Load(kind=kind, mass=mass))

    @checks_arguments
    def with_reading(self, *, height: FigureLike, tolerance: FigureLike | None = None) -> Setup:
        """Return the setup with a measured height.

        Parameters
        ----------
        height : str or Quantity
            Hub to arch, with the parts, load, teeth and nut of this setup.
        tolerance : str or Quantity, optional
            Half width of the interval in which that height lies.

        Returns
        -------
        Setup

        Examples
        --------
        >>> import barwright as bw
        >>> van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
        >>> low = van.with_reading(height="385 mm", tolerance="2 mm")
        >>> f"{bw.ride(low).height:.0f~P}"
        '385 mm'
        """
        figure = Figure(value=size(height), tolerance=size_or_none(tolerance))
        about = About({"height": figure})
        there = attrs.evolve(self, reading=None, further_readings=())
        reading = Reading(setup=there, height=figure.value, about=about)
        return attrs.evolve(there, reading=reading)

    @checks_arguments
    def with_readings(self, readings: Sequence[Reading]) -> Setup:
        """Return the setup as it is, known by how it was measured to stand.

        Parameters
        ----------
        readings : sequence of Reading
            One or several of this corner; none to forget those that it has.

        Returns
        -------
        Setup
        """
        first, *further = readings or (None,)
        return attrs.evolve(self, reading=first, further_readings=tuple(further))


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Reading(Record):
    """How a corner was measured to stand: its height, or the angle of its arm.

    Parameters
    ----------
    setup : Setup
        The corner as it then was: its parts, load, teeth and nut.
    height : Quantity, optional
        Hub to arch.
    arm_angle : Quantity, optional
        Of the arm above the horizontal, measured in the place of a height.
    nut_turns, pin_distance : Quantity, optional
        Where the nut then stood, if it was measured at the same time: it takes the place of
        what the setup says of it.
    """

    setup: Setup
    height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    arm_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)
    nut_turns: Quantity | None = attrs.field(default=None, converter=turns_or_none)
    pin_distance: Quantity | None = attrs.field(default=None, converter=length_or_none)

    def _check(self) -> None:
        """Refuse a reading of a corner that itself rests on one, and one of nothing."""
        super()._check()
        if self.setup.reading is not None:
            raise SchemaError(
                "S207",
                value="a reading of a setup with a reading",
                expected="the setup without one",
                remedy="leave the reading of that setup out",
                key="setup",
            )
        if (self.height is None) == (self.arm_angle is None):
            raise SchemaError(
                "S207",
                value="neither of them" if self.height is None else "both of them",
                expected="a height or an arm angle",
                remedy="give the one that was measured",
                key="height",
            )
        _ = self.corner  # what does not go together is refused

    @property
    def corner(self) -> Setup:
        """The corner as it then was, its nut where it was measured to stand."""
        if self.nut_turns is None and self.pin_distance is None:
            return self.setup
        turns = "0 turn" if self.nut_turns is None else self.nut_turns
        return attrs.evolve(self.setup, nut_turns=turns, pin_distance=self.pin_distance)


PLACES: dict[str, tuple[type[Part], ...]] = {
    "arm": (Arm,),
    "bar": (Bar,),
    "anchor": (Tube, KeyLever, FixedSocket),
    "adjuster": (Adjuster,),
    "damper": (Damper,),
}
"""Places of a corner, with the kinds of part that each may hold."""


def _names(kinds: tuple[type[Part], ...]) -> str:
    return " or ".join(kind.__name__ for kind in kinds)

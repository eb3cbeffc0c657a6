"""A setup: one corner of a chassis with its parts, its load and its adjustment."""

from __future__ import annotations

import enum
from typing import Any, Self

import attrs

from barwright.errors import JobError, QuantityError, SchemaError
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import Anchor, FixedSocket, KeyLever, refuse_unmatched
from barwright.parts.arguments import checks_arguments
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.damper import Damper
from barwright.parts.fields import (
    FigureLike,
    as_far_as_known,
    length_or_none,
    mass,
    named,
    size,
    size_or_none,
    turns,
)
from barwright.parts.in_short import Summarised
from barwright.parts.record import Part, Record
from barwright.parts.source import About, Figure
from barwright.parts.spline import BarEnd
from barwright.parts.tube import Tube
from barwright.units import MASS, Quantity, shown, si

__all__ = ["PLACES", "Load", "LoadKind", "Reading", "Setup"]


class LoadKind(enum.Enum):
    """Kind of a load figure: a scale reading includes the unsprung mass."""

    SCALE_READING = "scale reading"
    SPRUNG = "sprung mass"


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Load(Record):
    """What a corner carries.

    Parameters
    ----------
    kind : LoadKind
        Whether the figure is a scale's reading or the sprung mass.
    mass : Quantity
        The figure.
    """

    kind: LoadKind
    mass: Quantity = attrs.field(converter=mass)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Setup(Summarised):
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

    def __attrs_post_init__(self) -> None:
        """Refuse load, teeth, anchor, adjuster and axle that do not go together."""
        self._check_axle()
        self._check_reading()
        self._check_load()
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

    def _check_axle(self) -> None:
        # Figures of an axle may be tried otherwise; the parts that it was built with tell whose
        # it is.
        own = [_built_with(axle) for axle in self.chassis.axles if axle.place is self.axle.place]
        if _built_with(self.axle) not in own:
            raise SchemaError(
                "S207",
                value=f"a {self.axle.place.value} axle with {self.axle.left.bar.id}",
                expected=f"an axle of {self.chassis.id}",
                remedy="take one of the chassis' own axles",
                key="axle",
            )

    def _check_reading(self) -> None:
        if self.reading is None:
            return
        own, read = (f"{one.chassis.id} {one.corner}" for one in (self, self.reading.setup))
        if own != read:
            raise SchemaError(
                "S207",
                value=read,
                expected=f"a reading of {own}",
                remedy="give the height that was measured on this corner",
                key="reading",
            )

    def _check_anchor(self) -> None:
        refuse_unmatched(self.anchor, self.adjuster)
        self.axle.refuse_without_place(self.anchor)
        self._check_adjustment()

    @as_far_as_known
    def _check_adjustment(self) -> None:
        places = {"nut_turns": self.nut_turns, "pin_distance": self.pin_distance}
        given = {key: shown(place) for key, place in places.items() if place and place.magnitude}
        for key, place in given.items() if self.adjuster is None else ():
            raise SchemaError(
                "S207",
                value=place,
                expected="none, because a fixed socket has nothing to turn",
                remedy=f"leave {key} out",
                key=key,
            )
        if len(given) > 1:
            raise SchemaError(
                "S207",
                value=" and ".join(f"{key} {place}" for key, place in given.items()),
                expected="only one of them, because both say where the nut stands",
                remedy="leave one out",
                key="pin_distance",
            )

    @as_far_as_known
    def _check_load(self) -> None:
        unsprung = self.axle.unsprung_mass
        reads = self.load.kind is LoadKind.SCALE_READING
        if reads and si(self.load.mass, MASS) <= si(unsprung, MASS):
            raise QuantityError(
                "Q302",
                value=shown(self.load.mass),
                expected=f"more than the unsprung mass of {shown(unsprung)}",
                remedy="give the scale's reading under the tyre, or the sprung mass",
                key="load.mass",
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
            load=_as_stated(axle),
        )

    def _told(self) -> str:
        """Show its vehicle, its corner and its bar."""
        return f"{self.chassis.title}, {self.corner}, {self.bar.title}"

    @property
    def corner(self) -> str:
        """Axle and side, as in "front left"."""
        return f"{self.axle.place.value} {self.side.value}"

    @property
    def parts(self) -> dict[str, Part]:
        """The parts by their place; without an adjuster where there is none."""
        found = {kind: getattr(self, kind) for kind in PLACES}
        return {kind: part for kind, part in found.items() if part is not None}

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
        there = attrs.evolve(self, reading=None)
        return attrs.evolve(self, reading=Reading(setup=there, height=figure.value, about=about))


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Reading(Record):
    """A height measured on the vehicle.

    Parameters
    ----------
    setup : Setup
        The corner as it then was: its parts, load, teeth and nut.
    height : Quantity
        Hub to arch.
    """

    setup: Setup
    height: Quantity = attrs.field(converter=size)

    def __attrs_post_init__(self) -> None:
        """Refuse a reading of a corner that itself rests on one."""
        super().__attrs_post_init__()
        if self.setup.reading is not None:
            raise SchemaError(
                "S207",
                value="a reading of a setup with a reading",
                expected="the setup without one",
                remedy="leave the reading of that setup out",
                key="setup",
            )


PLACES: dict[str, tuple[type[Part], ...]] = {
    "arm": (Arm,),
    "bar": (Bar,),
    "anchor": (Tube, KeyLever, FixedSocket),
    "adjuster": (Adjuster,),
    "damper": (Damper,),
}
"""Places of a corner, with the kinds of part that each may hold."""


def _built_with(axle: Axle) -> tuple[str, ...]:
    """Ids of the parts that an axle's left corner left the works with."""
    parts = axle.left
    return (parts.arm.id, parts.bar.id, parts.anchor.id, parts.damper.id)


def _names(kinds: tuple[type[Part], ...]) -> str:
    return " or ".join(kind.__name__ for kind in kinds)


def _as_stated(axle: Axle) -> Load:
    """Load of standard trim, with what is known of its figure."""
    known = axle.about.get("standard_mass")
    about = About({} if known is None else {"mass": known})
    return Load(kind=LoadKind.SPRUNG, mass=axle.standard_mass, about=about)

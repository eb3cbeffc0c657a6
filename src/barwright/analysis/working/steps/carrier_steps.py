"""Steps of a wheel carrier on a ball joint: of a strut, and of double wishbones."""

from __future__ import annotations

import abc

import attrs

from barwright.analysis.working.expression import (
    Expression,
    Symbol,
    arccos,
    arcsin,
    cos,
    root,
    sin,
)
from barwright.analysis.working.steps.linkage_steps import (
    HUB,
    LOAD,
    ArmDamperSteps,
    LinkageSteps,
    direction_of,
)
from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    LENGTH_PER_ANGLE,
    LENGTH_PER_ANGLE_SQUARED,
    NO_UNIT,
    PER_ANGLE,
)
from barwright.mechanics.linkage.arm_and_strut import Strut
from barwright.mechanics.linkage.double_wishbone import DoubleWishbone
from barwright.parts.suspension import JointSide
from barwright.units import LENGTH

__all__ = ["StrutSteps", "WishboneSteps"]

_ROTATION = "rotation about the bar axis"


@attrs.define(kw_only=True)
class CarrierSteps(LinkageSteps):
    """Steps of a carrier that tilts as it rises."""

    def _plane(self, point: str) -> tuple[Expression, Expression, Expression]:
        y, z = self._point(point)
        joint_y, joint_z = self._joint()
        turn = self._turn()
        return joint_z + z, joint_y + turn * y, -joint_z + self._turn_rate() * y - turn**2 * z

    def _height(self, point: str) -> Expression:
        # Needs no derivative of the tilt.
        return self._risen(self._joint()[1] + self._point(point)[1])

    def _slope(self, point: str) -> Expression:
        return self._risen(self._joint()[0] + self._turn() * self._point(point)[0])

    def _joint(self) -> tuple[Symbol, Symbol]:
        """Ball joint, outboard of and above the bar axis."""
        r, phi = self._arm_radius(), self.angle
        y = self._step("y_B", "ball joint outboard of the bar axis", r * cos(phi), source=_ROTATION)
        z = self._step("z_B", "ball joint above the bar axis", r * sin(phi), source=_ROTATION)
        return y, z

    def _point(self, point: str) -> tuple[Symbol, Symbol]:
        """Return a point from the ball joint, as the carrier has tilted."""
        out, up = self._from_joint(point)
        tilt = self._tilt()
        what = {HUB: "hub centre", LOAD: "tyre contact"}[point]
        y = self._step(
            f"y_{point}",
            f"{what} outboard of the ball joint",
            out * cos(tilt) - up * sin(tilt),
            source="rotation about the ball joint",
        )
        z = self._step(
            f"z_{point}1" if point == HUB else f"z_{point}",
            f"{what} above the ball joint",
            out * sin(tilt) + up * cos(tilt),
            source="rotation about the ball joint",
        )
        return y, z

    def _tilt(self) -> Symbol:
        """Turn of the carrier since its reference position."""
        reference = attrs.evolve(
            self,
            angle=self._reference(),
            mark="0",
            where="in the reference position",
            is_standard=True,
        )
        usual = reference._axis()  # noqa: SLF001 - of the same class
        return self._step(
            "ϑ",
            "tilt of the wheel carrier since the reference position",
            self._axis() - usual,
            self.motion.tilt,
            unit=ANGLE_IN_DEGREES,
            source="definition",
        )

    @abc.abstractmethod
    def _axis(self) -> Symbol:
        """Angle of the line in the carrier that the tilt is told by."""

    @abc.abstractmethod
    def _turn(self) -> Symbol:
        """First derivative of the tilt with the arm angle."""

    @abc.abstractmethod
    def _turn_rate(self) -> Symbol:
        """Second derivative of the tilt with the arm angle."""


@attrs.define(kw_only=True)
class StrutSteps(CarrierSteps):
    """Steps of a lower arm and a strut."""

    def damper_length(self) -> Symbol:
        """Length of the damper between its mounts."""
        below = self.sheet.given(
            "c",
            "what the damper's length has beyond the foot of the offset",
            "axle.suspension.length_below",
        )
        return self._step(
            "s",
            "length of the damper",
            self._length() + below,
            self.motion.damper_length,
            source=Strut,
            figure=self.named("damper_length"),
            kind=LENGTH,
        )

    def damper_slope(self) -> Symbol:
        """Change of that length with the arm angle."""
        along, _ = self._velocity()
        return self._step(
            "s'",
            "change of the damper's length, per radian of arm angle",
            along - self._offset() * self._turn(),
            self.motion.damper_slope,
            unit=LENGTH_PER_ANGLE,
            source=Strut,
        )

    def damper_curvature(self) -> Symbol:
        """Change of that slope with the arm angle."""
        _, outward = self._velocity()
        turn = self._turn()
        return self._step(
            "s''",
            "second derivative of the damper's length with the arm angle",
            outward + self._length() * turn**2 - self._offset() * self._turn_rate(),
            self.motion.damper_curvature,
            unit=LENGTH_PER_ANGLE_SQUARED,
            source=Strut,
        )

    def _offset(self) -> Symbol:
        return self.sheet.given(
            "e",
            "strut's axis from the ball joint, positive if it passes outboard",
            "axle.suspension.offset",
        )

    def _distance(self) -> tuple[Symbol, Symbol, Symbol]:
        """From the ball joint to the top mount: outboard, up, and along."""
        sheet, (y, z) = self.sheet, self._joint()
        mount_y = sheet.given(
            "y_M", "top mount outboard of the bar axis", "axle.suspension.top_outboard"
        )
        mount_z = sheet.given("z_M", "top mount above the bar axis", "axle.suspension.top_up")
        across = self._step(
            "a_y", "from the ball joint outboard to the top mount", mount_y - y, source="definition"
        )
        up = self._step(
            "a_z", "from the ball joint up to the top mount", mount_z - z, source="definition"
        )
        distance = self._step(
            "D",
            "from the ball joint to the top mount",
            root(across**2 + up**2),
            source="Pythagoras",
        )
        return across, up, distance

    def _length(self) -> Symbol:
        *_, distance = self._distance()
        return self._step(
            "l_s",
            "from the foot of the offset to the top mount",
            root(distance**2 - self._offset() ** 2),
            source=Strut,
        )

    def _axis(self) -> Symbol:
        across, up, distance = self._distance()
        at = (self.sheet.values[across.name], self.sheet.values[up.name])
        return self._step(
            "ψ",
            "angle of the strut's axis above outboard",
            direction_of(across, up, at=at) + arcsin(self._offset() / distance),
            unit=ANGLE_IN_DEGREES,
            source=Strut,
        )

    def _velocity(self) -> tuple[Symbol, Symbol]:
        """Motion of the ball joint per radian: along the strut, and square to it."""
        (y, z), axis = self._joint(), self._axis()
        along = self._step(
            "v_s",
            "motion of the ball joint along the strut, away from the mount, per radian",
            z * cos(axis) - y * sin(axis),
            unit=LENGTH_PER_ANGLE,
            source=Strut,
        )
        square = self._step(
            "v_q",
            "motion of the ball joint square to the strut, per radian",
            z * sin(axis) + y * cos(axis),
            unit=LENGTH_PER_ANGLE,
            source=Strut,
        )
        return along, square

    def _turn(self) -> Symbol:
        _, square = self._velocity()
        return self._step(
            "ϑ'",
            "tilt per radian of arm angle",
            -(square / self._length()),
            unit=NO_UNIT,
            source=Strut,
        )

    def _turn_rate(self) -> Symbol:
        along, _ = self._velocity()
        turn = self._turn()
        return self._step(
            "ϑ''",
            "second derivative of the tilt with the arm angle",
            (along - turn * (along + self.damper_slope())) / self._length(),
            unit=PER_ANGLE,
            source=Strut,
        )


@attrs.define(kw_only=True)
class WishboneSteps(CarrierSteps, ArmDamperSteps):
    """Steps of double wishbones, the bar in one of the arms."""

    def _upright(self) -> Symbol:
        return self.sheet.given("h", "upright between both ball joints", "axle.suspension.upright")

    def _pivot(self) -> tuple[Symbol, Symbol]:
        at = "axle.suspension.upper"
        return (
            self.sheet.given(
                "y_U", "pivot of the other arm, outboard of the bar axis", f"{at}_outboard"
            ),
            self.sheet.given("z_U", "pivot of the other arm above the bar axis", f"{at}_up"),
        )

    def _axis(self) -> Symbol:
        (y, z), (pivot_y, pivot_z), h = self._joint(), self._pivot(), self._upright()
        r = self.sheet.given(
            "r_U", "other arm, from its pivot to its ball joint", "axle.suspension.upper_radius"
        )
        across = self._step(
            "d_y",
            "from the ball joint outboard to the other pivot",
            pivot_y - y,
            source="definition",
        )
        up = self._step(
            "d_z", "from the ball joint up to the other pivot", pivot_z - z, source="definition"
        )
        distance = self._step(
            "D",
            "from the ball joint to the other pivot",
            root(across**2 + up**2),
            source="Pythagoras",
        )
        at = (self.sheet.values[across.name], self.sheet.values[up.name])
        line = direction_of(across, up, at=at)
        corner = arccos((h**2 + distance**2 - r**2) / (2 * h * distance))
        return self._step(
            "ψ",
            "angle of the upright above outboard",
            line - corner if self._branch > 0 else line + corner,
            unit=ANGLE_IN_DEGREES,
            source=DoubleWishbone,
        )

    @property
    def _branch(self) -> int:
        """Which of both intersections is built, as the kernel's data say."""
        mounting = self.sheet.setup.axle.suspension
        outboard = mounting.upper_joint is JointSide.OUTBOARD  # type: ignore[union-attr]
        above = float(mounting.upper_up.magnitude) >= 0.0  # type: ignore[union-attr]
        return 1 if outboard == above else -1

    def _other_arm(self) -> tuple[Symbol, Symbol]:
        """From the other pivot to its ball joint."""
        (y, z), (pivot_y, pivot_z), h = self._joint(), self._pivot(), self._upright()
        axis = self._axis()
        return (
            self._step(
                "u_y",
                "from the other pivot outboard to its ball joint",
                y + h * cos(axis) - pivot_y,
                source="definition",
            ),
            self._step(
                "u_z",
                "from the other pivot up to its ball joint",
                z + h * sin(axis) - pivot_z,
                source="definition",
            ),
        )

    def _lever(self) -> Symbol:
        arm_y, arm_z = self._other_arm()
        axis = self._axis()
        return self._step(
            "q",
            "other arm square to the upright",
            arm_z * cos(axis) - arm_y * sin(axis),
            source=DoubleWishbone,
        )

    def _turn(self) -> Symbol:
        (y, z), (arm_y, arm_z) = self._joint(), self._other_arm()
        return self._step(
            "ϑ'",
            "tilt per radian of arm angle",
            (arm_y * z - arm_z * y) / (self._upright() * self._lever()),
            unit=NO_UNIT,
            source=DoubleWishbone,
        )

    def _turn_rate(self) -> Symbol:
        (y, z), (arm_y, arm_z) = self._joint(), self._other_arm()
        h, axis, turn = self._upright(), self._axis(), self._turn()
        end_y = self._step(
            "w_y",
            "motion of the other ball joint outboard, per radian of arm angle",
            -z - h * turn * sin(axis),
            unit=LENGTH_PER_ANGLE,
            source=DoubleWishbone,
        )
        end_z = self._step(
            "w_z",
            "motion of the other ball joint up, per radian of arm angle",
            y + h * turn * cos(axis),
            unit=LENGTH_PER_ANGLE,
            source=DoubleWishbone,
        )
        along = self._step(
            "u_s",
            "other arm along the upright",
            arm_y * cos(axis) + arm_z * sin(axis),
            source=DoubleWishbone,
        )
        top = end_y**2 + end_z**2 - arm_y * y - arm_z * z - h * turn**2 * along
        return self._step(
            "ϑ''",
            "second derivative of the tilt with the arm angle",
            -(top / (h * self._lever())),
            unit=PER_ANGLE,
            source=DoubleWishbone,
        )

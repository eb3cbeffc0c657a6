"""Steps from an arm angle to the travel of wheel and damper: what all suspensions share."""

from __future__ import annotations

import abc
from collections.abc import Callable

import attrs

from barwright.analysis.working.expression import (
    HALF_TURN,
    Expression,
    Number,
    Symbol,
    arctan,
    cos,
    root,
    sin,
)
from barwright.analysis.working.working_unit import (
    LENGTH_PER_ANGLE,
    LENGTH_PER_ANGLE_SQUARED,
    LENGTH_UNIT,
    NO_UNIT,
    WorkingUnit,
)
from barwright.analysis.working.worksheet import Worksheet, marked
from barwright.mechanics.common.bar_axes import BarPlane
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion, SwingArm
from barwright.mechanics.linkage.wheel_carrier import Carrier
from barwright.parts.chassis import LoadPoint
from barwright.units import LENGTH, Kind

__all__ = ["LinkageSteps", "direction_of"]

HUB, LOAD = "H", "F"


@attrs.define(kw_only=True)
class LinkageSteps(abc.ABC):
    """Steps of one state of a linkage; each is put down when it is first asked for.

    Parameters
    ----------
    sheet : Worksheet
        Where they are put down.
    angle : Symbol
        Angle of the arm.
    mark : str
        Index of the symbols of this state.
    where : str
        The state in words.
    linkage : Linkage
        Kernel whose figures the answer uses.
    is_standard : bool
        Whether the arm is the one that the vehicle left the works with.
    named : callable
        From a field of the state to the figure of the answer that it is; empty if it is none.
    """

    sheet: Worksheet
    angle: Symbol
    mark: str = ""
    where: str = "at rest"
    linkage: Linkage
    is_standard: bool = False
    named: Callable[[str], str]
    motion: Motion = attrs.field(init=False)

    def __attrs_post_init__(self) -> None:
        """Ask the kernel for this state."""
        self.motion = self.linkage.motion(self.sheet.values[self.angle.name])

    # -- What the statics ask for ---------------------------------------------------

    def hub_height(self) -> Symbol:
        """Hub centre above the bar axis."""
        return self._step(
            "z_H", "hub centre above the bar axis", self._height(HUB), self.motion.hub.height
        )

    def slope(self) -> Symbol:
        """Change of the height where the load acts with the arm angle."""
        return self._step(
            "z'",
            "rise of the point where the load acts, per radian of arm angle",
            self._slope(self._load_point),
            self.motion.load.slope,
            unit=LENGTH_PER_ANGLE,
        )

    def curvature(self) -> Symbol:
        """Change of that slope with the arm angle."""
        return self._step(
            "z''",
            "second derivative of that height with the arm angle",
            self._curvature(self._load_point),
            self.motion.load.curvature,
            unit=LENGTH_PER_ANGLE_SQUARED,
        )

    def hub_slope(self) -> Symbol:
        """Change of the hub's height with the arm angle."""
        return self._step(
            "z_H'",
            "rise of the hub centre, per radian of arm angle",
            self._slope(HUB),
            self.motion.hub.slope,
            unit=LENGTH_PER_ANGLE,
        )

    def hub_curvature(self) -> Symbol:
        """Change of that slope with the arm angle."""
        return self._step(
            "z_H''",
            "second derivative of the hub's height with the arm angle",
            self._curvature(HUB),
            self.motion.hub.curvature,
            unit=LENGTH_PER_ANGLE_SQUARED,
        )

    @abc.abstractmethod
    def damper_length(self) -> Symbol:
        """Length of the damper between its mounts."""

    @abc.abstractmethod
    def damper_slope(self) -> Symbol:
        """Change of that length with the arm angle."""

    @abc.abstractmethod
    def damper_curvature(self) -> Symbol:
        """Change of that slope with the arm angle."""

    # -- In the plane square to the bar ----------------------------------------------

    @abc.abstractmethod
    def _plane(self, point: str) -> tuple[Expression, Expression, Expression]:
        """Height of a point in that plane, with its first and second derivative."""

    def _height(self, point: str) -> Expression:
        return self._risen(self._plane(point)[0])

    def _slope(self, point: str) -> Expression:
        return self._risen(self._plane(point)[1])

    def _curvature(self, point: str) -> Expression:
        return self._risen(self._plane(point)[2])

    def _risen(self, in_plane: Expression) -> Expression:
        """Vertical part of what rises in the plane, which a bar's inclination makes less."""
        share = self._share
        return in_plane if share is None else share * in_plane

    @property
    def _share(self) -> Symbol | None:
        sheet = self.sheet
        found = float(sheet.corner.plane.vertical_share)
        if found == 1.0:
            return None
        x, y, z = (
            sheet.count(f"b_{name}", f"{name} of the bar axis' direction", "axle.bar_axis", number)
            for name, number in zip("xyz", sheet.setup.axle.bar_axis, strict=True)
        )
        return sheet.step(
            "c_β",
            "cosine of the bar's inclination: vertical share of a rise square to the bar",
            root(x**2 + y**2) / root(x**2 + y**2 + z**2),
            NO_UNIT,
            BarPlane.vertical_share,
            found=found,
        )

    @property
    def _load_point(self) -> str:
        """Point where the load acts: the hub itself, or the tyre's contact."""
        return HUB if self.sheet.setup.axle.load_at is LoadPoint.HUB else LOAD

    def _from_joint(self, point: str) -> tuple[Expression, Expression]:
        """Return where a point is given: outboard of and above the arm's end."""
        sheet = self.sheet
        out = sheet.given(
            "y_0", "hub centre outboard of the arm's end, where it is given", "axle.hub_outboard"
        )
        up = sheet.given("z_0", "hub centre above the arm's end, where it is given", "axle.hub_up")
        if point == HUB:
            return out, up
        radius = sheet.given("R_t", "radius of the tyre under load", "axle.tyre_radius")
        share = self._share
        contact = sheet.step(
            "z_1",
            "tyre contact above the arm's end, where the hub is given",
            up - (radius if share is None else share * radius),
            LENGTH_UNIT,
            "the contact lies straight under the hub",
        )
        return out, contact

    def _arm_radius(self) -> Symbol:
        """Radius of the arm that is on the corner, or of the one from the works."""
        setup, words = self.sheet.setup, "from the bar axis to the arm's end"
        standard = setup.axle.standard(setup.side).arm
        if not self.is_standard or setup.arm is standard:
            return self.sheet.given("r", words, "arm.radius")
        side = setup.side.value if getattr(setup.axle, setup.side.value) else "left"
        return self.sheet.given("r_0", f"{words}, of the standard arm", f"axle.{side}.arm.radius")

    def _reference(self) -> Symbol:
        words = "arm angle at which hub and contact are given"
        return self.sheet.given("φ_0", words, "axle.reference_angle")

    def _step(
        self,
        name: str,
        words: str,
        equation: Expression,
        found: object = None,
        *,
        unit: WorkingUnit = LENGTH_UNIT,
        source: object = Carrier.path,
        figure: str = "",
        kind: Kind | None = None,
    ) -> Symbol:
        """Put down a step of this state."""
        return self.sheet.step(
            marked(name, self.mark),
            f"{words}, {self.where}",
            equation,
            unit,
            source,
            found=found,
            figure=figure,
            kind=kind,
        )


@attrs.define(kw_only=True)
class ArmDamperSteps(LinkageSteps):
    """Steps of a damper that stands on the arm."""

    def damper_length(self) -> Symbol:
        """Length of the damper between its mounts."""
        across, up, *_ = self._span()
        return self._step(
            "s",
            "length of the damper",
            root(across**2 + up**2),
            self.motion.damper_length,
            source=SwingArm,
            figure=self.named("damper_length"),
            kind=LENGTH,
        )

    def damper_slope(self) -> Symbol:
        """Change of that length with the arm angle."""
        across, up, y, z = self._span()
        return self._step(
            "s'",
            "change of the damper's length, per radian of arm angle",
            (across * z - up * y) / self.damper_length(),
            self.motion.damper_slope,
            unit=LENGTH_PER_ANGLE,
            source=SwingArm,
        )

    def damper_curvature(self) -> Symbol:
        """Change of that slope with the arm angle."""
        across, up, y, z = self._span()
        length, slope = self.damper_length(), self.damper_slope()
        return self._step(
            "s''",
            "second derivative of the damper's length with the arm angle",
            (y**2 + z**2 + across * y + up * z - slope**2) / length,
            self.motion.damper_curvature,
            unit=LENGTH_PER_ANGLE_SQUARED,
            source=SwingArm,
        )

    def _span(self) -> tuple[Symbol, Symbol, Symbol, Symbol]:
        """From the damper's foot to its mount, outboard and up; then the foot itself."""
        sheet, phi = self.sheet, self.angle
        at = "axle.suspension"
        along = sheet.given("f_x", "damper's foot along the arm", f"{at}.foot_along")
        above = sheet.given("f_z", "damper's foot above the arm's centreline", f"{at}.foot_above")
        mount_y = sheet.given(
            "y_M", "damper's upper mount, outboard of the bar axis", f"{at}.mount_outboard"
        )
        mount_z = sheet.given("z_M", "damper's upper mount above the bar axis", f"{at}.mount_up")
        y = self._step(
            "y_f",
            "damper's foot outboard of the bar axis",
            along * cos(phi) - above * sin(phi),
            source="rotation about the bar axis",
        )
        z = self._step(
            "z_f",
            "damper's foot above the bar axis",
            along * sin(phi) + above * cos(phi),
            source="rotation about the bar axis",
        )
        across = self._step(
            "a_y", "from the damper's foot outboard to its mount", mount_y - y, source="definition"
        )
        up = self._step(
            "a_z", "from the damper's foot up to its mount", mount_z - z, source="definition"
        )
        return across, up, y, z


@attrs.define(kw_only=True)
class SwingArmSteps(ArmDamperSteps):
    """Steps of an arm that carries the wheel rigidly."""

    def _plane(self, point: str) -> tuple[Expression, Expression, Expression]:
        out, up = self._in_arm(point)
        phi = self.angle
        return (
            out * sin(phi) + up * cos(phi),
            out * cos(phi) - up * sin(phi),
            -(out * sin(phi) + up * cos(phi)),
        )

    def _in_arm(self, point: str) -> tuple[Symbol, Symbol]:
        """Coordinates of a point in the arm: along its centreline, and square to it."""
        out, up = self._from_joint(point)
        r, reference = self._arm_radius(), self._reference()
        own = "0" if r.name == "r_0" else ""
        what = {HUB: "hub centre", LOAD: "tyre contact"}[point]
        along = self.sheet.step(
            f"l_{point}{own}",
            f"{what} along the arm's centreline",
            r + out * cos(reference) + up * sin(reference),
            LENGTH_UNIT,
            "rotation about the arm's end",
        )
        above = self.sheet.step(
            f"h_{point}",
            f"{what} square to the arm's centreline",
            up * cos(reference) - out * sin(reference),
            LENGTH_UNIT,
            "rotation about the arm's end",
        )
        return along, above


def direction_of(across: Expression, up: Expression, *, at: tuple[float, float]) -> Expression:
    """Angle of a line above outboard, from its reach outboard and up.

    Parameters
    ----------
    across, up : Expression
        How far it goes.
    at : (float, float)
        What these come to, which says how a calculator finds the angle.

    Returns
    -------
    Expression
    """
    if abs(at[1]) < abs(at[0]):
        found = arctan(up / across)
        return found if at[0] > 0.0 else HALF_TURN + found
    quarter = Number(HALF_TURN.number / 2.0, "90°")
    return (quarter if at[1] > 0.0 else -quarter) - arctan(across / up)

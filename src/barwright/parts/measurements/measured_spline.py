"""A spline as somebody measured it, of which nobody knows to which standard it was made."""

from __future__ import annotations

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.fields import count, named
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import Figure
from barwright.parts.measurements.measured_bar import MeasuredFigure, measured_figure
from barwright.units import LENGTH

__all__ = ["MeasuredSpline"]


def _size(value: MeasuredFigure | None) -> Figure | None:
    return measured_figure(value, LENGTH, allowed="positive")


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class MeasuredSpline(Summarised):
    """Teeth of a bar's end as they were measured; what was not measured is left out.

    Each figure is a text, such as ``"29.9 mm ± 0.05 mm"``, or a quantity.

    Parameters
    ----------
    teeth : int
        Teeth of the whole circle, each blank counted too.
    major_diameter, root_diameter : Figure, optional
        Over the teeth, and at the bottom of two opposite spaces.
    over_pins : Figure, optional
        Over two pins that lie in opposite spaces, or in those that are nearest to opposite.
    pin_diameter : Figure, optional
        Diameter of these pins, or of those that are to hand.

    Raises
    ------
    SchemaError
        S203 for a count that is none, S207 for a size over pins of which nobody knows the
        diameter.
    QuantityError
        For a figure that is none of its kind.

    Examples
    --------
    >>> spline = MeasuredSpline(teeth=39, major_diameter="29.9 mm ± 0.05 mm")
    >>> f"{spline.major_diameter.tolerance:~P}"
    '0.05 mm'
    """

    teeth: int = attrs.field(converter=count)
    major_diameter: Figure | None = attrs.field(default=None, converter=_size)
    root_diameter: Figure | None = attrs.field(default=None, converter=_size)
    over_pins: Figure | None = attrs.field(default=None, converter=_size)
    pin_diameter: Figure | None = attrs.field(default=None, converter=_size)

    def __attrs_post_init__(self) -> None:
        """Refuse sizes that no teeth have."""
        if self.over_pins is not None and self.pin_diameter is None:
            raise SchemaError(
                "S207",
                value="a size over pins without the diameter of the pins",
                expected="both",
                remedy="measure a pin too",
                key="pin_diameter",
            )
        for name in ("root_diameter", "over_pins"):
            self._check_order(name)

    def _check_order(self, name: str) -> None:
        """Refuse roots outside the tips, and pins within them."""
        size: Figure | None = getattr(self, name)
        if size is None or self.major_diameter is None:
            return
        is_root = name == "root_diameter"
        tips = self.major_diameter.value
        if (size.value >= tips) if is_root else (size.value <= tips):
            raise SchemaError(
                "S207",
                value=f"{size.value:~P}",
                expected=f"{'less' if is_root else 'more'} than the {tips:~P} over the teeth",
                remedy="check which size was measured where",
                key=name,
            )

"""The vehicle on its wheels: where height and load are read."""

from __future__ import annotations

import math

from barwright.report.drawing.measuring.marks import Scheme, length, spot
from barwright.report.drawing.svg import BOLD, HAIR, INK, PALE, WHITE, XY, Drawing, polar

__all__ = ["VEHICLE"]

_SIZE = (60.0, 60.0)
_HUB: XY = (27.0, 37.0)
_TYRE, _ARCH, _GROUND = 13.5, 18.0, 50.5


def _draw(out: Drawing) -> None:
    arch = [polar(_HUB, radius=_ARCH, angle=math.pi * (1.0 - n / 30.0)) for n in range(31)]
    body = [(4.0, _HUB[1] - 2.0), (4.0, 13.0), (56.0, 13.0), (56.0, _HUB[1] - 2.0)]
    out.path([*body, *reversed(arch)], closed=True, fill=PALE, width=BOLD)
    out.circle(_HUB, _TYRE, fill=WHITE, width=BOLD)
    out.circle(_HUB, 8.5, width=HAIR)
    out.circle(_HUB, 0.8, fill=INK)
    out.hatched_box((_HUB[0] - 9.0, _GROUND), (_HUB[0] + 9.0, _GROUND + 3.0))
    for low, high in ((2.0, _HUB[0] - 9.0), (_HUB[0] + 9.0, 58.0)):
        out.line((low, _GROUND + 3.0), (high, _GROUND + 3.0), width=BOLD)
    out.text((_HUB[0], _GROUND + 7.0), "scales, level ground")


_TO_ARCH = (_HUB, (_HUB[0], _HUB[1] - _ARCH))

VEHICLE = Scheme(
    title="vehicle",
    description="A wheel under its arch, from the side, on level scales.",
    size=_SIZE,
    sixths=2,
    shows=("load.mass",),
    marks={
        "reading.height": length(*_TO_ARCH, share=0.45),
        "axle.standard_height": length(*_TO_ARCH, at=(18.5, 26.0), share=0.8),
        "axle.measured_height": length(*_TO_ARCH, at=(35.5, 26.0), share=0.8),
        "axle.bump_rubber.contact_height": length(*_TO_ARCH, at=(27.0, 16.0), share=1.0),
        "load.mass": spot((44.0, 46.5), (_HUB[0] + 6.0, _GROUND + 1.5)),
        "axle.tyre_radius": length((_HUB[0], _HUB[1]), (_HUB[0], _GROUND), share=0.55),
        "axle.tyre_rate": spot((10.0, 46.5), (_HUB[0] - 9.5, _HUB[1] + 8.0)),
        "axle.unsprung_mass": spot((36.0, 40.5), _HUB),
        "axle.standard_mass": spot((50.5, 18.5), (50.5, 26.0)),
    },
    draw=_draw,
)
"""The drawing of a vehicle on its wheels."""

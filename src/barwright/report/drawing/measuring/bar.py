"""The bar with its two ends: where its figures are taken."""

from __future__ import annotations

from barwright.report.drawing.measuring.marks import (
    Mark,
    Scheme,
    centre_line,
    length,
    spot,
)
from barwright.report.drawing.svg import BOLD, HAIR, PALE, SMALL, WHITE, XY, Drawing

__all__ = ["BAR"]

_SIZE = (120.0, 60.0)
_AXIS = 29.0
# Along the bar: nose, spline, cone, body; the other end is its mirror image.
_NOSE, _SPLINE, _CONE, _BODY = 9.0, 14.0, 31.0, 39.0
_HEAD, _ROOT, _THIN, _PLUG = 8.0, 6.4, 4.5, 3.6


def _draw(out: Drawing) -> None:
    outline = [(_SPLINE, _HEAD), (_CONE, _HEAD), (_BODY, _THIN)]
    upper = [(x, _AXIS - half) for x, half in outline]
    upper += [(_other(x), y) for x, y in reversed(upper)]
    lower = [(x, 2.0 * _AXIS - y) for x, y in reversed(upper)]
    out.path([*upper, *lower], closed=True, fill=PALE)
    for right in (False, True):
        _draw_end(out, right=right)
    _draw_break(out)
    centre_line(out, (4.0, _AXIS), (_other(4.0), _AXIS))
    out.text((_SPLINE, 57.5), "arm end", size=SMALL, bold=True, anchor="start")
    out.text((_other(_SPLINE), 57.5), "anchor end", size=SMALL, bold=True, anchor="end")


def _draw_end(out: Drawing, *, right: bool) -> None:
    def placed(x: float) -> float:
        return _other(x) if right else x

    out.box((placed(_NOSE), _AXIS - _PLUG), (placed(_SPLINE), _AXIS + _PLUG), fill=WHITE)
    out.box((placed(_SPLINE), _AXIS - _HEAD), (placed(_CONE), _AXIS + _HEAD), fill=WHITE)
    for half in (_ROOT, 4.6, 2.5):
        for side in (-half, half):
            out.line((placed(_SPLINE), _AXIS + side), (placed(_CONE), _AXIS + side), width=HAIR)
    # The maker's blank: a gap that is wider than the others.
    out.box((placed(_SPLINE), _AXIS + 2.5), (placed(_CONE), _AXIS + 4.6), fill=PALE, width=BOLD)


def _draw_break(out: Drawing) -> None:
    """Leave out the middle of the bar, which is longer than paper."""
    edge = [(59.0, _AXIS - 6.0), (57.5, _AXIS - 2.0), (59.5, _AXIS + 2.0), (58.0, _AXIS + 6.0)]
    out.path(
        [*edge, *((x + 3.0, y) for x, y in reversed(edge))], closed=True, fill=WHITE, width=HAIR
    )


def _other(x: float) -> float:
    return _SIZE[0] - x


# -- Marks -------------------------------------------------------------------------------


def _end_marks(name: str, *, right: bool) -> dict[str, Mark]:
    """Mark the figures of one end."""

    def placed(point: XY) -> XY:
        x, y = point
        return (_other(x) if right else x), y

    def along(ends: XY, at: XY, *, halves: XY = (_HEAD, _HEAD)) -> Mark:
        way = [placed((x, 17.5)) for x in ends]
        of = [placed((x, _AXIS - half)) for x, half in zip(ends, halves, strict=True)]
        return length(*way, at=placed(at), of=tuple(of))

    def across(x: float, *, half: float) -> Mark:
        return length(
            placed((x, _AXIS - half)), placed((x, _AXIS + half)), at=placed((x, 43.5)), share=1.0
        )

    return {
        f"bar.{name}.nose": along((_NOSE, _SPLINE), (10.5, 12.5), halves=(_PLUG, _HEAD)),
        f"bar.{name}.length": along((_SPLINE, _CONE), (22.5, 17.5)),
        f"bar.{name}.taper": along((_CONE, _BODY), (35.0, 12.5), halves=(_HEAD, _THIN)),
        f"bar.{name}.nose_diameter": across(10.6, half=_PLUG),
        f"bar.{name}.major_diameter": across(16.4, half=_HEAD),
        f"bar.{name}.root_diameter": across(22.0, half=_ROOT),
        f"bar.{name}.teeth": spot(placed((27.5, 43.5)), placed((27.5, _AXIS + 7.2))),
        f"bar.{name}.fillet_radius": spot(placed((34.5, 43.5)), placed((_BODY, _AXIS + _THIN))),
    }


_STEEL = (
    "bar.material.shear_modulus",
    "bar.material.permissible_shear",
    "bar.material.preset_permissible_shear",
    "bar.material.proof_strength",
    "bar.material.tensile_strength",
    "bar.material.youngs_modulus",
    "bar.material.density",
    "bar.preset_twist",
)

BAR = Scheme(
    title="bar",
    description="The bar from the side, arm end at the left, anchor end at the right.",
    size=_SIZE,
    sixths=4,
    shows=("bar.length",),
    marks={
        "bar.length": length(
            (_SPLINE, 51.0),
            (_other(_SPLINE), 51.0),
            of=((_SPLINE, _AXIS + _HEAD), (_other(_SPLINE), _AXIS + _HEAD)),
        ),
        "bar.diameter": length(
            (67.0, _AXIS - _THIN), (67.0, _AXIS + _THIN), at=(67.0, 41.5), share=1.0
        ),
        "bar.bore": spot((75.0, 41.5), (73.0, _AXIS)),
        "bar.blank_angle": spot((52.0, 43.5), (_CONE - 0.5, _AXIS + 3.5)),
        **_end_marks("arm_end", right=False),
        **_end_marks("anchor_end", right=True),
        **{
            figure: spot((42.0 + 5.2 * n, 16.0), (48.0 + 3.4 * n, _AXIS - _THIN + 0.8))
            for n, figure in enumerate(_STEEL)
        },
    },
    draw=_draw,
)
"""The drawing of a bar."""

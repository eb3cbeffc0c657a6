"""Draw the figure of each kernel: ``python docs/kernel_figures.py [FOLDER]``.

Curves and shapes are computed by the kernels that they show; all figures are invented.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from kernel_drawings import (
    anchorages,
    bar,
    corners,
    linkages,
    ride,
    spline_clocking,
    spline_teeth,
    strength,
    tolerance,
    whole_vehicle,
)
from kernel_drawings.sheet import Figures
from svg import kept

FIGURES: Figures = {
    **bar.FIGURES,
    **spline_teeth.FIGURES,
    **spline_clocking.FIGURES,
    **linkages.FIGURES,
    **corners.FIGURES,
    **anchorages.FIGURES,
    **strength.FIGURES,
    **ride.FIGURES,
    **whole_vehicle.FIGURES,
    **tolerance.FIGURES,
}


def draw(folder: Path) -> None:
    """Write every figure into a folder."""
    for name, figure in FIGURES.items():
        kept(folder / f"{name}.svg", str(figure()))


def main(arguments: Sequence[str]) -> None:
    """Draw into the folder given, or beside the pages of the kernels."""
    draw(Path(arguments[0]) if arguments else Path(__file__).parent / "kernels")


if __name__ == "__main__":
    main(sys.argv[1:])

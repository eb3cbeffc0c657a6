"""Draw the figure of each kernel: ``python docs/kernel_figures.py [FOLDER]``.

Curves are computed by the kernels that they show.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np

from barwright.mechanics.torsion import shear_stress, torsional_rate
from svg import Chart, Drawing


def torsion() -> Drawing:
    """Rate and stress of a solid bar over its diameter: the fourth and the third power."""
    out = Drawing(760, 300, "Rate and surface stress of a solid bar over its diameter")
    diameter = np.linspace(18.0, 32.0, 57)
    rate = torsional_rate(
        diameter=diameter / 1e3, active_length=1.0, shear_modulus=78.5e9
    ) * np.radians(1.0)
    stress = shear_stress(1000.0, diameter=diameter / 1e3) / 1e6
    for left, ys, top, ticks, words in (
        (70.0, rate, 150.0, (0, 50, 100, 150), "torsional rate of 1 m, N·m/deg"),
        (440.0, stress, 900.0, (0, 300, 600, 900), "surface stress at 1000 N·m, MPa"),
    ):
        chart = Chart(out, (left, 34.0, left + 290.0, 244.0), across=(18.0, 32.0), up=(0.0, top))
        chart.ticks((18, 20, 22, 24, 26, 28, 30, 32), ticks)
        chart.names("diameter, mm", words)
        chart.curve(diameter, ys)
    return out


FIGURES: dict[str, Callable[[], Drawing]] = {
    "torsion": torsion,
}


def draw(folder: Path) -> None:
    """Write every figure into a folder."""
    for name, figure in FIGURES.items():
        (folder / f"{name}.svg").write_text(str(figure()), encoding="utf-8", newline="\n")


def main(arguments: Sequence[str]) -> None:
    """Draw into the folder given, or beside the pages of the kernels."""
    draw(Path(arguments[0]) if arguments else Path(__file__).parent / "kernels")


if __name__ == "__main__":
    main(sys.argv[1:])

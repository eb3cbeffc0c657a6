"""The pictures of the gallery, drawn by every build into ``docs/made`` and kept nowhere else."""

from __future__ import annotations

from pathlib import Path

from sphinx.application import Sphinx

import barwright as bw
from barwright.report.page.content import page_of
from barwright.report.page.drawings import page_drawings
from barwright.report.page.pdf import page_pdf, typeset

__all__ = ["draw", "setup"]

DOCS = Path(__file__).parents[1]
_JOB = "shorter-dampers.toml"


def draw(folder: Path) -> None:
    """Draw the sheet's pages, the sheet as a file, and the chart."""
    job = bw.load_job(DOCS / "examples" / _JOB, bw.Registry.demo())
    sheet = bw.bench_sheet(job)
    page = page_of(sheet, tuple(page_drawings(sheet)))
    for number, picture in enumerate(typeset(page, format="svg"), 1):
        (folder / f"sheet-{number}.svg").write_bytes(picture)
    (folder / "sheet.pdf").write_bytes(page_pdf(page))
    figures = bw.rates(job.corners[0].setup).figures
    if figures is None:
        raise ValueError(_JOB)
    chart = bw.svg_chart(figures, title="The demo van, front left")
    (folder / "chart.svg").write_text(chart, encoding="utf-8", newline="\n")


def _draw(_: Sphinx) -> None:
    folder = DOCS / "made"
    folder.mkdir(exist_ok=True)
    draw(folder)


def setup(app: Sphinx) -> dict[str, bool]:
    """Let the build begin with the pictures."""
    app.connect("builder-inited", _draw)
    return {"parallel_read_safe": True, "parallel_write_safe": True}

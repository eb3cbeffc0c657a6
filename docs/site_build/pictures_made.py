"""The pictures of the gallery, drawn by every build into ``docs/made`` and kept nowhere else."""

from __future__ import annotations

from pathlib import Path

from sphinx.application import Sphinx

import barwright as bw
from barwright.report.page.balance import balance_page
from barwright.report.page.content import page_of
from barwright.report.page.drawings import page_drawings
from barwright.report.page.pdf import page_pdf, typeset

__all__ = ["draw", "setup"]

DOCS = Path(__file__).parents[1]
_JOB = DOCS / "examples" / "shorter-dampers.toml"
_WEIGHED = DOCS.parent / "tests" / "specimens" / "jobs" / "corner-weights.toml"


def draw(folder: Path) -> None:
    """Draw the sheets' pages, the bench sheet as a file, and the chart."""
    registry = bw.Registry.demo()
    job = bw.load_job(_JOB, registry)
    _draw_sheet(folder, job)
    _draw_chart(folder, job)
    _draw_balance(folder, bw.load_job(_WEIGHED, registry))


def _draw_sheet(folder: Path, job: bw.Job) -> None:
    sheet = bw.bench_sheet(job)
    page = page_of(sheet, tuple(page_drawings(sheet)))
    for number, picture in enumerate(typeset(page, format="svg"), 1):
        (folder / f"sheet-{number}.svg").write_bytes(picture)
    (folder / "sheet.pdf").write_bytes(page_pdf(page))


def _draw_chart(folder: Path, job: bw.Job) -> None:
    figures = bw.rates(job.corners[0].setup).figures
    if figures is None:
        raise ValueError(_JOB)
    chart = bw.svg_chart(figures, title="The demo van, front left")
    (folder / "chart.svg").write_text(chart, encoding="utf-8", newline="\n")


def _draw_balance(folder: Path, job: bw.Job) -> None:
    if job.vehicle is None:
        raise ValueError(_WEIGHED)
    answer = bw.balance(
        [corner.present for corner in job.corners],
        vehicle=job.vehicle,
        wanted=[corner.wanted for corner in job.corners],
    )
    title = job.corners[0].setup.chassis.title
    page = balance_page(answer, vehicle=title, rests_on="All figures are invented.")
    picture = typeset(page, "balance.typ", format="svg")
    (folder / "balance.svg").write_bytes(picture if isinstance(picture, bytes) else picture[0])


def _draw(_: Sphinx) -> None:
    folder = DOCS / "made"
    folder.mkdir(exist_ok=True)
    draw(folder)


def setup(app: Sphinx) -> dict[str, bool]:
    """Let the build begin with the pictures."""
    app.connect("builder-inited", _draw)
    return {"parallel_read_safe": True, "parallel_write_safe": True}

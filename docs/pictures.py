"""The pictures of printed sheets that pages show: ``python docs/pictures.py`` draws them anew."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import barwright as bw
from barwright.report.page.content import page_of
from barwright.report.page.drawings import page_drawings
from barwright.report.page.family import family_page
from barwright.report.page.measuring import measuring_page
from barwright.report.page.pdf import typeset

__all__ = ["PICTURES", "draw", "main"]

DOCS = Path(__file__).parent

# Name of each picture, which page of what, and the job or the words for the family.
PICTURES = {
    "family-van.png": ("family chart", 0, "fells"),
    "measuring-truck.png": ("measuring sheet", 0, "firmer-bars"),
    "sheet-truck.png": ("bench sheet", 0, "firmer-bars"),
    "sheet-van-1.png": ("bench sheet", 0, "shorter-dampers"),
    "sheet-van-2.png": ("bench sheet", 1, "shorter-dampers"),
}
_DOTS_AN_INCH = 100.0


def draw(folder: Path) -> None:
    """Draw all pictures into a folder."""
    registry = bw.Registry.demo()
    for name, (kind, number, of) in PICTURES.items():
        (folder / name).write_bytes(_pages(kind, of, registry)[number])


def _pages(kind: str, of: str, registry: bw.Registry) -> list[bytes]:
    """Draw the pages of a sheet for a job, or of a chart."""
    form: dict[str, Any] = {"format": "png", "ppi": _DOTS_AN_INCH}
    if kind == "family chart":
        chart = bw.family_chart(registry, of, processes=1)
        page = family_page(chart, rests_on="All figures are invented.")
        return _listed(typeset(page, "family.typ", **form))
    job = bw.load_job(DOCS / "examples" / f"{of}.toml", registry)
    if kind == "measuring sheet":
        asked = measuring_page([bw.needs(corner.setup) for corner in job.corners])
        return _listed(typeset(asked, "measuring.typ", **form))
    sheet = bw.bench_sheet(job)
    return _listed(typeset(page_of(sheet, tuple(page_drawings(sheet))), **form))


def _listed(pages: bytes | list[bytes]) -> list[bytes]:
    """List pages also where there is one."""
    return [pages] if isinstance(pages, bytes) else pages


def main(arguments: list[str]) -> None:
    """Draw into the folder that is named, or into the one that the pages show."""
    draw(Path(arguments[0]) if arguments else DOCS / "pictures")


if __name__ == "__main__":
    main(sys.argv[1:])

"""The pictures of printed sheets that pages show: ``python docs/pictures.py`` draws them anew."""

from __future__ import annotations

import sys
from pathlib import Path

import barwright as bw
from barwright.report.page.content import page_of
from barwright.report.page.drawings import page_drawings
from barwright.report.page.pdf import typeset

__all__ = ["PICTURES", "draw", "main"]

DOCS = Path(__file__).parent

# Name of each picture, the job, and which of its pages.
PICTURES = {
    "sheet-truck.png": ("firmer-bars", 0),
    "sheet-van-1.png": ("shorter-dampers", 0),
    "sheet-van-2.png": ("shorter-dampers", 1),
}
_DOTS_AN_INCH = 100.0


def draw(folder: Path) -> None:
    """Draw all pictures into a folder."""
    registry = bw.Registry.demo()
    for name, (job, number) in PICTURES.items():
        sheet = bw.bench_sheet(bw.load_job(DOCS / "examples" / f"{job}.toml", registry))
        page = page_of(sheet, tuple(page_drawings(sheet)))
        pages = typeset(page, format="png", ppi=_DOTS_AN_INCH)
        (folder / name).write_bytes(pages[number])


def main(arguments: list[str]) -> None:
    """Draw into the folder that is named, or into the one that the pages show."""
    draw(Path(arguments[0]) if arguments else DOCS / "pictures")


if __name__ == "__main__":
    main(sys.argv[1:])

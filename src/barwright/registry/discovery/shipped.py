"""What the wheel carries of the project's other folders, as data: demo packs and pages.

There is one copy of each.  An installation that can be edited reads it where it is.
"""

from __future__ import annotations

from pathlib import Path

from barwright.registry.files.snapshot import HEADER

__all__ = ["WAYS_TO_DATA", "carried_page", "demo_folders"]

_PACKAGE = Path(__file__).parents[2]
_PROJECT = _PACKAGE.parents[1]

WAYS_TO_DATA = (
    "install a pack, write one (barwright new-pack), name the folder of a pack (--pack, "
    "Registry.from_folders), or try the invented demo data (--demo, Registry.demo)"
)
"""What to do where no pack is installed."""


def demo_folders() -> tuple[Path, ...]:
    """List the folders of the demo packs, whose vehicles are all invented.

    Returns
    -------
    tuple of Path
    """
    headers = sorted(_PACKAGE.glob(f"demo/*/{HEADER}"))
    headers = headers or sorted(_PROJECT.glob(f"plugins/*/src/*/{HEADER}"))
    return tuple(header.parent for header in headers)


def carried_page(name: str) -> str:
    """Return a page of the documentation.

    Parameters
    ----------
    name : str
        Name of the file.

    Returns
    -------
    str
        Its text, in Markdown.
    """
    page = _PACKAGE / "pages" / name
    return (page if page.is_file() else _PROJECT / "docs" / name).read_text(encoding="utf-8")

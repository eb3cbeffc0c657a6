"""What a terminal shows, as text."""

from __future__ import annotations

import io

from rich.console import Console, RenderableType

__all__ = ["folded", "printed"]


def printed(renderable: RenderableType) -> str:
    """Print to a terminal that is 110 wide."""
    out = io.StringIO()
    Console(file=out, width=110, highlight=False, markup=False).print(renderable, crop=False)
    return out.getvalue()


def folded(renderable: RenderableType) -> str:
    """Text without the line breaks of its layout."""
    return " ".join(printed(renderable).split())

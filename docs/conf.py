"""Settings of the pages' build: ``sphinx-build -W docs build/docs``.

The build draws every figure anew before it reads the pages.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sphinx.application import Sphinx

sys.path.insert(0, str(Path(__file__).parent))

project = "barwright"
extensions = [
    "myst_parser",
    "sphinx.ext.autodoc",
    "sphinx.ext.mathjax",
    "sphinx.ext.napoleon",
]
root_doc = "README"
html_theme = "alabaster"
myst_heading_anchors = 3
napoleon_google_docstring = False
autodoc_member_order = "bysource"
autodoc_typehints = "none"
autodoc_default_options = {"members": True, "show-inheritance": False}
# The index is a list that reads well as plain text too, not a table of contents.
suppress_warnings = ["toc.not_included"]


def draw(_: Sphinx) -> None:
    """Draw the figures into the folders that the pages show them from."""
    import figures  # noqa: PLC0415 - beside this file, which is on the path by now
    import kernel_figures  # noqa: PLC0415

    figures.draw(Path(__file__).parent / "figures")
    kernel_figures.draw(Path(__file__).parent / "kernels")


def setup(app: Sphinx) -> None:
    """Let the build begin with the drawings."""
    app.connect("builder-inited", draw)

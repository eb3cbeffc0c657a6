"""Settings of the site's build: ``sphinx-build -W docs build/docs``.

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
    "sphinx.ext.napoleon",
    "site_build.accessible",
    "site_build.mathml",
]
root_doc = "index"
html_theme = "furo"
html_title = "barwright"
html_static_path = ["site_build/static"]
html_css_files = ["site.css"]
html_copy_source = False
html_show_copyright = False
html_math_renderer = "mathml"
myst_heading_anchors = 3
napoleon_google_docstring = False
autodoc_member_order = "bysource"
autodoc_typehints = "none"
autodoc_default_options = {"members": True, "show-inheritance": False}


def draw(_: Sphinx) -> None:
    """Draw the figures into the folders that the pages show them from."""
    import figures  # noqa: PLC0415 - beside this file, which is on the path by now
    import kernel_figures  # noqa: PLC0415

    figures.draw(Path(__file__).parent / "figures")
    kernel_figures.draw(Path(__file__).parent / "kernels")


def setup(app: Sphinx) -> None:
    """Let the build begin with the drawings."""
    app.connect("builder-inited", draw)

"""Settings of the site's build: ``sphinx-build -W docs build/docs``.

The build draws every figure anew before it reads the pages.
"""

from __future__ import annotations

import gc
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sphinx.application import Sphinx

sys.path.insert(0, str(Path(__file__).parent))

# A build keeps nearly all that it makes. To look for garbage among it as often as elsewhere takes a
# third of the time.
gc.set_threshold(100_000, 50, 1000)

project = "barwright"
extensions = [
    "myst_parser",
    "sphinx.ext.autodoc",
    "sphinx.ext.napoleon",
    "site_build.accessible",
    "site_build.first_use",
    "site_build.listed",
    "site_build.mathml",
    "site_build.pictures_made",
    "site_build.printed",
]
root_doc = "index"
html_theme = "furo"
html_title = "barwright"
html_static_path = ["site_build/static"]
html_css_files = ["site.css"]
html_favicon = "site_build/static/icon.svg"
html_search_scorer = str(Path(__file__).parent / "site_build/static/scorer.js")
html_copy_source = False
html_show_copyright = False
html_math_renderer = "mathml"
myst_heading_anchors = 3
napoleon_google_docstring = False
autodoc_member_order = "bysource"
autodoc_typehints = "none"
autodoc_default_options = {"members": True}


def draw(_: Sphinx) -> None:
    """Draw the figures into the folders that the pages show them from."""
    import figures  # noqa: PLC0415 - beside this file, which is on the path by now
    import kernel_figures  # noqa: PLC0415

    figures.draw(Path(__file__).parent / "figures")
    kernel_figures.draw(Path(__file__).parent / "kernels")


def has_another_page(
    app: Sphinx,
    _of: str,
    _name: str,
    value: object,
    _skipped: bool,  # noqa: FBT001 - Sphinx's signature
    _options: object,
) -> bool | None:
    """Leave the errors that the package repeats to the page of their own module."""
    repeated = getattr(value, "__module__", "") == "barwright.errors"
    return True if repeated and app.env.docname == "api/barwright" else None


def without_type(
    _app: Sphinx, what: str, _name: str, _of: object, _options: object, lines: list[str]
) -> None:
    """Let no colon in the first line of an attribute's docstring be read as one behind its type."""
    if what in {"attribute", "data", "property"} and lines and ": " in lines[0]:
        before, _, after = lines[0].partition(": ")
        lines[:1] = [f"{before}:", after]


def setup(app: Sphinx) -> None:
    """Let the build begin with the drawings."""
    app.connect("autodoc-process-docstring", without_type, priority=1)
    app.connect("builder-inited", draw)
    app.connect("autodoc-skip-member", has_another_page)

"""A page of HTML that needs nothing beside it and runs nothing."""

from __future__ import annotations

from pathlib import Path

from barwright.errors import MissingExtraError
from barwright.first_use import FIRST_USE
from barwright.report.drawing.svg import data_uri
from barwright.report.page.content import SheetPage
from barwright.report.sheet.alternatives import ALTERNATIVES

__all__ = ["page_html"]


def page_html(page: SheetPage) -> str:
    """Write a page as HTML.

    Parameters
    ----------
    page : SheetPage
        The page.

    Returns
    -------
    str

    Raises
    ------
    MissingExtraError
        X101 if ``jinja2`` is not installed.
    """
    try:
        with FIRST_USE:
            import jinja2  # noqa: PLC0415 - an optional dependency, and slow to load
    except ModuleNotFoundError as error:
        raise MissingExtraError(
            "X101",
            value="jinja2",
            expected="the package that fills in a page",
            remedy="pip install 'barwright[report]'",
        ) from error
    templates = jinja2.Environment(
        loader=jinja2.FileSystemLoader(Path(__file__).parent),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    templates.filters["data_uri"] = data_uri
    return templates.get_template("sheet.html").render(page=page, alternatives=ALTERNATIVES)

"""A page of HTML that needs nothing beside it and runs nothing."""

from __future__ import annotations

from pathlib import Path

import attrs

from barwright.errors import MissingExtraError
from barwright.first_use import FIRST_USE
from barwright.report.drawing.svg import data_uri

__all__ = ["page_html"]


def page_html(page: attrs.AttrsInstance, template: str = "sheet.html") -> str:
    """Write a page as HTML.

    Parameters
    ----------
    page : SheetPage or MeasuringPage
        The page.
    template : str
        File that says where its texts stand.

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
    return templates.get_template(template).render(page=page)

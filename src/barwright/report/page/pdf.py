"""A page as a PDF."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import attrs

from barwright.errors import MissingExtraError
from barwright.first_use import FIRST_USE

__all__ = ["page_pdf", "typeset"]


def page_pdf(page: attrs.AttrsInstance, template: str = "sheet.typ") -> bytes:
    """Set a page on paper.

    Parameters
    ----------
    page : SheetPage or MeasuringPage
        The page.
    template : str
        File that says where its texts stand.

    Returns
    -------
    bytes
        The same for the same page: it holds no time, and no font of this machine.

    Raises
    ------
    MissingExtraError
        X101 if ``typst`` is not installed.
    """
    pdf: bytes = typeset(page, template, format="pdf")
    return pdf


def typeset(page: attrs.AttrsInstance, template: str = "sheet.typ", **form: Any) -> Any:  # noqa: ANN401 - a picture a page, or one file
    """Set a page in any form that the typesetter knows.

    Parameters
    ----------
    page : SheetPage or MeasuringPage
        The page.
    template : str
        File that says where its texts stand.
    **form
        Format and resolution, in the typesetter's words.

    Returns
    -------
    bytes or list of bytes
        A picture for each page, or one file.

    Raises
    ------
    MissingExtraError
        X101 if ``typst`` is not installed.
    """
    try:
        with FIRST_USE:
            import typst  # noqa: PLC0415 - an optional dependency, and only this needs it
    except ModuleNotFoundError as error:
        raise MissingExtraError(
            "X101",
            value="typst",
            expected="the package that sets a page",
            remedy="pip install 'barwright[report]'",
        ) from error
    # Whatever a pack or a job says is data here, and never part of the document's source.
    inputs = {"page": json.dumps(attrs.asdict(page))}
    source = b"".join(Path(__file__).with_name(n).read_bytes() for n in ("page.typ", template))
    return typst.compile(source, ignore_system_fonts=True, sys_inputs=inputs, **form)

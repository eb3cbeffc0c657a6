"""What the theme's pages lack for readers with a keyboard, with a phone, or who are read to."""

from __future__ import annotations

import re
from typing import Any

from docutils import nodes
from sphinx.application import Sphinx

__all__ = ["setup"]

_SCROLLED = re.compile(r'<(pre(?=><span>)|div(?= class="table-wrapper))')
_PICTURE = re.compile(r'(?<!">)<img [^>]*\bsrc="([^"]+)"[^>]*>')


def _reachable(
    _app: Sphinx, _page: str, _template: str, context: dict[str, Any], _tree: nodes.document | None
) -> None:
    """Let what scrolls be reached by key and pictures be opened, and say a caption's depth."""
    if "body" in context:
        body = _SCROLLED.sub(r'<\g<1> tabindex="0"', context["body"])
        context["body"] = _PICTURE.sub(r'<a class="picture" href="\1">\g<0></a>', body)
    if "furo_navigation_tree" in context:
        context["furo_navigation_tree"] = context["furo_navigation_tree"].replace(
            'role="heading"', 'role="heading" aria-level="2"'
        )


def setup(app: Sphinx) -> dict[str, bool]:
    """Change pages after the theme has filled them."""
    app.connect("html-page-context", _reachable, priority=900)
    return {"parallel_read_safe": True, "parallel_write_safe": True}

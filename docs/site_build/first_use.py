"""Links the first use of each term of the glossary on a page to the glossary."""

from __future__ import annotations

import re
from pathlib import Path

from docutils import nodes
from sphinx import addnodes
from sphinx.application import Sphinx

__all__ = ["setup", "terms"]

GLOSSARY = Path(__file__).parents[1] / "glossary.md"
_NOT_IN = ("glossary", "api/", "kernels/", "commands", "job-keys", "pack-keys")
_NOT_WITHIN = (
    nodes.reference,
    nodes.literal,
    nodes.literal_block,
    nodes.title,
    nodes.math,
    addnodes.pending_xref,
    addnodes.desc,
    addnodes.toctree,
)


def terms(glossary: str) -> list[str]:
    """Terms that link by themselves: all but those whose sense stands in brackets."""
    entries = re.search(r"^```\{glossary\}\n(.*?)^```$", glossary, re.MULTILINE | re.DOTALL)
    if entries is None:
        message = "no glossary on the page"
        raise ValueError(message)
    return [line for line in entries[1].splitlines() if re.fullmatch(r"\w[^(]*", line)]


def _pattern(term: str) -> str:
    """Match a term as it is used in a sentence: its plural, and the forms of a verb."""
    return rf"\b{re.escape(term)}(?:s|es|ed|ing)?\b"


def _link(app: Sphinx, page: nodes.document) -> None:
    docname = app.env.docname
    if docname.startswith(_NOT_IN):
        return
    unseen = sorted(terms(GLOSSARY.read_text(encoding="utf-8")), key=len, reverse=True)
    for text in list(page.findall(nodes.Text)):
        if any(isinstance(above, _NOT_WITHIN) for above in _ancestors(text)):
            continue
        text.parent.replace(text, _linked(text.astext(), unseen, docname))


def _ancestors(node: nodes.Node) -> list[nodes.Node]:
    found = []
    while node.parent is not None:
        node = node.parent
        found.append(node)
    return found


def _linked(text: str, unseen: list[str], docname: str) -> list[nodes.Node]:
    """Split a text at the terms that were not used before, and strike those off the list."""
    found = [
        (match.start(), -len(term), match.end(), term)
        for term in unseen
        if (match := re.search(_pattern(term), text, re.IGNORECASE))
    ]
    if not found:
        return [nodes.Text(text)]
    start, _, end, term = min(found)
    unseen.remove(term)
    link = addnodes.pending_xref(
        "",
        nodes.inline("", text[start:end], classes=["term"]),
        refdomain="std",
        reftype="term",
        reftarget=term,
        refdoc=docname,
        refexplicit=True,
        refwarn=True,
    )
    before = [nodes.Text(text[:start])] if start else []
    return [*before, link, *_linked(text[end:], unseen, docname)]


def setup(app: Sphinx) -> dict[str, bool]:
    """Link once a page is read."""
    app.connect("doctree-read", _link)
    return {"parallel_read_safe": True, "parallel_write_safe": True}

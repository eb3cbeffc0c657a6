"""The directive ``listed``: what a page lists is made of the program, and never written by hand."""

from __future__ import annotations

from docutils import nodes
from sphinx.application import Sphinx
from sphinx.util.docutils import SphinxDirective

from site_build import command_list, key_lists, question_list

__all__ = ["setup"]

_LISTS = {
    "commands": command_list.markdown,
    "questions": question_list.markdown,
    "job tables": key_lists.of_jobs,
    "pack tables": key_lists.of_packs,
    "overlay tables": key_lists.of_overlays,
}


class _Listed(SphinxDirective):
    """One of the lists by its name."""

    required_arguments = 1
    final_argument_whitespace = True

    def run(self) -> list[nodes.Node]:
        return self.parse_text_to_nodes(_LISTS[self.arguments[0]](), allow_section_headings=True)


def setup(app: Sphinx) -> dict[str, bool]:
    """Add the directive."""
    app.add_directive("listed", _Listed)
    return {"parallel_read_safe": True, "parallel_write_safe": True}

"""Formulas as MathML, which browsers draw themselves: no script, and nothing from elsewhere."""

from __future__ import annotations

from docutils import nodes
from docutils.utils.math.latex2mathml import tex2mathml
from sphinx.application import Sphinx
from sphinx.writers.html5 import HTML5Translator

__all__ = ["setup"]


def _markup(formula: str, *, as_block: bool) -> str:
    # The converter knows the degree by its command alone.
    return tex2mathml(" ".join(formula.split()).replace("°", r"^\circ"), as_block=as_block)


def _inline(writer: HTML5Translator, node: nodes.math) -> None:
    writer.body.append(_markup(node.astext(), as_block=False))
    raise nodes.SkipNode


def _block(writer: HTML5Translator, node: nodes.math_block) -> None:
    writer.body.append(f'<div class="formula">{_markup(node.astext(), as_block=True)}</div>\n')
    raise nodes.SkipNode


def setup(app: Sphinx) -> dict[str, bool]:
    """Name the renderer ``mathml``."""
    app.add_html_math_renderer("mathml", (_inline, None), (_block, None))
    return {"parallel_read_safe": True, "parallel_write_safe": True}

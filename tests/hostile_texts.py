"""Texts that some program would take for something else."""

from __future__ import annotations

from hypothesis import strategies as st

__all__ = ["ALL_AT_ONCE", "ANY_TEXT", "TEXTS"]

ALL_AT_ONCE = (
    "x\x1b[31m\x1b]0;title\x07\x9b2J\x00\t\r\x7f\u202egnp\u2066.\u200f\u061c\u2028\u2029\ufeff"
    "<script>alert(1)</script>&amp;\"'><!-- -- --> ]]> %0A%0D a:b,c "
    "`touch x` $(touch x) ${x} %s {0} [red]x[/red] :smile: \\u001b " + "w" * 3000
)
TEXTS = {
    "everything that steers": ALL_AT_ONCE,
    "a workflow command on a line of its own": "x\n::error file=a,line=1::x\r\n::stop-commands::y",
    "a formula": '=cmd|"/c calc"!A1',
    "only marks": "\x1b\x9b\u202e",
}
ANY_TEXT = st.text(st.characters(exclude_categories=()), max_size=40)

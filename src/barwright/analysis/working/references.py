"""Where an equation comes from: what the docstring of its kernel says."""

from __future__ import annotations

import inspect
import re

__all__ = ["reference_of"]

_SECTION = re.compile(
    r"^References\n-+\n(?P<text>.*?)(?=\n\n\S[^\n]*\n-+\n|\Z)", re.MULTILINE | re.DOTALL
)
_ROLE = re.compile(r":[\w:]+:`~?([^`]*)`")
_MARKS = re.compile(r"[*`]")


def reference_of(kernel: object) -> str:
    """Return the reference that a kernel's docstring gives for its equation.

    Parameters
    ----------
    kernel : object
        The function or class.

    Returns
    -------
    str
        One line without marks; empty where Python was started without docstrings.

    Examples
    --------
    >>> from barwright.mechanics.bar import torsion
    >>> reference_of(torsion.shear_stress)
    'T. A. Philpot, MecMovies, example M6.17'
    """
    section = _SECTION.search(inspect.cleandoc(kernel.__doc__ or ""))
    text = " ".join(section["text"].split()) if section else ""
    plain = _MARKS.sub("", _ROLE.sub(lambda role: role[1].rpartition(".")[2], text))
    return plain.removesuffix(".")

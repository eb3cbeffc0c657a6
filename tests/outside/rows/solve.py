"""Roots that mpmath finds by itself in 30 digits, and a published node of quadrature."""

from __future__ import annotations

import functools
from typing import Any

import mpmath
import numpy as np
from scipy.special import eval_legendre, roots_legendre

from barwright.mechanics.common.solve import first_root, rising_root
from validation import Kind, Row

_engine = functools.partial(Row, unit="", within=1e-14, kind=Kind.ENGINE)


def _less_its_cosine(x: Any) -> tuple[Any, Any]:
    return x - np.cos(x), 1.0 + np.sin(x)


def _contact(x: Any) -> tuple[Any, Any]:
    """A soft spring that meets one a thousand times as stiff, and a cubic one."""
    pressed = np.maximum(x - 0.2, 0.0)
    return x + x**3 + 1000.0 * pressed - 10.0, 1.0 + 3.0 * x**2 + 1000.0 * (pressed > 0.0)


def _beyond_contact() -> float:
    with mpmath.workdps(30):
        root = mpmath.findroot(lambda x: x + x**3 + 1000 * (x - mpmath.mpf(0.2)) - 10, 0.21)
    return float(root)


def _legendre(x: Any) -> tuple[Any, Any]:
    slope = 5.0 * (x * eval_legendre(5, x) - eval_legendre(4, x)) / np.minimum(x**2 - 1.0, -1e-9)
    return eval_legendre(5, x), slope


ROWS: list[Row] = [
    _engine(
        of="solve.rising_root",
        source="mpmath: root in 30 digits",
        kind=Kind.FORMULATED,
        given="x − cos x, from 0 to 1",
        expected=lambda: float(mpmath.findroot(lambda x: x - mpmath.cos(x), 0.7)),
        got=lambda: float(rising_root(_less_its_cosine, low=0.0, high=1.0)),
    ),
    _engine(
        of="solve.rising_root",
        source="mpmath: root in 30 digits",
        kind=Kind.FORMULATED,
        given="x + x³ with a spring of 1000 beyond 0.2, equal to 10; between −1 and 5",
        expected=_beyond_contact,
        got=lambda: float(rising_root(_contact, low=-1.0, high=5.0)),
    ),
    _engine(
        of="solve.first_root",
        source="SciPy: nodes of Gauss-Legendre quadrature",
        kind=Kind.FORMULATED,
        given="Legendre polynomial of degree 5, the first of its five roots",
        expected=lambda: float(roots_legendre(5)[0][0]),
        got=lambda: float(first_root(_legendre, low=-1.0, high=1.0)),
    ),
]

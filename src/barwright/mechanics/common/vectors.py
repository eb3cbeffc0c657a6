r"""Vectors in vehicle axes: the last axis of an array is x, y, z.

Shared by the kernels that leave the plane of a linkage, and public to nobody else.
The axes are those of ISO 8855: x forward, y left, z up; all axes of an array before
the last broadcast.  A turn by :math:`\vartheta` about a unit vector :math:`n` is
right-handed, keeps the part of :math:`v` along :math:`n` and turns the rest:

.. math:: v' = n (n \cdot v) + (v - n (n \cdot v)) \cos\vartheta
          + (n \times v) \sin\vartheta

which holds for any angle.  Assumed: that :math:`n` has the length 1.  Nothing is
checked here: what is zero, infinite or no number is refused where a vector comes in
(:func:`barwright.mechanics.common.bar_axes.bar_plane`).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["Direction", "Sign", "Vector"]

Vector: TypeAlias = NDArray[np.float64]
"""A vector in vehicle axes, or an array of them: the last axis is x, y, z."""

Direction: TypeAlias = Sequence[float] | Vector
"""What is taken for a direction: x, y, z of any length, or an array of such."""

Sign: TypeAlias = int | NDArray[np.float64]
"""+1 or -1, or an array of them."""


def vector(*parts: ArrayLike) -> Vector:
    """Vector of three parts that broadcast."""
    return np.stack(np.broadcast_arrays(*parts), axis=-1)


def times(number: ArrayLike, of: Vector) -> Vector:
    """Multiple of a vector."""
    result: Vector = np.asarray(number)[..., None] * of
    return result


def dot(one: Vector, other: Vector) -> Vector:
    """Scalar product."""
    result: Vector = np.asarray(np.sum(one * other, axis=-1))
    return result


def length(of: Vector) -> Vector:
    """Length of a vector."""
    # Squares of very long and very short vectors would leave the range of floats.
    result: Vector = np.hypot(np.hypot(of[..., 0], of[..., 1]), of[..., 2])
    return result


def cross(one: Vector, other: Vector) -> Vector:
    """Vector product, in a third of the time that NumPy's own takes for one vector."""
    x, y, z = one[..., 0], one[..., 1], one[..., 2]
    a, b, c = other[..., 0], other[..., 1], other[..., 2]
    product = np.empty(np.broadcast_shapes(one.shape, other.shape))
    product[..., 0] = y * c - z * b
    product[..., 1] = z * a - x * c
    product[..., 2] = x * b - y * a
    return product


def rotated(of: Vector, *, about: Vector, by: ArrayLike) -> Vector:
    """Vector after a right-handed turn about a unit vector."""
    along = times(dot(about, of), about)
    square = of - along
    return along + times(np.cos(by), square) + times(np.sin(by), cross(about, square))

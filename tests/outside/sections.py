"""Sections in torsion by finite elements, from Prandtl's stress function and from warping.

The shear modulus is left out: a field for a unit twist per length gives the torsion constant
as its torque.  Prandtl's function is none along the outer edge and has one value along a bore;
as many times the bore's area, and twice that, is torque too.  Lengths are in any one unit.
"""

from __future__ import annotations

import functools
import math
from typing import Any

import attrs
import numpy as np
import scipy.sparse
import scipy.sparse.linalg
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    ElementTriP2,
    FacetBasis,
    Functional,
    LinearForm,
    MeshQuad,
    MeshQuad2,
    MeshTri,
    condense,
    solve,
)
from skfem.helpers import dot, grad

__all__ = ["Bounds", "Ring", "ring", "torsion_constant"]

Array = NDArray[np.float64]

_SIDE = 0.010  # longest along the outline, over the root of the area
_RINGS = 16
_SAME = 1e-5  # between rays [rad]
_CLOSER = 0.75  # width of a ring over that of the one inside it


def _stiffness(u: Any, v: Any, _: Any) -> Any:
    return dot(grad(u), grad(v))


def _twice(v: Any, _: Any) -> Any:
    return 2.0 * v


def _rotation(v: Any, w: Any) -> Any:
    return w.x[1] * grad(v)[0] - w.x[0] * grad(v)[1]


def _polar(w: Any) -> Any:
    return w.x[0] ** 2 + w.x[1] ** 2


# -- A ring ------------------------------------------------------------------------------


@attrs.frozen
class Ring:
    """Torsion constant of a ring, and greatest stress for a unit torque."""

    torsion_constant: float
    stress: float


@functools.cache
def ring(*, diameter: float, bore: float, cells: int = 36) -> Ring:
    """Solve a quarter of a ring, its sides and unknowns quadratic.

    Nothing passes the two cuts, by symmetry.
    """
    flat = MeshQuad.init_tensor(
        np.linspace(0.0, math.pi / 2.0, cells + 1),
        np.linspace(bore / diameter, 1.0, cells // 2 + 1),
    )
    straight = MeshQuad2.from_mesh(flat)
    angle, share = straight.doflocs
    round_ = share * np.array([np.cos(angle), np.sin(angle)])
    mesh = MeshQuad2(doflocs=round_, t=straight.t)
    basis = Basis(mesh, ElementQuad2(), intorder=6)
    edge, inside = (
        basis.get_dofs(flat.facets_satisfying(lambda x, at=at: np.isclose(x[1], at))).flatten()
        for at in (1.0, bore / diameter)
    )
    stiffness = BilinearForm(_stiffness).assemble(basis)
    load = LinearForm(_twice).assemble(basis)
    tied = _tied(basis.N, none=edge, one=inside)
    hole = np.zeros(tied.shape[1])
    hole[-1] = 2.0 * math.pi * (bore / diameter) ** 2 / 4.0
    pull = tied.T @ load + hole
    field = scipy.sparse.linalg.spsolve((tied.T @ stiffness @ tied).tocsc(), pull)
    constant = 4.0 * float(pull @ field)
    outer = flat.facets_satisfying(lambda x: np.isclose(x[1], 1.0))
    slope = FacetBasis(mesh, ElementQuad2(), facets=outer).interpolate(tied @ field).grad
    stress = float(np.max(np.hypot(*slope))) / constant
    # The mesh has a radius of one.
    radius = diameter / 2.0
    return Ring(constant * radius**4, stress / radius**3)


def _tied(count: int, *, none: Array, one: Array) -> Any:
    """Unknowns out of free ones: none along one edge, a single one, the last, along another."""
    free = np.setdiff1d(np.arange(count), np.concatenate([none, one]))
    rows = np.concatenate([free, one])
    columns = np.concatenate([np.arange(free.size), np.full(one.size, free.size)])
    return scipy.sparse.csr_matrix(
        (np.ones(rows.size), (rows, columns)), shape=(count, free.size + 1)
    )


# -- Any section that all rays from its middle leave once ------------------------------------


@attrs.frozen
class Bounds:
    """Torsion constant of a section, from below and from above."""

    low: float
    high: float


def torsion_constant(outline: Polygon) -> Bounds:
    """From Prandtl's stress function, which bounds it below, and from warping, above."""
    basis = Basis(_fan(outline, longest=_SIDE * math.sqrt(outline.area)), ElementTriP2())
    stiffness = BilinearForm(_stiffness).assemble(basis)
    load, rotation = (LinearForm(form).assemble(basis) for form in (_twice, _rotation))
    stress = solve(*condense(stiffness, load, D=basis.get_dofs()))
    warping = solve(*condense(stiffness, rotation, D=np.array([0])))
    polar = Functional(_polar).assemble(basis)
    return Bounds(float(load @ stress), float(polar - rotation @ warping))


def _fan(outline: Polygon, *, longest: float) -> MeshTri:
    """Triangles between rays from the middle and rings that lie closer toward the outline."""
    corners = np.array(shapely.segmentize(outline, longest).exterior.coords)[:-1].T.copy()
    angles = np.arctan2(corners[1], corners[0])
    order = np.argsort(angles)
    # Two corners on all but one ray would leave a triangle without area between them.
    corners = corners[:, order[np.diff(angles[order], prepend=-np.inf) > _SAME]]
    widths = _CLOSER ** np.arange(_RINGS)
    shares = np.cumsum(widths) / np.sum(widths)
    places = np.concatenate(
        [
            np.zeros((2, 1)),
            *(share * corners for share in shares),
        ],
        axis=1,
    )
    rays = corners.shape[1]
    here = np.arange(rays)
    beside = (here + 1) % rays
    cells = [np.array([0 * here, 1 + here, 1 + beside])]
    for number in range(_RINGS - 1):
        inner, outer = 1 + number * rays, 1 + (number + 1) * rays
        cells += [
            np.array([inner + here, outer + here, outer + beside]),
            np.array([inner + here, outer + beside, inner + beside]),
        ]
    corners_of_cells = np.ascontiguousarray(np.concatenate(cells, axis=1))
    return MeshTri(np.ascontiguousarray(places), corners_of_cells)

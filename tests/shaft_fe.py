r"""Twisted round shafts by finite elements: what plane sections do not see.

The circumferential displacement of a round shaft in torsion is
:math:`r\,\psi(x, r)`; with no load on its surface :math:`\psi` obeys
:math:`\nabla\cdot(r^3 \nabla\psi) = 0` and has no derivative across it.  Far from
any step the sections stay plane, so each end has one value of :math:`\psi`.  It is
solved with scikit-fem on quadrilaterals whose sides and unknowns are quadratic.
Torque comes from the energy, so that the twist is met from below; the stress along
the surface is :math:`G r\,\partial\psi/\partial s`.

The same shaft is solved a second time with another unknown, Michell's stress function
:math:`\phi`, whose slopes over :math:`r^2` are the stresses: it obeys
:math:`\nabla\cdot(r^{-3} \nabla\phi) = 0`, is none along the axis or the bore and has one value
along the surface, the torque over a whole turn.  It is :math:`r^4` times a smooth function,
for which it is solved; its energy meets the twist from above.

Run as a program, it fits what ``barwright.mechanics.bar.transitions`` knows of fillets,
and prints the coefficients with their scatter.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Sequence
from typing import Any

import attrs
import numpy as np
import scipy.integrate
from numpy.typing import NDArray
from skfem import Basis, BilinearForm, ElementQuad2, FacetBasis, MeshQuad, MeshQuad2, condense
from skfem import solve as solve_linear
from skfem.helpers import dot, grad

__all__ = ["Fillet", "Twisted", "coned_shaft", "filleted_shaft", "stressed_shaft"]

Array = NDArray[np.float64]

# A disturbance fades along a plain shaft with exp(-5.136 x/R), 5.136 being the first
# zero of the Bessel function J2: over three radii to 2e-7.
_PLAIN = 1.5  # plain shaft beyond a step, in diameters
_GROWTH = 1.25  # of each cell over the one before it, away from a step
_LARGEST = 0.08  # of a cell, in diameters of the body


@attrs.frozen(kw_only=True)
class Twisted:
    """What the field of a twisted shaft gives.

    Parameters
    ----------
    equivalent_length : float
        Length of the body that twists as much as all that is not plain [m].
    peak : float
        Greatest stress along the fillet, by that of the plain body's surface.
    """

    equivalent_length: float
    peak: float


@attrs.frozen(kw_only=True)
class Fillet:
    """Circular fillet between a plain body and a plain head, with a bore right through.

    Parameters
    ----------
    diameter, head_diameter, radius, bore : float
        Of body, head, fillet and bore [m].
    """

    diameter: float
    head_diameter: float
    radius: float
    bore: float = 0.0

    @property
    def angle(self) -> float:
        """Angle that the arc runs through."""
        step = (self.head_diameter - self.diameter) / 2.0
        return math.acos(max(0.0, 1.0 - step / self.radius))

    @property
    def length(self) -> float:
        """Axial length of the arc."""
        return self.radius * math.sin(self.angle)

    @property
    def face(self) -> float:
        """Radial width of the shoulder's face; 0 where the arc reaches the head."""
        rest = self.head_diameter / 2.0 - self.arc(1.0)[1]
        return float(rest) if rest > 1e-9 * self.diameter else 0.0

    def arc(self, share: Array | float) -> Array:
        """Points after a share of the arc: along from its beginning, out from the axis."""
        angle = self.angle * np.asarray(share)
        out = self.diameter / 2.0 + self.radius * (1.0 - np.cos(angle))
        return np.array([self.radius * np.sin(angle), out])


def filleted_shaft(fillet: Fillet, *, cells: int = 24) -> Twisted:
    """Twist a body with a fillet and a head, by the displacement around the axis."""
    flat = _sheet(fillet, cells)
    surface = flat.facets_satisfying(lambda x: np.isclose(x[1], 1.0) & (abs(x[0] - 0.5) < 0.5))
    torque, stress = _solved(flat, lambda at: _bent(fillet, *at), watched=surface)
    return _twisted(fillet, flexibility=1.0 / torque, stress=stress / torque)


def stressed_shaft(fillet: Fillet, *, cells: int = 24) -> Twisted:
    """Twist the same by the stress function; nothing of the displacement is known here."""
    flat = _sheet(fillet, cells)
    last = flat.p[0].max()
    mesh = _curved(flat, lambda at: _bent(fillet, *at))
    basis = Basis(mesh, ElementQuad2(), intorder=8)
    stiffness = BilinearForm(_complementary).assemble(basis)
    outside = basis.get_dofs(
        flat.facets_satisfying(lambda x: np.isclose(x[1], 1.0) | np.isclose(x[0], last))
    ).flatten()
    inside = basis.get_dofs(
        flat.facets_satisfying(
            lambda x: (
                (np.isclose(x[1], 0.0) & (x[0] < 0.5)) | (np.isclose(x[0], 0.5) & (x[1] < 0.0))
            )
        )
    ).flatten()
    field = basis.zeros()
    field[outside] = basis.doflocs[1][outside] ** -4.0
    held = np.union1d(outside, inside) if fillet.bore else outside
    field = solve_linear(*condense(stiffness, x=field, D=held))
    turn = 2.0 * math.pi
    arc = flat.facets_satisfying(lambda x: np.isclose(x[1], 1.0) & (abs(x[0] - 0.5) < 0.5))
    stress = _greatest(FacetBasis(mesh, ElementQuad2(), facets=arc, intorder=3), field)
    return _twisted(
        fillet, flexibility=float(field @ (stiffness @ field)) / turn, stress=stress / turn
    )


def _twisted(fillet: Fillet, *, flexibility: float, stress: float) -> Twisted:
    """What twist and greatest stress for a unit torque come to, over shear modulus the first."""
    d, head = fillet.diameter, fillet.head_diameter
    polar = _polar(d, fillet.bore)
    plain = _PLAIN * d + (_line(fillet) - fillet.length + _PLAIN * head) * (
        polar / _polar(head, fillet.bore)
    )
    return Twisted(equivalent_length=polar * flexibility - plain, peak=stress / (d / (2.0 * polar)))


def _sheet(fillet: Fillet, cells: int) -> Any:
    """Rectangles that are bent over the section.

    The mesh is a sheet of rectangles in two coordinates, bent over the section.
    Along the first: the body below 0, the arc from 0 to 1, and beyond it the face of
    the shoulder.  Along the second: the surface at 1, what faces it at 0, which is
    the axis and a line across the head, and below 0 the head beyond that line.
    """
    d, head = fillet.diameter, fillet.head_diameter
    cell = fillet.angle * fillet.radius / cells
    along = [_graded(cell, _PLAIN * d), _even(cells)]
    if fillet.face:
        along.append(_graded(cell, fillet.face))
    across = [_graded(_LARGEST * d, _PLAIN * head), 1.0 - _graded(cell, d / 2.0)[::-1]]
    flat = MeshQuad.init_tensor(
        _joined(-along[0][::-1], *(n + piece for n, piece in enumerate(along[1:]))),
        _joined(-across[0][::-1], across[1]),
    )
    middle = flat.p[:, flat.t].mean(axis=1)
    return flat.restrict(np.flatnonzero((middle[1] > 0.0) | (middle[0] > 0.5)))


def _line(fillet: Fillet) -> float:
    """Place of the line across the head, from where the fillet begins."""
    return fillet.length + fillet.diameter / 4.0


def _bent(fillet: Fillet, along: Array, across: Array) -> Array:
    """Points of the section, along and out, that belong to points of the flat sheet."""
    arc = fillet.arc(np.clip(along, 0.0, 1.0))
    first, second = np.clip(2.0 * along, 0.0, 1.0), np.clip(2.0 * along - 1.0, 0.0, 1.0)
    bore = fillet.bore / 2.0
    facing = np.array([first * _line(fillet), bore + second * (fillet.arc(1.0)[1] - bore)])
    share = np.clip(across, 0.0, 1.0)
    bent = facing * (1.0 - share) + arc * share
    bent[0] += np.minimum(along, 0.0) * _PLAIN * fillet.diameter
    bent[0] -= np.minimum(across, 0.0) * _PLAIN * fillet.head_diameter
    bent[1] += np.maximum(along - 1.0, 0.0) * fillet.face
    return bent


def coned_shaft(
    *, lengths: Sequence[float], diameters: Sequence[float], bore: float = 0.0, cells: int = 12
) -> float:
    """Equivalent length of cylinders and cones, end to end, in sections of the first [m].

    Parameters
    ----------
    lengths : sequence of float
        Of the pieces [m]; the first and the last are cylinders, long ones.
    diameters : sequence of float
        At the ends of the pieces, one more than these [m].
    bore : float
        Right through [m].
    cells : int
        Cells across the wall.
    """
    ends = np.cumsum([0.0, *lengths])
    size = min(diameters) / cells / 2.0
    pieces = [_even(max(4, math.ceil(length / size))) * length for length in lengths]
    flat = MeshQuad.init_tensor(
        _joined(*(end + piece for end, piece in zip(ends[:-1], pieces, strict=True))), _even(cells)
    )

    def bend(at: Array) -> Array:
        out = np.interp(at[0], ends, diameters) / 2.0
        return np.array([at[0], bore / 2.0 + at[1] * (out - bore / 2.0)])

    surface = flat.facets_satisfying(lambda x: np.isclose(x[1], 1.0))
    torque, _ = _solved(flat, bend, watched=surface)
    return _polar(diameters[0], bore) / torque


def _polar(diameter: float, bore: float) -> float:
    return math.pi * (diameter**4 - bore**4) / 32.0


def _even(cells: int) -> Array:
    return np.linspace(0.0, 1.0, cells + 1)


def _graded(first: float, total: float) -> Array:
    """Places from 0 to 1 whose steps grow from a first one, on a way of some length."""
    count = max(2, math.ceil(math.log1p(total / first * (_GROWTH - 1.0)) / math.log(_GROWTH)))
    places = np.cumsum([0.0, *(_GROWTH ** np.arange(count))])
    return np.asarray(places / places[-1])


def _joined(*pieces: Array) -> Array:
    """One row of places out of several that meet."""
    return np.concatenate([pieces[0], *(piece[1:] for piece in pieces[1:])])


def _solved(flat: Any, bend: Callable[[Array], Array], *, watched: Array) -> tuple[float, float]:
    """Torque for a unit twist, and greatest stress on a surface, both over shear modulus."""
    mesh = _curved(flat, bend)
    basis = Basis(mesh, ElementQuad2(), intorder=6)
    stiffness = BilinearForm(_energy).assemble(basis)
    held, turned = (basis.get_dofs(_at(edge(mesh.doflocs[0]))) for edge in (np.min, np.max))
    field = basis.zeros()
    field[turned] = 1.0
    inner = basis.complement_dofs(held, turned)
    field = solve_linear(*condense(stiffness, x=field, I=inner))
    torque = 2.0 * math.pi * float(field @ (stiffness @ field))
    return torque, _peak(FacetBasis(mesh, ElementQuad2(), facets=watched, intorder=3), field)


def _curved(flat: Any, bend: Callable[[Array], Array]) -> MeshQuad2:
    """Mesh of a flat one whose sides are bent."""
    straight = MeshQuad2.from_mesh(flat)
    return MeshQuad2(doflocs=bend(straight.doflocs), t=straight.t)


def _complementary(trial: Any, test: Any, at: Any) -> Any:
    """Energy of the stresses that r⁴ times an unknown leave."""
    r, (_, up), (_, test_up) = at.x[1], grad(trial), grad(test)
    return (
        r**5 * dot(grad(trial), grad(test))
        + 4.0 * r**4 * (trial * test_up + test * up)
        + 16.0 * r**3 * trial * test
    )


def _greatest(surface: Any, field: Array) -> float:
    """Greatest stress along the surface, of a stress function over r⁴."""
    function = surface.interpolate(field)
    slope, r = function.grad, surface.global_coordinates()[1]
    out = r**2 * slope[1] + 4.0 * r * np.asarray(function)
    return float(np.max(np.hypot(r**2 * slope[0], out)))


def _energy(trial: Any, test: Any, at: Any) -> Any:
    return at.x[1] ** 3 * dot(grad(trial), grad(test))


def _at(place: float) -> Callable[[Array], NDArray[np.bool_]]:
    return lambda x: np.isclose(x[0], place)


def _peak(surface: Any, field: Array) -> float:
    """Greatest stress along the surface, over shear modulus."""
    slope, outward = surface.interpolate(field).grad, surface.normals
    along = slope[0] * outward[1] - slope[1] * outward[0]
    return float(np.max(np.abs(along) * surface.global_coordinates()[1]))


def _fit() -> None:
    """Print the coefficients of the two fitted surfaces, and how far off they are."""
    steps, radii = (_spread(low, high) for low, high in ((0.01, 0.5), (0.02, 2.0)))
    fillets = [
        Fillet(diameter=1.0, head_diameter=1.0 + 2.0 * step, radius=radius)
        for step in steps
        for radius in radii
    ]
    found = [filleted_shaft(fillet) for fillet in fillets]
    extra = [
        one.equivalent_length - _plane(fillet) for one, fillet in zip(found, fillets, strict=True)
    ]
    peak = np.array([one.peak for one in found])
    radius = np.array([fillet.radius for fillet in fillets])
    step = np.array([fillet.head_diameter - 1.0 for fillet in fillets]) / 2.0
    terms = np.polynomial.polynomial.polyvander2d(
        np.log10(radius / 0.2), np.log10(radius / step), [3, 3]
    )
    for name, target, weight in (
        ("extra length, in diameters", np.array(extra), np.array(extra)),
        ("stress concentration, over 1", peak - 1.0, (peak - 1.0) / peak),
    ):
        surface = np.linalg.lstsq(terms * weight[:, None], np.log(target) * weight, rcond=None)[0]
        surface = surface.round(5)
        off = (np.exp(terms @ surface) - target) * weight / target
        sys.stdout.write(
            f"{name}: off by {np.abs(off).max():.1e} at most, {off.std():.1e} root mean square\n"
            f"{np.array2string(surface.reshape(4, 4), separator=', ')}\n"
        )


def _spread(low: float, high: float, count: int = 22) -> Array:
    """Places from a low to a high limit, closer toward both, as in a Chebyshev grid."""
    share = (1.0 - np.cos(np.linspace(0.0, np.pi, count))) / 2.0
    return np.asarray(low * (high / low) ** share)


def _plane(fillet: Fillet) -> float:
    """Equivalent length of a solid fillet whose sections stay plane [m]."""

    def share(angle: float) -> float:
        out = fillet.diameter / 2.0 + fillet.radius * (1.0 - math.cos(angle))
        return (fillet.diameter / 2.0 / out) ** 4 * fillet.radius * math.cos(angle)

    return float(scipy.integrate.quad(share, 0.0, fillet.angle, epsabs=0.0, epsrel=1e-12)[0])


if __name__ == "__main__":
    _fit()

"""Splined ends of a bar as directions and outlines in space, for tests of clocking.

Teeth are directions that a library of rotations turns; keys and teeth are outlines that
a geometry library intersects.  Angles are in the bump sense about :data:`BUMP`.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation
from shapely import Polygon
from shapely.affinity import rotate

Floats = NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])


def about(axis: Floats, angle: float) -> Rotation:
    """Right-handed rotation about a unit vector."""
    return Rotation.from_rotvec(angle * axis)


def teeth_of(count: int) -> list[int]:
    """List the teeth of a circle, in (-N/2, N/2]."""
    return [tooth for tooth in range(-count, count + 1) if -count < 2 * tooth <= count]


def built_free_angle(
    *,
    heading: float,
    handed: int,
    lever: float,
    arm_key: float,
    anchor_key: float,
    blank: float,
    arm_turn: float = 0.0,
    anchor_turn: float = 0.0,
) -> float:
    """Angle of an arm whose bar stands with a tooth on each key, in (-π, π].

    Turns the bar so that its tooth lies on the anchor's key, reads where the tooth of the
    other end points, and swings the arm until its key is there.
    """
    arm = np.array([math.cos(heading), math.sin(heading), 0.0])
    bump = np.cross(arm, UP)
    key_in_anchor = about(bump, lever + anchor_key).apply(arm)
    anchor_blank = about(bump, -anchor_turn).apply(key_in_anchor)
    arm_blank = about(handed * bump, blank).apply(anchor_blank)
    key_in_arm = about(bump, arm_turn).apply(arm_blank)
    centreline = about(bump, -arm_key).apply(key_in_arm)
    return math.atan2(float(centreline @ UP), float(centreline @ arm))


def turn_of(arm_tooth: int, anchor_tooth: int, arm_teeth: int, anchor_teeth: int) -> float:
    """Turn of the arm that a pair of teeth makes, in [0, 2π), read from a turned direction."""
    return float(_turns_of([arm_tooth], [anchor_tooth], arm_teeth, anchor_teeth)[0])


def _turns_of(
    arm_tooth: Sequence[int], anchor_tooth: Sequence[int], arm_teeth: int, anchor_teeth: int
) -> Floats:
    axis = np.array([0.0, 0.0, 1.0])
    there = Rotation.from_rotvec(np.multiply.outer(arm_tooth, math.tau / arm_teeth * axis))
    back = Rotation.from_rotvec(np.multiply.outer(anchor_tooth, -math.tau / anchor_teeth * axis))
    pointing = (there * back).apply([1.0, 0.0, 0.0])
    # A hair below a whole turn is none.
    found: Floats = (np.arctan2(pointing[:, 1], pointing[:, 0]) + 1e-9) % math.tau - 1e-9
    return found


@functools.cache
def all_turns(arm_teeth: int, anchor_teeth: int) -> Mapping[tuple[int, int], float]:
    """Turn of every pair of teeth."""
    pairs = list(itertools.product(teeth_of(arm_teeth), teeth_of(anchor_teeth)))
    arm, anchor = zip(*pairs, strict=True)
    turns = _turns_of(arm, anchor, arm_teeth, anchor_teeth).tolist()
    return MappingProxyType(dict(zip(pairs, turns, strict=True)))


def seen_turning(*, heading: float, handed: int, from_arm_end: bool) -> float:
    """Signed area that a bump sweeps on the paper of a viewer; positive counter-clockwise."""
    arm = np.array([math.cos(heading), math.sin(heading), 0.0])
    bump = np.cross(arm, UP)
    sight = (-1.0 if from_arm_end else 1.0) * handed * bump
    to_the_right = np.cross(sight, UP)
    raised = about(bump, 0.1).apply(arm)
    before, after = ((v @ to_the_right, v @ UP) for v in (arm, raised))
    return float(before[0] * after[1] - before[1] * after[0])


# -- Outlines ---------------------------------------------------------------------------


def _tooth(count: int, number: int) -> Any:
    """Outline of a tooth that is half a pitch wide."""
    half = math.pi / count / 2.0
    corners = [(r * math.cos(a), r * math.sin(a)) for r in (9.0, 10.0) for a in (-half, half)]
    outline = Polygon([corners[0], corners[2], corners[3], corners[1]])
    return rotate(outline, 360.0 * number / count, origin=(0.0, 0.0))


def teeth_under_key(count: int, missing: set[int], on_key: int) -> int:
    """How many teeth of a bar end meet the key when a tooth's place is turned to it."""
    key = _tooth(count, 0)
    standing: Iterator[int] = (m for m in range(count) if m not in {b % count for b in missing})
    turned = (
        rotate(_tooth(count, m), -360.0 * on_key / count, origin=(0.0, 0.0)) for m in standing
    )
    return sum(outline.intersection(key).area > 1e-6 for outline in turned)

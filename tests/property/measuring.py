"""Measuring on solids: the volume missing about a joint, and how far apart facing surfaces lie.

Surfaces are found in the mesh of the placed parts, by their normals; nothing is read from cuts or joints.
"""

import math
from dataclasses import dataclass
from functools import cached_property

import manifold3d as m3
import numpy as np

from dryfit.geometry.solids import placed, solid_of
from dryfit.keeping import Keep
from dryfit.piece.parts import stock_of

SAME_DIRECTION = 1e-7
SAME_PLANE = 1e-4
REACH = 2.8  # surfaces further apart than this do not belong together: housings are deeper
LEAST_AREA = 1.0  # mm2 that two surfaces must share, seen along their normal


@dataclass(frozen=True)
class Plane:
    """All triangles of a solid in one plane; `offset` along the unit `normal`, which points out of the solid."""

    normal: np.ndarray
    offset: float
    corners: np.ndarray

    @cached_property
    def size(self):
        return np.linalg.norm(np.ptp(self.corners.reshape(-1, 3), axis=0))


@dataclass(frozen=True)
class Facing:
    """Two surfaces that face each other: the first one's normal, and the distance along it to the other."""

    normal: np.ndarray
    gap: float
    area: float


def blank_of(part, keep=None):
    """The uncut board from long point to long point, where it stands."""
    return placed(solid_of(stock_of(part), (), keep or Keep()), part.board.frame)


def box_about(point, reach):
    """A cube about a place of the elevation, as deep as any board."""
    x, y = point
    return m3.Manifold.cube((2 * reach, 2 * reach, 4000.0), False).translate((x - reach, y - reach, -1000.0))


def missing(parts, solids, box):
    """Volume within the box that two uncut boards fill and the parts do not.

    By volumes of unions, not by a difference of solids: the kernel may lose a lump where bodies that share
    faces to the last bits are first joined and then subtracted.
    """
    uncut = [blank_of(part) ^ box for part in parts]
    cut = [solids.placed(part) ^ box for part in parts]
    return _of_both(*uncut) - _of_both(*cut)


def _of_both(one, other):
    """Volume of the union of two solids."""
    return float(one.volume() + other.volume() - (one ^ other).volume())


def planes(solid):
    """The planes of a solid's surface, slivers left out."""
    mesh = solid.to_mesh64()
    corners = mesh.vert_properties[:, :3][mesh.tri_verts]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    sizes = np.linalg.norm(normals, axis=1)
    keep = sizes > 1e-3
    corners, normals = corners[keep], normals[keep] / sizes[keep, None]
    offsets = np.einsum("ij,ij->i", normals, corners[:, 0])
    left, found = np.argsort(-sizes[keep]), []
    while len(left):
        normal, offset = normals[left[0]], offsets[left[0]]
        same = (normals[left] @ normal > 1 - SAME_DIRECTION) & (abs(offsets[left] - offset) < SAME_PLANE)
        found.append(Plane(normal, float(offset), corners[left[same]]))
        left = left[~same]
    return found


def facing(one, other):
    """Every facing pair of surfaces of two placed solids, nearer than `REACH`."""
    mine, theirs = planes(one), planes(other)
    against = np.array([plane.normal for plane in mine]) @ np.array([plane.normal for plane in theirs]).T
    pairs = []
    for i, j in np.argwhere(against < -1 + SAME_DIRECTION):
        gap = _distance(mine[i], theirs[j])
        if -0.5 < gap < REACH:
            shared = _shared(mine[i], theirs[j])
            if shared > LEAST_AREA:
                pairs.append(Facing(mine[i].normal, gap, shared))
    return pairs


def _distance(one, other):
    """From the middle of the smaller surface, square to the larger, whose direction is the surer one."""
    large, small = sorted((one, other), key=lambda plane: -plane.size)
    return float(large.normal @ small.corners.mean(axis=(0, 1)) - large.offset)


def _shared(one, other):
    """Area that two surfaces share, seen along the normal."""
    aside = np.array((1.0, 0.0, 0.0)) if abs(one.normal[0]) < 0.9 else np.array((0.0, 1.0, 0.0))
    u = np.cross(one.normal, aside)
    u /= np.linalg.norm(u)
    basis = np.stack([u, np.cross(one.normal, u)], axis=1)
    mine, theirs = (
        m3.CrossSection([triangle @ basis for triangle in plane.corners], m3.FillRule.NonZero) for plane in (one, other)
    )
    return float((mine ^ theirs).area())


def turned(heading, direction):
    """Unit vector in the elevation."""
    angle = math.radians(heading + direction)
    return np.array((math.cos(angle), math.sin(angle), 0.0))

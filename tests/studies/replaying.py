"""A plan done again on the solids, apart from the planner: in small steps, nothing may overlap.

The solids come from manifold, the planner works on its own convex pieces. A lump that two solids share counts
by its thinnest width over the boards' own axes, as in the clash check: 0.02 is contact. What two faces at an angle
share through the kernel's last digits is a sheet: wide over every axis, but of next to no volume for its surface
(a cube of side s has 6 V / S = s, a sheet of thickness t about 3 t).
"""

import math
from itertools import pairwise

import manifold3d as m3
import numpy as np

from dryfit.piece.clash import DEEPEST
from dryfit.piece.solids import Solids

STEPS = 16  # a leg
AWAY = 500.0  # mm further out than the plan says: it says that the way goes on for ever
NOISE = 1e-3  # of the kernel, in mm


def replayed(piece, order, solids=None):
    """Do every stage of a plan; return the problems met, in words."""
    solids = solids or Solids()
    placed = {part.id: solids.placed(part) for part in piece.parts}
    axes = {part.id: (part.board.frame.x, part.board.frame.y, part.board.frame.z) for part in piece.parts}
    found = []
    for stage in order.stages:
        for step in stage.steps:
            found += _step(step, placed, axes)
    return found


def _step(step, placed, axes):
    for offset in path(step.legs):
        for part in step.parts:
            moved = placed[part].translate(offset)
            for other in step.onto:
                deep = shared(moved, placed[other], (*axes[part], *axes[other]))
                if deep > DEEPEST + NOISE:
                    return [f"{step.name}: {part} cuts {deep:.3f} into {other} at {tuple(round(x, 2) for x in offset)}"]
    return []


def path(legs):
    """Offsets from far away to the end, leg by leg."""
    stops = [(0.0, 0.0, 0.0)]
    for leg in reversed(legs):
        stops.append(tuple(at - way * leg.distance for at, way in zip(stops[-1], leg.direction, strict=True)))
    if legs:
        stops.append(tuple(at - way * AWAY for at, way in zip(stops[-1], legs[0].direction, strict=True)))
    stops.reverse()
    for start, end in pairwise(stops):
        for number in range(STEPS):
            share = number / STEPS
            yield tuple(a + (b - a) * share for a, b in zip(start, end, strict=True))
    yield stops[-1]


def shared(one, other, axes):
    """How deep two solids overlap: the widest lump's thinnest width over these axes."""
    if not _boxes_meet(one.bounding_box(), other.bounding_box()):
        return 0.0
    common = one ^ other
    if common.is_empty() or common.volume() <= 1e-9:
        return 0.0
    ways = np.asarray(axes).T
    deepest = 0.0
    for lump in common.decompose():
        along = lump.to_mesh64().vert_properties[:, :3] @ ways
        width = float((along.max(axis=0) - along.min(axis=0)).min())
        deepest = max(deepest, min(width, 6 * lump.volume() / lump.surface_area()))
    return deepest


def _boxes_meet(one, other):
    return all(one[k] < other[k + 3] and other[k] < one[k + 3] for k in range(3))


def stuck(piece, names, solids=None, reach=4.0):
    """Whether no subset of these parts can be moved by `reach`, in any of many directions: found by moving solids.

    Directions: the axes of every board, those between them, and a fan in the elevation.
    """
    solids = solids or Solids()
    parts = [piece.part_by_name[name] for name in names]
    placed = {part.id: solids.placed(part) for part in parts}
    axes = {part.id: (part.board.frame.x, part.board.frame.y, part.board.frame.z) for part in parts}
    ways = [axis for part in parts for axis in axes[part.id]]
    ways += [(math.cos(math.radians(a)), math.sin(math.radians(a)), 0.0) for a in range(0, 360, 15)]
    ways += [(0.0, 0.0, 1.0)]
    ways += [tuple(-x for x in way) for way in ways]
    first, *others = names
    for mask in range(2 ** len(others) - 1):
        moving = {first, *(name for bit, name in enumerate(others) if mask >> bit & 1)}
        if any(_free(moving, placed, axes, tuple(reach * x for x in way)) for way in ways):
            return False
    return True


def _free(moving, placed, axes, offset):
    for share in (0.25, 0.5, 0.75, 1.0):
        here = tuple(share * x for x in offset)
        for one in moving:
            body = placed[one].translate(here)
            for other in placed.keys() - moving:
                if shared(body, placed[other], (*axes[one], *axes[other])) > DEEPEST + NOISE:
                    return False
    return True


def box(low, high):
    """A plain solid, for tests of these checks themselves."""
    size = tuple(b - a for a, b in zip(low, high, strict=True))
    return m3.Manifold.cube(size, False).translate(low)


# ---- on the wall

AXIS_OF = {"wall": (2, -1), "floor": (1, -1), "ceiling": (1, 1), "left wall": (0, -1), "right wall": (0, 1)}


def put_up(piece, wall, solids=None):
    """Do every step on the wall; return the problems met, in words: with other parts, and with the room."""
    solids = solids or Solids()
    placed = {part.id: solids.placed(part) for part in piece.parts}
    axes = {part.id: (part.board.frame.x, part.board.frame.y, part.board.frame.z) for part in piece.parts}
    found = []
    for one in wall.steps:
        found += _step(one.step, placed, axes)
        if one.on_wall:
            found += _in_the_room(one.step, wall.room, placed)
    return found


def _in_the_room(step, room, placed):
    """Problems with the room: nothing goes further into a bound than it stands when it is home (or than contact)."""
    boxes = [placed[part].bounding_box() for part in step.parts]
    for offset in path(step.legs):
        for bound, place in room:
            axis, sign = AXIS_OF[bound]
            ends = [box[axis] if sign < 0 else box[axis + 3] for box in boxes]
            home = max(sign * (end - place) for end in ends)
            over = max(sign * (end + offset[axis] - place) for end in ends)
            if over > max(home, 0.0) + DEEPEST + NOISE:
                return [f"{step.name}: {over:.3f} into the {bound}"]
    return []


def put_up_once(wall):
    """Assert that every body goes up once, and that at each step just what went up before stands there."""
    there, beside = set(), []
    for one in wall.steps:
        if one.on_wall:
            assert set(one.step.onto) == there
            assert not there & set(one.step.parts)
            there |= set(one.step.parts)
        else:
            beside.append(one)
    assert there == {name for body in wall.bodies for name in body}
    assert all(set(one.step.parts) | set(one.step.onto) <= there for one in beside)

"""The model lifted off the drawing: each part's mesh in its board's own frame, triangles by the cut they face.

A part's mesh is named by the hash of what it is made from, so a board that only moved is sent as its place
alone. Triangles come in runs, each run the faces of one cut, so that a face that is pointed at can be named.
The kernel remembers of every triangle which body it came from; here each cut's tools are bodies of their own.
"""

import hashlib
import struct
from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import Any

import manifold3d as m3
import numpy as np
from numpy.typing import NDArray
from pydantic import TypeAdapter

from ..geometry.frames import Frame
from ..geometry.shapes import OVER, HalfSpace
from ..geometry.solids import RoughBoard, body_of, solid_of
from ..keeping import Keep, Same
from ..piece.model import DATUM_END, FAR_END, Part, Piece
from ..piece.parts import stock_of
from .answers import ModelHead, ModelPart

_HEAD = TypeAdapter(ModelHead)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mesh:
    """One part: vertices `(n, 3)` float32 in the board's frame, triangles `(m, 3)` uint32, runs of triangles."""

    key: str
    vertices: NDArray[np.float32]
    triangles: NDArray[np.uint32]
    runs: tuple[tuple[int, int, str], ...]
    size: tuple[float, float, float]


def model(piece: Piece, revision: int, have: Collection[str], keep: Keep) -> bytes:
    """The whole model as one answer; meshes whose key the page has are left out."""
    known = frozenset(have)
    parts: list[ModelPart] = []
    buffers: list[bytes] = []
    at = 0
    for part in piece.parts:
        mesh = _kept(part, keep)
        shown = _placed(part, mesh)
        if mesh.key not in known:
            vertices, triangles = mesh.vertices.tobytes(), mesh.triangles.tobytes()
            shown = replace(
                shown,
                vertices=(at, len(mesh.vertices)),
                triangles=(at + len(vertices), len(mesh.triangles)),
                runs=mesh.runs,
            )
            buffers += [vertices, triangles]
            at += len(vertices) + len(triangles)
        parts.append(shown)
    head = _HEAD.dump_json(ModelHead(revision=revision, parts=tuple(parts)))
    head += b" " * (-len(head) % 4)  # so that the buffers begin on a multiple of four
    return struct.pack("<I", len(head)) + head + b"".join(buffers)


def _kept(part: Part, keep: Keep) -> Mesh:
    return keep.get("mesh shown", Same(part), lambda: _mesh(part, keep))


def _placed(part: Part, mesh: Mesh) -> ModelPart:
    frame = part.board.frame
    return ModelPart(
        board=part.id,
        key=mesh.key,
        matrix=_columns(frame),
        grain=frame.x,
        size=mesh.size,
        vertices=None,
        triangles=None,
        runs=None,
    )


def _columns(frame: Frame) -> tuple[float, ...]:
    x, y, z, o = frame.x, frame.y, frame.z, frame.origin
    return (*x, 0.0, *y, 0.0, *z, 0.0, *o, 1.0)


def _mesh(part: Part, keep: Keep) -> Mesh:
    """A part's mesh, its cuts made one after the other so that each is remembered."""
    solid, names = _with_names(part, keep)
    found = solid.to_mesh()
    vertices = np.ascontiguousarray(found.vert_properties[:, :3], dtype=np.float32)
    triangles = np.ascontiguousarray(found.tri_verts, dtype=np.uint32)
    low, high = (vertices.min(axis=0), vertices.max(axis=0)) if len(vertices) else (np.zeros(3), np.zeros(3))
    size = tuple(round(float(value), 3) for value in high - low)
    runs = _runs(list(found.run_index), list(found.run_original_id), names)
    return Mesh(key=_key(part), vertices=vertices, triangles=triangles, runs=runs, size=(size[0], size[1], size[2]))


def _key(part: Part) -> str:
    """Hash of all the mesh is made from; the numbers in it are rounded already."""
    made_from = (stock_of(part), tuple((cut.key, cut.shapes) for cut in part.cuts))
    return hashlib.sha256(repr(made_from).encode()).hexdigest()[:20]


def _longer(part: Part) -> RoughBoard:
    """The part's stock a little past the ends that a cut makes, so that those faces are the cut's too."""
    stock = stock_of(part)
    made = {cut.end for cut in part.cuts if any(isinstance(shape, HalfSpace) for shape in cut.shapes)}
    low, high = part.long
    ends = {low: low - (OVER if DATUM_END in made else 0.0), high: high + (OVER if FAR_END in made else 0.0)}
    outline = tuple((ends.get(a, a), c) for a, c in stock.outline)
    return RoughBoard(outline=outline, depth=stock.depth)


def _runs(starts: list[int], ids: list[int], names: dict[int, str]) -> tuple[tuple[int, int, str], ...]:
    """Runs of triangles, neighbours of the same cut as one."""
    found: list[tuple[int, int, str]] = []
    for start, end, body in zip(starts, starts[1:], ids, strict=False):
        first, count, name = start // 3, (end - start) // 3, names.get(body, "")
        if not count:
            continue
        if found and found[-1][2] == name:
            found[-1] = (found[-1][0], found[-1][1] + count, name)
        else:
            found.append((first, count, name))
    return tuple(found)


def _with_names(part: Part, keep: Keep) -> tuple[Any, dict[int, str]]:
    """The part as a solid, and which of the kernel's bodies is which cut."""
    blank = solid_of(_longer(part), (), keep)
    names: dict[int, str] = {}
    tools = []
    for cut in part.cuts:
        if cut.shapes:
            tool = body_of(cut.shapes).as_original()
            names[int(tool.original_id())] = cut.key
            tools.append(tool)
    if not tools:
        return blank, names
    return m3.Manifold.batch_boolean([blank, *tools], m3.OpType.Subtract), names

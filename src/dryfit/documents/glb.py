"""model.glb: the piece as put together, in glTF 2.0's binary form; metres, y up, one node a part, an animation a step.

The world of the geometry (x right along the wall, y up, z out of it) is glTF's own, so nothing is turned: a
board keeps its mesh in its own frame, and its node places it. Normals are flat. Hardware is not in it.
Equal books give equal bytes.
"""

import json
import math
import struct
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..book.model import Book
from ..geometry.frames import Frame
from ..lengths import CONVERSION_DECIMALS, MM_PER
from .glb_looks import Moves, grain_png, moves_of, on_grain

# The figures of glTF 2.0, chapter 4 (GLB) and 5.1, 5.11 (properties): low byte first
MAGIC, VERSION = b"glTF", 2
JSON_CHUNK, BIN_CHUNK = b"JSON", b"BIN\0"
HEAD, CHUNK = struct.Struct("<4sII"), struct.Struct("<I4s")  # magic, version, length of all; length, kind
FLOAT, BYTE, ARRAY_BUFFER, REPEAT = 5126, 5121, 34962, 10497
ALIGNED = 4  # bytes: chunks begin and end at multiples
METRES = 1 / MM_PER["m"]
WOOD = [0.79, 0.66, 0.48, 1.0]  # of no species: only so that a viewer does not show white on white


def model_glb(book: Book, stamp: str = "") -> bytes:
    """All parts where they stand; `stamp` of the set of papers that it belongs to."""
    meshes = [book.solids.mesh(part) for part in book.piece.parts]
    names = [part.id for part in book.piece.parts]
    frames = [part.board.frame for part in book.piece.parts]
    return glb(names, frames, meshes, stamp, tuple(moves_of(book)))


def glb(
    names: Sequence[str],
    frames: Sequence[Frame],
    meshes: Sequence[tuple[NDArray[np.float64], NDArray[np.int64]]],
    stamp: str = "",
    moves: Sequence[Moves] = (),
) -> bytes:
    """Bodies as one binary glTF.

    Args:
        names: of the nodes.
        frames: where each body's own frame stands in the world, mm.
        meshes: vertices `(n, 3)` in mm in the body's frame, triangles `(m, 3)` anticlockwise from outside.
        stamp: stands beside its version.
        moves: each becomes an animation.
    """
    buffer = _Buffer()
    drawn: list[dict[str, Any]] = []
    nodes: list[dict[str, Any]] = []
    for number, (name, frame, (vertices, triangles)) in enumerate(zip(names, frames, meshes, strict=True)):
        node: dict[str, Any] = {"name": name, "translation": _metres(frame.origin), "rotation": _turn(frame)}
        if len(triangles):
            corners, normals = _flat(vertices, triangles)
            places, colours = on_grain(corners / METRES, normals, number)
            attributes = {
                "POSITION": buffer.add(corners, bounds=True),
                "NORMAL": buffer.add(normals),
                "TEXCOORD_0": buffer.add(places),
                "COLOR_0": buffer.add(colours),
            }
            node["mesh"] = len(drawn)
            drawn.append({"name": name, "primitives": [{"attributes": attributes, "material": 0}]})
        nodes.append(node)
    animations = [_animation(buffer, move, names, frames) for move in moves]
    picture = buffer.lay(grain_png()) if drawn else 0
    document = _document(nodes, drawn, buffer, animations, picture)
    document["asset"] |= {"extras": {"stamp": stamp}} if stamp else {}
    return _joined(document, bytes(buffer.data))


def _animation(buffer: "_Buffer", move: Moves, names: Sequence[str], frames: Sequence[Frame]) -> dict[str, Any]:
    """One step: each part that moves slides along straight lines to where it stands.

    What is not there yet is shrunk to nothing, which is how glTF hides a node (glTF 2.0, 3.5.2).
    """
    times = buffer.add(np.array(move.times, "<f4"), bounds=True, target=None)
    channels, samplers = [], []
    for name, off in move.off.items():
        node = names.index(name)
        places = [_metres(tuple(o + by for o, by in zip(frames[node].origin, one, strict=True))) for one in off]
        samplers.append({"input": times, "output": buffer.add(np.array(places, "<f4"), target=None)})
        channels.append({"sampler": len(samplers) - 1, "target": {"node": node, "path": "translation"}})
    if move.away:
        nothing = buffer.add(np.zeros((len(move.times), len(frames[0].origin)), "<f4"), target=None)
        samplers.append({"input": times, "output": nothing})
        for name in move.away:
            target = {"node": names.index(name), "path": "scale"}
            channels.append({"sampler": len(samplers) - 1, "target": target})
    return {"name": move.name, "channels": channels, "samplers": samplers}


def _flat(vertices: NDArray[np.float64], triangles: NDArray[np.int64]) -> tuple[NDArray[Any], NDArray[Any]]:
    """Three corners a triangle in metres, and its normal three times, both `(3 m, 3)` float32.

    A sliver whose corners fall together in float32 (finer than 0.0001 mm) has no normal and is left out.
    """
    corners = vertices[triangles]
    drawn = (corners * METRES + 0.0).astype("<f4")
    sides = (drawn[:, 0] != drawn[:, 1], drawn[:, 1] != drawn[:, 2], drawn[:, 2] != drawn[:, 0])
    keep = np.all([side.any(axis=1) for side in sides], axis=0)
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])[keep]
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), np.finfo(np.float64).tiny)
    corners_each = triangles.shape[1]
    return drawn[keep].reshape(-1, vertices.shape[1]), (np.repeat(normals, corners_each, axis=0) + 0.0).astype("<f4")


def _metres(p: Sequence[float]) -> list[float]:
    return [round(value * METRES, CONVERSION_DECIMALS) + 0.0 for value in p]


def _turn(frame: Frame) -> list[float]:
    """A frame's axes as a unit quaternion x, y, z, w; found from its largest part, so that nothing small divides."""
    (a, d, g), (b, e, h), (c, f, i) = frame.x, frame.y, frame.z
    rows = (  # each is the quaternion, 4 times one part of it
        (1 + a - e - i, b + d, c + g, h - f),
        (b + d, 1 - a + e - i, f + h, c - g),
        (c + g, f + h, 1 - a - e + i, d - b),
        (h - f, c - g, d - b, 1 + a + e + i),
    )
    best = max(range(len(rows)), key=lambda part: rows[part][part])
    size = math.hypot(*rows[best])
    return [part / size + 0.0 for part in rows[best]]


class _Buffer:
    """The binary part, and what tells of it."""

    def __init__(self) -> None:
        self.data = bytearray()
        self.views: list[dict[str, Any]] = []
        self.accessors: list[dict[str, Any]] = []

    def lay(self, data: bytes, target: int | None = None) -> int:
        """Put bytes in, and give the number of their view."""
        self.data += b"\0" * (-len(self.data) % ALIGNED)
        view = {"buffer": 0, "byteOffset": len(self.data), "byteLength": len(data)}
        self.views.append(view | ({} if target is None else {"target": target}))
        self.data += data
        return len(self.views) - 1

    def add(self, values: NDArray[Any], *, bounds: bool = False, target: int | None = ARRAY_BUFFER) -> int:
        """Put values `(n,)` or `(n, k)` in, and give the number by which they are named."""
        accessor: dict[str, Any] = {
            "bufferView": self.lay(values.tobytes(), target),
            "componentType": BYTE if values.dtype == np.uint8 else FLOAT,
            "count": len(values),
            "type": "SCALAR" if values.ndim == 1 else f"VEC{values.shape[1]}",
        }
        if values.dtype == np.uint8:
            accessor["normalized"] = True
        if bounds:
            least, most = (np.atleast_1d(found(values, axis=0)) for found in (np.min, np.max))
            accessor |= {"min": [float(value) for value in least], "max": [float(value) for value in most]}
        self.accessors.append(accessor)
        return len(self.accessors) - 1


def _document(
    nodes: list[dict[str, Any]],
    meshes: list[dict[str, Any]],
    buffer: _Buffer,
    animations: list[dict[str, Any]],
    picture: int,
) -> dict[str, Any]:
    """The JSON part; empty lists are left out, as glTF asks. `picture` is the view of the grain's tile."""
    document: dict[str, Any] = {
        "asset": {"version": "2.0", "generator": "dryfit"},
        "scene": 0,
        "scenes": [{"nodes": list(range(len(nodes)))} if nodes else {}],
    }
    material = {
        "name": "wood",
        "pbrMetallicRoughness": {
            "baseColorFactor": WOOD,
            "baseColorTexture": {"index": 0},
            "metallicFactor": 0.0,
            "roughnessFactor": 0.8,
        },
    }
    parts = {"nodes": nodes, "meshes": meshes, "accessors": buffer.accessors, "bufferViews": buffer.views}
    parts["animations"] = animations
    document |= {name: value for name, value in parts.items() if value}
    if meshes:
        document |= {"materials": [material], "buffers": [{"byteLength": len(buffer.data)}]}
        document |= {"textures": [{"source": 0, "sampler": 0}], "samplers": [{"wrapS": REPEAT, "wrapT": REPEAT}]}
        document["images"] = [{"bufferView": picture, "mimeType": "image/png", "name": "grain"}]
    return document


def _joined(document: dict[str, Any], binary: bytes) -> bytes:
    """Head and chunks, each padded to four bytes: JSON with spaces, the buffer with noughts."""
    text = json.dumps(document, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode()
    chunks = _chunk(JSON_CHUNK, text, b" ") + (_chunk(BIN_CHUNK, binary, b"\0") if binary else b"")
    return HEAD.pack(MAGIC, VERSION, HEAD.size + len(chunks)) + chunks


def _chunk(kind: bytes, data: bytes, pad: bytes) -> bytes:
    padded = data + pad * (-len(data) % ALIGNED)
    return CHUNK.pack(len(padded), kind) + padded

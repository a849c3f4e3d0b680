"""model.glb: the piece as put together, in glTF 2.0's binary form; metres, y up, one node a part.

The world of the geometry (x right along the wall, y up, z out of it) is glTF's own, so nothing is turned: a
board keeps its mesh in its own frame, and its node places it. Normals are flat. Hardware is not in it.
Equal books give equal bytes.
"""

import json
import struct
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..book.model import Book
from ..geometry.frames import Frame

MAGIC, VERSION = 0x46546C67, 2
JSON_CHUNK, BIN_CHUNK = 0x4E4F534A, 0x004E4942
FLOAT, ARRAY_BUFFER = 5126, 34962
METRES = 0.001
WOOD = [0.79, 0.66, 0.48, 1.0]  # of no species: only so that a viewer does not show white on white


def model_glb(book: Book, stamp: str = "") -> bytes:
    """All parts where they stand; `stamp` of the set of papers that it belongs to."""
    meshes = [book.solids.mesh(part) for part in book.piece.parts]
    names = [part.id for part in book.piece.parts]
    frames = [part.board.frame for part in book.piece.parts]
    return glb(names, frames, meshes, stamp)


def glb(
    names: Sequence[str],
    frames: Sequence[Frame],
    meshes: Sequence[tuple[NDArray[np.float64], NDArray[np.int64]]],
    stamp: str = "",
) -> bytes:
    """Bodies as one binary glTF.

    Args:
        names: of the nodes.
        frames: where each body's own frame stands in the world, mm.
        meshes: vertices `(n, 3)` in mm in the body's frame, triangles `(m, 3)` anticlockwise from outside.
        stamp: stands beside its version.
    """
    binary = bytearray()
    views: list[dict[str, Any]] = []
    accessors: list[dict[str, Any]] = []
    drawn: list[dict[str, Any]] = []
    nodes: list[dict[str, Any]] = []
    for name, frame, (vertices, triangles) in zip(names, frames, meshes, strict=True):
        node: dict[str, Any] = {"name": name, "matrix": _matrix(frame)}
        if len(triangles):
            corners, normals = _flat(vertices, triangles)
            places = [_accessor(binary, views, accessors, corners, bounds=True)]
            places.append(_accessor(binary, views, accessors, normals, bounds=False))
            attributes = {"POSITION": places[0], "NORMAL": places[1]}
            node["mesh"] = len(drawn)
            drawn.append({"name": name, "primitives": [{"attributes": attributes, "material": 0}]})
        nodes.append(node)
    document = _document(nodes, drawn, views, accessors, len(binary))
    document["asset"] |= {"extras": {"stamp": stamp}} if stamp else {}
    return _joined(document, bytes(binary))


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
    return drawn[keep].reshape(-1, 3), (np.repeat(normals, 3, axis=0) + 0.0).astype("<f4")


def _matrix(frame: Frame) -> list[float]:
    """Column by column, as glTF wants it."""
    ox, oy, oz = (round(value * METRES, 9) + 0.0 for value in frame.origin)
    columns = (*frame.x, 0.0, *frame.y, 0.0, *frame.z, 0.0, ox, oy, oz, 1.0)
    return [value + 0.0 for value in columns]


def _accessor(
    binary: bytearray,
    views: list[dict[str, Any]],
    accessors: list[dict[str, Any]],
    values: NDArray[Any],
    *,
    bounds: bool,
) -> int:
    """Put values `(n, 3)` into the buffer, and give the number by which a mesh names them."""
    data = values.tobytes()
    views.append({"buffer": 0, "byteOffset": len(binary), "byteLength": len(data), "target": ARRAY_BUFFER})
    binary += data
    accessor: dict[str, Any] = {
        "bufferView": len(views) - 1,
        "componentType": FLOAT,
        "count": len(values),
        "type": "VEC3",
    }
    if bounds:
        accessor["min"] = [float(value) for value in values.min(axis=0)]
        accessor["max"] = [float(value) for value in values.max(axis=0)]
    accessors.append(accessor)
    return len(accessors) - 1


def _document(
    nodes: list[dict[str, Any]],
    meshes: list[dict[str, Any]],
    views: list[dict[str, Any]],
    accessors: list[dict[str, Any]],
    size: int,
) -> dict[str, Any]:
    """The JSON part; empty lists are left out, as glTF asks."""
    document: dict[str, Any] = {
        "asset": {"version": "2.0", "generator": "dryfit"},
        "scene": 0,
        "scenes": [{"nodes": list(range(len(nodes)))} if nodes else {}],
    }
    material = {
        "name": "wood",
        "pbrMetallicRoughness": {"baseColorFactor": WOOD, "metallicFactor": 0.0, "roughnessFactor": 0.8},
    }
    parts = {"nodes": nodes, "meshes": meshes, "accessors": accessors, "bufferViews": views}
    document |= {name: value for name, value in parts.items() if value}
    if meshes:
        document |= {"materials": [material], "buffers": [{"byteLength": size}]}
    return document


def _joined(document: dict[str, Any], binary: bytes) -> bytes:
    """Head and chunks, each padded to four bytes: JSON with spaces, the buffer with noughts."""
    text = json.dumps(document, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode()
    chunks = _chunk(JSON_CHUNK, text, b" ") + (_chunk(BIN_CHUNK, binary, b"\0") if binary else b"")
    return struct.pack("<III", MAGIC, VERSION, 12 + len(chunks)) + chunks


def _chunk(kind: int, data: bytes, pad: bytes) -> bytes:
    padded = data + pad * (-len(data) % 4)
    return struct.pack("<II", len(padded), kind) + padded

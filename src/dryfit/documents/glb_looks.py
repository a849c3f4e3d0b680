"""What of the model is no solid: the look of wood along its grain, and the order of assembly as moves in time.

The grain is a small tile of our own, worked out here: streaks along the board, seen end on where wood is sawn across.
It is of no species. Texture coordinates count in the board's own frame, so that grain runs along it however it stands.
"""

import hashlib
import struct
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..book.model import Book
from ..geometry.frames import Vec
from ..sentences import told
from ..studies.order.result import Leg, Order

SIDE = 128  # pixels of the tile
TILE = (900.0, 120.0)  # mm of wood that it covers: along the grain and across
END = 0.7  # of a normal along the grain: from here on a face is end grain
DARKER = 190  # of FULL: end grain takes in more light and finish
SHADE = 50  # of FULL, between the lightest and the darkest row
APART = 0.37  # of a tile, from board to board, so that no two look the same
SECONDS = 1.0  # a leg of a way
SEEN = 250.0  # mm that the first leg has at least: a joint is closed in so few mm that it would not be seen
FULL = np.iinfo(np.uint8).max  # of a colour


@cache
def grain_png() -> bytes:
    """The tile, grey, as a PNG whose data is stored as it is: packed by another zlib it would have other bytes."""
    rows = _streaks()
    raw = b"".join(b"\0" + rows[v].tobytes() for v in range(SIDE))
    head = struct.pack(">IIBBBBB", SIDE, SIDE, 8, 0, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(raw, 0)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data)) for kind, data in chunks
    )


def _streaks() -> NDArray[np.uint8]:
    """Light and dark rows that wander a little along the grain; the tile's sides fit each other."""
    rows = np.frombuffer(hashlib.shake_128(b"grain").digest(SIDE), np.uint8) / FULL  # the same everywhere
    line = np.mean([np.roll(rows, shift) for shift in range(-1, 2)], axis=0)
    u, v = np.meshgrid(np.arange(SIDE), np.arange(SIDE))
    wander = np.rint(2.0 * np.sin(2 * np.pi * u / SIDE)).astype(int)
    shades: NDArray[np.uint8] = (FULL - SHADE * (1 - line[(v + wander) % SIDE])).astype(np.uint8)
    return shades


def on_grain(corners: NDArray[Any], normals: NDArray[Any], number: int) -> tuple[NDArray[Any], NDArray[Any]]:
    """Texture coordinates `(n, 2)` float32 and colours `(n, 4)` uint8 for corners in mm in a board's frame.

    Args:
        corners, normals: `(n, 3)`.
        number: of the board in the piece.
    """
    a, c, d = corners.T
    ends = np.abs(normals[:, 0]) > END
    faces = np.abs(normals[:, 1]) > np.abs(normals[:, 2])
    along = np.where(ends, c / TILE[0], a / TILE[0])
    across = np.where(ends | faces, d, c) / TILE[1]
    colours = np.full((len(corners), len("RGBA")), FULL, np.uint8)
    colours[ends, :-1] = DARKER
    return (np.stack([along, across], axis=1) + number * APART).astype("<f4"), colours


@dataclass(frozen=True, slots=True)
class Moves:
    """One animation: what moves, and how far it is from its place at each time.

    Attributes:
        times: in seconds.
        off: by part, one offset in mm in the world a time.
        away: parts that are not there yet.
    """

    name: str
    times: tuple[float, ...]
    off: dict[str, tuple[Vec, ...]]
    away: tuple[str, ...] = ()


def moves_of(book: Book) -> Iterator[Moves]:
    """Each step of the order in which something slides home, by its number; a step that is only laid down has none."""
    order = book.found(Order)
    number = 0
    for stage in order.stages if order is not None else ():
        for step in stage.steps:
            number += 1
            if step.legs:
                times = tuple(SECONDS * leg for leg in range(len(step.legs) + 1))
                first, *more = step.legs
                seen = (replace(first, distance=max(first.distance, SEEN)), *more)
                off = tuple(_left(seen[leg:]) for leg in range(len(seen) + 1))
                there = {*step.parts, *step.onto}
                away = tuple(part.id for part in book.piece.parts if part.id not in there)
                name = told(step.name, book.voice)
                yield Moves(f"{number}. {name}", times, dict.fromkeys(step.parts, off), away)


def _left(legs: Sequence[Leg]) -> Vec:
    """Where something is that has these legs of its way before it."""
    x, y, z = (-sum(leg.direction[i] * leg.distance for leg in legs) + 0.0 for i in range(3))
    return x, y, z

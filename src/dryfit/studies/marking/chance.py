"""The chance that all screws of a rigid piece go into its holes, from how far each stands off; lengths as shares of s.

Each of n screws stands off its mark by a normal error, standard deviation 1 in x and in y; the piece may shift, and
turn where it need not hang level. All go in where one shift, and one turn, bring every error within r.

Kept level   The errors lie in one circle of radius r: discs of that radius about them have a point in common. What
             they share is convex, and the turning of its outline (Gauss and Bonnet) is 2 pi where it is there, 0 where
             it is not: the mean of arcs and corners is the chance, a sum over the plane by quadrature, to 1e-4.
Slots        Level slots along the line leave the heights alone: half the range of n, by quadrature.
May turn     Two holes in closed form, more by drawing `DRAWN` pieces from a fixed seed and moving each to its best
             place: within 0.01 of the 95 % point.
"""

import math
from functools import lru_cache
from itertools import combinations
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from ...geometry.frames import Vec2

Floats: TypeAlias = npt.NDArray[np.float64]

WANTED = 0.95
FAR = 7.0  # standard deviations beyond which nothing is counted
RADII, ANGLES, INNER = 96, 128, 56  # nodes of the quadrature
DRAWN, SEED = 20_000, 20261130
SHARPER = (2.0, 8.0, 32.0, 128.0, 512.0, 2048.0)  # how nearly the greatest error alone counts, pass by pass
STEPS, HALVED = 7, 6  # of Newton in a pass, and how often a step that leads up is halved


def within(at: Floats, r: float) -> Floats:
    """The chance that a standard normal error in the plane lies within r of places that far from its mark, `(k,)`."""
    nodes, weights = _gauss(0.0, r, INNER)
    z = np.outer(at, nodes)
    density = nodes * np.exp(-((nodes - at[:, None]) ** 2) / 2) * np.i0(z) * np.exp(-z)
    return np.clip(density @ weights, 0.0, 1.0)


@lru_cache(maxsize=1024)
def level(n: int, r: float) -> float:
    """Round holes, kept level: whatever the spacing."""
    if n < 2:
        return 1.0
    if r <= 0.0:
        return 0.0
    rho, weights = _gauss(0.0, r + FAR, RADII)
    inside, z = within(rho, r), rho * r
    on_arc = rho * np.exp(-((rho - r) ** 2) / 2) * np.i0(z) * np.exp(-z)
    arcs = n * float(np.sum(weights * on_arc * inside ** (n - 1)))
    turn = 2 * math.pi * np.arange(ANGLES) / ANGLES
    corner = np.abs(np.sin(turn)) * np.minimum(turn, 2 * math.pi - turn)
    density = np.exp(-(rho[:, None] ** 2 + r * r + 2 * r * rho[:, None] * np.cos(turn)) / 2) / (2 * math.pi)
    power = np.abs(np.fft.fft(density, axis=1)) ** 2 * np.fft.fft(corner).real
    two = np.sum(power.real, axis=1) / ANGLES * (2 * math.pi / ANGLES) ** 2
    corners = math.comb(n, 2) * float(np.sum(weights * rho * inside ** (n - 2) * r * r * two))
    return min(max(arcs + corners, 0.0), 1.0)


@lru_cache(maxsize=1024)
def slots_level(n: int, r: float) -> float:
    """Slots along a level line, kept level: the heights of all within 2 r."""
    if n < 2:
        return 1.0
    y, weights = _gauss(-FAR - 2 * r, FAR, 2 * RADII)
    below = np.array([math.erf(one / math.sqrt(2)) for one in y]) / 2
    above = np.array([math.erf((one + 2 * r) / math.sqrt(2)) for one in y]) / 2
    density = np.exp(-y * y / 2) / math.sqrt(2 * math.pi)
    return float(np.sum(weights * n * density * (above - below) ** (n - 1)))


def chance(at: tuple[Vec2, ...], r: float, *, turns: bool, slots: bool = False) -> float:
    """That all holes `at` take their screws, each with r to spare all round (in standard deviations)."""
    n = len(at)
    if n < 2:
        return 1.0
    if not turns:
        return slots_level(n, r) if slots else level(n, r)
    if n == 2:
        return 1.0 if slots else math.erf(r)
    return float(np.searchsorted(_least(_spaced(at), slots), r) / DRAWN)


@lru_cache(maxsize=256)
def wanted(at: tuple[Vec2, ...], *, turns: bool, slots: bool = False) -> float:
    """The room all round, k, with which all go in with 95 % chance; 0 for a single hole, which may stand anywhere."""
    n = len(at)
    if n < 2 or (turns and slots and n == 2):
        return 0.0
    if turns and n > 2:
        return float(np.quantile(_least(_spaced(at), slots), WANTED))
    low, high = 0.0, FAR
    while high - low > 1e-5:
        middle = (low + high) / 2
        low, high = (middle, high) if chance(at, middle, turns=turns, slots=slots) < WANTED else (low, middle)
    return high


def _gauss(low: float, high: float, count: int) -> tuple[Floats, Floats]:
    nodes, weights = np.polynomial.legendre.leggauss(count)
    return low + (nodes + 1) * (high - low) / 2, weights * (high - low) / 2


def _spaced(at: tuple[Vec2, ...]) -> tuple[Vec2, ...]:
    """The holes about their middle, the farthest 1 from it: the scale of the spacing does not matter."""
    middle = sum(x for x, _ in at) / len(at), sum(y for _, y in at) / len(at)
    far = max(math.dist(one, middle) for one in at) or 1.0
    return tuple((round((x - middle[0]) / far, 6) + 0.0, round((y - middle[1]) / far, 6) + 0.0) for x, y in at)


@lru_cache(maxsize=32)
def _least(at: tuple[Vec2, ...], slots: bool) -> Floats:
    """Of each piece drawn, the greatest error at its best shift and turn, in order, `(DRAWN,)`.

    A convex problem each: the greatest of squares is smoothed, and followed by Newton's steps as the smoothing is
    taken back.
    """
    errors = np.random.default_rng(SEED).standard_normal((DRAWN, len(at), 2))
    places = np.array(at)
    if slots:
        return np.sort(_off_a_line(places[:, 0], errors[..., 1]))
    turned = np.stack([-places[:, 1], places[:, 0]], axis=-1)  # (n, 2)
    way = np.concatenate([np.broadcast_to(np.eye(2), (len(at), 2, 2)), turned[:, None, :]], axis=1)  # (n, 3, 2)
    square = np.einsum("nai,nbi->nab", way, way)
    pose = np.zeros((DRAWN, 3))
    pose[:, :2] = errors.mean(axis=1)

    def left(now: Floats) -> Floats:
        return np.asarray(errors - np.einsum("ka,nai->kni", now, way))

    def smooth(halves: Floats, sharp: float) -> Floats:
        top = halves.max(axis=1)
        return np.asarray(top + np.log(np.exp(sharp * (halves - top[:, None])).sum(axis=1)) / sharp)

    for sharp in SHARPER:
        for _ in range(STEPS):
            apart = left(pose)
            halves = (apart**2).sum(axis=2) / 2
            now = smooth(halves, sharp)
            shares = np.exp(sharp * (halves - halves.max(axis=1, keepdims=True)))
            shares /= shares.sum(axis=1, keepdims=True)
            slopes = -np.einsum("kni,nai->kna", apart, way)
            slope = np.einsum("kn,kna->ka", shares, slopes)
            bend = np.einsum("kn,kna,knb->kab", shares, slopes, slopes) - slope[:, :, None] * slope[:, None, :]
            bend = sharp * bend + np.einsum("kn,nab->kab", shares, square) + 1e-9 * np.eye(3)
            step = np.linalg.solve(bend, slope[..., None])[..., 0]
            share = np.ones(DRAWN)
            for _ in range(HALVED):
                up = smooth((left(pose - share[:, None] * step) ** 2).sum(axis=2) / 2, sharp) > now
                if not up.any():
                    break
                share = np.where(up, share / 2, share)
            pose = np.where(up[:, None], pose, pose - share[:, None] * step)
    return np.sort(np.sqrt((left(pose) ** 2).sum(axis=2).max(axis=1)))


def _off_a_line(x: Floats, y: Floats) -> Floats:
    """Of rows of heights `(k, n)` at places `(n,)`, the least greatest distance from any straight line, `(k,)`.

    Three of them decide it, the middle one against the line of the outer two (Chebyshev).
    """
    order = np.argsort(x)
    found = np.zeros(len(y))
    for i, j, k in combinations(order, 3):
        if x[k] > x[i]:
            share = (x[j] - x[i]) / (x[k] - x[i])
            found = np.maximum(found, np.abs(y[:, i] * (1 - share) + y[:, k] * share - y[:, j]) / 2)
    return found

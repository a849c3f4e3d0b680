"""Measures of the piece, as others read them."""

from dataclasses import dataclass

from ...geometry.frames import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """Measures of the piece.

    Attributes:
        densities: (timber, kg/m3, source) of each timber that has one.
        mass_kg: of each part, by board; parts without a density are missing.
        total_kg: of the parts that have one.
        finished_m2, hidden_m2: of the whole.
        glued_m2: by grain pair.
        low, high: corners of the box around the piece, in the world.
        centre_of_gravity: in the world; None where nothing has a mass.
        diagonals: of the box's front, lower left to upper right and lower right to upper left (equal: it
            is a box), in the elevation.
    """

    densities: tuple[tuple[str, float, str], ...]
    mass_kg: tuple[tuple[str, float], ...]
    total_kg: float
    finished_m2: float
    hidden_m2: float
    glued_m2: tuple[tuple[str, float], ...]
    low: Vec
    high: Vec
    centre_of_gravity: Vec | None
    diagonals: tuple[float, float]

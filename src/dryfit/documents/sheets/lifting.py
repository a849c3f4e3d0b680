"""How many people lift a piece, for the wall and for standing it up."""

import math

PERSON_KG = 25.0  # lifted by one person, close to the body (HSE guidance on lifting, from memory)


def persons(mass: float) -> int:
    """How many people lift it: two at least, each 25 kg."""
    return max(2, math.ceil(mass / PERSON_KG))

"""Sanding: by which grits before the first coat and between coats, and what a disc does before it is worn.

Grits are those of furniture (common practice; notes on finishing have 120 to 180 before a film, 220 to 320 between).
What goes into the wood is not sanded between coats, and finer before the first, since it shows each scratch.
"""

BARE, BARE_FOR_OIL, BETWEEN = (120, 150, 180), (150, 180, 240), 240  # grits for furniture (common practice)
SOURCE = "common practice"
_M2_BARE = 1.0  # that a disc of 150 does on bare wood with one grit (from memory)
_M2_BETWEEN = 2.0  # on a coat that is only scuffed (from memory)


def goes_into_wood(system: str) -> bool:
    """Whether a finish leaves next to no film, by its name: an oil.

    >>> goes_into_wood("hardwax oil"), goes_into_wood("varnish, polyurethane")
    (True, False)
    """
    return "oil" in system.casefold().split()


def bare_wood(*, into_wood: bool) -> tuple[int, ...]:
    """Grits before the first coat, the coarsest first."""
    return BARE_FOR_OIL if into_wood else BARE


def between_coats(coats: int, *, into_wood: bool) -> tuple[int, ...]:
    """From one coat to the next, the last left as it is; none of what goes into the wood."""
    return (BETWEEN,) if coats > 1 and not into_wood else ()


def discs(m2: float, *, bare: bool) -> int:
    """How many discs of 150 an area takes with one grit; sheets are cut to the same area.

    >>> discs(2.5, bare=True), discs(2.5, bare=False), discs(0.0, bare=True)
    (3, 2, 0)
    """
    each = _M2_BARE if bare else _M2_BETWEEN
    return max(1, -int(-m2 // each)) if m2 > 0.0 else 0

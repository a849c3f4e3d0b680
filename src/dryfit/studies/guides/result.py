"""Guides for the router, as others read them; lengths in mm, angles in degrees."""

from dataclasses import dataclass

from ...piece.leaning import Head


@dataclass(frozen=True, slots=True, kw_only=True)
class GuidedCut:
    """Where a guide stands for one cut, along the worked face from the part's datum.

    Attributes:
        key, board: of the cut, and its board.
        face: that is worked, +1 at +c; for a cut through, the face side.
        near, far: the marks of its walls on that face; `near` the one by the rail that is set first.
        under: the same two on the other face, of a slot that comes through and leans; None else.
        edge: of the datum rail, or the bed's thin edge, that faces the slot, or turns away from it under a bed.
        datum_side: whether that edge lies between the datum and the slot.
        saw: where rough cuts are sawn first, square to the face, by the sides of their kerfs that face the walls; one
            alone where two kerfs would meet, none where there is no room. None: it is not sawn.
        offcuts: the ends, -1 the datum's and 1 the far one, at which an offcut as thick must carry the guide.
    """

    key: str
    board: str
    face: int
    near: float
    far: float
    under: tuple[float, float] | None
    edge: float
    datum_side: bool
    offcuts: tuple[int, ...] = ()
    saw: tuple[float, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltedBed:
    """The bed of a tilted guide.

    Attributes:
        lean, head: of the walls, and which way they lean.
        thick: of the bed; `near` along it, from its thin edge to the near wall.
        low_rail: along it, from its thin edge to the edge of the low rail on which the base runs.
        marks: from the thin edge to both walls, on the face.
        long, wedge: from the thin edge to its far edge, along it, and how high it stands there over the face.
        beyond: how far past the far wall's mark the wedge stands, along the face.
    """

    lean: float
    head: Head
    thick: float
    near: float
    low_rail: float
    marks: tuple[float, float]
    long: float
    wedge: float
    beyond: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """One guide, for one set-up.

    Attributes:
        setup: its name.
        router, cutter: by the names of the shop's tools; `assumed` where the shop file does not name them.
        diameter: of the cutter.
        offsets: of the base, at the datum rail (the low one on a bed) and at the free rail.
        width: of the slot, across its walls.
        opening: between the rails; `rail` how wide each is.
        passes: how often the router runs through.
        stick_out: of the cutter below the base, for the deepest of its cuts.
        faces: from how many faces it is worked.
        run: how far the rails carry the base, for the longest cut.
        stop: from the end of the cut to the stop strip, against which the base runs; None where it runs out.
        bed: of a tilted guide; None for a straight one.
        cuts: by the parts' letters.
    """

    setup: str
    router: str
    cutter: str
    assumed: bool
    diameter: float
    offsets: tuple[float, float]
    width: float
    opening: float
    rail: float
    passes: int
    stick_out: float
    faces: int
    run: float
    stop: float | None
    bed: TiltedBed | None
    cuts: tuple[GuidedCut, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillRest:
    """How a board lies for holes along its faces, bored with a drill that lies on its side.

    Attributes:
        setup: its name.
        drill: by its name in the shop file; "" where that names none with an axis.
        axis: of the drill, over the bench; None where it is not known.
        up: how high the holes' axis runs over the face that lies down, the face side.
        packing: under the board; below 0 under the drill. None where the drill's axis is not known.
    """

    setup: str
    drill: str
    axis: float | None
    up: float
    packing: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Guides:
    """All guides of a piece, by the names of their set-ups.

    Attributes:
        without: the set-ups of a router for which there is none.
        blade: the saw for rough cuts, by name; "" where the shop file names none. `leaves` what it leaves on a wall at
            least and, over the deepest cut, at the most; where that is too much, lines are to be drawn turned by `turn`
            degrees to the left.
        rests: of holes along a board's faces, by the names of their set-ups.
    """

    all: tuple[Guide, ...]
    without: tuple[str, ...] = ()
    blade: str = ""
    leaves: tuple[float, float] = (0.0, 0.0)
    turn: float = 0.0
    rests: tuple[DrillRest, ...] = ()

"""One DXF drawing at 1:1 in mm; the one place that knows the library.

Text that came from a person is one line with nothing in it that a program would take for a command (`one_line`); names
of layers, blocks and styles are ours alone. The bytes hold no clock, no chance and nothing of the machine.
"""

import io
import math
import os
import re
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any, Literal, TypeAlias

from ...geometry.frames import Vec2
from ...geometry.loops import Loop
from ...lengths import WRITTEN, written
from ..lettering import width
from ..sheets.page.frame import LEFT, MARGIN
from ..standard import A3, A4, GROUND, LINE, NAME, RIGHT, ROW, SCALES, TEXT
from .outlines import Outline

RELEASE = "R2010"  # AC1024: read by what is in use, and its text is UTF-8
STYLE = "DRYFIT"
LONGEST = A3[1] - 2 * LEFT  # on paper, that the longest side is lettered for
PROPORTION = A4[0] / A4[1]  # of a window, its height to its width: only so that all is seen
PAGES = (A4[::-1], A3[::-1])
CENTRE, MIDDLE = 1, 2  # of a TEXT
DIMENSIONS, WORDS = "DIMENSIONS", "TEXT"
LONG_FIGURE = width("0000.00", TEXT)  # of the longest that stands on a running dimension, on paper
Colour: TypeAlias = Literal["RED", "YELLOW", "GREEN", "CYAN", "BLUE", "MAGENTA", "WHITE", "GRAY"]  # of the index
BRIGHT: tuple[Colour, ...] = ("RED", "YELLOW", "GREEN", "CYAN", "BLUE", "MAGENTA")
Way: TypeAlias = Literal["along", "up"]
_BROKEN = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]+")


def one_line(text: str) -> str:
    """Any text as one line of a TEXT: no line's end, no caret code, no sign that starts with two per cent signs."""
    flat = _BROKEN.sub(" ", text).replace("^", "^ ")
    return flat.replace("%", "%%%") if "%%" in flat else flat


@cache
def library() -> ModuleType:
    """The library, kept from looking through the machine's fonts and from leaving a list of them at home.

    Fonts would decide where the words of a dimension stand, and no two machines have the same.
    """
    with tempfile.TemporaryDirectory() as folder, _set("XDG_CACHE_HOME", folder):
        none = Path(folder, "ezdxf", "font_manager_cache.json")
        none.parent.mkdir()
        none.write_text('{"version": 2, "font-faces": []}', encoding="utf-8")
        import ezdxf
    found: Any = ezdxf
    found.options.write_fixed_meta_data_for_testing = True  # its only way to leave the clock out
    return ezdxf


@contextmanager
def _set(name: str, value: str) -> Iterator[None]:
    before = os.environ.get(name)
    os.environ[name] = value
    try:
        yield
    finally:
        if before is None:
            del os.environ[name]
        else:
            os.environ[name] = before


class Drawing:
    """One drawing, x to the right and y up.

    Args:
        stamp: of the set of papers that it belongs to.
        size: of the longest thing on it, by which its lettering is chosen.
    """

    def __init__(self, stamp: str, size: float) -> None:
        self._doc: Any = library().new(RELEASE, units=library().units.MM)
        self._space = self._doc.modelspace()
        self._doc.header.custom_vars.append("stamp", stamp)
        self.per_mm = 1 / next((scale for scale in SCALES if size * scale <= LONGEST), SCALES[-1])
        self.height, self.row = TEXT * self.per_mm, math.ceil(ROW * self.per_mm)  # whole mm: views are set apart by it
        self.reach = 2 * self.row + math.ceil(LONG_FIGURE * self.per_mm)  # of running figures, from the wood
        attributes = {
            "dimtxt": TEXT, "dimscale": self.per_mm, "dimasz": TEXT, "dimexo": TEXT / 2, "dimexe": TEXT / 2,
            "dimgap": GROUND, "dimtad": 1, "dimlfac": 1.0, "dimdec": 2, "dimzin": 8, "dimadec": 2, "dimazin": 2,
            "dimdsep": ord("."),
        }  # fmt: skip
        self._doc.dimstyles.new(STYLE, dxfattribs=attributes)  # one of its own: those of the library scale lengths

    def layer(self, name: str, colour: Colour) -> str:
        """A layer, made where it is not there."""
        if name not in self._doc.layers:
            self._doc.layers.add(name, color=getattr(library().colors, colour))
        return name

    def outline(self, outline: Outline, layer: str) -> None:
        """A closed outline, or the circle that it is."""
        if outline.ring is not None:
            self.circle(outline.ring.centre, outline.ring.radius, layer)
            return
        points = [(written(x), written(y), bulge) for x, y, bulge in outline.knots]
        self._space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})

    def loop(self, loop: Loop, layer: str) -> None:
        """A closed outline of straight sides."""
        self.outline(Outline(tuple((x, y, 0.0) for x, y in loop)), layer)

    def line(self, p: Vec2, q: Vec2, layer: str) -> None:
        """One line."""
        self._space.add_line(_flat(p), _flat(q), dxfattribs={"layer": layer})

    def circle(self, centre: Vec2, radius: float, layer: str) -> None:
        """A circle."""
        self._space.add_circle(_flat(centre), written(radius), dxfattribs={"layer": layer})

    def words(self, text: str, at: Vec2, *, large: bool = False, middle: bool = False) -> None:
        """One line of text from its lower left corner, or about a point."""
        height = (NAME if large else TEXT) * self.per_mm
        attributes: dict[str, Any] = {"layer": self._own(WORDS), "height": height, "insert": _flat(at)}
        if middle:
            attributes |= {"halign": CENTRE, "valign": MIDDLE, "align_point": _flat(at)}
        self._space.add_text(one_line(text), dxfattribs=attributes)

    def beside(self, text: str) -> float:
        """How far left of the wood words begin that end before a row of dimensions, in mm of the piece."""
        return width(text, TEXT) * self.per_mm + 3 * self.row

    def sheet(self, left: float, foot: float, right: float, head: float) -> None:
        """A sheet of paper on which a part of the drawing stands to scale, beside the drawing itself."""
        wide, high = (right - left) / self.per_mm, (head - foot) / self.per_mm
        page = next(
            (page for page in PAGES if wide <= page[0] - 2 * MARGIN and high <= page[1] - 2 * MARGIN), PAGES[-1]
        )
        paper = self._doc.paperspace()
        paper.page_setup(size=page, margins=(MARGIN, MARGIN, MARGIN, MARGIN), units="mm")
        middle = (left + right) / 2, (foot + head) / 2
        room = page[0] - 2 * MARGIN, page[1] - 2 * MARGIN
        paper.add_viewport((room[0] / 2, room[1] / 2), room, middle, room[1] * self.per_mm)
        paper.add_text(
            f"1:{self.per_mm:g}", dxfattribs={"height": TEXT, "insert": (0.0, 0.0), "layer": self._own(WORDS)}
        )

    def opens_on(self, left: float, foot: float, right: float, head: float) -> None:
        """What is seen when the drawing is opened."""
        self._doc.set_modelspace_vport(
            max(head - foot, (right - left) * PROPORTION), _flat(((left + right) / 2, (foot + head) / 2))
        )

    # --- dimensions: what each says is measured by the program that opens the drawing

    def distance(self, p: Vec2, q: Vec2, off: Vec2, way: Way) -> None:
        """From a point to another along x or up y; its line runs through `off`."""
        if round(abs(q[0] - p[0] if way == "along" else q[1] - p[1]), WRITTEN) == 0.0:
            return
        angle = 0.0 if way == "along" else RIGHT
        self._space.add_linear_dim(base=_flat(off), p1=_flat(p), p2=_flat(q), angle=angle, **self._style()).render()

    def running(self, marks: Sequence[Vec2], beyond: float, *, zero: Vec2, way: Way = "along") -> None:
        """How far each point lies from `zero` along x, its figure above `beyond`; or up y, left of it.

        Figures that would stand on one another are led apart.
        """
        room, last = LINE * self.height, -float("inf")
        along = way == "along"
        put = self._space.add_ordinate_x_dim if along else self._space.add_ordinate_y_dim
        for x, y in sorted(marks, key=lambda p: p if along else (p[1], p[0])):
            at = x if along else y
            last = max(at, last + room)
            off = (last - at, beyond - y) if along else (beyond - x, last - at)
            put(feature_location=_flat((x, y)), offset=_flat(off), origin=_flat(zero), **self._style()).render()

    def angle(self, corner: Vec2, p: Vec2, q: Vec2, radius: float) -> None:
        """The angle at a corner, anticlockwise from the way to `p` to the way to `q`."""
        size = math.dist(p, corner)
        base = tuple(c + (a - c) * radius / size for a, c in zip(p, corner, strict=True))
        self._space.add_angular_dim_3p(base=base, center=corner, p1=p, p2=q, **self._style()).render()

    def _style(self) -> dict[str, Any]:
        return {"dimstyle": STYLE, "dxfattribs": {"layer": self._own(DIMENSIONS)}}

    def _own(self, layer: str) -> str:
        return self.layer(layer, "GRAY")

    def written(self) -> bytes:
        """The file."""
        text = io.StringIO()
        self._doc.write(text)
        data: bytes = self._doc.encode(text.getvalue())
        return data


def _flat(p: Vec2) -> Vec2:
    return written(p[0]), written(p[1])

"""A display list as SVG: real text, millimetres, the size of the sheet; no character that the fonts lack."""

import math
import re
from functools import singledispatch

from ..geometry.frames import Vec2
from ..lengths import WRITTEN, written
from .display import PENS, Arc, Area, Circle, Display, Ink, Stroke, Strokes, Text
from .lettering import CSS_WEIGHT, FAMILY, STRETCH, em, known, width
from .standard import HALF_TURN

COLOUR: dict[Ink, str] = {"black": "#000", "white": "#fff", "grey": "#d9d9d9"}
_NAMES = {"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"}
_FORBIDDEN = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")  # XML 1.0, section 2.2: Char


def escape(text: str) -> str:
    """Any text as it may stand in an SVG element or attribute; characters XML forbids become a space."""
    return "".join(_NAMES.get(letter, " " if _FORBIDDEN.match(letter) else letter) for letter in text)


def number(value: float) -> str:
    """A figure rounded to 0.001, without trailing noughts and never -0."""
    text = f"{written(value):.{WRITTEN}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def svg(display: Display, *, alone: bool = False, note: str = "", style: str = "") -> str:
    """The drawing as one SVG document of exactly its sheet's size.

    Args:
        alone: whether it is shown where our fonts need not be: each text then says how long it is.
        note: what is said of it to programs.
        style: of the drawing as a whole, where it stands on another page.
    """
    wide, high = number(display.width), number(display.height)
    styled = f'style="{escape(style)}" ' if style else ""
    head = (
        f'<svg {styled}xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
        f'viewBox="0 0 {wide} {high}" '
        f'font-stretch="{STRETCH}" fill="none" stroke-linejoin="miter">'
    )
    notes = [f"<metadata>{escape(note)}</metadata>"] if note else []
    return "\n".join(
        [
            head,
            *notes,
            *(_text(item, fitted=alone) if isinstance(item, Text) else _element(item) for item in display.items),
            "</svg>",
            "",
        ]
    )


@singledispatch
def _element(item: object) -> str:
    raise AssertionError(f"{type(item).__name__} is no item of a display list")


@_element.register
def _(item: Stroke) -> str:
    return f'<path d="{_path(item.points, item.closed)}"{_pen(item.pen)}{_owner(item.owner)}/>'


@_element.register
def _(item: Strokes) -> str:
    path = "".join(_path(segment, False) for segment in item.segments)
    return f'<path d="{path}"{_pen(item.pen)}{_owner(item.owner)}/>'


@_element.register
def _(item: Area) -> str:
    path = "".join(_path(loop, True) for loop in item.loops)
    return f'<path d="{path}" fill="{COLOUR[item.ink]}" fill-rule="evenodd"{_owner(item.owner)}/>'


@_element.register
def _(item: Circle) -> str:
    x, y = map(number, item.centre)
    fill = f' fill="{COLOUR[item.ink]}"' if item.ink else ""
    pen = _pen(item.pen) if item.pen else ""
    return f'<circle cx="{x}" cy="{y}" r="{number(item.radius)}"{fill}{pen}{_owner(item.owner)}/>'


@_element.register
def _(item: Arc) -> str:
    def at(angle: float) -> str:
        radians = math.radians(angle)
        x, y = item.centre
        return f"{number(x + item.radius * math.cos(radians))} {number(y - item.radius * math.sin(radians))}"

    radius, large = number(item.radius), int((item.end - item.start) % (2 * HALF_TURN) > HALF_TURN)
    path = f"M{at(item.start)}A{radius} {radius} 0 {large} 0 {at(item.end)}"
    return f'<path d="{path}"{_pen(item.pen)}{_owner(item.owner)}/>'


def _text(item: Text, *, fitted: bool) -> str:
    text = known(item.text)
    long = (
        f' textLength="{number(width(text, item.size, item.weight))}" lengthAdjust="spacingAndGlyphs"' if fitted else ""
    )
    x, y = map(number, item.at)
    turn = f' transform="rotate({number(-item.turn)} {x} {y})"' if item.turn else ""
    anchor = "" if item.anchor == "start" else f' text-anchor="{item.anchor}"'
    words = (
        f'<text x="{x}" y="{y}" font-family="{FAMILY[item.weight]}" font-size="{number(em(item.size))}"'
        f' font-weight="{CSS_WEIGHT[item.weight]}"'
        f'{anchor}{long}{turn} fill="{COLOUR[item.ink]}"{_owner(item.owner)}>{escape(text)}</text>'
    )
    if not item.ground:
        return words
    return f'<path d="{_path(item.box_grown(item.ground), True)}" fill="{COLOUR["white"]}"/>{words}'


def _path(points: tuple[Vec2, ...], closed: bool) -> str:
    steps = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{steps}Z" if closed else f"M{steps}"


def _pen(name: str) -> str:
    pen = PENS[name]
    dashes = f' stroke-dasharray="{" ".join(map(number, pen.dashes))}"' if pen.dashes else ""
    return f' stroke="#000" stroke-width="{number(pen.width)}"{dashes}'


def _owner(name: str) -> str:
    return f' data-owner="{escape(name)}"' if name else ""

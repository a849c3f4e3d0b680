"""Sheets as one PDF through typst: each drawing at its exact size, only our own fonts, the same bytes always.

Typst gets the drawings as JSON and the layout as a fixed text; no word of a user's is ever part of the
typst source. There is no clock in it: the timestamp is fixed, so equal drawings give equal files. Text whose
font is missing would silently come out in a serif, and typst only warns: a warning is an error here.

Lines go in as pictures, lettering as the document's own text: so each font is in the file once, and not once a sheet,
which is half of the file and two thirds of the time. Where something is painted over lettering, the sheet is laid
down in layers, so that it still lies over it.
"""

import json
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Any, Literal

import numpy as np
import typst
from numpy.typing import NDArray

from .display import Area, Circle, Display, Item, Text, extent
from .lettering import CSS_WEIGHT, FAMILY, FOLDER, em, known
from .svg import svg

TIMESTAMP = 0  # of no meaning; the job's own date stands in the title block
_LAYOUT = """\
#let sheets = json(bytes(sys.inputs.sheets))
#set document(title: sys.inputs.title, keywords: sys.inputs.stamp, date: none)
#set text(stretch: 75%, fallback: false, top-edge: "baseline", bottom-edge: "baseline")
#let ends = (start: left, middle: center, end: right)
#let inks = (black: rgb("#000"), white: rgb("#fff"), grey: rgb("#d9d9d9"))
#let put((x, y, words, size, face, weight, anchor, turn, ink)) = {
  let end = ends.at(anchor)
  let said = text(font: face, size: size * 1mm, weight: weight, fill: inks.at(ink), words)
  place(top + end, dx: x * 1mm, dy: y * 1mm, if turn == 0 { said } else { rotate(turn * 1deg, origin: end, said) })
}
#for sheet in sheets {
  let (wide, high) = (sheet.width * 1mm, sheet.height * 1mm)
  page(width: wide, height: high, margin: 0pt, for (number, layer) in sheet.layers.enumerate() {
    let says = if number == 0 { sheet.says }
    place(image(bytes(layer.svg), format: "svg", width: wide, height: high, alt: says))
    for words in layer.words { put(words) }
  })
}
"""
_SPACES = re.compile(r"[ \t\r\n]+")  # not those at which no line may break
_START = {"start": 0.0, "middle": 0.5, "end": 1.0}  # of the sheet's width, from where typst counts


@cache
def _fonts() -> typst.Fonts:
    """Our four fonts and no others, not even those that typst brings along."""
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FOLDER)])


def pdf(displays: Sequence[Display], title: str, says: Sequence[str] = (), stamp: str = "") -> bytes:
    """The drawings as the pages of one PDF.

    Args:
        displays: one a page, in order.
        title: of the document.
        says: what each page is, for readers that cannot see it; may be shorter than the pages.
        stamp: of the set of papers that it belongs to; its keyword.

    Raises:
        AssertionError: typst warned, which only our own layout or fonts can cause.
    """
    return _set(displays, (title, stamp), says, "pdf", None)


def png(display: Display, dots_an_inch: float = 96.0) -> bytes:
    """One drawing as a picture, for the manual."""
    return _set([display], ("", ""), (), "png", dots_an_inch)


def _set(
    displays: Sequence[Display],
    named: tuple[str, str],
    says: Sequence[str],
    form: Literal["pdf", "png"],
    ppi: float | None,
) -> bytes:
    said = [*says, *[""] * (len(displays) - len(says))]
    sheets = [
        {"width": display.width, "height": display.height, "says": words, "layers": [*map(_layer, layers(display))]}
        for display, words in zip(displays, said, strict=True)
    ]
    data, warnings = typst.compile_with_warnings(
        _LAYOUT.encode(),
        format=form,
        ppi=ppi,
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"sheets": json.dumps(sheets), "title": named[0], "stamp": named[1]},
        timestamp=TIMESTAMP,
    )
    assert not warnings, f"typst warns of the sheets: {[str(warning) for warning in warnings]}"
    assert isinstance(data, bytes), "one file was asked for"
    return data


# --- layers --------------------------------------------------------------------------------------


def layers(display: Display) -> list[Display]:
    """The drawing in layers, of each of which the lettering may be painted last; mostly it is one."""
    items = [part for item in display.items for part in _apart(item)]
    shut, words = _boxes(items, _is_opaque), _boxes(items, lambda item: isinstance(item, Text))
    over = _overlaps(shut, words)
    cuts, last = [0], 0
    for at, first in sorted(over):  # what is painted at `at` hides lettering of `first` or later
        if first >= last:
            last = at
            cuts.append(at)
    return [replace(display, items=tuple(items[start:stop])) for start, stop in pairwise([*cuts, len(items)])]


def _apart(item: Item) -> Iterator[Item]:
    """Lettering on a white ground as a ground and lettering."""
    if isinstance(item, Text) and item.ground:
        yield Area(loops=(item.box_grown(item.ground),), ink="white", layer=item.layer)
        yield replace(item, ground=0.0)
    else:
        yield item


def _is_opaque(item: Item) -> bool:
    return isinstance(item, Area) or (isinstance(item, Circle) and item.ink is not None)


def _boxes(items: Sequence[Item], wanted: Callable[[Item], bool]) -> NDArray[np.float64]:
    """`(n, 5)`: place in the list, left, top, right, bottom of each item that is wanted."""
    rows = [(number, *extent([item])) for number, item in enumerate(items) if wanted(item)]
    return np.asarray(rows, dtype=np.float64).reshape(-1, 5)


def _overlaps(shut: NDArray[np.float64], words: NDArray[np.float64]) -> list[tuple[int, int]]:
    """Places in the list: of each opaque item that is painted over lettering, and of the last that it is over."""
    one, other = shut[:, None, :], words[None, :, :]
    later = one[:, :, 0] > other[:, :, 0]
    met = np.all((one[:, :, 1:3] < other[:, :, 3:]) & (one[:, :, 3:] > other[:, :, 1:3]), axis=2)
    over = np.where(later & met, other[:, :, 0], -1.0).max(axis=1, initial=-1.0)
    return [(int(at), int(last)) for at, last in zip(shut[:, 0], over, strict=True) if last >= 0]


def _layer(display: Display) -> dict[str, Any]:
    """A layer as typst reads it."""
    lines = replace(display, items=tuple(item for item in display.items if not isinstance(item, Text)))
    words = [_words(item, display.width) for item in display.items if isinstance(item, Text)]
    return {"svg": svg(lines), "words": words}


def _words(item: Text, wide: float) -> list[Any]:
    """Lettering; spaces fall together, as in any other written form of a drawing."""
    x, y = (round(value, 3) + 0.0 for value in (item.at[0] - wide * _START[item.anchor], item.at[1]))
    said = _SPACES.sub(" ", known(item.text)).strip(" ")
    turn = round(-item.turn, 3) + 0.0
    return [x, y, said, em(item.size), FAMILY[item.weight], CSS_WEIGHT[item.weight], item.anchor, turn, item.ink]

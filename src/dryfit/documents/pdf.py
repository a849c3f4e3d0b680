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
from itertools import pairwise, zip_longest
from typing import Any, Literal

import numpy as np
import typst
from numpy.typing import NDArray

from ..lengths import written
from .display import Area, Circle, Display, Item, Text, extent
from .lettering import CSS_WEIGHT, FAMILY, FOLDER, em, known
from .pages import Leads
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
#show heading: none
#let found((level, words)) = place(heading(level: level, outlined: true, bookmarked: true, words))
#let lead((x, y, wide, high, page)) = {
  let room = box(width: wide * 1mm, height: high * 1mm)
  place(top + left, dx: x * 1mm, dy: y * 1mm, link((page: page, x: 0mm, y: 0mm), room))
}
#for sheet in sheets {
  let (wide, high) = (sheet.width * 1mm, sheet.height * 1mm)
  page(width: wide, height: high, margin: 0pt, {
    for words in sheet.found { found(words) }
    for (number, layer) in sheet.layers.enumerate() {
      let says = if number == 0 { sheet.says }
      place(image(bytes(layer.svg), format: "svg", width: wide, height: high, alt: says))
      for words in layer.words { put(words) }
    }
    for box in sheet.leads { lead(box) }
  })
}
"""
_SPACES = re.compile(r"[ \t\r\n]+")  # not those at which no line may break
_START = {"start": 0.0, "middle": 1 / 2, "end": 1.0}  # of the sheet's width, from where typst counts


@cache
def _fonts() -> typst.Fonts:
    """Our four fonts and no others, not even those that typst brings along."""
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FOLDER)])


def pdf(
    displays: Sequence[Display],
    title: str,
    says: Sequence[str] = (),
    stamp: str = "",
    leads: Sequence[Leads] = (),
) -> bytes:
    """The drawings as the pages of one PDF.

    Args:
        displays: one a page, in order.
        title: of the document.
        says: what each page is, for readers that cannot see it; may be shorter than the pages.
        stamp: of the set of papers that it belongs to; its keyword.
        leads: bookmarks and links of each page; may be shorter than the pages.

    Raises:
        AssertionError: typst warned, which only our own layout or fonts can cause.
    """
    return _set(displays, (title, stamp), says, leads, "pdf", None)


def unscaled(data: bytes) -> bytes:
    """The same PDF, which asks a printer's dialogue not to fit its pages to the paper.

    Its catalogue is told anew at the end, as an incremental update (ISO 32000-1, 7.5.6; PrintScaling: 12.2, table 150).
    What is in it already stays byte for byte.
    """
    trailer = data[data.rindex(b"trailer") :]
    (root,) = re.findall(rb"/Root (\d+) 0 R", trailer)
    start = data.rindex(b"\n%b 0 obj\n" % root) + 1
    catalogue = data[start : data.index(b"endobj", start)]
    told = catalogue.replace(b"/ViewerPreferences<<", b"/ViewerPreferences<</PrintScaling/None", 1)
    assert told != catalogue, "the catalogue has no preferences to add to"
    (before,) = re.findall(rb"startxref\s+(\d+)", trailer)
    whole = data.rstrip() + b"\n"
    at, end = len(whole), len(whole) + len(told) + len(b"endobj\n")
    entry = b"xref\n%b 1\n%010d 00000 n\r\n" % (root, at)
    again = trailer[: trailer.index(b"startxref")].rstrip().replace(b"<<", b"<</Prev %b" % before, 1)
    return b"%b%bendobj\n%b%b\nstartxref\n%d\n%%%%EOF\n" % (whole, told, entry, again, end)


def png(display: Display, dots_an_inch: float = 96.0) -> bytes:
    """One drawing as a picture, for the manual."""
    return _set([display], ("", ""), (), (), "png", dots_an_inch)


def _set(
    displays: Sequence[Display],
    named: tuple[str, str],
    says: Sequence[str],
    leads: Sequence[Leads],
    form: Literal["pdf", "png"],
    ppi: float | None,
) -> bytes:
    sheets = [
        {
            "width": display.width,
            "height": display.height,
            "says": words or "",
            "layers": [*map(_layer, layers(display))],
            **_leading(to or Leads()),
        }
        for display, words, to in zip_longest(displays, says, leads)
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


def _leading(to: Leads) -> dict[str, Any]:
    """Bookmarks and links as typst reads them."""
    return {
        "found": [[bookmark.level, known(bookmark.says)] for bookmark in to.bookmarks],
        "leads": [[*_room(link.box), link.page] for link in to.links],
    }


def _room(box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    """From left, top, right, bottom: left, top, width, height."""
    left, top, right, bottom = box
    return written(left), written(top), written(right - left), written(bottom - top)


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


def _boxes(items: Sequence[Item], wanted: Callable[[Item], bool]) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """`(n,)` the place in the list of each item that is wanted, and `(n, 2, 2)` its left top and right bottom."""
    places = [number for number, item in enumerate(items) if wanted(item)]
    boxes = [extent([items[place]]) for place in places]
    return np.asarray(places, dtype=np.int64), np.asarray(boxes, dtype=np.float64).reshape(-1, 2, 2)


def _overlaps(
    shut: tuple[NDArray[Any], NDArray[Any]], words: tuple[NDArray[Any], NDArray[Any]]
) -> list[tuple[int, int]]:
    """Places in the list: of each opaque item that is painted over lettering, and of the last that it is over."""
    (at, boxes), (said, texts) = shut, words
    later = at[:, None] > said[None]
    one, other = boxes[:, None], texts[None]
    met = np.all((one[:, :, 0] < other[:, :, 1]) & (one[:, :, 1] > other[:, :, 0]), axis=2)
    over = np.where(later & met, said[None], -1).max(axis=1, initial=-1)
    return [(place, last) for place, last in zip(at.tolist(), over.tolist(), strict=True) if last >= 0]


def _layer(display: Display) -> dict[str, Any]:
    """A layer as typst reads it."""
    lines = replace(display, items=tuple(item for item in display.items if not isinstance(item, Text)))
    words = [_words(item, display.width) for item in display.items if isinstance(item, Text)]
    return {"svg": svg(lines), "words": words}


def _words(item: Text, wide: float) -> list[Any]:
    """Lettering; spaces fall together, as in any other written form of a drawing."""
    x, y = (written(value) for value in (item.at[0] - wide * _START[item.anchor], item.at[1]))
    said = _SPACES.sub(" ", known(item.text)).strip(" ")
    turn = written(-item.turn)
    return [x, y, said, em(item.size), FAMILY[item.weight], CSS_WEIGHT[item.weight], item.anchor, turn, item.ink]

"""Sheets as one PDF through typst: each drawing at its exact size, only our own fonts, the same bytes always.

Typst gets the drawings as JSON and the layout as a fixed text; no word of a user's is ever part of the
typst source. There is no clock in it: the timestamp is fixed, so equal drawings give equal files. Text whose
font is missing would silently come out in a serif, and typst only warns: a warning is an error here.
"""

import json
from collections.abc import Sequence
from functools import cache
from typing import Literal

import typst

from .display import Display
from .lettering import FOLDER
from .svg import svg

TIMESTAMP = 0  # of no meaning; the job's own date stands in the title block
_LAYOUT = """\
#let sheets = json(bytes(sys.inputs.sheets))
#set document(title: sys.inputs.title, date: none)
#set text(font: "IBM Plex Sans", stretch: 75%, fallback: false)
#for sheet in sheets {
  page(width: sheet.width * 1mm, height: sheet.height * 1mm, margin: 0pt,
    image(bytes(sheet.svg), format: "svg", width: sheet.width * 1mm, height: sheet.height * 1mm, alt: sheet.says))
}
"""


@cache
def _fonts() -> typst.Fonts:
    """Our four fonts and no others, not even those that typst brings along."""
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FOLDER)])


def pdf(displays: Sequence[Display], title: str, says: Sequence[str] = ()) -> bytes:
    """The drawings as the pages of one PDF.

    Args:
        displays: one a page, in order.
        title: of the document.
        says: what each page is, for readers that cannot see it; may be shorter than the pages.

    Raises:
        AssertionError: typst warned, which only our own layout or fonts can cause.
    """
    return _set(displays, title, says, "pdf", None)


def png(display: Display, dots_an_inch: float = 96.0) -> bytes:
    """One drawing as a picture, for the manual."""
    return _set([display], "", (), "png", dots_an_inch)


def _set(
    displays: Sequence[Display], title: str, says: Sequence[str], form: Literal["pdf", "png"], ppi: float | None
) -> bytes:
    said = [*says, *[""] * (len(displays) - len(says))]
    sheets = [
        {"width": display.width, "height": display.height, "svg": svg(display), "says": words}
        for display, words in zip(displays, said, strict=True)
    ]
    data, warnings = typst.compile_with_warnings(
        _LAYOUT.encode(),
        format=form,
        ppi=ppi,
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"sheets": json.dumps(sheets), "title": title},
        timestamp=TIMESTAMP,
    )
    assert not warnings, f"typst warns of the sheets: {[str(warning) for warning in warnings]}"
    assert isinstance(data, bytes), "one file was asked for"
    return data

"""Reads a PDF back: its text with places in mm from the top left of the page, its fonts, its page sizes."""

import ctypes
from dataclasses import dataclass

import pypdfium2 as pdfium
import pypdfium2.raw as raw

MM = 25.4 / 72


@dataclass(frozen=True)
class Found:
    """One text on a page: its box in mm, x to the right, y down."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


def pages(data):
    """The text of each page."""
    with pdfium.PdfDocument(data) as document:
        return [page.get_textpage().get_text_range() for page in document]


def sizes(data):
    """Width and height of each page in mm."""
    with pdfium.PdfDocument(data) as document:
        return [(page.get_width() * MM, page.get_height() * MM) for page in document]


def find(data, page, text):
    """Every place of a text on a page (from 0)."""
    with pdfium.PdfDocument(data) as document:
        sheet = document[page]
        words, height = sheet.get_textpage(), sheet.get_height()
        found, searcher = [], words.search(text, match_case=True)
        while (hit := searcher.get_next()) is not None:
            index, count = hit
            boxes = [words.get_charbox(index + i) for i in range(count)]
            ends = [words.get_charbox(index + i, loose=True) for i in range(count)]  # with the air beside the ink
            left, right = min(b[0] for b in ends), max(b[2] for b in ends)
            bottom, top = min(b[1] for b in boxes), max(b[3] for b in boxes)
            found.append(Found(text, left * MM, (height - top) * MM, right * MM, (height - bottom) * MM))
        return found


def fonts(data):
    """Base names of all fonts, without the prefix of a subset."""
    names = set()
    with pdfium.PdfDocument(data) as document:
        for page in document:
            for item in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT], max_depth=15):
                font = raw.FPDFTextObj_GetFont(item)
                length = raw.FPDFFont_GetBaseFontName(font, None, 0)
                buffer = ctypes.create_string_buffer(length)
                raw.FPDFFont_GetBaseFontName(font, buffer, length)
                names.add(buffer.value.decode().rpartition("+")[2])
    return names

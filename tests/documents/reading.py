"""Reads a PDF back: its text with places in mm from the top left of the page, its fonts, its page sizes."""

import ctypes
import math
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


@dataclass(frozen=True)
class Line:
    """A straight stroke on a page in mm, y down: its ends as the page shows them, and how wide it is drawn."""

    width: float
    start: tuple[float, float]
    end: tuple[float, float]

    @property
    def long(self):
        """From end to end."""
        return math.dist(self.start, self.end)

    @property
    def upright(self):
        """Whether it runs up the page."""
        return abs(self.start[0] - self.end[0]) < 1e-3


def lines(data, page):
    """Every straight stroke of a page (from 0), through the matrices of all that it is drawn in and the page's crop."""
    with pdfium.PdfDocument(data) as document:
        sheet = document[page]
        left, _, _, top = sheet.get_cropbox()
        assert sheet.get_rotation() == 0
        found = []
        for item in sheet.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=15):
            matrix, holder = item.get_matrix(), item.container
            while holder is not None:
                matrix, holder = matrix.multiply(holder.get_matrix()), holder.container

            def at(x, y, matrix=matrix):
                x, y = matrix.on_point(x, y)
                return (x - left) * MM, (top - y) * MM

            wide = ctypes.c_float()
            raw.FPDFPageObj_GetStrokeWidth(item, wide)
            scale = math.hypot(matrix.a, matrix.b) * MM
            found += (Line(wide.value * scale, at(*p), at(*q)) for p, q in _straight(item))
        return found


def _straight(path):
    """The straight pieces of a path."""
    first = here = None
    for number in range(raw.FPDFPath_CountSegments(path)):
        segment = raw.FPDFPath_GetPathSegment(path, number)
        x, y = ctypes.c_float(), ctypes.c_float()
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        kind, p = raw.FPDFPathSegment_GetType(segment), (x.value, y.value)
        if kind == raw.FPDF_SEGMENT_LINETO:
            yield here, p
        first, here = (p if kind == raw.FPDF_SEGMENT_MOVETO else first), p
        if raw.FPDFPathSegment_GetClose(segment) and p != first:
            yield p, first

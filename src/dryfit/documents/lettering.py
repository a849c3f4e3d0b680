"""Measured lettering: how wide a text is on paper, read from the committed fonts themselves.

The advances come once from the four TTF files beside this module, by a small reader of the tables `head`,
`hhea`, `hmtx` and `cmap` (format 4) after the OpenType specification; no font library is needed and no
table of widths can grow stale. Kerning is left out: in these fonts it only draws letters together, so a
measured width is never too small by more than a hair.

Sizes are heights of capitals in mm, as ISO 3098 counts them; the em is that height / 0.698.
"""

import struct
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import Literal, TypeAlias

FOLDER = Path(__file__).parent / "fonts"
STRETCH = "75%"
CAPITAL = 0.698  # height of capitals / em (OS/2 sCapHeight 698 of 1000)
ASCENT, DESCENT = 0.780, 0.220  # what ink of b, d, f and of g, p, y takes of an em, above and below the line

CAPTION, TEXT, FIGURE, NAME, LETTER = 1.8, 2.5, 3.5, 5.0, 7.0

Weight: TypeAlias = Literal["regular", "medium", "semibold", "bold"]
FILES: dict[Weight, str] = {
    "regular": "IBMPlexSansCondensed-Regular.ttf",
    "medium": "IBMPlexSansCondensed-Medium.ttf",
    "semibold": "IBMPlexSansCondensed-SemiBold.ttf",
    "bold": "IBMPlexSansCondensed-Bold.ttf",
}
# The names by which typst finds the four, in its own lettering and in SVG: for two of them the condensed cut of
# the family, for two the name in the font's own first name record. Any other name gives a serif, unwarned.
FAMILY: dict[Weight, str] = {
    "regular": "IBM Plex Sans",
    "medium": "IBM Plex Sans Cond Medm",
    "semibold": "IBM Plex Sans Cond SmBld",
    "bold": "IBM Plex Sans",
}
CSS_WEIGHT: dict[Weight, int] = {"regular": 400, "medium": 500, "semibold": 600, "bold": 700}
STAND_IN = "?"  # printed for a character that the fonts do not have


def em(size: float) -> float:
    """The font size whose capitals are `size` high."""
    return size / CAPITAL


def width(text: str, size: float, weight: Weight = "regular") -> float:
    """How far the text reaches along its line."""
    return _advance(text, weight) * em(size) / 1000


@lru_cache(maxsize=1 << 16)  # a table is laid out many times over, of the same few words
def _advance(text: str, weight: Weight) -> int:
    """The same in thousandths of the em."""
    advances = _advances(weight)
    wide = advances.get(ord(STAND_IN), 0)
    return sum(advances.get(ord(letter), wide) for letter in text)


def printable(text: str) -> str:
    """The text in characters that the fonts have, on one line: others become a question mark.

    A font that lacks a character would hand the whole word to another font without a warning.
    """
    return known(" ".join(text.split()))


def known(text: str) -> str:
    """The text with every character that the fonts lack replaced; spaces stay as they are."""
    there = _advances("regular")
    return "".join(letter if ord(letter) in there else STAND_IN for letter in text)


def fitted(text: str, room: float, size: float, weight: Weight = "regular") -> str:
    """The text, cut short with an ellipsis where it is wider than `room`."""
    if width(text, size, weight) <= room:
        return text
    for end in range(len(text) - 1, 0, -1):
        short = text[:end].rstrip() + "…"
        if width(short, size, weight) <= room:
            return short
    return ""


def wrapped(text: str, room: float, size: float, weight: Weight = "regular") -> list[str]:
    """The text in lines no wider than `room`, nothing left out: a single word that is wider is divided."""
    lines: list[str] = []
    for word in text.split():
        if lines and width(f"{lines[-1]} {word}", size, weight) <= room:
            lines[-1] += f" {word}"
        else:
            lines += divided(word, room, size, weight)
    return lines


def divided(word: str, room: float, size: float, weight: Weight = "regular") -> Iterator[str]:
    """A word in pieces no wider than `room`, each a letter at least."""
    start = 0
    for end in range(1, len(word) + 1):
        if end - start > 1 and width(word[start:end], size, weight) > room:
            yield word[start : end - 1]
            start = end - 1
    yield word[start:]


def widest(texts: Sequence[str], size: float, weight: Weight = "regular") -> float:
    """Width of the widest of several texts, 0 for none."""
    return max((width(text, size, weight) for text in texts), default=0.0)


@cache
def _advances(weight: Weight) -> dict[int, int]:
    """Advance of each character in thousandths of the em, by code point."""
    font = (FOLDER / FILES[weight]).read_bytes()
    tables = _tables(font)
    per_em = struct.unpack_from(">H", font, tables["head"] + 18)[0]
    measured = struct.unpack_from(">H", font, tables["hhea"] + 34)[0]
    pairs = struct.unpack_from(f">{2 * measured}H", font, tables["hmtx"])
    glyph_widths = pairs[::2]
    glyphs = _characters(font, tables["cmap"])
    return {code: round(glyph_widths[min(glyph, measured - 1)] * 1000 / per_em) for code, glyph in glyphs.items()}


def _tables(font: bytes) -> dict[str, int]:
    """Where each table of a font starts."""
    count = struct.unpack_from(">H", font, 4)[0]
    rows = (struct.unpack_from(">4sIII", font, 12 + 16 * row) for row in range(count))
    return {tag.decode("ascii"): offset for tag, _, offset, _ in rows}


def _characters(font: bytes, cmap: int) -> dict[int, int]:
    """Glyph of each character of the basic plane, from the font's Unicode table (format 4)."""
    count = struct.unpack_from(">H", font, cmap + 2)[0]
    for row in range(count):
        platform, _, offset = struct.unpack_from(">HHI", font, cmap + 4 + 8 * row)
        if platform in (0, 3) and struct.unpack_from(">H", font, cmap + offset)[0] == 4:
            return _format_4(font, cmap + offset)
    raise AssertionError("the font has no Unicode table of format 4")


def _format_4(font: bytes, at: int) -> dict[int, int]:
    segments = struct.unpack_from(">H", font, at + 6)[0] // 2
    ends = struct.unpack_from(f">{segments}H", font, at + 14)
    starts = struct.unpack_from(f">{segments}H", font, at + 16 + 2 * segments)
    deltas = struct.unpack_from(f">{segments}h", font, at + 16 + 4 * segments)
    ranges_at = at + 16 + 6 * segments
    ranges = struct.unpack_from(f">{segments}H", font, ranges_at)
    glyphs: dict[int, int] = {}
    for segment, (start, end, delta, jump) in enumerate(zip(starts, ends, deltas, ranges, strict=True)):
        for code in range(start, min(end, 0xFFFE) + 1):
            glyph = code
            if jump:
                place = ranges_at + 2 * segment + jump + 2 * (code - start)
                glyph = struct.unpack_from(">H", font, place)[0]
                if glyph == 0:
                    continue
            glyph = (glyph + delta) & 0xFFFF
            if glyph:
                glyphs[code] = glyph
    return glyphs

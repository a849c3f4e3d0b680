"""Measured lettering: how wide a text is on paper, read from the committed fonts themselves.

The advances and heights come once from the four TTF files beside this module, by a small reader of the tables
`head`, `hhea`, `hmtx`, `OS/2` and `cmap` (format 4) after the OpenType specification; no font library is needed
and no table of widths can grow stale. Kerning is left out: in these fonts it only draws letters together, so a
measured width is never too small by more than a hair.

Sizes are heights of capitals in mm, as ISO 3098 counts them; the em is that height / `CAPITAL`.
"""

import struct
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import Literal, TypeAlias

from .standard import CAPTION, FIGURE, LETTER, NAME, TEXT

__all__ = ["CAPTION", "FIGURE", "LETTER", "NAME", "TEXT"]

FOLDER = Path(__file__).parent / "fonts"
STRETCH = "75%"

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
STAND_IN = "?"  # printed for a character that the fonts do not have
UNPRINTED = range(
    0xE000, 0xE102
)  # letters of our own, never printed: the first as wide as a figure, the others nothing

# Records of a font file, of the OpenType specification, as far as they are read. All numbers stand high byte first.
_START = struct.Struct(">IHHHH")  # version, how many tables, then three to search them by
_TABLE = struct.Struct(">4sIII")  # of the directory: tag, checksum, offset, length
_HEAD = struct.Struct(">HHIIIHH")  # version, revision and checksum, magic, flags, units of an em
_HHEA = struct.Struct(">HHhhhHhhhhhhhhhhhH")  # ..., of how many glyphs `hmtx` has the advance
_OS2 = struct.Struct(">HhHHHhhhhhhhhhhh10sIIII4sHHHhhhHHIIhh")  # of version 2 and later
_CMAP = struct.Struct(">HH")  # version, how many encodings
_ENCODING = struct.Struct(">HHI")  # platform, encoding, offset
_SEGMENTS = struct.Struct(">HHHHHHH")  # of format 4: format, length, language, twice the segments, three to search by
_UNIT = struct.Struct(">H")
_UNICODE, _WINDOWS = 0, 3  # platforms whose encodings are of Unicode
_BY_SEGMENTS = 4  # the format of a character table
_CODES = 1 << 16  # characters of the basic plane; the last ends the table


def em(size: float) -> float:
    """The font size whose capitals are `size` high."""
    return size / CAPITAL


def width(text: str, size: float, weight: Weight = "regular") -> float:
    """How far the text reaches along its line."""
    return _advance(text, weight) * em(size) / PER_EM


@lru_cache(maxsize=_CODES)  # a table is laid out many times over, of the same few words
def _advance(text: str, weight: Weight) -> int:
    """The same in the font's units."""
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


KEPT = "\u00a0"  # a space at which no line may break


def kept(text: str) -> str:
    """The same, in which no line may break."""
    return text.replace(" ", KEPT)


def unkept(text: str) -> str:
    """The same as it is printed, once its lines are broken."""
    return text.replace(KEPT, " ")


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
    if width(word, size, weight) <= room:
        yield word
        return
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
    """Advance of each character in the font's units, by code point."""
    font, tables = _font(weight)
    *_, measured = _HHEA.unpack_from(font, tables["hhea"])
    pairs = struct.unpack_from(f">{2 * measured}H", font, tables["hmtx"])
    glyph_widths = pairs[::2]
    glyphs = _characters(font, tables["cmap"])
    wides = {code: glyph_widths[min(glyph, measured - 1)] for code, glyph in glyphs.items()}
    return {**wides, **dict.fromkeys(UNPRINTED, 0), UNPRINTED.start: wides[ord("0")]}


@cache
def _font(weight: Weight) -> tuple[bytes, dict[str, int]]:
    """A font, and where each of its tables starts."""
    font = (FOLDER / FILES[weight]).read_bytes()
    _, count, *_ = _START.unpack_from(font)
    rows = (_TABLE.unpack_from(font, _START.size + _TABLE.size * row) for row in range(count))
    return font, {tag.decode("ascii"): offset for tag, _, offset, _ in rows}


def _units(weight: Weight) -> int:
    """The units of its em."""
    font, tables = _font(weight)
    return int(_HEAD.unpack_from(font, tables["head"])[-1])


def _heights() -> Iterator[float]:
    """Of capitals, of small letters without ascenders, above and below the line, all / em."""
    font, tables = _font("regular")
    *_, ascent, descent, _, _, _, _, _, small, capital = _OS2.unpack_from(font, tables["OS/2"])
    return (height / PER_EM for height in (capital, small, ascent, -descent))


def _css_weight(weight: Weight) -> int:
    """How bold a font says it is, in the figures of style sheets."""
    font, tables = _font(weight)
    _, _, bold, *_ = _OS2.unpack_from(font, tables["OS/2"])
    return int(bold)


def _characters(font: bytes, cmap: int) -> dict[int, int]:
    """Glyph of each character of the basic plane, from the font's Unicode table (format 4)."""
    _, count = _CMAP.unpack_from(font, cmap)
    for row in range(count):
        platform, _, offset = _ENCODING.unpack_from(font, cmap + _CMAP.size + _ENCODING.size * row)
        form, *_ = _UNIT.unpack_from(font, cmap + offset)
        if platform in (_UNICODE, _WINDOWS) and form == _BY_SEGMENTS:
            return _format_4(font, cmap + offset)
    raise AssertionError("the font has no Unicode table of format 4")


def _format_4(font: bytes, at: int) -> dict[int, int]:
    _, _, _, twice, *_ = _SEGMENTS.unpack_from(font, at)
    segments, at = twice // 2, at + _SEGMENTS.size
    columns = struct.Struct(f">{segments}H H {segments}H {segments}h")  # last codes, a pad, first codes, deltas
    last, rest = columns.unpack_from(font, at)[:segments], columns.unpack_from(font, at)[segments + 1 :]
    first, deltas = rest[:segments], rest[segments:]
    ranges_at = at + columns.size
    ranges = struct.unpack_from(f">{segments}H", font, ranges_at)
    glyphs: dict[int, int] = {}
    for segment, (start, end, delta, jump) in enumerate(zip(first, last, deltas, ranges, strict=True)):
        for code in range(start, min(end + 1, _CODES - 1)):
            glyph = code
            if jump:
                place = ranges_at + _UNIT.size * (segment + code - start) + jump
                (glyph,) = _UNIT.unpack_from(font, place)
                if glyph == 0:
                    continue
            glyph = (glyph + delta) % _CODES
            if glyph:
                glyphs[code] = glyph
    return glyphs


PER_EM = _units("regular")  # units of an em: in all four
CAPITAL, SMALL, ASCENT, DESCENT = (
    _heights()
)  # of an em: ink of b, d, f goes up to `ASCENT`, of g, p, y down to `DESCENT`
CSS_WEIGHT: dict[Weight, int] = {weight: _css_weight(weight) for weight in FILES}

"""The series of the drawing standards, of which every width, height and gap on a sheet is made. In mm on paper.

The standards were not at hand when this was written; their figures are from memory. Both series step by the root of
two, so that a sheet copied from A3 to A4 keeps to them.
"""

WIDTHS = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7)  # of lines: ISO 128-2
HAIR, FINE, THIN, MEDIUM, THICK, HEAVY = WIDTHS
HEIGHTS = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0)  # of capitals: ISO 3098-1
CAPTION, TEXT, FIGURE, NAME, LETTER, CARD, NUMBER = HEIGHTS
SCALES: tuple[float, ...] = tuple(1 / (step * 10**tens) for tens in range(4) for step in (1, 2, 5))  # ISO 5455

_DASH, _LONG, _GAP = 12, 24, 3  # of lines' widths: ISO 128-2
PAST = 8 * FINE  # of an extension line past its dimension line, and from the wood to where it begins: ISO 129-1
LINE = 1.5  # of the height of capitals, from base line to base line: ISO 3098-1, type B


def dashed(width: float) -> tuple[float, float]:
    """The dashes of a line of that width, drawn and left out."""
    return _DASH * width, _GAP * width


def axis(width: float) -> tuple[float, ...]:
    """Long dashes with dots between them; a dot of less than two widths does not print."""
    return _LONG * width, _GAP * width, 2 * width, _GAP * width


# --- rules of our own, made of these ---------------------------------------------------------------------------------

AIR = TEXT / 5  # white around words
LIFT = TEXT / 3  # of a figure above its line
FIRST, ROW = PAST + TEXT + LIFT + AIR, TEXT + LIFT + PAST + AIR  # to the first dimension line, and from line to line
STEP = LINE * TEXT  # from base line to base line of the plain text
UNDER = STEP - TEXT  # from the last base line to what is below, as from a line of text to the next
GROUND = TEXT / 4  # of white around words that stand on hatch
DOT = 2 * THICK  # diameter of what a leader ends in on a face
BREAK = TEXT  # taken out of a drawing that is broken

STEP = LINE * TEXT  # from line to line of words
SMALL, SMALLEST = SCALES[3:5]  # 1:10 and 1:20
DETAILS = SCALES[: SCALES.index(SMALLEST) + 1]  # of details and sections: none is smaller
BLANK = 5 * TEXT  # a line to write a figure on
RIGHT = 90.0  # degrees: walls square to a face; words read from the right
HALF_TURN = 2 * RIGHT

# Sheets of paper, ISO 216, upright: width and height in mm.
A4 = (210.0, 297.0)
A3 = (297.0, 420.0)
LETTER_PAPER = (8.5 * 25.4, 11 * 25.4)  # 8 1/2 by 11 inches: ANSI/ASME Y14.1, size A

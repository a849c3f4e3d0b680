"""Reads the sums of a paper back from its PDF as a maker does, and adds them in the units that are printed.

Three places have them: sentences ("Length 790 = 776 between shoulders + 2 × 7.0", wrapped anywhere), the table of a
joint's figures, where a sum stands on the left of what it comes to, and the table of what differs between joints, whose
heads have sums of letters. Nothing of Dryfit is used.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

import pypdfium2 as pdfium

from tests.documents.sheet_words import runs_of

FIGURE = r"(?:(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)"  # "28 59/64", "7/8", "24.15"
SIGN = re.compile(r" (\+|−|–|less) ")
ROUNDED = Fraction(1, 20)  # what a total may be off the figure beside it, which is rounded to its step
DOWN = Fraction(1, 10)  # "at most" is rounded down to 0.1


def value(text):
    """A printed figure, exactly."""
    whole, _, part = text.rpartition(" ")
    return Fraction(part) + (Fraction(whole) if whole else 0)


def added(text):
    """What a printed sum comes to, remarks in brackets left out; None for a product or an angle, which is no sum."""
    if half := re.fullmatch(r"\((.*)\) / 2", text):
        return added(half[1]) / 2
    text = re.sub(r" \(.*?\)(?: and)?", "", text)
    if re.search(r"half of|sin|tan|(?<!\d) ×|× \D|°|\.\d+ ×", text):
        return None
    total = Fraction(0)
    for sign, term in zip(["+", *SIGN.findall(text)], SIGN.split(text)[::2], strict=True):
        times, figure = re.search(rf"(?:(\d+) × )?(?:^|[^\d]*?)({FIGURE})", term).groups()
        total += (1 if sign == "+" else -1) * int(times or 1) * value(figure)
    return total


@dataclass(frozen=True)
class Printed:
    """A sum as it stands on a page: its words, what they come to and what is printed for it."""

    page: int
    text: str
    sum: Fraction
    total: Fraction
    at_most: bool = False

    @property
    def off(self):
        """How much the printed total is more than the sum; nothing where it is as it should be."""
        less = self.sum - self.total
        halved = ") / 2" in self.text and abs(less) <= Fraction(1, 200 if "." in self.text else 64)
        return Fraction(0) if halved or (self.at_most and 0 <= less < DOWN) else -less


def sums_in(data):
    """Every sum of a paper."""
    with pdfium.PdfDocument(data) as document:
        for number, page in enumerate(document, 1):
            runs, tables = runs_of(page), []
            yield from _figures(number, runs, tables)
            yield from _lettered(number, runs, tables)
            taken = {id(run) for run in tables}
            yield from _said(number, " ".join(run.text for run in runs if id(run) not in taken))


# --- sentences -----------------------------------------------------------------------------------

_TERM = rf"(?:\d+ × )?(?:[a-z][a-z ]*?)?{FIGURE}(?: (?!less\b)[a-z]+)*(?: \([^)]*\)(?: and \([^)]*\))*)?"
_SUM = rf"(?:\({FIGURE} [−–] {FIGURE}\) / 2|{_TERM}(?: (?:\+|−|–|less) {_TERM})+)"
_FORMS = (
    re.compile(rf"(?P<total>{FIGURE}) = (?P<sum>{_SUM})"),
    re.compile(rf"(?<![\d.] )(?<!× )(?:\b|(?=\())(?P<sum>{_SUM}) = (?:[a-z]+ )*?(?P<total>{FIGURE})"),
)
_DEEP = rf"\({FIGURE} deep less {FIGURE}\)"
_GOES_IN = re.compile(rf"(?P<terms>(?: \+ (?:\d+ × )?{FIGURE})+) (?P<all>{_DEEP}(?: and {_DEEP})?)")


def _said(page, words):
    """Sums in sentences, however they are wrapped; a remark that tells how a term came about is one too."""
    flat = " ".join(words.replace("\ufffe", "-").replace("\xa0", " ").split())
    for form in _FORMS:
        for found in form.finditer(flat):
            if (total := added(found["sum"])) is not None:
                yield Printed(page, found[0], total, value(found["total"]))
    for found in _GOES_IN.finditer(flat):
        goes = re.findall(FIGURE, re.sub(r"\d+ × ", "", found["terms"]))
        for how in re.findall(rf"{FIGURE} deep less {FIGURE}", found["all"]):
            comes_to = added(how)
            printed = min((value(one) for one in goes), key=lambda one, of=comes_to: abs(one - of))
            yield Printed(page, found[0], comes_to, printed)


# --- the table of a joint's figures ---------------------------------------------------------------


def _figures(page, runs, tables):
    """Sum and figure of each row; a sum that is wrapped goes on in the lines below, which have no figure."""
    for head in (run for run in runs if run.text.endswith("gure")):  # of a font that draws fi as one
        columns = {}
        for run in (run for run in runs if head.base - 12 < run.base < head.base + 0.2 and run.left > head.left - 0.5):
            left = next((one for one in columns if abs(one - run.left) < 0.4), run.left)
            columns.setdefault(left, []).append(run)
        said = {
            left: " ".join(run.text for run in sorted(some, key=lambda run: run.base)) for left, some in columns.items()
        }
        how = next((left for left, words in said.items() if words.endswith("how it comes about")), None)
        after = sorted(left for left, words in said.items() if words in ("mm", "in", "set") and how and left > how)
        if not after:
            continue
        first, figures = head.left, after[0]
        stop = after[1] if len(after) > 1 else figures + 20
        below = sorted((run for run in runs if run.base > head.base + 1), key=lambda run: (run.base, run.left))
        rows, base = [], head.base
        for run in below:
            if run.base - base > 6.0:
                break
            if run.left < first - 1 or run.left > stop - 1:
                continue
            base = run.base
            tables.append(run)
            if abs(run.left - first) < 0.5 and not (rows and rows[-1][0] == run.base):
                rows.append((run.base, [], []))
            if rows and how - 0.5 < run.left < figures - 0.5:
                rows[-1][1].append(run.text)
            elif rows and run.left >= figures - 0.5:
                rows[-1][2].append(run.text)
        for _, words, printed in rows:
            yield from _row(page, " ".join(words), " ".join(printed))


def _row(page, words, printed):
    how = words.rpartition(": ")[2] if not words.startswith("at most") else words.removeprefix("at most: in both faces")
    how = re.sub(r"^in both faces:? ", "", how).strip(": ")
    at_most = "2 × 1.5" in how and "less" in how
    terms, _, total = how.partition(" = ")
    if not SIGN.search(terms) or (sum_of := added(terms)) is None:
        return
    if total:
        yield Printed(page, how, sum_of, value(total))
        off = value(total) - value(printed)
        yield Printed(page, f"{how}, printed {printed}", off if abs(off) > ROUNDED else Fraction(0), Fraction(0))
    else:
        yield Printed(page, f"{how} is {printed}", sum_of, value(printed), at_most)


# --- the table of what differs --------------------------------------------------------------------


def _lettered(page, runs, tables):
    """Each head's sum, its letters being the row's figures in other columns."""
    for title in (run for run in runs if run.text.startswith("what differs")):
        foot = next((run.base for run in runs if run.base > title.base and run.text == "joint" and run.left < 30), None)
        if foot is None:
            continue
        heads = {}
        for run in sorted((r for r in runs if title.base + 1 < r.base < foot + 0.2), key=lambda r: r.base):
            left = next((one for one in heads if abs(one - run.left) < 0.4), run.left)
            heads[left] = f"{heads.get(left, '')} {run.text}".strip()
            tables.append(run)
        base = foot
        for line in sorted({round(run.base, 1) for run in runs if run.base > foot + 1}):
            if line - base > 6.0:
                break
            base = line
            cells = {}
            for run in (run for run in runs if abs(run.base - line) < 0.15):
                left = next((one for one in heads if abs(one - run.left) < 0.4), None)
                if left is not None:
                    cells[left] = run.text
            yield from _row_of_letters(page, heads, cells)


def _row_of_letters(page, heads, cells):
    letters = {head[0]: cells.get(left, "") for left, head in heads.items() if re.match(r"[a-z]( |$)", head)}
    for left, head in heads.items():
        how = re.sub(r"^[a-z] ", "", head).rpartition(": ")[2]
        if not SIGN.search(how) or left not in cells or re.search("sin|tan", how):
            continue
        said = re.sub(r"(?<![\w])([a-z])(?![\w])", lambda found: letters.get(found[1], found[1]), how)
        if (total := added(said)) is not None:
            yield Printed(page, f"{head}: {said} is {cells[left]}", total, value(cells[left]), "2 × 1.5" in how)

"""Builds a part from the words of its sheet, and works out what the sheet's rounding may change.

The builder's frame: a from the datum end, c to the face side, d from the wall edge to the front edge. A plane that is
moved by at most `e` over an area `A` changes at most `e A`. Half the last place, in mm: positions and depths 0.05
(1/128 inch = 0.198), widths 0.025 (0.0005 inch = 0.0127), thicknesses 0.005 (0.0127), angles 0.005 degrees. For a
slot 24 wide and 150 deep in 24: its two walls 2 x 0.05 x 150 x 24 and 0.025 x 150 x 24, its seat 0.05 x 24 x 24.

The circle of a key's cutter is found from its chord: it cuts the outer face `r` from the arris, and its middle stands
R - h outside the arris (plane geometry, two circles).
"""

import math
import re
from dataclasses import dataclass
from itertools import product

import manifold3d as m3
import numpy as np

from tests.documents.sheet_words import numbers_of

IN = 25.4
OVER = 1.0  # cuts run on past the wood
MARGIN = 5.0  # of wood beside a cut that is looked at with it


@dataclass(frozen=True)
class Scale:
    """How figures are printed: mm in one of them, and half the last place of each kind, in mm."""

    one: float
    place: float
    width: float
    thick: float

    def value(self, text):
        """A printed figure, whole, with decimals or with a fraction, in mm."""
        found = 0.0
        for word in text.split():
            top, _, low = word.partition("/")
            found += float(top) / float(low or 1)
        return found * self.one


METRIC, INCHES = Scale(1.0, 0.05, 0.025, 0.005), Scale(IN, IN / 128, IN / 2000, IN / 2000)
TURN = math.radians(0.005)
RUN_AND_STOP = 0.11  # each is printed to 0.1
FACETS = 1 - math.sin(2 * math.pi / 32) / (2 * math.pi / 32)  # of a circle, outside its polygon of 32 sides
FIGURE = r"\d+(?:\.\d+)?(?: \d+/\d+|/\d+)?"


CHEEK = re.compile(rf"cheek ({FIGURE}) below the (\w+ face)(?: along the bevel)?, shoulder at ({FIGURE})")


def figures(scale, text):
    return [scale.value(word) for word in re.findall(FIGURE, text)]


def swept(points, low, high):
    """A prism over an outline in (a, c), from `low` to `high` across the board, whichever way it turns."""
    section = m3.CrossSection([np.asarray(points, dtype=float)], m3.FillRule.NonZero)
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, [*points[1:], points[0]], strict=True))
    if area < 0:
        section = m3.CrossSection([np.asarray(points[::-1], dtype=float)])
    return m3.Manifold.extrude(section, high - low).translate((0, 0, low))


class Bound:
    """What the sheet's rounding may change, in mm3: each figure's half place times the area that it moves."""

    def __init__(self, scale, low, high):
        self.scale, self.low, self.high, self.total = scale, low - MARGIN, high + MARGIN, 0.0

    def moves(self, area, places=0.0, widths=0.0, more=0.0):
        self.total += area * (places * self.scale.place + widths * self.scale.width + more)

    def overlaps(self, other):
        return self.low < other.high and other.low < self.high


class Builder:
    """Builds one part in the frame (a from the datum end, c to the face side, d from the wall edge)."""

    def __init__(self, sheet, scale):
        self.sheet, self.scale = sheet, scale
        self.length, self.depth, self.knots = self._sizes()
        self.taken, self.bounds, self.ends = [], [], {}

    def _sizes(self):
        """Over the long points, the width, and the thickness at one or more places."""
        found = re.search(
            rf"(?:finished (?P<l>{FIGURE}) ×|long points (?P<p>{FIGURE}), short points {FIGURE},) "
            rf"(?P<w>{FIGURE}) × (?P<t>{FIGURE})",
            self.sheet.size,
        )
        long, wide, thick = (self.scale.value(found[key]) for key in ("p" if found["p"] else "l", "w", "t"))
        row = next((row for row in self.sheet.rows if row["cut"].startswith("thickness")), None)
        knots = [(0.0, thick)]
        if row is not None:
            pairs = re.findall(rf"({FIGURE}) at ({FIGURE})", row["takes"])
            knots = [(self.scale.value(at), self.scale.value(size)) for size, at in pairs]
        return long, wide, knots

    def thick(self, a):
        (a0, t0), *rest = self.knots
        if a <= a0:
            return t0
        for a1, t1 in rest:
            if a <= a1:
                return t0 + (t1 - t0) * (a - a0) / (a1 - a0)
            a0, t0 = a1, t1
        return t0

    def solid(self):
        """The board less everything its table takes away."""
        at = sorted({0.0, self.length, *(a for a, _ in self.knots if 0.0 < a < self.length)})
        upper = [(a, self.thick(a) / 2) for a in at]
        board = swept([*((a, -c) for a, c in upper), *reversed(upper)], 0.0, self.depth)
        for row in sorted(self.sheet.rows, key=lambda row: not re.match(r"\w+ ends?\b", row["cut"])):
            self._cut(row)
        return m3.Manifold.batch_boolean([board, *self.taken], m3.OpType.Subtract)

    def allowed(self, bound):
        """What may differ in the slice of one cut: its own figures, its neighbours' and the board's own sizes."""
        wood = min(bound.high, self.length) - max(bound.low, 0.0)
        board = wood * (self.depth * self.scale.thick + self.thick(bound.low) * self.scale.place)
        return board + sum(other.total for other in self.bounds if other.overlaps(bound))

    def _takes(self, solid):
        """Take a solid away; gives the bound that its figures' rounding adds to."""
        self.taken.append(solid)
        low, _, _, high, _, _ = solid.bounding_box()
        bound = Bound(self.scale, max(low, 0.0), min(high, self.length))
        self.bounds.append(bound)
        return bound

    def _cut(self, row):
        words = row["cut"]
        if words.startswith("thickness"):
            return
        if words.startswith("both ends"):
            for place in row[self.sheet.faces[0]].split(", "):
                self._end(self.scale.value(place), self.scale.value(place))
        elif re.match(r"\w+ end\b", words):
            at = [self.scale.value(row[face]) for face in self.sheet.faces]
            self.ends[" ".join(words.split(" ")[:2])] = at
            tongue = re.search(rf"({FIGURE}) thick, goes in ({FIGURE})", row["across walls"])
            if tongue:
                self._tongue(words, at, *map(self.scale.value, tongue.groups()))
            elif cheek := CHEEK.search(words):
                self._lap(cheek, at)
            else:
                self._end(*at)
            self._notched(words, at[0])
        elif re.match("(long )?bore", words):
            self._bore(row)
        elif words.startswith("key pockets"):
            self._pockets(row)
        elif re.match("((dowel|screw) )?holes", words):
            self._holes(row)
        elif words.startswith("tongue groove"):
            self._groove(row)
        elif "housing" in words:
            self._housing(row)
        else:
            self._slot(row)

    def _end(self, upper, lower):
        """What a saw leaves through a place on either face."""
        half = self.thick(upper) / 2
        lean = (upper - lower) / (2 * half)
        middle = (upper + lower) / 2
        far = -self.length if middle < self.length / 2 else 2 * self.length
        c = 4 * half
        edge = [(middle - c * lean, -c), (middle + c * lean, c)]
        bound = self._takes(swept([*edge, (far, c), (far, -c)], -OVER, self.depth + OVER))
        bound.moves(self.depth * 2 * half, places=1.0)

    def _tongue(self, words, at, wide, reach):
        """An end with a tongue on it, square to the shoulders through these places; a cheek runs along a shoulder."""
        (upper, lower), half = at, self.thick(at[0]) / 2
        way = -1.0 if upper < self.length / 2 else 1.0
        size = math.hypot(lower - upper, 2 * half)
        along = ((lower - upper) / size, -2 * half / size)  # from the face side's arris to the other
        out = (way * 2 * half / size, way * (lower - upper) / size)

        def point(on, past):
            return upper + along[0] * on + out[0] * past, half + along[1] * on + out[1] * past

        far, beyond = reach + 4 * half + OVER, 4 * half
        bound = self._takes(
            swept([point(-beyond, reach), point(size + beyond, reach), point(size + beyond, far + beyond),
                   point(-beyond, far + beyond)], -OVER, self.depth + OVER)
        )  # fmt: skip
        bound.moves(self.depth * wide, places=2.0)
        sides = (self.sheet.said["FACE SIDE"], "")
        cheeks = CHEEK.findall(words)
        assert {face == sides[0] for _, face, _ in cheeks} == {True, False}, "a cheek on either face"
        for deep, face, shoulder in cheeks:
            first = face == sides[0]
            assert self.scale.value(shoulder) == (upper if first else lower), "its shoulder is the end's"
            low, high = (-beyond, self.scale.value(deep)) if first else (size - self.scale.value(deep), size + beyond)
            corners = [point(low, 0.0), point(high, 0.0), point(high, far), point(low, far)]
            bound = self._takes(swept(corners, -OVER, self.depth + OVER))
            bound.moves(self.depth * reach, widths=1.0, places=1.0)
            bound.moves(self.depth * self.scale.value(deep), places=1.0)

    def _lap(self, cheek, at):
        """An end cut square at its long point, and one face taken off from a shoulder square to it."""
        deep, face, shoulder = self.scale.value(cheek[1]), cheek[2], self.scale.value(cheek[3])
        first = face == self.sheet.said["FACE SIDE"]
        assert shoulder == at[0 if first else 1], "its shoulder is the end's place on that face"
        end = at[1 if first else 0]
        self._end(end, end)
        half, side = self.thick(shoulder) / 2, 1 if first else -1
        out = 2 * end - shoulder
        inner, outer = side * (half - deep), side * (half + OVER)
        corners = [(shoulder, inner), (out, inner), (out, outer), (shoulder, outer)]
        bound = self._takes(swept(corners, -OVER, self.depth + OVER))
        bound.moves(self.depth * deep, places=1.0)
        bound.moves(self.depth * abs(end - shoulder), widths=1.0)

    def _notched(self, words, at):
        """What is taken off an end over part of its width, up to a place on either face."""
        pattern = (
            rf"(?:(front|wall) edge (?:notched|mitred) ({FIGURE})|mitred ({FIGURE}) to ({FIGURE}) from the front edge)"
            rf", shoulder at ({FIGURE})(?: \w+, ({FIGURE}) \w+)?"
        )
        for edge, reach, start, stop, first, second in re.findall(pattern, words):
            upper = self.scale.value(first)
            lower = self.scale.value(second) if second else upper
            if edge:
                back = self.scale.value(reach)
                low, high = (self.depth - back, self.depth + OVER) if edge == "front" else (-OVER, back)
            else:
                low, high = self.depth - self.scale.value(stop), self.depth - self.scale.value(start)
                back = high - low
            if "mitred" in words:
                self.ends[" ".join(words.split(" ")[:2])] = [upper, lower]
            half, out = self.thick(at) / 2, (-OVER if at < self.length / 2 else self.length + OVER)
            run = (upper - lower) / (2 * half)
            (a0, a1), c = ((upper + lower) / 2 - 2 * half * run, (upper + lower) / 2 + 2 * half * run), 2 * half
            bound = self._takes(swept([(a0, -c), (a1, c), (out, c), (out, -c)], low, high))
            bound.moves(back * 2 * half, places=1.0)
            bound.moves(abs(upper - out) * 2 * half, widths=1.0)
            bound.low, bound.high = max(bound.low, -MARGIN), min(bound.high, self.length + MARGIN)

    def _across(self, row, words):
        """From where to where a cut reaches across the board."""
        (opens, *reach), deep = self._opens(row), self.scale.value(row["deep"])
        if "housing" not in words:
            return (self.depth - deep, self.depth + OVER) if opens == "front" else (-OVER, deep)
        if opens == "both":
            return -OVER, self.depth + OVER
        if opens == "none":
            front = re.search(rf"runs ({FIGURE}) to ({FIGURE}) from the front edge", words)
            return self.depth - self.scale.value(front[2]), self.depth - self.scale.value(front[1])
        run, left = map(self.scale.value, reach)
        assert abs(run + left - self.depth) < RUN_AND_STOP, "what a housing runs and what its stop leaves are the width"
        return (-OVER, run) if opens == "wall" else (self.depth - run, self.depth + OVER)

    def _opens(self, row):
        """The edge a cut opens to; of a housing that stops how far it runs from there, and what is left."""
        words = row["opens to, run, stop"] or row["opens to"]
        return re.fullmatch(rf"(\w+)(?: ({FIGURE}), ({FIGURE}))?", words).groups()

    def _slot(self, row):
        upper, lower = (self.scale.value(row[face]) for face in self.sheet.faces)
        wide, thick = self.scale.value(row["on the face"]), self.thick(upper)
        low, high = self._across(row, row["cut"])
        lean = (upper - lower) / thick
        c = thick / 2 + OVER
        near = [((upper + lower) / 2 + way * c * lean, way * c) for way in (-1, 1)]
        bound = self._takes(swept([*near, *((a + wide, c) for a, c in reversed(near))], low, high))
        deep = min(high, self.depth) - max(low, 0.0)
        bound.moves(deep * thick, places=2.0, widths=1.0)
        bound.moves(wide * thick, places=1.0)

    def _housing(self, row):
        """Let into the face whose column has a figure."""
        words = row["cut"]
        side = 1 if row[self.sheet.faces[0]] != "–" else -1
        place = self.scale.value(row[self.sheet.faces[0 if side > 0 else 1]])
        wide, deep = self.scale.value(row["on the face"]), self.scale.value(row["deep"])
        low, high = self._across(row, words)
        found = re.search(r"head leans (RIGHT|LEFT) ([\d.]+)°", words)
        lean = math.tan(math.radians(float(found[2]))) * self._way(found[1], self._opens(row)[0]) if found else 0.0
        face = side * self.thick(place) / 2
        square = "floor square to the walls" in words
        middle = place + wide / 2
        outline = [(a + side * OVER * lean, face + side * OVER) for a in (place, place + wide)]
        for a in (place + wide, place):  # down each wall to the floor
            floor = face - side * deep + ((middle - a) * lean / (1 + lean * lean) if square else 0.0)
            outline.append((a + (floor - face) * lean, floor))
        bound = self._takes(swept(outline, low, high))
        run = min(high, self.depth) - max(low, 0.0)
        turned = deep * (1 + lean * lean) * TURN if found else 0.0
        bound.moves(deep * run, places=2.0, widths=1.0, more=2 * turned)
        bound.moves(wide * run, places=1.0, more=wide / 4 * TURN if square else 0.0)
        bound.moves(wide * deep, places=1.0)

    def _way(self, head, opens):
        """Whether a head leans to the far end at the face side, seen from the edge that the cut opens to.

        From the front edge the datum end lies left with the face side up, where the front edge is drawn below that.
        """
        datum_left = self.sheet.front_below != (opens == "wall")
        return (1 if head == "RIGHT" else -1) * (1 if datum_left else -1)

    def _bore(self, row):
        """From the front edge, in the middle of the thickness."""
        assert "mid" in row["cut"]
        told = re.fullmatch(r"front(?: edge)? (.+)", row[self.sheet.faces[0]])[1]
        steps = re.match(rf"({FIGURE}) × ({FIGURE}) deep, ({FIGURE}) through", row["across walls"])
        wide, deep, hole = (self.scale.value(word) for word in steps.groups())
        places = [self.scale.value(word) for word in told.split(", ")]
        assert len(places) == len(numbers_of(row)), "a hole for each number that shares the row"
        for at, (size, low) in product(places, ((wide, self.depth - deep), (hole, -OVER))):
            round_hole = m3.Manifold.cylinder(self.depth + OVER - low, size / 2, size / 2, 256)
            bound, long = self._takes(round_hole.translate((at, 0, low))), self.depth - max(low, 0.0)
            bound.moves(size * long, places=2.0)
            bound.moves(math.pi * size * long, places=0.5)
            bound.moves(math.pi / 4 * size**2 * long, more=FACETS)
            bound.moves(math.pi / 4 * wide**2, places=1.0)

    def _plane(self, word):
        """The end called so, as (a on the face side, a on the other), and the way out of the board."""
        at = self.ends[word]
        return at, (-1.0 if at[0] < self.length / 2 else 1.0)

    def _holes(self, row):
        """Holes in a face or square to an end, in the middle of the thickness, at places from the front edge."""
        words = row["cut"]
        size = re.match(
            rf"\d+ of ({FIGURE}) × ({FIGURE}) deep(?:, ({FIGURE}) through)?", row["across walls"].replace("  ", " ")
        )
        wide, deep, on = (self.scale.value(one) if one else 0.0 for one in size.groups())
        places = figures(self.scale, re.search(r"at ([\d., /]+) from the front edge", words)[1])
        end = re.search(r"square to the (\w+ end)", words)
        if end:
            (upper, lower), way = self._plane(end[1])
            half = self.thick(upper) / 2
            start, into = ((upper + lower) / 2, 0.0), (-2 * half * way, (upper - lower) * way)
        else:
            side = 1.0 if f"drilled from the {self.sheet.said['FACE SIDE']}" in words else -1.0
            column = self.sheet.faces[0 if side > 0 else 1]
            place = self.scale.value(row[column])
            start, into = (place, side * self.thick(place) / 2), (0.0, -side)
        steps = [(wide, deep), *([(on, self.thick(start[0]) + OVER)] if on else [])]
        for front in places:
            for across, long in steps:
                self._hole((*start, self.depth - front), into, across, long)

    def _hole(self, start, into, wide, long):
        """One round hole from a point in the wood's surface, a little beyond it too."""
        turn = math.degrees(math.atan2(into[1], into[0]))
        solid = m3.Manifold.cylinder(long + OVER, wide / 2, wide / 2, 256).translate((0, 0, -OVER))
        bound = self._takes(solid.rotate((0, 90, 0)).rotate((0, 0, turn)).translate(start))
        bound.moves(wide * long, places=4.0)  # its place along and across the board, to either side
        bound.moves(math.pi * wide * long, places=0.5)
        bound.moves(math.pi / 4 * wide**2, places=1.0)
        bound.moves(math.pi / 4 * wide**2 * long, more=FACETS)

    def _groove(self, row):
        """In an end's own face, between two places from the face side's arris, square to that face."""
        pattern = rf"in the (\w+ end), ({FIGURE}) to ({FIGURE}) from the arris .* runs ({FIGURE}) to ({FIGURE}) from"
        found = re.search(pattern, row["cut"])
        (upper, lower), way = self._plane(found[1])
        near, far, front, back = (self.scale.value(one) for one in found.groups()[1:])
        deep, half = self.scale.value(row["deep"]), self.thick(upper) / 2
        size = math.hypot(lower - upper, 2 * half)
        along = ((lower - upper) / size, -2 * half / size)  # from the face side's arris to the other
        inward = (-2 * half / size * way, (upper - lower) / size * way)
        points = [
            (upper + along[0] * on + inward[0] * down, half + along[1] * on + inward[1] * down)
            for on, down in ((near, -OVER), (far, -OVER), (far, deep), (near, deep))
        ]
        bound = self._takes(swept(points, self.depth - back, self.depth - front))
        bound.moves(deep * (back - front), widths=2.0, places=2.0)
        bound.moves((far - near) * (back - front), places=2.0)
        bound.moves((far - near) * deep, widths=2.0)

    def _pockets(self, row):
        """A circular cutter sunk into the corner's outside arris, at places counted from the front edge."""
        words = re.search(rf"at (.+) from the front edge, cutter ({FIGURE})", row["cut"])
        side = 1 if row[self.sheet.faces[0]] != "–" else -1
        face = self.sheet.faces[0 if side > 0 else 1]
        place, reach, plunge = (self.scale.value(row[column]) for column in (face, "on the face", "deep"))
        radius, thick = self.scale.value(words[2]) / 2, self.scale.value(row["across walls"])
        stand = radius - plunge
        out = (stand**2 - radius**2 + reach**2) / (2 * reach)  # of its middle, into the board along the face
        off = math.sqrt(stand**2 - out**2)
        arris, way = (0.0, 1) if place < self.length / 2 else (self.length, -1)
        middle = (arris + way * out, side * (self.thick(arris) / 2 + off))
        for front in figures(self.scale, words[1]):
            disc = m3.Manifold.cylinder(thick, radius, radius, 720).translate((*middle, self.depth - front - thick / 2))
            bound = self._takes(disc)
            arc = reach + plunge  # no longer than both legs of the corner
            sagitta = radius * (1 - math.cos(math.radians(3.75)))  # an arc in steps of 7.5 degrees
            bound.moves(arc * thick, places=1.0, widths=2.0, more=sagitta)
            bound.moves(reach * plunge, places=2.0, widths=1.0)

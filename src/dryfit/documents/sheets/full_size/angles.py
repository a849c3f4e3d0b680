"""Paper angles: each different lean and bevel of the job once, its rays long enough to set a bevel to.

An angle off square of more than 45 is drawn as its complement, off the face, as it is set on a saw that tilts no
further. Over 250 a tenth of a degree is 0.44.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ....geometry.frames import Vec2
from ....geometry.views import Surface
from ....piece.model import DATUM_END, Cut
from ....piece.operations import STEEPEST
from ....sentences import Voice
from ...display import Draft, Item, Stroke
from ...kit.label import Label
from ...kit.view import View, place
from ...looks import Desk, Look
from ...naming import angle, position, printed_units, rise
from ...standard import NAME, RIGHT, ROW
from .paper import PrintedBlock, headed, room, sheets
from .window import FAR

Way: TypeAlias = Callable[[float, float], Vec2]

KIND = "paper angles"
RAY = 250.0  # and more of nothing: so far a bevel's blade reaches
CHECK = 150.0  # along the line, where the ray is measured from it: nearer than it reaches at 45
DIGITS = 6  # places of a degree by which two angles differ
ROOM = 3 * NAME  # of a sheet, above and below its ray
FACE = 3 * ROW  # of the face, drawn from the corner


@dataclass(frozen=True, slots=True)
class AngleTemplate:
    """An angle off square, and what is cut so."""

    lean: float
    cuts: tuple[str, ...]

    @property
    def drawn(self) -> float:
        """Between its two lines."""
        return self.lean if self.lean <= STEEPEST else RIGHT - self.lean

    def stands(self, desk: Desk) -> bool:
        """Whether it needs a sheet that stands: its ray rises higher than one that lies has room."""
        return RAY * math.sin(math.radians(self.drawn)) > room(desk).high - ROOM

    def block(self, desk: Desk) -> PrintedBlock:
        """It, on a sheet that lies or stands."""
        upright = self.stands(desk)
        free, turn, way = room(desk, upright=upright), math.radians(self.drawn), _stood if upright else _lying
        long = min(RAY, free.high - ROOM if upright else free.wide)
        off = CHECK * math.tan(turn)
        wood = [_line((0.0, 0.0), way(long, 0.0)), _line((0.0, 0.0), way(RAY, turn)), *self._face(way)]
        check = _line(way(CHECK, 0.0), way(CHECK / math.cos(turn), turn), "dimension")
        labels = [
            Label(says="the cut", at=(way(RAY - ROW, turn),), reach=FAR),
            Label(says="face" if self.over else "square to the face", at=(way(long - ROW, 0.0),), reach=FAR),
            Label(says=position(off), at=(way(math.hypot(CHECK, off / 2), math.atan2(off / 2, CHECK)),), reach=FAR),
        ]
        view = View(title="", wood=(*wood, check), labels=tuple(labels))
        drawn = place(view, (free.wide, free.high), Voice(printed_units(), bare=True))
        title = f"{angle(self.lean)} off square"
        items = headed(title, self._words(), drawn.items, max(drawn.wide, free.wide / 2), (0, 0))
        return PrintedBlock(items=tuple(items), title=title, unplaced=drawn.unplaced)

    @property
    def over(self) -> bool:
        """Whether its complement is drawn."""
        return self.lean > STEEPEST

    def _face(self, way: Way) -> Iterator[Item]:
        """Of one off square, the face it is square to."""
        if not self.over:
            yield _line((0.0, 0.0), way(FACE, math.pi / 2), "hidden")

    def _words(self) -> str:
        drawn, off = (", its complement, which is drawn" if self.over else ""), math.tan(math.radians(self.drawn))
        return (
            f"{angle(RIGHT - self.lean)} off the face{drawn}; {rise(self.lean)}; check: at {position(CHECK)} along the "
            f"line the ray is {position(CHECK * off)} off it; for {', '.join(self.cuts)}"
        )


def _line(start: Vec2, end: Vec2, pen: str = "knife") -> Stroke:
    return Stroke(points=(start, end), pen=pen, layer="cut")


def _lying(far: float, turn: float) -> Vec2:
    """A place so far from the corner, so much turned off a line that runs to the right."""
    return far * math.cos(turn), -far * math.sin(turn)


def _stood(far: float, turn: float) -> Vec2:
    """The same off a line that runs up, to the right of it."""
    return far * math.sin(turn), -far * math.cos(turn)


def leans(looks: Sequence[Look]) -> list[AngleTemplate]:
    """All different angles of some parts, the least first."""
    found: dict[float, list[str]] = {}
    for look in looks:
        for cut in look.part.cuts:
            lean = round(abs(cut.figures.lean), DIGITS)
            if angle(lean) != angle(0.0):
                found.setdefault(lean, []).append(called(look, cut))
    return [AngleTemplate(lean, tuple(names)) for lean, names in sorted(found.items())]


def called(look: Look, cut: Cut) -> str:
    """A cut by its part's letter and its number or its end."""
    if cut.key in look.numbers and not cut.end:
        return f"{look.part.mark} {look.numbers[cut.key]}"
    end = look.names.short(Surface.DATUM if cut.end == DATUM_END else Surface.FAR)
    return f"{look.part.mark} {end} end"


def angle_sheets(desk: Desk, looks: Sequence[Look]) -> list[Draft]:
    """The sheets, those that lie before those that stand."""
    papers = leans(looks)
    made = sheets(desk, KIND, [one.block(desk) for one in papers if not one.stands(desk)])
    standing = [one.block(desk) for one in papers if one.stands(desk)]
    return [*made, *sheets(desk, KIND, standing, len(made) + 1, upright=True)]

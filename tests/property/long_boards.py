"""Boards longer than their stock, drawn at random: held by boards that cross them, at any heading, either hand.

A board of 2 to 7 m is crossed every 400 to 900 at 60 to 120 degrees by boards 300 deep, some of them longer or
shallower; its ends are free, housed in another board or mitred to one; level, plumb or square, with something
left to scribe; on its centre-line or a face; of one thickness or of one that changes. No two of the boards that
hold it come near each other.
"""

import math
from dataclasses import dataclass, replace

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from dryfit.job.model import BoardSpec, EndForm, Finish, Fixing, Job, JointSpec, Wall
from tests.strategies import drawn_the_other_way, headings, in_file_order, lengths, timber

LONG = "long board"
ENDS: tuple[tuple[EndForm | None, EndForm | None], ...] = (
    (None, None),
    ("level", "plumb"),
    ("plumb", "level"),
    ("square", "level"),
)
REACH = 110.0  # of a board that crosses, to either side along its own line


@dataclass(frozen=True, kw_only=True)
class Long:
    """A piece with one long board, in stock that is too short for it.

    Attributes:
        job: the long board comes first.
        longest: of its stock.
    """

    job: Job
    longest: float

    def in_stock(self, longest: float | None) -> Job:
        """The job with other stock for the long board; None for any length."""
        timbers = {**self.job.timbers, LONG: replace(self.job.timbers[LONG], longest=longest)}
        return replace(self.job, timbers=timbers)

    @property
    def divided(self) -> Job:
        return self.in_stock(self.longest)

    @property
    def whole(self) -> Job:
        return self.in_stock(None)

    def reversed(self) -> Job:
        """The same piece, the long board's line and what is counted along it typed from the other end."""
        first, *others = self.divided.boards
        size = math.dist(*first.line)
        fixings = tuple(replace(one, at=tuple(size - at for at in one.at)) for one in self.job.fixings)
        return replace(self.divided, boards=(drawn_the_other_way(first), *others), fixings=fixings)


@dataclass(frozen=True, slots=True)
class _Along:
    """The long board's own directions in the elevation."""

    start: tuple[float, float]
    heading: float

    def at(self, along: float, turn: float = 0.0, by: float = 0.0) -> tuple[float, float]:
        """A place along it, and then `by` in a direction turned from its own."""
        x, y = self.start
        u, v = math.radians(self.heading), math.radians(self.heading + turn)
        return x + along * math.cos(u) + by * math.cos(v), y + along * math.sin(u) + by * math.sin(v)


@st.composite
def long_boards(draw: DrawFn) -> Long:
    """A piece of one long board, the boards that cross it, and perhaps one at either end."""
    gaps = draw(st.lists(lengths(400, 900), min_size=3, max_size=8))
    first, last = draw(lengths(150, 500)), draw(lengths(150, 500))
    places = [first + sum(gaps[:number]) for number in range(len(gaps) + 1)]
    size = places[-1] + last
    line = _Along((draw(lengths(-500, 500)), draw(lengths(-500, 500))), draw(headings()))
    thickness = draw(lengths(15, 30))
    long = BoardSpec(
        name=LONG,
        timber=LONG,
        line=(line.at(0.0), line.at(size)),
        line_is=draw(st.sampled_from(["centre", "centre", "left face", "right face"])),
        depth=draw(lengths(220, 340)),
        ends=draw(st.sampled_from(ENDS)),
        scribe=draw(st.sampled_from([(0.0, 0.0), (0.0, 15.0), (22.5, 4.0)])),
        thickness_at=draw(_thicknesses(size, thickness)),
    )
    holds = [_across(draw, line, place, number) for number, place in enumerate(places, 1)]
    for end, place in (("start", 0.0), ("end", size)):
        if draw(st.integers(1, 3)) == 1 and long.line_is == "centre" and not long.thickness_at:
            holds.append(_at_end(draw, line, place, end))
            long = replace(long, scribe=(0.0, 0.0))
    boards = in_file_order((drawn_the_other_way(long) if draw(st.booleans()) else long, *holds))
    return Long(job=_job(draw, boards, thickness, size), longest=draw(lengths(1400, 3000)))


def _thicknesses(size: float, thickness: float) -> SearchStrategy[tuple[tuple[float, float], ...]]:
    """None; or measured at three places, of which the outer ones may lie within the ends."""
    measured = st.tuples(*(lengths(thickness - 0.6, thickness + 0.6) for _ in range(3)))
    tapered = measured.map(lambda t: ((0.05 * size, t[0]), (0.4 * size, t[1]), (size, t[2])))
    return st.one_of(st.just(()), st.just(()), tapered)


def _across(draw: DrawFn, line: _Along, place: float, number: int) -> BoardSpec:
    turn = draw(st.one_of(st.just(90.0), lengths(60, 120)))
    reach = draw(lengths(80, REACH))
    spec = BoardSpec(
        name=f"across {number}",
        timber="across",
        line=(line.at(place, turn, -reach), line.at(place, turn, reach)),
        depth=draw(st.sampled_from([300.0, 300.0, 250.0])),
    )
    return drawn_the_other_way(spec) if draw(st.booleans()) else spec


def _at_end(draw: DrawFn, line: _Along, place: float, end: str) -> BoardSpec:
    """A board on which the long one ends, or one that is mitred to it."""
    turn = draw(st.one_of(st.just(90.0), lengths(70, 110)))
    mitred = draw(st.booleans())
    return BoardSpec(
        name=f"at the {end}",
        timber="across",
        line=(line.at(place, turn, 0.0 if mitred else -REACH), line.at(place, turn, REACH)),
        depth=draw(st.sampled_from([300.0, 280.0])),
    )


def _job(draw: DrawFn, boards: tuple[BoardSpec, ...], thickness: float, size: float) -> Job:
    """With each crossing's front and, now and then, the other options of the joint asked for by name."""
    asked = tuple(
        JointSpec(
            between=(spec.name, LONG) if draw(st.booleans()) else (LONG, spec.name),
            front=draw(st.sampled_from([LONG, spec.name])),
            options=draw(st.sampled_from([{}, {"ratio": 0.4}])),
            path=("joint", number),
        )
        for number, spec in enumerate(boards[1:])
        if spec.name.startswith("across")
    )
    fixings: tuple[Fixing, ...] = ()
    if draw(st.booleans()):
        at = (round(size / 2, 1), round(size - 120.0, 1))
        fixings = (Fixing(name="screws", board=LONG, kind="long screw", at=at, options={"screw": "wood 5x120"}),)
    coated = draw(st.booleans())
    return Job(
        file="long.toml",
        text="",
        state="00000000",
        title="a long board",
        timbers={LONG: timber(LONG, thickness), "across": timber("across", draw(lengths(15, 30)))},
        boards=tuple(replace(spec, when="before glue") if spec.name == LONG and coated else spec for spec in boards),
        joint_specs=asked,
        fixings=fixings,
        finish=Finish(
            system="demo",
            coats=2,
            film=0.04,
            joint_zones="coated",
        ),
        wall=Wall(hung=True),
    )

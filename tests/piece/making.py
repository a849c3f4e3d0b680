"""Boards and jobs as a maker's file would give them, in one line each, and the stages of a piece from them."""

from collections.abc import Mapping
from typing import Any

from dryfit.findings import Finding
from dryfit.geometry.frames import Vec, dot
from dryfit.geometry.shapes import HalfSpace
from dryfit.job.model import BoardSpec, Job, JointRules, JointSpec, Point, Timber
from dryfit.job.options import evaluated
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.building import build_piece
from dryfit.piece.kinds import Kinds
from dryfit.piece.meetings import Met, find_meetings, pair_key
from dryfit.piece.model import Board, Cut, Joint, Meeting, Part, Piece
from dryfit.piece.setout import NOTHING_MADE, Made, set_out
from dryfit.shop.model import Shop

UNMADE = "tusk tenon"  # a kind that nobody makes, for tests of what is said of one: no other name stays so for good


def plank(name: str, start: Point, end: Point, *, thickness: float = 24.0, depth: float = 300.0, **more) -> BoardSpec:
    """One board; its timber is named after its thickness."""
    line = ((float(start[0]), float(start[1])), (float(end[0]), float(end[1])))
    return BoardSpec(name=name, timber=f"{thickness:g}", line=line, depth=depth, path=("board", name), **more)


def job_of(*boards: BoardSpec, measured: float | None = None, longest: float | None = None, **more) -> Job:
    """A job of these boards; `measured` and `longest` are those of every timber."""
    names = {board.timber for board in boards}
    timbers = {
        name: Timber(
            name=name,
            species="oak, white",
            form="panel",
            thickness=float(name),
            measured=measured,
            longest=longest,
            path=("timber", name),
        )
        for name in names
    }
    return Job(file="t.toml", text="", state="0" * 8, title="test", timbers=timbers, boards=boards, **more)


def asked(one: str, other: str, kind: str = "", front: str = "", index: int = 0, **options: object) -> JointSpec:
    """One `[[joint]]`."""
    return JointSpec(between=(one, other), kind=kind, front=front, options=options, path=("joint", index))


def rules(clearance: float | None = None, **kinds: Mapping[str, object]) -> JointRules:
    """`[joints]` with the options of kinds, `_` for the blank in a kind's name."""
    return JointRules(clearance=clearance, kinds={name.replace("_", " "): table for name, table in kinds.items()})


def placed(board: BoardSpec, made: Made = NOTHING_MADE, **more) -> Board:
    """One board set out."""
    return set_out(board, job_of(board, **more), made)


def met(*boards: BoardSpec) -> Met:
    """Where the boards meet."""
    job = job_of(*boards)
    return find_meetings([set_out(board, job) for board in boards], Keep())


def meeting_of(*boards: BoardSpec) -> Meeting:
    """The one meeting of these boards."""
    (meeting,) = met(*boards).meetings
    return meeting


def built(job: Job, made: Made = NOTHING_MADE, keep: Keep | None = None, kinds: Mapping[str, Any] = KINDS) -> Piece:
    """The piece of a job; `kinds` are those of the product unless a test has its own."""
    return build_piece(job, Kinds(kinds), Shop(), made, keep)


def coded(found: tuple[Finding, ...], code: str) -> list[Finding]:
    """The findings with this code."""
    return [finding for finding in found if finding.code == code]


def joint_of(piece: Piece, one: str, other: str) -> Joint:
    """The joint of two boards."""
    return piece.joint_by_key[pair_key(one, other)]


def cut_of(piece: Piece, key: str) -> Cut:
    """The cut with this key."""
    (cut,) = [cut for part in piece.parts for cut in part.cuts if cut.key == key]
    return cut


def corners_at(part: Part, end: int) -> list[Vec]:
    """The world places of an end's two corners on the wall edge, at +c and -c."""
    planes = [shape for cut in part.cuts if cut.end == end for shape in cut.shapes if isinstance(shape, HalfSpace)]
    found = []
    for face in (1, -1):
        places = []
        for plane in planes:
            c = face * part.board.thickness_at(plane.point[0]) / 2
            rest = dot(plane.normal, plane.point) - plane.normal[1] * c
            places.append(rest / plane.normal[0])
        a = min(places) if end > 0 else max(places)
        found.append(part.board.frame.place((a, face * part.board.thickness_at(a) / 2, 0.0)))
    return found


def options_for(kind: Any, meeting: Meeting, measures: Mapping[str, float] | None = None, **own: object) -> Any:
    """Options of a kind worked out at a meeting, as `choose` does it."""
    low, high = meeting.overlap
    scope = {**(measures or {}), "t_a": meeting.a.thickness, "t_b": meeting.b.thickness, "overlap": high - low}
    return evaluated(kind.options.model_validate(own), scope)

"""Fixings set out: each `[[fixing]]` is a meeting of a board with the wall, at one or more places."""

import math
from collections.abc import Mapping

from ..findings import Finding, Severity, declare, owns
from ..geometry.frames import Frame
from ..job.model import Fixing, Job, Wall
from ..job.options import in_mm
from ..keeping import Keep, Same
from ..places import Where
from ..sentences import Fineness, Length, Name, On, Sentence, say
from ..trade.anchors import Anchor
from .kinds import Kinds
from .model import WALL, Board, Meeting, Side, Touch

OFF_THE_BOARD = declare(
    "fixing-off-board",
    "A fixing is placed where its board is not.",
    uncured="where it is to go instead is a choice of design",
)
owns("joints", OFF_THE_BOARD)


def meetings_with_wall(
    job: Job, boards: Mapping[str, Board], kinds: Kinds, keep: Keep
) -> tuple[tuple[Meeting, Fixing], ...]:
    """A meeting for every fixing whose board is there."""
    return tuple(
        (_kept(fixing, boards[fixing.board], job.wall, _described(fixing, job, kinds), keep), fixing)
        for fixing in job.fixings
        if fixing.board in boards
    )


def _described(fixing: Fixing, job: Job, kinds: Kinds) -> Anchor | None:
    """The table of the anchor that the fixing, or its kind's rule, names: in the option that the kind has for it."""
    option = kinds[fixing.kind].anchored if fixing.kind in kinds else ""
    asked = {**job.joints.kinds.get(fixing.kind, {}), **fixing.options}.get(option)
    return job.anchors.get(asked) if isinstance(asked, str) else None


def _kept(fixing: Fixing, board: Board, wall: Wall, anchor: Anchor | None, keep: Keep) -> Meeting:
    """A meeting is kept by all that is read of the fixing for it: its options come later."""
    key = (Same(board), fixing.name, fixing.at, fixing.path, wall, anchor)
    return keep.get("meeting with the wall", key, lambda: _meeting(fixing, board, wall, anchor))


def wall_options(wall: Wall) -> dict[str, object]:
    """What a fixing's options take from the wall, where the maker does not say otherwise: as a maker would write it."""
    lengths = {"lining": wall.lining, "hollow": wall.hollow, "void": wall.void}
    written: dict[str, object] = {name: in_mm(mm) for name, mm in lengths.items() if mm is not None}
    return {**written, "into": wall.kind} if wall.kind else written


def _meeting(fixing: Fixing, board: Board, wall: Wall, anchor: Anchor | None) -> Meeting:
    places = tuple(board.length - at if board.flipped else at for at in fixing.at)
    at = places[0]
    thickness = min(board.thickness_at(place) for place in places)
    x, z = board.frame.x, (0.0, 0.0, 1.0)
    origin = board.frame.place((at, 0.0, 0.0))
    touch = Touch.EDGE if board.lies == "across" else Touch.FACE
    a = Side(
        body=board.name,
        touch=touch,
        at=at,
        turn=0.0,
        thickness=thickness,
        thickest=board.thickest,
        back=board.back,
        front=board.front,
        before=at,
        after=board.length - at,
        species=board.species,
        path=board.path,
    )
    b = Side(
        body=WALL,
        touch=Touch.FACE,
        at=origin[0],
        turn=0.0,
        thickness=0.0,
        thickest=0.0,
        back=-math.inf,
        front=0.0,
        before=0.0,
        after=0.0,
    )
    return Meeting(
        key=(fixing.name, WALL),
        form="fixing",
        a=a,
        b=b,
        angle=90.0,
        frame=Frame(origin, x, (-x[1] + 0.0, x[0], 0.0), z),
        places=places,
        studs_off=_studs_off(board, places, wall),
        anchor=anchor,
        path=fixing.path,
    )


def _studs_off(board: Board, places: tuple[float, ...], wall: Wall) -> tuple[float, ...]:
    if not wall.studs:
        return ()
    along = [board.frame.place((place, 0.0, 0.0))[0] for place in places]
    return tuple(round(min(abs(x - stud) for stud in wall.studs), 6) for x in along)


def off_the_board(meeting: Meeting) -> tuple[Finding, ...]:
    """Every place must lie on the board, clear of its ends by its thickness."""
    side = meeting.a
    length = side.before + side.after
    return tuple(
        Finding(
            code=OFF_THE_BOARD,
            severity=Severity.STOP,
            where=Where(boards=(side.body,), fixing=meeting.key[0], path=meeting.path),
            says=say("{}: place {} lies {}", Name(meeting.key[0]), str(number), _off_the_end(left, side.body)),
            remedy=say("keep it {} or more from either end", Length(side.thickness, Fineness.WHOLE, On.UP)),
            found=left,
            limit=side.thickness,
            unit="mm",
            source="common practice",
        )
        for number, place in enumerate(meeting.places, 1)
        for left in [min(place, length - place)]
        if left < side.thickness
    )


def _off_the_end(left: float, board: str) -> Sentence:
    if left < 0:
        return say("{} beyond the end of {}", Length(-left, Fineness.WHOLE), Name(board))
    return say("{} from the end of {}", Length(left, Fineness.WHOLE), Name(board))

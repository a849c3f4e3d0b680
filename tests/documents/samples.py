"""A book made by hand, so that sheets are tested against figures a pencil can check.

The long shelf A is 2600 x 330 x 24, level at y 600. B leans 9 degrees to the right from (650, 0), C 9 degrees
to the left from (2080, 0), D stands plumb at 1420; all cross A and are 24 thick, clearance 0.15. E, plumb at
2330, is housed 8 deep from below. Two bores run through A's width at 250 and 2050; 15 are left long at its
right end. By plane trigonometry, with 24.15 / cos 9 = 24.451 on the face and 24 tan 9 = 3.801 from face to face:

    B crosses A at 650 + 600 tan 9 = 745.031: upper face from 745.031 - 12.225 + 1.901 = 734.706
"""

import math

from dryfit.book.model import Book
from dryfit.geometry.frames import Frame
from dryfit.geometry.shapes import Bore, half_space, prism
from dryfit.job.model import Job, Timber
from dryfit.piece.facts import CutForm, Opens
from dryfit.piece.model import DATUM_END, FAR_END, Blank, Board, Cut, Figures, Part, Piece
from dryfit.piece.operations import Operation, Way, across, bored, sawn, slotted
from dryfit.piece.operations import WorkSort as OperationWork
from dryfit.piece.solids import Solids
from dryfit.piece.sums import Sum
from dryfit.shop.model import Shop
from dryfit.shop.tools import Process
from dryfit.studies.setups import SetUpsStudy, SetUpsValue, cuts_of
from dryfit.study.base import Work
from dryfit.study.outcome import Done

T, DEPTH, CLEARANCE, LEAN = 24.0, 330.0, 0.15, 9.0
ACROSS = T + CLEARANCE
OVER = 13.0  # past the faces, at c = 12
SEAT = 165.5
STEPS = ((0.0, 12.0), (280.0, 6.6), (331.0, 0.0))

UPPER = {"raking 1": 734.706, "upright 3": 1407.925, "raking 2": 1970.843}
LOWER = {"raking 1": 730.905, "upright 3": 1407.925, "raking 2": 1974.644, "short upright": 2317.925}
ON_FACE, SHIFT = 24.451, 3.801


def board(name, origin, angle, length, *, face_side=1, depth=DEPTH, profile=((0.0, T),), **more):
    """A board in space from its datum end, its line at an angle to the floor."""
    x, y = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    if angle in (0, 90):
        x, y = round(x), round(y)
    frame = Frame((*origin, 0.0), (float(x), float(y), 0.0), (-float(y) + 0.0, float(x), 0.0), (0.0, 0.0, 1.0))
    return Board(
        name=name,
        timber="oak24",
        frame=frame,
        length=length,
        depth=depth,
        profile=profile,
        face_side=face_side,
        **more,
    )


def leaning(a, lean, width=ACROSS, over=OVER):
    """Outline in (a, c) of a slot that crosses the centre-line at `a` and leans to the far end at +c."""
    half, run = width / 2 / math.cos(math.radians(lean)), over * math.tan(math.radians(lean))
    return (a - half - run, -over), (a + half - run, -over), (a + half + run, over), (a - half + run, over)


def slot(body, takes, a, lean, low, high, opens):
    """A slot through the thickness from one edge to its seat."""
    return Cut(
        key=f"slot in {body} for {takes}",
        body=body,
        form=CutForm.SLOT,
        word="raked slot" if lean else "slot",
        noun="slot",
        takes=takes,
        joint=tuple(sorted((body, takes))),
        shapes=(prism(leaning(a, lean), low, high),),
        figures=Figures(
            width=Sum.alone(ACROSS),
            on_face=ACROSS / math.cos(math.radians(lean)),
            depth=Sum.alone(SEAT),
            opens=Opens(opens),
            between_faces=90 - abs(lean),
            lean=lean,
        ),
        size_is="FIT TO",
    )


def end(body, which, a, normal=None, size_is="FIXED", lean=0.0):
    """A saw cut across an end."""
    return Cut(
        key=f"{'datum' if which == DATUM_END else 'far'} end of {body}",
        body=body,
        form=CutForm.END,
        word="end",
        end=which,
        shapes=(half_space((a, 0.0), normal or (float(which), 0.0)),),
        figures=Figures(opens=Opens.END, lean=lean),
        size_is=size_is,
    )


def bore(body, a):
    """12 wide 280 deep from the front edge, 6.6 through."""
    return Cut(
        key=f"bore in {body} at {a:.0f}",
        body=body,
        form=CutForm.BORE,
        word="long bore",
        noun="bore",
        joint=(body, "wall"),
        shapes=(Bore(start=(a, 0.0, DEPTH), direction=(0.0, 0.0, -1.0), profile=STEPS),),
        figures=Figures(depth=Sum.alone(280.0), opens=Opens.FRONT),
    )


def long_shelf():
    """Part A."""
    name, run = "long shelf", 600 * math.tan(math.radians(LEAN))
    half = ACROSS / 2
    housing = Cut(
        key="housing in long shelf for short upright",
        body=name,
        form=CutForm.HOUSING,
        word="housing",
        takes="short upright",
        joint=("short upright", name),
        face=-1,
        shapes=(prism(((2330 - half, -13), (2330 + half, -13), (2330 + half, -4), (2330 - half, -4)), -1.0, 331.0),),
        figures=Figures(width=Sum.alone(ACROSS), on_face=ACROSS, depth=Sum.alone(8.0), opens=Opens.FACE),
        size_is="FIT TO",
    )
    cuts = (
        end(name, DATUM_END, 0.0),
        bore(name, 250.0),
        slot(name, "raking 1", 650 + run, LEAN, -1.0, SEAT, "wall edge"),
        slot(name, "upright 3", 1420.0, 0.0, -1.0, SEAT, "wall edge"),
        slot(name, "raking 2", 2080 - run, -LEAN, -1.0, SEAT, "wall edge"),
        bore(name, 2050.0),
        housing,
        end(name, FAR_END, 2600.0, size_is="LEAVE LONG"),
    )
    blank = Blank(start=-10.0, end=2625.0, width=DEPTH, thickness=T)
    shelf = board(name, (0.0, 600.0), 0, 2600.0, scribe=(0.0, 15.0))
    return Part(board=shelf, mark="A", blank=blank, long=(0.0, 2600.0), short=(0.0, 2600.0), cuts=cuts)


def upright(name, mark, foot, lean):
    """A board 1900 high from the floor, level ends, slotted from the front for the shelf; leans right by `lean`."""
    sine, cosine = math.cos(math.radians(lean)), math.sin(math.radians(lean))
    length = 1900 / sine
    point = T / 2 * abs(cosine) / sine
    cuts = (
        end(name, DATUM_END, 0.0, (-sine, -cosine), lean=abs(lean)),
        slot(name, "long shelf", 600 / sine, -lean, SEAT - 1.0, DEPTH + 1.0, "front edge"),
        end(name, FAR_END, length, (sine, cosine), lean=abs(lean)),
    )
    return Part(
        board=board(name, (foot, 0.0), 90 - lean, length, face_side=1 if lean >= 0 else -1, ends=("level", "level")),
        mark=mark,
        blank=Blank(start=-point - 10, end=length + point + 10, width=DEPTH, thickness=T),
        long=(-point, length + point),
        short=(point, length - point),
        cuts=cuts,
    )


def short_upright():
    """Part E: 588 to the shelf's lower face and 8 into it."""
    name = "short upright"
    cuts = (end(name, DATUM_END, 0.0), end(name, FAR_END, 596.0))
    blank = Blank(start=-10.0, end=606.0, width=DEPTH, thickness=T)
    return Part(
        board=board(name, (2330.0, 0.0), 90, 596.0),
        mark="E",
        blank=blank,
        long=(0.0, 596.0),
        short=(0.0, 596.0),
        cuts=cuts,
    )


def parts():
    """All five."""
    return (
        long_shelf(),
        upright("raking 1", "B", 650.0, LEAN),
        upright("raking 2", "C", 2080.0, -LEAN),
        upright("upright 3", "D", 1420.0, 0.0),
        short_upright(),
    )


def book_of(*made, title="Listening wall", findings=(), shop=None, **more):
    """A book of parts made by hand, with the mass of a wood of 680 kg/m3."""
    timbers = {"oak24": Timber(name="oak24", species="white oak", form="panel", thickness=T)}
    job = Job(file="wall.toml", text="", state="a324ab17", title=title, date="2025-11-25", timbers=timbers, **more)
    boards = tuple(part.board for part in made)
    piece = Piece(boards=boards, meetings=(), joints=(), parts=made, decisions=(), findings=())
    solids = Solids()
    mass = {part.id: solids.volume(part) * 680e-9 for part in made}
    outcomes = {"setups": Done(result=setups_of(piece, shop or Shop()))}
    return Book(
        job=job, shop=shop or Shop(), piece=piece, outcomes=outcomes, findings=findings, solids=solids, mass_kg=mass
    )


def setups_of(piece, shop):
    """The set-ups of cuts that no joint kind has made: each worked as a cut of its form is."""
    operations = [one for part in piece.parts for cut in part.cuts if not cut.is_old for one in worked(cut, part.board)]
    value = SetUpsValue(operations=tuple(operations), cuts=tuple(cuts_of(piece)), shop=shop, units="mm")
    return SetUpsStudy().run(value, Work())


def worked(cut, board):
    """The bench work of one cut, by the helpers that joint kinds have."""
    if cut.end:
        return [sawn([cut], board)]
    if isinstance(cut.shapes[0], Bore):
        return list(bored(cut, board, "long bit"))
    if cut.face:
        way = Way(process=Process.ROUTER, makes="housing", says="router on a guide", sets=across(cut, board))
        return [Operation(key=cut.key, work=OperationWork.ACROSS, cuts=(cut.key,), ways=(way,))]
    return [slotted(cut, board)]


def sample_book(**more):
    """The book of the five."""
    return book_of(*parts(), **more)

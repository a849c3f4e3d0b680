"""A sketch, never registered: long screws through a board's width into the wall, apart from the product's own kind.

Case K8: board 27 thick, 280 wide, M6 x 80, cap head 10, washer 12: counterbore 13, hole 6.6; lining 12.5, 20 of thread
beyond it: the grip is 80 - 12.5 - 20 = 47.5 on a flat wall (counterbore 232.5) and 42.5 with 5 of hollow (237.5);
side wall (27 - 13) / 2 = 7. The second body of the joint is the wall; a fixing's own name is the joint's identity.
"""

import math
from typing import Literal

import pytest
from pydantic import Field

from dryfit.findings import Finding, Severity
from dryfit.geometry.shapes import OVER, Bore
from dryfit.geometry.solids import SIDES
from dryfit.job.model import Fixing, Wall
from dryfit.job.options import Options, Quantity
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.carries import fast
from dryfit.piece.clash import clashes
from dryfit.piece.facts import CutForm, Opens
from dryfit.piece.kinds import JointKind
from dryfit.piece.model import WALL, Cut, Figures, Joint, Judgement, Making, Motion, Touch, Ware
from dryfit.piece.operations import bored
from dryfit.piece.solids import Solids
from dryfit.piece.sums import Sum
from dryfit.places import Where

from ..piece.making import built, coded, cut_of, job_of, plank

THIN = "thin-beside-bore"  # the product's own code: a sketch declares none, so that the manual need not tell of it


class ScrewOptions(Options):
    diameter: Quantity = Field(default=6.0)
    long: Quantity = Field(default=80.0)
    thread: Literal["machine", "wood"] = "machine"
    counterbore: Quantity = Field(default=13.0)
    hole: Quantity = Field(default=6.6)
    beyond: Quantity = Field(default=20.0)
    lining: Quantity = Field(default=0.0)  # these three are the wall's own, where they are left out
    hollow: Quantity = Field(default=0.0)
    into: str = ""


class WallScrew(JointKind[ScrewOptions]):
    name = "sketched long screw"
    serves = frozenset({(Touch.EDGE, Touch.FACE)})
    options = ScrewOptions

    def judge(self, meeting, options):
        reasons = []
        if options.thread == "machine" and "stud" in options.into:
            reasons.append("a machine screw has no hold in a stud")
        if options.hole <= options.diameter:
            reasons.append(f"a hole of {options.hole:g} is too tight for {options.diameter:g}")
        if self._grip(options) < max(30.0, 4 * options.diameter):
            reasons.append(f"a grip of {self._grip(options):g} is too little")
        return Judgement(possible=not reasons, reasons=tuple(reasons))

    def _grip(self, options):
        return options.long - options.hollow - options.lining - options.beyond

    def makings(self, meeting, options):
        return (
            Making(
                name="screwed to the wall", motions=(Motion(body=meeting.a.body, direction=(0.0, 0.0, 1.0), free=1.0),)
            ),
        )

    def matings(self, meeting, options, making):
        return ()

    def carries(self, joint):
        """One place of these is as good as many: the board is held fast."""
        return (fast(joint.meeting),)

    def make(self, meeting, options, making):
        side = meeting.a
        wide = side.front - side.back
        deep = wide - self._grip(options)
        cuts = tuple(
            Cut(
                key=f"bore {number} of {meeting.key[0]}",
                body=side.body,
                form=CutForm.BORE,
                word="bore",
                name=f"bore {number}",
                takes="screw",
                joint=meeting.key,
                shapes=(
                    Bore(
                        start=(place, 0.0, wide),
                        direction=(0.0, 0.0, -1.0),
                        profile=((-OVER, options.counterbore), (deep, options.hole), (wide + OVER, 0.0)),
                    ),
                ),
                figures=Figures(
                    width=Sum.alone(options.counterbore),
                    depth=Sum.alone(deep),
                    opens=Opens.FRONT,
                    note=f"grip {self._grip(options):g}",
                ),
            )
            for number, place in enumerate(meeting.places, 1)
        )
        left = (side.thickness - options.counterbore) / 2
        thin = Finding(
            code=THIN,
            severity=Severity.WARN,
            where=Where(boards=(side.body,), fixing=meeting.key[0], path=meeting.path),
            says=f"{left:g} of wood beside the bores",
            found=left,
            limit=6.0,
            unit="mm",
        )
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            cuts=cuts,
            gaps=(),
            findings=(thin,) * (left < 6.0),
        )

    def hardware(self, joint):
        options, count = joint.options, len(joint.cuts)
        return (
            Ware(what="screw", says=f"{options.diameter:g} x {options.long:g}", count=count),
            Ware(what="plug", says=f"{options.counterbore:g}", count=count),
        )

    def operations(self, joint, boards):
        return tuple(one for cut in joint.cuts for one in bored(cut, boards[cut.body], "long bit in a drilling guide"))

    def notes(self, joint):
        return ("Plugs go in after hanging.",)


SHOWN = {**KINDS, WallScrew.name: WallScrew()}
ANCHORS = Wall(kind="masonry", lining=12.5, hollow=0.0, hung=True)


def hung(*fixings, wall=ANCHORS, thickness=27.0, line=((100, 900), (1300, 900))):
    """A shelf 280 wide from x = 100 to 1300 with screws at 200 and 1000 along its line."""
    shelf = plank("shelf", *line, thickness=thickness, depth=280)
    return built(job_of(shelf, fixings=fixings or (fixing(),), wall=wall), kinds=SHOWN)


def fixing(name="screws", at=(200.0, 1000.0), **own):
    return Fixing(name=name, board="shelf", kind=WallScrew.name, at=at, options=own, path=("fixing", 0))


@pytest.mark.parametrize(("hollow", "deep"), [(0.0, 232.5), (5.0, 237.5)], ids=["flat wall", "5 of hollow"])
def test_the_counterbore_leaves_the_grip_of_case_k8(hollow, deep):
    piece = hung(wall=Wall(kind="masonry", lining=12.5, hollow=hollow, hung=True))

    assert [cut.figures.deep for cut in piece.joints[0].cuts] == [deep, deep]
    assert piece.joints[0].cuts[0].shapes[0].profile[1] == (deep, 6.6)


def test_the_solid_comes_out_by_hand():
    """Two stepped holes: 13 for 232.5, then 6.6 for 47.5, each a polygon of 32 sides."""
    piece = hung()
    ring = SIDES / 2 * math.sin(2 * math.pi / SIDES)

    hole = ring * (6.5**2 * 232.5 + 3.3**2 * 47.5)
    assert Solids().volume(piece.parts[0]) == pytest.approx(1200 * 27 * 280 - 2 * hole)


@pytest.mark.parametrize("line", [((100, 900), (1300, 900)), ((1300, 900), (100, 900))], ids=["as given", "drawn back"])
def test_places_run_along_the_line_from_its_start(line):
    piece = hung(line=line)
    frame = piece.boards[0].frame
    along = [frame.place(cut.shapes[0].start)[0] for cut in piece.joints[0].cuts]

    assert along == ([300, 1100] if line[0][0] == 100 else [1100, 300])


def test_two_fixings_on_one_board_are_two_joints():
    piece = hung(fixing(), fixing("more screws", (600.0,), long=90))

    assert [joint.key for joint in piece.joints] == [("screws", WALL), ("more screws", WALL)]
    keys = [cut.key for cut in piece.parts[0].cuts]
    assert len(keys) == len(set(keys)) == 2 + 3
    assert cut_of(piece, "bore 1 of more screws").figures.deep == 222.5


@pytest.mark.parametrize(
    ("wall", "own", "reason"),
    [
        (Wall(kind="plasterboard on timber studs", lining=12.5, hollow=0.0, hung=True), {}, "no hold in a stud"),
        (ANCHORS, {"hole": 6.0}, "a hole of 6 is too tight for 6"),
        (ANCHORS, {"long": 60}, "a grip of 27.5 is too little"),
        (ANCHORS, {"lining": 40}, "a grip of 20 is too little"),
    ],
    ids=["machine screw into a stud", "6.0 for M6", "too short", "the maker's own lining"],
)
def test_what_does_not_fit_the_wall_is_refused_at_its_own_table(wall, own, reason):
    piece = hung(fixing(**own), wall=wall)
    (finding,) = coded(piece.findings, "joint-unsuited")

    assert reason in str(finding.says)
    assert (finding.where.fixing, finding.where.path) == ("screws", ("fixing", 0))
    assert piece.joints == ()


@pytest.mark.parametrize(("thickness", "left"), [(27.0, None), (24.0, 5.5)], ids=["7 of side wall", "5.5"])
def test_little_wood_beside_the_bore_is_a_warning(thickness, left):
    found = coded(hung(thickness=thickness).findings, THIN)

    assert [finding.found for finding in found] == ([] if left is None else [left])


def test_no_other_room_stumbles_over_it():
    piece = hung()
    (joint,) = piece.joints
    keep, kind = Keep(), SHOWN[WallScrew.name]

    assert clashes(piece.parts, Solids(keep), frozenset({joint.key}), keep) == ()
    assert not [finding for finding in piece.findings if finding.severity is Severity.STOP]
    assert joint.meeting.b.body == WALL
    assert [(item.name, str(item.says), item.count) for item in kind.hardware(joint)] == [
        ("screw", "6 x 80", 2),
        ("plug", "13", 2),
    ]
    assert kind.matings(joint.meeting, None, joint.making) == ()
    assert {cut for operation in kind.operations(joint, piece.board_by_name) for cut in operation.cuts} == {
        cut.key for cut in joint.cuts
    }
    settings = [operation.ways[0].sets for operation in kind.operations(joint, piece.board_by_name)]
    assert (len(settings), len(set(settings))) == (4, 2)  # a bit for the counterbore and one for the hole
    assert kind.notes(joint) == ("Plugs go in after hanging.",)
